"""`open` lands in notebook 00, run, without code in sight; `open --view` shows it as pages; both end when told."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser.servers import ROOT, free_port
from tutorial_lib.drawing.lettering import typographic

pytestmark = pytest.mark.browser


class Opened:
    """A running `open` command and the address it told."""

    def __init__(self, folder: Path, *arguments: str) -> None:
        self.log = folder / "open.log"
        environment = {**os.environ, "TUTORIAL_NO_SETUP": "1", "TUTORIAL_STATE": str(folder / "state"),
                       "PYTHONUNBUFFERED": "1"}  # fmt: skip
        with self.log.open("w") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "tutorial_lib", "open", "--no-browser", f"--port={free_port()}", *arguments],
                cwd=ROOT, env=environment, stdout=log, stderr=log,
            )  # fmt: skip

    def address(self) -> str:
        """As printed, once it answers."""
        end = time.monotonic() + 60
        while time.monotonic() < end:
            found = re.search(r"http://127\.0\.0\.1:\d+/\S*token=\S+", self.log.read_text())
            if found:
                return found[0]
            time.sleep(0.3)
        raise AssertionError(self.log.read_text())


@pytest.fixture
def opened(tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Opened]:
    made = Opened(tmp_path, *request.param)
    yield made
    made.process.send_signal(signal.SIGTERM)
    assert made.process.wait(60) == 0


def _visit(page: Any, address: str) -> None:
    for _ in range(60):
        try:
            page.goto(address)
            return
        except Exception:  # the server is not up yet
            time.sleep(0.5)


@pytest.mark.parametrize("opened", [(), ("--view",)], ids=["lab", "view"], indirect=True)
def test_it_lands_in_notebook_00_run_and_without_code(browser: Any, opened: Opened) -> None:
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    elsewhere: list[str] = []
    page.on("request", lambda r: elsewhere.append(r.url) if "127.0.0.1" not in r.url and "data:" not in r.url else None)
    try:
        _visit(page, opened.address())
        page.locator(".tw-panel svg[role=img]").first.wait_for(timeout=60_000)
        assert "00_start_here" in page.url
        assert page.get_by_text("StartPanel").locator("visible=true").count() == 0
        assert page.locator(".tw-result").inner_text().startswith(typographic("41 1/2 in wide"))
        assert elsewhere == []
        if "voila" not in page.url:
            _a_chapter_opens_by_its_link_and_one_key_shows_the_code(page)
    finally:
        page.close()


def _a_chapter_opens_by_its_link_and_one_key_shows_the_code(page: Any) -> None:
    page.get_by_role("link", name="01 Design").click(timeout=60_000)
    page.locator(".tw-panel .tw-tabs:visible").first.wait_for(timeout=60_000)
    code = page.locator(".jp-CodeCell .jp-InputArea-editor").locator("visible=true")
    assert code.count() == 0
    page.get_by_label("Spacing at most", exact=True).focus()  # from within a panel too
    page.keyboard.press("Alt+C")
    code.first.wait_for()
