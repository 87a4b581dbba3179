"""A build file reads strictly, tells every fault with its line, and is written back without loss."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings

import tutorial_lib
from tests.design.builds import DEMO, changes, demo
from tutorial_lib.design.build_file import change, read_build, to_toml
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
    with pytest.raises(InputError, match=rf"x.toml:{line} lumber.2x2.stock.0.price.*negative"):
        read_build(text, "x.toml")


def test_a_length_without_a_unit_is_refused() -> None:
    with pytest.raises(InputError, match="unit"):
        read_build(TEXT.replace('width = "38 in"', "width = 38"), "x.toml")


def test_two_heights_are_refused() -> None:
    with pytest.raises(InputError, match="exactly one of"):
        change(demo(), {"heights.leg": "12 in"})


def test_not_toml_gives_the_line() -> None:
    with pytest.raises(InputError, match=r"x.toml:2: not readable as TOML"):
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


def test_the_starter_is_a_bed() -> None:
    text = (Path(tutorial_lib.__file__).parent / "cli" / "new_build.toml").read_text(encoding="utf-8")
    assert not [f for f in design(read_build(text)).findings if f.severity == "stop"]
