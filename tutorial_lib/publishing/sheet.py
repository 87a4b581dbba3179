"""The companion sheet: the pages of all topics, one PDF, Letter or A4."""

from __future__ import annotations

import hashlib
import pkgutil
from importlib import import_module
from types import ModuleType

from tutorial_lib.design.build_file import to_toml
from tutorial_lib.design.options import Options
from tutorial_lib.plan import Plan
from tutorial_lib.publishing import pages as topics
from tutorial_lib.publishing.blocks import Page
from tutorial_lib.publishing.typeset import Paper, compile_pdf, source

TOPICS = ("summary", "design", "cutting", "drilling", "strength", "finishing", "assembly")


def sheet_pdf(plan: Plan, paper: Paper = "letter", creator_plan: Plan | None = None) -> bytes:
    """The companion sheet as a tagged PDF (PDF/UA-1); the same bytes for the same plan.

    Args:
        plan: the bed.
        paper: "letter" or "a4".
        creator_plan: the creator's bed when ``plan`` is an adaptation of it; adds what differs.
    """
    return compile_pdf(sheet_source(plan, paper, creator_plan))


def sheet_source(plan: Plan, paper: Paper = "letter", creator_plan: Plan | None = None) -> str:
    """The sheet as typst source."""
    build = plan.options.build
    subtitle = ", ".join(name for name in (build.channel, build.episode) if name and name not in build.title)
    return source(sheet_pages(plan, creator_plan), title=build.title, subtitle=subtitle,
                  version=version(plan.options), paper=paper)


def sheet_pages(plan: Plan, creator_plan: Plan | None = None) -> list[Page]:
    """The pages of every topic, in the order of the job.

    A topic is a module of ``publishing.pages`` with ``pages(plan)``; any module there that compares has
    ``compared_pages(plan, creator_plan)``.
    """
    found: list[Page] = []
    for topic in _modules():
        if topic.__name__.rpartition(".")[2] in TOPICS:
            found += topic.pages(plan)
        if creator_plan is not None and hasattr(topic, "compared_pages"):
            found += topic.compared_pages(plan, creator_plan)
    return sorted(found, key=lambda page: page.order)


def _modules() -> list[ModuleType]:
    names = sorted(module.name for module in pkgutil.iter_modules(topics.__path__))
    return [import_module(f"{topics.__name__}.{name}") for name in names]


def version(options: Options) -> str:
    """A short mark that changes whenever the build does: the first eight figures of its SHA-256."""
    return hashlib.sha256(to_toml(options).encode()).hexdigest()[:8]
