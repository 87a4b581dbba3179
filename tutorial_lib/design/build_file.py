"""The build file: TOML text to Options with every fault at once and its line, and Options back to TOML."""

from __future__ import annotations

import copy
import difflib
import re
import tomllib
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from pydantic import BaseModel, ValidationError

from tutorial_lib.design.options import Options
from tutorial_lib.design.reading import POUNDS_PER_KG
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import write_length


def read_build(text: str, where: str = "build file") -> Options:
    """Options from the text of a build file.

    Args:
        text: TOML.
        where: the file's name, for messages.

    Raises:
        InputError: with all faults, each with its line where the key stands.
    """
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        line = re.search(r"at line (\d+)", str(error))
        place = f"{where}:{line[1]}" if line else where
        raise InputError(Fault(place, f"not readable as TOML: {error}.")) from None
    return from_raw(raw, where, text)


def from_raw(raw: Mapping[str, Any], where: str = "build", text: str = "") -> Options:
    """Options from plain tables, as tomllib or :meth:`Options.raw` give them.

    Raises:
        InputError: with all faults.
    """
    try:
        return Options.model_validate(_tuples(raw))
    except ValidationError as error:
        raise InputError([_fault(e, where, text) for e in error.errors()]) from None


def _tuples(value: Any) -> Any:
    """TOML arrays as tuples: the strict models take nothing else."""
    if isinstance(value, Mapping):
        return {key: _tuples(v) for key, v in value.items()}
    if isinstance(value, list | tuple):
        return tuple(_tuples(v) for v in value)
    return value


def change(options: Options, changes: Mapping[str, Any]) -> Options:
    """The options with some keys changed, checked as a whole file is.

    Args:
        options: what to start from.
        changes: dotted key to value as the build file would state it ("slats.gap": "2 in"); None removes a key.

    Raises:
        InputError: with all faults, naming the keys.
    """
    raw = copy.deepcopy(options.raw())
    for key, value in changes.items():
        _set(raw, key.split("."), value)
    if "heights" not in raw:
        raw["heights"] = {}
    return from_raw(raw, "change")


def _set(table: dict[str, Any], path: list[str], value: Any) -> None:
    for name in path[:-1]:
        table = table.setdefault(name, {})
        if not isinstance(table, dict):
            raise InputError(Fault("change " + ".".join(path), f"{name} is not a table of the build file."))
    if value is None:
        table.pop(path[-1], None)
    else:
        table[path[-1]] = value


def _fault(error: Any, where: str, text: str) -> Fault:
    loc = list(error["loc"])
    key = ".".join(str(part) for part in loc)
    line = _line_of(text, loc)
    place = f"{where}:{line} {key}" if line else f"{where} {key}".strip()
    return Fault(place, _sentence(error, loc))


_OURS = {
    "Input should be": "it must be",
    "a valid integer": "a whole number",
    "a valid number": "a number",
    "a valid string": 'text in quotes, such as "2x4"',
    "a valid tuple": "a list, such as [1, 2]",
    "a valid boolean": "true or false",
    "a valid dictionary or instance of": "a table, [",
}  # the reading library's words, as one says them of a build file


def _sentence(error: Any, loc: list[Any]) -> str:
    kind, value = error["type"], error.get("input")
    if kind == "extra_forbidden":
        return _unknown(str(loc[-1]), loc[:-1])
    if kind == "missing":
        return "is missing; a build file needs it."
    message = str(error["msg"]).removeprefix("Value error, ")
    for library, ours in _OURS.items():
        message = message.replace(library, ours)
    stop = "" if message.endswith((".", "?")) else "."
    if kind == "value_error":
        told = not isinstance(value, str) or value in message
        return f"{message}{stop}" if told else f"{_shown(value)}: {message}{stop}"
    message = message.replace("'", '"')
    return f"{_shown(value)} can't be used: {message[0].lower()}{message[1:]}{stop}"


def _shown(value: Any) -> str:
    """A value as the build file writes it."""
    return _toml(value) if isinstance(value, (str, int, float, bool)) else "the value"


def _unknown(name: str, path: list[Any]) -> str:
    known = list(_fields(path))
    near = difflib.get_close_matches(name, known, 1, 0.5)
    hint = f"Did you mean {near[0]}?" if near else f"Known here: {', '.join(known)}."
    return f"no such key. {hint}"


def _fields(path: list[Any]) -> Mapping[str, Any]:
    model: Any = Options
    for name in path:
        if isinstance(name, int):
            continue
        field = getattr(model, "model_fields", {}).get(name)
        if field is None:
            continue
        model = _model_in(field.annotation) or model
    return dict(getattr(model, "model_fields", {}))


def _model_in(annotation: Any) -> Any:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = _model_in(inner)
        if found:
            return found
    return None


