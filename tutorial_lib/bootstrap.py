"""The first run on a bare machine: makes ``.venv`` in the clone and fills it, with the standard library alone.

An old Python must be able to parse this file, so that it can be told that it is too old: no f-strings here, no
newer syntax, nothing imported from the library.
"""

import hashlib
import os
import shutil
import subprocess
import sys
import time

OLDEST = (3, 11)
NEWEST_TRIED = (3, 13)
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
VENV = os.path.join(ROOT, ".venv")
MARK = "made-by-tutorial-workbook"  # a file in the environment: whose it is, where, and whether it is whole
UNFINISHED = b"unfinished"
SKIP = "TUTORIAL_NO_SETUP"  # set it to use the Python at hand as it is
HANDED = "TUTORIAL_HANDED_OVER"  # the process that was handed over last, so that none is twice
DOTS_EVERY = 15  # [s] between signs of life where lines can't be overwritten
NOT_FOR_PIP = ("PIP_USER", "PIP_TARGET", "PIP_PREFIX", "PIP_ROOT")  # they would install elsewhere


def hand_over(arguments: list) -> None:  # type: ignore[type-arg]  # list[str] is not parsed by old Pythons
    """Go on in the clone's own environment; returns only if this Python can run the command itself.

    Args:
        arguments: the command line after the program's name.

    Ends the process with status 2 and one message where nothing can be set up.
    """
    if os.environ.get(SKIP) or not _is_clone() or _is_installed():
        return
    if sys.version_info >= OLDEST and _needs_nothing(arguments):
        return
    need = "test" if arguments[:1] in (["test"], ["bench"]) else "run"
    ready = _ready(need)
    if not ready:
        _refuse_old_python()
        try:
            _set_up(need)
        except KeyboardInterrupt:
            _give_up("Stopped. The next call takes up the setting-up again.")
    if not (ready and _inside()):
        _go_on(arguments)


def _go_on(arguments: list) -> None:  # type: ignore[type-arg]  # as above
    """The same command in the environment's Python; a process handed over once is never handed over again."""
    lost = "{} does not start as it should. Remove that folder and call again.".format(VENV)
    if os.environ.get(HANDED) in (str(os.getpid()), str(os.getppid()) if os.name == "nt" else ""):
        _give_up(lost)
    command = [_python(), "-m", "tutorial_lib"]
    command.extend(arguments)
    environment = dict(os.environ)
    environment[HANDED] = str(os.getpid())
    environment["PYTHONUTF8"] = "1"  # the clone's place may have letters that the locale has not
    sys.stdout.flush()
    try:
        if os.name == "nt":
            sys.exit(subprocess.call(command, env=environment))
        os.execve(command[0], command, environment)
    except OSError:
        _give_up(lost)


def _inside() -> bool:
    return os.path.realpath(sys.prefix) == os.path.realpath(VENV)


def _is_clone() -> bool:
    """True where the project's own files lie beside the package."""
    try:
        with open(os.path.join(ROOT, "pyproject.toml"), "rb") as file:
            return b'name = "tutorial-workbook"' in file.read()
    except (IOError, OSError):
        return False


def _is_installed() -> bool:
    """True where this Python has the project installed by other means."""
    if _inside() and _mark():
        return False
    # The metadata folder that an installation leaves in the clone itself does not count.
    folders = [path for path in sys.path if os.path.isdir(path) and os.path.realpath(path) != os.path.realpath(ROOT)]
    return any(name.startswith("tutorial_workbook-") for folder in folders for name in os.listdir(folder))


def _needs_nothing(arguments: list) -> bool:  # type: ignore[type-arg]  # as above
    """Help and version are answered by the standard library."""
    return not arguments or any(word in ("-h", "--help", "--version") for word in arguments)


def _python() -> str:
    if os.name == "nt":
        return os.path.join(VENV, "Scripts", "python.exe")
    return os.path.join(VENV, "bin", "python")


def _wanted() -> str:
    with open(os.path.join(ROOT, "pyproject.toml"), "rb") as file:
        return hashlib.sha256(file.read()).hexdigest()


def _mark() -> tuple:  # type: ignore[type-arg]  # as above
    """What the environment's mark says: its state and its place; empty where there is no mark of ours."""
    try:
        with open(os.path.join(VENV, MARK), "rb") as file:
            lines = file.read(10000).split(b"\n")
    except (IOError, OSError):
        return ()
    return tuple(lines[1:3]) if lines[0] == MARK.encode() and len(lines) == 4 else ()


