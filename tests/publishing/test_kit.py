"""The kit: what is in it, its index page, that it is the same again and never over what is there."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from tests.publishing import demo
from tutorial_lib.adapting import comparison
from tutorial_lib.adapting.viewer import Asked, viewers_bed
from tutorial_lib.errors import InputError
from tutorial_lib.narration.verdicts.items import RIGHT
from tutorial_lib.publishing.kit.contents import GROUPS, File, Wanted
from tutorial_lib.publishing.kit.index import CHECKED, index_html
from tutorial_lib.publishing.kit.making import CONTENTS, WEIGHTS, folder_of, made, write_kit

QUICK = ("Under the video", "Lists", "Drawings", "Build file")


@cache
def wanted() -> Wanted:
    return Wanted(found=comparison(viewers_bed(demo.demo().options), demo.report()))


@cache
def quick() -> tuple[File, ...]:
    return tuple(made(wanted(), QUICK))


def test_every_group_has_its_files() -> None:
    paths = {file.path for file in quick()}
    assert {
        "video/description.txt", "video/shopping-list.txt", "video/chapters.vtt", "video/chapters.txt",
        "video/spare-room-twin.pinned.txt", "video/spare-room-twin.corrected.vtt", "video/cue-cards.pdf",
        "lists/cuts.csv", "lists/check.csv", "lists/facts.json", "drawings/plan.dxf", "drawings/templates.dxf",
        "drawings/bed.gltf", "drawings/saw-01.svg", "drawings/steps-07.svg", "saltmarsh-shed-spare-room-twin.toml",
    } <= paths  # fmt: skip
    assert [name for name, _ in GROUPS] == list(WEIGHTS)  # each has its share of the bar


def test_a_viewer_s_kit_tells_the_video_s_slips_as_the_video_s_alone() -> None:
    """The creator's twin made as a full: what is put right is right for the twin."""
    full = viewers_bed(demo.demo().options, Asked(mattress="full"))
    theirs = Wanted(found=comparison(full, demo.report()))
    files = {file.path: file for file in made(theirs, ["Under the video", "Lists"])}
    assert "video/captions-with-yours.vtt" in files and "lists/check.csv" not in files
    assert not any("pinned" in path or "overlay" in path or "corrected" in path for path in files)
    told = files["video/description.txt"].data.decode()
    assert "CORRECTIONS\nThese are of the video's own bed, mattress 38 x 75 in, not of this one.\n0:" in told
    assert not any(plate.kind == "correction" for plate in theirs.plates)
    assert any(plate.kind == "correction" for plate in wanted().plates)
    assert "Said in the video" not in folder_of(theirs, list(files.values()))["index.html"].decode()
    own = next(file for file in quick() if file.path == "video/description.txt").data.decode()
    assert "CORRECTIONS\n0:" in own


def test_a_description_that_is_longer_than_what_is_taken_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = len(next(file.data for file in quick() if file.path == "video/description.txt").decode())
    for most, told in ((whole, ""), (whole - 1, f": {whole} characters, 1 more than is usually taken")):
        monkeypatch.setattr("tutorial_lib.publishing.kit.contents.LONGEST", most)
        file = next(made(wanted(), ["Under the video"]))
        assert file.what.removeprefix("Description, to paste under the video").split(";")[0] == told


def test_it_is_told_how_far_it_is() -> None:
    told: list[tuple[str, float]] = []
    list(made(wanted(), ["Lists", "Build file"], lambda what, share: told.append((what, share))))
    assert [what for what, _ in told] == ["Lists", "Build file", "done"]
    assert told[0][1] == 0 and told[-1][1] == 1 and 0 < told[1][1] < 1


def test_it_is_the_same_again() -> None:
    again = {file.path: file.data for file in made(wanted(), ["Drawings", "Lists"])}
    assert again == {f.path: f.data for f in quick() if f.group in ("Drawings", "Lists")}
    held = folder_of(wanted(), quick())
    assert held == folder_of(wanted(), quick())
    assert set(json.loads(held[CONTENTS])["files"]) == set(held) - {CONTENTS}


