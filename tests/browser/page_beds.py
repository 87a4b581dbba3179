"""Random viewers' beds worked out in a real browser and here: the same words, plans, proofs.

By hand: ``python -m tests.browser.page_beds 20``.
"""

from __future__ import annotations

import json
import random
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

from tests.browser.page_server import BUILD, build, differences, live, served, wait
from tests.browser.servers import NAMES, QUIET
from tutorial_lib.site.heard import packed
from tutorial_lib.site.live import Live

MATTRESSES = ("twin", "twin XL", "full", "queen", "king", "UK double", "EU single", "53 3/8 x 74 1/2 in", "140x200 cm")
CHOICES = {
    "saw.kerf": ("3/32 in", "1/16 in"), "slats.lumber": ("1x3", "1x6", "2x4"), "legs.per_side": ("2", "3", "4"),
    "have": ("4 of 2x6, 92 1/2 in", "10 of 2x4, 92 1/2 in"), "load.person": ("250 lb",), "slats.gap": ("1 3/4 in",),
    "build.units": ("mm",), "price 2x6 0": ("9.50",), "support.lumber": ("2x3",),
}  # fmt: skip


def beds(count: int, seed: int = 1) -> list[dict[str, str]]:
    """As many viewers' choices."""
    some = random.Random(seed)
    made = []
    for _ in range(count):
        size = some.choice(MATTRESSES)
        chosen = {"measured" if size[0].isdigit() else "mattress": size}
        chosen |= {key: some.choice(CHOICES[key]) for key in some.sample(sorted(CHOICES), some.randrange(3))}
        made.append(chosen)
    return made


def worked_out(desk: Live, chosen: dict[str, str]) -> dict[str, str]:
    """Works a bed out here; what is wrong with the choices, by field."""
    desk.ask(json.dumps(chosen))
    told = [json.loads(part) for part in iter(desk.next, "")]
    return next((part["faults"] for part in told if part.get("faults")), {})


def ask(page: Any, link: str) -> None:
    """Has the page work out the bed of a link."""
    page.evaluate("link => { location.hash = link; }", link)


def main(count: int) -> int:
    """Prints each bed and how many sections differ; 1 if any does."""
    from playwright.sync_api import sync_playwright

    wrong = 0
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        found = build(Path(folder))
        desk = Live(BUILD.read_text(encoding="utf-8"), packed(found.report))
        chromium = playwright.chromium.launch(executable_path=next(filter(None, map(shutil.which, NAMES))), args=QUIET)
        with served(Path(folder)) as address:
            page = chromium.new_page()
            page.goto(address)
            live(page)
            asked = 0
            for number, chosen in enumerate(beds(count), 1):
                if faults := worked_out(desk, chosen):
                    print(number, chosen, faults, flush=True)
                    continue
                ask(page, desk.link())
                asked += 1
                wait(page, f"whole {asked}", 300)
                differ = differences(page, desk)
                wrong += bool(differ)
                print(number, chosen, differ or "the same", flush=True)
        chromium.close()
    print(f"{count} beds, {wrong} differ")
    return int(wrong > 0)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 20))
