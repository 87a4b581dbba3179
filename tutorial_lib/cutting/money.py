"""Prices as people write them, with or without a currency; whole cents inside."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.records import dataclass

PRICE = re.compile(r"(?P<before>[^\d\s.,+-]*)\s*(?P<sign>-?)\s*(?P<number>\d[\d ,.']*|[.,]\d+)\s*(?P<after>[^\d\s.,]*)")

MOST = 1_000_000  # for one board; our choice
MOST_LETTERS = 40  # of a price as it is typed
SIGNS = {"usd": ("$", True), "gbp": ("£", True), "eur": ("€", True), "aud": ("A$", True)}


@dataclass(frozen=True)
class Price:
    """An exact amount and the currency written with it."""

    amount: Fraction
    currency: str = ""
    before: bool = False  # the currency stands before the number


@dataclass(frozen=True)
class Money:
    """How prices are written in one list, and the smallest coin they need."""

    currency: str = ""
    before: bool = False
    per_unit: int = 100  # coins in one unit

    @classmethod
    def of(cls, prices: Sequence[Price]) -> Money:
        """The money of a list of prices: its first currency, its finest coin (cents at least)."""
        named = next((p for p in prices if p.currency), Price(Fraction(0)))
        fine = 100
        while any((p.amount * fine).denominator > 1 for p in prices):
            fine *= 10
        return cls(named.currency, named.before, fine)

    @classmethod
    def in_currency(cls, code: str) -> Money:
        """The money of a currency's code.

        >>> Money.in_currency("gbp").write(810), Money.in_currency("sek").write(8100)
        ('£8.10', '81.00 SEK')
        """
        sign, before = SIGNS.get(code, (code.upper(), False))
        return cls(sign, before)

    def whole(self, price: Price) -> int:
        """The price in the smallest coin."""
        return int(price.amount * self.per_unit)

    def number(self, coins: int) -> int | float:
        """An amount as a plain number of units, for JSON."""
        amount = Fraction(coins, self.per_unit)
        return int(amount) if amount.denominator == 1 else float(amount)

    def write(self, coins: int) -> str:
        """An amount as the list writes it.

        >>> Money("$", True).write(1298), Money("CHF").write(500)
        ('$12.98', '5.00 CHF')
        """
        places = max(len(str(self.per_unit)) - 1, 2)
        number = f"{coins / self.per_unit:.{places}f}"
        if not self.currency:
            return number
        return (
            f"{self.currency}{' ' if self.currency.isalpha() else ''}{number}"
            if self.before
            else f"{number} {self.currency}"
        )


def read_price(text: str) -> Price | str:
    """A price, or the sentence that says why it is none.

    >>> read_price("$12.98").amount
    Fraction(649, 50)
    >>> read_price("4,50 €").amount
    Fraction(9, 2)
    >>> read_price("-3")
    'the price -3 is below 0; write 0 for an offcut on the shelf'
    """
    if len(text) > MOST_LETTERS:
        return f'the price "{text[:24]}…" can\'t be read; write it like 12.98 or $12.98'
    clean = text.replace("\u2212", "-").replace("\u00a0", " ").strip()
    if not clean:
        return "has no price; write 0 for an offcut on the shelf"
    match = PRICE.fullmatch(clean.removeprefix("-").strip())
    if match is None:
        return f'the price "{text}" can\'t be read; write it like 12.98 or $12.98'
    number = _number(match.group("number"))
    if (clean.startswith("-") or match.group("sign")) and number:
        return f"the price {text} is below 0; write 0 for an offcut on the shelf"
    if number > MOST:
        return f"the price {text[:24]} is more than a board ever costs; give at most {MOST}"
    return _with_currency(text, number, match.group("before"), match.group("after"))


def _with_currency(text: str, number: Fraction, before: str, after: str) -> Price | str:
    """A price with the currency on one side of it."""
    if before and after:
        return f'the price "{text}" names two currencies'
    return Price(number, before or after, bool(before))


def _number(text: str) -> Fraction:
    """Digits with a decimal point or comma; thousands may be set off by the other, a space or an apostrophe."""
    clean = text.strip().replace(" ", "").replace("'", "")
    last = max(clean.rfind("."), clean.rfind(","))
    if last < 0:
        return Fraction(clean)
    whole, rest = clean[:last], clean[last + 1 :]
    mark = clean[last]
    if mark in whole or (len(rest) == 3 and mark == "," and whole not in ("", "0")):
        whole, rest = whole + rest, ""
    digits = re.sub(r"[.,]", "", whole) or "0"
    return Fraction(f"{digits}.{rest or '0'}")
