"""Commands about the project itself: open the notebooks, run the tests, write a new build file."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import Any

from tutorial_lib.cli.shared import ANSWERED_NO, DONE, add_output
from tutorial_lib.cli.starting import beds, started, template
from tutorial_lib.errors import InputError


def add_open(commands: Any) -> None:
    """Register `open`."""
    command = commands.add_parser("open", help="open the notebooks in the browser, beginning with notebook 00")
    command.add_argument("--view", action="store_true", help="the same notebooks as pages without code, for filming")
    command.add_argument("--port", type=int, help="port of the server; the first free one unless given")
    command.add_argument("--no-browser", action="store_true", help="print the address instead of opening a browser")
    command.set_defaults(run=_open)


def _open(args: argparse.Namespace) -> int:
    import secrets
    import threading

    from tutorial_lib import bootstrap
    from tutorial_lib.workbook import serving

    notebooks = in_clone("notebooks", "open")
    port, token = args.port or _free_port(), secrets.token_urlsafe(16)
    if args.view:
        address, command = serving.view_address(port, token), serving.view(notebooks, port, token)
        environment = serving.view_environment()
    else:
        address, command = serving.lab_address(notebooks, port, token), serving.lab(notebooks, port)
        environment = {**quiet_lab(Path(bootstrap.ROOT)), "JUPYTER_TOKEN": token}
    print(f"Notebook 00, on this machine only: {address}\nStop it with Ctrl-C here.", file=sys.stderr)
    if not args.no_browser:
        threading.Thread(target=_show_when_up, args=(address,), daemon=True).start()
    return _serve(command, environment)


def _show_when_up(address: str) -> None:
    import time
    import urllib.error
    import urllib.request
    import webbrowser

    for _ in range(120):
        try:
            urllib.request.urlopen(address, timeout=2).close()
        except urllib.error.HTTPError:
            break
        except OSError:
            time.sleep(0.5)
        else:
            break
    webbrowser.open(address)


def _free_port() -> int:
    import socket

    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _serve(command: list[str], environment: dict[str, str]) -> int:
    """Runs a server until it ends or is told to; it takes its kernels along."""
    import signal
    import subprocess

    server = subprocess.Popen(command, env={**os.environ, **own_code(), **environment})

    def stop(*_: object) -> None:
        server.terminate()

    signal.signal(signal.SIGTERM, stop)
    while True:
        try:
            status = server.wait()
        except KeyboardInterrupt:  # the server has it too, and asks or ends by itself
            continue
        return DONE if status in (0, -signal.SIGTERM) else status


def own_code() -> dict[str, str]:
    """Environment in which kernels run this folder's code in this Python, whatever else is installed."""
    from tutorial_lib import bootstrap

    found = [bootstrap.ROOT, *filter(None, [os.environ.get("PYTHONPATH")])]
    return {"PYTHONPATH": os.pathsep.join(found), "JUPYTER_PREFER_ENV_PATH": "1", "JUPYTER_PATH": ""}


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


def add_test(commands: Any) -> None:
    """Register `test`."""
    command = commands.add_parser("test", help="run all tests, notebooks and browser included", add_help=False)
    command.add_argument("pytest_arguments", nargs=argparse.REMAINDER, help="passed on to pytest")
    command.set_defaults(run=_test)


def _test(args: argparse.Namespace) -> int:
    import subprocess

    tests = in_clone("tests", "test")
    root = tests.parent
    command = [sys.executable, "-m", "pytest", "--numprocesses=auto", "--dist=loadfile"]  # a file's tests stay together
    if (root / "notebooks").is_dir():
        command += ["--nbval", f"--nbval-sanitize-with={tests / 'notebooks' / 'sanitize.cfg'}"]
    chosen = [word for word in args.pytest_arguments if not word.startswith("-") and Path(word.split("::")[0]).exists()]
    if not chosen:
        command += [name for name in ("tests", "tutorial_lib", "notebooks") if (root / name).is_dir()]
    environment = {**os.environ, **own_code()}
    return ANSWERED_NO if subprocess.call([*command, *args.pytest_arguments], cwd=root, env=environment) else DONE


def in_clone(name: str, command: str) -> Path:
    """A folder of the clone that a command needs.

    Raises:
        InputError: it isn't there: the program was installed without it.
    """
    from tutorial_lib import bootstrap

    folder = Path(bootstrap.ROOT) / name
    if not folder.is_dir():
        raise InputError(f"`tutorial {command}` needs the {name} folder, which comes with a clone of the project.")
    return folder


def add_new(commands: Any) -> None:
    """Register `new`."""
    command = commands.add_parser(
        "new",
        help="write a commented build file to start from",
        description="A bed that passes, with every other choice there is named in a remark where it belongs.",
        epilog="example: tutorial new --from queen-tubes -o my-bed.toml",
    )
    command.add_argument(
        "--from", metavar="NAME", dest="start",
        help=f"start from another bed: {', '.join(sorted(beds()))}",
    )  # fmt: skip
    add_output(command, "my-bed.toml")
    command.set_defaults(run=_new)


def _new(args: argparse.Namespace) -> int:
    from tutorial_lib import files

    text = template() if args.start is None else started(args.start)
    path = files.write_text(args.output or "my-bed.toml", text, force=args.force)
    print(f"wrote {path}; change what differs from your bed, then: tutorial facts {path}")
    return DONE
