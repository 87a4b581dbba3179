"""Sixty random beds over all options hold together; by hand ``python -m tests.soundness 2000`` tries more."""

from __future__ import annotations

import pytest

from tests.builds import WAYS, options
from tests.soundness import failures, failures_on_posts
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import InputError

SEEDS = (*range(7000, 7040), *range(WAYS, WAYS + 20))
MENDED = (3034, 20096, 20098, 20170, 20332, 21717)  # on blocks, a runner without hold, a short cleat, seam, bolt rows


@pytest.mark.parametrize("seed", (*SEEDS, *MENDED))
def test_a_random_bed_is_sound(seed: int) -> None:
    assert list(failures(seed)) == []


@pytest.mark.parametrize("seed", (*range(7100, 7108), *range(WAYS + 200, WAYS + 204)))
def test_a_random_bed_on_corner_posts_is_sound(seed: int) -> None:
    assert list(failures_on_posts(seed)) == []


def test_most_random_beds_can_be_built() -> None:
    refused = 0
    for seed in SEEDS:
        try:
            design(options(seed))
        except InputError:
            refused += 1
    assert refused <= len(SEEDS) // 5
