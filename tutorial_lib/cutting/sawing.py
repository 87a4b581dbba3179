"""What is said about sawing, by the kind of saw: tools, order of work, what can hurt. Common practice, no source."""

from __future__ import annotations

from tutorial_lib.records import dataclass


@dataclass(frozen=True, kw_only=True)
class Sawing:
    """The words for one kind of saw."""

    tools: str  # for the list of tools; takes the kerf
    wear: str
    cautions: tuple[str, ...]  # before one starts
    order: tuple[str, ...]  # after the first end is squared and the tape hooked on it
    alike: str  # heading of all pieces of one length
    at: str  # heading of that length
    caution: str  # beside the cuts; takes the shortest length to hold by hand


SAWING = {
    "power": Sawing(
        tools="saw with a stop block (blade {} wide)",
        wear="safety glasses, ear protection, a dust mask",
        cautions=(
            "Wear eye protection at the saw and the drill, hearing protection at a power saw, and a mask when sanding. "
            "Take the plug or battery out of a power tool before you change its blade or bit.",
            "Keep hands out of the blade's line; clamp short pieces, never hold them by hand.",
        ),
        order=(
            "Cut the longest pieces first; what is left can still give the shorter ones.",
            "Or clamp a stop block, set it once for each length below, and cut all of that length before moving it.",
        ),
        alike="Stop-block settings, lumber by lumber",
        at="stop at",
        caution="Never hold a piece shorter than {} by hand at the saw: clamp it, or leave it on the board until its "
        "last cut. Eyes and ears covered; let the blade stop before reaching in.",
    ),
    "hand": Sawing(
        tools="hand saw (its cut {} wide), saw horses or a bench hook",
        wear="safety glasses, a dust mask",
        cautions=(
            "Wear eye protection at the drill and a mask when sanding. Take the plug or battery out of a power tool "
            "before you change its bit.",
            "Clamp the board before you saw, and keep the other hand off the line in front of the teeth.",
        ),
        order=(
            "Carry each line round all four faces with a square, saw just beside it, and hold up the end that falls.",
            "Cut the longest pieces first, and mark alike pieces from the first one, not from the tape.",
        ),
        alike="Pieces of one length, lumber by lumber",
        at="length",
        caution="Clamp every board on both sides of the cut or lean it on a bench hook: {} and shorter is too short to "
        "hold with a hand alone. Start with short pulls; the hand that steadies stays behind the teeth.",
    ),
}
