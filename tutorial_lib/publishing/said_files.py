"""What is pasted or uploaded after a check, each as a file: the pinned correction, tracks, captions, cue cards."""

from __future__ import annotations

from pathlib import Path

from tutorial_lib.facts import Facts
from tutorial_lib.narration import Report
from tutorial_lib.publishing.corrections import corrected_captions, corrections_block, overlay_track
from tutorial_lib.publishing.cue_cards import cards_text, cue_cards


def said_files(report: Report, facts: Facts) -> dict[str, str]:
    """File names and their texts, named after the captions; a script has no times and gets no overlay track."""
    stem = Path(report.talk.name).stem or "talk"
    corrected = f"{stem}.corrected.vtt" if report.talk.timed else f"{stem}.corrected.txt"
    made = {
        f"{stem}.pinned.txt": corrections_block(report),
        f"{stem}.overlay.vtt": overlay_track(report) if report.talk.timed else "",
        corrected: corrected_captions(report),
        f"{stem}.cue-cards.txt": cards_text(cue_cards(facts)),
    }
    return {name: text for name, text in made.items() if text}


def write_said_files(folder: str | Path, report: Report, facts: Facts, force: bool = False) -> list[Path]:
    """Writes them all into a folder, or none; where they went.

    Raises:
        InputError: one of them is there already and ``force`` isn't given; the folder can't be written to.
    """
    from tutorial_lib import files

    folder = files.make_folder(folder)
    made = {folder / name: text for name, text in said_files(report, facts).items()}
    for path in made:
        files.refuse_overwriting(path, force=force)
    for path, text in made.items():
        files.write_text(path, text, force=force)
    return list(made)
