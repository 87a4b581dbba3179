"""What the program works with equals the tables as they were transcribed, each cell once.

The expected side is read here with the csv module alone; the found side is what the typed loaders give. A column that
no loader carries is compared with the shipped file, so that nothing stands untested.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from tutorial_lib import tables
from tutorial_lib.measures import convert

REFERENCE = Path(__file__).parents[1] / "data" / "reference"
SHIPPED = Path(tables.__file__).parent / "data"


def _rows(folder: Path, name: str) -> list[dict[str, str]]:
    with (folder / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _reference(name: str) -> list[dict[str, str]]:
    return _rows(REFERENCE, name)


def _one(found: list, what: object):
    assert len(found) == 1, f"{len(found)} rows for {what}"
    return found[0]


def _feet_and_inches(text: str) -> Fraction:
    """ "5-1/2" as inches."""
    return sum((Fraction(part) for part in text.split("-")), Fraction(0))


# ------------------------------------------------------------------ design values and factors

VALUES = {
    "Fb": "Fb_psi",
    "Ft": "Ft_psi",
    "Fv": "Fv_psi",
    "Fc_perp": "Fc_perp_psi",
    "Fc": "Fc_psi",
    "E": "E_psi",
    "Emin": "Emin_psi",
    "gravity": "G",
}


def _key(row: dict[str, str]) -> str:
    return f"{row['species']} {row['grade']} {row['nominal_width_in']}".strip()


@pytest.mark.parametrize("row", _reference("design_values.csv"), ids=_key)
def test_design_values(row):
    same = [
        v
        for v in tables.design_value_rows()
        if (v.species, v.grade, v.widths) == (row["species"], row["grade"], row["nominal_width_in"])
    ]
    found = _one(same, _key(row))
    assert {name: getattr(found, name) for name in VALUES} == {name: float(row[cell]) for name, cell in VALUES.items()}
    assert found.size_class == row["size_class"] and found.status == row["status"]


def test_all_grades_are_in_the_reference_or_have_a_source_of_their_own():
    known = {(r["species"], r["grade"], r["nominal_width_in"]) for r in _reference("design_values.csv")}
    own = [v for v in tables.design_value_rows() if (v.species, v.grade, v.widths) not in known]
    assert all(v.source and v.status for v in own)
    assert len(tables.design_value_rows()) - len(own) == len(known) == 56


def _factor(row: dict[str, str]) -> str:
    return f"{row['factor']} {row['condition']} {row['applies_to']} {row['nominal_width_in']}".strip()


@pytest.mark.parametrize("row", _reference("adjustment_factors.csv"), ids=_factor)
def test_adjustment_factors(row):
    wanted = (row["condition"], row["applies_to"], row["nominal_width_in"])
    found = _one([f for f in tables.factors(row["factor"]) if (f.condition, f.applies_to, f.widths) == wanted], wanted)
    assert found.value == (None if row["value"] == "formula" else float(row["value"]))
    assert found.status == row["status"]


# ------------------------------------------------------------------ species

CARRIED = {
    "gravity": "G_12",
    "radial": "CR_radial_per_pct",
    "tangential": "CT_tangential_per_pct",
    "hardness": "side_hardness_lbf",
}


@pytest.mark.parametrize("row", _reference("species_physical.csv"), ids=lambda r: r["species"])
def test_species(row):
    wood = _one([w for w in tables.all_species() if w.name == row["species"]], row["species"])
    assert wood.kind == row["group"] and wood.gravity_basis == "12 %"
    expected = {name: float(row[cell]) if row[cell] else None for name, cell in CARRIED.items()}
    assert {name: getattr(wood, name) for name in CARRIED} == expected


@pytest.mark.parametrize("row", _reference("species_physical.csv"), ids=lambda r: r["species"])
def test_clear_wood_strengths_as_shipped(row):
    found = _one([r for r in _rows(SHIPPED, "species_physical.csv") if r["species"] == row["species"]], row["species"])
    assert {key: found[key] for key in row} == row


@pytest.mark.parametrize("row", _reference("species_physical.csv"), ids=lambda r: r["species"])
def test_both_units_of_a_strength_are_one_figure(row):
    """The transcription gives strength and stiffness twice: psi and MPa, 10^6 psi and GPa."""
    assert float(row["MOR_psi"]) / 145.038 == pytest.approx(float(row["MOR_MPa"]), abs=0.06)
    assert float(row["MOE_million_psi"]) * 6.89476 == pytest.approx(float(row["MOE_GPa"]), abs=0.006)


# ------------------------------------------------------------------ sizes


@pytest.mark.parametrize("row", _reference("dressed_sizes.csv"), ids=lambda r: r["nominal"])
def test_dressed_sizes(row):
    size = tables.dressed(row["nominal"])
    assert (size.thickness, size.width) == (
        _feet_and_inches(row["thickness_frac"]),
        _feet_and_inches(row["width_frac"]),
    )
    assert (float(size.thickness), float(size.width)) == (float(row["thickness_in"]), float(row["width_in"]))
    nominal = (Fraction(row["nominal_thickness_in"]), int(row["nominal_width_in"]))
    assert (size.nominal_thickness, size.nominal_width) == nominal


PS20_METRIC = [
    r
    for r in _reference("dressed_sizes.csv")
    if f"{r['thickness_mm_ps20']}x{r['width_mm_ps20']}" in {s.name for s in tables.dressed_sizes()}
]


@pytest.mark.parametrize("row", PS20_METRIC, ids=lambda r: r["nominal"])
def test_whole_millimetres_of_the_standard(row):
    size = tables.dressed(f"{row['thickness_mm_ps20']}x{row['width_mm_ps20']}")
    millimetres = [float(convert(side, "in", "mm")) for side in (size.thickness, size.width)]
    assert millimetres == [float(row["thickness_mm_ps20"]), float(row["width_mm_ps20"])]


def test_enough_whole_millimetre_sizes():
    assert len(PS20_METRIC) >= 15


@pytest.mark.parametrize("row", _reference("mattresses.csv"), ids=lambda r: f"{r['region']} {r['name']} {r['variant']}")
def test_mattresses(row):
    letter, _, words = row["variant"].partition(":")
    family = row["region"] if row["unit"] == "cm" else f"US {letter.strip()}"
    found = _one(
        [m for m in tables.mattresses() if (m.region, m.name, m.family) == (row["region"], row["name"], family)],
        (row["region"], row["name"], family),
    )
    scale = 10 if row["unit"] == "cm" else 1
    unit = "mm" if row["unit"] == "cm" else "in"
    sides = [float(convert(side, "in", unit)) for side in (found.width, found.length)]
    assert sides == [float(row["width"]) * scale, float(row["length"]) * scale]
    whole = [float(convert(side, "in", "mm")) for side in (found.width, found.length)]
    assert whole == pytest.approx([float(row["width_mm"]), float(row["length_mm"])], abs=0.5)
    assert found.family_name == (words.strip() or row["variant"])


# ------------------------------------------------------------------ fasteners


@pytest.mark.parametrize("row", _reference("screws.csv"), ids=lambda r: f"#{r['gauge']}")
def test_screws(row):
    found = tables.screw(row["gauge"])
    cells = [float(row[cell]) for cell in ("D_in", "Dr_root_in", "DH_head_in", "Fyb_psi")]
    assert [found.shank, found.root, found.head, found.yield_strength] == cells


# ------------------------------------------------------------------ finishing, air, colours


@pytest.mark.parametrize(
    ("scale", "number", "micron"),
    [
        (scale, int(row[column].lstrip("P")), float(row["average_micron"]))
        for row in _reference("grit.csv")
        for scale, column in (("P", "FEPA_P"), ("CAMI", "CAMI"))
        if row[column]
    ],
)
def test_grits(scale, number, micron):
    assert _one([g.micron for g in tables.grits() if (g.scale, g.number) == (scale, number)], number) == micron


@pytest.mark.parametrize(
    "row",
    [r for r in _reference("coverage.csv") if r["low_ft2_per_gal"]],
    ids=lambda r: f"{r['finish']}, {r['surface']}",
)
def test_coverage(row):
    same = [c for c in tables.coverages() if (c.finish, c.surface) == (row["finish"], row["surface"])]
    found = _one(same, row["finish"])
    assert (found.low, found.high) == (float(row["low_ft2_per_gal"]), float(row["high_ft2_per_gal"]))


@pytest.mark.parametrize("row", _reference("emc.csv"), ids=lambda r: f"{r['temp_F']} F {r['RH_pct']} %")
def test_moisture_at_equilibrium(row):
    cells = tuple(float(row[cell]) for cell in ("temp_F", "RH_pct", "EMC_pct"))
    assert [(s.fahrenheit, s.humidity, s.moisture) for s in tables.settled()].count(cells) == 1
    assert tables.moisture_at(cells[1], cells[0]) == cells[2]


@pytest.mark.parametrize("row", _reference("palette.csv"), ids=lambda r: r["name"])
def test_palette(row):
    found = _one([c for c in tables.palette() if c.name == row["name"]], row["name"])
    assert (found.hex, found.on_white) == (row["hex"], float(row["contrast_on_white"]))
    ok = tuple(row[cell] == "yes" for cell in ("text_ok_4_5_on_white", "graphic_ok_3_on_white"))
    assert (found.text_on_white, found.line_on_white) == ok
    assert found.text_on_white == (found.on_white >= 4.5) and found.line_on_white == (found.on_white >= 3)
    assert _contrast(row["hex"], 1.0) == pytest.approx(float(row["contrast_on_white"]), abs=0.006)
    assert _contrast(row["hex"], 0.0) == pytest.approx(float(row["contrast_on_black"]), abs=0.006)


def _contrast(code: str, ground: float) -> float:
    """Contrast ratio of WCAG 2.x against a ground of this luminance."""
    parts = [int(code[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    light = sum(share * p for share, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))
    return (max(light, ground) + 0.05) / (min(light, ground) + 0.05)


@pytest.mark.parametrize("name", ["grit.csv", "coverage.csv", "emc.csv", "palette.csv", "mattresses.csv"])
def test_no_row_beside_the_reference(name):
    beside = ("AU",)  # Australian mattresses, from retail guides
    assert len([r for r in _rows(SHIPPED, name) if r.get("region") not in beside]) == len(_reference(name))
