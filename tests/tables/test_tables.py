"""Every row can be traced, and every unknown word is answered with the nearest known one."""

from collections.abc import Callable
from fractions import Fraction
from importlib.resources import files

import pytest

from tutorial_lib import tables
from tutorial_lib.errors import InputError
from tutorial_lib.measures import mm
from tutorial_lib.tables.rows import LONGEST_LIST, rows, unknown
from tutorial_lib.tables.wood import Property

NAMES = sorted(path.name for path in files("tutorial_lib.tables").joinpath("data").iterdir())


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_source_and_status(name: str) -> None:
    table = rows(name)
    assert table
    for row in table:
        sources = [row[key] for key in row if key.startswith("source")]
        statuses = [row[key] for key in row if key.startswith("status")]
        assert sources[0], row
        assert statuses[0], row


@pytest.mark.parametrize(
    ("call", "reason"),
    [
        (lambda: tables.mattress("qeen"), 'Did you mean "US queen"'),
        (lambda: tables.mattress("UK twn"), "Known: UK small single"),
        (lambda: tables.mattress("75x54 in"), "write the width first"),
        (lambda: tables.mattress("54x75"), "write 54x75 in, or 54x75 cm"),
        (lambda: tables.mattress("54"), "no mattress size"),
        (lambda: tables.mattress("54 x 75 junk"), '"75 junk" has "junk", which is no unit'),
        (lambda: tables.dressed("2x7"), 'is not a known section. Did you mean "2x6"'),
        (lambda: tables.dressed("2 x 99"), 'Did you mean "2x12"'),
        (lambda: tables.dressed("22x72"), 'Did you mean "22x70"'),
        (lambda: tables.species("SFP"), "is not a known species"),
        (lambda: tables.design_values("SPF", "No.5", 4), "is not a known grade of Spruce-Pine-Fir"),
        (lambda: tables.design_values("SPF", "Construction", 6), "graded 2 to 4 in wide, not 6 in .*choose No.2"),
        (lambda: tables.design_values("SYP", "Construction", 2), "graded 4 in wide, not 2 in .*choose No.2"),
        (lambda: tables.design_values("SPF", "Stud", 8), "not sold as Stud; its values are those of No.3"),
        (lambda: tables.design_values("SYP", "Stud", 8), "not sold as Stud"),
        (lambda: tables.screw("11"), "is not a known screw gauge"),
        (lambda: tables.carriage_bolt("7/16"), "is not a known carriage bolt"),
        (lambda: tables.tolerance("mattress"), "is not a known tolerance"),
        (lambda: tables.duration_factor("two weeks"), "is not a known load duration"),
    ],
)
def test_an_unknown_word_is_answered(call: Callable[[], object], reason: str) -> None:
    with pytest.raises(InputError, match=reason):
        call()


def test_mattress_families_disagree_and_the_builds_own_comes_first() -> None:
    first = tables.mattress("full")
    assert (first.chosen.width, first.chosen.length) == (54, 75)
    assert {other.width for other in first.others} == {53, Fraction(107, 2)}
    own = tables.mattress("full", tables.family_of(Fraction(38), Fraction(75)))
    assert (own.chosen.width, own.chosen.length) == (53, 75)
    assert "own family" in own.why


def test_metric_mattresses_are_exact_millimetres() -> None:
    double = tables.mattress("UK double").chosen
    assert (double.width, double.length) == (mm(1350), mm(1900))
    assert tables.mattress("double", "UK").chosen == double
    assert tables.mattress("EU 140x200 cm").chosen.length == mm(2000)


@pytest.mark.parametrize("mattress", tables.mattresses(), ids=str)
def test_every_mattress_is_found_by_region_and_name_within_its_family(mattress: tables.Mattress) -> None:
    choice = tables.mattress(f"{mattress.region} {mattress.name}", mattress.family)
    assert choice.chosen == mattress


def test_metric_and_imperial_sections() -> None:
    assert tables.dressed("2 x 4").width == Fraction(7, 2)
    metric = tables.dressed("45x95 mm")
    assert (metric.thickness, metric.width, metric.nominal_width, metric.metric) == (mm(45), mm(95), 4, True)
    assert tables.nearest_section(mm(44), mm(96), "metric").name in ("45x95", "44x94")


@pytest.mark.parametrize("size", tables.dressed_sizes(), ids=lambda size: size.name)
def test_a_section_is_never_wider_than_its_name(size: tables.DressedSize) -> None:
    assert 0 < size.thickness <= size.width
    if not size.metric:
        assert size.thickness <= size.nominal_thickness
        assert size.width <= size.nominal_width


