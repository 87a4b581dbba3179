"""The build that all notebooks work on: chosen in notebook 00, kept in the clone, out of version control.

The folder ``.workbook`` beside the library remembers which; your own builds are in ``my-builds``, each with the
creator's build it came from. The environment variable TUTORIAL_STATE names another folder for both (tests use it).
"""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from pathlib import Path

from tutorial_lib import files
from tutorial_lib.design.build_file import read_build, to_toml
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError

CLONE = Path(__file__).resolve().parents[2]
SHIPPED = CLONE / "assets" / "builds"
FIRST = "spare-room-twin"  # the build a fresh clone opens on


@dataclass(frozen=True)
class Current:
    """The build in hand and the creator's build it came from (the same one, until something is changed)."""

    options: Options
    creator: Options
    name: str  # the build file's name without .toml


def state_folder() -> Path:
    """Where the choice is kept."""
    return Path(os.environ.get("TUTORIAL_STATE") or CLONE / ".workbook")


def own_folder() -> Path:
    """Where "save as my build" writes."""
    named = os.environ.get("TUTORIAL_STATE")
    return Path(named) / "builds" if named else CLONE / "my-builds"


def builds() -> dict[str, Path]:
    """All builds to choose from by name: the creator's, then your own."""
    found = [*sorted(SHIPPED.glob("*.toml")), *sorted(own_folder().glob("*.toml"))]
    return {path.stem: path for path in found if not path.stem.endswith(".creator")}


def current() -> Current:
    """The build all notebooks work on."""
    chosen = state_folder() / "chosen.txt"
    name = chosen.read_text(encoding="utf-8").strip() if chosen.exists() else FIRST
    known = builds()
    return load(name if name in known else FIRST)


def load(name: str) -> Current:
    """A build by name, with the creator's build it came from.

    Raises:
        InputError: no such build, or its file has faults.
    """
    known = builds()
    if name not in known:
        raise InputError(Fault(name, f"no such build; there are {', '.join(known)}."))
    path, origin = _files(name)
    return Current(_read(path), _read(origin), name)


def _files(name: str) -> tuple[Path, Path]:
    """A build's file and the creator's it came from, which may be the same."""
    path = builds()[name]
    origin = path.with_name(f"{name}.creator.toml")
    return path, origin if origin.exists() else path


def _written(options: Options, heading: str, onto: str) -> str:
    """A build's text with the comments of the file it came from; its heading once."""
    return to_toml(options, "" if onto.startswith(f"# {heading}") else heading, onto)


def choose(name: str) -> Current:
    """Makes a build the one all notebooks work on."""
    found = load(name)
    _folder(state_folder())
    _write(state_folder() / "chosen.txt", name + "\n")
    return found


def save_as(name: str, options: Options, creator: Options) -> Path:
    """Writes a build under a new name, the creator's beside it, and makes it the current one.

    Raises:
        InputError: the name is taken or can't be a file's name.
    """
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]*", name):
        raise InputError(Fault("name", f"{name!r} can't be used; take small letters, figures, hyphens: my-bed."))
    if name in builds():
        raise InputError(Fault("name", f"there is a build called {name}; choose another name."))
    _folder(own_folder())
    path = own_folder() / f"{name}.toml"
    mine, theirs = (files.read_text(found) for found in _files(current().name))
    # takes the name, or refuses
    files.write_text(path, _written(options, f"Own build, from {creator.build.title}.", mine))
    _write(path.with_name(f"{name}.creator.toml"), _written(creator, "", theirs))
    choose(name)
    return path


def reset() -> Current:
    """Back to the creator's build: the one the current build came from."""
    wanted = current().creator
    for name in builds():
        if load(name).options == wanted:
            return choose(name)
    return choose(FIRST)


def _read(path: Path) -> Options:
    return read_build(files.read_text(path), path.name)


def _folder(path: Path) -> None:
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError(Fault(str(path), f"can't be made ({error.strerror}); take one you may write.")) from None


def _write(path: Path, text: str) -> None:
    files.write_text(path, text, force=True)


def stamp() -> str:
    """A short text that differs whenever the notebooks would work on something else."""
    import hashlib

    now = current()
    return f"{now.name} {hashlib.sha256(to_toml(now.options).encode()).hexdigest()[:16]}"
