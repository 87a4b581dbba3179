"""Facts of corner posts: how far they stand out, in and up, and what joins them to the rails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from tutorial_lib.drilling import bed_bolts
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Leg, Part
    from tutorial_lib.drilling.job import Job


def facts(tell: Teller, build: Build) -> Iterator[Fact]:
    """All facts of the posts; none of a frame whose rails meet."""
    posts = [leg for leg in build.legs if leg.post]
    if not posts:
        return
    post, rail = posts[0].size[0], build.part("side_rail").section.thickness
    reveal = -min(leg.near_edge for leg in posts)
    chosen = "our choice" if build.options.posts.reveal is None else "stated"
    yield tell.length("post.section", post, "section", "post, each way", "actual size")
    yield tell.length("post.reveal", reveal, "distance", "post's outer face beyond the rail's", chosen)
    inside = post - reveal - rail
    yield tell.length("post.inside", inside, "distance", "post beyond the rail's inner face, into the opening",
                      f"{tell.fine(post)} post − {tell.fine(reveal)} reveal − {tell.fine(rail)} rail "
                      f"= {tell.fine(inside)}")  # fmt: skip
    above = min(build.pieces[leg.pieces[0]].box.hi[2] for leg in posts) - build.heights.rail_top
    yield tell.length("post.above", above, "distance", "post's top above the rail's", "stated or level")


def bed_bolts_of(tell: Teller, jobs: Sequence[Job]) -> Iterator[Fact]:
    """Bolts through the posts and the barrel nuts in the rails."""
    job, nut = jobs[0], bed_bolts.nut_of(jobs[0])
    total, each = sum(len(j.spots) for j in jobs), len(job.spots)
    yield tell.count("bed_bolt.each", each, "bolt_count", "bolts in one rail's end", "our choice")
    yield tell.count("bed_bolt.total", total, "bolt_count", "bed bolts in all", f"{len(jobs)} rail ends × {each}")
    yield tell.length("bed_bolt.length", job.fastener.length, "bolt_length", "bed bolt",
                      "stated" if job.fastener.stated else "the shortest sold that goes on past its nut")  # fmt: skip
    yield tell.length("bed_bolt.diameter", job.fastener.shank, "diameter", "bed bolt", "stated or usual")
    yield tell.length("bed_bolt.hole", job.bits.clearance.size, "diameter", "hole for a bed bolt",
                      job.bits.clearance.rule)  # fmt: skip
    yield tell.count("barrel_nut.count", total, "part_count", "barrel nuts", "one on each bed bolt")
    yield tell.length("barrel_nut.diameter", nut.width, "diameter", "barrel nut across", nut.status)
    yield tell.length("barrel_nut.from_end", bed_bolts.FROM_END, "distance",
                      "barrel nut's middle from the rail's end", "common practice, no source")  # fmt: skip


def working(tell: Teller, build: Build, part: Part) -> str:
    """How the length of a post, its blocks or a rail between posts came about."""
    heights, post = build.heights, next(leg for leg in build.legs if leg.post)
    if part.use == "post":
        above = part.length + heights.leveller - heights.rail_top
        foot = f" − {tell.fine(heights.leveller)} leveller" if heights.leveller else ""
        return f"{tell.fine(heights.rail_top)} rail top + {tell.fine(above)} above{foot} = {tell.fine(part.length)}"
    if part.use == "corner_block":
        return (
            f"{tell.fine(heights.slat_bottom)} slats' underside − {tell.fine(heights.rail_bottom)} rail's underside "
            f"= {tell.fine(part.length)}"
        )
    if part.use == "headboard":
        return f"as placed, between the head posts: {tell.fine(part.length)}"
    if part.use == "batten":
        return f"from the end rail's top edge to the headboard's = {tell.fine(part.length)}"
    whole = build.outside[1] if part.use == "side_rail" else build.outside[0]
    start = post.near_edge + post.size[0]
    return f"{tell.fine(whole)} over the rails − 2 × {tell.fine(start)} post behind them = {tell.fine(part.length)}"


def middle_legs(tell: Teller, build: Build, legs: Sequence[Leg]) -> Iterator[Fact]:
    """Where the legs between the posts stand along the side rail."""
    if not legs:
        return
    start = build.part("side_rail").pieces[0].box.lo[0]
    yield tell.marks("leg.marks", sorted({leg.near_edge - start for leg in legs}),
                     "near edge of each leg between the posts from the side rail's head end",
                     "evenly between the posts")  # fmt: skip
