"""Sets the weights of the narration's linking on the talks with keys; run by hand.

    python -m tests.narration.fit_weights            how well it does on talks left out of the fit, six parts in turn
    python -m tests.narration.fit_weights --errors   the same, with every number got wrong
    python -m tests.narration.fit_weights --write    fits on all of them and writes the weights

The model is log-linear: for every number that may be a claim, the facts of the plan and "none of them" compete. Named
features are pulled toward PRIOR, the words around a number toward nothing, and a word counts only when it stands near
numbers in at least MIN_TALKS talks, so that no weight fits one talk. Needs scipy (the test extra brings it).
"""

from __future__ import annotations

import argparse
import json
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import minimize

from tests.narration import scorer
from tutorial_lib.narration import check, read_captions
from tutorial_lib.narration.linking import chain as linking
from tutorial_lib.narration.linking import scoring, weights
from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.slips import close
from tutorial_lib.narration.linking.subjects import Subject, nominal_names, plan_units, subjects_of
from tutorial_lib.narration.linking.wording import NONE, classes_of, wording
from tutorial_lib.narration.verdicts.checking import Heard, hear

FILE = Path(weights.__file__).with_name("weights.json")
PARTS = 6  # the talks are left out of the fit in so many parts
MIN_TALKS = 8
PULL, PULL_KIND, PULL_WORD = 0.25, 0.5, 3.0  # strength of the pull toward the prior
SLIP = 3.0  # a slip counts as so many right numbers: they are what the check is for
BOLDNESS = 1.2  # added to every fact that a number contradicts: the most that keeps false alarms under 1 % left out
CONTRADICTS = ("slip", "typical", "far")
PRIOR = {
    "facts": {
        "anaphor": 0.5, "apiece": 0.5, "axis_other": -1.8, "bare_length": 0.5, "count_off": -1, "counting": -3,
        "cue_hit": 1.3, "cue_none": -0.6, "each_other": -0.8, "elsewhere_equal": -1, "equal": 2.6, "equal_rare":
        0.8, "equal_stock": -1, "far": -2.2, "fastener_other": -4, "fastener_own": 1, "footer": 4, "grit_said":
        1, "heading": 2, "hedged": 1.5, "name_hit": 1.5, "name_last": 1, "name_last_other": -0.5, "name_near":
        0.3, "name_next": 1, "name_next_other": -1, "name_other": -1.5, "noun_elsewhere": -2, "noun_fewer": -2,
        "noun_foreign": -0.5, "noun_hit": 2, "noun_none": -0.5, "noun_other": -2.5, "noun_own": 1,
        "offset_other": -1.2, "operand_off": -1, "own_noun": 1, "pair_section": 0.6, "part": 4, "part_behind":
        -0.5, "per_other": -1, "per_own": 1, "rest": 1, "side_other": -2, "side_own": 0.5, "slip": -1,
        "spacing_other": -1.5, "span": 1, "split_off": -1, "stock_length_hit": 1.5, "stock_noun": 1.2,
        "sure_part": 0.5, "thing": 1.8, "thing_instead": -0.8, "thing_touches": 0.5, "thing_touches_other": -1,
        "told": 5, "total_other": -0.8, "touches": 0.5, "touches_other": -0.5, "touches_size": 0.5, "typical":
        -0.3, "unit_said": 0.3, "way_other": -2, "way_own": 0.5, "where_other": -1,
    },
    "none": {
        "a_number": 0.7, "bias": 3.2, "foreign_noun": 1, "foreign_subject": 1, "left": 1, "one": 1, "operand":
        0.3, "other": 1.2, "other_size": 1, "per_unknown": 1, "slack": 1.2, "small": 0.2, "split": 1,
        "supposed": 1.4, "unit": -0.2,
    },
    "turns": {
        "again": -1.4, "again_equal": 0.7, "again_late": 0.5, "again_named": 1, "again_recap": 1, "clash": -2.5,
        "count_at": 2, "each_total": 0.8, "pair": 2, "recalled": 4, "recent": 0.5, "restated": 6, "same_group":
        0.7, "summed": 1, "summed_right": 1, "worked_out": 1.5,
    },
}  # fmt: skip
Feature = tuple[str, str]  # table, name


@dataclass(frozen=True)
class Choice:
    """One number: the facts that compete for it, the right one, and the words around it."""

    options: list[tuple[dict[Feature, float], tuple[str, ...]]]  # features, classes; the first is "none"
    right: int
    counts: float  # its weight in the fit; 0 when the right fact isn't among the options
    words: frozenset[str]


