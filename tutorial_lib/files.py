"""Opens and writes the user's files: every fault is told in one sentence, and writes are whole or not at all."""

from __future__ import annotations

import errno
import os
import shutil
import stat
import tempfile
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from tutorial_lib.errors import Fault, InputError

LARGEST = 50_000_000  # [bytes] no build file, caption track or parts list is larger
SHOWN = 200  # characters of a path that a message repeats
NO_LINKS = {errno.EPERM, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK}  # a file system without hard links says one
REASONS = {
    errno.ENAMETOOLONG: "the name is too long; choose a shorter one",
    errno.ENOSPC: "the disk is full; make room, or choose another place",
    errno.EDQUOT: "your share of the disk is used up; make room, or choose another place",
    errno.EFBIG: "it would be larger than a file may be here",
    errno.EROFS: "the disk is read-only; choose another place",
    errno.ELOOP: "its links lead in a circle",
    errno.EACCES: "its folder may not be written to; choose another place",
    errno.ENOTDIR: "a part of its path is a file, not a folder",
    errno.EIO: "the disk does not answer as it should",
}


def read_bytes(path: str | Path) -> bytes:
    """The bytes of one of the user's files.

    Raises:
        InputError: it is missing, a folder, a device, too large, or may not be read.
    """
    path = Path(path)
    try:
        _refuse_unreadable(path, path.stat())
        return path.read_bytes()
    except FileNotFoundError:
        raise _fault(path, f"is not there{_similar(path)}") from None
    except PermissionError:
        raise _fault(path, "may not be read; change its permissions.") from None
    except InputError:
        raise
    except (OSError, ValueError) as error:
        raise _fault(path, f"can't be read: {_reason(error)}.") from None


def _refuse_unreadable(path: Path, status: os.stat_result) -> None:
    if stat.S_ISDIR(status.st_mode):
        raise _fault(path, "is a folder; name a file in it.")
    if not stat.S_ISREG(status.st_mode):
        raise _fault(path, "is a pipe or a device; save what it gives as a file first.")
    if status.st_size > LARGEST:
        raise _fault(path, f"has more than {LARGEST // 1_000_000} MB; this is not a file for this command.")


def read_text(path: str | Path) -> str:
    """The text of one of the user's files, as UTF-8 with or without a byte order mark, line ends as they are.

    Raises:
        InputError: as :func:`read_bytes`; or the bytes are not UTF-8, with the line.
    """
    data = read_bytes(path)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _fault(Path(path), f"line {line} is not UTF-8 text; save it as UTF-8 in your editor.") from None


def write_text(path: str | Path, text: str, *, force: bool = False) -> Path:
    """Write a text file as UTF-8, whole or not at all; see :func:`write_bytes`.

    What no file can hold in UTF-8 (half a pair of surrogates) is written as a question mark.
    """
    return write_bytes(path, text.encode("utf-8", "replace"), force=force)


def write_bytes(path: str | Path, data: bytes, *, force: bool = False) -> Path:
    """Write a file, whole or not at all; of several who write the same new name at once, one succeeds.

    Args:
        path: where; its folder must be there.
        data: the whole content.
        force: replace the plain file that is there, keeping its permissions.

    Raises:
        InputError: the name is taken and force is off, or something else than a plain file is there, or the folder
            can't be written to.
    """
    path = Path(path)
    refuse_overwriting(path, force=force)
    try:
        _put_in_place(path, data, force)
    except FileExistsError:
        raise _taken(path) from None
    except FileNotFoundError:
        raise _no_folder(path) from None
    except PermissionError:
        raise _fault(
            path, f"can't be written: the folder {path.parent} may not be written to. Choose another with -o."
        ) from None
    except (OSError, ValueError) as error:
        raise _fault(path, f"can't be written: {_reason(error)}.") from None
    return path


def refuse_overwriting(path: str | Path, *, force: bool = False) -> None:
    """Refuse a place that is taken, before the work for it is done.

    Raises:
        InputError: a folder, a link, a pipe or a device is there, or a file and force is off; or there is no folder to
            write it into.
    """
    path = Path(path)
    try:
        there = _status(path)
        folder = path.parent.is_dir()
    except (OSError, ValueError) as error:
        raise _fault(path, f"can't be written: {_reason(error)}.") from None
    if there is not None:
        _refuse_replacing(path, there, force)
    elif not folder:
        raise _no_folder(path)


