"""The facts of a build file: as an earlier command on the same file kept them, or worked out and kept."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from tutorial_lib.cli.shared import build_text, read_options
from tutorial_lib.remembered import keep, recalled

if TYPE_CHECKING:
    from tutorial_lib.facts import Facts


def read_plan_facts(path: str) -> Facts:
    """Facts from a build file, by its plan, or from a facts file.

    Raises:
        InputError: it is neither .toml nor .json, can't be read, or has faults.
    """
    if path.endswith(".json"):
        from tutorial_lib import files
        from tutorial_lib.facts import read_facts

        return read_facts(files.read_text(path), Path(path).name)
    return _own_facts(path)


def _own_facts(path: str) -> Facts:
    """The facts of a build file as it stands.

    Raises:
        InputError: it can't be read, or has faults.
    """
    text = build_text(path)
    asked = asked_of(path, text)
    known = recalled_facts(asked)
    if known is not None:
        return known[1]
    from tutorial_lib.facts import facts_of
    from tutorial_lib.plan import plan

    options = read_options(path, text)
    found = facts_of(plan(options))
    if options.origin is None:
        keep_facts(asked, (), found)
    return found


def asked_of(path: str, text: str, mattress: str = "", *choices: Sequence[str]) -> tuple[str, ...]:
    """All that the facts of a bed follow from."""
    return (Path(path).name, text, mattress, repr(list(map(list, choices or ([], [])))))


def recalled_facts(asked: tuple[str, ...]) -> tuple[tuple[str, ...], Facts] | None:
    """What was noted and the facts, where they were kept."""
    from tutorial_lib.facts.kept import from_kept

    return recalled("facts", asked, lambda kept: (tuple(map(str, kept[0])), from_kept(kept[1])))


def keep_facts(asked: tuple[str, ...], notes: Sequence[str], facts: Facts) -> None:
    """Keeps them for the next command."""
    from tutorial_lib.facts.kept import as_kept

    keep("facts", asked, [list(notes), as_kept(facts)])
