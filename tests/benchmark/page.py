"""The viewers' page in a real browser: until it works out beds itself, and from a choice to the new bed."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmark.measuring import Row, clock, timed, written
from tests.browser.page_beds import ask, beds, worked_out
from tests.browser.page_server import BUILD, build, live, served, wait
from tests.browser.servers import NAMES, QUIET
from tutorial_lib.errors import InputError
from tutorial_lib.site.heard import packed
from tutorial_lib.site.live import Live

BEDS, MOST, OPENED = 9, 20, 3  # beds asked for, of so many of which some can't be had; visits


def rows() -> Iterator[Row]:
    """Nothing but the reason where there is no browser or no way to the registries."""
    browser = next(filter(None, map(shutil.which, NAMES)), None)
    with tempfile.TemporaryDirectory() as folder:
        try:
            if browser is None:
                raise InputError("no Chromium here")
            found = build(Path(folder))
        except InputError as error:
            yield Row(what="viewers' page", runs=0, median=f"not measured: {error}")
            return
        desk = Live(BUILD.read_text(encoding="utf-8"), packed(found.report))
        yield from _visited(browser, Path(folder), [desk.link() for bed in beds(MOST) if not worked_out(desk, bed)])


def _visited(browser: str, folder: Path, links: list[str]) -> Iterator[Row]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright, served(folder) as address:
        chromium = playwright.chromium.launch(executable_path=browser, args=QUIET)
        context, opened = chromium.new_context(), []
        for _ in range(OPENED):  # the first fetches all of it, the others have it at hand
            page = context.new_page()
            opened.append(clock(lambda page: (page.goto(address), live(page)), page)[0])
        chosen = []
        for number, link in enumerate(links[:BEDS], 1):
            ask(page, link)
            chosen.append(clock(wait, page, f"whole {number}", 300)[0])
        chromium.close()
    yield timed("viewers' page (clock), until it works beds out", opened, f"the first visit {written(opened[0])}")
    yield timed("viewers' page (clock), a whole bed after a choice", chosen)