def _status(path: Path) -> os.stat_result | None:
    """What stands at a path itself, links not followed; None where nothing does."""
    try:
        return path.lstat()
    except (FileNotFoundError, NotADirectoryError):
        return None


def _refuse_replacing(path: Path, there: os.stat_result, force: bool) -> None:
    if stat.S_ISDIR(there.st_mode):
        raise _fault(path, "is a folder; name the file to write.")
    if stat.S_ISLNK(there.st_mode):
        raise _fault(path, "is a link to another place and was left as it is; name that place, or another file.")
    if not stat.S_ISREG(there.st_mode):
        raise _fault(path, "is a pipe or a device and was left as it is; name a file.")
    if not force:
        raise _taken(path)


def cache_folder() -> Path:
    """This machine's folder for what can be fetched again."""
    import platformdirs

    return platformdirs.user_cache_path("tutorial-workbook")


def make_folder(path: str | Path) -> Path:
    """A folder to write several files into; it may be there already.

    Raises:
        InputError: a file is in its place, or it can't be made.
    """
    path = Path(path)
    try:
        path.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise _fault(path, "is a file; name a folder.") from None
    except (OSError, ValueError) as error:
        raise _fault(path, f"can't be made: {_reason(error)}.") from None
    return path


def refuse_filling(folder: str | Path, *, force: bool = False) -> None:
    """Refuse a folder that can't be filled, before the work for it is done.

    Raises:
        InputError: there is a file, a link or another thing in its place, or something in it and force is off; or the
            folder it would be made in is not there.
    """
    path = Path(folder)
    try:
        there = _status(path)
        held = there is not None and stat.S_ISDIR(there.st_mode) and any(path.iterdir())
        above = path.absolute().parent.is_dir()
    except (OSError, ValueError) as error:
        raise _fault(path, f"can't be written: {_reason(error)}.") from None
    if there is not None and not stat.S_ISDIR(there.st_mode):
        raise _fault(path, "is no folder; name the folder to make.")
    if held and not force:
        raise _held(path)
    if not above:
        raise _no_folder(path)


def write_folder(
    folder: str | Path, made: Mapping[str, bytes], *, stale: Iterable[str] = (), force: bool = False
) -> Path:
    """Write a folder of files, whole or not at all.

    Args:
        folder: where; the folder above it must be there.
        made: the files by their paths in the folder, with "/".
        stale: paths in the folder to take away, if they are there.
        force: replace plain files that are there; what has another name is left as it is.

    Raises:
        InputError: as :func:`refuse_filling`; or one of the places is taken by something else than a plain file, or
            the disk refuses. The folder is as before then.
    """
    path = Path(folder)
    refuse_filling(path, force=force)
    try:
        with tempfile.TemporaryDirectory(prefix=".writing-", suffix=".tmp", dir=path.absolute().parent) as room:
            fresh = Path(room) / "fresh"
            for name, data in made.items():
                _inside(fresh, name).write_bytes(data)
            if not force or _status(path) is None or not any(path.iterdir()):
                _claim_folder(fresh, path)
            else:
                _swap(path, fresh, Path(room) / "before", list(made), list(stale))
    except InputError:
        raise
    except PermissionError:
        where = path.absolute().parent
        raise _fault(path, f"can't be written: the folder {where} may not be written to. Name another.") from None
    except (OSError, ValueError) as error:
        raise _fault(path, f"can't be written: {_reason(error)}.") from None
    return path


def _claim_folder(fresh: Path, path: Path) -> None:
    """Give a whole folder its name, unless another has filled it meanwhile: one step, so that only one can win."""
    with suppress(OSError):
        path.rmdir()
    try:
        fresh.rename(path)
    except OSError as error:
        if error.errno in (errno.ENOTEMPTY, errno.EEXIST):
            raise _held(path) from None
        raise


def _held(path: Path) -> InputError:
    return _fault(path, "is there already and holds files; use --force to replace those of the same names.")


def _inside(folder: Path, name: str) -> Path:
    """A file's place in a folder, with the folders it needs."""
    place = folder.joinpath(*name.split("/"))
    place.parent.mkdir(parents=True, exist_ok=True)
    return place


