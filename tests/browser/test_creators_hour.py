"""A creator's hour with nothing but the README: a bed and captions of their own, chosen, changed, saved, checked,
corrected and published, by the commands and the notebooks in a real browser.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser.servers import ROOT, lab
from tutorial_lib.cutting import comes_out
from tutorial_lib.design.build_file import read_build
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import say_length, say_number
from tutorial_lib.narration import check, read_captions
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.check_list import headline

pytestmark = pytest.mark.browser
BED = "my-bed.toml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = tmp_path / "my videos"
    made.mkdir()
    return made


@pytest.fixture
def page(browser: Any, tmp_path: Path) -> Iterator[Any]:
    served = tmp_path / "served"
    served.mkdir()
    with lab(served, more={"TUTORIAL_STATE": str(tmp_path / "state"), "TUTORIAL_NO_SETUP": "1"}) as lab_server:
        shown = browser.new_page(viewport={"width": 1440, "height": 900})
        shown.base = lab_server
        yield shown
        shown.close()


def tutorial(*arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """The program as the README calls it."""
    return subprocess.run(
        [sys.executable, "-m", "tutorial_lib", *arguments], cwd=cwd, capture_output=True, text=True, timeout=120,
        env={"PATH": "/usr/bin:/bin", "PYTHONPATH": str(ROOT), "TUTORIAL_NO_SETUP": "1",
             "TUTORIAL_NO_MEMORY": "1"},
    )  # fmt: skip


def chapter(page: Any, name: str) -> None:
    page.goto(page.base.address(name))
    page.locator(".tw-panel").first.wait_for(timeout=90_000)
    page.wait_for_function("() => window.jupyterapp.shell.currentWidget?.node.dataset.ran === 'yes'", timeout=90_000)


def enter(page: Any, label: str, text: str) -> None:
    box = page.get_by_label(label, exact=True).first
    box.fill(text)
    box.press("Enter")


def press(page: Any, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).first.click()


def test_a_creators_hour(page: Any, folder: Path) -> None:
    bed = folder / BED
    assert tutorial("new", "-o", BED, cwd=folder).returncode == 0
    bed.write_text(bed.read_text("utf-8").replace('title = "My bed"', 'title = "Reed bed"  # by the river'), "utf-8")
    captions = own_captions(folder, bed)

    chapter(page, "00_start_here.ipynb")
    enter(page, "Open a build file", f' "{bed}" ')
    page.get_by_role("heading", name="Reed bed").first.wait_for()

    chapter(page, "01_design.ipynb")
    assert page.get_by_text("Reed bed").count()
    before = page.locator(".tw-result").first.inner_text()
    enter(page, "Spacing at most", "1 1/2")
    page.locator(".tw-result").get_by_text("was").first.wait_for()
    assert page.locator(".tw-result").first.inner_text() != before
    page.get_by_text("Reed bed, changed and not saved").wait_for()
    press(page, "Save")
    page.get_by_text(f"Saved: {BED}").wait_for()
    text = bed.read_text("utf-8")
    assert 'gap = "1 1/2 in"' in text and "# by the river" in text
    press(page, "Undo save")
    page.get_by_text("Taken back").wait_for()
    assert 'gap = "2 1/4 in"' in bed.read_text("utf-8")

    chapter(page, "06_said_on_camera.ipynb")
    enter(page, "Captions or script", str(captions))
    plan = facts_of(Plan(read_build(bed.read_text("utf-8")).bed))
    report = check(read_captions(captions.read_bytes(), captions.name), plan, comes_out)
    assert report.conflicts
    page.get_by_role("heading", name=headline(report)).wait_for(timeout=60_000)
    page.get_by_role("button", name="It speaks of that (T)", exact=True).focus()
    page.keyboard.press("s")  # a slip about that
    page.get_by_role("button", name="Undo the last answer (U)").first.wait_for()
    press(page, "Write all as files")
    page.get_by_text("Written to").first.wait_for()
    assert {path.name for path in folder.iterdir()} > {BED, captions.name}

    checked = tutorial("check", BED, captions.name, cwd=folder)
    assert checked.returncode == 1 and "slat" in checked.stdout

    chapter(page, "08_publish.ipynb")
    for group in ("Booklet", "At the bench", "Screen plates", "Drawings"):
        page.get_by_label(group, exact=True).uncheck()
    enter(page, "Into the folder", str(folder / "kit"))
    press(page, "Make the kit")
    page.get_by_text("Written to").first.wait_for(timeout=90_000)
    assert (folder / "kit" / "index.html").is_file()
    page.get_by_text("First page: index.html, in that folder").wait_for()  # outside the clone: named, no dead link


def own_captions(folder: Path, bed: Path) -> Path:
    """Captions that count the slats rightly and cut them an inch too short."""
    build = Plan(read_build(bed.read_text("utf-8")).bed).build
    short = say_length(build.part("slat").length - 1)
    said = [f"All right, I cut {say_number(build.slats.count)} slats.", f"Every slat is {short} long."]
    captions = folder / "my talk.vtt"
    lines = (f"00:00:0{2 * n}.000 --> 00:00:0{2 * n + 2}.000\n{text}\n" for n, text in enumerate(said, 1))
    captions.write_text("WEBVTT\n\n" + "\n".join(lines), "utf-8")
    return captions
