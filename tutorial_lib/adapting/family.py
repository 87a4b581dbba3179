"""All sizes at once: sizes x parts, with the rules that trip; constructions and leg layouts too.

Worked out here one after another, on all cores, or on a cluster (:mod:`tutorial_lib.pool`); :func:`members` hands each
bed out as it is done and keeps none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any

from tutorial_lib import tables
from tutorial_lib.adapting.adapt import adapt
from tutorial_lib.design.build_file import read_build, to_toml
from tutorial_lib.design.model import Part
from tutorial_lib.design.options import Options
from tutorial_lib.design.parts import names_of
from tutorial_lib.design.sizes import mattress_size
from tutorial_lib.errors import InputError
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan
from tutorial_lib.records import dataclass

Workers = Callable[[Callable[["Task"], "Member"], Iterable["Task"]], Iterator[tuple[int, "Member"]]]
Progress = Callable[[int, int, "Member"], object]  # how many are done, of how many, the one just done
MOST_ASKED = ("US twin", "US full", "US queen", "US king", "UK double", "EU double 160")  # our choice

AS_BUILT: dict[str, dict[str, Any]] = {"as the creator builds it": {}}
CONSTRUCTIONS: dict[str, dict[str, Any]] = AS_BUILT | {
    "flat runners under the frame": {
        "support.kind": "runners", "support.lumber": "2x4", "support.recess": None, "support.end_play": None,
        "screws.cleat": None, "screws.leg": None,
    },
    "end rails cap the side rails": {"frame.corners": "end rails cap"},
}  # fmt: skip
LEG_LAYOUTS: dict[str, dict[str, Any]] = {
    "2 legs a side": {"legs.per_side": 2, "legs.omit": None},
    "3 legs a side": {"legs.per_side": 3, "legs.omit": None},
    "4 legs a side": {"legs.per_side": 4, "legs.omit": None},
}


SIDE_LEGS = {"corner_leg": "leg", "mid_leg": "leg"}  # the sides' legs, whatever they are called


@dataclass(frozen=True)
class Cell:
    """One part of one bed."""

    name: str
    count: int
    length: Fraction  # [in]
    section: str


@dataclass(frozen=True, kw_only=True)
class Member:
    """One bed of the family, in figures that travel between machines."""

    size: str
    variant: str  # construction or leg layout
    mattress: tuple[Fraction, Fraction]  # [in] width, length
    parts: tuple[tuple[str, Cell], ...] = ()
    changes: tuple[str, ...] = ()  # what had to change, and why
    stops: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()  # rules that trip
    troubles: tuple[str, ...] = ()
    would: str = ""
    cost: str = ""  # of the lumber, in words
    price: Fraction | None = None  # the same as an amount; None where no price is known
    weight: float = 0.0  # [lb]
    lying: Fraction = Fraction(0)  # [lb] each person
    build: str = ""  # its build file

    @property
    def sound(self) -> bool:
        """True when no rule stops it."""
        return not self.stops


@dataclass(frozen=True)
class Task:
    """One bed to work out, as text and plain values."""

    creator: str  # the creator's build file
    size: str
    variant: str
    changes: tuple[tuple[str, Any], ...]


def every_size(creator: Options) -> tuple[str, ...]:
    """Every size of the table once, each by what reads back to it; the build's own family by name."""
    own = tables.family_of(*mattress_size(creator), creator.mattress.size)
    names: dict[tuple[Fraction, Fraction], str] = {}
    for row in tables.mattresses():
        name = f"{row.region} {row.name}"
        chosen = tables.mattress(name, own).chosen
        size = f"{writer(row.units).length(row.width)} x {writer(row.units).length(row.length)}"
        if (chosen.width, chosen.length) == (row.width, row.length):
            names[row.width, row.length] = name
        else:
            names.setdefault((row.width, row.length), size)
    return tuple(names.values())


def family(
    creator: Options,
    sizes: Iterable[str] | None = None,
    variants: Mapping[str, Mapping[str, Any]] | None = None,
    through: Workers | None = None,
    progress: Progress | None = None,
) -> tuple[Member, ...]:
    """Every size in every variant, each adapted from the creator's build; in the order asked for.

    Args:
        creator: the creator's options.
        sizes: names or sizes; None takes every size of the table.
        variants: a name for each set of choices, such as :data:`CONSTRUCTIONS` or :data:`LEG_LAYOUTS`; None keeps the
            creator's.
        through: what works them out: ``pool.on_processes``, or ``partial(pool.on_cluster, address=...)``; None does it
            here, one after another.
        progress: told after each bed.
    """
    wanted = tuple(sizes if sizes is not None else every_size(creator))
    chosen = variants if variants is not None else AS_BUILT
    done: dict[int, Member] = {}
    for number, member in members(creator, wanted, chosen, through):
        done[number] = member
        if progress is not None:
            progress(len(done), len(wanted) * len(chosen), member)
    return tuple(done[number] for number in sorted(done))