def _swap(path: Path, fresh: Path, before: Path, names: list[str], stale: list[str]) -> None:
    """Put fresh files in their places one by one, so that each is there at every moment, the old one or the new.

    What was there is kept aside until all is done, and comes back on a fault.
    """
    for name in names:
        _refuse_links(path, path.joinpath(*name.split("/")))
    aside: list[str] = []
    put: list[str] = []
    try:
        for name in names:
            if _status(place := _inside(path, name)) is not None:
                _keep(place, _inside(before, name))
                aside.append(name)
            fresh.joinpath(*name.split("/")).replace(place)
            put.append(name)
        for name in stale:
            if _status(place := path.joinpath(*name.split("/"))) is not None:
                place.replace(_inside(before, name))
                aside.append(name)
    except BaseException:
        for name in set(put) - set(aside):
            path.joinpath(*name.split("/")).unlink(missing_ok=True)
        for name in aside:
            before.joinpath(*name.split("/")).replace(_inside(path, name))
        raise
    _prune(path)


def _keep(place: Path, aside: Path) -> None:
    """A second name for a file, or a copy where the disk has no links."""
    try:
        aside.hardlink_to(place)
    except OSError:
        shutil.copy2(place, aside)


def _refuse_links(folder: Path, place: Path) -> None:
    """A file may be replaced; a link on the way to it, or in its place, is left as it is."""
    for inner in place.relative_to(folder).parents:
        if (folder / inner).is_symlink():
            raise _fault(folder / inner, "is a link to another place and was left as it is; take it away first.")
    if (there := _status(place)) is not None:
        _refuse_replacing(place, there, force=True)


def _prune(folder: Path) -> None:
    """Take away the folders that hold nothing, deepest first."""
    for inner in sorted((p for p in folder.rglob("*") if p.is_dir()), reverse=True):
        with suppress(OSError):
            inner.rmdir()
    with suppress(OSError):
        folder.rmdir()


def _put_in_place(path: Path, data: bytes, force: bool) -> None:
    """Written under another name first; that the name is free is found out by taking it."""
    handle, name = tempfile.mkstemp(prefix=".writing-", suffix=".tmp", dir=path.parent)
    made = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        there = _status(path) if force else None
        if there is None:
            made.chmod(0o666 & ~_umask())
            _claim(made, path, data)
        else:
            _refuse_replacing(path, there, force)
            _as_before(made, there)
            made.replace(path)
    finally:
        made.unlink(missing_ok=True)


def _claim(made: Path, path: Path, data: bytes) -> None:
    """Give a whole file its name, unless the name is taken (FileExistsError): one step, so that only one can win."""
    if os.name == "nt":
        made.rename(path)  # refuses a taken name there
        return
    try:
        os.link(made, path)
    except OSError as error:
        if error.errno not in NO_LINKS:
            raise
        _create(path, data)


def _create(path: Path, data: bytes) -> None:
    """Where names can't be linked: take the name and write; what is begun is taken away again."""
    with path.open("xb") as file:
        try:
            file.write(data)
            file.flush()
        except BaseException:
            path.unlink(missing_ok=True)
            raise


def _as_before(made: Path, there: os.stat_result) -> None:
    """The owner and permissions of the file to be replaced."""
    if hasattr(os, "chown"):
        with suppress(OSError):  # only the superuser may give files away
            os.chown(made, there.st_uid, there.st_gid)
    made.chmod(stat.S_IMODE(there.st_mode))


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _similar(path: Path) -> str:
    """The file nearest in name beside the missing one, or of the same ending."""
    import difflib

    try:
        names = [other.name for other in path.parent.iterdir() if other.is_file()]
    except OSError:
        return f"; nor is its folder {path.parent}."
    near = difflib.get_close_matches(path.name, names, n=1, cutoff=0.75)
    return f'; did you mean "{path.with_name(near[0])}"?' if near else "."


def _reason(error: Exception) -> str:
    if isinstance(error, OSError):
        return REASONS.get(error.errno or 0) or error.strerror or str(error)
    return "no file can have such a name"


def _taken(path: Path) -> InputError:
    return _fault(path, "is there already and was left as it is; use --force to replace it.")


def _no_folder(path: Path) -> InputError:
    return _fault(path, f"can't be written: the folder {path.parent} is not there. Make it first.")


def _fault(path: Path, what: str) -> InputError:
    name = str(path)
    return InputError(Fault(name if len(name) <= SHOWN else f"{name[:SHOWN]}…", what))
