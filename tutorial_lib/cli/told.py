"""What `facts` says of a build file: as an earlier command on the same file kept it, or worked out and kept."""

from __future__ import annotations

import argparse
from functools import cached_property
from typing import TYPE_CHECKING

from tutorial_lib.cli.plan_facts import asked_of, keep_facts, recalled_facts
from tutorial_lib.cli.shared import build_text, read_options
from tutorial_lib.cli.viewer import read_bed
from tutorial_lib.records import dataclass
from tutorial_lib.remembered import keep, recalled

if TYPE_CHECKING:
    from tutorial_lib.adapting import Adaptation
    from tutorial_lib.design.options import Options
    from tutorial_lib.facts import Facts
    from tutorial_lib.findings import Finding
    from tutorial_lib.plan import Plan


@dataclass(frozen=True)
class Own:
    """A creator's own bed as its file has it, with nothing asked for: it needs no adapting."""

    yours: Plan
    notes: tuple[str, ...] = ()

    @property
    def findings(self) -> list[Finding]:
        """What the rules find in it."""
        return self.yours.findings


class Told:
    """The facts of a command's bed, what was noted about its choices, and what the rules found with what helps.

    Kept is only what follows from the file and the choices alone: what is said of a viewer's own file hangs on its
    neighbours too.
    """

    def __init__(self, args: argparse.Namespace) -> None:
        """The command's choices.

        Raises:
            InputError: the build file can't be read.
        """
        self._args, self._text = args, build_text(args.build)
        self._asked = asked_of(args.build, self._text, args.mattress or "", args.changes, args.have)

    @cached_property
    def _options(self) -> Options:
        return read_options(self._args.build, self._text)

    @cached_property
    def _bed(self) -> Adaptation | Own:
        """The bed itself."""
        if not self._alone or self._args.mattress or self._args.changes or self._args.have:
            return read_bed(self._args, self._text).adapted
        from tutorial_lib.plan import plan

        return Own(plan(self._options))

    @property
    def notes(self) -> tuple[str, ...]:
        """What was said once about a name or a newer plan."""
        return self._noted[0]

    @property
    def facts(self) -> Facts:
        """Every number of the bed."""
        return self._noted[1]

    @cached_property
    def _noted(self) -> tuple[tuple[str, ...], Facts]:
        known = recalled_facts(self._asked)
        if known is not None:
            return known
        from tutorial_lib.facts import facts_of

        notes, facts = self._bed.notes, facts_of(self._bed.yours)
        if self._alone:
            keep_facts(self._asked, notes, facts)
        return notes, facts

    @cached_property
    def findings(self) -> list[str]:
        """What the rules found, stops and cautions with what was tried and helps."""
        known = recalled("findings", self._asked, lambda kept: list(map(str, kept)))
        if known is not None:
            return known
        from tutorial_lib.remedies import helped, remember

        remember(self._bed.yours)
        found = [str(finding) for finding in helped(self._bed.yours, self._bed.findings)]
        if self._alone:
            keep("findings", self._asked, found)
        return found

    @property
    def _alone(self) -> bool:
        """True where all follows from the file and the choices."""
        return self._options.origin is None
