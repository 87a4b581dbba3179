"""Tasks on processes and on a Dask cluster: nothing is lost when what works on them dies."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from distributed import LocalCluster

from tests.publishing import demo
from tests.publishing.mortal import die, die_once
from tutorial_lib.adapting.family import every_size
from tutorial_lib.design.build_file import read_build, to_toml
from tutorial_lib.errors import InputError
from tutorial_lib.pool import on_cluster, on_processes, refuse_silent
from tutorial_lib.publishing.kit.sizes import SizeMade, SizeTask, folders, make_size, sizes_wanted


def test_nothing_is_lost_when_a_process_dies(tmp_path: Path) -> None:
    tasks = [(str(tmp_path), n) for n in range(8)]
    assert dict(on_processes(die_once, tasks, 2)) == {n: n * n for n in range(8)}
    assert (tmp_path / "died").exists()


def test_a_task_that_kills_each_time_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tutorial_lib.pool.ATTEMPTS", 2)
    with pytest.raises(InputError, match="Not all of it was made: .* 2 times in a row"):
        list(on_processes(die, [0], 1))


def test_nothing_is_lost_when_a_worker_of_the_cluster_dies(tmp_path: Path) -> None:
    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None, silence_logs=50) as cluster:
        tasks = [(str(tmp_path), n) for n in range(8)]
        assert dict(on_cluster(die_once, tasks, cluster.scheduler_address)) == {n: n * n for n in range(8)}
    assert (tmp_path / "died").exists()


def test_an_address_where_nobody_answers_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tutorial_lib.pool.ANSWERS", 1)
    started = time.monotonic()
    for address in ("tcp://127.0.0.1:9", "nonsense://x"):
        with pytest.raises(InputError, match=f'no scheduler answers at "{address}"'):
            refuse_silent(address)
    assert time.monotonic() - started < 30


def test_sizes_are_named_or_all() -> None:
    creator = demo.demo().options
    assert sizes_wanted("All ", creator) == every_size(creator) and len(every_size(creator)) >= 32
    assert sizes_wanted("king, UK double,king", creator) == ("king", "UK double")
    with pytest.raises(InputError, match=r'(?s)"kign" is not a known.*"quen"'):
        sizes_wanted("kign, quen", creator)
    with pytest.raises(InputError, match="names no size"):
        sizes_wanted(" , ", creator)
    alike = [SizeMade(size=size, words="") for size in ("54 x 75 in", "54x75 in", "?", "54-x-75-in")]
    names = [name for _, name in folders(alike)]
    assert names == ["54-x-75-in", "54x75-in", "size", "54-x-75-in-2"]


def test_a_size_has_booklet_build_file_and_captions() -> None:
    task = SizeTask(creator=to_toml(demo.demo().options), size="38x80 in", paper="letter", report=demo.report())
    made = make_size(task)
    held = {name: data for name, data, _ in made.files}
    assert made.words == "mattress 38 x 80 in" and held["booklet.pdf"].startswith(b"%PDF")
    own = read_build(held["my-bed.toml"].decode(), "my-bed.toml")
    assert own.origin is not None and own.yours.mattress == "38x80 in"
    assert held["captions.vtt"].startswith(b"WEBVTT") and b"[yours: 83 3/4 in]" in held["captions.vtt"]


def test_a_size_that_cant_be_built_is_told() -> None:
    task = SizeTask(creator=to_toml(demo.demo().options), size="5 x 6 in", paper="letter", report=None)
    made = make_size(task)
    assert not made.files and "5 x 6 in" in f"{made.size} {made.why_not}" and made.why_not
