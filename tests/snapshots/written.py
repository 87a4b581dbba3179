"""All that a plan says, as text: pieces, joints, facts, what the rules found, lists, checks, templates.

    python -m tests.snapshots.written            # writes them anew; read what changed before it is kept

The numbers aren't right because they stand here: worked beds, printed values and finite elements decide that
(``tests/data/worked``, ``tests/validation``, ``tests/strength``). They stand here so that none changes unnoticed.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from tutorial_lib.design.build_file import read_build
from tutorial_lib.facts import facts_of
from tutorial_lib.lists import NAMES, csv_text, list_of
from tutorial_lib.plan import Plan, plan
from tutorial_lib.publishing.templates import template_pages
from tutorial_lib.strength.use import Effect, Use

ROOT = Path(__file__).parents[2]
OURS = ROOT / "assets" / "builds"
FEW_LEGS = 6
STORED = ROOT / "tests" / "data" / "plans"
CALCULATED = re.compile(r"~([-+.e\d]+)")  # what eight digits may round another way on another machine
TIE = 1e-6  # of two as great as that, the first stands
BEDS = (
    "hand-saw", "guest-bed-90", "spare-room-twin", "corner-legs", "doubled-legs", "ends-on-legs", "queen-tubes",
    "king-two-lines", "full-box-spring", "queen-runners-set-in", "queen-runners-under-the-rail", "queen-corner-posts",
    "two-lines-2x8", "three-flat-lines", "tubes-one-left-out",
)  # fmt: skip


def builds() -> dict[str, Path]:
    """The beds by name: those that come with the project, and those made for this."""
    found = {path.stem: path for folder in (OURS, STORED) for path in folder.rglob("*.toml")}
    return {name: found[name] for name in BEDS}


def read(path: Path) -> Plan:
    """The plan of a build file."""
    return plan(read_build(path.read_text(encoding="utf-8"), path.name))


def text(made: Plan) -> str:
    """All that a plan says, a line for each thing."""
    return "".join(f"{line}\n" for line in lines(made))


def lines(made: Plan) -> Iterator[str]:
    """Room by room."""
    yield from pieces(made)
    yield from joints(made)
    yield from _facts(made)
    yield from _findings(made)
    left_out = ("facts",) if few_legs(made) else ("facts", "loads")
    for name in NAMES:
        if name not in left_out:
            yield from (f"{name}: {row}" for row in csv_text(list_of(made, name)).splitlines())
    yield from _checks(made)
    yield from work(made)
    yield from _templates(made)


def few_legs(made: Plan) -> bool:
    """Whether what each leg's going would do is told too; of many it takes seconds."""
    return len(made.build.legs) <= FEW_LEGS


def told(value: Any) -> str:
    """A number exactly where it is exact, else to eight digits; what holds several in brackets."""
    if isinstance(value, float):
        return f"~{value:.8g}"
    if isinstance(value, tuple | list):
        return f"({', '.join(map(told, value))})"
    return str(value)


def pieces(made: Plan) -> Iterator[str]:
    """Pieces, lines and legs in their places."""
    for piece in made.build.pieces.values():
        yield f"piece {piece.label}: {piece.shape} {told(piece.box.lo)} {told(piece.box.hi)}"
    for line in made.build.lines:
        yield f"line {line.name}: {line.kind} {told((line.y, line.seat, line.x, line.members, line.legs))} {line.ends}"
    for leg in made.build.legs:
        yield f"leg {leg.label}: {told((leg.x, leg.y, leg.near_edge, leg.size))} {leg.line} {leg.corner}"


def joints(made: Plan) -> Iterator[str]:
    """Each joint with what holds it; of many alike, where the fasteners are."""
    for fastening in made.drilling.fastenings:
        joint, screw = fastening.joint, fastening.fastener
        held = (screw.kind, screw.gauge, screw.length, fastening.head_depth, fastening.penetration, fastening.pilot,
                fastening.clearance, fastening.countersink, joint.play, joint.bears, joint.end_grain)  # fmt: skip
        yield f"joint {joint.kind} {joint.label}: {joint.axis} {joint.sign} {told(held)}"
        yield f"    {' '.join(told(driven.head) for driven in fastening.driven)}"


