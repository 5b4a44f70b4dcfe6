"""Runs that end before their end: killed, interrupted, out of disk, without rights."""

from __future__ import annotations

import errno
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.cli.command import Finished, called
from tests.intake.boxes import MIXED, hard_for_the_solver, mixed_box
from tests.intake.runs import Runs, orphans_of, workers_of
from verifier.intake.ledger import opening


@pytest.fixture(scope="module")
def large_box(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a box that takes some seconds, of small puzzles, so that any moment can be hit."""
    folder = tmp_path_factory.mktemp("large") / "box"
    folder.mkdir()
    for number in range(300):
        data = MIXED[number % len(MIXED)]
        (folder / f"k{number}.yaml").write_bytes(data.replace(b"\nid: ", b"\nid: %d-" % (number // 2)))
    return folder


@pytest.fixture(scope="module")
def undisturbed(large_box: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Runs, float]:
    """Return a run that nobody disturbed, and the seconds that it took."""
    runs = Runs(large_box, tmp_path_factory.mktemp("undisturbed"))
    started = time.monotonic()
    assert runs.finish().code == 1
    return runs, time.monotonic() - started


def test_runs_killed_at_any_moment_end_as_one_that_was_not(
    undisturbed: tuple[Runs, float], tmp_path: Path
) -> None:
    whole, seconds = undisturbed
    runs = Runs(whole.box, tmp_path)
    moments = random.Random(20261125)
    hits = 0
    for _ in range(12):
        process = runs.begin()
        time.sleep(moments.uniform(0.2, 0.5) * seconds)
        if process.poll() is None:
            assert orphans_of(process, group=hits % 2 == 1) == 0
            hits += 1
        if hits == 3:
            break
    assert hits >= 2  # on a fast machine the last one may come too late; the study kills fifty times
    assert runs.finish().code == 1
    assert runs.result() == whole.result()


@pytest.fixture
def hard_box(tmp_path: Path) -> Path:
    """Return a box that keeps two workers busy for minutes."""
    box = tmp_path / "box"
    box.mkdir()
    for name in ("a.yaml", "b.yaml"):
        (box / name).write_bytes(hard_for_the_solver())
    return box


@pytest.mark.parametrize("workers", [("--jobs", 1), ("--jobs", 2), ("--cluster", "local:2")], ids=str)
def test_nobody_outlives_the_one_who_started_them(
    hard_box: Path, tmp_path: Path, workers: tuple[str, object]
) -> None:
    process = Runs(hard_box, tmp_path, workers).begin()
    workers_of(process, 1 if workers == ("--jobs", 1) else 2)
    assert orphans_of(process, group=False) == 0


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a worker must listen to notice")
def test_a_worker_that_cannot_listen_does_not_outlive_the_one_who_started_it_either(
    hard_box: Path, tmp_path: Path
) -> None:
    process = Runs(hard_box, tmp_path, ("--jobs", 1)).begin()
    (worker,) = workers_of(process, 1)
    worker.suspend()
    assert orphans_of(process, group=False) == 0


def test_ctrl_c_finishes_what_is_under_way_and_says_how_to_go_on(
    undisturbed: tuple[Runs, float], tmp_path: Path
) -> None:
    whole, _ = undisturbed
    runs = Runs(whole.box, tmp_path)
    process = runs.begin()
    while process.poll() is None and not any(runs.out.glob("*.yaml")):  # the first verdict of hundreds
        time.sleep(0.01)
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does: to every process of the run
    _, said = process.communicate(timeout=60)
    assert process.returncode == 130
    assert b"Finishing what is under way" in said
    assert b"Give the same command again to go on from there." in said
    assert "stand as they were" in runs.finish().err
    assert runs.result() == whole.result()


def test_a_second_ctrl_c_stops_at_once_and_says_how_to_go_on(hard_box: Path, tmp_path: Path) -> None:
    process = Runs(hard_box, tmp_path, ("--jobs", 1)).begin()
    (worker,) = workers_of(process, 1)
    process.send_signal(signal.SIGINT)
    assert process.stderr is not None
    assert b"press Ctrl-C again" in process.stderr.readline()
    process.send_signal(signal.SIGINT)
    _, said = process.communicate(timeout=30)
    assert process.returncode == 130
    assert said.startswith(b"Stopped at once.")
    assert not worker.is_running()


def intake(folder: Path, **places: Path) -> Finished:
    out, ledger_file = places.get("out", folder / "out"), places.get("ledger", folder / "ledger.db")
    return called("intake", folder / "box", "--out", out, "--ledger", ledger_file, "--jobs", 1)


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    mixed_box(tmp_path / "box")
    return tmp_path


def test_a_disk_that_is_full_of_verdicts_is_told_and_the_run_goes_on_later(
    desk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patched:
        patched.setattr("verifier.intake.papers.files.os.replace", _full_disk)
        finished = intake(desk)
    assert finished.code == 2
    assert "No space left on device" in finished.err
    assert list((desk / "out").rglob("*.yaml")) == []
    assert list((desk / "out").glob(".gridproof-*")) == []
    assert intake(desk).code == 2  # some could not be read
    assert len(list((desk / "out").glob("*.yaml"))) == 17


_replace = os.replace


def _full_disk(before: Path, after: Path) -> None:
    if Path(after).suffix == ".yaml":
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
    _replace(before, after)


def test_a_disk_that_is_full_of_the_ledger_is_told_and_the_run_goes_on_later(
    desk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    connected = opening._connected

    def small(*place: object, **more: object) -> sqlite3.Connection:
        base = connected(*place, **more)  # type: ignore[arg-type]
        base.execute("PRAGMA max_page_count = 28")  # SQLite takes that for the end of the disk
        return base

    with monkeypatch.context() as patched:
        patched.setattr(opening, "_connected", small)
        finished = intake(desk)
    assert finished.code == 2
    assert "the disk is full or fails" in finished.err
    assert intake(desk).code == 2
    assert "19 submissions" in called("intake", "--report", "--ledger", desk / "ledger.db").out


@contextmanager
def mounted(folder: Path, size: str) -> Iterator[Path]:
    """Mount a small disk; where that is not allowed, skip the test."""
    folder.mkdir()
    options = ["-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(folder)]
    try:
        subprocess.run(["mount", *options], check=True, capture_output=True)
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("mounting a small disk is not allowed here; a full disk is faked in another test")
    try:
        yield folder
    finally:
        subprocess.run(["umount", "--lazy", str(folder)], check=True)


@pytest.mark.parametrize(("place", "size"), [("ledger", "100k"), ("out", "30k")])
def test_a_real_disk_that_is_full_damages_nothing(desk: Path, place: str, size: str) -> None:
    with mounted(desk / "small", size) as small:
        places = {place: small / ("ledger.db" if place == "ledger" else "out")}
        finished = intake(desk, **places)
        assert finished.code == 2, finished.err
        assert "No space left" in finished.err or "the disk is full" in finished.err
        subprocess.run(["mount", "-o", "remount,size=50m", str(small)], check=True)
        finished = intake(desk, **places)
        assert "19 submissions" in finished.out
        assert len(list(places.get("out", desk / "out").glob("*.yaml"))) == 17


@pytest.mark.parametrize("place", ["ledger", "out"])
def test_a_folder_that_cannot_be_written_to_is_told(desk: Path, place: str) -> None:
    with mounted(desk / "locked", "1m") as locked:
        subprocess.run(["mount", "-o", "remount,ro", str(locked)], check=True)
        finished = intake(desk, **{place: locked / ("ledger.db" if place == "ledger" else "out")})
    assert finished.code == 2
    assert ("cannot be opened or written to" if place == "ledger" else "cannot write to") in finished.err


def test_a_ledger_in_a_folder_that_cannot_be_written_to_is_read(desk: Path) -> None:
    with mounted(desk / "locked", "5m") as locked:
        intake(desk, ledger=locked / "ledger.db")
        subprocess.run(["mount", "-o", "remount,ro", str(locked)], check=True)
        assert "19 submissions" in called("intake", "--report", "--ledger", locked / "ledger.db").out
