"""The page's one HTML file: the creator's bed, readable without script, and what makes it live."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from tutorial_lib.adapting import Comparison
from tutorial_lib.publishing.identity import version
from tutorial_lib.site import page
from tutorial_lib.site.elements import Child, Markup, element, joined
from tutorial_lib.site.wording import every, say

# Pyodide, pydantic and HiGHS need to compile WebAssembly; nothing on the page evaluates text. Pictures of the drawings
# carry style attributes of their own.
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self' blob:; connect-src 'self' data:; "
    "style-src 'self'; style-src-attr 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self'; "
    "manifest-src 'self'; base-uri 'none'; form-action 'none'"
)
LEFT = ("picture",)
MIDDLE = ("sums", "rating", "cautions", "video", "changes", "parts", "shop")
RIGHT = ("saw", "holes", "steps", "finish", "limits")
FOLDED = {"picture": "above"}  # a region under another's heading
BAR = ("changes", "shop", "saw", "holes", "steps")


def regions(found: Comparison) -> dict[str, Markup]:
    """Every place of the page filled."""
    made = {name: make() for name, make in page.sections(found).items()}
    return page.first(found.adaptation.yours) | made


def index(found: Comparison, data: Mapping[str, Any], licences: Sequence[tuple[str, str, str]]) -> str:
    """The whole file.

    Args:
        found: the creator's bed, with what the video says.
        data: what the script needs: names, sizes and hashes of the parts.
        licences: what the page is made with: name, licence, and where its text is.
    """
    plan = found.adaptation.yours
    filled = regions(found)
    places = {name: _place(name, filled) for name in (*LEFT, *MIDDLE, *RIGHT)}
    columns = [
        element("div", _choose(page.title(plan)), [places[name] for name in LEFT], _space(), class_="left"),
        element("div", _acts(plan.options.build.units == "mm"), [places[name] for name in MIDDLE], class_="middle"),
        element("div", [places[name] for name in RIGHT], class_="right"),
    ]
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=POLICY),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("meta", name="referrer", content="no-referrer"),
        element("meta", name="description", content=say("lead")),
        element("title", page.title(plan)),
        element("link", rel="stylesheet", href="page.css"),
        element("link", rel="manifest", href="page.webmanifest"),
        element("link", rel="icon", href="icon.svg"),
    )
    script = Markup(json.dumps({"words": every(), **data}, separators=(",", ":")).replace("<", "\\u003c"))
    body = element(
        "body",
        element("a", say("skip"), href="#title", class_="skip"),
        element("header", element("b", plan.options.build.channel or plan.options.build.title),
                element("span", say("version", version=version(plan.options)), id="version", class_="quiet")),
        element("p", id="state", role="status", aria_live="polite", hidden=True, data_script=True),
        element("main", columns, tabindex="-1"),
        _footer(licences),
        _bar(),
        element("script", script, type="application/json", id="data"),
        element("script", type="module", src="page.js"),
    )  # fmt: skip
    return f"<!doctype html>\n{element('html', head, body, lang='en')}\n"


def _place(name: str, filled: Mapping[str, Markup]) -> Markup:
    regions = (name, FOLDED[name]) if name in FOLDED else (name,)
    inside: list[Child] = [element("div", filled[region], data_region=region) for region in regions]
    if name == "steps":
        inside.append(_walk())
    heading = element("h2", say(name), id=f"{name}-title")
    return element("section", heading, inside, id=name, aria_labelledby=f"{name}-title")


def _walk() -> Child:
    acts = (("previous", "previous"), ("all", "one step"), ("next", "next"))
    return element("div", [element("button", say(told), type="button", data_act=act) for act, told in acts],
                   class_="walk", hidden=True, data_script=True)  # fmt: skip


def _bar() -> Markup:
    """Links at the thumb, on a phone."""
    links = [element("a", say(f"bar {name}"), href=f"#{name}") for name in BAR]
    pdf = element("button", say("bar pdf"), type="button", data_act="pdf", class_="main", hidden=True, data_live=True)
    return element("nav", links, pdf, class_="bar", aria_label=say("page parts"))


def _choose(title: str) -> Child:
    hidden = {"hidden": True}
    return [
        element("h1", title, id="title", tabindex="-1"),
        element("p", say("lead"), class_="quiet"),
        element("p", say("no script"), id="no-script", class_="quiet"),
        element("progress", id="progress", value="0", aria_label=say("starting"), hidden=True, data_script=True),
        element("section", element("h2", say("choose"), id="choose-title"), element("form", id="form"),
                element("p", class_="fault", id="loose", role="alert", **hidden),
                id="choose", aria_labelledby="choose-title", data_live=True, **hidden),
        element("input", type="file", id="file", accept=".toml", aria_label=say("open"), **hidden),
    ]  # fmt: skip


def _acts(metric: bool) -> Child:
    """What to take along: the sheet at once, the rest folded."""
    papers = [element("option", name, value=value, selected=metric and value == "a4")
              for name, value in (("Letter", "letter"), ("A4", "a4"))]  # fmt: skip
    kept = [element("button", say(act), type="button", data_act=act) for act in ("save", "open", "link", "back")]
    return element(
        "div",
        element("button", say("pdf"), type="button", data_act="pdf", class_="main"),
        element("select", papers, id="paper", aria_label=say("paper"), class_="button"),
        element("button", say("print"), type="button", data_act="print"),
        element("details", element("summary", say("keep it")), element("div", kept, class_="acts")),
        class_="acts", hidden=True, data_live=True,
    )  # fmt: skip


def _space() -> Markup:
    slider = element("label", say("explode"),
                     element("input", type="range", id="explode", min="0", max="100", value="0"))  # fmt: skip
    return element(
        "details", element("summary", say("turn it")),
        element("p", say("turn hint"), class_="quiet", id="turn-hint"),
        element("canvas", id="space", tabindex="0", role="img", aria_label=say("turn it"),
                aria_describedby="turn-hint"),
        slider, element("p", say("no space"), id="no-space", hidden=True),
        id="space-part", hidden=True, data_script=True,
    )  # fmt: skip


def _footer(licences: Sequence[tuple[str, str, str]]) -> Markup:
    listed = [element("li", name, ": ", element("a", licence, href=place)) for name, licence, place in licences]
    made = element(
        "details", element("summary", say("licences")), element("p", say("made with")), element("ul", listed)
    )
    return element("footer", element("p", say("works offline"), class_="quiet"), made if listed else None, id="made")


def plain(beds: Sequence[tuple[str, Comparison]], css: str) -> str:
    """One self-contained file: each bed whole, one after another; nothing fetched, no script."""
    links = [element("li", element("a", name, href=f"#bed-{n}")) for n, (name, _) in enumerate(beds)]
    bodies = [_whole(n, name, found) for n, (name, found) in enumerate(beds)]
    creator = beds[0][1].adaptation.creator.options.build
    head = element(
        "head", element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy",
                content="default-src 'none'; style-src 'unsafe-inline'; font-src data:"),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("title", creator.title), element("style", Markup(css.replace("</", "<\\/"))),
    )  # fmt: skip
    body = element("body", element("header", element("b", creator.channel or creator.title)),
                   element("nav", element("ul", links, class_="list"), aria_label=say("choose")),
                   element("main", bodies), class_="plain")  # fmt: skip
    return f"<!doctype html>\n{element('html', head, body, lang='en')}\n"


def _whole(number: int, name: str, found: Comparison) -> Markup:
    filled = regions(found)
    plan = found.adaptation.yours
    mark = element("p", say("version", version=version(plan.options)), class_="quiet")
    places = [element("section", element("h2", say(place)), filled[place], filled.get(FOLDED.get(place, "")))
              for place in (*LEFT, *MIDDLE, *RIGHT)]  # fmt: skip
    return element("article", element("h1", page.title(plan)), mark, element("p", name, class_="quiet"),
                   joined(places), id=f"bed-{number}")  # fmt: skip
