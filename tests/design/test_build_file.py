"""A build file reads strictly, tells every fault with its line, and is written back without loss."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import tutorial_lib
from tests.design.builds import DEMO, changes, demo
from tutorial_lib.design.as_meant import MORE
from tutorial_lib.design.build_file import change, from_raw, read_build, to_toml
from tutorial_lib.design.faults import on_lines
from tutorial_lib.design.options import NAMED
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import InputError

TEXT = DEMO.read_text(encoding="utf-8")


def line_of(text: str, part: str) -> int:
    return next(n for n, line in enumerate(text.splitlines(), 1) if line.startswith(part))


def test_every_fault_at_once_with_its_line() -> None:
    text = (
        TEXT.replace('gap = "2 1/4 in"', "gapp = 4")
        .replace('kerf = "1/8 in"', 'kerf = "-1 in"')
        .replace("per_side = 3", 'per_side = "3"')
    )
    with pytest.raises(InputError) as caught:
        read_build(text, "bad.toml")
    message = str(caught.value)
    assert f"bad.toml:{line_of(text, 'gapp')} slats.gapp: no such key. Did you mean gap?" in message
    assert f"bad.toml:{line_of(text, 'kerf')} saw.kerf" in message
    assert f"bad.toml:{line_of(text, 'per_side')} legs.per_side" in message
    assert len(caught.value.faults) == 3


def test_faults_in_arrays_of_tables_have_their_own_line() -> None:
    text = TEXT.replace('price = "3.40"', 'price = "-2"')
    line = line_of(text, 'price = "-2"')
    with pytest.raises(InputError, match=rf"x.toml:{line} lumber.2x2.stock, 1st row, price.*negative"):
        read_build(text, "x.toml")


WHOLE = {'underside = "11 1/2 in"': 'sleeping = "3 in"'}  # of the demo: legs of 3/4 in


@pytest.mark.parametrize(
    ("faulty", "told"),
    [
        ({"coats = 2": 'coats = "2"'}, "finish.coats"),  # decides nothing of the bed
        ({'price = "3.40"': 'price = "-2"'}, "1st row, price"),
        ({'species = "Spruce': 'colour = "red"\nspecies = "Spruce'}, "wood.colour: no such key. Known here"),
        ({"[saw]": "[sawz]"}, "sawz: no such section. Did you mean saw?"),
        ({'rail = "2x6"': 'rial = "2x6"'}, "frame.rial: no such key. Did you mean rail?"),  # and then the rail is known
    ],
)
def test_the_whole_beds_faults_are_told_with_those_of_the_form(faulty: dict[str, str], told: str) -> None:
    text = replaced(TEXT, faulty | WHOLE)
    with pytest.raises(InputError) as caught:
        read_build(text, "bad.toml")
    form, whole = caught.value.faults
    assert told in str(form)
    assert str(whole).startswith(f"bad.toml:{line_of(text, '[heights]')} heights: leaves 3/4 in for the legs;")
    with pytest.raises(InputError) as alone:
        read_build(replaced(TEXT, faulty), "bad.toml")
    assert str(alone.value) == str(form)


def test_the_whole_beds_faults_stand_where_a_misspelt_key_stands() -> None:
    text = replaced(TEXT, {'lumber = "1x4"': 'lumbr = "1x99"'})
    with pytest.raises(InputError) as caught:
        read_build(text, "bad.toml")
    assert [str(f).split(": ")[0] for f in caught.value.faults] == [
        f"bad.toml:{line_of(text, 'lumbr')} slats.lumbr",
        f"bad.toml:{line_of(text, 'lumbr')} slats.lumber",
    ]


def test_faults_are_told_in_the_order_of_the_file() -> None:
    text = replaced(
        TEXT, {"[saw]": "[extra]\na = 1\n[saw]", 'gap = "2 1/4 in"': "gapp = 4", "coats = 2": 'coats = "2"'}
    )
    with pytest.raises(InputError) as caught:
        read_build(f"{text}\n[[more]]\na = 1\n", "bad.toml")
    lines = [int(str(f).split(":")[1].split()[0]) for f in caught.value.faults]
    assert lines == sorted(lines) and len(lines) == 4
    assert "more: no such section" in str(caught.value)


@pytest.mark.parametrize(
    "faulty",
    [
        {'gap = "2 1/4 in"': 'gap = "2 1/4"'},
        {"[mattress]": "[matress]"},
        {'recess = "1 in"': "recess = 1"},
        {'underside = "11 1/2 in"': ""},
    ],
)
def test_more_may_follow_where_the_faults_of_form_leave_the_bed_open(faulty: dict[str, str]) -> None:
    with pytest.raises(InputError) as caught:
        read_build(replaced(TEXT, faulty | {"coats = 2": 'coats = "2"'}), "bad.toml")
    assert str(caught.value).endswith(f"\n{MORE}")


@pytest.mark.parametrize(
    ("added", "line"),
    [
        ('[hinges]\nkind = "x"', "[hinges]"),
        ("[hinges.left]\na = 1", "[hinges.left]"),
        ('["odd one"]\na = 1', '["odd one"]'),
        ('[room]\n"door is" = 1', '"door is"'),
        ("[[extras]]\na = 1", "[[extras]]"),
    ],
)
def test_what_no_build_file_has_is_told_with_its_line(added: str, line: str) -> None:
    text = f"{TEXT}\n{added}\n"
    with pytest.raises(InputError, match=rf"^bad.toml:{line_of(text, line)} .*no such (key|section)\."):
        read_build(text, "bad.toml")


def test_a_section_that_no_table_has_is_told_at_its_key_and_once() -> None:
    text = replaced(TEXT, {'rail = "2x6"': 'rail = "2x7"', 'lumber = "1x4"': 'lumber = "2x7"'})
    with pytest.raises(InputError) as caught:
        design(read_build(text))
    (fault,) = on_lines(caught.value, "bad.toml", text).faults
    assert str(fault).startswith(f'bad.toml:{line_of(text, "rail")} frame.rail: "2x7" is not a known section.')


def replaced(text: str, changes: dict[str, str]) -> str:
    for before, after in changes.items():
        assert before in text
        text = text.replace(before, after)
    return text


def test_a_length_without_a_unit_is_refused() -> None:
    with pytest.raises(InputError, match="unit"):
        read_build(TEXT.replace('width = "38 in"', "width = 38"), "x.toml")


@pytest.mark.parametrize(
    ("key", "typed", "told"),
    [
        ("load.person", "5", '"5": write it as text with its unit, for example "275 lb".'),
        ("load.person", "", 'write it as text with its unit, for example "275 lb".'),
        ("finish.recoat", "x", '"x": write it as text with its unit, for example "4 h".'),
        ("slats.gap", "x in", '"x in" has no number; write it like 2 1/4 in or 57 mm.'),
    ],
)
def test_a_refused_text_is_told_and_told_once(key: str, typed: str, told: str) -> None:
    with pytest.raises(InputError) as refused:
        change(demo(), {key: typed})
    assert str(refused.value).endswith(f"{key}: {told}")


@pytest.mark.parametrize(
    "key", ["screws.cleat.spacing", "slats.spacing_limit", "screws.cleat.length", "screws.corner.diameter"]
)
def test_a_screw_and_a_distance_from_one_to_the_next_are_more_than_nothing(key: str) -> None:
    with pytest.raises(InputError, match="more than 0") as refused:
        change(demo(), {key: "0 in"})
    assert key in str(refused.value)
    assert change(demo(), {key: "1/16 in"})


def test_no_joint_takes_more_than_eighty_screws() -> None:
    assert change(demo(), {"screws.slat.count": 80}).screws.slat.count == 80
    with pytest.raises(InputError, match="81 can't be used: it must be less than or equal to 80"):
        change(demo(), {"screws.slat.count": 81})


def test_no_board_is_wider_than_a_sheet() -> None:
    with pytest.raises(InputError, match="no board is more than 48 in"):
        change(demo(), {"lumber.2x6.width": "48 1/16 in"})
    assert change(demo(), {"lumber.2x6.width": "48 in"})


def test_two_heights_are_refused() -> None:
    with pytest.raises(InputError, match="exactly one of"):
        change(demo(), {"heights.leg": "12 in", "heights.sleeping": "17 in"})


def test_a_height_takes_the_place_of_the_one_that_was_given() -> None:
    assert change(demo(), {"heights.leg": "12 in"}).heights.given == ("leg",)


def test_not_toml_gives_the_line() -> None:
    with pytest.raises(InputError, match=r"x.toml:2: not readable"):
        read_build("[build]\nname == 3\n", "x.toml")


def test_written_back_it_reads_the_same() -> None:
    assert read_build(to_toml(demo())) == demo()


@settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(changes())
def test_any_options_survive_writing(asked: dict[str, object]) -> None:
    try:
        options = change(demo(), asked)
    except InputError:
        assume(False)
    assert read_build(to_toml(options)) == options


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
AMOUNTS = st.integers(0, 10**17).map(lambda n: Fraction(n, 10**11))  # prices of up to seventeen digits


@settings(max_examples=60, deadline=None)
@given(
    title=TEXTS, word=TEXTS, key=st.sampled_from(NAMED), price=AMOUNTS,
    person=st.fractions(1, 900, max_denominator=10**5),
    hours=st.integers(1, 10**4), units=st.sampled_from(["in", "mm"]),
    length=st.fractions(1, 200, max_denominator=10**4),
)  # fmt: skip
def test_whatever_is_written_reads_back_exactly(
    title: str, word: str, key: str, price: Fraction, person: Fraction, hours: int, units: str, length: Fraction
) -> None:
    raw = demo().raw()
    raw["build"] |= {"title": title, "units": units}
    raw["names"][key] = [word]
    raw["lumber"]["2x6"]["stock"] = [{"length": length, "price": price}, {"length": "8 ft"}]
    raw["load"]["person"], raw["finish"] = person, {"recoat": f"{hours} min"}
    options = from_raw(raw)
    assert read_build(to_toml(options)) == options
    assert read_build(to_toml(options, "Own build,\nmine.", onto=TEXT)) == options


def test_saving_keeps_the_creators_comments() -> None:
    changed = change(demo(), {"slats.gap": "2 in", "finish.recoat": None, "legs.setback": "4 in"})
    text = to_toml(changed, onto=TEXT)
    assert 'gap = "2 in"                # at most' in text
    assert "# Spare-room twin bed, Saltmarsh Shed." in text
    assert "coats = 2" in text  # stated, though it is the default
    assert "recoat" not in text
    before, after = TEXT.splitlines(), text.splitlines()
    assert [line for line in before if line not in after] == [
        'gap = "2 1/4 in"                # at most', 'setback = "4 1/2 in"', 'recoat = "4 h"',
    ]  # fmt: skip


def test_saving_without_a_change_changes_nothing() -> None:
    assert to_toml(demo(), onto=TEXT) == TEXT


def test_rows_of_stock_come_and_go() -> None:
    rows = [{"length": "8 ft", "price": "8.10"}, {"length": "12 ft", "price": "13.50"}]
    more = to_toml(change(demo(), {"lumber.2x6.stock": rows}), onto=TEXT)
    assert more.count("[[lumber.2x6.stock]]") == 2
    assert "\n\n[lumber.2x2]" in more
    none = to_toml(change(demo(), {"lumber.2x6": None}), onto=more)
    assert "2x6" not in none.split("[lumber.2x2]")[0].split("[heights]")[1]
    assert read_build(none) == change(demo(), {"lumber.2x6": None})


def test_money_keeps_its_cents() -> None:
    assert 'price = "3.40"' in to_toml(demo())


def test_a_metric_build_is_written_in_kilograms_and_millimetres() -> None:
    text = to_toml(change(demo(), {"build.units": "mm", "load.person": "90 kg", "slats.gap": "55 mm"}))
    assert 'person = "90 kg"' in text
    assert 'gap = "55 mm"' in text


def test_the_starter_is_a_bed() -> None:
    text = (Path(tutorial_lib.__file__).parent / "cli" / "new_build.toml").read_text(encoding="utf-8")
    assert not [f for f in design(read_build(text)).findings if f.severity == "stop"]


BAD = ('gap = "2 in or so"', "gap = 2", 'edge = "none"', "count = -1", 'lumber = ""', "play = []")


@pytest.mark.parametrize("bad", BAD)
def test_each_fault_ends_in_one_full_stop(bad: str) -> None:
    with pytest.raises(InputError) as caught:
        read_build(f'[heights]\nunderside = "9 in"\n[mattress]\nsize = "twin"\n[slats]\n{bad}\n', "bed.toml")
    for fault in caught.value.faults:
        assert fault.what.endswith((".", "?")) and not fault.what.endswith(".."), fault.what


@pytest.mark.parametrize("typed", ["1e400", "-1e999", "1e300", "2.5E+17"])
def test_a_number_beyond_sense_is_told_as_it_was_typed(typed: str) -> None:
    text = re.sub(r"(?m)^price = .*", f"price = {typed}", TEXT)
    with pytest.raises(InputError) as caught:
        read_build(text, "bed.toml")
    told = str(caught.value)
    assert typed in told and "inf" not in told and told.count("lumber.2x6.stock, 1st row, price") == 1


def test_what_a_bed_as_a_whole_has_wrong_is_told_at_once_and_with_its_lines() -> None:
    """A name that no table has, and choices that don't go together: all in one message, each at its line."""
    text = TEXT.replace('size = "twin"', 'size = "twinn"')
    text = text.replace('edge = "flush"', 'edge = "flush"\nedge_gap = "1 in"')
    text = text.replace('place = "under" ', 'place = "under"\nside_setback = "1 in" ')
    with pytest.raises(InputError) as found:
        design(read_build(text))
    told = str(on_lines(found.value, "x.toml", text))
    for key in ("mattress.size", "slats.edge_gap", "legs.side_setback"):
        line = next(n for n, each in enumerate(text.splitlines(), 1) if each.startswith(key.rpartition(".")[2]))
        assert re.search(rf"x\.toml:{line} {re.escape(key)}(: | = 1 in )", told)


def test_a_fault_of_no_key_stays_as_it_is() -> None:
    error = on_lines(InputError("the bed is upside down."), "x.toml", TEXT)
    assert str(error) == "the bed is upside down."


def test_a_count_that_leaves_wider_gaps_than_the_stated_one_is_said() -> None:
    def said(count: int) -> list[str]:
        text = TEXT.replace('edge = "flush"', f'edge = "flush"\ncount = {count}')
        return [f.what for f in design(read_build(text)).findings if f.rule == "slat count"]

    assert said(14) == []
    assert said(13) == ["slats.count = 13 decides and leaves gaps of 2 17/32 in; slats.gap = 2 1/4 in isn't kept."]
