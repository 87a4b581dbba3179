"""The static folder of the viewers' page, as names and bytes: the same for the same build, captions and pins."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import tutorial_lib
from tutorial_lib.adapting import Comparison
from tutorial_lib.design.build_file import to_toml
from tutorial_lib.drawing.gltf import gltf
from tutorial_lib.drawing.mpl import FONTS
from tutorial_lib.site import index
from tutorial_lib.site.heard import packed
from tutorial_lib.site.parts import LOCK, Parts

STATIC = Path(__file__).with_name("static")
ROOT = Path(tutorial_lib.__file__).parent
# What the browser has no use for: the notebooks' widgets, the command line, what sets a clone up, the page's parts.
LEFT_OUT = (
    "cli",
    "workbook/lab",
    "workbook/share",
    "site/static",
    "site/data/prepare.mjs",
    "site/parts.py",
    "site/folder.py",
    "bootstrap.py",
    "__main__.py",
)
KEPT = (".py", ".csv", ".json", ".toml", ".typ", ".txt", ".ttf", ".tsv")
FACES = ("SaltmarshSans-Regular.ttf", "SaltmarshSans-Semibold.ttf", "SaltmarshSans-Bold.ttf")
# What Python starts from beside what is packed.
UNPACKED = ("parts/pyodide/python_stdlib.zip", "python.zip")
MEMORY = "parts/memory"
SCRIPTS = ("page.css", "page.js", "start.js", "library.js", "drawing.js", "sheet.js", "space.js")


def site(found: Comparison, parts: Parts) -> dict[str, bytes]:
    """Every file of the folder.

    Args:
        found: the creator's own bed, with what the video says where captions were given.
        parts: Pyodide, HiGHS, three and the wheels.
    """
    sheet = f"parts/{parts.sheet_wheel}"
    made = dict(_made(found)) | parts.files
    started = parts.python(library())
    made |= started.files | {sheet: parts.wheels[parts.sheet_wheel]}
    made |= {name: (STATIC / name).read_bytes() for name in SCRIPTS}
    hashes = {name: hashlib.sha256(data).hexdigest() for name, data in sorted(made.items())}
    needed = [{"name": name, "packed": f"{name}.zst", "size": size} for name, size in started.sizes.items()]
    needed += [{"name": name, "packed": name, "size": len(made[name])} for name in UNPACKED]
    data: dict[str, Any] = {
        "name": found.adaptation.creator.options.build.name,
        "space": gltf(found.adaptation.yours.build),
        "parts": {
            "lock": json.dumps(LOCK), "native": started.native, "memory": MEMORY, "sheet": sheet, "hashes": hashes,
            "parts": [{**part, "fetched": len(made[str(part["packed"])])} for part in needed],
        },
    }  # fmt: skip
    licences = parts.licences() | {
        "Saltmarsh Sans": ("OFL-1.1", (Path(FONTS) / "SaltmarshSans-LICENCE.txt").read_bytes())
    }
    texts = {f"licences/{number}.txt": text for number, (_, text) in enumerate(licences.values(), 1)}
    told = [(name, licence, place) for (name, (licence, _)), place in zip(licences.items(), texts, strict=True)]
    made["index.html"] = index.index(found, data, told).encode()
    made |= texts
    kept = sorted(name for name in made if name != sheet)
    made["keep.js"] = _keeper(kept, made)
    return dict(sorted(made.items()))


def _made(found: Comparison) -> Iterator[tuple[str, bytes]]:
    creator = found.adaptation.creator.options
    yield "creator.toml", to_toml(creator).encode()
    yield "heard.json", packed(found.report).encode()
    yield "icon.svg", (STATIC / "icon.svg").read_bytes()
    yield "page.webmanifest", _manifest(creator.build.title)
    for face in FACES:
        yield f"fonts/{face}", (Path(FONTS) / face).read_bytes()


def _manifest(title: str) -> bytes:
    told = {
        "name": title, "short_name": title, "start_url": ".", "display": "standalone",
        "background_color": "#ffffff", "theme_color": "#ffffff",
        "icons": [{"src": "icon.svg", "sizes": "any", "type": "image/svg+xml"}],
    }  # fmt: skip
    return json.dumps(told).encode()


def _keeper(names: list[str], made: dict[str, bytes]) -> bytes:
    """The service worker, with the files it keeps and a mark that changes with any of them."""
    mark = hashlib.sha256(b"".join(hashlib.sha256(made[name]).digest() for name in names)).hexdigest()[:12]
    text = (STATIC / "keep.js").read_text(encoding="utf-8")
    listed = json.dumps(["./", *names])
    return text.replace("@VERSION@", mark).replace('"@FILES@"', listed).encode()


def library() -> dict[str, bytes]:
    """The files of this library, without what a browser has no use for."""
    found = {}
    for path in ROOT.rglob("*"):
        name = path.relative_to(ROOT).as_posix()
        if path.suffix in KEPT and "__pycache__" not in name and not name.startswith(LEFT_OUT):
            found[f"tutorial_lib/{name}"] = path.read_bytes()
    return found


def plain(beds: Sequence[tuple[str, Comparison]]) -> str:
    """One HTML file without script: each bed whole, its type inside.

    Args:
        beds: what each is called, and the bed held against the creator's.
    """
    css = (STATIC / "page.css").read_text(encoding="utf-8")
    for face in FACES:
        kept = base64.b64encode((Path(FONTS) / face).read_bytes()).decode()
        css = css.replace(f"fonts/{face}", f"data:font/ttf;base64,{kept}")
    return index.plain(beds, css)
