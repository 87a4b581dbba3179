"""The build that all notebooks work on: chosen in notebook 00, kept in the clone, out of version control.

The folder ``.workbook`` beside the library remembers which; your own builds are in ``my-builds``, each with the
creator's build it came from under ``[from]``. The environment variable TUTORIAL_STATE names another folder for both
(tests use it).
"""

from __future__ import annotations

import json
import os
import re
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from tutorial_lib import files
from tutorial_lib.design.build_file import read_build, to_toml
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError, TutorialError
from tutorial_lib.plan import Plan
from tutorial_lib.records import dataclass

CLONE = Path(__file__).resolve().parents[2]
SHIPPED = CLONE / "assets" / "builds"
FIRST = "spare-room-twin"  # the build a fresh clone opens on


@dataclass(frozen=True, kw_only=True)
class Current:
    """The build in hand and the creator's build it came from (the same one, until something is changed)."""

    options: Options
    creator: Options
    name: str  # the build file's name without .toml
    path: Path | None = None  # its file; None for options that came from none
    text: str = ""  # the file as it was read
    problem: str = ""  # why another build than the chosen one is shown

    @property
    def own(self) -> bool:
        """True for a file that may be written back to: any but the shipped ones."""
        return self.path is not None and SHIPPED not in self.path.parents


def state_folder() -> Path:
    """Where the choice is kept."""
    return Path(os.environ.get("TUTORIAL_STATE") or CLONE / ".workbook")


def own_folder() -> Path:
    """Where builds saved under a new name go."""
    named = os.environ.get("TUTORIAL_STATE")
    return Path(named) / "builds" if named else CLONE / "my-builds"


def builds() -> dict[str, Path]:
    """All builds to choose from by name: the creator's, the gallery's, your own, those opened from elsewhere."""
    found = [path for folder in (SHIPPED, SHIPPED / "gallery", own_folder()) for path in sorted(folder.glob("*.toml"))]
    known = {path.stem: path for path in found}
    for path in _opened():
        if path not in known.values():
            known[path.stem if path.stem not in known else str(path)] = path
    return known


def _opened() -> list[Path]:
    """Builds opened from elsewhere that are still there."""
    kept = state_folder() / "opened.txt"
    lines = kept.read_text(encoding="utf-8").splitlines() if kept.exists() else []
    return [Path(line) for line in lines if line and Path(line).is_file()]


def current() -> Current:
    """The build all notebooks work on."""
    chosen = state_folder() / "chosen.txt"
    name = chosen.read_text(encoding="utf-8").strip() if chosen.exists() else FIRST
    try:
        found = load(name if name in builds() else FIRST)
        _designed(found.text)
    except TutorialError as error:
        told = "; ".join(str(fault) for fault in error.faults) if isinstance(error, InputError) else str(error)
        return replace(load(FIRST), problem=f"{name} can't be worked out, so {FIRST} is shown. {told}")
    return found


def load(name: str) -> Current:
    """A build by name, with the creator's build it came from.

    Raises:
        InputError: no such build, or its file has faults.
    """
    known = builds()
    if name not in known:
        raise InputError(Fault(name, f"no such build; there are {', '.join(known)}."))
    return _read(name, known[name], files.read_text(known[name]))


@lru_cache(maxsize=32)
def _read(name: str, path: Path, text: str) -> Current:
    """What a file says; every panel asks, so the same text is read once."""
    options = read_build(text, path.name)
    return Current(options=options.bed, creator=(options.origin or options).bed, name=name, path=path, text=text)


@lru_cache(maxsize=8)
def _designed(text: str) -> None:
    """Raises for a bed that can't be designed: it has nothing to show."""
    Plan(read_build(text).bed).build  # noqa: B018  worked out when asked for


def choose(name: str) -> Current:
    """Makes a build the one all notebooks work on."""
    found = load(name)
    _keep("chosen.txt", name + "\n")
    return found


def open_build(typed: str) -> Current:
    """Opens a build file from anywhere and works on it; its place is remembered.

    Args:
        typed: its path as a person gives it: with ~, in quotes, copied with spaces around it.

    Raises:
        InputError: no such file, or the file has faults.
    """
    path = typed_path(typed)
    read_build(files.read_text(path), path.name)
    known = {str(found): name for name, found in builds().items()}
    if str(path) not in known:
        _keep("opened.txt", "".join(f"{found}\n" for found in (*_opened(), path)))
        known = {str(found): name for name, found in builds().items()}
    return choose(known[str(path)])


