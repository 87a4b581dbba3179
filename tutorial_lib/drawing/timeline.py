"""The timeline to the mattress as a chart: hours from left to right, work in wood tint, waiting in white."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from tutorial_lib.drawing.lettering import text_width
from tutorial_lib.drawing.scene import STYLE, Line, Rect, Scene, Shape, Style, Text
from tutorial_lib.finishing.timeline import Task

ROW, BAR = 13.0, 8.0  # [pt]
NAMES = 150.0  # [pt] least room for the names
AFTER = 62.0  # [pt] room for the hours behind the last bar


def timeline_chart(tasks: Sequence[Task], width: float = 480.0, style: Style = STYLE, row: float = ROW) -> Scene:
    """Tasks up to the mattress, each starting when the one before has taken its longest.

    Args:
        tasks: the timeline.
        width: on paper [pt].
        style: the look.
        row: height of a task's row [pt].
    """
    hours = max(tasks[-1].end[1], 1.0)
    left = max(NAMES, *(text_width(task.name, style.text, False, style.face) + 8 for task in tasks))
    scale = (width - left - AFTER) / hours
    shapes: list[Shape] = [*_days(hours, scale, (len(tasks) + 0.3) * row, left)]
    for i, task in enumerate(tasks):
        shapes += _row(task, -(i + 1) * row, scale, left)
    told = "; ".join(f"{task.name}: {_hours(task.hours)}" for task in tasks)
    return Scene(tuple(shapes), 1.0, f"Timeline in hours. {told}.", style=style)


def _row(task: Task, y: float, scale: float, left: float) -> Iterator[Shape]:
    x = left + task.start[1] * scale
    least, most = (max(h * scale, 1.5) for h in task.hours)
    yield Text((left - 6, y + BAR / 2), task.name, "text", "end")
    yield Rect(x, y, most, BAR, "paper", line="thin")
    yield Rect(
        x,
        y,
        least,
        BAR,
        "wood front" if task.work == "hands" else "metal",
        line="outline" if task.work == "hands" else "thin",
    )
    yield Text((x + most + 4, y + BAR / 2), _hours(task.hours), "small", "start", halo=True)


def _days(hours: float, scale: float, high: float, left: float) -> Iterator[Shape]:
    """A line at each day, counted from the first task."""
    days = ceil(hours / 24)
    step = max(1, ceil(days * (text_width("day 00", STYLE.small) + 8) / (hours * scale)))
    for day in range(0, days + 1, step):
        if day * 24 > hours:
            return
        x = left + day * 24 * scale
        yield Line(((x, 0), (x, -high)), "thin")
        yield Text((x, 7), f"day {day + 1}" if day < days else "", "small")


def _hours(hours: tuple[float, float]) -> str:
    low, high = (f"{h:.0f}" if h >= 2 else f"{h:.1f}" for h in hours)
    return f"{low} h" if low == high else f"{low} to {high} h"
