"""The only place that runs the chain: options to build to strength, drilling, cutting, assembly and finishing.

Each part is computed when first asked for, so that a panel that shows slats does not wait for a cut plan.
"""

from __future__ import annotations

from functools import cached_property
from itertools import chain
from typing import TYPE_CHECKING
from weakref import ref

from tutorial_lib.design.platform_bed import design
from tutorial_lib.findings import Finding, by_severity
from tutorial_lib.measures import Writer, writer

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tutorial_lib.assembly import Assembly
    from tutorial_lib.cutting import BedCutting
    from tutorial_lib.design.model import Build
    from tutorial_lib.design.options import Options
    from tutorial_lib.drilling import Drilling
    from tutorial_lib.finishing import Finishing
    from tutorial_lib.strength import Demand, Strength


class Plan:
    """All that follows from one set of options."""

    def __init__(self, options: Options, like: Plan | None = None) -> None:
        """The options, and a plan of options much like them: what they can't have changed isn't worked out again."""
        self.options = options
        self._like = (lambda: None) if like is None else ref(like)  # kept by those that keep what was tried of it

    @cached_property
    def build(self) -> Build:
        """Parts, pieces and joints in place."""
        like = self._but_for_screws
        if like is None:
            return design(self.options)
        from tutorial_lib.design.other_screws import with_other_screws

        return with_other_screws(like.build, self.options)

    @property
    def _but_for_screws(self) -> Plan | None:
        """The plan much like this one where its options differ in nothing but their screws; it isn't held."""
        like = self._like()
        return like if like is not None and self._screws_alone(like.options) else None

    def _screws_alone(self, other: Options) -> bool:
        """Whether other options differ in nothing but their screws."""
        return other.model_copy(update={"screws": self.options.screws}) == self.options

    @cached_property
    def demand(self) -> Demand:
        """Loads on members and joints."""
        from tutorial_lib.strength import demand

        like = self._same_joints
        return demand(self.build) if like is None else like.demand  # it is asked for before any screw is chosen

    @property
    def _same_joints(self) -> Plan | None:
        """The plan but for screws where the same joints are to be fastened."""
        like = self._but_for_screws
        return like if like is not None and like.build.joints == self.build.joints else None

    @cached_property
    def drilling(self) -> Drilling:
        """Fasteners chosen and placed, holes, clashes."""
        from tutorial_lib.drilling import drill
        from tutorial_lib.strength.joints import holding

        like = self._same_joints
        return drill(self.build, self.demand, holding, None if like is None else like.drilling)

    @cached_property
    def strength(self) -> Strength:
        """Utilisations, sag and ratings."""
        from tutorial_lib.strength import results

        legs = self.options.legs
        whole = self._with_all_legs if legs.omit or legs.per_side == 2 else None
        return results(self.build, self.drilling.fastenings, whole)

    def _with_all_legs(self) -> Strength:
        """The strength of the same bed with no leg left out; two a side are three less the middle one."""
        more = {"omit": ()} if self.options.legs.omit else {"per_side": 3}
        legs = self.options.legs.model_copy(update=more)
        return Plan(self.options.model_copy(update={"legs": legs})).strength

    @cached_property
    def cutting(self) -> BedCutting:
        """Shopping list and cut plan."""
        from tutorial_lib.cutting import cut_bed

        return cut_bed(self.build)

    @cached_property
    def assembly(self) -> Assembly:
        """Steps in order, with weights, and access to every fastener."""
        return self.assembly_by(writer(self.options.build.units))

    def assembly_by(self, w: Writer) -> Assembly:
        """The same, told by a writer: lengths in both systems, say."""
        from functools import partial

        from tutorial_lib.assembly import assemble
        from tutorial_lib.drilling.access import DriverRoom, reach

        driver = DriverRoom(self.options.driver.length, self.options.driver.radius)
        return assemble(self.build, self.drilling.fastenings, partial(reach, driver=driver), w)

    @cached_property
    def finishing(self) -> Finishing:
        """Faces that show, sanding and coats."""
        from tutorial_lib.finishing import finish

        return finish(self.build)

    @cached_property
    def findings(self) -> list[Finding]:
        """What all rules found, stops first; among equals what is about people's safety comes first."""
        build, drilling, strength, *others = _once(list(self.found_by_room()))
        return by_severity(chain(self._of_what_is_made(strength), self._of_what_is_made(build), drilling, *others))

    def found_by_room(self) -> Iterator[tuple[Finding, ...]]:
        """What each room's rules found, worked out one room after another."""
        yield self.build.findings
        yield self.drilling.findings
        yield self.strength.findings
        yield self.cutting.findings
        yield self.assembly.findings
        yield self.finishing.findings

    @property
    def findings_of_strength(self) -> list[Finding]:
        """What strength found of what is made."""
        return self._of_what_is_made(self.strength.findings)

    def _of_what_is_made(self, found: Sequence[Finding]) -> list[Finding]:
        """Findings without those of a bed that stands already: its own plan has them."""
        if not self.build.bed_stands:
            return list(found)
        made = {part.key for part in self.build.made}
        return [finding for finding in found if made & set(finding.parts)]


def _once(rooms: list[tuple[Finding, ...]]) -> list[list[Finding]]:
    """What each room found; where a later one judges the same rule and parts with more in hand, its word stands."""
    found = []
    for number, findings in enumerate(rooms):
        judged = {(finding.rule, finding.parts) for later in rooms[number + 1 :] for finding in later}
        found.append([finding for finding in findings if (finding.rule, finding.parts) not in judged])
    return found


def plan(options: Options, like: Plan | None = None) -> Plan:
    """The plan that follows from the options; its parts are computed when asked for."""
    return Plan(options, like)
