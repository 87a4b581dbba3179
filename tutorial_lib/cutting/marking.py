"""How marking methods compare, by simulation with a fixed seed: what errors do to the last gap, and to the legs.

All errors are normal, independent and given as standard deviations; the first and the last slat stand tight
to the ends, so that the last gap takes whatever is left. Figures are of chance: 1 in 1,000 needs many trials.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from random import Random
from statistics import fmean, pstdev

from tutorial_lib.records import dataclass

Gauss = Callable[[float, float], float]  # mean, standard deviation

SEED = 20_240_601


@dataclass(frozen=True, kw_only=True)
class Errors:
    """Standard deviations of what goes wrong by hand [in]; common practice, no source."""

    slat_width: float = 1 / 32
    opening: float = 1 / 32
    tape: float = 1 / 32  # a mark, or one gap stepped off by tape
    spacer: float = 1 / 32  # the spacer's own error, once per build
    placing: float = 1 / 64  # pushing a slat against the spacer
    stack: float = 1 / 32  # measuring all slats pushed together
    spacer_checked: float = 1 / 64  # a spacer cut to the figure from the stack, then checked and trimmed once
    leg_by_tape: float = 1 / 32
    leg_by_stop: float = 1 / 128


@dataclass(frozen=True)
class Row:
    """The slats to be laid [in]."""

    opening: float
    width: float
    count: int
    limit: float  # the mattress maker's gap limit

    @property
    def gap(self) -> float:
        """The gap if nothing goes wrong [in]."""
        return (self.opening - self.count * self.width) / (self.count - 1)


@dataclass(frozen=True, kw_only=True)
class Method:
    """One way to mark, and what the trials gave."""

    key: str
    name: str
    spread: float  # [in] standard deviation of the watched gap
    over: float  # share of trials with that gap over the limit
    worst: float  # [in] mean of the widest gap
    sample: tuple[float, ...]  # [in] the watched gap of the first trials, for a plot


METHODS = (
    ("marks", "absolute marks from one end"),
    ("step", "each gap stepped off by tape"),
    ("centre", "centre pair first, then a spacer outward"),
    ("stack", "spacer from the measured stack"),
    ("spacer", "one spacer walked along"),
)


@lru_cache(maxsize=32)
def compare(row: Row, errors: Errors = Errors(), trials: int = 20_000, seed: int = SEED) -> tuple[Method, ...]:
    """Every marking method on the same row.

    Args:
        row: the slats.
        errors: what goes wrong, how much.
        trials: beds built on paper.
        seed: of the random numbers, so that the figures can be repeated.
    """
    return tuple(_run(key, _named(name, row), row, errors, trials, Random(f"{seed} {key}")) for key, name in METHODS)


def _named(name: str, row: Row) -> str:
    """The method as this row has it: an odd row has one slat in its middle."""
    return name.replace("centre pair", "centre slat") if row.count % 2 else name


def _run(key: str, name: str, row: Row, errors: Errors, trials: int, random: Random) -> Method:
    watched, widest = [], []
    for _ in range(trials):
        gaps = _gaps(key, row, errors, random.gauss)
        widest.append(max(gaps))
        # Absolute marks have no last gap that gathers errors: the widest counts.
        watched.append(max(gaps) if key == "marks" else gaps[-1])
    over = sum(g > row.limit for g in watched) / trials
    return Method(
        key=key, name=name, spread=pstdev(watched), over=over, worst=fmean(widest), sample=tuple(watched[:2000])
    )


def _gaps(key: str, row: Row, e: Errors, g: Gauss) -> list[float]:
    widths = [row.width + g(0, e.slat_width) for _ in range(row.count)]
    opening = row.opening + g(0, e.opening)
    n = row.count
    if key == "marks":
        return _marked(row, widths, opening, [g(0, e.tape) for _ in range(n)])
    if key == "step":
        gaps = [row.gap + g(0, e.tape) for _ in range(n - 2)]
        return [*gaps, opening - sum(widths) - sum(gaps)]
    if key == "stack":
        spacer = (row.opening - (sum(widths) + g(0, e.stack))) / (n - 1) + g(0, e.spacer_checked)
    else:
        spacer = row.gap + g(0, e.spacer)
    if key == "centre":
        return _from_centre(row, widths, opening, spacer, e, g)
    gaps = [spacer + g(0, e.placing) for _ in range(n - 2)]
    return [*gaps, opening - sum(widths) - sum(gaps)]


def _marked(row: Row, widths: list[float], opening: float, slips: list[float]) -> list[float]:
    """Near edges on marks from one end; the last slat tight to the far end."""
    pitch = row.width + row.gap
    edges = [0.0] + [i * pitch + slips[i] for i in range(1, row.count - 1)] + [opening - widths[-1]]
    return [edges[i + 1] - edges[i] - widths[i] for i in range(row.count - 1)]


def _from_centre(row: Row, widths: list[float], opening: float, spacer: float, e: Errors, g: Gauss) -> list[float]:
    """A pair (of an odd row, one slat) by tape at the middle, then spacers to both ends.

    The gap at the far end takes that half's rest.
    """
    half = row.count // 2
    middle = row.width / -2 if row.count % 2 else row.gap / 2  # from the bed's middle to the first slat walked from
    first = opening / 2 + middle + g(0, e.tape)
    walked = [spacer + g(0, e.placing) for _ in range(row.count - half - 2)]
    last = opening - first - sum(widths[half:]) - sum(walked)
    return [*walked, last]


@lru_cache(maxsize=32)
def chance_to_rock(limit: float, errors: Errors = Errors(), trials: int = 20_000, seed: int = SEED) -> dict[str, float]:
    """Share of four-legged beds that rock by more than a limit [in], by tape and by stop block."""
    found = {}
    for key, deviation in (("tape", errors.leg_by_tape), ("stop", errors.leg_by_stop)):
        random = Random(f"{seed} legs {key}")
        over = 0
        for _ in range(trials):
            a, b, c, d = (random.gauss(0, deviation) for _ in range(4))
            over += abs(a + c - b - d) / 2 > limit
        found[key] = over / trials
    return found


def row_of(opening: Fraction, width: Fraction, count: int, limit: Fraction) -> Row:
    """A row for the simulation from exact lengths [in]."""
    return Row(float(opening), float(width), count, float(limit))
