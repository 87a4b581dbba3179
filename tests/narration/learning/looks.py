"""The two looks of the linking and the suspicion of slips, learned from examples."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy import sparse

from tests.narration.learning.examples import Example, Number
from tests.narration.learning.logistic import Columns, choose, least, races, tell
from tests.narration.learning.prior import PRIOR
from tutorial_lib.narration.linking.again import Talk
from tutorial_lib.narration.linking.linked import shares
from tutorial_lib.narration.linking.local import OF_VALUE, Candidate, kept
from tutorial_lib.narration.linking.weights import SLIPS
from tutorial_lib.narration.verdicts.suspicion import Overview, weighed

PULL, PULL_CLASS, PULL_WORD = 0.25, 0.5, 2.0  # toward the prior
PULL_AGAIN, PULL_SLIP = 1.0, 12.0
TALKS_WORD, TALKS_CLASS = 4, 2  # a word or class counts when it stands in so many talks
Tables = dict[str, Any]


@dataclass
class Seen:
    """A talk after a look: the candidates kept of every number, and their chances."""

    example: Example
    options: list[list[Candidate]]
    chances: list[list[float]]

    def right(self, at: int) -> int | None:
        """The place of the right candidate of a number."""
        number = self.example.numbers[at]
        if number.right is None:
            return None
        wanted = number.options[number.right].subject
        return next((i for i, c in enumerate(self.options[at]) if c.subject is wanted), None)


def first_look(examples: Sequence[Example]) -> Tables:
    """Weights of features, classes and words that make the right options likeliest, word by word."""
    numbers = [n for e in examples for n in e.numbers if n.right is not None]
    options = [o for n in numbers for o in n.options]
    race = races([len(n.options) for n in numbers], [n.right or 0 for n in numbers], [1.0] * len(numbers))
    features = Columns(sorted({f for o in options for f in o.features}))
    classes = Columns(seen_in(examples, lambda n: {c for o in n.options for c in o.classes}, TALKS_CLASS))
    words = Columns(seen_in(examples, lambda n: set(n.words), TALKS_WORD))
    told = Columns([c for c in classes.names if not c.startswith(("of ", "is "))])  # classes that words speak for
    x = features.matrix([o.features for o in options])
    c = classes.matrix([dict.fromkeys(o.classes, 1.0) for o in options])
    g = told.matrix([dict.fromkeys(o.classes, 1.0) for o in options]).tocoo()
    v = words.matrix([dict.fromkeys(n.words, 1.0) for n in numbers])
    nf, nc, nw, ng = len(features.names), len(classes.names), len(words.names), len(told.names)
    start = np.concatenate([[PRIOR.get(f, 0.0) for f in features.names], np.zeros(nc + nw * ng)])
    pull = np.concatenate([np.full(nf, PULL), np.full(nc, PULL_CLASS), np.full(nw * ng, PULL_WORD)])

    def loss(z: np.ndarray) -> tuple[float, np.ndarray]:
        a, b, m = z[:nf], z[nf : nf + nc], z[nf + nc :].reshape(nw, ng)
        spoken = (v @ m)[race.own[g.row], g.col]
        value, slope = race.loss(x @ a + c @ b + np.bincount(g.row, spoken, minlength=x.shape[0]))
        by_class = sparse.csr_matrix((slope[g.row], (race.own[g.row], g.col)), shape=(v.shape[0], ng))
        grown = np.concatenate([x.T @ slope, c.T @ slope, (v.T @ by_class).toarray().ravel()])
        return value + 0.5 * float((pull * (z - start) ** 2).sum()), grown + pull * (z - start)

    z = least(loss, start, 80)
    return tables(z, features, classes, words, told)


def seen_in(examples: Sequence[Example], of: Any, talks: int) -> list[str]:
    """Names that stand in enough of the talks."""
    found = Counter(name for e in examples for name in {x for n in e.numbers for x in of(n)})
    return sorted(name for name, count in found.items() if count >= talks)


def tables(z: np.ndarray, features: Columns, classes: Columns, words: Columns, told: Columns) -> Tables:
    """The weights as the library reads them, rounded; words that say next to nothing left out."""
    nf, nc = len(features.names), len(classes.names)
    named = {n: round(float(w), 2) for n, w in zip(features.names, z[:nf], strict=True)}
    out: Tables = {
        "facts": {n: w for n, w in named.items() if not n.startswith("none ")},
        "none": {n.removeprefix("none "): w for n, w in named.items() if n.startswith("none ")},
        "kinds": {n: round(float(w), 2) for n, w in zip(classes.names, z[nf : nf + nc], strict=True)},
        "words": {},
    }
    out["none"]["bias"] = round(out["none"].get("bias", 0.0) + out["kinds"].pop("none", 0.0), 2)
    for word, row in zip(words.names, z[nf + nc :].reshape(len(words.names), -1), strict=True):
        said = {k: round(float(w), 2) for k, w in zip(told.names, row, strict=True) if abs(w) >= 0.03}
        if said:
            out["words"][word] = said
    return out


def look(example: Example, learned: Tables) -> Seen:
    """A talk after the first look."""
    found = [candidates(n, learned) for n in example.numbers]
    return Seen(example, found, [shares([c.score for c in row]) for row in found])


def candidates(number: Number, learned: Tables) -> list[Candidate]:
    """What the library's first look finds of one number with other weights."""
    spoken: dict[str, float] = {}
    for word in number.words:
        for name, weight in learned["words"].get(word, {}).items():
            spoken[name] = spoken.get(name, 0.0) + weight
    scored = []
    for o in number.options:
        score = words = sum(spoken.get(k, 0.0) + learned["kinds"].get(k, 0.0) for k in o.classes)
        if o.subject is None:
            score += sum(learned["none"].get(n.removeprefix("none "), 0.0) * v for n, v in o.features.items())
        else:
            told = {n: learned["facts"].get(n, 0.0) * v for n, v in o.features.items()}
            score += sum(told.values())
            words += sum(v for n, v in told.items() if n not in OF_VALUE)
        scored.append(
            Candidate(subject=o.subject, reading=o.reading, equal=o.equal, score=score, words=words, named=o.features)
        )
    return kept(scored[0], scored[1:])


