"""Rails that hang on corner posts: by blocks screwed to both, or by fittings that have no published value.

A rail hands its load to the block's screws in it, the block to its own screws in the post. Those stand the blocks'
width away, so that the block leans away from the post about its lower edge and pulls at them too. The rail's end that
presses against the post is not counted. Our choice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Box, Build, Joint, Leg
from tutorial_lib.records import dataclass
from tutorial_lib.strength.fixings import Fixings, Row
from tutorial_lib.strength.joints import Capacity, slanted_limit
from tutorial_lib.strength.use import Limit
from tutorial_lib.strength.working import OURS, Term, step

Way = Literal["along", "across"]
RAILS: Mapping[str, Way] = {"side_rail": "along", "end_rail": "across"}


@dataclass(frozen=True)
class Corner:
    """One rail's end at one post, with the block that holds it; no block where a fitting does."""

    leg: Leg
    rail: str
    to_rail: Joint | None
    to_post: Joint | None

    @property
    def fitted(self) -> bool:
        """True where a fitting without a published value holds the rail."""
        return self.to_rail is None


def corners(build: Build) -> dict[tuple[str, Way], Corner]:
    """Every rail's end at a post, by the leg's label and the way its rail runs."""
    found = {}
    posts = {piece: leg for leg in build.legs if leg.post for piece in leg.pieces}
    for meet in (joint for joint in build.joints_of("post") if joint.near in posts):
        leg = posts[meet.near]
        into_rail, to_post = _of_block(build, meet)
        way = RAILS[build.pieces[meet.far].use]
        found[leg.label, way] = Corner(leg, meet.far, into_rail, to_post)
    return found


def _of_block(build: Build, meet: Joint) -> tuple[Joint | None, Joint | None]:
    """The joints to rail and post of the block where the two meet; None where a fitting holds the rail."""
    into_post = {joint.near: joint for joint in build.joints_of("post") if joint.far == meet.near}
    blocks = build.joints_of("block")
    into_rail = next((joint for joint in blocks if joint.far == meet.far and joint.near in into_post), None)
    return into_rail, None if into_rail is None else into_post[into_rail.near]


def both_driven(corner: Corner, fixings: Fixings) -> bool:
    """True where the block is screwed to the rail and to the post."""
    return (
        corner.to_rail is not None
        and corner.to_post is not None
        and bool(fixings.row(corner.to_rail) and fixings.row(corner.to_post))
    )


def hung(build: Build, corner: Corner, fixings: Fixings) -> tuple[float, float]:
    """Where the rail hangs along the bed [in], and how stiff [lb/in]: both rows one after the other."""
    rail, post = (fixings.row(joint) if joint else None for joint in (corner.to_rail, corner.to_post))
    if rail is None or post is None:
        return at_fitting(build, corner), FITTING
    both = 1 / (1 / _stiffness(rail) + 1 / _stiffness(post))
    return sum(rail.places) / len(rail.places), both


FITTING = 1e5  # [lb/in] a hook counts as stiff; its bed has no rating


def at_fitting(build: Build, corner: Corner) -> float:
    """Where a fitting holds a rail along the bed: an inch from its end, our choice [in]."""
    box = build.pieces[corner.rail].box
    return float(box.lo[0]) + 1 if corner.leg.x < box.centre[0] else float(box.hi[0]) - 1


def _stiffness(row: Row) -> float:
    return len(row.places) * row.stiffness


def arm(build: Build, corner: Corner, to_rail: Fastening) -> float:
    """From the post's face to the block's screws in the rail, along the rail [in]."""
    assert corner.to_post is not None
    axis, face = corner.to_post.axis, float(corner.to_post.contact.lo[corner.to_post.axis])
    heads = [float(driven.head[axis]) for driven in to_rail.driven]
    return abs(sum(heads) / len(heads) - face)


def leaning(to_post: Fastening, off: float, low: float) -> float:
    """Pull of the worst screw in the post for each pound that it carries across.

    Args:
        to_post: the block's screws in the post.
        off: from the post's face to where the load comes [in].
        low: height of the block's lower edge [in].

    The block turns about its lower edge: pull = R e z / sum z^2 at the highest, while each carries R / n.
    """
    heights = [float(driven.head[2]) - low for driven in to_post.driven]
    squares = sum(z * z for z in heights)
    return len(heights) * off * max(heights) / squares if squares > 0 else float("inf")


def post_limit(known: Capacity, count: int, slope: float, duration: float) -> Limit:
    """What a block's screws in the post carry down together [lb], pulled as it leans."""
    one = slanted_limit(known, slope, duration)
    value = one.value * count
    last = step(
        "allowed across, all of them", "n x one", (Term("n", float(count)), Term("one", one.value, "force")),
        Term("", value, "force"), f"NDS 2018 11.3.1; {OURS}",
    )  # fmt: skip
    return Limit(value, lambda: (*one.how(), last))


def top_of(build: Build, leg: Leg) -> Iterator[Box]:
    """The tops of a post's blocks, on which slats lie."""
    for corner in corners(build).values():
        if corner.leg is leg and corner.to_post is not None:
            yield build.pieces[corner.to_post.near].box


__all__ = ["Corner", "arm", "both_driven", "corners", "hung", "leaning", "post_limit", "top_of"]
