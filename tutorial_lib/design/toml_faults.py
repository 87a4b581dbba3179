"""What keeps a build file from being read at all, in a person's words, with the line as it can be read: tried."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator

from tutorial_lib.errors import Fault

CURLY = str.maketrans({"“": '"', "”": '"', "„": '"', "‟": '"', "‘": "'", "’": "'", "«": '"', "»": '"'})
CHOICE = re.compile(r"(?P<key>[A-Za-z0-9_.-]+)\s*(?P<sign>[=:])\s*(?P<value>.*?)(?P<remark>\s+#.*)?")
INCHES = re.compile(r"[\"']?(?P<number>[^\"]*?[0-9])\s*(?:\"|''|″)[\"']?")  # "10"" or 10"
LONGEST = 500  # characters of a line that is looked into: longer ones nobody has typed
NUMBERS = re.compile(r"[0-9]+(?:\s*,\s*[0-9]+)+")
CENTS = re.compile(r"[0-9]+,[0-9]{2}")
COUNTS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


class Typed(float):
    """A number with so many digits that Python would tell it otherwise than it was typed: 1e400 as "inf"."""

    typed: str

    def __new__(cls, typed: str) -> Typed:
        made = super().__new__(cls, typed)
        made.typed = typed
        return made

    def __str__(self) -> str:
        return self.typed


def number(typed: str) -> float:
    """A number with a point or an exponent, as TOML has them.

    >>> number("7.25"), str(number("1e400"))
    (7.25, '1e400')
    """
    value = float(typed)
    return value if abs(value) < PLAIN else Typed(typed)


PLAIN = 1e15  # below it Python tells a number by its digits


def syntax_fault(text: str, error: tomllib.TOMLDecodeError, where: str) -> Fault:
    """Why the text is no build file, and how the line at fault is written.

    Args:
        text: the file's text.
        error: what the TOML reader says.
        where: the file's name.
    """
    found = re.search(r"at line (\d+)", str(error))
    if found is None:
        return Fault(where, f"it ends too early: {_plain(error)}.")
    number = int(found[1])
    place, line = f"{where}:{number}", _line(text, number)
    for why, mended in _mended(line) if len(line) <= LONGEST else ():
        if _read_on(text, number, mended):
            return Fault(place, f"{why} Write {_bare(mended)}")
    if "overwrite" in str(error) or "declare" in str(error):
        return Fault(place, f"{line.split('=')[0].strip()} stands here for the second time: keep one of the two.")
    form = 'A choice is a name, an equals sign and a value: kerf = "1/8 in".'
    return Fault(place, f"not readable: {_plain(error)}. {form}")


def _bare(line: str) -> str:
    """A line without its remark."""
    choice = CHOICE.fullmatch(line.strip())
    return f"{choice['key']} = {choice['value']}" if choice else line.strip()


def _plain(error: tomllib.TOMLDecodeError) -> str:
    """The reader's own words, without the place."""
    said = re.sub(r"\s*\(at [^)]*\)", "", str(error))
    return said[:1].lower() + said[1:]


def _line(text: str, number: int) -> str:
    lines = text.split("\n")
    return lines[number - 1] if number <= len(lines) else ""


def _read_on(text: str, number: int, mended: str) -> bool:
    """True if the file can be read past the line once it is written so."""
    lines = text.split("\n")
    lines[number - 1] = mended
    try:
        tomllib.loads("\n".join(lines))
    except tomllib.TOMLDecodeError as error:
        found = re.search(r"at line (\d+)", str(error))
        return found is not None and int(found[1]) > number
    except (RecursionError, ValueError):
        return False
    return True


def _mended(line: str) -> Iterator[tuple[str, str]]:
    """What may be wrong with a line, and the line without it; likeliest first."""
    if line != line.translate(CURLY):
        yield "These quotes are curly, as a letter has them; a build file takes straight ones.", line.translate(CURLY)
    if line.lstrip().startswith("["):
        name = line.strip().strip("[]")
        if line.lstrip().startswith("[["):
            yield "A heading of rows begins and ends with two brackets.", f"[[{name}]]"
        yield "A heading begins and ends with a bracket.", f"[{name}]"
    if choice := CHOICE.fullmatch(line.strip().translate(CURLY)):
        key, value, remark = choice["key"], choice["value"].strip(), choice["remark"] or ""
        if choice["sign"] == ":":
            yield "A name and its value have an equals sign between them.", f"{key} = {value}{remark}"
        for why, written in _values(value):
            yield why, f"{key} = {written}{remark}"
    elif words := re.fullmatch(r"(?P<key>[A-Za-z0-9_. -]+?)\s*=\s*(?P<value>.+)", line.strip()):
        yield "A name has no spaces.", f"{words['key'].replace(' ', '_')} = {words['value']}"


def _values(value: str) -> Iterator[tuple[str, str]]:
    if inches := INCHES.fullmatch(value):
        yield 'The inch mark ends the text: inches are written "in".', f'"{inches["number"].strip()} in"'
    bare = value.strip("\"'")
    if bare.lower() in COUNTS:
        yield "A count is written in figures.", str(COUNTS.index(bare.lower()))
    if CENTS.fullmatch(bare):
        yield "A price has a point before its cents, and stands in quotes.", f'"{bare.replace(",", ".")}"'
    if NUMBERS.fullmatch(bare):
        yield "Several values stand in brackets.", f"[{bare}]"
    if value[:1] in ('"', "'"):
        yield "The quote at the end is missing.", f'"{bare}"'
    elif value[-1:] in ('"', "'"):
        yield "The quote at the beginning is missing.", f'"{bare}"'
    elif re.match(r"[\w#$.-]", value) and '"' not in bare:
        yield "Text stands in quotes, lengths too.", f'"{bare}"'