def _line_of(text: str, loc: list[Any]) -> int | None:
    """Line of a key in TOML text: tables and arrays of tables; an inline table gives its own line."""
    names = [str(part) for part in loc if not isinstance(part, int)]
    wanted = [part for part in loc if isinstance(part, int)]
    best, best_depth = None, 0
    header: list[str] = []
    seen: dict[tuple[str, ...], int] = {}
    for number, line in enumerate(text.splitlines(), 1):
        stripped = line.strip()
        if match := re.match(r"\[\[?([^\]]+)\]\]?", stripped):
            header = [part.strip().strip("\"'") for part in re.findall(r"\"[^\"]+\"|'[^']+'|[^.]+", match[1])]
            if stripped.startswith("[["):
                seen[tuple(header)] = seen.get(tuple(header), -1) + 1
                if wanted and tuple(header) == tuple(names[: len(header)]) and seen[tuple(header)] != wanted[0]:
                    header = ["\0"]
            here = header
        elif match := re.match(r"([A-Za-z0-9_.\"'-]+)\s*=", stripped):
            here = [*header, *[part.strip("\"'") for part in match[1].split(".")]]
        else:
            continue
        if here == names[: len(here)] and len(here) > best_depth:
            best, best_depth = number, len(here)
    return best


# --- and back ---

_WEIGHTS = {"person", "mattress", "bedding", "standing"}


def to_raw(options: Options) -> dict[str, Any]:
    """Plain tables that read back to the same options; what equals its default is left out."""
    units = options.build.units
    return {name: value for name, value in _plain(options, units, "").items() if value not in ({}, None)}


def _plain(model: BaseModel, units: str, table: str) -> dict[str, Any]:
    out: dict[str, Any] = {}
    for name, field in type(model).model_fields.items():
        value = getattr(model, name)
        if value is None or (not field.is_required() and value == field.default):
            continue
        out[name] = _write(value, name, units, table)
    return out


def _write(value: Any, name: str, units: str, table: str) -> Any:
    if isinstance(value, BaseModel):
        return _plain(value, units, name)
    if isinstance(value, Mapping):
        return {key: _write(v, key, units, name) for key, v in value.items()}
    if isinstance(value, tuple):
        return [_write(v, name, units, table) for v in value]
    if isinstance(value, Fraction):
        return _write_fraction(value, name, units, table)
    return value


def _write_fraction(value: Fraction, name: str, units: str, table: str) -> str:
    if name == "price":
        return _decimal(value)
    if table == "load":
        return f"{_decimal(value)} lb" if _is_decimal(value) else f"{_decimal(value / POUNDS_PER_KG)} kg"
    if name == "recoat":
        return f"{_decimal(value)} h" if _is_decimal(value) else f"{_decimal(value * 60)} min"
    return exact_length(value, units)


def _is_decimal(value: Fraction) -> bool:
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return rest == 1


def _decimal(value: Fraction) -> str:
    return f"{value.numerator}" if value.denominator == 1 else f"{float(value):.10g}"


def exact_length(value: Fraction, units: str = "in") -> str:
    """A length as text that reads back exactly: inches on the tape, else millimetres, else a decimal or fraction."""
    millimetres = value * Fraction(127, 5)
    if units == "mm" and _is_decimal(millimetres):
        return f"{_decimal(millimetres)} mm"
    if value.denominator in (1, 2, 4, 8, 16, 32, 64):
        return write_length(value, "in", 64)
    if _is_decimal(millimetres) and not _is_decimal(value):
        return f"{_decimal(millimetres)} mm"
    if _is_decimal(value):
        return f"{_decimal(value)} in"
    whole, part = divmod(value, 1)
    return f"{whole} {part} in" if whole else f"{part} in"


def to_toml(options: Options, heading: str = "") -> str:
    """The build file's text for these options; reads back to equal options."""
    lines = [f"# {line}" for line in heading.splitlines()]
    _tables(to_raw(options), [], lines)
    return "\n".join(lines).strip() + "\n"


def _tables(table: Mapping[str, Any], path: list[str], lines: list[str]) -> None:
    simple = {k: v for k, v in table.items() if not isinstance(v, Mapping) and not _is_table_array(v)}
    if path and (simple or not table):
        lines += ["", f"[{'.'.join(path)}]"]
    lines += [f"{_key(k)} = {_toml(v)}" for k, v in simple.items()]
    for key, value in table.items():
        if isinstance(value, Mapping):
            _tables(value, [*path, _key(key)], lines)
        elif _is_table_array(value):
            for row in value:
                lines += ["", f"[[{'.'.join([*path, _key(key)])}]]"]
                lines += [f"{_key(k)} = {_toml(v)}" for k, v in row.items()]


def _is_table_array(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], Mapping)


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else _toml(name)


def _toml(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'
    if isinstance(value, list):
        return "[" + ", ".join(_toml(v) for v in value) + "]"
    return repr(value)