def again_features(seen: Seen) -> list[list[dict[str, float]]]:
    """Named features of the second look, by number and candidate."""
    talk = Talk([n.claim for n in seen.example.numbers], seen.options, seen.chances)
    return [[dict(talk.features(at, i)) for i in range(len(row))] for at, row in enumerate(seen.options)]


def second_look(talks: Sequence[Seen]) -> dict[str, float]:
    """Weights of what the rest of the talk says."""
    rows: list[dict[str, float]] = []
    sizes, right = [], []
    for seen in talks:
        for at, features in enumerate(again_features(seen)):
            place = seen.right(at)
            if place is not None:
                rows += features
                sizes.append(len(features))
                right.append(place)
    found = choose(rows, races(sizes, right, [1.0] * len(sizes)), {"first": 1.0, "none_first": 1.0}, PULL_AGAIN)
    return {name: round(float(weight), 3) for name, weight in found.items()}


def look_again(seen: Seen, again: Mapping[str, float]) -> Seen:
    """A talk after the second look."""
    scored = [[sum(again.get(n, 0.0) * v for n, v in f.items()) for f in row] for row in again_features(seen)]
    rows = [shares(row) for row in scored]
    return Seen(seen.example, seen.options, rows)


def overview(seen: Seen) -> Overview:
    """A talk ready to be asked for slips."""
    numbers = seen.example.numbers
    rows = [
        [weighed(n.claim, c, p, seen.example.units) for c, p in zip(found, chances, strict=True)]
        for n, found, chances in zip(numbers, seen.options, seen.chances, strict=True)
    ]
    return Overview([n.claim for n in numbers], rows, [n.doubts for n in numbers], seen.example.units)


def suspicion(talks: Sequence[Seen]) -> dict[str, float]:
    """Weights that tell slips about a fact from everything else."""
    rows: list[dict[str, float]] = []
    yes: list[float] = []
    for seen in talks:
        view = overview(seen)
        for at, number in enumerate(seen.example.numbers):
            about = dict(view.of_claim(at))
            for w in view.rows[at]:
                if view.may_be_meant(at, w):
                    rows.append(about | dict(view.of_fact(at, w)))
                    yes.append(float(w.key == number.slip))
    return {name: round(float(weight), 3) for name, weight in tell(rows, np.array(yes), PULL_SLIP).items()}


@dataclass(frozen=True)
class Suspected:
    """The first suspect of a number: how likely a slip, whether it is one, whether it may be or is told for sure."""

    probability: float
    slip: bool
    may_be_sure: bool
    settled: bool


def suspects(seen: Seen, slips: Mapping[str, float]) -> list[Suspected]:
    """The first suspect of every number, with probability 0 where there is none."""
    SLIPS.clear()
    SLIPS.update(slips)
    view = overview(seen)
    return [suspected(view, at, bool(number.slip)) for at, number in enumerate(seen.example.numbers)]


def suspected(view: Overview, at: int, slip: bool) -> Suspected:
    """The first suspect of one number."""
    found = view.suspects(at)
    if not found:
        return Suspected(0.0, slip, False, False)
    return Suspected(
        found[0][1], slip, view.may_be_sure(at, found[0][0]), any(view.is_settled(at, w) for w, _ in found)
    )
