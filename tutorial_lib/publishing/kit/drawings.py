"""Every drawing of a plan by a name of its own."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.drawing import holes, views
from tutorial_lib.drawing.cut_layout import cut_layout
from tutorial_lib.drawing.isometric import step_drawing
from tutorial_lib.drawing.scene import Scene
from tutorial_lib.drawing.timeline import timeline_chart
from tutorial_lib.drawing.whole import whole_bed

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan


def scenes(plan: Plan) -> Iterator[tuple[str, Scene]]:
    """Every drawing of a plan: the bed, the deck, the legs, heights, section, boards, drilled faces, joints, steps."""
    build = plan.build
    yield "bed", whole_bed(build)
    yield "slats", views.slat_plan(build)
    yield "legs", views.leg_map(build)
    yield "side", views.side_elevation(build)
    yield "end", views.end_elevation(build)
    yield "section", views.section(build)
    names = {part.key: part.name for part in build.parts}
    layouts = plan.cutting.plan.layouts
    longest = max((layout.board.length for layout in layouts), default=Fraction(1))
    for n, layout in enumerate(layouts, 1):
        yield f"board-{n:02}", cut_layout(layout, n, longest, names.__getitem__, build.options.build.units)
    for group in plan.drilling.schedule:
        for face in group.faces:
            yield f"holes-{_file(group.pieces[0])}-{_file(face)}", holes.face_drawing(build, group, face)
    for step in plan.assembly.steps:
        if (scene := step_drawing(build, step)) is not None:
            yield f"step-{step.number:02}", scene
    yield "timeline", timeline_chart(plan.finishing.tasks)


def _file(name: str) -> str:
    return name.lower().replace(" ", "-")
