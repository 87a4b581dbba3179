"""The build file: TOML text to Options with every fault at once and its line, and Options back to TOML.

Written through tomlkit, so that what the creator wrote beside a key (comments, order, blank lines) stays.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

import tomlkit
from pydantic import ValidationError
from tomlkit.items import AoT, Table

from tutorial_lib.design.faults import fault_of
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
        InputError: with all faults.
    """
    try:
        return Options.model_validate(_tuples(raw))
    except ValidationError as error:
        raise InputError([fault_of(e, where, text) for e in error.errors()]) from None
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
    document = tomlkit.parse(onto) if onto else tomlkit.document()
    _merge(document, read_build(onto).raw() if onto else {}, options.raw())
    comments = "".join(f"# {line}\n" for line in heading.splitlines())
    text = tomlkit.dumps(document).strip("\n") + "\n"
    return f"{comments}\n{text}" if comments else text


def value_text(value: Any) -> str:
    """One value as TOML writes it: ``"47 5/8 in"``, ``[120, 180]``."""
    return str(tomlkit.item(value).as_string())


def table_text(table: Mapping[str, Any]) -> str:
    """A table, and the tables in it, as TOML writes them."""
    return tomlkit.dumps(table).strip("\n")


def _merge(table: Any, before: Mapping[str, Any], after: Mapping[str, Any]) -> None:
    """Changes in a table what differs from before to after, and nothing else."""
    for key in before:
        if key not in after:
            _drop(table, key, before[key])
    for key, value in after.items():
        old, there = before.get(key), table.get(key)
        if old == value and there is not None:
            continue
        if not _merged(there, old, value):
            table[key] = _item(value)


def _merged(there: Any, before: Any, after: Any) -> bool:
    """Changes a table, or rows of tables, where it stands; False for any other value, which is written anew."""
    if isinstance(after, Mapping) and isinstance(there, Table):
        _merge(there, before if isinstance(before, Mapping) else {}, after)
        return True
    if _is_rows(after) and isinstance(there, AoT) and isinstance(before, list):
        _merge_rows(there, before, after)
        return True
    return False


def _drop(table: Any, key: str, before: Any) -> None:
    """Takes a key out; of a table only what was not at its default, and the table itself once it is empty."""
    if isinstance(before, Mapping) and isinstance(table.get(key), Table):
        _merge(table[key], before, {})
        if table[key]:
            return
    table.pop(key, None)


def _merge_rows(rows: AoT, before: list[Any], after: list[Any]) -> None:
    for index, value in enumerate(after):
        if index < len(rows):
            _merge(rows[index], before[index], value)
        else:
            row = _item(value)
            row.add(tomlkit.nl())
            rows.append(row)
    while len(rows) > len(after):
        rows.pop()


def _is_rows(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(row, Mapping) for row in value)


def _item(value: Any) -> Any:
    """A value as tomlkit writes it: tables and rows of tables under their own headings."""
    if _is_rows(value):
        rows = tomlkit.aot()
        for row in value:
            rows.append(_item(row))
        return rows
    if not isinstance(value, Mapping):
        return tomlkit.item(value)
    only_tables = bool(value) and all(isinstance(v, Mapping) or _is_rows(v) for v in value.values())
    table = tomlkit.table(is_super_table=only_tables)
    for key, inner in value.items():
        table[key] = _item(inner)
    return table
