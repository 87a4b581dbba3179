"""Lists: headings with units, cells that sort and are safe in a spreadsheet, one total."""

from __future__ import annotations

import csv
import io
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.design.builds import demo
from tutorial_lib.adapting.metric import to_metric
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.lists import NAMES, Column, List, Mark, csv_text, list_of, lists_of
from tutorial_lib.lists.buying import shopping
from tutorial_lib.lists.written import MINUS, cell_text
from tutorial_lib.plan import Plan

PRICES = {
    "screws.corner.price": "21.00", "screws.corner.box": 50, "screws.cleat.price": "9.50", "screws.cleat.box": 100,
    "screws.slat.price": "8.00", "screws.slat.box": 25, "screws.leg.price": "1.10", "prices.nut": "0.10",
    "prices.washer": "0.15", "prices.pad": "0.50", "prices.disc": "0.75",
    "finish.cans": [{"size": "1 pint", "price": "12"}, {"size": "1 quart", "price": "19"}],
}  # fmt: skip


@cache
def demo_plan() -> Plan:
    return Plan(demo())


def column(table: List, head: str) -> list:
    place = table.heads.index(head)
    return [row[place] for row in table.rows]


def read_back(table: List) -> list[list[str]]:
    """The CSV as a program reads it that knows the byte order mark."""
    return list(csv.reader(io.StringIO(csv_text(table).encode().decode("utf-8-sig"), newline="")))


@pytest.mark.parametrize("name", NAMES)
def test_every_list_is_filled_and_reads_back(name):
    table = list_of(demo_plan(), name)
    back = read_back(table)
    assert [head for head in back[0] if "(decimal" not in head] == list(table.heads)
    assert len(back) == len(table.rows) + 1 > 2
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in back for cell in row)


def of_tape(text: str) -> Fraction | None:
    """What a mark on an inch tape comes to, read as a person does: "76 1/2", "0 3/8"."""
    try:
        return sum(map(Fraction, text.split()), Fraction(0)) if text else None
    except ValueError:
        return None  # words, or several marks


@pytest.mark.parametrize("name", NAMES)
def test_beside_inch_marks_stand_the_same_numbers_as_decimals(name: str) -> None:
    heads, *rows = read_back(list_of(demo_plan(), name))
    beside = [i for i, head in enumerate(heads) if "(decimal" in head]
    assert len(beside) == sum(column.of_inches for column in list_of(demo_plan(), name).columns)
    assert {heads[i - 1].replace("(in)", "(decimal in)") for i in beside if "in)" in heads[i]} <= set(heads)
    assert not any(head.endswith("(in)") and heads[i + 1 : i + 2] != [head.replace("(in)", "(decimal in)")]
                   for i, head in enumerate(heads))  # fmt: skip
    for row in rows:
        for i in beside:
            assert of_tape(row[i - 1]) == (Fraction(row[i]) if row[i] else None), (heads[i], row)


def test_a_spreadsheet_reads_lengths_of_either_plan_as_numbers() -> None:
    from pandas import read_csv
    from pandas.api.types import is_numeric_dtype

    metric = Plan(to_metric(demo())[0])
    for plan, columns in ((demo_plan(), ["mark (decimal in)", "length (decimal in)"]), (metric, ["mark (mm)"])):
        table = read_csv(io.BytesIO(csv_text(list_of(plan, "cuts")).encode()))
        assert all(is_numeric_dtype(table[name]) for name in columns)
    facts = read_csv(io.BytesIO(csv_text(list_of(demo_plan(), "facts")).encode()))  # has signs beyond ASCII
    values = dict(zip(facts["fact"], facts["value (decimal)"], strict=True))
    assert (values["slat.length"], values["slat.count"]) == (38.25, 14)
    assert not any("decimal" in head for head in csv_text(list_of(metric, "facts")).split("\r\n")[0].split(","))


def test_a_metric_screw_s_thickness_sorts_as_it_is_written(root: Path) -> None:
    guest = Plan(read_build((root / "assets/builds/guest-bed-90.toml").read_text(encoding="utf-8")))
    metric = list_of(guest, "facts")
    sizes = [row[2] for row in metric.rows if str(row[0]).endswith(".screw_gauge")]
    assert sizes and all(isinstance(size, Mark) and Fraction(str(size)) == size for size in sizes)


def test_a_text_of_ascii_letters_alone_has_no_byte_order_mark() -> None:
    assert csv_text(list_of(demo_plan(), "stops")).startswith("lumber,")
    assert csv_text(list_of(demo_plan(), "facts")).startswith("\ufefffact,")


def test_lengths_of_a_metric_plan_are_in_millimetres():
    metric = Plan(to_metric(demo())[0])
    parts = list_of(metric, "parts")
    assert "length (mm)" in parts.heads
    lengths = dict(zip(column(parts, "part"), column(parts, "length (mm)"), strict=True))
    rail = metric.build.part("side_rail").length
    assert lengths["side rail"] == rail * Fraction(254, 10) and str(lengths["side rail"]).isdigit()
    assert "weight (kg)" in list_of(metric, "steps").heads


def test_cuts_carry_the_running_marks_of_the_saw():
    cuts = list_of(demo_plan(), "cuts")
    marks = [str(m) for m, part in zip(column(cuts, "mark (in)"), column(cuts, "part"), strict=True) if part == "slat"]
    assert marks[:3] == ["38 1/4", "76 5/8", "115"]


