"""Captions and scripts are read in every form they come in, and what can't be read is named with its line."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.narration.plans import facts
from tutorial_lib.errors import InputError
from tutorial_lib.narration import check, read_captions

VTT = """WEBVTT - a title

NOTE not said 12 inches

STYLE
::cue { color: red }

1
00:00:01.000 --> 00:00:03.000 align:start position:0%
<v Sam>Cut it at <b>forty-one</b></v>
and a half.

two
00:04.000 --> 00:06.000
[saw running]

00:01:06.000 --> 00:01:08.000
Two &amp; a half.
"""


def test_webvtt_with_everything_in_it() -> None:
    talk = read_captions(VTT)
    assert [c.text for c in talk.cues] == ["Cut it at forty-one and a half.", "[saw running]", "Two & a half."]
    assert [c.start for c in talk.cues] == [1.0, 4.0, 66.0]
    assert [c.role for c in talk.cues] == ["speech", "sound", "speech"]
    assert "title" in talk.header and not talk.faults


def test_subrip_with_bom_and_crlf() -> None:
    data = (
        "\ufeff1\r\n00:00:01,000 --> 00:00:02,500\r\nTwelve slats\r\n\r\n2\r\n00:00:03,000 --> 00:00:04,000\r\nnow\r\n"
    )
    talk = read_captions(data.encode("utf-8"), "talk.srt")
    assert [(c.number, c.text, c.end) for c in talk.cues] == [(1, "Twelve slats", 2.5), (2, "now", 4.0)]


def test_missing_empty_lines_do_not_make_cue_numbers_speech() -> None:
    talk = read_captions("1\n00:00:01,000 --> 00:00:02,000\ncut it\n2\n00:00:03,000 --> 00:00:04,000\nat ten\n")
    assert [c.text for c in talk.cues] == ["cut it", "at ten"]


ROLL_UP = """WEBVTT
Kind: captions
Language: en

00:00:00.000 --> 00:00:02.000
&nbsp;
cut<00:00:00.400><c> it</c><00:00:00.800><c> at</c>

00:00:02.000 --> 00:00:02.010
cut it at

00:00:02.010 --> 00:00:04.000
cut it at
forty<00:00:02.400><c> one</c>

00:00:04.000 --> 00:00:04.010
forty one

00:00:04.010 --> 00:00:06.000
forty one
inches<00:00:04.400><c> long</c>
"""


def test_roll_up_captions_are_read_once() -> None:
    talk = read_captions(ROLL_UP)
    assert " ".join(talk.text.split()) == "cut it at forty one inches long"
    assert [c.number for c in talk.cues if c.text] == [1, 3, 5]
    assert "\n\n" not in talk.text


@pytest.mark.parametrize("open_, close", ["[]", "()"])
def test_transcript_with_marks(open_: str, close: str) -> None:
    talk = read_captions(f"{open_}0:05{close} Cut at ten.\n{open_}1:02:03{close} Then at twelve.\n")
    assert [(c.number, c.start, c.text) for c in talk.cues] == [(1, 5.0, "Cut at ten."), (2, 3723.0, "Then at twelve.")]


SCRIPT = """# Bed, part 2

[Wide shot, 35mm lens]

| Part | No. | Length |
|---|---|---|
| Rail | 2 | 1920 |

The rails are
1920 long.
"""


def test_script_with_headings_directions_and_tables() -> None:
    talk = read_captions(SCRIPT, "draft.md")
    assert [(c.line, c.role) for c in talk.cues if c.role != "heading"] == [
        (3, "direction"),
        (7, "cell"),
        (7, "cell"),
        (7, "cell"),
        (9, "speech"),
        (10, "speech"),
    ]
    cell = next(c.cell for c in talk.cues if c.text == "1920" and c.cell)
    assert (cell.header, cell.label) == ("Length", "Rail")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252"])
def test_encodings(encoding: str) -> None:
    talk = read_captions("Cut it at 41½ – that’s the rail.".encode(encoding))
    assert talk.text == "Cut it at 41½ – that’s the rail."


def test_broken_times_name_the_line_and_keep_the_words() -> None:
    talk = read_captions("WEBVTT\n\n00:00:0x.000 --> 00:00:02.000\nten slats\n\n00:00:05.000 --> 00:00:04.000\nfive\n")
    assert [c.text for c in talk.cues] == ["ten slats", "five"]
    assert [f.where for f in talk.faults] == ["captions line 3", "captions line 6"]
    assert "can't be read" in talk.faults[0].what and "ends before it starts" in talk.faults[1].what


@pytest.mark.parametrize("text", ["", "WEBVTT\n\n", "\n\n", "1\n00:00:01,000 --> 00:00:02,000\n\n"])
def test_nothing_said_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="nothing is said"):
        read_captions(text)


def test_other_languages_are_refused_with_the_reason() -> None:
    german = "Die Leisten sind zwei Meter lang und der Rahmen ist einen Meter breit. " * 4
    with pytest.raises(InputError, match="English only"):
        read_captions(german)
    with pytest.raises(InputError, match="Language: fr"):
        read_captions("WEBVTT\nLanguage: fr\n\n00:01.000 --> 00:02.000\nthe rail is ten\n")


def test_binary_files_are_refused() -> None:
    with pytest.raises(InputError, match="is no text file"):
        read_captions(b"PK\x03\x04" + b"abc\0" * 60)


FACTS = facts(
    {
        "slat.length": {"value": 38.25, "unit": "in", "kind": "length", "what": "slat"},
        "slat.count": {"value": 14, "unit": "count", "kind": "part_count", "what": "slats"},
    },
)
PIECES = st.sampled_from(
    [
        "slat",
        "slats",
        "thirty",
        "eight",
        "and",
        "a",
        "quarter",
        "half",
        "1/2",
        "3/0",
        '38-1/4"',
        "by",
        "x",
        "2x4",
        "no",
        ",",
        ".",
        "point",
        "oh",
        "hundred",
        "dozen",
        "one",
        "foot",
        "mil",
        "$",
        "-->",
        "\n",
        "\n\n",
        "[1:02]",
        "|",
        "|---|",
        "#",
        "½",
        "inch",
        "of",
        "an",
        "metre",
        "forty",
        "#8",
        "M8",
        "°",
        "99999999999999999999",
        "0",
        "-",
        "'",
        "first",
        "5/4",
        "eighths",
    ]
)


@settings(max_examples=150, deadline=None)
@given(st.lists(PIECES, max_size=60).map(" ".join))
def test_no_words_crash_the_check(text: str) -> None:
    try:
        report = check(read_captions(text), FACTS)
    except InputError:
        return
    assert sum(report.counts.values()) == len(report.items)


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=300))
def test_no_bytes_crash_the_reader(data: bytes) -> None:
    try:
        talk = read_captions(data)
    except InputError as error:
        assert str(error)
        return
    assert talk.text.strip()


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(VTT)), st.integers(0, 40), st.sampled_from(["", "\n", "-->", "00:", "<", "1"]))
def test_no_damage_to_a_caption_file_crashes_the_reader(at: int, cut: int, put: str) -> None:
    try:
        read_captions(VTT[:at] + put + VTT[at + cut :])
    except InputError as error:
        assert str(error)
