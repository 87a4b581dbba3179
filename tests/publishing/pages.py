"""What must hold for the booklet of every bed: few pages, none half empty, nothing alone, few boxes, no type too small.

By hand, over random beds with prices, own boards, rough cuts, both systems, the wall format and both papers:
``python -m tests.publishing.pages 100`` prints each fault and what was seen; ``... 20 600`` tries 20 seeds from 600 on,
``... 20 600 posts`` beds on corner posts, ``... 20 600 headboards`` with a headboard bolted on; ``... gallery`` the
beds of the gallery. From 30,000 on the seeds take the rarer ways too.
"""

from __future__ import annotations

import io
import json
import random
import re
import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PIL import Image

from tests.builds import Raw, raw, raw_on_posts, raw_with_headboard
from tutorial_lib.design.build_file import from_raw, read_build
from tutorial_lib.drawing.lettering import boxed
from tutorial_lib.errors import InputError
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.sheet import sheet_source
from tutorial_lib.publishing.typeset import FACES, LARGE, compile_pages, settled, unsettled

GALLERY = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
MAKERS: dict[str, Callable[[int], Raw]] = {"": raw, "posts": raw_on_posts, "headboards": raw_with_headboard}
MOST_PAGES, MOST_BOXES = 18, 2
LEAST_DRAWN = 7.5  # [pt]
TOP, FOOT, SIDE = 30, 58, 40  # [pt] that stay white above; of the foot's line; that stay white at the sides
FEW = 95  # [pt] a heading of the first level with less below it on its page has only its lead there
ALONE = {1: 95, 2: 40, 3: 40}  # [pt] above the foot's line, by level: a heading that begins below has nothing under it
EMPTY = 0.12  # of a page's height: a part's last page with less stands nearly empty

# Has the typesetter mark rows of tables and boxes, without moving them, and tell at the end where all came to stand; of
# a drawing its smallest type as printed.
WATCH = """
#let noted(kind, ..more) = place([#metadata((kind: kind, ..more.named())) <watched>])
#show table: it => { counter("watched").step(); it }
#show table.cell: it => { noted("row", row: it.y); it }
"""
PLACES = """
#let printed(drawing) = {
  let text = str(drawing.source)
  let wide = float(text.match(regex("viewBox=.0 0 ([\\d.]+)")).captures.first())
  let sizes = text.matches(regex("font-size=.([\\d.]+)")).map(found => float(found.captures.first()))
  (type: if sizes.len() > 0 { calc.min(..sizes) * drawing.width.length.pt() / wide })
}
#place(context {
  let at(m) = {
    let place = m.location()
    (page: place.page(), y: place.position().y.pt(), table: counter("watched").at(place).first())
  }
  let headings = query(heading).map(h => (kind: "heading", level: h.level) + at(h))
  let drawings = query(image).map(i => (kind: "drawing") + printed(i) + at(i))
  [#metadata(query(<watched>).map(m => m.value + at(m)) + headings + drawings) <places>]
})
"""
HEAD = "#show: sheet.with("


@dataclass(frozen=True, kw_only=True)
class Seen:
    """One booklet as it was set."""

    source: str
    times: float  # everything enlarged by so much
    pages: tuple[Image.Image, ...]  # a dot a point
    marks: tuple[dict[str, Any], ...]  # rows of tables, headings, boxes, drawings with their pages, from 1


def seen(source: str, times: float = 1.0) -> Seen:
    """The booklet set once as pictures, once asked where its parts stand."""
    pages = tuple(Image.open(io.BytesIO(png)).convert("L") for png in compile_pages(source, "png", 72.0 / times))
    return Seen(source=source, times=times, pages=pages, marks=tuple(places(source)))


