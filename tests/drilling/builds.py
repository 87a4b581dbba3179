"""Beds for the drilling tests: the demo, changed as a test wants it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build
from tutorial_lib.design.options import Options
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drilling.bed import Drilling, drill

DEMO = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"
RUNNERS: dict[str, Any] = {
    "support.kind": "runners",
    "support.recess": None,
    "support.lumber": "2x4",
    "support.end_play": "0 in",
    "screws.leg.kind": "wood screw",
    "screws.leg.diameter": None,
    "screws.leg.count": None,
}
OPEN: dict[str, Any] = {
    f"screws.{table}.{key}": None
    for table in ("cleat", "slat")
    for key in ("gauge", "length", "inset", "spacing", "pilot", "end_slat_shift")
}


@cache
def demo() -> Options:
    """The demo's options."""
    return read_build(DEMO.read_text(encoding="utf-8"), DEMO.name)


def bed(changes: dict[str, Any] | None = None) -> Build:
    """The demo bed, changed."""
    return design(change(demo(), changes) if changes else demo())


def drilled(changes: dict[str, Any] | None = None) -> tuple[Build, Drilling]:
    """The demo bed, changed and drilled, without loads."""
    build = bed(changes)
    return build, drill(build)


def fastenings_of(drilling: Drilling, table: str) -> list[Fastening]:
    """The fastenings of one table of the build file."""
    return [f for f, job in zip(drilling.fastenings, drilling.jobs, strict=True) if job.table == table]


def rules(drilling: Drilling, severity: str) -> list[str]:
    """Names of the rules that were tripped."""
    return [finding.rule for finding in drilling.findings if finding.severity == severity]
