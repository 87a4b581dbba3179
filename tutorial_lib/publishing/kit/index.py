"""The kit's first page: one HTML file that shows and links all that is in the folder; nothing is fetched."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable, Iterator, Sequence
from html import escape
from itertools import groupby
from pathlib import PurePosixPath
from typing import TYPE_CHECKING
from urllib.parse import quote

from tutorial_lib.narration.captions.cues import clock
from tutorial_lib.publishing.check_list import NOTHING_FOUND, across, headline, meaning
from tutorial_lib.publishing.kit.contents import File

if TYPE_CHECKING:
    from tutorial_lib.narration import Item, Report

STYLE = """
:root{--ink:#000;--paper:#fff;--ground:#f2f0eb;--link:#0072b2;--hair:#000}
@media (prefers-color-scheme:dark){:root{--ink:#f2f0eb;--paper:#17191b;--ground:#2a2d30;--link:#56b4e9;--hair:#f2f0eb}}
*{box-sizing:border-box}body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.45 'Source Sans 3',
'Liberation Sans',Arial,Helvetica,sans-serif;font-variant-numeric:tabular-nums}
main{max-width:1120px;margin:0 auto;padding:28px 20px 60px}
h1{font-size:32px;line-height:1.15;margin:0 0 6px}h2{font-size:20px;margin:34px 0 8px;border-top:2px solid var(--hair);
padding-top:8px}
h3{font-size:16px;margin:18px 0 6px}p{margin:0 0 10px;max-width:46em}a{color:var(--link)}nav a{margin-right:16px;
display:inline-block}
ul{list-style:none;margin:0;padding:0}li{padding:5px 0;border-bottom:1px solid var(--ground)}
li small{display:inline-block;min-width:5.5em;text-align:right;float:right}
.if{padding-left:3em}
.pictures{display:grid;gap:14px;grid-template-columns:repeat(auto-fill,minmax(min(250px,46%),1fr))}
.pictures.tall{grid-template-columns:repeat(auto-fill,minmax(min(150px,30%),1fr))}
figure{margin:0}figure>a{display:block}img{display:block;width:100%;height:auto;background:#6b6259}
.drawn img{background:#fff;width:auto;max-width:100%;max-height:240px;border:1px solid var(--ground)}
figcaption{font-size:13px;padding-top:3px;overflow-wrap:anywhere}
a:focus-visible{outline:3px solid var(--link);outline-offset:2px}
@media print{img{break-inside:avoid}nav{display:none}}
"""


CHECKED, SAID = "lists/check.csv", "Said in the video"


def index_html(title: str, lead: str, mark: str, files: Sequence[File], report: Report | None = None) -> str:
    """The page.

    Args:
        title: of the build.
        lead: what it is, in a sentence.
        mark: the plan's version.
        files: everything in the kit, each with its group.
        report: the check of the video; what in it is unsettled is told.
    """
    groups = [(name, list(members)) for name, members in groupby(files, key=lambda file: file.group)]
    names = [*([] if report is None else [SAID]), *(name for name, _ in groups)]
    jumps = "".join(f'<a href="#{_anchor(name)}">{escape(name)}</a>' for name in names)
    told = "" if report is None else "".join(_checked(report, any(file.path == CHECKED for file in files)))
    body = told + "".join(_section(name, members) for name, members in groups)
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" '
        f'content="width=device-width,initial-scale=1"><title>{escape(title)}</title><style>{STYLE}</style></head>'
        f"<body><main><h1>{escape(title)}</h1><p>{escape(lead)} Plan {escape(mark)}: all that is here is of this bed "
        f"and of no other.</p><nav>{jumps}</nav>{body}</main></body></html>\n"
    )


def _checked(report: Report, listed: bool) -> Iterator[str]:
    """How the numbers said in the video stand, and each that only a person can settle."""
    yield f'<h2 id="{_anchor(SAID)}">{SAID}</h2>'
    if not report.items:
        yield f"<p>{escape(NOTHING_FOUND)}</p>"
        return
    every = f' <a href="{CHECKED}">Every number</a>' if listed else ""
    yield f"<p><b>{escape(headline(report))}.</b>{every}</p>"
    left = len(report.doubtful)
    if left:
        numbers, them = ("1 number is", "it") if left == 1 else (f"{left} numbers are", "them")
        yield f"<p>{numbers} unsettled. Look at {them} before this goes out; below is what may be meant.</p>"
    rows = [_unsettled(item, report) for item in report.doubtful]
    rows += [f"<li>{escape(across(finding))}</li>" for finding in report.cross]
    yield f"<ul>{''.join(rows)}</ul>" if rows else ""


def _unsettled(item: Item, report: Report) -> str:
    said = f"“{escape(item.before)}<b>{escape(item.quote)}</b>{escape(item.after)}”"
    choices = "".join(f'<div class="if">{escape(meaning(choice, report.units))}</div>' for choice in item.choices)
    return f"<li>{escape(item.where)} {said}{choices}</li>"


def _anchor(name: str) -> str:
    return name.lower().replace(" ", "-")


def _section(name: str, files: Sequence[File]) -> str:
    pictures = [file for file in files if file.preview]
    rest = [file for file in files if not file.preview]
    listed = f"<ul>{''.join(map(_line, rest))}</ul>" if rest else ""
    return f'<h2 id="{_anchor(name)}">{escape(name)}</h2>{listed}{_pictures(pictures)}'


def _line(file: File) -> str:
    size = f"{max(1, round(len(file.data) / 1000))} kB"
    return f'<li><small>{size}</small><a href="{quote(file.path)}">{escape(file.what)}</a></li>'


def _pictures(files: Iterable[File]) -> str:
    """Pictures in rows, folder by folder; a plate's two files share one figure."""
    out = []
    for folder, members in groupby(files, key=lambda file: str(PurePosixPath(file.path).parent)):
        form = PurePosixPath(folder).name
        heading = {"wide": "1920 x 1080", "tall": "1080 x 1920"}.get(form, "")
        shown = [list(both) for _, both in groupby(members, key=lambda f: PurePosixPath(f.path).stem)]
        kind = form if heading else "drawn"
        out.append(f"<h3>{heading}</h3>" if heading else "")
        out.append(f'<div class="pictures {kind}">{"".join(map(_figure, shown))}</div>')
    return "".join(out)


def _figure(files: Sequence[File]) -> str:
    first = files[0]
    time = f"{clock(first.time)} " if first.time is not None else ""
    links = " ".join(
        f'<a href="{quote(f.path)}" download>{PurePosixPath(f.path).suffix[1:].upper()}</a>' for f in files
    )
    name = PurePosixPath(first.path).stem
    place = quote(first.path)
    shot = f"data:image/png;base64,{b64encode(first.preview).decode('ascii')}"  # shown where a server bars pictures
    return (
        f'<figure><a href="{place}"><img src="{shot}" alt="{escape(first.what)}"></a>'
        f"<figcaption>{escape(time + name)} {links}</figcaption></figure>"
    )
