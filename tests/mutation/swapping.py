"""Changes put into functions that are loaded already, so that a run of a few tests costs no start-up.

Only where the change lies within functions: what a module or a class works out while it is imported stays as it was,
and such a change needs a fresh import.
"""

from __future__ import annotations

import functools
import gc
from collections.abc import Iterator
from types import CodeType, FunctionType

IN_FUNCTION = 0x1  # a flag of code: it runs when called, not when its module or class is made


def swapped(path: str, before: str, after: str) -> bool:
    """Give every live function of a file its changed code; False where that is not all there is to the change.

    Args:
        path: the file as it was imported.
        before: its source as it was imported.
        after: its source with the change.
    """
    old, new = (compile(source, path, "exec", dont_inherit=True) for source in (before, after))
    if _outside(old, new):
        return False
    changed = {_name(code): other for code, other in _pairs(old, new) if code != other}
    found = 0
    for function in gc.get_objects():
        if isinstance(function, FunctionType) and (other := changed.get(_name(function.__code__))):
            function.__code__ = other
            found += 1
    return found > 0


def forget() -> None:
    """Empty every cache of the library and its tests: they may hold what unchanged code answered."""
    caches = [thing for thing in gc.get_objects() if isinstance(thing, functools._lru_cache_wrapper)]
    for cache in caches:
        if cache.__module__.split(".")[0] in ("tutorial_lib", "tests"):
            cache.cache_clear()


def _name(code: CodeType) -> tuple[str, int, str]:
    return code.co_filename, code.co_firstlineno, code.co_qualname


def _outside(old: CodeType, new: CodeType) -> bool:
    """True where what runs at import differs: the module's own code or a class's."""
    if old.co_flags & IN_FUNCTION:
        return False
    own, other = (tuple(c for c in code.co_consts if not isinstance(c, CodeType)) for code in (old, new))
    if (old.co_code, old.co_names, own) != (new.co_code, new.co_names, other):
        return True
    return any(_outside(a, b) for a, b in _within(old, new))


def _within(old: CodeType, new: CodeType) -> Iterator[tuple[CodeType, CodeType]]:
    a, b = ([c for c in code.co_consts if isinstance(c, CodeType)] for code in (old, new))
    yield from zip(a, b, strict=True)


def _pairs(old: CodeType, new: CodeType) -> Iterator[tuple[CodeType, CodeType]]:
    """Every function's code before and after, the outer first."""
    for a, b in _within(old, new):
        if a.co_flags & IN_FUNCTION:
            yield a, b
        if len([c for c in a.co_consts if isinstance(c, CodeType)]) == len(
            [c for c in b.co_consts if isinstance(c, CodeType)]
        ):
            yield from _pairs(a, b)
