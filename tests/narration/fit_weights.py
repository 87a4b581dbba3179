"""Sets the weights of the narration's linking and the limits of its verdicts on talks with keys; run by hand.

    python -m tests.narration.fit_weights            what it reaches on rough talks, each writer left out of the fit
    python -m tests.narration.fit_weights --errors   the same, with every number got wrong
    python -m tests.narration.fit_weights --write    the same, and fits on all of them and writes the weights

Rough talks decide: their plans come from build files. A whole writer ("hand") is left out at a time, of every step:
the two looks of the linking, the suspicion of slips, the calibration and the limits. Needs numpy and scipy.
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.narration import scorer
from tests.narration.learning.examples import Example, example
from tests.narration.learning.logistic import isotonic
from tests.narration.learning.looks import (
    Seen,
    Suspected,
    Tables,
    first_look,
    look,
    look_again,
    overview,
    second_look,
    suspects,
    suspicion,
)
from tests.narration.talks import HANDS, captions_of, loaded, of_hand
from tutorial_lib.narration.linking import weights
from tutorial_lib.narration.verdicts.suspicion import HOLDS

FILE = Path(weights.__file__).with_name("weights.json")
PRECISE = 0.955  # of what is called a conflict, slips
ASKED = 0.097  # of the claims, unsure at most
RIGHT = 0.97  # of what is linked, linked rightly


@dataclass
class Fitted:
    """Talks after both looks by weights that never saw their writer, by hand."""

    first: dict[str, Tables]
    second: dict[str, dict[str, float]]
    slips: dict[str, dict[str, float]]
    seen: dict[str, list[Seen]]
    suspected: dict[str, list[Suspected]]


def but(table: Mapping[str, Sequence[Any]], hand: str) -> list[Any]:
    """Everything of the other hands."""
    return [x for h, found in table.items() if h != hand for x in found]


def crossed(talks: dict[str, list[Example]]) -> Fitted:
    """Every step learned without a hand and used on that hand."""
    first = {h: first_look(but(talks, h)) for h in talks}
    once = {h: [look(e, first[h]) for e in talks[h]] for h in talks}
    second = {h: second_look(but(once, h)) for h in talks}
    twice = {h: [look_again(s, second[h]) for s in once[h]] for h in talks}
    slips = {h: suspicion(but(twice, h)) for h in talks}
    suspected = {h: [x for s in twice[h] for x in suspects(s, slips[h])] for h in talks}
    return Fitted(first, second, slips, twice, suspected)


def limits(seen: Sequence[Seen], suspected: Sequence[Suspected]) -> tuple[list[Any], dict[str, float]]:
    """The calibration of a link's chance, and the limits by their rules."""
    links = [link for s in seen for link in links_of(s)]
    curve = isotonic([c for c, *_ in links], [r for _, r, _ in links])
    claims = sum(bool(n.key and n.key["is_claim"]) for s in seen for n in s.example.numbers)
    sure = surely(suspected)
    open_ones = sorted((x.probability for x in suspected if not is_told(x, sure)), reverse=True)
    ask = open_ones[min(len(open_ones) - 1, int(ASKED * claims))]
    commit, right, n = 1.0, 0, 0
    for chance, yes, checkable in sorted(links, reverse=True):
        n, right = n + checkable, right + yes
        commit = chance if n and right >= RIGHT * n else commit
    weights.CERTAINTY[:] = curve
    from tutorial_lib.narration.verdicts.deciding import certainty

    return curve, {"sure": round(sure, 4), "ask": round(ask, 4), "commit": round(certainty(commit), 4)}


def surely(suspected: Sequence[Suspected]) -> float:
    """The least probability told as a conflict, so that enough of all told are slips."""
    settled = [x for x in suspected if x.settled]
    ranked = sorted((x for x in suspected if x.may_be_sure and not x.settled), key=lambda x: -x.probability)
    sure, told, hits = 1.0, len(settled), sum(x.slip for x in settled)
    for x in ranked:
        told, hits = told + 1, hits + x.slip
        sure = x.probability if hits >= PRECISE * told else sure
    return sure


def is_told(x: Suspected, sure: float) -> bool:
    """Whether a number is told as a conflict."""
    return x.settled or (x.may_be_sure and x.probability >= sure)


def links_of(seen: Seen) -> list[tuple[float, bool, bool]]:
    """The chance of every link that holds, whether it is right, and whether the key has a subject for the number."""
    out = []
    for at, row in enumerate(overview(seen).rows):
        best = max(range(len(row)), key=lambda i: row[i].chance)
        key = seen.example.numbers[at].key
        if row[best].verdict in HOLDS:
            checkable = bool(key and key["checkable"])
            out.append((row[best].chance, checkable and seen.right(at) == best, checkable))
    return out


