"""One drawing for each assembly step: what is there, what is new, pulled out along its joint, and the screws' axes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from fractions import Fraction
from math import hypot, inf

from tutorial_lib.assembly.order import Operation
from tutorial_lib.assembly.ranks import rank
from tutorial_lib.assembly.steps import Step
from tutorial_lib.assembly.wording import counted
from tutorial_lib.design.fasteners import Driven
from tutorial_lib.design.model import Build
from tutorial_lib.design.zero import reach
from tutorial_lib.drawing.room import look_of
from tutorial_lib.drawing.scene import STYLE, Line, Polygon, Scene, Shape, Style
from tutorial_lib.drawing.solids import Flat, Solid, Spot, back_to_front, faces, in_sight, project, touching
from tutorial_lib.drawing.stacks import GAP, Around, Column, Label, Led, Stack, struck
from tutorial_lib.drawing.wood import timber
from tutorial_lib.measures import Units, writer
from tutorial_lib.records import dataclass

PULL = 9.0  # [in] new pieces stand off by this much
TURN, TURN_HEAD = (6.0, 24.0, 34.0), 4.0  # [pt] an arrow between two views: its start, head and point; half its head
TRIES = 6  # of smaller drawings
LARGER = 1.15  # labels beside the drawing make it so much larger, or they stand in its corners
HEAD = 3.0  # [in] a screw's axis starts this far outside its head


@dataclass(frozen=True)
class Sheet:
    """What a drawing is made on: its width and greatest height on paper [pt], and look."""

    build: Build
    width: float
    height: float | None
    style: Style


@dataclass(frozen=True)
class Frame:
    """How the bed lies in a drawing."""

    build: Build
    upside_down: bool

    def spot(self, point: Iterable[float]) -> Spot:
        """A place of the bed as it lies: turned over its long axis when upside down."""
        x, y, z = (float(v) for v in point)
        if not self.upside_down:
            return (x, y, z)
        return (x, float(self.build.outside[0]) - y, float(self.build.heights.rail_top) - z)

    def solid(self, label: str, shift: Spot = (0.0, 0.0, 0.0), new: bool = False) -> Solid:
        """A piece as a solid, pulled out by ``shift`` in the bed's own axes."""
        box = self.build.pieces[label].box
        a = self.spot(float(v) + d for v, d in zip(box.lo, shift, strict=True))
        b = self.spot(float(v) + d for v, d in zip(box.hi, shift, strict=True))
        lo, hi = tuple(map(min, a, b)), tuple(map(max, a, b))
        return Solid((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2]), label, new)


def step_drawing(
    build: Build, step: Step, width: float = 330.0, style: Style = STYLE, height: float | None = None
) -> Scene | None:
    """The drawing of a step; None for one that needs none.

    Args:
        build: the bed.
        step: one of its steps.
        width: width on paper [pt].
        style: the look.
        height: greatest height on paper [pt].
    """
    if step.key in ("retighten", "apart"):
        return None
    sheet = Sheet(build, width, height, style)
    frame = Frame(build, step.way == "upside down")
    if step.key == "turn":
        return _turning(step, sheet)
    if step.key == "dry fit":
        return _dry_fit(frame, step, sheet)
    if step.key == "square":
        return _squaring(frame, step, sheet)
    if step.operation is None:
        return _standing(frame, step, sheet)
    return _working(frame, step, step.operation, sheet)


# Of a bed on posts: made up before the side rails.
ENDS = ("post", "end_rail", "corner_block", "batten", "headboard", "headboard_slat")


def _working(frame: Frame, step: Step, operation: Operation, sheet: Sheet) -> Scene:
    there = _made_before(frame.build, step, operation)
    new = [label for label in step.new or step.made if label not in there]
    shifts = pulls(frame.build, operation)
    solids = [frame.solid(label) for label in (*step.present, *there) if step.new]
    solids += [frame.solid(label, shifts.get(label, (0.0, 0.0, 0.0)), True) for label in new]
    axes = [_axis(frame, d, shifts, f.joint.near, f.joint.far) for f in operation.fastenings for d in f.driven]
    pieces, dashed = _piece_labels(_groups(frame, new, solids, operation.key == "ply"), solids)
    screws = _screw_labels(step, operation, axes, frame.build.options.build.units)
    alt = f"Step {step.number}: {step.title}. New: {counted(frame.build, new)}."
    return _scene(solids, axes, pieces, screws, sheet, alt, dashed)


def _made_before(build: Build, step: Step, operation: Operation) -> list[str]:
    """Of what comes in, the ends of a bed on posts, which stand there when the side rails come."""
    if operation.group != "corner" or not build.options.frame.posts:
        return []
    return [label for label in step.new if build.pieces[label].use in ENDS]


