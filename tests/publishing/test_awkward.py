"""Titles in any script, long names, very many parts: nothing is lost, nothing runs over an edge."""

from __future__ import annotations

import io
from dataclasses import replace
from math import hypot
from string import ascii_uppercase

import pytest
from PIL import Image
from pypdf import PdfReader

from tests.builds import Raw
from tests.publishing import pages
from tests.publishing.test_templates import plan
from tutorial_lib.design.build_file import change, from_raw
from tutorial_lib.drawing.apart import RING, pulled_apart
from tutorial_lib.drawing.ink import Words
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.lists.names import letters
from tutorial_lib.plan import Plan
from tutorial_lib.publishing import typeset
from tutorial_lib.publishing.booklet import cover, parts, saw, store
from tutorial_lib.publishing.booklet.leaf import Book, Leaf
from tutorial_lib.publishing.sheet import sheet_source
from tutorial_lib.publishing.typeset import compile_pdf

PAST_Z = [*ascii_uppercase, *(f"A{letter}" for letter in ascii_uppercase)]

def printed(source: str) -> pages.Seen:
    """The pages alone, without asking where all stands: quicker."""
    made = tuple(Image.open(io.BytesIO(png)).convert("L") for png in typeset.compile_pages(source, "png"))
    return pages.Seen(source=source, times=1.0, pages=made, marks=())


AWKWARD = {
    "greek": "Κρεβάτι για τον ξενώνα",
    "cyrillic": "Кровать для гостей",
    "hebrew": "מיטה לאורחים",
    "chinese": "客房的床 🛏️ bed",
    "typst": '#set page(fill: red) $x$ @a <b> \\ "q" */ //',
    "long": "A bed for the room under the roof that the ferrywoman of Saltmarsh lent us for the summer " * 2,
}  # fmt: skip


@pytest.mark.parametrize("name", AWKWARD)
def test_any_title_is_printed_as_it_is(name: str) -> None:
    title = change(plan("demo").options, {"build.title": AWKWARD[name].strip()}).build.title
    (leaf,) = cover.leaves(Book(plan=plan("demo")))
    assert leaf.data["title"] == plan("demo").options.build.title
    made = typeset.source([Leaf("cover", {**leaf.data, "title": title})], title=title, version="1", size="s")
    text = PdfReader(io.BytesIO(compile_pdf(made))).pages[0].extract_text()
    shown = {"hebrew": "", "chinese": "□□□□ □ bed"}.get(name, AWKWARD[name])  # Hebrew comes in the order it is seen
    assert "".join(shown.split()) in "".join(text.split())


NAME = "Überlängsträgerauflagerleistenverstärkungsbrett №"


def many(data: object, times: int = 8) -> object:
    """The same with every list so many times as long, and every name far longer."""
    if isinstance(data, dict):
        named, few = ("name", "what"), ("points", "mattress")
        return {key: f"{NAME} {value}" if key in named else value if key in few else many(value, times)
                for key, value in data.items()}  # fmt: skip
    if isinstance(data, list) and data and isinstance(data[0], dict):
        return [many(row, 1) for row in data] * times
    return data


def test_forty_parts_with_long_names_run_over_no_edge() -> None:
    book = Book(plan=plan("demo"))
    leaves = [Leaf(leaf.kind, many(dict(leaf.data))) for kind in (parts, store, saw) for leaf in kind.leaves(book)]  # type: ignore
    assert len(leaves[0].data["parts"]) == 40  # type: ignore[arg-type]
    for row, letter in zip(leaves[0].data["parts"], PAST_Z, strict=False):  # type: ignore
        row["letter"] = letter
    made = typeset.source(leaves, title=f"{NAME} " * 4, version="1")
    assert list(pages.over(printed(made))) == []


def test_letters_past_z_have_their_rings_too() -> None:
    """Every piece of a king with two lines as a part of its own: 35 letters, no ring on another."""
    king = plan("king").build
    pieces = [replace(piece, part=f"part {i}") for i, piece in enumerate(king.pieces.values())]
    own = tuple(replace(king.part_of(p.label), key=p.part, pieces=(p,)) for p in pieces)
    apart = replace(king, parts=own)
    scene = pulled_apart(apart, letters(apart), 470, 265, PAPER)
    rings = {ink.text: ink.at for ink in lay(scene)[0] if isinstance(ink, Words) and not ink.text.isdigit()}
    assert sorted(rings) == sorted(PAST_Z[: len(own)]) and len(own) > 30
    places = sorted(rings.values())
    assert min(hypot(a[0] - b[0], a[1] - b[1]) for i, a in enumerate(places) for b in places[:i]) > 1.9 * RING * 0.82


def fullest() -> Raw:
    """As many kinds of parts as a bed comes to have: 14."""
    named = ("1x2", "1x3", "1x6", "2x2", "2x3", "2x4", "2x6", "2x8", "4x4")
    return {
        "build": {"name": "full", "title": AWKWARD["chinese"] + AWKWARD["hebrew"], "units": "in"},
        "mattress": {"size": "king", "thickness": "10 in", "gap_limit": "2 3/4 in", "corner_radius": "5 in"},
        "frame": {"rail": "2x8", "corners": "rails die into posts"},
        "posts": {"lumber": "4x4", "joint": "corner blocks", "blocks": "2x3", "above": "1 in"},
        "headboard": {"kind": "slats", "lumber": "1x6", "slats": "1x3", "over": "16 in", "gap": "2 1/4 in",
                      "battens": "1x2"},
        "support": {"kind": "cleats", "lumber": "2x2"}, "slats": {"lumber": "2x4", "gap": "2 1/4 in"},
        "centre": {"lines": 1, "kind": "beam", "lumber": "2x6", "legs": 2, "leg_kind": "doubled", "leg_lumber": "2x4"},
        "legs": {"kind": "doubled", "lumber": "2x4", "per_side": 4, "place": "inside"},
        "heights": {"underside": "10 in"}, "load": {"people": 2, "person": "200 lb"},
        "lumber": {name: {"stock": [{"length": f"{feet} ft"} for feet in (8, 10, 12)]} for name in named},
    }  # fmt: skip


def test_a_bed_of_fourteen_kinds_of_parts_has_eighteen_pages() -> None:
    """With rough cuts at the store, which make a page more."""
    made = Plan(from_raw({**fullest(), "shop": {"carry": "72 in", "store_cuts": 12}}))
    assert len(made.build.made) == 14
    seen = printed(sheet_source(made))
    assert len(seen.pages) <= pages.MOST_PAGES and list(pages.over(seen)) == []
