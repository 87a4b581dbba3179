"""What is wrong with a build file, in our words: each fault with the line its key stands on."""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from pydantic import BaseModel

from tutorial_lib.design.options import Options
from tutorial_lib.design.toml_faults import Typed
from tutorial_lib.errors import Fault, InputError

NOTHING: Mapping[str, str] = {}


def fault_of(error: Any, where: str, text: str) -> Fault:
    """One of pydantic's errors as a fault.

    Args:
        error: as ``ValidationError.errors()`` gives it.
        where: the file's name, for messages.
        text: the file's text, "" when there is none.
    """
    loc = list(error["loc"])
    key = _named(loc)
    line = line_of(text, loc)
    place = f"{where}:{line} {key}" if line else f"{where} {key}".strip()
    return Fault(place, _sentence(error, loc))


def _named(loc: list[Any]) -> str:
    """The key of a value as a person finds it: rows and the values of a list counted from 1.

    >>> _named(["lumber", "2x6", "stock", 0, "price"]), _named(["finish", "grits", 2])
    ('lumber.2x6.stock, 1st row, price', 'finish.grits, 3rd')
    """
    key = ""
    for at, part in enumerate(loc):
        if isinstance(part, int):
            key += f", {ordinal(part + 1)}{' row,' if at + 1 < len(loc) else ''}"
        else:
            key += f"{' ' if key.endswith(',') else '.' if key else ''}{part}"
    return key


def ordinal(n: int) -> str:
    """A place in a row: "1st", "22nd", "113th"."""
    teen = n % 100 in (11, 12, 13)
    return f"{n}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th')}"


def on_lines(error: InputError, where: str, text: str, typed: Mapping[str, str] = NOTHING) -> InputError:
    """What is wrong with a bed as a whole, each fault with the line that the key it names stands on.

    Args:
        error: the faults, each at a dotted key or at none.
        where: the file's name.
        text: the file's text.
        typed: the keys that it has under another name, a slip of the pen.
    """
    return type(error)([_on_line(fault, where, text, typed) for fault in error.faults], error.closing)


def _on_line(fault: Fault, where: str, text: str, typed: Mapping[str, str]) -> Fault:
    named = KEY.fullmatch(fault.where)
    line = line_of(text, typed.get(fault.where, fault.where).split(".")) if named else None
    return Fault(f"{where}:{line} {fault.where}", fault.what) if line else fault


KEY = re.compile(r"[a-z_]+(?:\.[A-Za-z0-9_]+)*")

_OURS = {
    "Input should be": "it must be",
    "a valid integer": "a whole number",
    "a valid number": "a number",
    "a valid string": 'text in quotes, such as "2x4"',
    "a valid boolean": "true or false",
    "a valid dictionary": "a table with a heading in brackets, such as [saw]",
}  # the reading library's words, as one says them of a build file


def _sentence(error: Any, loc: list[Any]) -> str:
    kind, value = error["type"], error.get("input")
    if kind == "extra_forbidden":
        return _unknown(loc, "section" if len(loc) == 1 and isinstance(value, Mapping | tuple) else "key")
    if kind == "missing":
        return "is missing; a build file needs it."
    if kind == "tuple_type":
        return f"{_shown(value)} stands alone where a list is wanted: write [{_shown(value)}]."
    if kind == "string_pattern_mismatch" and isinstance(value, str) and loc[-1] in PATTERNS:
        return _not_so(value, *PATTERNS[loc[-1]])
    return _in_our_words(error)


def _in_our_words(error: Any) -> str:
    """What the reading library says of a value, with our words for its own."""
    kind, value = error["type"], error.get("input")
    message = str(error["msg"]).removeprefix("Value error, ")
    for library, ours in _OURS.items():
        message = message.replace(library, ours)
    stop = "" if message.endswith((".", "?")) else "."
    if kind == "value_error":
        told = not isinstance(value, str) or message.startswith('"') or _names(message, value)
        return f"{message}{stop}" if told else f"{_shown(value)}: {message}{stop}"
    message = message.split(" or instance of")[0].replace("'", '"')
    return f"{_shown(value)} can't be used: {message[0].lower()}{message[1:]}{stop}"


