"""A wood is known and sold, or refused at the door with the nearest that is."""

from __future__ import annotations

from typing import Any

import pytest

from tests.design.builds import changed
from tutorial_lib.design.sizes import resolve
from tutorial_lib.errors import InputError


@pytest.mark.parametrize(
    ("change", "where", "reason"),
    [
        ({"wood__species": "Sprooce-Pine-Fir"}, "wood.species", 'Did you mean "Spruce-Pine-Fir"'),
        ({"wood__grade": "No.7"}, "wood.grade", 'rail 2x6: "No.7" is not a known grade'),
        ({"wood__grade": "Construction"}, "wood.grade", r"not 6 in \(nominal\); choose No.2. Or give the rail"),
        ({"wood__grade": "Stud", "frame__rail": "2x8"}, "wood.grade", "not sold as Stud.*No.3"),
        ({"lumber__2x6__grade": "Utility"}, "lumber.2x6.grade", "graded 2 to 4 in wide"),
    ],
)
def test_refused_at_the_door(change: dict[str, Any], where: str, reason: str) -> None:
    with pytest.raises(InputError, match=reason) as error:
        resolve(changed(**change))
    assert error.value.faults[0].where == where
    assert len(set(error.value.faults)) == len(error.value.faults)


@pytest.mark.parametrize("species", ["red oak", "tulip poplar", "soft maple", "black walnut", "Doug fir", "SYP"])
def test_accepted_and_named_as_the_tables_name_it(species: str) -> None:
    name = resolve(changed(wood__species=species)).rail.species
    assert name != species
    assert resolve(changed(wood__species=name)).rail.species == name
