"""The numbers that are chosen or from memory, typed a second time: limits, factors, loads, shares of every room.

python -m tests.snapshots.constants            # writes them anew; read what changed before it is kept
"""

from __future__ import annotations

import ast
import importlib
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from tutorial_lib.findings import Remedy

ROOT = Path(__file__).parents[2]
STORED = ROOT / "tests" / "data" / "constants.txt"
ROOMS = ("tables", "design", "strength", "drilling", "cutting", "assembly", "finishing", "facts", "adapting")
NAME = re.compile(r"_?[A-Z][A-Z0-9_]*")


def constants() -> dict[str, str]:
    """Every constant that holds a number, by its module and name, as text; a dictionary's by its keys."""
    named = [(f"{module}.{name}", value) for module in _modules() for name, value in _own(module)]
    tables = [(name, value) for name, value in named if isinstance(value, dict)]
    entries = [(f"{name}[{key!r}]", each) for name, table in tables for key, each in table.items()]
    return {name: repr(value) for name, value in (*named, *entries) if _counts(value)}


def stored() -> dict[str, str]:
    """The same as it was written down."""
    lines = STORED.read_text(encoding="utf-8").splitlines()
    return dict(line.split(" = ", 1) for line in lines)


def _modules() -> Iterator[str]:
    for room in ROOMS:
        for path in sorted((ROOT / "tutorial_lib" / room).rglob("*.py")):
            if path.stem not in ("__init__", "lp_browser"):  # that one runs in a browser alone
                yield ".".join(path.relative_to(ROOT).with_suffix("").parts)


def _own(module: str) -> Iterator[tuple[str, Any]]:
    """What a module itself sets, not what it takes from another."""
    found = importlib.import_module(module)
    for node in ast.parse(Path(str(found.__file__)).read_text(encoding="utf-8")).body:
        targets = (
            node.targets if isinstance(node, ast.Assign) else [node.target] if isinstance(node, ast.AnnAssign) else []
        )
        for name in (n.id for t in targets for n in ast.walk(t) if isinstance(n, ast.Name)):
            if NAME.fullmatch(name):
                yield name, getattr(found, name)


def _counts(value: Any) -> bool:
    """Whether there is a number in it, and nothing whose text differs from run to run."""
    if isinstance(value, tuple):
        return any(map(_counts, value)) and " at 0x" not in repr(value)
    if is_dataclass(value) and not isinstance(value, type | Remedy):
        return any(_counts(getattr(value, field.name)) for field in fields(value)) and " at 0x" not in repr(value)
    return isinstance(value, int | float | Fraction | Remedy) and not isinstance(value, bool)


def main() -> None:
    """Writes them anew."""
    STORED.write_text("".join(f"{name} = {value}\n" for name, value in constants().items()), encoding="utf-8")


if __name__ == "__main__":
    main()