def places(source: str) -> list[dict[str, Any]]:
    """Where rows of tables, headings, boxes and drawings stand."""
    import typst

    look, head, rest = source.partition(HEAD)
    names, line, body = rest.partition(")\n")
    look = re.sub(r"(#let stopped\(body, size: [\d.]+pt\) = )", r'\1noted("box") + ', look)
    note, rules = WATCH.split("#show", 1)
    asked = note + look + head + names + line + "#show" + rules + body + PLACES
    _, warnings = typst.compile_with_warnings(boxed(asked).encode(), format="svg", **FACES)
    ready = settled(boxed(asked), format="svg")[0] if unsettled(warnings) else boxed(asked)
    if ready != boxed(asked) and unsettled(typst.compile_with_warnings(ready.encode(), format="svg", **FACES)[1]):
        return [{"kind": "unsettled"}]
    told = typst.query(ready.encode(), "<places>", field="value", **FACES)
    (found,) = json.loads(told)
    return list(found)


def faults(one: Seen, most: int = MOST_PAGES) -> Iterator[str]:
    """What is wrong with a booklet; nothing when it is as it should be."""
    if one.marks == ({"kind": "unsettled"},):
        yield "unsettled: pages end elsewhere than they were taken to"
        return
    if len(one.pages) > most:
        yield f"pages: {len(one.pages)}"
    yield from empty(one)
    yield from over(one)
    yield from alone(one)
    boxes = Counter(mark["page"] for mark in one.marks if mark["kind"] == "box")
    yield from (f"boxes: {count} on page {page}" for page, count in boxes.items() if count > MOST_BOXES)
    for mark in one.marks:
        if mark["kind"] == "drawing" and mark["type"] and mark["type"] < LEAST_DRAWN * one.times:
            yield f"type: {mark['type'] / one.times:.1f} pt in a drawing on page {mark['page']}"


def starts(one: Seen) -> set[int]:
    """Numbers, from 0, of the pages that a part of the booklet begins on, at their top."""
    at_top = {mark["page"] - 1 for mark in one.marks
              if mark["kind"] == "heading" and mark["level"] == 1 and mark["y"] < 100 * one.times}  # fmt: skip
    return at_top | {0}


def inked(page: Image.Image) -> int:
    """How far down a page's ink comes, its foot apart."""
    wide, high = page.size
    box = page.crop((0, 0, wide, high - FOOT)).point(lambda v: 255 * (v < 200)).getbbox()
    return box[3] if box else 0


def empty(one: Seen) -> Iterator[str]:
    """Ink passes half the height of every page but a part's last, which isn't nearly empty."""
    last = {number - 1 for number in starts(one)} | {len(one.pages) - 1}
    for number, page in enumerate(one.pages):
        share = inked(page) / page.size[1]
        if share < (EMPTY if number in last else 0.5):
            yield f"empty: ink ends at {share:.2f} of page {number + 1}{' (a last one)' if number in last else ''}"


def over(one: Seen) -> Iterator[str]:
    """Nothing runs over an edge or into the foot."""
    for number, page in enumerate(one.pages, 1):
        wide, high = page.size
        edges = {"above": (0, 0, wide, TOP), "left": (0, 0, SIDE, high), "right": (wide - SIDE, 0, wide, high),
                 "below": (0, high - 20, wide, high), "foot": (0, high - FOOT + 4, wide, high - FOOT + 7)}  # fmt: skip
        for name, box in edges.items():
            if page.crop(box).getextrema()[0] <= 200:  # type: ignore[operator]
                yield f"over: {name} of page {number}"