def members(
    creator: Options,
    sizes: Sequence[str],
    variants: Mapping[str, Mapping[str, Any]] = AS_BUILT,
    through: Workers | None = None,
) -> Iterator[tuple[int, Member]]:
    """The beds of a family as they are done, each with its number: every size of the first variant, then the next."""
    text = to_toml(creator)
    tasks = (Task(text, size, name, tuple(changes.items())) for name, changes in variants.items() for size in sizes)
    return through(work_out, tasks) if through is not None else enumerate(map(work_out, tasks))


def work_out(task: Task) -> Member:
    """One bed of the family; what can't exist is told as a stop."""
    creator = read_build(task.creator, "creator")
    try:
        adaptation = adapt(creator, task.size, dict(task.changes))
    except InputError as error:
        width, length = _mattress(creator, task.size)
        told = (str(error),)
        return Member(size=task.size, variant=task.variant, mattress=(width, length), stops=told, troubles=told)
    yours = adaptation.yours
    findings = adaptation.findings
    return Member(
        size=task.size,
        variant=task.variant,
        mattress=yours.build.mattress,
        parts=tuple(_cells(yours)),
        changes=tuple(str(change) for change in adaptation.changes if change.key != "mattress"),
        stops=tuple(f"{f.rule}: {f.what}" for f in findings if f.severity == "stop"),
        cautions=tuple(dict.fromkeys(f.rule for f in findings if f.severity == "caution")),
        troubles=adaptation.troubles,
        would=adaptation.would,
        cost=yours.cutting.money.write(yours.cutting.cost) if yours.cutting.cost else "no price",
        price=Fraction(yours.cutting.cost, yours.cutting.money.per_unit) if yours.cutting.cost else None,
        weight=_weight(yours),
        lying=yours.strength.lying.pounds,
        build=to_toml(yours.options, f"{task.size}, adapted from {creator.build.title}"),
    )


def _mattress(creator: Options, size: str) -> tuple[Fraction, Fraction]:
    row = tables.mattress(size, tables.family_of(*mattress_size(creator), creator.mattress.size)).chosen
    return row.width, row.length


def _cells(plan: Plan) -> Iterator[tuple[str, Cell]]:
    for part in plan.build.made:
        key = SIDE_LEGS.get(part.key, part.key)
        yield key, Cell("side leg" if key == "leg" else _column(plan, part), part.count, part.length, part.section.name)


def _column(plan: Plan, part: Part) -> str:
    """A part's name over a column of many sizes, in each of which it is as long as it is."""
    name = part.name if part.use == "post" else names_of(plan.options)[part.use]
    nth = part.key.removeprefix(part.use).strip("_")
    return f"{name} {nth}" if nth and part.use != "post" else name


def _weight(plan: Plan) -> float:
    from tutorial_lib.design.weights import bed_weight

    return bed_weight(plan.build)


def columns(members: Iterable[Member]) -> tuple[tuple[str, str], ...]:
    """Key and name of every part any of the beds has, in build order."""
    found: dict[str, str] = {}
    for member in members:
        found |= {key: cell.name for key, cell in member.parts if key not in found}
    return tuple(found.items())


def table(members: Sequence[Member], units: str) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Headings and rows: size, outcome, each part as count x length, lumber, weight, rules that trip."""
    keys = columns(members)
    variants = len({member.variant for member in members}) > 1
    write = writer(units)
    head = ("size", *(("built",) if variants else ()), "holds", *(name for _, name in keys), "lumber",
            f"weight ({write.unit('weight')})", "rules that trip")  # fmt: skip
    rows = []
    for member in members:
        cells = (_cut([cell for part, cell in member.parts if part == key], units) for key, _ in keys)
        holds = "yes" if member.sound else "no"
        trip = "; ".join((*member.stops, *member.cautions)) or "none"
        built = (member.variant,) if variants else ()
        weight = f"{write.convert('weight', member.weight):.0f}"
        rows.append((member.size, *built, holds, *cells, member.cost, weight, trip))
    return head, tuple(rows)


def by_length(cells: Iterable[Cell]) -> dict[Fraction, int]:
    """How many of a part there are of each length [in]."""
    counts: dict[Fraction, int] = {}
    for cell in cells:
        counts[cell.length] = counts.get(cell.length, 0) + cell.count
    return counts


def _cut(cells: Sequence[Cell], units: str) -> str:
    """Count and length of a part, those of the same length together."""
    figures = (f"{n} × {writer(units).mark(length)}" for length, n in by_length(cells).items())
    return ", ".join(figure.replace(" ", "\N{NO-BREAK SPACE}") for figure in figures) or "–"
