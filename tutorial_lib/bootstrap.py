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
STAMP = "set-up-for"
SKIP = "TUTORIAL_NO_SETUP"  # set it to use the Python at hand as it is
DOTS_EVERY = 15  # [s] between signs of life where lines can't be overwritten


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
    need = "test" if arguments[:1] == ["test"] else "run"
    if _stamp(need) != _wanted():
        _refuse_old_python()
        try:
            _set_up(need)
        except KeyboardInterrupt:
            _give_up("Stopped. The next call takes up the setting-up again.")
    if os.path.realpath(sys.prefix) == os.path.realpath(VENV):
        return
    command = [_python(), "-m", "tutorial_lib"]
    command.extend(arguments)
    if os.name == "nt":
        sys.exit(subprocess.call(command))
    sys.stdout.flush()
    os.execv(command[0], command)


def _is_clone() -> bool:
    """True where the project's own files lie beside the package."""
    try:
        with open(os.path.join(ROOT, "pyproject.toml"), "rb") as file:
            return b'name = "tutorial-workbook"' in file.read()
    except (IOError, OSError):
        return False


def _is_installed() -> bool:
    """True where this Python has the project installed by other means, with all that it needs."""
    if os.path.realpath(sys.prefix) == os.path.realpath(VENV):
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


def _stamp(need: str) -> str:
    """What the environment was last set up for; an environment for tests also runs."""
    if not os.path.exists(_python()):
        return ""
    for kind in {"run": ("run", "test"), "test": ("test",)}[need]:
        path = os.path.join(VENV, "{}-{}".format(STAMP, kind))
        if os.path.exists(path):
            with open(path) as file:
                if file.read() == _wanted():
                    return _wanted()
    return ""


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
    started = time.time()
    what = "to run the tests" if need == "test" else "to run"
    _say("Setting up {}, once: about a minute and 600 MB, all of it in {}".format(what, VENV))
    _make_environment()
    _install(need)
    with open(os.path.join(VENV, "{}-{}".format(STAMP, need)), "w") as file:
        file.write(_wanted())
    _say("Set up in {:.0f} s. From now on it starts at once.".format(time.time() - started))


def _make_environment() -> None:
    _say("1/2 making the environment")
    if _works():
        return
    try:
        import ensurepip  # noqa: F401 - looked for, not used
        import venv
    except ImportError:
        _give_up(
            "This Python can't make virtual environments: its venv module is missing or incomplete. "
            "On Debian and Ubuntu: sudo apt-get install python3-venv"
        )
    try:
        venv.create(VENV, with_pip=True, clear=True)
    except (OSError, subprocess.CalledProcessError) as error:
        _give_up("The environment {} can't be made: {}. Is the folder writable, and is there room?".format(VENV, error))


def _works() -> bool:
    """True where an earlier run left an environment whose Python is new enough and has pip."""
    if not os.path.exists(_python()):
        return False
    check = "import pip, sys; sys.exit(sys.version_info < {!r})".format(OLDEST)
    return subprocess.call([_python(), "-c", check], stderr=subprocess.DEVNULL) == 0


def _install(need: str) -> None:
    _say("2/2 fetching and installing what pyproject.toml names")
    target = ROOT + ("[test]" if need == "test" else "")
    command = [_python(), "-m", "pip", "install", "--disable-pip-version-check", "--retries", "2", "-e", target]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, universal_newlines=True)
    lines = _follow(process)
    if process.wait() != 0:
        _give_up(_why_not("\n".join(lines)))


def _follow(process: "subprocess.Popen[str]") -> list:  # type: ignore[type-arg]  # as above
    """All lines pip wrote, with signs of life while it writes them."""
    lines = []
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
    return lines


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
