"""Numbers and lengths in words, as one says them on camera."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from tutorial_lib.errors import InputError
from tutorial_lib.measures.writing import round_to, to_mm

ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen"
).split()
TENS = "- - twenty thirty forty fifty sixty seventy eighty ninety".split()
SCALES = ((10**9, "billion"), (10**6, "million"), (1000, "thousand"), (100, "hundred"))
LARGEST = 10**12  # nothing in a workshop comes near it

PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second", 64: "sixty-fourth"}


def say_number(n: int) -> str:
    """A whole number in words.

    >>> say_number(1210)
    'one thousand two hundred ten'
    """
    if abs(n) >= LARGEST:
        raise InputError(f"{n} is too large to say in words; the limit is {LARGEST - 1}.")
    if n < 0:
        return f"minus {say_number(-n)}"
    if n < 20:
        return ONES[n]
    if n < 100:
        ten, one = divmod(n, 10)
        return TENS[ten] + (f"-{ONES[one]}" if one else "")
    size, name = next(scale for scale in SCALES if n >= scale[0])
    count, rest = divmod(n, size)
    return f"{say_number(count)} {name}" + (f" {say_number(rest)}" if rest else "")


def say_length(x: Fraction, units: str = "in", denominator: int = 16) -> str:
    """A length in words, at the nearest tape mark, the unit left out as it is on camera.

    Args:
        x: the length [in].
        units: "in" or "mm".
        denominator: the finest mark said, a power of 2 up to 64.

    >>> say_length(Fraction(381, 8)), say_length(Fraction(213, 4)), say_length(Fraction(5, 8))
    ('forty-seven and five eighths', 'fifty-three and a quarter', 'five eighths')
    """
    if units == "mm":
        return say_number(int(round_to(to_mm(x), 1)))
    if units != "in" or denominator not in (1, *PARTS):
        raise InputError(f"a length is said in mm, or in inches down to 1/2 ... 1/64; not {units} 1/{denominator}.")
    near = round_to(x, denominator)
    if near < 0:
        return f"minus {say_length(-near, units, denominator)}"
    whole = floor(near)
    words = [say_number(whole)] if whole or near == whole else []
    return " and ".join(words + _say_part(near - whole))


def _say_part(part: Fraction) -> list[str]:
    if not part:
        return []
    name = PARTS[part.denominator]
    if part.numerator == 1:
        return [f"{'an' if name == 'eighth' else 'a'} {name}"]
    return [f"{say_number(part.numerator)} {name}s"]
