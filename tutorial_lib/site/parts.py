"""The page's parts from elsewhere: Pyodide, HiGHS and three.js from npm, wheels from PyPI; pinned, checked, cached.

Fetched by PyPI's ``deno`` (which needs no Node) and pip against locks that hold hashes and no address. Nothing of it
stands in the project.
"""

from __future__ import annotations

import email
import hashlib
import io
import json
import os
import shutil
import subprocess
import sys
import tempfile
import zipfile
from collections.abc import Mapping
from contextlib import suppress
from functools import cached_property
from pathlib import Path
from typing import Any

from tutorial_lib import files
from tutorial_lib.errors import InputError
from tutorial_lib.records import dataclass

DATA = Path(__file__).with_name("data")
LOCKS = ("package.json", "deno.lock", "wheels.txt", "prepare.mjs")
PLATFORM, PYTHON = "pyemscripten_2026_0_wasm32", "3.14"
# What the page takes of each npm package: from there, to here.
TAKEN = {
    "pyodide/pyodide.mjs": "parts/pyodide/pyodide.mjs",
    "pyodide/pyodide.asm.mjs": "parts/pyodide/pyodide.asm.mjs",
    "pyodide/python_stdlib.zip": "parts/pyodide/python_stdlib.zip",
    "highs/build/highs.mjs": "parts/highs/highs.mjs",
    "highs/LICENSE": "parts/highs/LICENSE",
    "three/build/three.core.min.js": "parts/three/three.core.min.js",
    "three/build/three.module.min.js": "parts/three/three.module.min.js",
    "three/examples/jsm/controls/OrbitControls.js": "parts/three/OrbitControls.js",
    "three/examples/jsm/loaders/GLTFLoader.js": "parts/three/GLTFLoader.js",
    "three/examples/jsm/utils/BufferGeometryUtils.js": "parts/three/BufferGeometryUtils.js",
    "three/LICENSE": "parts/three/LICENSE",
    "zstddec/dist/zstddec.mjs": "parts/zstddec/zstddec.mjs",
    "zstddec/LICENSE": "parts/zstddec/LICENSE",
}
# What is packed by Zstandard, a third of its size: from what ``prepare.mjs`` makes, by its place when unpacked.
PACKED = {
    "memory": "parts/memory",
    "pyodide.asm.wasm": "parts/pyodide/pyodide.asm.wasm",
    "highs.wasm": "parts/highs/highs.wasm",
}
# A page without a bundler wants a file where three's own modules name a bare word or another folder.
NAMED = ((b"from 'three'", b"from './three.module.min.js'"), (b"from '../utils/", b"from './"))
DENO = "deno==2.9.8"  # the extra [site] installs the same
SHEET_ONLY = "typst"
PYODIDE = """Pyodide 314.0.7 is distributed here unmodified, under the Mozilla Public License 2.0 (mozilla.org/MPL/2.0).
Its source is at github.com/pyodide/pyodide, tag 314.0.7. It contains CPython and its standard library, under the
Python Software Foundation License 2.0 (docs.python.org/3/license.html), and Emscripten's system libraries (MIT).
"""
UNUSED = ("pint/testsuite/", "pydantic/v1/", ".dist-info/sboms/")  # of the packages, never imported here
DATED = (1980, 1, 1, 0, 0, 0)  # of every file in an archive, so that the same files make the same bytes
# In the place of Pyodide's own list of packages: the page brings its few wheels itself.
LOCK = {"info": {"abi_version": "2026_0", "arch": "wasm32", "platform": "emscripten_5_0_3", "python": "3.14.2",
                 "version": "314.0.7"}, "packages": {}}  # fmt: skip


@dataclass(frozen=True)
class Started:
    """What ``prepare.mjs`` made, in a folder of this machine."""

    folder: Path

    @cached_property
    def _made(self) -> dict[str, Any]:
        return dict(json.loads((self.folder / "made.json").read_bytes()))

    @property
    def native(self) -> list[str]:
        """Compiled code, by its place in the browser's Python."""
        return list(self._made["native"])

    @cached_property
    def files(self) -> dict[str, bytes]:
        """Its files by their places in the site."""
        found = {f"{_placed(name)}.zst": (self.folder / f"{name}.zst").read_bytes() for name in self._made["sizes"]}
        return found | {"python.zip": (self.folder / "python.zip").read_bytes()}

    @property
    def sizes(self) -> dict[str, int]:
        """Bytes of each packed part unpacked, by its place when unpacked."""
        return {_placed(name): size for name, size in self._made["sizes"].items()}


def _placed(name: str) -> str:
    return PACKED.get(name, f"parts/{name}")