def _facts(made: Plan) -> Iterator[str]:
    for fact in facts_of(made).values():
        yield f"fact {fact.key} = {told(fact.value)} {fact.unit} | {fact.kind} | {fact.what} | {fact.working}"


def _findings(made: Plan) -> Iterator[str]:
    """What the rules found, and the changes worth trying."""
    for finding in made.findings:
        yield f"finding {finding.severity}, {finding.rule}: {finding}"
        yield from (
            f"    {remedy.text}: {told([f'{k}={v}' for k, v in remedy.changes])}" for remedy in finding.remedies
        )


def _checks(made: Plan) -> Iterator[str]:
    """The worst of each check of each part: how much of what is allowed is used, what does it, how the limit came."""
    worst: dict[tuple[str, str, str, str], Use] = {}
    for use in made.strength.uses:
        key = (use.part, use.what, use.kind, use.key)
        if key not in worst or use.ratio > worst[key].ratio * (1 + TIE):
            worst[key] = use
    for key, use in worst.items():
        effect = greatest(use)
        values = (use.ratio, use.limit.value, use.relief, effect.dead, effect.live)
        yield f"check {' '.join(key)}: {told(values)} {use.rates}"
        for working in use.limit.how():
            values = told([term.value for term in working.terms])
            yield f"    {working.what}: {working.formula}; {values} {working.words}"
    for rating in (made.strength.lying, made.strength.sitting):
        yield f"rating {rating.kind}: {told((rating.pounds, rating.exact))} {rating.capped} {rating.why}"
    for load in made.strength.leg_loads:
        yield f"load on {load.name}: {told(load.load)} {load.case}"
    for entry in made.strength.legs if few_legs(made) else ():
        yield f"without {entry.name}: {told((entry.lying.exact, entry.sitting.exact))} {entry.word}: {entry.why}"
    for span in made.strength.spans:
        *numbers, working = vars(span).values()
        yield f"span {told(numbers)} {working.formula}"


def greatest(use: Use) -> Effect:
    """The effect that decides; of equals the first, whatever the last digits say."""
    greatest = use.effects[0]
    for effect in use.effects:
        if effect.at(use.person) > greatest.at(use.person) * (1 + TIE):
            greatest = effect
    return greatest


def work(made: Plan) -> Iterator[str]:
    """What the order of work and the finish add to the lists."""
    yield f"frame weighs {told(made.assembly.frame_weight)} lb"
    yield from (f"before {told(list(vars(before).values()))}" for before in made.assembly.before)
    faces = Counter((state.face.piece.part, state.side, state.state) for state in made.finishing.states)
    yield from (f"faces {told(face)}: {count}" for face, count in faces.items())
    yield from (f"task {told(list(vars(task).values()))}" for task in made.finishing.tasks)


def _templates(made: Plan) -> Iterator[str]:
    """The words beside the templates; their lines are in the sums of many beds."""
    for page in template_pages(made):
        yield f"template: {page.title}"
        yield from (f"template: {text}" for block in page.blocks for text in _texts(block))


def _texts(block: Any) -> Iterator[str]:
    if hasattr(block, "text"):
        yield block.text
    for column in getattr(block, "columns", ()):
        for inner in column:
            yield from _texts(inner)


def main() -> None:
    """Writes every snapshot anew."""
    for name, path in builds().items():
        target = STORED / f"{name}.txt"
        new = text(read(path))
        old = target.read_text(encoding="utf-8") if target.exists() else ""
        if new != old:
            target.write_text(new, encoding="utf-8")
            print(f"{name}: {len(set(new.splitlines()) - set(old.splitlines()))} new lines")


if __name__ == "__main__":
    main()
