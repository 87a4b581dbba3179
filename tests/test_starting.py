"""The commented build file: every choice is named where it belongs and can be used; other beds take its form."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from pydantic import BaseModel

from tutorial_lib import cli
from tutorial_lib.cli.starting import beds, started, template
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.deck_options import HEIGHT_KEYS
from tutorial_lib.design.options import LumberOptions, Options, Section, StockOptions
from tutorial_lib.design.screw_options import ScrewOptions
from tutorial_lib.errors import InputError
from tutorial_lib.plan import plan

SHOWN = re.compile(r"(?m)^(?:# )?([a-z_]+) = (\"[^\"]*\"|\[[^]]*\]|[^ \n]+)")
TEXT = template()


def part(first: str, last: str) -> str:
    return TEXT[TEXT.index(first) : TEXT.index(last)]


OWN_DATA = ("diameter", "root", "head", "thread", "yield_strength")
LUMBER, SCREWS = part("# What the shop sells", "[wood]"), part("# Screws:", "[load]")


def tables() -> Iterator[tuple[str, str, type[BaseModel]]]:
    """Each table of the build file, the text it is shown in, and what it takes."""
    for name, field in Options.model_fields.items():
        kind = field.annotation
        if isinstance(kind, type) and issubclass(kind, Section) and name not in ("screws", "yours"):
            start = re.search(rf"(?m)^(# )?\[{name}\]", TEXT)
            assert start is not None, name
            yield name, TEXT[start.start() :].split("\n\n")[0], kind
    yield "lumber.2x6", LUMBER, LumberOptions
    yield "screws.cleat", SCREWS, ScrewOptions


TABLES = {name: (text, kind) for name, text, kind in tables()}


@pytest.mark.parametrize("name", TABLES)
def test_every_choice_is_named_where_it_belongs(name: str) -> None:
    text, kind = TABLES[name]
    shown = {key for key, _ in SHOWN.findall(text)}
    assert set(kind.model_fields) - {"stock", "cans"} <= shown
    if name == "lumber.2x6":
        assert set(StockOptions.model_fields) <= shown


@pytest.mark.parametrize("name", TABLES)
def test_what_is_shown_can_be_used(name: str) -> None:
    (text, kind), bed = TABLES[name], read_build(TEXT)
    for key, value in SHOWN.findall(text):
        if key not in kind.model_fields or key in OWN_DATA:  # which a screw takes together
            continue
        read = tomllib.loads(f"value = {value}")["value"]
        others = {f"heights.{h}": None for h in HEIGHT_KEYS} if name == "heights" else {}
        change(bed, others | {f"{name}.{key}": read})


def test_rows_of_stock_and_cans_as_shown_can_be_used() -> None:
    row = dict(tomllib.loads(re.sub(r"(?m)^# ", "", part('# length = "8 ft"', "# Boards at hand"))))
    for key in ("price", "available", "offcut", "measured", "thickness", "width"):
        shown = {"length": row["length"], key: row[key]}
        assert change(read_build(TEXT), {"lumber.2x6.stock": [shown]}).lumber["2x6"].stock[0]
    assert change(read_build(TEXT), {"finish.cans": [{"size": "1 quart", "price": "18.50"}]})


@pytest.mark.parametrize("name", beds())
def test_another_bed_in_the_commented_form_is_that_bed(name: str) -> None:
    text = started(name)
    bed = read_build(beds()[name].read_text(encoding="utf-8"))
    assert read_build(text) == change(bed, {"said.captions": None})
    told = {key for key, _ in SHOWN.findall(TEXT)} - {"side_rail", "slat"}  # names are the bed's own
    assert told <= {key for key, _ in SHOWN.findall(text)}  # nothing of the template is lost
    assert not [finding for finding in plan(bed).findings if finding.severity == "stop"]


def test_new_from_writes_it_and_an_unknown_bed_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    mine = tmp_path / "my-bed.toml"
    assert cli.main(["new", "--from", "queen-tubes", "-o", str(mine)]) == 0
    assert read_build(mine.read_text(encoding="utf-8")).legs.kind == "tube"
    assert cli.main(["new", "--from", "queen-tube", "-o", str(tmp_path / "other.toml")]) == 2
    assert "queen-tubes" in capsys.readouterr().err
    with pytest.raises(InputError):
        started("nope")


REMARKED = re.compile(r"(?m)^(?:# )?([a-z_]+) = (\"[^\"]*\") +# (.*or \".*)$")
EXAMPLES = {"gauge", "length", "species"}  # their remarks show how else it may be written


@pytest.mark.parametrize("name", ["", *beds()])
def test_a_remark_names_every_choice_so_that_it_holds_whatever_was_chosen(name: str) -> None:
    found = REMARKED.findall(started(name) if name else TEXT)
    assert len(found) > 10
    assert [(key, value) for key, value, said in found if key not in EXAMPLES and value not in said] == []
