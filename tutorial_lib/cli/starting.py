"""The commented build file to start from: of the bed it comes with, of a demo, or of one of the gallery."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

TEMPLATE = "new_build.toml"
DEMOS = {"demo": "spare-room-twin", "metric-demo": "guest-bed-90"}
HEADER = re.compile(r"(?:# )?\[(?P<table>[a-z]+)\](?P<remark>.*)")
ROWS = re.compile(r"(?:# )?\[\[?(?P<table>[a-z]+)[.]")  # [lumber.2x6], [[finish.cans]]
KEY = re.compile(r"(?:# )?(?P<key>[a-z_]+) = (?P<value>\"[^\"]*\"|\[[^]]*\]|[^ ]+)(?P<remark> +#.*)?")
WIDE = 33  # [characters] where remarks begin


def beds() -> dict[str, Path]:
    """The beds of a clone that one may start from, by name."""
    from tutorial_lib import bootstrap

    folder = Path(bootstrap.ROOT) / "assets" / "builds"
    found = {path.stem: path for path in (*folder.glob("*.toml"), *folder.glob("gallery/*.toml"))}
    return found | {name: found[stem] for name, stem in DEMOS.items() if stem in found}


def template() -> str:
    """The file as it comes."""
    return Path(__file__).with_name(TEMPLATE).read_text(encoding="utf-8")


def started(name: str) -> str:
    """The commented file with the choices of another bed in their places; its captions left out, they are another's.

    Raises:
        InputError: no bed goes by this name.
    """
    from tutorial_lib.design.build_file import change, read_build
    from tutorial_lib.tables import unknown

    known = beds()
    if name not in known:
        raise unknown("bed", name, known, "--from")
    bed = read_build(known[name].read_text(encoding="utf-8"), known[name].name)
    bed = change(bed, {"said.captions": None})
    every = bed.model_dump(exclude={"origin"}, exclude_none=True, context={"units": bed.build.units})
    return "\n".join(_filled(bed.raw(), every)) + "\n"


def _filled(raw: dict[str, Any], every: dict[str, Any]) -> Iterator[str]:
    """The template's lines: what the bed chose, and what the template shows live, with its value; else remarks.

    Args:
        raw: what the bed states.
        every: the same with what it leaves at its usual value.
    """
    table, skipping = "", False
    for line in template().splitlines():
        header, rows = HEADER.fullmatch(line), ROWS.match(line)
        if header:
            table, skipping = header["table"], header["table"] == "names"
            there = table in raw or not line.startswith("#")
            yield f"{'' if there else '# '}[{table}]{header['remark']}"
            if table == "names":
                yield from _dumped(raw.get(table, {}))
        elif rows and not line.startswith("#"):
            if table != rows["table"]:
                table, skipping = rows["table"], True
                yield from _dumped({table: raw.get(table, {})})
                yield ""
        elif not skipping or line.startswith("#"):
            yield _line(line, (raw if line.startswith("#") else every).get(table, {}))


def _line(line: str, chosen: dict[str, Any]) -> str:
    from tutorial_lib.design.toml_text import value_text

    found = KEY.fullmatch(line)
    if found is None:
        return line
    if found["key"] not in chosen:
        return line if line.startswith("#") else f"# {line}"
    live = f"{found['key']} = {value_text(chosen[found['key']])}"
    return f"{live:<{WIDE - 1}} {found['remark'].strip()}" if found["remark"] else live


def _dumped(table: dict[str, Any]) -> Iterator[str]:
    from tutorial_lib.design.toml_text import table_text

    yield from table_text(table).splitlines()
