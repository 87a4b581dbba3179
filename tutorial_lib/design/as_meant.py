"""A build file whose form is at fault, read as it is meant where that is plain: then its bed can be looked at too."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from tutorial_lib.design.faults import known_key, on_lines
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError

MORE = "More may follow: the bed as a whole is looked at once the build file is right."
# Sections that decide about nothing of the bed itself; what is wrong in them is left out.
ASIDE = frozenset("build shop saw driver load finish prices room names said yours from".split())


def beyond(errors: Sequence[Any], raw: Mapping[str, Any], where: str, text: str) -> tuple[list[Fault], str]:
    """What more is wrong with a bed whose build file has faults of form; else, that more may follow.

    Args:
        errors: the faults of form, as ``ValidationError.errors()`` gives them.
        raw: the file's tables.
        where: the file's name.
        text: the file's text.
    """
    tables, typed = _copied(raw), dict[str, str]()
    if not all(_mended(tables, error, typed) for error in errors):
        return [], MORE
    from tutorial_lib.design.platform_bed import design  # a file without faults needs it later

    try:
        design(Options.model_validate(tables).bed)
    except ValidationError:
        return [], MORE
    except InputError as error:
        return list(on_lines(error, where, text, typed).faults), ""
    return [], ""


def _copied(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _copied(v) for key, v in value.items()}
    return tuple(map(_copied, value)) if isinstance(value, list | tuple) else value


def _mended(tables: dict[str, Any], error: Any, typed: dict[str, str]) -> bool:
    """Puts one fault right as it is meant, or leaves out what decides nothing; False where neither is plain.

    ``typed`` takes what the file calls a key that is meant.
    """
    path = list(error["loc"])
    table = _table_at(tables, path[:-1])
    if not path or table is None:
        return False
    if error["type"] == "extra_forbidden":
        value, meant = table.pop(path[-1]), known_key(path)
        if meant and meant not in table:
            table[meant] = value
            typed[".".join(map(str, [*path[:-1], meant]))] = ".".join(map(str, path))
        return True
    if path[-1] not in table or not _is_aside(path):
        return False
    del table[path[-1]]
    return True


def _is_aside(path: Sequence[str | int]) -> bool:
    """Whether a key decides nothing of the bed: what boards cost, who helps."""
    return (path[0] in ASIDE and path[-1] != "units") or (path[0] == "lumber" and path[-1] in ("price", "available"))


def _table_at(tables: dict[str, Any], path: Sequence[str | int]) -> dict[str, Any] | None:
    """The table that a key stands in; None for a value of a list."""
    at: Any = tables
    for name in path:
        rows = isinstance(at, tuple) and isinstance(name, int) and name < len(at)
        at = at[name] if rows else at.get(name) if isinstance(at, dict) else None
    return at if isinstance(at, dict) else None