@dataclass(frozen=True)
class Parts:
    """The parts in a folder of this machine."""

    folder: Path

    @cached_property
    def files(self) -> dict[str, bytes]:
        """Every file the page takes, by its place in the site."""
        found = {target: (self.folder / "node_modules" / source).read_bytes() for source, target in TAKEN.items()}
        for source, target in TAKEN.items():
            if source.startswith("three/examples/"):
                for bare, named in NAMED:
                    found[target] = found[target].replace(bare, named)
        return found

    @cached_property
    def wheels(self) -> dict[str, bytes]:
        """The wheels by their names."""
        return {path.name: path.read_bytes() for path in sorted((self.folder / "wheels").glob("*.whl"))}

    @property
    def sheet_wheel(self) -> str:
        """The wheel that only a PDF needs."""
        return next(name for name in self.wheels if name.startswith(f"{SHEET_ONLY}-"))

    def licences(self) -> dict[str, tuple[str, bytes]]:
        """Each part by its name and version: its licence's short name, and its text."""
        found = {"Pyodide 314.0.7, with CPython 3.14": ("MPL-2.0 and PSF-2.0", PYODIDE.encode())}
        for name in ("highs", "three", "zstddec"):
            told = json.loads((self.folder / "node_modules" / name / "package.json").read_bytes())
            text = (self.folder / "node_modules" / name / "LICENSE").read_bytes()
            found[f"{name} {told['version']}"] = (told["license"], text)
        return found | dict(map(_licence, self.wheels.values()))

    def python(self, library: Mapping[str, bytes]) -> Started:
        """What the browser's Python starts from: the library and the packages it needs, loaded already.

        Args:
            library: its files by their places in it.
        """
        source = zipped(self._packages() | dict(library))
        mark = hashlib.sha256(source).hexdigest()[:12]
        kept = files.cache_folder() / f"page-python-{self.folder.name[-12:]}-{mark}"
        if not kept.exists():
            with tempfile.TemporaryDirectory(dir=self.folder.parent) as working:
                given, made = Path(working) / "source.zip", Path(working) / "made"
                given.write_bytes(source)
                made.mkdir()
                _run([_deno(), "run", "--quiet", "--no-prompt", "--allow-read", f"--allow-write={working}",
                      "prepare.mjs", str(given), str(made), json.dumps(LOCK)], self.folder, {})  # fmt: skip
                with suppress(OSError):  # another run was quicker: its folder is as good
                    made.rename(kept)
        return Started(kept)

    def _packages(self) -> dict[str, bytes]:
        found: dict[str, bytes] = {}
        for name, data in self.wheels.items():
            if name != self.sheet_wheel:
                with zipfile.ZipFile(io.BytesIO(data)) as wheel:
                    inside = (place for place in wheel.namelist() if not place.endswith("/"))
                    found |= {place: wheel.read(place) for place in inside if not any(map(place.__contains__, UNUSED))}
        return found


def _licence(data: bytes) -> tuple[str, tuple[str, bytes]]:
    """A wheel's name and version, its licence's short name and text."""
    with zipfile.ZipFile(io.BytesIO(data)) as wheel:
        inside = [name for name in wheel.namelist() if ".dist-info/" in name]
        told = email.message_from_bytes(wheel.read(next(name for name in inside if name.endswith("/METADATA"))))
        texts = [
            wheel.read(name) for name in inside if Path(name).name.upper().startswith(("LICENSE", "LICENCE", "COPYING"))
        ]
    classed = [line.rpartition(" :: ")[2] for line in told.get_all("Classifier", []) if line.startswith("License ::")]
    named = told["License-Expression"] or told["License"] or next(iter(classed), "see its text")
    return f"{told['Name']} {told['Version']}", (named.splitlines()[0], b"\n\n".join(texts) or str(told).encode())


def zipped(found: Mapping[str, bytes]) -> bytes:
    """Files as an archive; the same bytes for the same files."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in sorted(found.items()):
            info = zipfile.ZipInfo(name, DATED)
            info.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(info, data)
    return target.getvalue()


def fetch() -> Parts:
    """The parts, from this machine's cache or fetched into it.

    Raises:
        InputError: a registry can't be reached, or answers with other bytes than pinned.
    """
    folder = _cache()
    if not (folder / "whole").exists():
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder.parent) as building:
            _fill(Path(building))
            (Path(building) / "whole").touch()
            shutil.rmtree(folder, ignore_errors=True)
            shutil.copytree(building, folder, symlinks=True)
    return Parts(folder)


def _cache() -> Path:
    """A folder named after what is pinned: other pins, another folder."""
    mark = hashlib.sha256(b"".join((DATA / name).read_bytes() for name in LOCKS)).hexdigest()[:12]
    return files.cache_folder() / f"page-parts-{mark}"


def _fill(folder: Path) -> None:
    for name in LOCKS:
        shutil.copyfile(DATA / name, folder / name)
    _run(
        [_deno(), "install", "--frozen", "--node-modules-dir=auto", "--quiet"], folder,
        {"DENO_TLS_CA_STORE": "system", "DENO_DIR": str(folder / "deno"), "DENO_NO_UPDATE_CHECK": "1"},
    )  # fmt: skip
    _run(
        [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--require-hashes", "--only-binary=:all:",
         "--platform", PLATFORM, "--platform", "any", "--python-version", PYTHON, "--dest", "wheels",
         "--disable-pip-version-check", "--requirement", "wheels.txt"], folder, {},
    )  # fmt: skip
    shutil.rmtree(folder / "deno", ignore_errors=True)


def _deno() -> str:
    """What runs npm's packages without Node: installed beside this library, or fetched into the cache."""
    try:
        from deno import find_deno_bin

        return str(find_deno_bin())
    except (ImportError, FileNotFoundError):
        place = files.cache_folder() / f"page-{DENO.replace('==', '-')}"
        found = place / "bin" / ("deno.exe" if os.name == "nt" else "deno")
        if not found.exists():
            place.mkdir(parents=True, exist_ok=True)
            _run([sys.executable, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--target", ".",
                  DENO], place, {})  # fmt: skip
        return str(found)


def _run(command: list[str], folder: Path, more: dict[str, str]) -> None:
    done = subprocess.run(command, cwd=folder, env=os.environ | more, capture_output=True, text=True, check=False)
    if done.returncode:
        told = (done.stderr or done.stdout).strip().splitlines()
        raise InputError(
            f"the page's parts could not be fetched ({Path(command[0]).name}: {told[-1] if told else 'no word'}). "
            "Is the network there? `tutorial site --plain` works without."
        )