def typed_path(typed: str) -> Path:
    """A path as typed or pasted, whole.

    Raises:
        InputError: it begins in the home folder of a person this machine doesn't know.
    """
    try:
        return Path(typed.strip().strip("\"'").strip()).expanduser().absolute()
    except RuntimeError:
        raise InputError(Fault(typed, "begins in a home folder that is not there; write the path whole.")) from None


def take_upload(name: str, data: bytes) -> Current:
    """Takes a build file handed in through the browser into the folder of own builds, and works on it.

    Raises:
        InputError: it is no build file, or a build of that name is there already.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError(Fault(name, "is no text; a build file is a text in TOML.")) from None
    read_build(text, name)
    stem = _checked(Path(name).stem.lower().replace(" ", "-").replace("_", "-"))
    _folder(own_folder())
    files.write_text(own_folder() / f"{stem}.toml", text)
    return choose(stem)


def save_as(name: str, options: Options, creator: Options) -> Path:
    """Writes a build under a new name, with the creator's in it, and makes it the current one.

    Raises:
        InputError: the name is taken or can't be a file's name.
    """
    _checked(name)
    if name in builds():
        raise InputError(Fault("name", f"there is a build called {name}; choose another name."))
    _folder(own_folder())
    path = own_folder() / f"{name}.toml"
    files.write_text(path, _written(_with(options, creator), f"Own build, from {creator.build.title}.", current().text))
    choose(name)
    return path


def _with(options: Options, creator: Options) -> Options:
    """A build with the creator's in it, unless it is the creator's."""
    return options if options == creator else options.model_copy(update={"origin": creator})


def save(start: Current, options: Options) -> Path:
    """Writes a build back to its own file, its comments kept; the text before is kept for :func:`undo_save`.

    Args:
        start: the build as it was opened.
        options: what it is now.

    Raises:
        InputError: it is a creator's file, or the file changed since it was opened.
    """
    if start.path is None or not start.own:
        raise InputError(Fault("save", "the creator's file is never changed; give a name of your own and save again."))
    if files.read_text(start.path) != start.text:
        what = f"{start.path.name} changed since you opened it; save under another name, or revert to what it says now."
        raise InputError(Fault("save", what))
    _keep(f"before-{start.path.stem}.toml", start.text)
    _write(start.path, to_toml(_with(options, start.creator), "", start.text))
    return start.path


def undo_save(start: Current) -> Path:
    """Puts back the text a build file had before it was last saved.

    Raises:
        InputError: nothing was saved here before.
    """
    before = state_folder() / f"before-{start.path.stem}.toml" if start.path else None
    if start.path is None or before is None or not before.exists():
        raise InputError(Fault("undo", "nothing was saved before; there is nothing to take back."))
    text = before.read_text(encoding="utf-8")
    _keep(before.name, files.read_text(start.path))  # so that undoing can be undone
    _write(start.path, text)
    return start.path


def reset() -> Current:
    """Back to the creator's build: the one the current build came from."""
    wanted = current().creator
    for name in builds():
        if load(name).options == wanted:
            return choose(name)
    return choose(FIRST)


def captions() -> Path | None:
    """The captions last checked with the current build, else those it names; None where they are not there."""
    now = current()
    said = now.options.said.captions or now.creator.said.captions
    named = str(now.path.parent / Path(said).expanduser()) if said and now.path else ""
    found = next((path for path in (_remembered().get(now.name), named) if path and Path(path).is_file()), None)
    return Path(found).resolve() if found else None


def remember_captions(path: Path) -> None:
    """Keeps which captions belong to the current build."""
    _keep("captions.json", json.dumps(_remembered() | {current().name: str(path)}, indent=1) + "\n")


def _remembered() -> dict[str, str]:
    kept = state_folder() / "captions.json"
    try:
        found = json.loads(kept.read_text(encoding="utf-8")) if kept.exists() else {}
    except ValueError:
        return {}
    return {str(key): str(value) for key, value in found.items()} if isinstance(found, dict) else {}


def _checked(name: str) -> str:
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]*", name):
        raise InputError(Fault("name", f"{name!r} can't be used; take small letters, figures, hyphens: my-bed."))
    return name


def _written(options: Options, heading: str, onto: str) -> str:
    """A build's text with the comments of the file it came from; its heading once."""
    return to_toml(options, "" if onto.startswith(f"# {heading}") else heading, onto)


def _keep(name: str, text: str) -> None:
    """Writes one of the files that remember."""
    _folder(state_folder())
    _write(state_folder() / name, text)


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
    return f"{now.name} {captions() or ''} {hashlib.sha256(to_toml(now.options).encode()).hexdigest()[:16]}"
