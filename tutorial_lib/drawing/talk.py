"""A talk as a line of time, with what was said rightly below it and the slips above it."""

from __future__ import annotations

from collections.abc import Iterator

from tutorial_lib.drawing.layout import fitted
from tutorial_lib.drawing.scene import Line, Mark, Scene, Shape, Text
from tutorial_lib.narration.captions.cues import clock
from tutorial_lib.narration.verdicts.items import RIGHT, Item, Report
from tutorial_lib.narration.verdicts.writing import written_whole

WIDTH = 560.0  # [pt]
LONG = 40.0  # the line of time in the drawing's own units
ROWS = 5  # heights at which slips are written, so that neighbours don't lie on each other
ROW = 0.95
ROOM = 11.0  # a label's width in the drawing's units


def talk_timeline(report: Report, width: float = WIDTH) -> Scene:
    """The timeline of a talk: dots for what holds, crosses with words for what doesn't; by line in a script."""
    long = whole(report)
    shapes = [Line(((0, 0), (LONG, 0)), "outline"), *scale(report, long), *marks(report, long), *slips(report, long)]
    holds = len(report.with_verdict(*RIGHT))
    alt = f"Timeline of {report.talk.name}: {holds} numbers hold, {len(report.conflicts)} conflict with the plan."
    return fitted(shapes, width, alt)


def whole(report: Report) -> float:
    """The length of the talk in seconds, or of the script in lines."""
    last = max((place(i) for i in report.items), default=1.0)
    return max(report.talk.duration, last, 1.0) if report.talk.timed else max(last, 1.0)


def place(item: Item) -> float:
    """Where an item stands: seconds, or line."""
    return float(item.place) if item.t is None else item.t


def at(item: Item, long: float) -> float:
    """Where an item stands on the drawing."""
    return LONG * place(item) / long


def scale(report: Report, long: float) -> Iterator[Shape]:
    """Ticks and their times along the line."""
    step = (
        next((s for s in (60, 120, 300, 600, 1200, 3600, 7200) if long / s <= 9), 14400)
        if report.talk.timed
        else max(5, round(long / 8 / 5) * 5)
    )
    for tick in range(0, int(long) + 1, step):
        x = LONG * tick / long
        yield Line(((x, 0), (x, -0.3)))
        yield Text(
            (x, -0.3), clock(tick) if report.talk.timed else f"line {tick}", "small", shift=(0, -9), optional=True
        )


def marks(report: Report, long: float) -> Iterator[Shape]:
    """A dot for each number that holds, a ring for each the plan doesn't have."""
    for item in report.items:
        if item.verdict in RIGHT:
            yield Mark((at(item, long), 0.35), "dot", 3.0)
        elif item.verdict == "not_in_plan":
            yield Mark((at(item, long), 0.35), "ring", 5.0)


def slips(report: Report, long: float) -> Iterator[Shape]:
    """A cross for each slip, and above it what was said and what is right."""
    ends = [-ROOM] * ROWS
    for item in report.conflicts:
        x = at(item, long)
        row = next((r for r in range(ROWS) if x - ends[r] >= ROOM), ROWS - 1)
        ends[row] = x
        y = 1.3 + ROW * (row + 0.4)
        yield Line(((x, 0.95), (x, y)), "thin")
        yield Mark((x, 0.95), "no", 6.0, "wrong")
        yield label(item, report.units, x, y)


def label(item: Item, units: str, x: float, y: float) -> Text:
    """ "1:25 said 35 1/2 in, plan 38 1/2 in", to the side where there is room."""
    where = item.time or f"line {item.place}"
    said, right = (written_whole(v, item.unit, units) for v in (item.value, item.plan_value))
    left = x > LONG - ROOM
    return Text(
        (x, y),
        f"{where} said {said}, plan {right}",
        "small",
        "end" if left else "start",
        shift=(-3.0 if left else 3.0, 0.0),
        halo=True,
    )
