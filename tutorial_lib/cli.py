"""The command line: each command reads files, calls one room, writes or prints what it says.

Rooms are imported inside the commands, so that ``--help`` answers at once. Exit status: 0 done, findings printed;
1 where a command's question is answered no; 2 when the input can't be used, with one message on stderr.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tutorial_lib.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tutorial_lib.design.options import Options
    from tutorial_lib.facts import Facts
    from tutorial_lib.findings import Finding
    from tutorial_lib.narration import Report

DONE, ANSWERED_NO, CAN_NOT = 0, 1, 2
INTERRUPTED = 130
TRACEBACK = "TUTORIAL_TRACEBACK"
TEMPLATE = "new_build.toml"


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a console that has no fraction signs still gets the line
    parsed = parser().parse_args(arguments)
    try:
        _refuse_taken(parsed)
        return int(parsed.run(parsed))
    except InputError as error:
        return _complain(str(error))
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        sys.stderr.close()  # the reader of our output has gone; nobody to tell
        return DONE
    except Exception as error:
        if os.environ.get(TRACEBACK):
            raise
        return _complain(
            f"this is a fault of the program, not of your file: {type(error).__name__}: {error}. "
            f"Set {TRACEBACK}=1 to see where."
        )


def _refuse_taken(args: argparse.Namespace) -> None:
    """Refuse a file that is there already before the work for it is done."""
    from tutorial_lib import files

    for path in (getattr(args, "json", None), getattr(args, "output", None)):
        if path and path != "-":
            files.refuse_overwriting(path, force=args.force)


def _complain(message: str) -> int:
    print(f"tutorial: {message}", file=sys.stderr)
    return CAN_NOT


def parser() -> argparse.ArgumentParser:
    """The command line as argparse knows it."""
    top = argparse.ArgumentParser(
        prog="tutorial",
        description="Plans a slatted platform bed for a woodworking tutorial: one build file gives lengths, cuts, "
        "holes, strength, drawings and printable sheets.",
    )
    top.add_argument("--version", action="version", version=_version())
    commands = top.add_subparsers(metavar="COMMAND", required=True)
    for add in COMMANDS:
        add(commands)
    return top


def _version() -> str:
    from tutorial_lib import __version__

    return f"tutorial-workbook {__version__}"


# Commands, in the order of the job ----------------------------------------------------------------------------------


def _add_open(commands: Any) -> None:
    command = commands.add_parser("open", help="start JupyterLab on the notebooks")
    command.add_argument("--port", type=int, help="port of the server; the first free one unless given")
    command.add_argument("--no-browser", action="store_true", help="print the address instead of opening a browser")
    command.set_defaults(run=_open)


def _open(args: argparse.Namespace) -> int:
    import subprocess

    from tutorial_lib import bootstrap

    folder = _in_clone("notebooks", "open")
    command = [sys.executable, "-m", "jupyterlab", f"--ServerApp.root_dir={folder.parent}"]
    first = sorted(folder.glob("00*.ipynb"))
    command += [str(first[0])] if first else []
    command += [f"--port={args.port}"] if args.port else []
    command += ["--no-browser"] if args.no_browser else []
    command += ["--allow-root"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    print("Starting JupyterLab; stop it with Ctrl-C here.", file=sys.stderr)
    return subprocess.call(command, env={**os.environ, **quiet_lab(Path(bootstrap.ROOT))})


def quiet_lab(root: Path) -> dict[str, str]:
    """Environment for JupyterLab without its question about news, unless the user has settings of their own."""
    if os.environ.get("JUPYTERLAB_SETTINGS_DIR"):
        return {}
    settings = root / ".jupyter" / "settings"
    page = settings / "@jupyterlab" / "apputils-extension" / "notification.jupyterlab-settings"
    page.parent.mkdir(parents=True, exist_ok=True)
    if not page.exists():
        page.write_text('{"fetchNews": "false"}\n', encoding="utf-8")
    return {"JUPYTERLAB_SETTINGS_DIR": str(settings)}


def _add_test(commands: Any) -> None:
    command = commands.add_parser("test", help="run all tests, notebooks and browser included", add_help=False)
    command.add_argument("pytest_arguments", nargs=argparse.REMAINDER, help="passed on to pytest")
    command.set_defaults(run=_test)


def _test(args: argparse.Namespace) -> int:
    import subprocess

    tests = _in_clone("tests", "test")
    root = tests.parent
    command = [sys.executable, "-m", "pytest"]
    if (root / "notebooks").is_dir():
        command += ["--nbval", f"--nbval-sanitize-with={tests / 'notebooks' / 'sanitize.cfg'}"]
    chosen = [word for word in args.pytest_arguments if not word.startswith("-") and Path(word.split("::")[0]).exists()]
    if not chosen:
        command += [name for name in ("tests", "tutorial_lib", "notebooks") if (root / name).is_dir()]
    return ANSWERED_NO if subprocess.call([*command, *args.pytest_arguments], cwd=root) else DONE


def _in_clone(name: str, command: str) -> Path:
    from tutorial_lib import bootstrap

    folder = Path(bootstrap.ROOT) / name
    if not folder.is_dir():
        raise InputError(f"`tutorial {command}` needs the {name} folder, which comes with a clone of the project.")
    return folder


def _add_new(commands: Any) -> None:
    command = commands.add_parser("new", help="write a commented build file to start from")
    _add_output(command, "my-bed.toml")
    command.set_defaults(run=_new)


def _new(args: argparse.Namespace) -> int:
    from tutorial_lib import files

    text = Path(__file__).with_name(TEMPLATE).read_text(encoding="utf-8")
    path = files.write_text(args.output or "my-bed.toml", text, force=args.force)
    print(f"wrote {path}; change what differs from your bed, then: tutorial facts {path}")
    return DONE


def _add_facts(commands: Any) -> None:
    command = commands.add_parser("facts", help="print or write every number of the plan")
    command.add_argument("build", metavar="BUILD.toml")
    _add_json(command)
    command.set_defaults(run=_facts)


def _facts(args: argparse.Namespace) -> int:
    from tutorial_lib.facts import facts_of
    from tutorial_lib.plan import plan
    from tutorial_lib.publishing.figures import line

    made = plan(read_options(args.build))
    facts = facts_of(made)
    if args.json:
        return _write_json(facts.as_json(), args)
    for fact in facts.values():
        print(line(fact, facts.units))
    _print_findings(made.findings)
    return DONE


def _add_cut(commands: Any) -> None:
    command = commands.add_parser("cut", help="a cut plan for any parts list, proven cheapest")
    command.add_argument(
        "pieces", metavar="PIECES.csv", help="columns name, length, count; section, together if wanted"
    )
    command.add_argument("stock", metavar="STOCK.csv", help="columns name, length, price; available, section if wanted")
    command.add_argument("--kerf", default="1/8in", metavar="LENGTH", help="width of the saw cut (1/8in)")
    command.add_argument("--trim", default="0", metavar="LENGTH", help="lost at each board's ends (0)")
    _add_json(command)
    command.set_defaults(run=_cut)


def _cut(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.cutting.parts_list import cut_lists
    from tutorial_lib.measures import read_length

    made = cut_lists(
        files.read_text(args.pieces),
        files.read_text(args.stock),
        kerf=read_length(args.kerf, where="--kerf"),
        trim=read_length(args.trim, where="--trim"),
        names=(Path(args.pieces).name, Path(args.stock).name),
    )
    if args.json:
        return _write_json(made.as_json(), args)
    sys.stdout.write(made.as_text())
    return DONE


def _add_check(commands: Any) -> None:
    command = commands.add_parser("check", help="the numbers said on camera, against the plan; 1 on a conflict")
    command.add_argument("plan", metavar="BUILD-or-FACTS", help="a build file (.toml) or a facts file (.json)")
    command.add_argument("captions", metavar="CAPTIONS", help="captions, a transcript or a draft script")
    command.add_argument("--all", action="store_true", help="print every number, not only what differs")
    _add_json(command)
    command.set_defaults(run=_check)


def _check(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.narration import check, read_captions

    talk = read_captions(files.read_bytes(args.captions), Path(args.captions).name)
    report = check(talk, read_plan_facts(args.plan))
    if args.json:
        _write_json(report.as_json(), args)
    else:
        _print_report(report, ("conflicts", "rounded") if not args.all else None)
    return ANSWERED_NO if report.conflicts else DONE


def _print_report(report: Report, verdicts: tuple[str, ...] | None) -> None:
    """What was said and does not hold, then the counts."""
    for item in report.items:
        if verdicts is None or item.verdict in verdicts:
            place = item.time or f"line {item.place}"
            print(f'{place:>8}  {item.verdict.replace("_", " ")}: "{item.quote}" {item.why}')
    for finding in report.cross:
        print(finding)
    for note in report.notes:
        print(f"note: {note}")
    print(", ".join(f"{count} {name.replace('_', ' ')}" for name, count in report.counts.items()))


def _add_sheet(commands: Any) -> None:
    command = commands.add_parser("sheet", help="the companion sheet as PDF")
    command.add_argument("build", metavar="BUILD.toml")
    command.add_argument("--paper", choices=("letter", "a4"), default="letter", help="size of the paper (letter)")
    _add_output(command, "NAME-sheet.pdf")
    command.set_defaults(run=_sheet)


def _sheet(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.plan import plan
    from tutorial_lib.publishing.sheet import sheet_pdf

    made = plan(read_options(args.build))
    path = args.output or f"{made.options.build.name}-sheet.pdf"
    files.refuse_overwriting(path, force=args.force)
    files.write_bytes(path, sheet_pdf(made, args.paper), force=args.force)
    print(f"wrote {path}")
    _print_findings(made.findings)
    return DONE


# What the commands share ---------------------------------------------------------------------------------------------


def read_options(path: str) -> Options:
    """The options of a build file by its path.

    Raises:
        InputError: it is no .toml, can't be read, or has faults; all of them.
    """
    from tutorial_lib import files
    from tutorial_lib.design.build_file import read_build

    if not path.endswith(".toml"):
        raise InputError(f"{path}: a build file ends in .toml; `tutorial new` writes one to start from.")
    return read_build(files.read_text(path), Path(path).name)


def read_plan_facts(path: str) -> Facts:
    """Facts from a build file, by its plan, or from a facts file.

    Raises:
        InputError: it is neither .toml nor .json, can't be read, or has faults.
    """
    from tutorial_lib import files
    from tutorial_lib.facts import facts_of, read_facts
    from tutorial_lib.plan import plan

    if path.endswith(".json"):
        return read_facts(files.read_text(path), Path(path).name)
    return facts_of(plan(read_options(path)))


def _add_output(command: argparse.ArgumentParser, default: str) -> None:
    command.add_argument("-o", "--output", metavar="FILE", help=f"file to write ({default})")
    command.add_argument("--force", action="store_true", help="replace the file if it is there")


def _add_json(command: argparse.ArgumentParser) -> None:
    command.add_argument("--json", metavar="FILE", help='write a JSON file instead of printing ("-" prints it)')
    command.add_argument("--force", action="store_true", help="replace the file if it is there")


def _write_json(data: object, args: argparse.Namespace) -> int:
    from tutorial_lib import files

    text = json.dumps(data, indent=1, ensure_ascii=False) + "\n"
    if args.json == "-":
        sys.stdout.write(text)
    else:
        files.write_text(args.json, text, force=args.force)
        print(f"wrote {args.json}")
    return DONE


def _print_findings(findings: Iterable[Finding]) -> None:
    listed = list(findings)
    if listed:
        print()
    for finding in listed:
        print(finding)


COMMANDS = (_add_open, _add_test, _add_new, _add_facts, _add_cut, _add_check, _add_sheet)


if __name__ == "__main__":
    sys.exit(main())
