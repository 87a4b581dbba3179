"""Many builds, constant memory: nothing without a bound remembers what one build alone had."""

from __future__ import annotations

import functools
import gc
import json

from tests.design.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import plan


def remembered() -> dict[str, int]:
    """How much every cache without a bound holds."""
    gc.collect()
    found = [thing for thing in gc.get_objects() if isinstance(thing, functools._lru_cache_wrapper)]
    return {
        f"{cache.__module__}.{cache.__qualname__}": cache.cache_info().currsize
        for cache in found
        if cache.__module__.startswith("tutorial_lib") and cache.cache_info().maxsize is None
    }


def work_out(number: int) -> None:
    """A bed like no other."""
    changes = {
        "mattress.width": f"{960 + number} mm",
        "mattress.length": f"{1900 + 2 * number} mm",
        "slats.gap": f"{50 + number} mm",
        "load.person": f"{180 + number} lb",
        "wood.moisture_bought": 10 + number / 8,
        "heights.underside": f"{250 + number} mm",
    }
    made = plan(change(demo(), changes))
    json.dumps(facts_of(made).as_json())
    assert made.findings is not None


def test_no_cache_without_a_bound_grows_with_the_builds() -> None:
    for number in range(3):
        work_out(number)
    before = remembered()
    for number in range(3, 9):
        work_out(number)
    grown = {name: (before.get(name, 0), now) for name, now in remembered().items() if now > before.get(name, 0)}
    assert not grown
