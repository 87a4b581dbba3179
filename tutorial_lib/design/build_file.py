"""The build file: TOML text to Options with every fault at once and its line, and Options back to TOML."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from tutorial_lib.design.as_meant import beyond
from tutorial_lib.design.faults import fault_of, line_of
from tutorial_lib.design.options import Options
from tutorial_lib.design.toml_faults import number, syntax_fault
from tutorial_lib.errors import Fault, InputError


def read_build(text: str, where: str = "build file") -> Options:
    """Options from the text of a build file.

    Args:
        text: TOML.
        where: the file's name, for messages.

    Raises:
        InputError: with all faults, each with its line where the key stands.
    """
    try:
        raw = tomllib.loads(text, parse_float=number)
    except tomllib.TOMLDecodeError as error:
        raise InputError(syntax_fault(text, error, where)) from None
    except RecursionError:
        raise InputError(Fault(where, "its brackets are nested too deeply; no value needs more than two.")) from None
    except ValueError:
        raise InputError(Fault(where, "a whole number in it has thousands of digits; take some out.")) from None
    return from_raw(raw, where, text)


def from_raw(raw: Mapping[str, Any], where: str = "build", text: str = "") -> Options:
    """Options from plain tables, as tomllib or :meth:`Options.raw` give them.

    Raises:
        InputError: with all faults; of a file's text those of the whole bed too, where the others leave it plain.
    """
    try:
        return Options.model_validate(_tuples(raw))
    except ValidationError as error:
        found = sorted(error.errors(), key=lambda e: line_of(text, e["loc"]) or 0)
        more, closing = beyond(found, raw, where, text) if text else ([], "")
        raise InputError([*(fault_of(e, where, text) for e in found), *more], closing) from None
    except UnicodeEncodeError:
        raise InputError(Fault(where, "half a sign stands in it, which no file can hold; type it anew.")) from None


def _tuples(value: Any) -> Any:
    """TOML arrays as tuples: the strict models take nothing else."""
    if isinstance(value, Mapping):
        return {key: _tuples(v) for key, v in value.items()}
    if isinstance(value, list | tuple):
        return tuple(_tuples(v) for v in value)
    return value


def change(options: Options, changes: Mapping[str, Any], where: str = "change") -> Options:
    """The options with some keys changed, checked as a whole file is.

    Args:
        options: what to start from.
        changes: dotted key to value as the build file would state it ("slats.gap": "2 in"); None removes a key. A
            height takes the place of the one that was given.
        where: the place named in the errors.

    Raises:
        InputError: with all faults, naming the keys.
    """
    raw = options.raw()  # made anew: it may be changed
    if any(key.startswith("heights.") and value is not None for key, value in changes.items()):
        raw["heights"] = {}
    for key, value in changes.items():
        _set(raw, key.split("."), value, where)
    if "heights" not in raw:
        raw["heights"] = {}
    return from_raw(raw, where)


def _set(table: dict[str, Any], path: list[str], value: Any, where: str) -> None:
    for name in path[:-1]:
        table = table.setdefault(name, {})
        if not isinstance(table, dict):
            raise InputError(Fault(f"{where} {'.'.join(path)}", f"{name} is not a table of the build file."))
    if value is None:
        table.pop(path[-1], None)
    else:
        table[path[-1]] = value


def to_toml(options: Options, heading: str = "", onto: str = "") -> str:
    """The build file's text for these options; reads back to equal options.

    Args:
        options: what to write.
        heading: lines of comment above all else.
        onto: the text of the file they came from; its comments and its order stay, only what differs is changed.
    """
    from tutorial_lib.design.toml_text import merged  # only what writes pays for the library

    text = merged(onto, read_build(onto).raw() if onto else {}, options.raw())
    comments = "".join(f"# {line}\n" for line in heading.splitlines())
    return f"{comments}\n{text}" if comments else text
