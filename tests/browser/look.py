"""Pictures of every notebook to look at: wide, 820 px, on a phone (as a page), 3840 px, and dark. Run by hand:

    python -m tests.browser.look FOLDER [NOTEBOOK ...] [--build FILE.toml] [--as wide tablet phone dark phone-dark]

The pictures go into FOLDER, which must not be in the project; each is the whole notebook, cut into screens.
"""

from __future__ import annotations

import argparse
import os
import tempfile
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.browser.servers import QUIET, ROOT, Served, chromium, lab, view

RAN = "() => window.jupyterapp?.shell?.currentWidget?.node?.dataset?.ran === 'yes'"
RENDERED = "() => document.querySelector('#rendered_cells')?.style.display !== 'none'"
WHOLE = """() => Math.ceil(Math.max(...[...document.querySelectorAll(
    '.jp-WindowedPanel-viewport, .jp-WindowedPanel-outer, #rendered_cells')].map(e => e.scrollHeight), 0))"""


@dataclass(frozen=True)
class Way:
    """One way to look at a notebook."""

    width: int
    height: int
    page: bool = False  # as a page without code
    dark: bool = False


WAYS = {
    "wide": Way(1440, 900), "tablet": Way(820, 1000), "phone": Way(390, 844, page=True),
    "4k": Way(3840, 2160), "dark": Way(1440, 900, dark=True), "phone-dark": Way(390, 844, page=True, dark=True),
}  # fmt: skip


def shoot(browser: Any, served: Served, way: Way, notebook: str, into: Path) -> list[str]:
    """Pictures of one notebook as it is when it has run; what the browser complained of."""
    page = browser.new_page(viewport={"width": way.width, "height": way.height})
    told: list[str] = []
    page.on("console", lambda m: told.append(m.text[:200]) if m.type == "error" else None)
    page.goto(served.address(notebook))
    page.locator(".tw-panel").first.wait_for(timeout=120_000)
    page.wait_for_function(RENDERED if way.page else RAN, timeout=120_000)
    page.wait_for_timeout(2500)  # remedies are tried after a rest
    page.screenshot(path=str(into.with_name(f"{into.name}-top.png")))
    bars = 0 if way.page else way.height - 600
    page.set_viewport_size({"width": way.width, "height": min(int(page.evaluate(WHOLE)) + max(bars, 120), 12_000)})
    page.wait_for_timeout(1200)
    page.screenshot(path=str(into.with_name(f"{into.name}-all.png")))
    page.close()
    return told


def server(way: Way, folder: Path) -> AbstractContextManager[Served]:
    """The server that shows it this way."""
    more = {"TUTORIAL_STATE": os.environ.get("TUTORIAL_STATE") or str(folder / "state"), "TUTORIAL_NO_SETUP": "1"}
    return (view if way.page else lab)(folder, dark=way.dark, more=more)


def choose(build: str | None, folder: Path) -> None:
    """The notebooks work on this build file."""
    os.environ["TUTORIAL_STATE"] = str(folder / "state")
    if build:
        from tutorial_lib.workbook import current

        current.open_build(build)


def main() -> None:
    """Takes them all, or those named."""
    from playwright.sync_api import sync_playwright

    parser = argparse.ArgumentParser()
    parser.add_argument("folder", type=Path)
    parser.add_argument("notebooks", nargs="*")
    parser.add_argument("--build")
    parser.add_argument("--as", nargs="+", dest="ways", choices=sorted(WAYS), default=list(WAYS))
    args = parser.parse_args()
    if args.folder.resolve().is_relative_to(ROOT):
        parser.error("the pictures may not go into the project")
    args.folder.mkdir(parents=True, exist_ok=True)
    named = [path.name for path in sorted((ROOT / "notebooks").glob("*.ipynb"))]
    wanted = [name for name in named if not args.notebooks or any(name.startswith(n) for n in args.notebooks)]
    with tempfile.TemporaryDirectory() as room, sync_playwright() as playwright:
        choose(args.build, Path(room))
        browser = playwright.chromium.launch(executable_path=chromium(), args=QUIET)
        for name in args.ways:
            with server(WAYS[name], Path(room)) as served:
                for notebook in wanted:
                    told = shoot(browser, served, WAYS[name], notebook, args.folder / f"{Path(notebook).stem}-{name}")
                    print(notebook, name, *told, sep="\n  ", flush=True)


if __name__ == "__main__":
    main()
