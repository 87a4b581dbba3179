"""A number that was chosen changes only where its second copy changes too."""

from __future__ import annotations

from tests.snapshots.constants import constants, stored


def test_no_chosen_number_changed_unnoticed() -> None:
    now, before = constants(), stored()
    changed = {name: (value, before[name]) for name, value in now.items() if before.get(name, value) != value}
    assert not changed, "if that is meant: python -m tests.snapshots.renew"


def test_the_second_copies_are_of_constants_there_are() -> None:
    assert len(constants().keys() & stored().keys()) > 200
