"""The viewers' page in a real browser, from a local server: the same numbers, offline, nothing from elsewhere."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser.page_server import BUILD, build, differences, live, served, wait
from tutorial_lib.adapting import Comparison
from tutorial_lib.errors import InputError
from tutorial_lib.publishing.sheet import sheet_source
from tutorial_lib.publishing.typeset import compile_pdf
from tutorial_lib.site.heard import packed
from tutorial_lib.site.live import Live

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def address(browser: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Comparison]]:
    folder = tmp_path_factory.mktemp("page")
    try:
        found = build(folder)
    except InputError as error:
        pytest.skip(str(error))  # no deno, or no way to the registries
    with served(folder) as place:
        yield place, found


@pytest.fixture(scope="module")
def visit(browser: Any, address: tuple[str, Comparison]) -> Iterator[Any]:
    """One visit of a desk, with all its requests."""
    context = browser.new_context(viewport={"width": 1440, "height": 900}, accept_downloads=True)
    page = context.new_page()
    page.requests = []
    page.wrong = []
    page.on("request", lambda request: page.requests.append(request.url))
    page.on("pageerror", lambda error: page.wrong.append(str(error)))
    page.goto(address[0])
    live(page)
    yield page
    context.close()


def keep(page: Any, name: str) -> None:
    if folder := os.environ.get("TUTORIAL_PICTURES"):  # a folder, to look at them
        page.screenshot(path=str(Path(folder) / f"page-{name}.png"))


def test_the_bed_asked_for_is_the_one_worked_out_here(visit: Any, address: tuple[str, Comparison]) -> None:
    visit.select_option("[name=mattress]", "full")
    wait(visit, "whole 1")
    desk = Live(BUILD.read_text(encoding="utf-8"), packed(address[1].report))
    desk.ask(json.dumps({"mattress": "full"}))
    while desk.next():
        pass
    assert differences(visit, desk) == []
    keep(visit, "1440")
    assert visit.title().endswith("as a full")
    assert "was 41" in visit.inner_text("[data-region=sums]")


def test_the_pdf_is_the_desk_s_own(visit: Any, address: tuple[str, Comparison]) -> None:
    with visit.expect_download(timeout=180_000) as download:
        visit.click(".acts [data-act=pdf]")
    desk = Live(BUILD.read_text(encoding="utf-8"), packed(address[1].report))
    desk.ask(json.dumps({"mattress": "full"}))
    while desk.next():
        pass
    assert desk.found is not None
    made = Path(download.value.path()).read_bytes()
    assert made == compile_pdf(sheet_source(desk.found.adaptation.yours, "letter", desk.found))


def test_a_worker_of_its_own_draws_while_the_last_bed_is_worked_out(visit: Any) -> None:
    wait(visit, "drawing")
    assert len([worker for worker in visit.workers if worker.url.startswith("blob:")]) == 2


def test_a_fault_stands_beside_its_field(visit: Any) -> None:
    visit.fill("[name=measured]", "junk")
    visit.locator("#f-measured-fault").wait_for(timeout=60_000)
    assert visit.get_attribute("#form", "aria-busy") is None
    assert "is not a known mattress" in visit.inner_text("#f-measured-fault")
    assert visit.get_attribute("[name=measured]", "aria-invalid") == "true"
    visit.select_option("[name=mattress]", "full")
    visit.locator("#f-measured-fault").wait_for(state="hidden", timeout=60_000)


def test_who_waits_sees_it_go_on_and_a_stop_is_told_at_the_top(visit: Any) -> None:
    visit.evaluate("""() => {
        const state = document.getElementById("state");
        window.told = [];
        new MutationObserver(() => told.push(state.textContent)).observe(state, { childList: true });
        document.querySelectorAll("#form details").forEach((details) => (details.open = true));
    }""")
    assert not visit.locator("[name='posts.lumber']").is_visible()  # this bed has no posts
    visit.fill("[name='legs.per_side']", "1")
    visit.locator(".cautions .stop").first.wait_for(timeout=60_000)
    visit.wait_for_selector("#form:not([aria-busy])", timeout=60_000, state="attached")
    assert any("ways to build it tried" in state for state in visit.evaluate("told"))
    assert visit.inner_text("#state").startswith("Don't build it like this")
    visit.fill("[name='legs.per_side']", "")
    visit.locator(".cautions .stop").first.wait_for(state="detached", timeout=60_000)
    visit.wait_for_selector("#form:not([aria-busy])", timeout=60_000, state="attached")
    assert visit.inner_text("#state").startswith("Worked out: outside width 56")


def test_ticks_stay_and_a_link_works_without_a_net(visit: Any) -> None:
    visit.locator("[data-region=shop] [data-tick]").first.check()
    visit.wait_for_selector("#form:not([aria-busy])", timeout=60_000, state="attached")
    visit.wait_for_timeout(500)
    link = visit.url
    assert "#" in link and len(link) < 2000
    visit.evaluate("async () => { await navigator.serviceWorker.ready; }")
    visit.context.set_offline(True)
    visit.goto("about:blank")
    visit.goto(link)
    live(visit)
    wait(visit, "whole 1")
    visit.context.set_offline(False)
    assert visit.input_value("[name=mattress]") == "full"
    assert visit.title().endswith("as a full")
    assert visit.locator("[data-region=shop] [data-tick]").first.is_checked()


def test_the_bed_turns_in_space(visit: Any) -> None:
    visit.locator("#space-part > summary").click()
    visit.wait_for_timeout(1500)
    assert visit.locator("#space").is_visible() != visit.locator("#no-space").is_visible()
    before = visit.locator("#space").screenshot()
    visit.locator("#space").focus()
    for _ in range(5):
        visit.keyboard.press("ArrowLeft")
    visit.wait_for_timeout(300)
    assert visit.locator("#no-space").is_visible() or visit.locator("#space").screenshot() != before
    keep(visit, "space")


def test_steps_one_at_a_time(visit: Any) -> None:
    assert not visit.is_visible("[data-act=next]")  # nothing to go on from while all are shown
    visit.click("[data-act=all]")
    shown = visit.locator(".steps > li:visible")
    assert shown.count() == 1 and shown.first.inner_text().startswith("1. ")
    assert visit.get_attribute("[data-act=previous]", "aria-disabled") == "true"
    visit.click("[data-act=next]")
    assert shown.count() == 1 and shown.first.inner_text().startswith("2. ")
    visit.click("[data-act=all]")
    assert visit.locator(".steps > li:visible").count() > 5


def test_nothing_came_from_elsewhere_and_nothing_went_wrong(visit: Any, address: tuple[str, Comparison]) -> None:
    own = (address[0], f"blob:{address[0]}", "data:", "about:")
    assert [url for url in visit.requests if not url.startswith(own)] == []
    assert visit.wrong == []
    assert visit.context.cookies() == []


def test_all_before_a_pdf_is_at_most_25_megabytes(visit: Any, address: tuple[str, Comparison]) -> None:
    kept = visit.evaluate("""async () => {
        const kept = await caches.open((await caches.keys())[0]);
        const keys = (await kept.keys()).filter(({ url }) => !url.endsWith(".whl"));
        const answers = await Promise.all(keys.map(async (key) => (await kept.match(key)).arrayBuffer()));
        return answers.map((bytes) => bytes.byteLength);
    }""")
    assert len(kept) > 20 and sum(kept) < 25e6


def test_a_browser_would_install_it(visit: Any) -> None:
    session = visit.context.new_cdp_session(visit)
    told = session.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert {one["errorId"] for one in told} <= {"in-incognito"}  # as a test's own window is


def test_another_link_in_the_same_tab_is_taken_up(visit: Any, address: tuple[str, Comparison]) -> None:
    desk = Live(BUILD.read_text(encoding="utf-8"), packed(address[1].report))
    desk.ask(json.dumps({"mattress": "queen"}))
    visit.evaluate("link => { location.hash = link; }", desk.link())
    wait(visit, "whole 2")
    assert visit.input_value("[name=mattress]") == "queen" and visit.title().endswith("as a queen")


def test_it_reads_on_a_phone_without_script(browser: Any, address: tuple[str, Comparison]) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, java_script_enabled=False)
    page = context.new_page()
    page.goto(address[0])
    assert "78" in page.inner_text("[data-region=sums]") and "$89.50" in page.inner_text("[data-region=shop]")
    assert not page.locator("#choose").is_visible()
    keep(page, "no-script")
    context.close()


@pytest.mark.parametrize(("width", "scheme"), [(390, "light"), (1440, "dark")])
def test_nothing_serious_is_found(browser: Any, address: tuple[str, Comparison], width: int, scheme: str) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    context = browser.new_context(viewport={"width": width, "height": 844}, color_scheme=scheme, bypass_csp=True)
    page = context.new_page()
    page.goto(address[0])
    live(page)
    page.evaluate("document.querySelectorAll('details').forEach(details => details.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    found = axe.run(page).response["violations"]
    keep(page, f"{width}-{scheme}")
    assert [f"{rule['id']}: {node['html'][:160]}" for rule in found if rule["impact"] in ("serious", "critical")
            for node in rule["nodes"]] == []  # fmt: skip
    context.close()
