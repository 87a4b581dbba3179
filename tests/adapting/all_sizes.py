"""By hand: every size from three creators' beds, in inches and in millimetres; prints where the two disagree.

python -m tests.adapting.all_sizes [demo|runner|metric]
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from tests.design.builds import demo
from tutorial_lib.adapting import Adaptation, adapt
from tutorial_lib.adapting.family import CONSTRUCTIONS, every_size
from tutorial_lib.adapting.metric import to_metric
from tutorial_lib.design.options import Options
from tutorial_lib.errors import InputError
from tutorial_lib.measures import to_mm


def creators() -> dict[str, Options]:
    """The demo, a queen on runners and a metric bed."""
    runners = adapt(demo(), "queen", CONSTRUCTIONS["flat runners under the frame"]).yours.options
    return {"demo": demo(), "runner": runners, "metric": to_metric(demo(), "EU")[0]}


def pair(creator: Options, size: str) -> Iterator[tuple[str, Adaptation | str]]:
    """One size in inches and in millimetres, as far as the creator's units allow."""
    ways = {"as it is": {}, "mm": {"build.units": "mm"}} if creator.build.units == "in" else {"as it is": {}}
    for way, changes in ways.items():
        try:
            yield way, adapt(creator, size, changes)
        except InputError as error:
            yield way, str(error)


def told(found: Adaptation | str) -> str:
    """A bed in one line."""
    if isinstance(found, str):
        return f"refused: {found}"
    o, b = found.yours.options, found.yours.build
    verdict = "sound" if not found.troubles else f"NOT: {'; '.join(found.troubles[:2])} | {found.would}"
    return f"{b.slats.count} {o.slats.lumber}, {o.centre.lines} lines, {len(b.legs)} legs, {o.build.units}: {verdict}"


def disagree(one: Adaptation | str, other: Adaptation | str) -> list[str]:
    """Where two plans of one bed contradict each other."""
    if not isinstance(one, str) and one.yours.options.build.units == "mm":
        return []  # a size sold by the centimetre: its region's boards, another bed
    if isinstance(one, str) or isinstance(other, str):
        return [] if isinstance(one, str) and isinstance(other, str) else ["one of them is refused"]
    found = []
    if bool(one.troubles) != bool(other.troubles):
        found.append("verdict")
    if len(one.yours.build.legs) != len(other.yours.build.legs):
        found.append("legs")
    if one.yours.build.slats.count != other.yours.build.slats.count:
        found.append("slats")
    for side in (0, 1):
        if abs(to_mm(one.yours.build.outside[side]) - to_mm(other.yours.build.outside[side])) > 5:
            found.append("outside")
    return found


def main(names: list[str]) -> None:
    """Every size of the named creators."""
    for name, creator in creators().items():
        if names and name not in names:
            continue
        sizes = every_size(creator)
        bad = 0
        for size in sizes:
            made = dict(pair(creator, size))
            found = list(made.values())
            wrong = disagree(found[0], found[1]) if len(found) == 2 else []
            bad += bool(wrong)
            for way, adaptation in made.items():
                print(f"{name}, {size}, {way}: {told(adaptation)}")
            if wrong:
                print(f"    CONTRADICTION: {', '.join(wrong)}")
            sys.stdout.flush()
        print(f"{name}: {len(sizes)} sizes, {bad} contradictions")


if __name__ == "__main__":
    main(sys.argv[1:])
