"""The booklet's hole tables: every hole of every piece once, pieces with the same marks told together."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

from tests.publishing import pages
from tests.publishing.test_templates import PLANS, plan
from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.labels import apart, shared_end
from tutorial_lib.measures import mm, writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.booklet import holes
from tutorial_lib.publishing.booklet.alike import alike, first_bored, in_one_table, names_of
from tutorial_lib.publishing.booklet.leaf import Book


def tables(name: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every table of the leaf with its part's letter."""
    (leaf,) = holes.leaves(Book(plan=plan(name)))
    blocks: Any = leaf.data["pieces"]
    for block in blocks:
        for one in block.get("kin", [block]):
            yield from ((block["letter"], table) for table in one["sets"])


@pytest.mark.parametrize("name", PLANS)
def test_every_hole_stands_in_a_table(name: str) -> None:
    """Its mark along and its distance down, whichever kind of piece has it."""
    book, w = Book(plan=plan(name)), writer(plan(name).options.build.units)
    told = {(letter, along[0], down[0]) for letter, table in tables(name) for along, *downs in table["rows"]
            for down in downs}  # fmt: skip
    for group in book.plan.drilling.schedule:
        for hole in group.holes:
            assert (book.letters[group.part], w.mark(hole.u), w.mark(hole.v)) in told


@pytest.mark.parametrize("name", PLANS)
def test_every_kind_has_its_own_column(name: str) -> None:
    w = writer(plan(name).options.build.units)
    for pair in in_one_table(alike(plan(name).drilling.schedule, w), w):
        for face in (f for f in pair.group.faces if first_bored(pair.group, f) == f):
            for setting in holes._sets(Book(plan=plan(name)), pair, face):
                kinds = pair.kinds if len(setting.kinds) > 1 else pair.kinds[:1]
                for at, kind in enumerate(kinds):
                    own = {(w.mark(h.u), w.mark(h.v)) for h in kind.group.on(face)}
                    shown = {(w.mark(h.u), w.mark(v[at])) for h, v in zip(setting.holes, setting.downs, strict=True)}
                    assert shown <= own


def test_the_demos_first_and_last_slat_share_the_others_table() -> None:
    """The same marks along, 3/4 in from both ends of 38 1/4 in; how far down differs, and has a column each."""
    (table,) = (table for letter, table in tables("demo") if letter == "D")
    assert table["boxes"] == table["downs"] == ["a", "b"]
    assert [row[0] for row in table["rows"]] == [["3/4"], ["37 1/2"]]
    assert all(len({down[0] for down in downs}) == 2 for _, *downs in table["rows"])
    assert "down from the head-side edge" in table["for"]


def test_pieces_are_named_by_what_tells_them_apart() -> None:
    assert apart(["headboard rail 1", "headboard rail 2"]) == ("1", "2")
    assert apart(["leg L1 ply a", "leg R3 ply a"]) == ("L1", "R3")
    assert shared_end(["leg L1 ply a", "leg R3 ply a"]) == " ply a"
    assert apart(["cleat left 2", "cleat right 2"]) == ("left 2", "right 2")
    assert shared_end(["slat 1 left", "slat 2 left"]) == " left"
    assert shared_end(["slat 1 left", "slat 1 right"]) == shared_end(["slat 3"]) == ""
    w = writer("in")
    pairs = in_one_table(alike(plan("demo").drilling.schedule, w), w)
    slats = next(pair for pair in pairs if pair.group.part == "slat")
    assert names_of(slats.kinds) == ("a", "b") and len(slats.all_pieces) == 14
    part = plan("demo").build.part("slat")
    assert holes._which_kinds(part, slats) == "slat 1, 14 (a); slat 2 to 13, 12 in all (b)"


def test_what_was_stated_in_inches_is_told_to_a_tenth_of_a_millimetre() -> None:
    metric = writer("mm")
    assert [metric.stated(Fraction(1, 8)), metric.stated(Fraction(3, 32))] == ["3.2 mm", "2.4 mm"]
    assert [metric.stated(mm("3.25")), metric.stated(mm(6))] == ["3.25 mm", "6 mm"]


def test_a_leg_with_many_distances_is_drawn_long_enough() -> None:
    """Beside two tables three dimension lines left a leg 6 pt of its room."""
    gallery = pages.GALLERY / "uk-king-over-boxes.toml"
    book = Book(plan=Plan(read_build(gallery.read_text(encoding="utf-8"))))
    pieces: Any = [piece for leaf in holes.leaves(book) for piece in leaf.data["pieces"]]  # type: ignore[attr-defined]
    legs = [p for p in pieces if str(p["which"]).startswith("Leg")]
    shortest = min(face["picture"].scene.scale for leg in legs for face in leg["faces"]) * 371 / 25.4
    assert legs and shortest > 28, [leg["which"] for leg in legs]
