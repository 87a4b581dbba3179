"""All rules of the bed's shape, judged on the finished build.

The build is drawn whatever they say; only what can't exist is refused, before this module is reached.
"""

from __future__ import annotations

from dataclasses import replace

from tutorial_lib.design import headboard_rules, mattress_rules, post_rules, standing_rules, storage
from tutorial_lib.design.model import Build
from tutorial_lib.design.straps import wandering


def judge(build: Build) -> Build:
    """The build with what its rules found."""
    rooms = (mattress_rules, standing_rules, post_rules, headboard_rules, storage)
    rules = (*(rule for room in rooms for rule in room.RULES), wandering)
    return replace(build, findings=build.findings + tuple(f for rule in rules for f in rule(build)))