def _dry_fit(frame: Frame, step: Step, sheet: Sheet) -> Scene:
    rails = [label for label, piece in frame.build.pieces.items() if rank(piece.part) == 0]
    named = sorted(
        (
            Label(label, (project(_middle(frame.solid(label))),))
            for label in rails
            if frame.build.pieces[label].axis != 2
        ),
        key=lambda la: la.spots[0][1],
    )
    low, high = named[:2], named[2:]
    alt = f"Step {step.number}: the four rails laid out dry."
    return _scene([frame.solid(label, new=True) for label in rails], [], low, high, sheet, alt)


def _standing(frame: Frame, step: Step, sheet: Sheet) -> Scene:
    """The bed as it stands, its legs named where it is levelled."""
    solids = [frame.solid(label) for label in step.present]
    feet_of = {label for leg in frame.build.legs for label in leg.pieces}
    legs = [label for label in step.present if label in feet_of and frame.build.pieces[label].shape != "plate"]
    feet = tuple(project(_foot(frame.solid(leg))) for leg in legs)
    named = [Label("paper under every leg", feet)] if legs and step.key == "level" else []
    return _scene(solids, [], named, [], sheet, f"Step {step.number}: the bed on its legs.")


def _squaring(frame: Frame, step: Step, sheet: Sheet) -> Scene:
    """The frame with its diagonals."""
    solids = [frame.solid(label) for label in step.present]
    rails = [frame.solid(label) for label in step.present if frame.build.pieces[label].use == "side_rail"]
    top = max(solid.hi[2] for solid in rails)  # posts and a headboard may stand higher
    (start, long), (near, wide) = (tuple(map(float, span)) for span in reach(frame.build))
    one = (project((start, near, top)), project((long, wide, top)))
    two = (project((start, wide, top)), project((long, near, top)))
    size = writer(frame.build.options.build.units).length(step.diagonal or Fraction(0))
    low, high = [Label(f"diagonal {size}", (_along(one, 0.2),))], [Label(f"diagonal {size}", (_along(two, 0.2),))]
    return _scene(solids, [one, two], low, high, sheet, f"Step {step.number}: both diagonals measure {size}.")


def _turning(step: Step, sheet: Sheet) -> Scene:
    """The frame before and after it is turned, side by side."""
    after = step.way == "upside down"
    half = (sheet.width - 40) / 2
    views = [[Frame(sheet.build, flag).solid(label) for label in step.present] for flag in (not after, after)]
    shapes: list[Shape] = []
    left = 0.0
    high = sheet.height or inf
    scale = min(min(half / (x1 - x0), high / (y1 - y0)) for x0, y0, x1, y1 in map(_bounds, views))
    for view in views:
        x0, y0, x1, y1 = _bounds(view)
        middle = (y0 + y1) / 2
        shapes += [_moved(shape, left - x0, -middle) for shape in _ink(view, sheet.build)]
        left += (x1 - x0) + 40 / scale
    gap = _bounds(views[0])[2] - _bounds(views[0])[0]
    at = [gap + reach / scale for reach in TURN]
    high = TURN_HEAD / scale
    shapes += [Line(((at[0], 0.0), (at[1], 0.0)), "outline"),
               Polygon(((at[2], 0.0), (at[1], high), (at[1], -high)), "ink", "none")]  # fmt: skip
    return Scene(tuple(shapes), scale, f"Step {step.number}: the frame is turned {step.way}.", style=sheet.style)


def pulls(build: Build, operation: Operation) -> dict[str, Spot]:
    """How far and which way each new piece stands off, along the joint that holds it.

    What was fixed to another new piece on the bench goes where that goes.
    """
    on = {label: carrier for label in operation.enters if (carrier := _carrier(build, operation, label))}
    found = _along_joints(build, operation, set(operation.enters) - set(on))
    if not operation.prepares:
        found |= _with_their_leg(build, operation, found)
    for label in sorted(on, key=lambda carried: rank(build.pieces[carried].part)):  # cleats go with rails, then legs
        if on[label] in found:
            found[label] = found[on[label]]
    return found


def _along_joints(build: Build, operation: Operation, moved: Collection[str]) -> dict[str, Spot]:
    """How some pieces stand off, each along the first joint that holds it; a joint it only bears on comes last."""
    found: dict[str, Spot] = {}
    for joint in sorted(operation.joints, key=lambda j: j.fastener == "bearing"):
        near, far = (rank(build.pieces[label].part) for label in (joint.near, joint.far))
        label, way = (joint.near, -joint.sign) if near >= far else (joint.far, joint.sign)
        if label in moved and label not in found:
            shift = [0.0, 0.0, 0.0]
            shift[joint.axis] = way * PULL
            found[label] = (shift[0], shift[1], shift[2])
    return found


