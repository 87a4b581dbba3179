"""Whole commands on the demo bed, each in a fresh process: what someone waits for at the terminal."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmark.measuring import BUILD, CAPTIONS, Row, command, timed

RUNS = 5
COMMANDS: dict[str, tuple[str | Path, ...]] = {
    "start-up: --help": ("--help",),
    "adapt to a king": ("adapt", BUILD, "--mattress", "king", "--captions", CAPTIONS),
    "cut": ("cut", BUILD),
}
# on a bed of which nothing is kept, and again on the same
TWICE: dict[str, tuple[str | Path, ...]] = {
    "facts, the numbers alone": ("facts", BUILD, "--json", "-"),
    "facts, with remedies tried": ("facts", BUILD),
    "check": ("check", BUILD, CAPTIONS),
}


def rows() -> Iterator[Row]:
    """Each command's times."""
    with tempfile.TemporaryDirectory() as folder:
        for what, arguments in COMMANDS.items():
            yield _row(what, RUNS, *arguments)
        sheet = ("sheet", BUILD, "-o", Path(folder) / "sheet.pdf", "--force")
        for what, arguments in {**TWICE, "sheet": sheet}.items():
            yield _row(what, RUNS, *arguments)
            yield _row(f"{what}, again", RUNS, *arguments, memory=Path(folder) / "cache")
        yield _row("kit", 1, "kit", BUILD, CAPTIONS, "-o", Path(folder) / "kit", "--force")


def _row(what: str, runs: int, *arguments: str | Path, memory: Path | None = None) -> Row:
    if runs > 1:
        command(*arguments, memory=memory)  # so that nobody pays for compiling, nor again for what is kept
    return timed(what, [command(*arguments, memory=memory) for _ in range(runs)])