def together(first: Tables, again: dict[str, float], slips: dict[str, float], curve: list[Any], at: Any) -> Tables:
    """All that was learned as the library reads it."""
    return {**first, "again": again, "slips": slips, "certainty": {str(x): y for x, y in curve}, "limits": at}


def install(tables: Tables) -> None:
    """Makes the library use other weights."""
    for name, table in (
        ("facts", weights.WEIGHTS), ("kinds", weights.KINDS), ("none", weights.NONE), ("words", weights.WORDS),
        ("again", weights.AGAIN), ("slips", weights.SLIPS), ("limits", weights.LIMITS),
    ):  # fmt: skip
        table.clear()
        table.update(tables[name])
    weights.CERTAINTY[:] = [(float(x), y) for x, y in tables["certainty"].items()]


def written(tables: Tables) -> str:
    """The weights as JSON, a line for every name."""
    parts = [
        f'"{table}": {{\n' + ",\n".join(f"{json.dumps(k)}: {json.dumps(v)}" for k, v in sorted(names.items())) + "\n}"
        for table, names in tables.items()
    ]
    return "{\n" + ",\n".join(parts) + "\n}\n"


def wrong(base: Path) -> list[str]:
    """Every number of a talk that is missed, misread, linked or judged wrongly."""
    keys, text = loaded(base, "key")["items"], scorer.flatten(captions_of(base))
    items = scorer.report_of(base)
    places, out = scorer.spans(items, text), []
    for key, span in zip(keys, scorer.spans(keys, text), strict=True):
        hits = [i for i, s in zip(items, places, strict=True) if scorer.overlap(s, span)]
        faults = faults_of(key, hits)
        if faults and span:
            before, said, after = text[max(0, span[0] - 90) : span[0]], text[slice(*span)], text[span[1] : span[1] + 60]
            had = [(h["subject"], h["value"], h["verdict"], h["certainty"]) for h in hits]
            out.append(f"{' '.join(faults)} | {before}>>{said}<<{after} | {key['subject']} {key['plan_value']} | {had}")
    return out


def faults_of(key: scorer.Entry, hits: list[scorer.Entry]) -> list[str]:
    """What is wrong with one number, as words to search for."""
    got = scorer.judge(key, hits)
    said = {h["verdict"] for h in hits}
    checks = (
        ("MISSED", not got["found"]),
        ("VALUE", got["valued"] > got["values"]),
        ("LINK", got["sure"] > got["sure_right"]),
        ("OPEN", bool(key["checkable"]) and not got["sure"]),
        ("SLIP", got["slips"] > got["seen"]),
        ("UNSURE", "unsure" in said and not got["slips"]),
        ("ALARM", key["verdict"] != "conflicts" and "conflicts" in said),
    )
    return [word for word, fault in checks if fault]


def left_out(fitted: Fitted, errors: bool) -> None:
    """Scores of every talk by all that was learned without its writer."""
    pooled = Counter[str]()
    for hand in fitted.seen:
        curve, at = limits(but(fitted.seen, hand), but(fitted.suspected, hand))
        install(together(fitted.first[hand], fitted.second[hand], fitted.slips[hand], curve, at))
        own = Counter[str]()
        for base in of_hand(hand):
            own += scorer.score(base)
            print("".join(f"    {base.name} {line}\n" for line in wrong(base)), end="") if errors else None
        print(f"hand {hand}: {scorer.row(own)}", flush=True)
        pooled += own
    print(f"all, each hand left out of the fit: {scorer.row(pooled)}")


def write(talks: dict[str, list[Example]], fitted: Fitted) -> None:
    """Fits on all and writes the weights; calibration and limits by what was left out."""
    first = first_look(but(talks, ""))
    curve, at = limits(but(fitted.seen, ""), but(fitted.suspected, ""))
    twice = but(fitted.seen, "")
    again = second_look([look(e, fitted.first[h]) for h, found in talks.items() for e in found])
    FILE.write_text(written(together(first, again, suspicion(twice), curve, at)), encoding="utf-8")


def main() -> None:
    """Scores or writes."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--errors", action="store_true")
    parser.add_argument("--write", action="store_true")
    given = parser.parse_args()
    talks = {hand: [example(base) for base in of_hand(hand)] for hand in HANDS}
    fitted = crossed(talks)
    if given.write:
        write(talks, fitted)
    left_out(fitted, given.errors)


if __name__ == "__main__":
    main()
