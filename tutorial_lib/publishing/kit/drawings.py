"""Every drawing of a plan by a name of its own: the booklet's, page by page, and the views it has no room for."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import TYPE_CHECKING

from tutorial_lib.drawing import views
from tutorial_lib.publishing.booklet.leaf import Book, Leaf, scenes_in
from tutorial_lib.publishing.sheet import sheet_pages

if TYPE_CHECKING:
    from tutorial_lib.adapting import Comparison
    from tutorial_lib.drawing.scene import Scene
    from tutorial_lib.plan import Plan


def scenes(plan: Plan, found: Comparison | None = None) -> Iterator[tuple[str, Scene]]:
    """Every drawing, each once, named by its page and counted there: "saw-03"."""
    seen: set[str] = set()
    counts: dict[str, int] = {}
    for kind, scene in chain(_of_the_booklet(plan, found), _views(plan)):
        if scene.alt in seen:
            continue
        seen.add(scene.alt)
        counts[kind] = counts.get(kind, 0) + 1
        yield f"{kind}-{counts[kind]:02}", scene


def _of_the_booklet(plan: Plan, found: Comparison | None) -> Iterator[tuple[str, Scene]]:
    for page in sheet_pages(Book(plan=plan, found=found)):
        if isinstance(page, Leaf):
            yield from ((page.kind, scene) for scene in scenes_in(page.data))


def _views(plan: Plan) -> Iterator[tuple[str, Scene]]:
    build = plan.build
    for view in (views.slat_plan, views.leg_map, views.side_elevation, views.end_elevation, views.section):
        yield "view", view(build)