def test_a_stud_is_not_a_number_two() -> None:
    stud, two = (graded("SPF", grade, 4) for grade in ("Stud", "#2"))
    of_stud, of_two = (values.Fb * tables.size_factor(values, "Fb", 2, 4).value for values in (stud, two))  # type: ignore[operator]
    assert of_stud == pytest.approx(742.5)
    assert of_two == pytest.approx(1312.5)


def test_stud_is_sold_up_to_six_inches() -> None:
    assert graded("SPF", "Stud", 6).Fb == 675
    assert graded("SPF", "No.3", 8).Fb == 500


@pytest.mark.parametrize(("of", "narrow", "four"), [("Fb", 0.4, 1.0), ("Ft", 0.4, 1.0), ("Fc", 0.6, 1.0)])
def test_utility_is_weak_only_below_four_inches(of: Property, narrow: float, four: float) -> None:
    """NDS Supplement 2018 Table 4A, size factors: Utility 4 in wide 1.0, 2 and 3 in wide 0.4 / 0.4 / 0.6."""
    values = [tables.size_factor(graded("SPF", "Utility", w), of, 2, w).value for w in (2, 3, 4)]
    assert values == [narrow, narrow, four]


@pytest.mark.parametrize("name", tables.species_names())
def test_every_group_with_values_has_weight_and_every_grade_a_row(name: str) -> None:
    assert tables.species(name).density(12) > 20
    for grade in tables.grades_of(name):
        assert graded(name, grade, 4).Fb > 0


def test_a_wood_known_by_its_weight_alone_says_so() -> None:
    values = tables.design_values("white oak", "No.2", 4)
    assert isinstance(values, tables.WeightOnly)
    assert "only the weight is known" in values.why
    assert values.species.name == "Oak, White"


@pytest.mark.parametrize(
    ("asked", "group"),
    [("red oak", "Red Oak"), ("oak", "Mixed Oak"), ("soft maple", "Red Maple"), ("yellow poplar", "Yellow-Poplar")],
)
def test_hardwood_groups(asked: str, group: str) -> None:
    assert tables.species(asked).name == group
    assert graded(asked, "No.2", 6).species == group


@pytest.mark.parametrize(
    ("width", "nominal"),
    [(1.5, 2), (1.4375, 2), (3.5, 4), (3.62, 4), (3.63, 5), (7.25, 8), (11.25, 12), (11.5, 14), (95 / 25.4, 5)],
)
def test_design_values_go_by_the_width_at_or_above(width: float, nominal: int) -> None:
    assert tables.nominal_width(Fraction(width)) == nominal


def graded(species: str, grade: str, width: int) -> tables.DesignValues:
    values = tables.design_values(species, grade, width)
    assert isinstance(values, tables.DesignValues)
    return values


def test_southern_pine_carries_its_size() -> None:
    narrow, wide = (graded("SYP", "No.2", width) for width in (4, 6))
    assert (narrow.Fb, wide.Fb) == (1100, 1000)
    assert tables.size_factor(narrow, "Fb", 2, 4).value == 1.0


@pytest.mark.parametrize(("width", "value"), [(2, 1.0), (3, 1.0), (4, 1.1), (5, 1.1), (6, 1.15), (8, 1.15), (12, 1.2)])
def test_flat_use(width: int, value: float) -> None:
    assert tables.flat_use_factor(2, width).value == value


@pytest.mark.parametrize("row", tables.design_value_rows(), ids=lambda row: f"{row.species} {row.grade} {row.widths}")
def test_emin_follows_from_e(row: tables.DesignValues) -> None:
    """NDS 2018 Appendix D: Emin = E (1 - 1.645 x 0.25) 1.03 / 1.66, printed to 10 ksi."""
    assert row.Emin == pytest.approx(row.E * (1 - 1.645 * 0.25) * 1.03 / 1.66, abs=10_100)


@pytest.mark.parametrize(("name", "weight"), [("SPF", 28.1), ("Hem-Fir", 28.7), ("DF-L", 33.2), ("SP", 36.3)])
def test_weights_at_twelve_percent(name: str, weight: float) -> None:
    assert tables.species(name).density(12) == pytest.approx(weight, abs=0.05)


def test_screws_get_thicker_and_their_roots_are_thinner_than_their_shanks() -> None:
    shanks = [row.shank for row in tables.screws()]
    assert shanks == sorted(shanks)
    assert all(row.root < row.shank < row.head for row in tables.screws())
    assert tables.screw("No. 9").thread(Fraction(3)) == 2
    assert Fraction(11, 4) in tables.screw(9).lengths