def test_the_page_links_all_that_is_there_and_nothing_else() -> None:
    held = folder_of(wanted(), quick())
    page = held["index.html"].decode()
    linked = set(re.findall(r'href="([^"#]+)"', page))
    assert linked == set(held) - {"index.html", CONTENTS}
    assert set(re.findall(r'src="(.{22})', page)) == {"data:image/png;base64,"}  # shown where a server bars pictures
    assert "://" not in page and "<script" not in page


def test_the_page_tells_what_of_the_talk_is_unsettled() -> None:
    held, report = folder_of(wanted(), quick()), wanted().report
    page = held["index.html"].decode()
    assert report is not None and (len(report.conflicts), len(report.doubtful)) == (5, 2)
    assert f"<b>5 to correct, 2 to look at, {len(report.with_verdict(*RIGHT))} right.</b>" in page
    assert "2 numbers are unsettled." in page
    assert all(f"<b>{item.quote}</b>" in page for item in report.doubtful)
    told = index_html("A", "B", "0", quick(), replace(report, items=(report.doubtful[0],), cross=()))
    assert "<b>0 to correct, 1 to look at, 0 right.</b>" in told and "1 number is unsettled. Look at it" in told
    assert "Said in the video" not in index_html("A", "B", "0", quick())


def test_what_a_talk_says_is_escaped_on_the_page() -> None:
    report = wanted().report
    assert report is not None
    item = replace(report.doubtful[0], before="<i>", quote="<b>2</b>", after="&")
    page = index_html("A", "B", "0", [], replace(report, items=(item,), cross=()))
    assert "“&lt;i&gt;<b>&lt;b&gt;2&lt;/b&gt;</b>&amp;”" in page and CHECKED not in page


def test_what_comes_from_a_file_is_escaped_on_the_page() -> None:
    odd = File(path='a"b/<x>.txt', data=b"", what='"><img src=x>', group="A & B")
    page = index_html("<b>", "<i>", "0", [odd])
    assert "<img" not in page and "<b>" not in page and "A &amp; B" in page and "a%22b/%3Cx%3E.txt" in page


def test_it_is_written_whole_and_never_over_what_is_there(tmp_path: Path) -> None:
    held = {"index.html": b"1", "lists/a.csv": b"2"}
    held[CONTENTS] = json.dumps({"files": {}}).encode()
    write_kit(tmp_path / "kit", held)
    with pytest.raises(InputError, match="holds files; use --force"):
        write_kit(tmp_path / "kit", held)


def test_an_older_kits_files_go_unless_they_were_changed(tmp_path: Path) -> None:
    old = {"index.html": b"1", "lists/a.csv": b"2", "lists/mine.csv": b"3"}
    old[CONTENTS] = contents_of(old)
    kit = write_kit(tmp_path / "kit", old)
    (kit / "lists" / "mine.csv").write_bytes(b"changed by hand")
    new = {"index.html": b"4"}
    write_kit(kit, new | {CONTENTS: contents_of(new)}, force=True)
    left = {p.relative_to(kit).as_posix() for p in kit.rglob("*") if p.is_file()}
    assert left == {"index.html", "lists/mine.csv", CONTENTS}


def contents_of(held: dict[str, bytes]) -> bytes:
    from tutorial_lib.publishing.kit.making import contents as listed

    return listed(held, "0a1b2c3d")


def test_a_fault_on_the_way_writes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from tutorial_lib.cli import main

    def broken(_: Wanted) -> Iterator[File]:
        raise InputError("no room")
        yield

    monkeypatch.setattr("tutorial_lib.publishing.kit.making.GROUPS", (("Lists", broken),))
    target = tmp_path / "kit"
    assert main(["kit", str(demo.METRIC), "-o", str(target)]) == 2
    assert not list(tmp_path.iterdir())