def _with_their_leg(build: Build, operation: Operation, found: Mapping[str, Spot]) -> dict[str, Spot]:
    """The boards of legs that come in: all of a leg go the way of the first."""
    out: dict[str, Spot] = {}
    for leg in build.legs:
        known = next((found[label] for label in leg.boards if label in found), None)
        if known is not None:
            out |= {label: known for label in leg.boards if label in operation.enters}
    return out


def _carrier(build: Build, operation: Operation, label: str) -> str:
    """The piece of those that enter, the first in the order of the job, that a piece was fixed to before; or none."""
    fixed = [j for j in build.joints if label in (j.near, j.far) and j.fastener != "bearing"]
    fixed = [joint for joint in fixed if joint not in operation.joints]
    others = {j.far if j.near == label else j.near for j in fixed} & set(operation.enters)
    mine = rank(build.pieces[label].part)
    below = [other for other in others if rank(build.pieces[other].part) < mine]
    return min(below, key=lambda other: (rank(build.pieces[other].part), other), default="")


def _axis(frame: Frame, driven: Driven, shifts: dict[str, Spot], near: str, far: str) -> tuple[Flat, Flat]:
    """The line a screw is driven along: from outside its head, which moves with the near piece, to its tip."""
    none = (0.0, 0.0, 0.0)
    head = [float(v) + d for v, d in zip(driven.head, shifts.get(near, none), strict=True)]
    tip = [float(v) + d for v, d in zip(driven.tip, shifts.get(far, none), strict=True)]
    run = [float(h) - float(t) for h, t in zip(driven.head, driven.tip, strict=True)]
    long = hypot(*run) or 1.0
    start = [h + r / long * HEAD for h, r in zip(head, run, strict=True)]
    return project(frame.spot(start)), project(frame.spot(tip))


def _groups(frame: Frame, new: Iterable[str], solids: Iterable[Solid], boards: bool) -> dict[str, list[Solid]]:
    """What is new by what it is called, pieces of one part together."""
    with_legs = set() if boards else {label for leg in frame.build.legs for label in leg.blocks}
    known = {solid.label: solid for solid in solids}
    parts: dict[str, list[str]] = {}
    for label in new:
        if label not in with_legs:
            parts.setdefault(frame.build.part_of(label).name, []).append(label)
    groups: dict[str, list[Solid]] = {}
    for members in parts.values():  # tubes and their flanges are told as one
        groups.setdefault(counted(frame.build, members, boards), []).extend(known[label] for label in members)
    return groups


def _piece_labels(groups: Mapping[str, Sequence[Solid]], solids: Sequence[Solid]) -> tuple[list[Label], list[Shape]]:
    """One label for each part that is new, at a place in sight of the piece nearest to it; what is hidden is dashed."""
    labels, dashed = [], list[Shape]()
    for text, members in groups.items():
        places = [place for solid in members if (place := in_sight(solid, solids, _middle(solid)))]
        if not places:
            places = [_middle(members[0])]
            dashed += [Line(edge, "hidden") for _, edges, _ in faces(members[0]) for edge in edges]
        labels.append(Label(text, tuple(map(project, places)), True))
    return labels, dashed


def _screw_labels(step: Step, operation: Operation, axes: list[tuple[Flat, Flat]], units: Units) -> list[Label]:
    """One label for each kind of screw, with its count and how many go in each joint, at the axis nearest to it."""
    labels, at = [], iter(axes)
    w = writer(units)
    owners = [(f.fastener.told(w), next(at)[0]) for f in operation.fastenings for _ in f.driven]
    for screws in step.screws:
        counts = {f.count for f in operation.fastenings if f.fastener.told(w) == screws.name}
        heads = tuple(head for name, head in owners if name == screws.name)
        if heads:
            labels.append(Label(f"{screws.count} × {screws.name}{_per_joint(counts)}", heads))
    return labels


def _per_joint(counts: Collection[int]) -> str:
    """How many fasteners each joint gets, where all get the same, more than one."""
    each = next(iter(counts), 1)
    return f", {each} per joint" if len(counts) == 1 and each > 1 else ""


def _scene(
    solids: list[Solid],
    axes: list[tuple[Flat, Flat]],
    low: list[Label],
    high: list[Label],
    sheet: Sheet,
    alt: str,
    dashed: Iterable[Shape] = (),
) -> Scene:
    """Solids, axes over them, one stack of labels in the empty lower left corner and one in the upper right.

    Labels stand beside the drawing where a line would run through words, or where that leaves it much more room.
    """
    shapes: list[Shape] = [*_ink(solids, sheet.build), *dashed, *(Line(axis, "centre") for axis in axes)]
    points = [p for solid in solids for outline, _, _ in faces(solid) for p in outline] + [p for a in axes for p in a]
    bare = Bare(points, _bounds(solids), low, high, sheet)
    scale, led = bare.best()
    return Scene((*shapes, *(shape for one in led for shape in one.shapes())), scale, alt, style=sheet.style)