def test_bolts_lags_and_bits() -> None:
    bolt = tables.carriage_bolt('3/8"')
    assert bolt.shank < bolt.head < bolt.washer
    assert tables.lag_screw("3/8").root == 0.265
    assert Fraction(7, 64) in [bit.diameter for bit in tables.drill_bits("in", "twist")]
    assert mm("2.5") in [bit.diameter for bit in tables.drill_bits("mm")]
    assert tables.box_sizes("wood screw")[0] == 50


def test_the_metric_series() -> None:
    assert [row.gauge for row in tables.screws("metric")] == ["3.5 mm", "4 mm", "4.5 mm", "5 mm", "6 mm"]
    for row in tables.screws("metric"):
        assert row.root < row.shank < row.head
        assert row.lengths == tuple(sorted(row.lengths))
    assert mm(40) in tables.screw("4mm").lengths
    assert tables.screw("5 mm").shank == pytest.approx(5 / 25.4)
    assert [row.size for row in tables.carriage_bolts("metric")] == ["M6", "M8", "M10", "M12"]
    bolt = tables.carriage_bolt("M10")
    assert mm(140) in bolt.lengths
    assert bolt.shank < bolt.head < bolt.washer
    assert bolt.nut_height == pytest.approx(8.4 / 25.4)
    lag = tables.lag_screw("8 mm")
    assert (lag.root, lag.tip, lag.lengths[0]) == (pytest.approx(5.6 / 25.4), mm(8), mm(40))


def test_tolerances_constants_and_colours() -> None:
    assert tables.tolerance("mattress UK").value == mm(20)
    assert tables.lifting_constants()["load_constant"].value == 51
    assert [c.name for c in tables.palette() if c.text_on_white] == ["black", "blue"]


def test_as_many_names_as_a_list_holds_are_all_shown() -> None:
    names = [f"name {chr(97 + i)}{chr(97 + i)}" for i in range(LONGEST_LIST)]
    told = str(unknown("thing", "nobody", names))
    assert all(name in told for name in names) and "Known" in told
    assert "The nearest of 25 known" in str(unknown("thing", "nobody", [*names, "name more"]))


def test_a_mattress_of_one_inch_is_read_and_none_of_nothing() -> None:
    assert tables.mattress("1x75 in").chosen.width == 1
    with pytest.raises(InputError, match="write the width first"):
        tables.mattress("0x75 in")


@pytest.mark.parametrize("row", rows("mattresses.csv"), ids=lambda row: f"{row['region']} {row['name']} {row['width']}")
def test_a_mattress_s_millimetres_are_its_size_rounded(row: dict[str, str]) -> None:
    for side in ("width", "length"):
        unit = 10 if row["unit"] == "cm" else Fraction(127, 5)
        assert abs(Fraction(row[side]) * unit - int(row[f"{side}_mm"])) <= Fraction(1, 2)


def test_of_a_long_list_the_nearest_are_named_and_the_first_where_none_is_near() -> None:
    names = [f"spruce {number}" for number in range(LONGEST_LIST + 1)]
    near = str(unknown("wood", "spruce 12", names))
    assert f"The nearest of {LONGEST_LIST + 1} known: spruce 1, spruce 2, spruce 12" in near
    assert "spruce 0" not in near
    assert "known: spruce 0, spruce 1, spruce 2, spruce 3" in str(unknown("wood", "????", names))


def test_other_sizes_of_a_name_are_told_from_the_builds_own_region_on() -> None:
    others = [str(other) for other in tables.mattress("king", "US B").others]
    assert [name.split()[0] for name in others] == ["US", "US", "UK", "AU"]
    assert str(tables.mattress("queen", "AU").chosen) == "AU queen, 1530 x 2030 mm"


def test_a_name_with_several_sizes_tells_all_the_others() -> None:
    """A region's "double" stands for every size with a figure after the word, and for no longer name."""
    choice = tables.mattress("EU double")
    assert choice.chosen.width == mm(1400)
    assert [other.width for other in choice.others] == [mm(1600), mm(1800), mm(2000)]
    assert {m.name for m in tables.mattress("AU king", "AU").others} == set()


def test_lengths_of_a_region_that_is_not_known_are_refused() -> None:
    with pytest.raises(InputError, match=r"region.*US"):
        tables.board_lengths("XX", "2x4")  # type: ignore[arg-type]
    assert tables.board_lengths("US", "3x3") == tables.sold_boards("US")[0].lengths
