"""The built page on a static server of this machine, and ways to drive it; for the tests and for ``page_beds``."""

from __future__ import annotations

import functools
import http.server
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, ClassVar

from tests.browser.servers import ROOT
from tutorial_lib.adapting import Comparison, comparison
from tutorial_lib.adapting.viewer import viewers_bed
from tutorial_lib.design.build_file import read_build
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import check, read_captions
from tutorial_lib.site.folder import site
from tutorial_lib.site.live import Live
from tutorial_lib.site.parts import fetch

BUILD = ROOT / "assets" / "builds" / "spare-room-twin.toml"
CAPTIONS = ROOT / "assets" / "captions" / "spare-room-twin.vtt"
MARKED = "name => performance.getEntriesByName(name).length > 0"
# What the browser makes of the desk's own HTML, so that both are written the same way.
SAME = """([name, html]) => {
    const made = document.createElement('div');
    made.innerHTML = html;
    const shown = document.querySelector(`[data-region="${name}"]`).cloneNode(true);
    shown.querySelectorAll('details').forEach(details => details.open = false);
    shown.querySelectorAll('.now').forEach(step => step.removeAttribute('class'));
    const [desk, page] = [made.innerHTML, shown.innerHTML];
    let at = 0;
    while (at < desk.length && desk[at] === page[at]) at += 1;
    return desk === page ? '' : `${desk.slice(at - 80, at + 80)} here, ${page.slice(at - 80, at + 80)} there`;
}"""


class _Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves files without a word."""

    extensions_map: ClassVar[dict[str, str]] = {
        **http.server.SimpleHTTPRequestHandler.extensions_map, ".mjs": "text/javascript", ".wasm": "application/wasm",
    }  # fmt: skip

    def log_message(self, *_: object) -> None:
        pass


class _Server(http.server.ThreadingHTTPServer):
    def handle_error(self, *_: object) -> None:
        pass  # a browser that closes early


def creators_bed() -> Comparison:
    """The demo with what its video says."""
    adapted = viewers_bed(read_build(BUILD.read_text(encoding="utf-8"), "creator.toml"))
    return comparison(adapted, check(read_captions(CAPTIONS.read_bytes(), "a.vtt"), facts_of(adapted.yours)))


def build(folder: Path) -> Comparison:
    """Writes the demo's page into a folder."""
    found = creators_bed()
    for name, data in site(found, fetch()).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return found


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address of a folder on this machine."""
    server = _Server(("127.0.0.1", 0), functools.partial(_Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()


def wait(page: Any, mark: str, seconds: float = 120) -> None:
    """Until the page has set a mark; its policy forbids the usual way of waiting."""
    end = time.monotonic() + seconds
    while not page.evaluate(MARKED, mark):
        if time.monotonic() > end:
            raise AssertionError(f"no {mark}: {page.inner_text('#state')}")
        time.sleep(0.03)


def live(page: Any) -> None:
    """Until the page computes."""
    page.wait_for_selector("html[data-live]", timeout=180_000, state="attached")
    assert page.get_attribute("html", "data-live") == "yes", page.inner_text("#state")


def differences(page: Any, desk: Live) -> list[str]:
    """Where what the page shows differs from what the library says here of the same choices."""
    from tutorial_lib.site import page as sections

    assert desk.found is not None
    made = sections.first(desk.found.adaptation.yours)
    made |= {name: make() for name, make in sections.sections(desk.found).items()}
    return [f"{name}: {told}" for name, html in made.items() if (told := page.evaluate(SAME, [name, str(html)]))]
