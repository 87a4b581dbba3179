"""Many builds, constant memory: nothing without a bound remembers what one build alone had; ``growth`` measures it."""

from __future__ import annotations

import functools
import gc
import importlib
import inspect
import weakref
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

from tests.design.builds import demo
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import plan
from tutorial_lib.remedies import helped


def caches(root: Path) -> Iterator[Any]:
    """Every function of the library that remembers its answers."""
    for path in sorted((root / "tutorial_lib").rglob("*.py")):
        if path.stem in ("__main__", "lp_browser"):
            continue
        name = ".".join(path.relative_to(root).with_suffix("").parts).removesuffix(".__init__")
        for thing in vars(importlib.import_module(name)).values():
            within = vars(thing).values() if isinstance(thing, type) else (thing,)
            yield from (one for one in within if isinstance(one, functools._lru_cache_wrapper))


def few(kind: Any) -> bool:
    """True for a type of a few values only."""
    within = get_args(kind)
    return get_origin(kind) is Literal or kind in (bool, type(None)) or (bool(within) and all(map(few, within)))


def test_what_is_remembered_without_a_bound_can_be_asked_in_a_few_ways_only(root: Path) -> None:
    found = list(caches(root))
    assert len(found) > 50
    for cache in found:
        if cache.cache_parameters()["maxsize"] is None:
            told = inspect.signature(cache.__wrapped__).parameters.values()
            kinds = [eval(one.annotation, cache.__wrapped__.__globals__) for one in told]
            assert all(map(few, kinds)), f"{cache.__module__}.{cache.__qualname__}{kinds}"


def test_no_method_remembers_its_objects_beyond_their_life(root: Path) -> None:
    assert not [cache for cache in caches(root) if "self" in inspect.signature(cache.__wrapped__).parameters]


def test_a_plan_that_nobody_holds_is_gone() -> None:
    made = plan(demo())
    assert facts_of(made) and made.findings and list(helped(made, made.findings[:1]))
    gone = weakref.ref(made)
    del made
    gc.collect()
    assert gone() is None