def _names(message: str, value: str) -> bool:
    """Whether a message says what was typed: "5" isn't said by "275 lb"; of nothing typed there is nothing to say.

    >>> _names("a price can't be negative (-2)", "-2"), _names('for example "275 lb"', "5")
    (True, False)
    """
    return not value or bool(re.search(rf"(?<!\w){re.escape(value)}(?!\w)", message))


def _not_so(value: str, wanted: str, nearest: Callable[[str], str], example: str) -> str:
    """A text of another form than the key takes: what it takes, and the nearest that it would."""
    return f'{_shown(value)} can\'t be used: {wanted}, such as "{nearest(value) or example}".'


def _slug(value: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", value.lower()).strip("-")


def _coin(value: str) -> str:
    found = re.sub(r"[^a-z]", "", value.lower())
    return SIGNS.get(value.strip(), found if len(found) == 3 else "")


SIGNS = {"$": "usd", "€": "eur", "£": "gbp"}
PATTERNS: dict[Any, tuple[str, Callable[[str], str], str]] = {
    "name": ("small letters, digits and dashes, no spaces", _slug, "my-bed"),
    "currency": ("three small letters", _coin, "usd"),
    "gauge": ('a number sign and the size, or millimetres as in "4.5 mm"', lambda _: "", "#8"),
    "address": ("a web address that begins with https://", lambda _: "", "https://my-channel.example/bed"),
}  # by key: what it takes, the nearest that it would, an example


def _shown(value: Any) -> str:
    """A value as the build file writes it."""
    if isinstance(value, Typed):
        return str(value)
    return json.dumps(value, ensure_ascii=False) if isinstance(value, (str, int, float, bool)) else "the value"


def _unknown(loc: list[Any], what: str) -> str:
    near = known_key(loc)
    hint = f"Did you mean {near}?" if near else f"Known here: {', '.join(_fields(loc[:-1]))}."
    return f"no such {what}. {hint}"


def known_key(loc: list[Any]) -> str:
    """The known key that an unknown one is a slip of the pen for; "" where none is near."""
    near = difflib.get_close_matches(str(loc[-1]), list(_fields(loc[:-1])), 1, 0.7)
    return near[0] if near else ""


def _fields(path: list[Any]) -> Mapping[str, Any]:
    """The fields that a table of the build file can have, by what they are called there."""
    model: Any = Options
    for name in path:
        if isinstance(name, int):
            continue
        field = _called(model).get(name)
        if field is None:
            continue
        model = _model_in(field.annotation) or model
    return _called(model)


def _called(model: Any) -> dict[str, Any]:
    return {field.alias or name: field for name, field in getattr(model, "model_fields", {}).items()}


def _model_in(annotation: Any) -> Any:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = _model_in(inner)
        if found:
            return found
    return None


def line_of(text: str, loc: Sequence[Any]) -> int | None:
    """Line of a key in TOML text: tables and arrays of tables; an inline table gives its own line."""
    names = [str(part) for part in loc if not isinstance(part, int)]
    wanted = [part for part in loc if isinstance(part, int)]
    best, best_depth = None, 0
    header: list[str] = []
    seen: dict[tuple[str, ...], int] = {}
    for number, line in enumerate(text.splitlines(), 1):
        stripped = line.strip()
        if match := re.match(r"\[\[?([^\]]+)\]\]?", stripped):
            header = _parts(match[1])
            if stripped.startswith("[["):
                seen[tuple(header)] = seen.get(tuple(header), -1) + 1
                if wanted and tuple(header) == tuple(names[: len(header)]) and seen[tuple(header)] != wanted[0]:
                    header = ["\0"]
            here = header
        elif match := re.match(r"((?:\"[^\"]*\"|'[^']*'|[A-Za-z0-9_.-])+)\s*=", stripped):
            here = [*header, *_parts(match[1])]
        else:
            continue
        depth = min(len(here), len(names))  # [lgs.foot] is a line of an unknown "lgs" too
        if here[:depth] == names[:depth] and depth > best_depth:
            best, best_depth = number, depth
    return best


def _parts(key: str) -> list[str]:
    """The parts of a dotted key, without quotes.

    >>> _parts('lumber."5/4x6" .stock')
    ['lumber', '5/4x6', 'stock']
    """
    return [part.strip().strip("\"'") for part in re.findall(r"\"[^\"]*\"|'[^']*'|[^.\"']+", key) if part.strip()]
