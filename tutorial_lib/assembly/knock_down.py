"""Taking the bed apart again: which joints open, what stays together, and whether each of that goes through the door.

Bolts, barrel nuts, hooks and brackets open as often as one likes. Screws hold a little less each time they are driven
anew, so that boards screwed on for good (cleats, blocks, a leg's boards, the ends of a bed on posts) stay on.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from tutorial_lib.assembly.doorway import passes
from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Box, Build, Joint, JointKind
from tutorial_lib.design.weights import total
from tutorial_lib.measures import Writer, writer
from tutorial_lib.records import dataclass

FOR_GOOD: tuple[JointKind, ...] = ("cleat", "ply", "flange", "batten", "panel", "panel_slat", "line_leg")
LOOSE: tuple[JointKind, ...] = ("slat", "slat_line")  # slats are carried one by one
USUAL_DOOR = (Fraction(28), Fraction(80))  # [in] narrow inner doors; our choice where none is stated


@dataclass(frozen=True, kw_only=True)
class Module:
    """What stays together and is carried as one."""

    name: str  # "head end", "left side rail"
    kind: str  # what those alike are called: "side rail"
    pieces: tuple[str, ...]
    carries: bool  # more is screwed to it
    size: tuple[Fraction, Fraction, Fraction]  # [in] length, width, height of the box about it
    weight: float  # [lb]


@dataclass(frozen=True, kw_only=True)
class KnockDown:
    """The bed taken apart."""

    modules: tuple[Module, ...]  # largest first; slats left out
    opened: tuple[tuple[str, int], ...]  # ("3/8 x 7 in hex bolt", 8): fasteners to undo, by their names
    screws: bool  # screws are among them
    hooks: int  # rails' ends to lift out of their hooks
    brackets: int  # brackets to undo

    def through(self, width: Fraction, height: Fraction) -> bool:
        """True if every module goes through a door that large [in]."""
        return all(passes(module.size, width, height) is not None for module in self.modules)


def stays(build: Build, joint: Joint) -> bool:
    """Whether a joint is left as it is when the bed is moved."""
    uses = {build.pieces[label].use for label in (joint.near, joint.far)}
    if joint.fastener == "bearing":
        return False  # nothing holds it
    if joint.kind in ("block", "post", "bed_bolt"):  # the ends of a bed on posts stay whole
        return "side_rail" not in uses
    if joint.kind == "leg":  # bolts open; a leg screwed on stays on its long board
        return joint.fastener in ("screw", "glue") and "end_rail" not in uses
    return joint.kind in FOR_GOOD


def _opens(build: Build, joint: Joint) -> bool:
    """Whether a joint is undone, and told of: slats come off first."""
    return joint.kind not in LOOSE and not stays(build, joint)


def knock_down(build: Build, fastenings: Sequence[Fastening], each: dict[str, float]) -> KnockDown:
    """What the bed comes apart into.

    Args:
        build: the bed.
        fastenings: of every joint that has some.
        each: weight of every piece [lb].
    """
    w, opened = writer(build.options.build.units), Counter[str]()
    undone = [made for made in fastenings if _opens(build, made.joint)]
    for made in undone:
        opened[made.fastener.told(w)] += made.count
    brackets = [j.kind for j in build.joints if j.fastener == "bracket" and not stays(build, j)]
    hooks = brackets.count("post")
    modules = [_module(build, members, each) for members in _groups(build)]
    modules.sort(key=lambda module: (-max(module.size), module.name))
    return KnockDown(
        modules=tuple(modules), opened=tuple(opened.items()),
        screws=any(made.fastener.kind not in ("carriage bolt", "hex bolt") for made in undone),
        hooks=hooks, brackets=len(brackets) - hooks,
    )  # fmt: skip


def _groups(build: Build) -> list[list[str]]:
    """Pieces that stay together, in build order; slats apart."""
    home = {label: label for label, piece in build.pieces.items() if piece.use != "slat"}

    def root(label: str) -> str:
        while home[label] != label:
            label = home[label]
        return label

    for joint in build.joints:
        if joint.near in home and joint.far in home and stays(build, joint):
            home[root(joint.near)] = root(joint.far)
    found: dict[str, list[str]] = {}
    for label in home:
        found.setdefault(root(label), []).append(label)
    return list(found.values())


def _module(build: Build, members: Sequence[str], each: dict[str, float]) -> Module:
    size = _about([build.pieces[label].box for label in members])
    rail = next((label for label in members if build.pieces[label].use == "end_rail"), None)
    if rail is not None and any(build.pieces[label].use == "post" for label in members):
        name = f"{'head' if rail == 'end rail head' else 'foot'} end"
        weight = total(members, each)
        return Module(name=name, kind=name, pieces=tuple(members), carries=False, size=size, weight=weight)
    main = max(members, key=lambda label: build.pieces[label].length)
    return Module(
        name=build.pieces[main].name, kind=build.part_of(main).name, pieces=tuple(members), carries=len(members) > 1,
        size=size, weight=total(members, each),
    )  # fmt: skip


def _about(boxes: Sequence[Box]) -> tuple[Fraction, Fraction, Fraction]:
    x, y, z = (max(b.hi[i] for b in boxes) - min(b.lo[i] for b in boxes) for i in (0, 1, 2))
    return x, y, z


def words(found: KnockDown, w: Writer) -> Iterator[str]:
    """How it is taken apart, sentence by sentence."""
    yield "Label both sides of every joint with tape, then take the slats off."
    undone = [f"{count} x {name}" for name, count in found.opened]
    if found.brackets:
        undone.append(f"{found.brackets} {'brackets' if found.brackets > 1 else 'bracket'}")
    if undone:
        yield f"Undo {', '.join(undone)}."
    if found.hooks:
        yield f"Knock the side rails up and out of their hooks, at {found.hooks} ends."
    alike: dict[tuple[str, tuple[Fraction, ...]], list[Module]] = {}
    for module in found.modules:
        alike.setdefault((module.kind, tuple(sorted(module.size, reverse=True))), []).append(module)
    for (kind, size), mine in alike.items():
        box, one = " x ".join(map(w.length, size)), mine[0]
        name = one.name if len(mine) == 1 else f"{len(mine)} {kind}s, each"
        more = " with what is screwed to it" if one.carries else ""
        yield f"{name[:1].upper()}{name[1:]}{more}: {box}, {w.weight(one.weight)}."
