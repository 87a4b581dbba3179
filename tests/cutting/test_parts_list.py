"""Parts lists as people write them; every fault named by its row."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.cutting.parts_list import cut_lists
from tutorial_lib.errors import InputError

PIECES = "name,length,count\nslat,38 1/4,14\n"
STOCK = "name,length,price\nten,120 in,$8.30\n"


def test_the_json_has_the_promised_form():
    report = cut_lists(PIECES, STOCK).as_json()
    assert report == {
        "boards": [
            {"stock": "ten", "count": 4, "pieces": [{"name": "slat", "count": 3}], "offcut": 4.875},
            {"stock": "ten", "count": 1, "pieces": [{"name": "slat", "count": 2}], "offcut": 43.25},
        ],
        "cost": 41.5,
        "proven": True,
        "bound": 41.5,
        "used": {"ten": 5},
    }


@pytest.mark.parametrize(
    ("length", "offcut"), [("10 ft", 4.875 / 12), ("120", 4.875), ("3048 mm", 4.875 * 25.4), ("304.8 cm", 4.875 * 2.54)]
)
def test_offcuts_come_in_the_first_stock_rows_unit(length, offcut):
    report = cut_lists("name,length,count\nslat,38 1/4 in,3\n", f"name,length,price\nten,{length},1\n").as_json()
    assert report["boards"][0]["offcut"] == pytest.approx(offcut)


def test_plain_numbers_beside_metric_boards_are_millimetres():
    report = cut_lists("name,length,count\nslat,970,2\n", "name,length,price\nA,2400 mm,3\n", Fraction(1, 8)).as_json()
    assert report["used"] == {"A": 1}


def test_sections_together_and_availability_are_read():
    pieces = "Name;Length;Count;Section;Together\nrail;79;2;2 x 6;pair\nslat;38;2;1x4;\n"
    stock = "name;length;price;available;section\nshort;96;4,50 €;;2x6\nlong;192;9,90 €;;2X6\nshelf;90;0;1;1x4\n"
    lists = cut_lists(pieces, stock)
    assert lists.as_json()["used"] == {"long": 1, "shelf": 1}
    assert "9.90 €" in lists.as_text()


def test_the_text_says_what_to_buy_and_where_to_cut():
    text = cut_lists(PIECES, STOCK).as_text()
    assert "5 x ten (120 in)  $41.50" in text
    assert "76 5/8 in  slat" in text
    assert "proven" in text


FAULTS = [
    (PIECES, "name,length,price\nten,120,-3\n", "stock row 2: the price -3 is below 0"),
    ("name,length,count\nrail,200,1\n", STOCK, "pieces row 2: rail: 200 in long, but the longest board is 120 in"),
    ("", STOCK, "pieces: is empty"),
    ("name,length,count\n", STOCK, "lists nothing"),
    ("name,length\nrail,20\n", STOCK, "pieces row 1: has no column count"),
    ("name,length,count\nrail,20,two\n", STOCK, 'pieces row 2: count is "two"'),
    ("name,length,count\nrail,20,1.5\n", STOCK, 'pieces row 2: count is "1.5"'),
    ("name,length,count\nrail,0,1\n", STOCK, "pieces row 2: the length 0 must be more than 0"),
    ("name,length,count\nrail,,1\n", STOCK, "pieces row 2: rail has no length"),
    ("name,length,count\nrail,20,1\nrail,30,1\n", STOCK, 'pieces row 3: "rail" has another length in row 2'),
    (PIECES, "name,length,price\na,120,$3\nb,96,£2\n", "different currencies"),
    (PIECES, "name,length,price\na,120,\n", "stock row 2: has no price"),
    (PIECES, "name,length,price,available\na,120,3,-1\n", "stock row 2: available"),
    ("name,length,count,section\nslat,20,1,1x4\n", STOCK, "pieces row 2: slat: there is no 1x4 board to be had"),
]


@pytest.mark.parametrize(("pieces", "stock", "said"), FAULTS)
def test_faults_name_the_row(pieces, stock, said):
    with pytest.raises(InputError) as caught:
        cut_lists(pieces, stock)
    assert said in str(caught.value)


def test_faults_of_both_lists_come_together():
    with pytest.raises(InputError) as caught:
        cut_lists("name,length,count\nrail,x,0\n", "name,length,price\na,b,c\n")
    assert len(caught.value.faults) == 4


def test_a_board_at_no_price_is_one_offcut_unless_the_list_says_how_many():
    pieces = "name,length,count\nslat,38,4\n"
    once = cut_lists(pieces, "name,length,price,available\nshelf,40,0,\neight,96,4,\n").as_json()
    more = cut_lists(pieces, "name,length,price,available\nshelf,40,0,4\neight,96,4,\n").as_json()
    unknown = cut_lists(pieces, "name,length,price\nshelf,40,0\neight,96,0\n").as_json()
    assert once["cost"] == 8
    assert (more["used"], more["cost"]) == ({"shelf": 4}, 0)
    assert unknown["used"] == {"shelf": 4}
