"""Wood that no fastener sold can hold: refused, since any screw the program chose would fail its own rules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tutorial_lib.design.model import Build
from tutorial_lib.drilling.job import Job
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer

# By table of the build file: the key that says how thick the wood is, and the way out.
WAYS_OUT = {
    "corner": ("frame.rail", "Use thicker rails."),
    "block": ("posts.blocks", "Use blocks, posts or rails of another section."),
    "batten": ("headboard.battens", "Use battens of another section."),
    "upright": ("headboard.uprights", "Use uprights of another section."),
    "panel": ("headboard.lumber", "Use thicker boards, or thinner battens."),
    "panel_slat": ("headboard.slats", "Use thicker slats, or thinner rails of the headboard."),
    "bed_bolt": ("posts.lumber", "Use thinner posts, or another posts.joint."),
    "post": ("posts.blocks", "Use blocks or posts of another section."),
    "cleat": ("frame.rail", "Use thicker rails, or runners under them."),
    "runner": ("support.lumber", "Use runners or rails of another section."),
    "runner_end": ("support.lumber", "Use runners or rails of another section."),
    "slat": ("slats.lumber", "Use thinner slats, or thicker wood under them."),
    "leg": ("legs.lumber", "Use legs of another section, or another legs.place."),
    "ply": ("legs.lumber", "Use thicker boards, or one post."),
    "line": ("centre.lumber", "Use another section for the centre lines."),
    "plinth": ("plinth.lumber", "Use thinner boards, or thicker legs."),
    "flange": ("support.lumber", "Use thicker wood above the flanges."),
}


def refuse_unfit(build: Build, jobs: Iterable[Job]) -> None:
    """Every joint whose fastener was left open must have one that is sold and holds.

    Raises:
        DesignError: with each kind of joint that has none.
    """
    faults = list(dict.fromkeys(_faults(build, jobs)))
    if faults:
        raise DesignError(faults)


def _faults(build: Build, jobs: Iterable[Job]) -> Iterator[Fault]:
    w = writer(build.options.build.units)
    for job in jobs:
        stated = job.options.gauge or job.options.lengths or job.options.diameter or job.options.head_depth
        if job.choice.fits or stated:
            continue
        near, far = (build.part_of(label) for label in (job.joint.near, job.joint.far))
        thick = [w.length(build.pieces[label].box.size[job.joint.axis]) for label in (job.joint.near, job.joint.far)]
        key, way_out = WAYS_OUT[job.table]
        yield Fault(
            key,
            f"through {thick[0]} of {near.name} into {thick[1]} of {far.name} no {job.options.kind} that is sold "
            f"holds and stays inside the wood. {way_out}",
        )