def _write_mark(state: bytes) -> None:
    path = os.path.join(VENV, MARK)
    with open(path + ".new", "wb") as file:
        file.write(b"\n".join((MARK.encode(), state, _place(), b"")))
    os.replace(path + ".new", path)


def _place() -> bytes:
    """Where the clone lies; an environment works in no other place."""
    return os.fsencode(os.path.realpath(ROOT)).replace(b"\n", b" ")


def _whole(need: str) -> bytes:
    return "whole, to {}, {}".format(need, _wanted()).encode()


def _ready(need: str) -> bool:
    """True where the environment is ours, of this place, and whole; one for tests also runs."""
    kinds = {"run": ("run", "test"), "test": ("test",)}[need]
    return _mark() in [(_whole(kind), _place()) for kind in kinds] and _sound()


def _sound() -> bool:
    """True where what makes a folder an environment is in it: without pyvenv.cfg it is the system's Python again."""
    return os.path.isfile(os.path.join(VENV, "pyvenv.cfg")) and _can_run(_python())


def _can_run(path: str) -> bool:
    return os.path.isfile(path) and os.access(path, os.X_OK)


def _refuse_old_python() -> None:
    if sys.version_info >= OLDEST:
        return
    found = [name for name in ("python3.13", "python3.12", "python3.11") if shutil.which(name)]
    hint = "Install a newer one from your system or from python.org."
    if found:
        hint = "This machine has a newer one: {} -m tutorial_lib ...".format(found[0])
    _give_up(
        "This needs Python {}.{} or newer; this is {}.{}. {}".format(
            OLDEST[0], OLDEST[1], sys.version_info[0], sys.version_info[1], hint
        )
    )


def _set_up(need: str) -> None:
    """Make or complete the environment; while that lasts its mark says that it is unfinished."""
    lock = _only_one()
    try:
        if not _ready(need):  # else another call has done it in the meantime
            _complete(need, lock)
    except (IOError, OSError, ValueError) as error:
        _give_up("The environment {} can't be made: {}. Is the folder writable, and is there room?".format(VENV, error))
    finally:
        if lock:
            os.close(lock)


def _complete(need: str, lock: int) -> None:
    started = time.time()
    _refuse_others_folder()
    what = "to run the tests" if need == "test" else "to run"
    _say("Setting up {}, once: about a minute and 600 MB, all of it in {}".format(what, VENV))
    _fill(need, lock)
    _say("Set up in {:.0f} s. From now on it starts at once.".format(time.time() - started))


def _fill(need: str, lock: int) -> None:
    before = _mark()
    added_to = _can_be_added_to(before)
    lines = []  # type: list[str]  # what pip writes
    if not added_to:
        _begin_again(before, lock)
    _write_mark(UNFINISHED)
    try:
        _install(need, lines, lock)
    except BaseException:
        if added_to and not any(line.startswith("Installing collected") for line in lines):
            _write_mark(before[0])  # nothing was changed: as whole as it was
        raise
    _write_mark(_whole(need))


