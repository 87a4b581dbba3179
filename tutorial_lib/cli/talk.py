"""The command that checks what is said on camera."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from tutorial_lib.cli.plan_facts import read_plan_facts
from tutorial_lib.cli.shared import ANSWERED_NO, DONE, add_json, read_talk, write_json

if TYPE_CHECKING:
    from tutorial_lib.facts import Facts
    from tutorial_lib.narration import Answer, Item, Report
    from tutorial_lib.narration.verdicts.asking import Offer

KEYS = "number: it speaks of that   s: a slip (s2: about the 2nd)   n: not about this bed   /word: search the plan"
MORE = "Enter: leave it open   b: back to the one before   q: stop, answers are kept"


def add_check(commands: Any) -> None:
    """Register `check`."""
    command = commands.add_parser(
        "check", help="the numbers said on camera, against the plan; 1 on a sure conflict",
        epilog="example: tutorial check my-bed.toml captions.vtt --ask",
    )  # fmt: skip
    command.add_argument("plan", metavar="BUILD-or-FACTS", help="a build file (.toml) or a facts file (.json)")
    command.add_argument("captions", metavar="CAPTIONS", help="captions, a transcript or a draft script")
    command.add_argument("--all", action="store_true", help="list every number, also what is right")
    command.add_argument("--ask", action="store_true", help="go through the doubtful numbers and keep your answers")
    command.add_argument("--strict", action="store_true", help="exit with 1 on a doubtful number too")
    command.add_argument("--write", metavar="FOLDER", help="write correction, overlay, captions and cue cards there")
    add_json(command)
    command.set_defaults(run=_check)


def _check(args: argparse.Namespace) -> int:
    from tutorial_lib.publishing.check_list import check_list
    from tutorial_lib.publishing.said_files import write_said_files

    facts = read_plan_facts(args.plan)
    report = checked(args.captions, facts)
    if args.ask:
        _asked(report, facts, args.captions)
        report = checked(args.captions, facts)
    if args.json:
        write_json(report.as_json(), args)
    else:
        print(check_list(report, args.all), end="")
    if args.write:
        for path in write_said_files(args.write, report, facts, args.force):
            print(f"wrote {path}")
    return _status(report, args.strict)


def checked(captions: str, facts: Facts) -> Report:
    """Captions by their path against facts, with what the person answered before."""
    from tutorial_lib.cutting import comes_out
    from tutorial_lib.narration import beside, check

    return check(read_talk(captions), facts, comes_out, beside(captions))


def _status(report: Report, strict: bool) -> int:
    """1 on a sure conflict, with --strict on a doubtful number too."""
    return ANSWERED_NO if report.conflicts or (strict and report.doubtful) else DONE


def _asked(report: Report, facts: Facts, captions: str) -> None:
    """Goes through the doubtful numbers at the terminal; every answer is kept at once."""
    from tutorial_lib import files
    from tutorial_lib.narration import beside
    from tutorial_lib.narration.verdicts import answers

    path = answers.file_name(captions)

    def keep(found: Sequence[Answer]) -> None:
        files.write_text(path, answers.dumps(found), force=True)

    ask(report, facts, beside(captions), keep, input, print)


def ask(
    report: Report,
    facts: Facts,
    answered: Sequence[Answer],
    keep: Callable[[Sequence[Answer]], object],
    read: Callable[[str], str],
    show: Callable[[str], object],
) -> tuple[Answer, ...]:
    """Goes through the doubtful numbers one by one; ends at the last, at q, or where the input ends.

    Args:
        report: the check.
        facts: the plan's facts, for the search.
        answered: the answers so far.
        keep: called with all answers after each one.
        read: asks for a line.
        show: shows a text.
    """
    from tutorial_lib.narration.verdicts.asking import Session, found, understood

    session = Session(report, answered, keep)
    if not session.items:
        show("Nothing to ask: no number is doubtful.\n")
    searched: list[str] | None = None
    while (item := session.item) is not None:
        offered = _offered(report, facts, item, searched)
        show(_question(session.at, len(session.items), item, offered))
        try:
            typed = understood(read("> "), item, offered)
        except (EOFError, KeyboardInterrupt):
            break
        if typed.act == "stop":
            break
        searched = found(facts, typed.words, item.unit) if typed.act == "search" else None
        if searched == []:
            show(f"Nothing in the plan is called “{typed.words}”.")
            searched = None
        if typed.act == "unclear":
            show("That is none of the keys.")
        session.take(typed)
    return session.answered


def _offered(report: Report, facts: Facts, item: Item, searched: Sequence[str] | None) -> list[Offer]:
    """The facts to choose from: those the number may be about, or what a search found."""
    from tutorial_lib.narration.verdicts.asking import Offer
    from tutorial_lib.publishing.check_list import if_it_speaks_of, meaning

    if searched is None:
        return [Offer(c.subject, meaning(c, report.units)) for c in item.choices]
    return [Offer(key, if_it_speaks_of(item, facts[key], report.units)) for key in searched]


def _question(at: int, of: int, item: Item, offered: Sequence[Offer]) -> str:
    """One question as text."""
    from tutorial_lib.publishing.check_list import sentence

    listed = [f"{n:>8}  {offer.text}" for n, offer in enumerate(offered, 1)]
    return "\n".join(["", f"{at + 1} of {of}", sentence(item), *listed, f"  {KEYS}", f"  {MORE}"])