@dataclass(frozen=True)
class Bare:
    """A drawing without its labels: its points, the bounds of its solids [in], labels low and high, its sheet."""

    points: list[Flat]
    bounds: tuple[float, float, float, float]
    low: list[Label]
    high: list[Label]
    sheet: Sheet

    def best(self) -> tuple[float, Sequence[Led]]:
        """Its scale and labels: in the corners, or beside it where that is better."""
        found = self._fitted(())
        for beside in (("low",), ("low", "clear"), ("low", "high")):
            if not struck(found[1]) and (self.sheet.height is None or not self._small(found[0])):
                break
            tried = self._fitted(beside)
            if (struck(tried[1]), -tried[0]) < (struck(found[1]), -found[0] * LARGER):
                found = tried
        return found

    def _small(self, scale: float) -> bool:
        """Whether a drawing is much narrower than its sheet."""
        x0, _, x1, _ = self.bounds
        return scale * (x1 - x0) * LARGER < self.sheet.width - 2 * GAP

    def _fitted(self, beside: Collection[str]) -> tuple[float, Sequence[Led]]:
        """The largest scale at which it fits with its labels, some of which stand beside it."""
        x0, _, x1, _ = self.bounds
        scale = (self.sheet.width - 2 * GAP) / (x1 - x0)
        for _ in range(TRIES):  # words don't shrink along
            led = self._led(scale, beside)
            room = self._room(scale, led)
            if room >= 1:
                break
            scale *= max(room, 0.5) * 0.98
        return scale, led

    def _led(self, scale: float, beside: Collection[str]) -> Sequence[Led]:
        around, (x0, _, x1, _) = Around(self.points, scale, self.sheet.style), self.bounds
        low = (Column(around, right=False) if "low" in beside else Stack(around, x0, upper=False)).led(self.low)
        if "high" in beside:
            return [*low, *Column(around, right=True).led(self.high)]
        if "clear" in beside:  # words longer than the drawing keep off those at its left, as far as the sheet is wide
            edge = min((one.stood.frame[0] for one in low), default=x0) + self.sheet.width / scale
            x1 = max(x1, min(edge, x0 + max((around.wide(label) for label in self.high), default=0.0)))
        return [*low, *Stack(around, x1, upper=True).led(self.high)]

    def _room(self, scale: float, led: Sequence[Led]) -> float:
        """How much larger it may be, 1 or more where it fits."""
        frames = [(x, y, x, y) for x, y in self.points] + [one.stood.frame for one in led]
        wide = (max(f[2] for f in frames) - min(f[0] for f in frames)) * scale
        high = (max(f[3] for f in frames) - min(f[1] for f in frames)) * scale
        return min(self.sheet.width / wide, (self.sheet.height or inf) / high)


def _ink(solids: list[Solid], build: Build) -> list[Shape]:
    """The solids from the back to the front: what comes in as wood, what is there in white and thin lines."""
    shapes: list[Shape] = []
    new = [solid for solid in solids if solid.new]
    for solid in back_to_front(solids):
        piece = build.pieces[solid.label]
        look = look_of(build, solid.label) if solid.new else "paper"
        if look == "wood" and piece.use == "slat":
            look = "bare"
        on_another = any(touching(solid, other) for other in new if other.label != solid.label)
        shapes += timber(solid, piece.axis, look, halo=solid.new and not solid.cuts and not on_another)
    return shapes


def _bounds(solids: list[Solid]) -> tuple[float, float, float, float]:
    points = [p for solid in solids for outline, _, _ in faces(solid) for p in outline]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _moved(shape: Shape, dx: float, dy: float) -> Shape:
    if isinstance(shape, Polygon):
        return Polygon(tuple((float(x) + dx, float(y) + dy) for x, y in shape.points), shape.fill, shape.line)
    if isinstance(shape, Line):
        return Line(tuple((float(x) + dx, float(y) + dy) for x, y in shape.points), shape.line)
    return shape


def _middle(solid: Solid) -> Spot:
    """The middle of the face turned to the left, or of the top of a flat piece."""
    (x0, y0, z0), (x1, y1, z1) = solid.lo, solid.hi
    if z1 - z0 < min(y1 - y0, x1 - x0):
        return ((x0 + x1) / 2, (y0 + y1) / 2, z1)
    return ((x0 + x1) / 2, y0, (z0 + z1) / 2) if x1 - x0 >= y1 - y0 else (x1, (y0 + y1) / 2, (z0 + z1) / 2)


def _foot(solid: Solid) -> Spot:
    return ((solid.lo[0] + solid.hi[0]) / 2, solid.lo[1], solid.lo[2])


def _along(line: tuple[Flat, Flat], share: float) -> Flat:
    (x0, y0), (x1, y1) = line
    return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
