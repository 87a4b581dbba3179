"""The numbers that are chosen or from memory, typed a second time: limits, factors, loads, shares of every room, what a
build file may say and what it means where it doesn't, and the sum of every column of the tables.

python -m tests.snapshots.constants            # writes them anew; read what changed before it is kept
"""

from __future__ import annotations

import ast
import csv
import importlib
import re
import zlib
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any, get_args

from annotated_types import BaseMetadata
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from tutorial_lib.design.options import Options
from tutorial_lib.findings import Remedy

ROOT = Path(__file__).parents[2]
TABLES = ROOT / "tutorial_lib" / "tables" / "data"
STORED = ROOT / "tests" / "data" / "constants.txt"
ROOMS = ("tables", "design", "strength", "drilling", "cutting", "assembly", "finishing", "facts", "adapting")
NAME = re.compile(r"_?[A-Z][A-Z0-9_]*")


def constants() -> dict[str, str]:
    """Every constant that holds a number, by its module and name, as text; a dictionary's by its keys."""
    named = [(f"{module}.{name}", value) for module in _modules() for name, value in _own(module)]
    tables = [(name, value) for name, value in named if isinstance(value, dict)]
    entries = [(f"{name}[{key!r}]", each) for name, table in tables for key, each in table.items()]
    found = {name: repr(value) for name, value in (*named, *entries) if _counts(value)}
    return found | dict(_choices("", Options)) | dict(_columns())


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


def _choices(at: str, section: type[BaseModel]) -> Iterator[tuple[str, str]]:
    """Every key of a build file: what it is where it is left out, and the limits it has."""
    for key, field in section.model_fields.items():
        inner = [one for one in _models(field.annotation) if one is not Options]
        yield f"build file {at}{key}", "of its own keys" if inner else f"{field.default!r} {_limits(field)}"
        for one in inner:
            yield from _choices(f"{at}{key}.", one)


def _limits(field: FieldInfo) -> str:
    """How little and how much it may be: "Ge(ge=0) Le(le=3)", or nothing."""
    return " ".join(repr(one) for one in field.metadata if isinstance(one, BaseMetadata))


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models(inner)


def _columns() -> Iterator[tuple[str, str]]:
    """Every column of a table: how many cells, and a checksum of them."""
    for path in sorted(TABLES.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            heads, *rows = csv.reader(file)
        for head, *cells in zip(heads, *rows, strict=True):
            if not head.startswith(("source", "status", "note")):
                yield f"{path.name} {head}", f"{len(cells)} cells {zlib.crc32(repr(cells).encode()):08x}"


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
