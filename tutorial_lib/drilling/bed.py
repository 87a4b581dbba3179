"""The bed drilled: a build and its loads in, fasteners in place, holes, clashes and quantities out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build, JointKind
from tutorial_lib.drilling.access import DriverRoom, Solid, in_the_way
from tutorial_lib.drilling.choosing import Loads, job_for
from tutorial_lib.drilling.clashes import Clash, clashes
from tutorial_lib.drilling.demand import Demand, Holding
from tutorial_lib.drilling.job import Job, fastening, shanks
from tutorial_lib.drilling.moving import placed
from tutorial_lib.drilling.quantities import Buy, Hardware, buys, hardware
from tutorial_lib.drilling.refusing import refuse_unfit
from tutorial_lib.drilling.rules import judge
from tutorial_lib.drilling.schedule import PieceHoles, schedule
from tutorial_lib.drilling.screws import options_for, table_of
from tutorial_lib.findings import Finding
from tutorial_lib.records import dataclass

Hidden = Mapping[JointKind, tuple[int, tuple[str, ...]]]


@dataclass(frozen=True, kw_only=True)
class Drilling:
    """All fasteners and holes of a bed."""

    build: Build
    fastenings: tuple[Fastening, ...]
    jobs: tuple[Job, ...]  # of the joints that are made; all but where a headboard is bolted to a bed that stands
    clashes: tuple[Clash, ...]
    buys: tuple[Buy, ...]
    hardware: tuple[Hardware, ...]
    hidden: Hidden  # how many can't be retightened, and what covers them
    findings: tuple[Finding, ...]
    there: tuple[Job, ...] = ()  # of joints that are there already
    chosen: tuple[Job, ...] = ()  # all of them before they were moved out of each other's way

    @cached_property
    def schedule(self) -> tuple[PieceHoles, ...]:
        """Every hole of every piece, pieces drilled alike together; worked out when first asked for."""
        return schedule(self.build, (*self.jobs, *self.there))

    def of(self, table: str) -> tuple[Job, ...]:
        """The jobs of one table of the build file ("cleat", "slat" …)."""
        return tuple(job for job in self.jobs if job.table == table)


def drill(
    build: Build, demand: Demand | None = None, holding: Holding | None = None, like: Drilling | None = None
) -> Drilling:
    """Chooses, checks and places every fastener, and works out the holes for them.

    Args:
        build: the bed.
        demand: loads on joints; without it screws are spaced by common practice.
        holding: a fastener's worth at duration factor 1 [lb].
        like: of a bed that differs in nothing but its screws; those stated alike are not chosen again.

    Raises:
        InputError: a gauge, shank or species that the tables don't have, or a structural screw without its data.
        DesignError: wood that no fastener sold can hold.
    """
    chosen = tuple(_chosen(build, Loads(demand, holding), like))
    refuse_unfit(build, chosen)
    everything = placed(build, chosen)
    fastenings = tuple(fastening(job) for job in everything)
    jobs, there = (tuple(job for job in everything if build.makes(job.joint) == made) for made in (True, False))
    bought = tuple(made for made in fastenings if build.makes(made.joint))
    found = tuple(clashes([shank for job in everything for shank in shanks(job)]))
    hidden = _hidden(build, bought)
    return Drilling(
        build=build,
        fastenings=fastenings,
        jobs=jobs,
        there=there,
        chosen=chosen,
        clashes=found,
        buys=buys(bought),
        hardware=hardware(build, bought),
        hidden=hidden,
        findings=tuple(judge(build, jobs, found, hidden)),
    )


FASTENED = ("screw", "bolt")


def _chosen(build: Build, loads: Loads, like: Drilling | None) -> Iterator[Job]:
    """Each joint's fastener and its places; what another bed's has stated alike is taken from there."""
    known = {} if like is None else {job.joint: job for job in like.chosen if _stated_alike(build, like.build, job)}
    for joint in build.joints:
        if joint.fastener in FASTENED:
            yield known[joint] if joint in known else job_for(build, joint, loads)


def _stated_alike(build: Build, other: Build, job: Job) -> bool:
    """True where both beds' options say the same of a joint's fasteners, in the same table."""
    if table_of(build, job.joint) != job.table:
        return False
    return options_for(build.options.screws, job.table) == options_for(other.options.screws, job.table)


def _hidden(build: Build, fastenings: tuple[Fastening, ...]) -> dict[JointKind, tuple[int, tuple[str, ...]]]:
    """Fasteners that no driver reaches in the finished bed, by kind of joint, and the parts that cover them."""
    room = DriverRoom(build.options.driver.length, build.options.driver.radius)
    counts: dict[JointKind, int] = {}
    covers: dict[JointKind, set[str]] = {}
    standing = [(label, piece.box.floats) for label, piece in build.pieces.items()]
    for made in fastenings:
        own = (made.joint.near, made.joint.far, *made.joint.beyond)
        others = [known for known in standing if known[0] not in own]
        for index in _blockers(made, [solid for _, solid in others], room):
            counts[made.joint.kind] = counts.get(made.joint.kind, 0) + 1
            covers.setdefault(made.joint.kind, set()).add(build.part_of(others[index][0]).name)
    return {kind: (count, tuple(sorted(covers[kind]))) for kind, count in counts.items()}


def _blockers(made: Fastening, others: Sequence[Solid], room: DriverRoom) -> Iterator[int]:
    for driven in made.driven:
        found = in_the_way(driven.floats, made.fastener.kind, others, room)
        if found is not None:
            yield found[1]
