"""Tables as TOML text through tomlkit: what the creator wrote beside a key (comments, order, blank lines) stays."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.items import AoT, Table


def merged(text: str, before: Mapping[str, Any], after: Mapping[str, Any]) -> str:
    """The text of a TOML file changed where tables differ, and nowhere else.

    Args:
        text: the file as it stands; nothing for a new one.
        before: its tables.
        after: the tables it is to have.
    """
    document = tomlkit.parse(text)
    _merge(document, before, after)
    return tomlkit.dumps(document).strip("\n") + "\n"


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
