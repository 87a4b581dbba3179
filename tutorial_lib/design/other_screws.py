"""A bed whose screws alone were changed: its wood needs no placing anew."""

from __future__ import annotations

from dataclasses import replace

from tutorial_lib.design.misfits import refuse_misfits
from tutorial_lib.design.model import Build
from tutorial_lib.design.options import Options
from tutorial_lib.design.platform_bed import design


def with_other_screws(build: Build, options: Options) -> Build:
    """The same bed for options that differ in nothing but their screws; only whether it has legs bolted moves wood.

    Raises:
        DesignError: screws stated for a joint that this bed hasn't.
    """
    if options.screws.leg.kind != build.options.screws.leg.kind:
        return design(options)
    refuse_misfits(options)
    return replace(build, options=options)
