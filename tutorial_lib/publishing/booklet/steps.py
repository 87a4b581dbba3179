"""Putting it together: four steps a page, each with its picture, what to have, what to do, where to look."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from tutorial_lib.assembly import Step
from tutorial_lib.assembly.lifting import LIFTERS
from tutorial_lib.assembly.wording import bring, counted, numbered
from tutorial_lib.drawing.isometric import step_drawing
from tutorial_lib.drawing.layout import extent
from tutorial_lib.drawing.scene import PAPER, Scene
from tutorial_lib.narration.captions.cues import clock
from tutorial_lib.publishing.booklet.leaf import Book, Data, Drawn, Leaf, cautions, drawn
from tutorial_lib.publishing.chapters import seconds_of_step

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan

PICTURE, LOW, LOWEST = 140.0, 112.0, 72.0  # [pt] of height; where there is much to tell; very much
TURN = ", and turn it over only when its corners are fastened."
AFTERWARDS = ("retighten", "apart")  # told without a picture
GAP = 18.0  # [pt] between the columns
SIZES = (1.2, 1.1, 1.0, 0.92, 0.84)  # of all pictures alike, the first that takes the fewest pages


def leaves(book: Book) -> Iterator[Leaf]:
    """All steps."""
    assembly = book.assembly
    told = [_step(book, step) for step in assembly.steps if step.key not in AFTERWARDS]
    yield Leaf("steps", {
        "lead": _lead(book), "lift": _lift(book),
        "steps": told, "tight": book.tight, "sizes": _sizes(book, [step["picture"] for step in told]),
        "later": [_later(book, step) for step in assembly.steps if step.key in AFTERWARDS],
        "others": [{"title": other.title, "what": other.what} for other in assembly.alternatives],
        "cautions": cautions(assembly.findings),
    }, joined=True)  # fmt: skip


def _lift(book: Book) -> str:
    if book.plan.build.bed_stands:
        return "Lift the bed from the wall with two people."
    lifters = numbered(max([LIFTERS, *(step.turn.people for step in book.plan.assembly.steps if step.turn)]))
    return f"Lift the frame with {lifters}{TURN if book.plan.assembly.turns else '.'}"


def _takes(book: Book) -> str:
    return f"It takes {numbered(max(LIFTERS, book.plan.assembly.people))}"


def _lead(book: Book) -> str:
    assembly = book.assembly
    if book.plan.build.bed_stands:
        return (f"{_takes(book)}. Wood: what comes in. White: what is there. "
                f"The headboard weighs {book.w.weight(assembly.weight)}.")  # fmt: skip
    turns = {0: "the frame is never turned over", 1: "the frame is turned over once"}.get(
        assembly.turns, f"the frame is turned over {assembly.turns} times")  # fmt: skip
    return (f"{_takes(book)}; {turns}. Wood: what comes in. White: what is there. "
            f"The bed weighs {book.w.weight(assembly.weight)}.")  # fmt: skip


def _sizes(book: Book, pictures: Iterable[object]) -> list[float]:
    """The sizes at which the words of all pictures come out alike: none is cut down to its column's width."""
    wide = max((x1 - x0 + 2 * Scene.margin for picture in pictures if isinstance(picture, Drawn)
                for x0, _, x1, _ in [extent(picture.scene)] if list(picture.scene.texts())), default=1.0)  # fmt: skip
    return [size for size in SIZES if size <= 1 or size * wide <= (book.width - GAP) / 2]


def _step(book: Book, step: Step) -> Data:
    scene = _picture(book, step)
    return {
        "number": step.number, "title": step.title, "video": _time(book, step),
        "picture": None if scene is None else drawn(scene),
        "have": list(_have(book, step)), "do": to_do(book.plan, step),
        "look": list(step.look), "mind": list(step.wrong),
        "warnings": list(_warnings(book, step)),
    }  # fmt: skip


def _picture(book: Book, step: Step) -> Scene | None:
    """The step's drawing at the largest size that fits its panel."""
    high = (LOWEST if book.tight else LOW if book.close else PICTURE) - 2 * Scene.margin
    return step_drawing(book.plan.build, step, (book.width - GAP) / 2, PAPER, high)


def _time(book: Book, step: Step) -> str:
    """When the video shows it, where captions were given."""
    seconds = seconds_of_step(book.chapters, step.key)
    return "" if seconds is None else clock(seconds)


def _have(book: Book, step: Step) -> Iterator[str]:
    """What to lay ready: pieces, fasteners with their bits."""
    pieces = step.new or step.made
    if pieces:
        yield counted(book.plan.build, pieces, step.key == "ply")
    for screws in step.screws:
        yield screws.counted
        holes = screws.bits(book.w.own if book.close else book.w)  # the page of bits has both
        yield f"{holes}; {screws.tool}" if holes else screws.tool


def to_do(plan: Plan, step: Step) -> list[str]:
    """The sentences of a step but those that only say what to fetch: that stands in a list."""
    if step.operation is None:
        return list(step.do)
    earlier = (s for s in plan.assembly.steps if s.number < step.number)
    made = {label for other in earlier for label in other.made}
    fetched = set(bring(plan.build, step.operation, made))
    return [told for told in step.do if told not in fetched]


def _warnings(book: Book, step: Step) -> Iterator[str]:
    if step.turn is not None:
        share, limit = book.w.weight(step.turn.share), book.w.weight(step.turn.limit)
        yield (f"{numbered(step.turn.people).capitalize()}: {share} in the hands at the start; one person should lift "
               f"no more than {limit} here (NIOSH revised lifting equation, our use).")  # fmt: skip
    if step.hides:
        more = f" and {len(step.hides) - 4} more" if len(step.hides) > 4 else ""
        yield f"No driver reaches these screws after this step: {', '.join(step.hides[:4])}{more}. Tighten them before."


def _later(book: Book, step: Step) -> Data:
    moves = book.plan.assembly.movement
    play = book.w.length(moves.play, 32)
    stands = book.plan.build.bed_stands
    grain = [] if stands else [f"Along the grain wood hardly moves: the slats keep their {play} of play."]
    return {"number": step.number, "title": step.title, "do": list(step.do), "look": list(step.look),
            "mind": [*step.wrong, *(grain if step.key == "retighten" else ())]}  # fmt: skip
