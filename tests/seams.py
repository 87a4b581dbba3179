"""What stands in the package's source: modules and what they import, classes and functions and who names them."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "tutorial_lib"


@cache
def trees() -> dict[str, ast.Module]:
    """Every module of the package by name, parsed."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(ROOT).with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        found[name] = ast.parse(path.read_text(encoding="utf-8"))
    return found


def imports(module: str) -> set[str]:
    """The package's modules that one imports, also inside functions; for types alone doesn't count."""
    found = set()
    for node in _run(trees()[module]):
        if isinstance(node, ast.ImportFrom) and node.module:
            found |= {f"{node.module}.{alias.name}" for alias in node.names} | {node.module}
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    found = {name for name in found if name in trees() and name != module}
    return {name for name in found if not any(other.startswith(f"{name}.") for other in found)}


def _run(node: ast.AST) -> Iterator[ast.AST]:
    """All nodes but those that are for types alone."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.If) and "TYPE_CHECKING" in ast.dump(child.test):
            continue
        yield child
        yield from _run(child)


def circles() -> list[list[str]]:
    """Modules that import each other, directly or by a way round, wherever the import stands."""
    graph = {module: imports(module) for module in trees()}
    reach = {module: _reach(module, graph) for module in graph}
    rings = {frozenset(m for m in reach[module] if module in reach[m]) for module in graph if module in reach[module]}
    return sorted(sorted(ring) for ring in rings)


def _reach(start: str, graph: dict[str, set[str]]) -> set[str]:
    seen: set[str] = set()
    waiting = list(graph[start])
    while waiting:
        module = waiting.pop()
        if module not in seen:
            seen.add(module)
            waiting += graph[module]
    return seen


def wide_records() -> list[str]:
    """Frozen dataclasses of which more than five fields may be filled by position."""
    found = []
    for module, tree in trees().items():
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef) and (said := _frozen(node)) is not None and "kw_only" not in said:
                fields = [ast.unparse(part.annotation) for part in node.body if isinstance(part, ast.AnnAssign)]
                by_position = fields.index("KW_ONLY") if "KW_ONLY" in fields else len(fields)
                if by_position > 5:
                    found.append(f"{module.removeprefix('tutorial_lib.')}.{node.name}")
    return sorted(found)


def _frozen(node: ast.ClassDef) -> set[str] | None:
    for decorator in node.decorator_list:
        if isinstance(decorator, ast.Call) and getattr(decorator.func, "id", "") == "dataclass":
            said = {word.arg or "" for word in decorator.keywords}
            return said if "frozen" in said else None
    return None


CUTS = frozenset("split rsplit partition rpartition splitlines startswith endswith".split())
SEARCHES = frozenset("search match fullmatch findall finditer split".split())


def cuts() -> list[tuple[str, int, str]]:
    """File, line and call of each place that takes a text apart, or looks for something in it."""
    paths = {path.relative_to(PACKAGE).as_posix(): path for path in sorted(PACKAGE.rglob("*.py"))}
    return [(name, *found) for name, path in paths.items() for found in cut_in(path.read_text(encoding="utf-8"))]


def cut_in(source: str) -> list[tuple[int, str]]:
    """Line and call of each such place in a source; constants and dotted keys are no texts."""
    calls = [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)]
    return sorted((node.lineno, ast.unparse(node)) for node in calls if _cuts(node))


def _cuts(call: ast.Call) -> bool:
    if not isinstance(call.func, ast.Attribute) or isinstance(call.func.value, ast.Constant):
        return False
    of = ast.unparse(call.func.value)
    if of == "re":
        return call.func.attr in SEARCHES
    return call.func.attr in CUTS and not re.search(r"(^|\.|_)(key|path)$|subject or ''", of)


def unused() -> list[str]:
    """Functions, methods and classes that nothing in the package names but their own definition."""
    named: dict[str, int] = {}
    for tree in trees().values():
        for node in ast.walk(tree):
            for word in _words(node):
                named[word] = named.get(word, 0) + 1
    return sorted(
        f"{module.removeprefix('tutorial_lib.')}.{node.name}"
        for module, tree in trees().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.ClassDef)
        and not _called_from_outside(node)
        and node.name not in named
    )


def _words(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Name):
        yield node.id
    elif isinstance(node, ast.Attribute):
        yield node.attr
    elif isinstance(node, ast.alias):
        yield node.name.split(".")[-1]
        yield node.asname or ""
    elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.isidentifier():
        yield node.value  # the public names of a lazy package
    elif isinstance(node, ast.keyword) and node.arg:
        yield node.arg


def _called_from_outside(node: ast.FunctionDef | ast.ClassDef) -> bool:
    """True for what Python or pydantic calls by itself."""
    special = node.name.startswith("__") and node.name.endswith("__")
    marked = any("validator" in ast.dump(decorator) for decorator in node.decorator_list)
    return special or marked