def choices(name: str) -> list[Choice]:
    """All numbers of a talk that may be claims; turns are told by the right facts before."""
    plan, talk = scorer.loaded(name, "plan"), read_captions(scorer.captions_of(name))
    units, subjects = plan_units(plan), subjects_of(plan)
    heard = hear(talk, subjects, units, nominal_names(plan))
    out: list[Choice] = []
    picks: list[linking.Candidate] = []
    last: dict[str, int] = {}
    for at, (claim, key) in enumerate(zip(heard.claims, keys_of(name, heard, talk.text), strict=True)):
        options = [({("none", n): v for n, v in linking.none_features(claim, heard.doubts(claim))}, (NONE,))]
        found: list[linking.Candidate] = [linking.Candidate(None, None, 0.0)]
        for subject, named, candidate in candidates(heard, claim, subjects):
            turn = linking.turn_features(heard.claims, picks, last, at, candidate)
            features = [("facts", n, v) for n, v in named]
            options.append((total([*features, *(("turns", n, v) for n, v in turn)]), classes_of(subject)))
            found.append(candidate)
        wanted = key["subject"] if key and key["checkable"] else None
        right = next((i for i, c in enumerate(found) if (c.subject.key if c.subject else None) == wanted), None)
        counts = 0.0 if right is None else SLIP if key and key["verdict"] == "conflicts" else 1.0
        out.append(Choice(options, right or 0, counts, wording(heard.transcript, claim.item, heard.mentions.parts)))
        picks.append(found[right or 0])
        if picks[-1].subject:
            last[picks[-1].subject.key] = at
    return out


def total(features: Sequence[tuple[str, str, float]]) -> dict[Feature, float]:
    """Features of the same name added up."""
    out: dict[Feature, float] = {}
    for table, name, value in features:
        out[table, name] = out.get((table, name), 0.0) + value
    return out


def candidates(
    heard: Heard, claim: Claim, subjects: Sequence[Subject]
) -> list[tuple[Subject, list[tuple[str, float]], linking.Candidate]]:
    """The facts that compete for a number, as the linking sees them."""
    front = linking.most_present(heard.mentions, claim, subjects)
    out = []
    for subject, reading in linking.prospects(heard.mentions, claim, subjects):
        named = list(scoring.features(heard.mentions, claim, subject, reading, front))
        out.append((subject, named, linking.Candidate(subject, reading, 0.0, (), close(reading[0], subject))))
    return out


def keys_of(name: str, heard: Heard, text: str) -> list[dict[str, Any] | None]:
    """The answer of every number that may be a claim; None where the key has no expression."""
    keys, flat = scorer.loaded(name, "key")["items"], scorer.flatten(scorer.captions_of(name))
    words = heard.transcript.words
    found = heard.sorted_out.found
    quotes = [{"quote": re.sub(r"\s+", " ", text[words[e.first].start : words[e.last - 1].end])} for e in found]
    places, wanted = scorer.spans(quotes, flat), scorer.spans(keys, flat)
    return [
        next((k for k, s in zip(keys, wanted, strict=True) if scorer.overlap(places[i], s)), None) for i in heard.kept
    ]


class Model:
    """The choices of several talks as arrays, and the fit on some of them."""

    def __init__(self, talks: Sequence[str]) -> None:
        self.talks = {name: choices(name) for name in talks}
        every = [c for talk in self.talks.values() for c in talk]
        self.features = sorted({f for c in every for features, _ in c.options for f in features})
        self.classes = sorted({k for c in every for _, classes in c.options for k in classes})
        self.place = {f: i for i, f in enumerate(self.features)}
        self.class_place = {k: i for i, k in enumerate(self.classes)}

    @cached_property
    def prior(self) -> np.ndarray:
        """The round figures."""
        return np.array([PRIOR[table].get(name, 0.0) for table, name in self.features])

    def words_of(self, names: Sequence[str]) -> list[str]:
        """Words that stand near numbers in enough of the talks."""
        talks = Counter(w for n in names for w in {w for c in self.talks[n] for w in c.words})
        return sorted(w for w, n in talks.items() if n >= MIN_TALKS)

    def fit(self, names: Sequence[str]) -> dict[str, Any]:
        """The weights that make the right facts of these talks most likely."""
        words = self.words_of(names)
        x, c, v, own, starts, right, counts = self.arrays(names, words)
        nf, nc, nw = len(self.features), len(self.classes), len(words)
        start = np.concatenate([self.prior, np.zeros(nc + nw * nc)])
        pull = np.concatenate([np.full(nf, PULL), np.full(nc, PULL_KIND), np.full(nw * nc, PULL_WORD)])

        def loss(z: np.ndarray) -> tuple[float, np.ndarray]:
            a, b, m = z[:nf], z[nf : nf + nc], z[nf + nc :].reshape(nw, nc)
            score = x @ a + c @ b + (c * (v @ m)[own]).sum(1)
            top = np.maximum.reduceat(score, starts)
            chance = np.exp(score - top[own])
            sums = np.add.reduceat(chance, starts)
            log = score[right] - top - np.log(sums)
            rest = chance / sums[own] * counts[own]
            rest[right] -= counts
            by_class = c * rest[:, None]
            grown = v.T @ np.add.reduceat(by_class, starts, axis=0)
            slope = np.concatenate([x.T @ rest, by_class.sum(0), grown.ravel()])
            return -(counts * log).sum() + 0.5 * (pull * (z - start) ** 2).sum(), slope + pull * (z - start)

        found = minimize(loss, start, jac=True, method="L-BFGS-B", options={"maxiter": 200})
        return self.tables(found.x, words)

    def arrays(self, names: Sequence[str], words: Sequence[str]) -> tuple[np.ndarray, ...]:
        """Features and classes a row each option; words, the right row and the weight a row each number."""
        picked = [c for n in names for c in self.talks[n]]
        rows = sum(len(c.options) for c in picked)
        x, c = np.zeros((rows, len(self.features))), np.zeros((rows, len(self.classes)))
        v = np.zeros((len(picked), len(words)))
        at, starts, right, own = {w: i for i, w in enumerate(words)}, [], [], []
        row = 0
        for n, choice in enumerate(picked):
            starts.append(row)
            right.append(row + choice.right)
            v[n, [at[w] for w in choice.words if w in at]] = 1.0
            for features, classes in choice.options:
                for f, value in features.items():
                    x[row, self.place[f]] = value
                c[row, [self.class_place[k] for k in classes]] = 1.0
                own.append(n)
                row += 1
        counts = np.array([choice.counts for choice in picked])
        return x, c, v, np.array(own), np.array(starts), np.array(right), counts

    def tables(self, z: np.ndarray, words: Sequence[str]) -> dict[str, Any]:
        """The weights as the library reads them, rounded; words that say next to nothing left out."""
        nf, nc = len(self.features), len(self.classes)
        out: dict[str, Any] = {"facts": {}, "kinds": {}, "none": {}, "turns": {}, "words": {}}
        for (table, name), value in zip(self.features, z[:nf], strict=True):
            out[table][name] = round(float(value) + BOLDNESS * (name in CONTRADICTS), 2)
        for name, value in zip(self.classes, z[nf : nf + nc], strict=True):
            if name == NONE:
                out["none"]["bias"] = round(out["none"]["bias"] + float(value), 2)
            else:
                out["kinds"][name] = round(float(value), 2)
        for word, row in zip(words, z[nf + nc :].reshape(-1, nc), strict=True):
            said = {k: round(float(w), 2) for k, w in zip(self.classes, row, strict=True) if abs(w) >= 0.03}
            if said:
                out["words"][word] = said
        return out


