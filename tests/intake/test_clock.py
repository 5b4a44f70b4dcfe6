"""Looking for puzzles in what a stranger sent takes no longer than it may, and ends when it is asked to."""

from __future__ import annotations

import functools
import io
import itertools
import os
import signal
import subprocess
import threading
import time
from collections.abc import Callable
from pathlib import Path

import psutil
import pytest

from tests.cli.command import environment, words
from tests.intake.boxes import SOUND, fault_codes, found_in, tar_of, zip_of
from tests.intake.test_run import Desk
from verifier.intake.ledger.judging_reason import JudgingReason
from verifier.intake.limits import Bounds
from verifier.intake.sources.clock import Clock
from verifier.intake.sources.sources import Box, find_sources

LATE = Bounds(seconds=-1)
"""The time is over before it begins."""


def clocks_go_by(now: Callable[[], float], patch: pytest.MonkeyPatch) -> None:
    patch.setattr("verifier.intake.sources.sources.Clock", functools.partial(Clock, now=now))


@pytest.mark.parametrize("name", ["a.yaml", "a.txt", "a.jsonl", "a.csv"])
def test_a_file_that_takes_too_long_is_told(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_bytes(SOUND)
    (fault,) = found_in(tmp_path / name, LATE)[0].faults
    assert fault.code == "file-slow"
    assert fault.cure.endswith("It is tried again in the next run.")


@pytest.mark.parametrize("pack", [zip_of, tar_of], ids=["zip", "tar"])
def test_a_file_of_an_archive_that_takes_too_long_costs_itself_alone(
    tmp_path: Path, pack: Callable[..., bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    """By a clock that goes on by one each time it is looked at: so does the reader with every block.

    Wherever the time is over, an archive that is whole is not called broken.
    """
    path = tmp_path / ("a.zip" if pack is zip_of else "a.tar")
    path.write_bytes(pack({"long.yaml": b"#" * (1 << 20), "sound.yaml": SOUND}))
    clocks_go_by(functools.partial(next, itertools.count()), monkeypatch)
    ends = {tuple(fault_codes(path, bounds)): bounds for bounds in map(_after, range(30))}
    assert {("archive-slow",), ("file-slow",), ("empty",)} <= ends.keys()
    assert {code for codes in ends for code in codes} == {"archive-slow", "file-slow", "empty"}
    assert found_in(path, ends["file-slow",])[-1].document is not None


def _after(looks: int) -> Bounds:
    return Bounds(seconds=looks)


def test_an_archive_in_which_nothing_is_to_be_read_takes_no_longer(tmp_path: Path) -> None:
    (tmp_path / "a.zip").write_bytes(zip_of({f"{number}.png": b"" for number in range(9)}))
    assert fault_codes(tmp_path / "a.zip", LATE) == ["archive-slow"]


def test_the_time_until_the_next_puzzle_is_wanted_does_not_count(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "stream.yaml").write_bytes(b"---\n".join([SOUND.ljust(1 << 16)] * 5))
    times = [0.0]
    clocks_go_by(lambda: times[-1], monkeypatch)
    for one in Box(find_sources([str(tmp_path)]), io.BytesIO(), bounds=Bounds(seconds=60)):
        times.append(times[-1] + 3600)
        assert not one.faults


def test_whoever_writes_into_a_pipe_may_take_time(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.yaml"
    os.mkfifo(pipe)
    writer = threading.Thread(target=pipe.write_bytes, args=(SOUND,))
    writer.start()
    assert fault_codes(pipe, LATE) == []
    writer.join()


def test_what_a_clock_cut_short_is_tried_again(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.box.mkdir()
    (desk.box / "a.yaml").write_bytes(SOUND)
    assert dict(desk.run(bounds=LATE).states) == {"unreadable": 1}
    assert dict(desk.run(bounds=LATE).judged) == {JudgingReason.PROVISIONAL: 1}
    desk.run()
    assert desk.states() == {"a.yaml": "accepted"}


@pytest.mark.parametrize("name", ["-", "endless.yaml"])
def test_ctrl_c_is_heard_while_the_next_puzzle_is_looked_for(tmp_path: Path, name: str) -> None:
    """In standard input, where nobody types any more, and in a pipe without end, without a puzzle."""
    os.mkfifo(tmp_path / "endless.yaml")
    running = subprocess.Popen(
        words("intake", name, "--out", "out", "--ledger", "l.db", "--jobs", 1),
        cwd=tmp_path,
        env=environment(),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )
    assert running.stdin is not None
    typed = running.stdin if name == "-" else (tmp_path / name).open("wb")
    with typed:
        typed.write(b"---\n".join([SOUND, SOUND, SOUND]))
        typed.flush()
        while not psutil.Process(running.pid).children():  # for the first one, which is found by then
            assert running.poll() is None
            time.sleep(0.05)
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=60)
    assert running.returncode == 130
    assert b"Give the same command again to go on from there." in err
    assert b" submission" in out
