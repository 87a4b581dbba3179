"""Talks of ours with their slips marked in the text, {said|fact}; what the check makes of each, by hand:

python -m tests.narration.marked            every slip, and every number called wrong or asked about that is none
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from tests.narration.scorer import Span, norm, overlap, spans
from tests.narration.talks import DATA
from tutorial_lib.design.build_file import read_build
from tutorial_lib.facts import Facts, facts_of
from tutorial_lib.narration import Item, Report, check, read_captions
from tutorial_lib.plan import plan

FOLDER = DATA / "talks_marked"
GALLERY = DATA.parents[1] / "assets" / "builds" / "gallery"
SLIP = re.compile(r"\{([^|}]+)\|([^}]+)\}")
NOT_SAID = re.compile(r"^WEBVTT.*|^Kind: .*|^Language: .*|.*-->.*", re.MULTILINE)


@dataclass(frozen=True)
class Marked:
    """A talk's report, and what it has of its slips."""

    report: Report
    sure: tuple[str, ...]  # facts of the slips that are called wrong
    asked: tuple[str, ...]  # and of those asked about
    missed: tuple[str, ...]
    alarms: tuple[Item, ...]  # called wrong, and no slip
    idle: tuple[Item, ...]  # asked about, and no slip


def names() -> list[str]:
    """The talks, each by its bed: one of the gallery, or in a build file beside it."""
    return sorted(path.stem for path in FOLDER.iterdir() if path.suffix in (".txt", ".vtt"))


def talk_of(name: str) -> Path:
    """A talk's file: a transcript, or captions with times."""
    path = FOLDER / f"{name}.vtt"
    return path if path.exists() else path.with_suffix(".txt")


def marked(name: str) -> Marked:
    """A talk checked against its bed."""
    path = talk_of(name)
    text = path.read_text(encoding="utf-8")
    report = check(read_captions(SLIP.sub(r"\1", text).encode(), path.name), facts(name))
    text = norm(NOT_SAID.sub("", text))
    slips, at, plain = [], 0, ""
    for found in SLIP.finditer(text):
        plain += text[at : found.start()]
        slips.append((len(plain), len(plain) + len(found[1]), found[2]))
        plain, at = plain + found[1], found.end()
    spots = spans([i.as_json("line") for i in report.items], plain + text[at:])
    where = {i: _slip_at(spot, slips) for i, spot in zip(report.items, spots, strict=True)}
    wrong = [i for i in report.items if i.verdict == "conflicts"]
    doubt = [i for i in report.items if i.verdict == "unsure"]
    sure = [where[i] for i in wrong if where[i]]
    asked = [where[i] for i in doubt if where[i] and where[i] not in sure]
    return Marked(
        report=report,
        sure=tuple(filter(None, sure)),
        asked=tuple(filter(None, asked)),
        missed=tuple(fact for _, _, fact in slips if fact not in (*sure, *asked)),
        alarms=tuple(i for i in wrong if not where[i]),
        idle=tuple(i for i in doubt if not where[i]),
    )


def facts(name: str) -> Facts:
    """The facts of a talk's bed, load figures left out: they take long and no talk has them."""
    path = FOLDER / f"{name}.toml"
    path = path if path.exists() else GALLERY / path.name
    return facts_of(
        plan(read_build(path.read_text(encoding="utf-8"), path.name)),
        ["design", "cutting", "drilling", "finishing", "assembly"],
    )


def _slip_at(spot: Span, slips: list[tuple[int, int, str]]) -> str:
    """The fact of the slip that a number of the report stands in, "" for none."""
    return next((fact for a, b, fact in slips if overlap(spot, (a, b))), "")


def main() -> None:
    """Prints what became of every slip."""
    for name in names():
        got = marked(name)
        print(f"## {name}: sure {len(got.sure)}, asked {len(got.asked)}, missed {got.missed}", got.report.counts)
        for kind, found in (("ALARM", got.alarms), ("idle", got.idle)):
            for i in found:
                print(kind, i.before[-60:], "[", i.quote, "]", i.after[:50], "|", i.what or [c.what for c in i.choices])


if __name__ == "__main__":
    main()