def written(tables: dict[str, Any]) -> str:
    """The weights as JSON, a line for every name."""
    parts = [
        f'"{table}": {{\n' + ",\n".join(f"{json.dumps(k)}: {json.dumps(v)}" for k, v in sorted(names.items())) + "\n}"
        for table, names in tables.items()
    ]
    return "{\n" + ",\n".join(parts) + "\n}\n"


def install(tables: dict[str, Any]) -> None:
    """Makes the library use other weights."""
    for name, table in (
        ("facts", weights.WEIGHTS), ("kinds", weights.KINDS), ("none", weights.NONE), ("turns", weights.TURNS),
        ("words", weights.WORDS),
    ):  # fmt: skip
        table.clear()
        table.update(tables[name])


def wrong(name: str) -> list[str]:
    """Every number of a talk that is missed, misread, linked or judged wrongly."""
    keys, text = scorer.loaded(name, "key")["items"], scorer.flatten(scorer.captions_of(name))
    items = check(read_captions(scorer.captions_of(name)), scorer.loaded(name, "plan")).as_json()["items"]
    places, out = scorer.spans(items, text), []
    for key, span in zip(keys, scorer.spans(keys, text), strict=True):
        hits = [i for i, s in zip(items, places, strict=True) if scorer.overlap(s, span)]
        got = scorer.judge(key, hits)
        faults = [
            word
            for word, fault in (
                ("MISSED", not got["found"]),
                ("VALUE", got["valued"] > got["values"]),
                ("LINK", got["checkable"] > got["linked"]),
                ("SLIP", got["slips"] > got["caught"]),
                ("ALARM", key["verdict"] != "conflicts" and any(h["verdict"] == "conflicts" for h in hits)),
            )
            if fault
        ]
        if faults and span:
            before, said, after = text[max(0, span[0] - 90) : span[0]], text[slice(*span)], text[span[1] : span[1] + 60]
            had = [(h["subject"], h["value"], h["verdict"]) for h in hits]
            out.append(f"{' '.join(faults)} | {before}>>{said}<<{after} | {key['subject']} {key['plan_value']} | {had}")
    return out


def left_out(model: Model, errors: bool) -> None:
    """Scores of every talk by weights fitted without it."""
    names, pooled = list(model.talks), Counter[str]()
    for part in range(PARTS):
        install(model.fit([n for i, n in enumerate(names) if i % PARTS != part]))
        for name in names[part::PARTS]:
            got = scorer.score(name)
            pooled += got
            print(f"{Path(name).name:40} {scorer.row(got)}")
            print("".join(f"    {line}\n" for line in wrong(name)), end="") if errors else None
    print(f"{'all, each left out of the fit':40} {scorer.row(pooled)}")


def main() -> None:
    """Scores or writes."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--errors", action="store_true")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("more", nargs="*", help="further talks: paths without their endings")
    given = parser.parse_args()
    model = Model([*scorer.names(), *given.more])
    if given.write:
        FILE.write_text(written(model.fit(list(model.talks))), encoding="utf-8")
    else:
        left_out(model, given.errors)


if __name__ == "__main__":
    main()
