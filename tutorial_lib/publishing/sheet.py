"""The companion sheet: the pages of all topics, one PDF, Letter or A4."""

from __future__ import annotations

from tutorial_lib.adapting import Comparison
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Page
from tutorial_lib.publishing.identity import size, version
from tutorial_lib.publishing.topics import adapting, assembly, cutting, design, drilling, finishing, strength, summary
from tutorial_lib.publishing.typeset import Paper, source


def sheet_source(plan: Plan, paper: Paper = "letter", found: Comparison | None = None) -> str:
    """The sheet as typst source."""
    build = plan.options.build
    subtitle = ", ".join(name for name in (build.channel, build.episode) if name and name not in build.title)
    return source(
        sheet_pages(plan, found), title=build.title, subtitle=subtitle, version=version(plan.options),
        size=size(plan), paper=paper,
    )  # fmt: skip


def sheet_pages(plan: Plan, found: Comparison | None = None) -> list[Page]:
    """The pages of every topic, in the order of the job."""
    pages = [
        *summary.pages(plan, found), *design.pages(plan), *cutting.pages(plan), *drilling.pages(plan),
        *strength.pages(plan), *finishing.pages(plan), *assembly.pages(plan),
    ]  # fmt: skip
    if found is not None and not found.adaptation.same:
        pages += adapting.compared_pages(found)
    return sorted(pages, key=lambda page: page.order)
