"""How likely one thing is said at the numbers of a talk, kept so that one number is quickly left out of account."""

from __future__ import annotations

LIKELY = 0.5


class Tally:
    """The chances of one thing at many numbers: their sum, how many are likely, the two greatest."""

    __slots__ = ("first", "likely", "place", "second", "total")

    def __init__(self) -> None:
        self.total, self.likely = 0.0, 0
        self.first, self.second, self.place = 0.0, 0.0, -1  # the greatest, the next, where the greatest is

    def add(self, chance: float, at: int) -> None:
        """Takes in the chance at one number."""
        self.total += chance
        self.likely += chance > LIKELY
        if chance > self.first or self.place < 0:
            self.first, self.second, self.place = chance, self.first, at
        elif chance > self.second:
            self.second = chance

    def best_but(self, at: int) -> float:
        """The greatest chance at any number but one."""
        return self.second if at == self.place else self.first
