"""Opens and writes the user's files: every fault is told in one sentence, and writes are whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from tutorial_lib.errors import Fault, InputError

LARGEST = 50_000_000  # [bytes] no build file, caption track or parts list is larger


def read_bytes(path: str | Path) -> bytes:
    """The bytes of one of the user's files.

    Raises:
        InputError: it is missing, a folder, too large, or may not be read.
    """
    path = Path(path)
    try:
        if path.is_dir():
            raise _fault(path, "is a folder; name a file in it.")
        if path.stat().st_size > LARGEST:
            raise _fault(path, f"has more than {LARGEST // 1_000_000} MB; this is not a file for this command.")
        return path.read_bytes()
    except FileNotFoundError:
        raise _fault(path, f"is not there{_similar(path)}") from None
    except PermissionError:
        raise _fault(path, "may not be read; change its permissions.") from None
    except InputError:
        raise
    except (OSError, ValueError) as error:
        raise _fault(path, f"can't be read: {_reason(error)}.") from None


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
    """Write a text file as UTF-8, whole or not at all; see :func:`write_bytes`."""
    return write_bytes(path, text.encode("utf-8"), force=force)


def write_bytes(path: str | Path, data: bytes, *, force: bool = False) -> Path:
    """Write a file, whole or not at all.

    Args:
        path: where; its folder must be there.
        data: the whole content.
        force: replace a file that is there.

    Raises:
        InputError: the file is there and force is off, or the folder can't be written to.
    """
    path = Path(path)
    refuse_overwriting(path, force=force)
    try:
        _put_in_place(path, data)
    except FileNotFoundError:
        raise _fault(path, f"can't be written: the folder {path.parent} is not there. Make it first.") from None
    except PermissionError:
        raise _fault(
            path, f"can't be written: the folder {path.parent} is read-only. Choose another with -o."
        ) from None
    except (OSError, ValueError) as error:
        raise _fault(path, f"can't be written: {_reason(error)}.") from None
    return path


def refuse_overwriting(path: str | Path, *, force: bool = False) -> None:
    """Refuse a place that is taken, before the work for it is done.

    Raises:
        InputError: a folder is there, a file and force is off, or there is no folder to write it into.
    """
    path = Path(path)
    if path.is_dir():
        raise _fault(path, "is a folder; name the file to write.")
    if os.path.lexists(path) and not force:
        raise _fault(path, "is there already and was left as it is; use --force to replace it.")
    if not path.parent.is_dir():
        raise _fault(path, f"can't be written: the folder {path.parent} is not there. Make it first.")


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


def _put_in_place(path: Path, data: bytes) -> None:
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}.", suffix=".tmp", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(name).chmod(0o666 & ~_umask())
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


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
    return getattr(error, "strerror", None) or str(error)


def _fault(path: Path, what: str) -> InputError:
    return InputError(Fault(str(path), what))
