"""The demo bed, its facts and the check of its talk, worked out once for all tests of what is published."""

from __future__ import annotations

from functools import cache

from tests.conftest import ROOT
from tutorial_lib.cli.talk import checked
from tutorial_lib.design.build_file import read_build
from tutorial_lib.facts import Facts, facts_of
from tutorial_lib.narration import Report
from tutorial_lib.plan import Plan, plan

BUILD = ROOT / "assets" / "builds" / "spare-room-twin.toml"
METRIC = ROOT / "assets" / "builds" / "guest-bed-90.toml"
CAPTIONS = ROOT / "assets" / "captions" / "spare-room-twin.vtt"


@cache
def demo() -> Plan:
    """The demo's plan."""
    return plan(read_build(BUILD.read_text(encoding="utf-8"), BUILD.name))


@cache
def metric() -> Plan:
    """The metric demo's plan."""
    return plan(read_build(METRIC.read_text(encoding="utf-8"), METRIC.name))


@cache
def facts() -> Facts:
    """The demo's facts."""
    return facts_of(demo())


@cache
def report() -> Report:
    """The check of the demo's captions, with no answers of a person's."""
    return checked(str(CAPTIONS), facts())
