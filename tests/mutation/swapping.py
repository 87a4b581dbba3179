"""Changes put into functions that are loaded already, so that a run of a few tests costs no start-up.

Only where the change lies within functions: what a module or a class works out while it is imported stays as it was,
and such a change needs a fresh import.
"""

from __future__ import annotations

import ast
import functools
import gc
import sys
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from types import CodeType, FunctionType, ModuleType
from typing import Any

IN_FUNCTION = 0x1  # a flag of code: it runs when called, not when its module or class is made
Name = tuple[str, int, str]  # a function's file, first line and name


@dataclass(frozen=True)
class Loaded:
    """What of the library and its tests is loaded: functions by their code, and what remembers answers."""

    functions: dict[Name, list[FunctionType]]
    caches: list[Any]

    @classmethod
    def now(cls) -> Loaded:
        """As it is."""
        functions: dict[Name, list[FunctionType]] = defaultdict(list)
        caches = []
        for thing in gc.get_objects():
            if isinstance(thing, FunctionType):
                functions[_name(thing.__code__)].append(thing)
            elif isinstance(thing, functools._lru_cache_wrapper):
                caches.append(thing)
        ours = [cache for cache in caches if (cache.__module__ or "").split(".")[0] in ("tutorial_lib", "tests")]
        return cls(functions, ours)

    def changed(self, path: str, before: str, after: str) -> dict[Name, CodeType] | None:
        """The code of a file's functions that a change makes another; None where that is not all there is to it.

        Args:
            path: the file as it was imported.
            before: its source as it was imported.
            after: its source with the change.
        """
        old, new = (compile(source, path, "exec", dont_inherit=True) for source in (before, after))
        if _outside(old, new):
            return None
        codes = {_name(code): other for code, other in _pairs(old, new) if code != other}
        return codes if any(name in self.functions for name in codes) else None

    def put(self, codes: dict[Name, CodeType]) -> bool:
        """Give every live function its changed code, and forget what unchanged code answered."""
        for name, code in codes.items():
            for function in self.functions.get(name, ()):
                function.__code__ = code
        return self.forget()

    def set_anew(self, path: str, before: str, after: str) -> bool:
        """Work out one changed constant of a module, for all who took it by its name; False where it is none.

        What was worked out from it while modules were imported stays as it was.
        """
        pairs = [
            (a, b)
            for a, b in zip(ast.parse(before).body, ast.parse(after).body, strict=True)
            if ast.dump(a) != ast.dump(b)
        ]
        module = next((one for one in _ours() if getattr(one, "__file__", None) == path), None)
        if len(pairs) != 1 or module is None or not isinstance(pairs[0][1], ast.Assign | ast.AnnAssign):
            return False
        held = dict(vars(module))
        exec(compile(ast.Module([pairs[0][1]], []), path, "exec", dont_inherit=True), vars(module))
        changed = {name: held.get(name) for name, now in vars(module).items() if now is not held.get(name)}
        for other in _ours():
            for name, was in changed.items():
                if vars(other).get(name) is was and was is not None:
                    setattr(other, name, vars(module)[name])
        return self.forget()

    def forget(self) -> bool:
        """Empty every cache."""
        for cache in self.caches:
            cache.cache_clear()
        return True


def _ours() -> list[ModuleType]:
    return [one for name, one in list(sys.modules.items()) if name.split(".")[0] in ("tutorial_lib", "tests")]


def _name(code: CodeType) -> Name:
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