def alone(one: Seen) -> Iterator[str]:
    """No heading at a page's foot, no single row of a longer table on a page of its own."""
    foot = one.pages[0].size[1] - FOOT
    for mark in one.marks:
        if mark["kind"] == "heading" and heads_rows(one, mark):
            continue
        if mark["kind"] == "heading" and mark["y"] / one.times > foot - ALONE[mark["level"]]:
            yield f"alone: a heading at the foot of page {mark['page']}"
        elif (mark["kind"], mark.get("level")) == ("heading", 1) and (
            inked(one.pages[mark["page"] - 1]) < mark["y"] / one.times + FEW
        ):
            yield f"alone: nothing but a lead under a heading of page {mark['page']}"
    tables: defaultdict[int, defaultdict[int, set[int]]] = defaultdict(lambda: defaultdict(set))
    for mark in one.marks:
        if mark["kind"] == "row" and mark["row"] > 0:
            tables[mark["table"]][mark["page"]].add(mark["row"])
    for pages in tables.values():
        if len(pages) > 1:
            yield from (f"alone: a row on page {page} of a table" for page, rows in pages.items() if len(rows) == 1)


def heads_rows(one: Seen, heading: dict[str, Any]) -> bool:
    """Whether two rows of a table or more stand below a heading on its page."""
    below = {mark["row"] for mark in one.marks
             if mark["kind"] == "row" and mark["page"] == heading["page"] and mark["y"] > heading["y"]}  # fmt: skip
    return len(below - {0}) > 1


def bed(seed: int, make: Callable[[int], Raw] = raw) -> tuple[Raw, dict[str, Any]]:
    """A random bed with what makes booklets long, and how its booklet is asked for."""
    rng, tables = random.Random(f"pages {seed}"), make(seed)
    for lumber in tables["lumber"].values():
        if rng.random() < 0.5:
            for stock in lumber["stock"]:
                stock["price"] = str(rng.randrange(3, 30))
        if rng.random() < 0.4:
            own = "1800 mm" if tables["build"]["units"] == "mm" else "75 in"
            lumber["stock"].append({"length": own, "available": rng.randrange(1, 5)})

    if rng.random() < 0.3:
        tables["shop"] = {"carry": "1900 mm" if tables["build"]["units"] == "mm" else "72 in", "store_cuts": 12}
    if rng.random() < 0.2:
        tables["saw"] = {"kind": "hand"}
    asked = {"paper": rng.choice(("letter", "a4")), "both": rng.random() < 0.25, "large": rng.random() < 0.15}
    return tables, asked


def tried(seed: int, make: Callable[[int], Raw] = raw) -> list[str] | None:
    """The faults of one bed's booklet; None when the bed is refused."""
    tables, asked = bed(seed, make)
    try:
        source = sheet_source(Plan(from_raw(tables)), **asked)
    except InputError:
        return None
    times = LARGE[asked["paper"]] if asked["large"] else 1.0
    one = seen(source, times)
    return [f"{len(one.pages)} pages", *faults(one)]


def gallery() -> None:
    """Tries the beds of the gallery: prints for each its number of pages and its faults."""
    for path in sorted(GALLERY.glob("*.toml")):
        one = seen(sheet_source(Plan(read_build(path.read_text(encoding="utf-8")))))
        print(path.stem, f"{len(one.pages)} pages", *faults(one), sep="; ", flush=True)


def main(count: int, first: int = 0, make: Callable[[int], Raw] = raw) -> None:
    """Tries many beds: prints each fault as it is found, then how often each kind and each length was seen."""
    kinds: Counter[str] = Counter()
    refused = 0
    for seed in range(first, first + count):
        found = tried(seed, make)
        refused += found is None
        long, *wrong = found or [""]
        kinds[long] += bool(long)
        for text in wrong:
            print(f"seed {seed} {bed(seed, make)[1]}: {text}", flush=True)
            kinds[text.split(":")[0]] += 1
    print(f"seeds {first} to {first + count - 1}: {count - refused} beds, {refused} refused; {dict(kinds)}")


if __name__ == "__main__":
    if sys.argv[1:] == ["gallery"]:
        gallery()
    else:
        count, first = (*map(int, sys.argv[1:3]), *(100, 0)[len(sys.argv[1:3]) :])
        main(count, first, MAKERS[sys.argv[3] if sys.argv[3:] else ""])