def _only_one() -> int:
    """A lock that this call and the installers it starts hold until they end; 0 where the system has none."""
    try:
        import fcntl
    except ImportError:
        return 0
    handle = os.open(os.path.join(ROOT, "pyproject.toml"), os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            _say("Another call is setting this up; waiting for it.")
            fcntl.flock(handle, fcntl.LOCK_EX)
    except (IOError, OSError):
        return 0  # a network disk without locks
    return handle


def _refuse_others_folder() -> None:
    """Never touch a .venv that carries no mark of ours."""
    if not os.path.lexists(VENV):
        return
    if not os.path.islink(VENV) and os.path.isdir(VENV):
        if _mark() or all(name.startswith(MARK) for name in os.listdir(VENV)):
            return
    told = "{} was not made by this program, so it is left as it is. Rename it and call again, and one is made. "
    told += "Or use your own: install the project with its Python (pip install -e .), and call this with that Python."
    _give_up(told.format(VENV))


def _can_be_added_to(mark: tuple) -> bool:  # type: ignore[type-arg]  # as above
    """True where an earlier call left a whole environment of this place, its Python new enough and with pip."""
    if not mark or mark[0] == UNFINISHED or mark[1] != _place() or not _sound():
        return False
    check = "import pip, sys; sys.exit(sys.version_info < {!r})".format(OLDEST)
    return subprocess.call([_python(), "-I", "-c", check], stderr=subprocess.DEVNULL) == 0


def _begin_again(before: tuple, lock: int) -> None:  # type: ignore[type-arg]  # as above
    """An empty environment of ours, in place of what an interrupted call or another place left."""
    if before and before[1] != _place():
        _say("    this folder was moved or copied since it was set up, so that its environment is made anew")
    elif before:
        _say("    the last setting-up was interrupted or damaged; beginning again")
    _say("1/2 making the environment")
    try:
        import ensurepip  # noqa: F401 - looked for, not used
        import venv  # noqa: F401
    except ImportError:
        _give_up(
            "This Python can't make virtual environments: its venv module is missing or incomplete. "
            "On Debian and Ubuntu: sudo apt-get install python3-venv"
        )
    if not os.path.isdir(VENV):
        os.mkdir(VENV)
    _write_mark(UNFINISHED)
    for name in os.listdir(VENV):
        path = os.path.join(VENV, name)
        if os.path.isdir(path) and not os.path.islink(path):
            shutil.rmtree(path)
        elif name != MARK:
            os.remove(path)
    _make([getattr(sys, "_base_executable", sys.executable), "-I", "-m", "venv", "--without-pip", VENV], lock)
    _add_pip(lock)


def _add_pip(lock: int) -> None:
    _make([_python(), "-I", "-m", "ensurepip", "--upgrade", "--default-pip"], lock)


def _make(command: list, lock: int) -> None:  # type: ignore[type-arg]  # as above
    process = _start(command, lock)
    output = process.communicate()[0]
    if process.returncode != 0:
        raise OSError(" ".join(output.splitlines()[-1:]))


def _start(command: list, lock: int) -> "subprocess.Popen[str]":  # type: ignore[type-arg]  # as above
    """A Python that holds the lock too, in case this call is killed before it; names of files in UTF-8 everywhere."""
    environment = {name: value for name, value in os.environ.items() if name not in NOT_FOR_PIP}
    environment["PYTHONUTF8"] = "1"  # for what pip starts in its turn
    return subprocess.Popen(
        [command[0], "-X", "utf8", "-u", *command[1:]],
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, universal_newlines=True, errors="replace",
        cwd=ROOT, env=environment, pass_fds=[lock] if lock else [],
    )  # fmt: skip


def _install(need: str, lines: list, lock: int) -> None:  # type: ignore[type-arg]  # as above
    _say("2/2 fetching and installing what pyproject.toml names")
    target = ".[test]" if need == "test" else "."
    pip = [_python(), "-I", "-m", "pip"]
    process = _start([*pip, "install", "--disable-pip-version-check", "--retries", "2", "-e", target], lock)
    try:
        _follow(process, lines)
    finally:
        if sys.exc_info()[0]:
            process.terminate()
        process.wait()
    if process.returncode != 0:
        _give_up(_why_not("\n".join(lines)))


def _follow(process: "subprocess.Popen[str]", lines: list) -> None:  # type: ignore[type-arg]  # as above
    """Gather the lines pip writes, with signs of life while it writes them."""
    packages, state, shown = 0, "found", time.time()
    for line in process.stdout or ():
        lines.append(line.rstrip())
        packages += line.startswith("Collecting ")
        installing = line.startswith("Installing collected")
        state = "found, installing them" if installing else state
        text = "    {} packages {}".format(packages, state)
        if sys.stderr.isatty():
            sys.stderr.write("\r" + text.ljust(60))
        elif time.time() - shown > DOTS_EVERY or installing:
            _say(text)
            shown = time.time()
        sys.stderr.flush()
    if sys.stderr.isatty():
        sys.stderr.write("\n")


def _why_not(output: str) -> str:
    """One sentence from what pip said."""
    signs = ("NewConnectionError", "NameResolutionError", "name resolution", "Connection refused", "timed out",
             "Network is unreachable", "getaddrinfo", "ConnectTimeout", "ProxyError")  # fmt: skip
    if any(sign in output for sign in signs):
        return "The packages can't be fetched: there is no network, or it is blocked. Try again when there is one."
    if "No space left" in output:
        return "The disk is full: about 600 MB are needed in {}.".format(VENV)
    last = [line for line in output.splitlines() if "ERROR" in line] or output.splitlines()[-1:]
    newer = ""
    if sys.version_info[:2] > NEWEST_TRIED:
        newer = " This Python is newer than any tried; {}.{} is known to work.".format(*NEWEST_TRIED)
    return "The packages can't be installed. pip says: {}{}".format(" ".join(last)[:400], newer)


def _say(text: str) -> None:
    sys.stderr.write(text + "\n")
    sys.stderr.flush()


def _give_up(text: str) -> None:
    _say(text)
    sys.exit(2)