def test_stop_block_settings_cover_every_piece():
    pieces = sum(part.count for part in demo_plan().build.parts)
    assert sum(column(list_of(demo_plan(), "stops"), "pieces")) == pieces


def test_the_total_is_of_all_that_is_bought_by_hand():
    bought = shopping(Plan(change(demo(), PRICES)))
    assert bought.unpriced == ()
    # lumber 89.50; one box each of corner and cleat screws; 28 slat screws and 3 spares in boxes of 25: two; 12 bolts
    by_hand = Fraction("89.50") + 21 + Fraction("9.5") + 2 * 8 + 12 * Fraction("1.1")
    by_hand += 12 * Fraction("0.10") + 12 * Fraction("0.15") + 6 * Fraction("0.5")  # nuts, washers, pads
    finish = [line for line in bought.lines if line.kind == "finish"]
    assert bought.total == by_hand + sum(line.cost for line in finish)
    assert finish[0].cost in (12, 19, 24) and len(finish) == 3


def test_one_screw_for_two_joints_is_bought_together_in_the_cheapest_boxes_stated() -> None:
    alike = {
        "screws.cleat.gauge": "#8", "screws.cleat.length": "1 1/2 in", "screws.cleat.price": "2.00",
        "screws.cleat.box": 25, "screws.slat.price": "3.10", "screws.slat.box": 50,
    }  # fmt: skip
    lines = [line for line in shopping(Plan(change(demo(), alike))).lines if line.what.startswith("#8")]
    # 18 cleat and 28 slat screws and 5 spares are 51: a box of 50 and one of 25 cost 5.10, three of 25 6.00
    assert [(line.count, line.holds, line.cost) for line in lines] == [(1, 50, Fraction("3.1")), (1, 25, Fraction(2))]
    assert {line.note for line in lines} == {"46 needed, 51 with spares: cleat to rail, slat to cleat"}


def test_lines_without_a_price_are_counted_and_left_out_of_the_total():
    bought = shopping(demo_plan())
    assert bought.total == Fraction("89.50")
    assert {line.kind for line in bought.unpriced} == {"screws and bolts", "hardware", "finish"}
    assert list_of(demo_plan(), "shopping").rows[-1][-1] == f"without {len(bought.unpriced)} lines that have no price"


def test_under_the_legs_go_pads_or_levellers() -> None:
    """Six legs: a pad under each as a rule; with levellers of a stated height those are bought, and no pad."""
    for height, what, cost in ((None, "felt pad or glide", 3), ("1/2 in", "leveller, 1/2 in high", None)):
        lines = shopping(Plan(change(demo(), {"legs.leveller": height, "prices.pad": "0.50"}))).lines
        (feet,) = (line for line in lines if line.note == "under the legs")
        assert (feet.what, feet.count, feet.cost) == (what, 6, cost)


def test_marks_sort_as_numbers_and_print_as_the_tape_shows_them():
    assert sorted([Mark(Fraction(10), "10"), Mark(Fraction(9, 2), "4 1/2")])[0].text == "4 1/2"


@pytest.mark.parametrize(
    ("cell", "text"),
    [("=SUM(A1)", "'=SUM(A1)"), ("@x", "'@x"), ("+1", "'+1"), ("-cmd", "'-cmd"), (" =1", "' =1"), ("\t=1", "'\t=1"),
     (Mark(Fraction(1, 4), "1/4"), "0 1/4"), (Mark(Fraction(-1, 4), "-1/4"), f"{MINUS}1/4"), (-2, "-2"), (None, "")],
)  # fmt: skip
def test_no_cell_starts_a_formula(cell, text):
    assert cell_text(cell) == text


@given(st.text(max_size=12))
def test_no_text_at_all_starts_a_formula(text):
    table = List("t", "T", (Column("a"),), ((text,),))
    (_, (cell,)) = csv.reader(io.StringIO(csv_text(table), newline="")) if text else ([], [""])
    assert not cell.lstrip(" ").startswith(("=", "+", "-", "@", "\t", "\r"))


def test_a_row_of_the_wrong_width_is_refused():
    with pytest.raises(ValueError, match="2 cells"):
        List("t", "T", (Column("a"), Column("b")), (("x",),))


def test_all_lists_come_in_the_order_of_the_job():
    assert tuple(table.key for table in lists_of(demo_plan())) == NAMES


def test_money_has_its_cents_and_no_sum_of_nothing_is_told() -> None:
    priced = list_of(Plan(demo()), "shopping").rows
    assert [str(row[4]) for row in priced if row[0] == "lumber"] == ["8.10", "3.40", "8.30", "16.90"]
    assert str(priced[-1][5]) == "89.50"
    bare = Plan(change(demo(), {"lumber": None}))
    assert list_of(bare, "shopping").rows[-1][5] is None


def test_a_weight_is_written_whole_and_a_step_that_lifts_nothing_has_none() -> None:
    plan = demo_plan()
    heavy = dict(
        zip(column(list_of(plan, "steps"), "title"), column(list_of(plan, "steps"), "weight (lb)"), strict=True)
    )
    assert heavy["Square the frame"] is None and str(heavy["Turn the frame upright"]) == "54"
    assert str(column(list_of(plan, "loads"), "most it carries at rest (lb)")[0]).isdigit()
