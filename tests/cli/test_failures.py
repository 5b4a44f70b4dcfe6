"""What the command does when no slip of the pen is to blame: bugs of ours, Ctrl-C, closed pipes."""

from __future__ import annotations

import re
import signal
import subprocess
from pathlib import Path
from typing import Any

import pytest
import yaml

import verifier.intake.workers.task
from tests.cli.command import PUZZLES, called, environment, words
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.judge import Settings, identity_of, judge, lost
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.verdict import Verdict


@pytest.fixture
def bug(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Put a bug of ours into the judging of one puzzle, and the traces into a folder of their own."""

    def buggy(puzzle: Puzzle, *others: Any) -> Any:
        if puzzle.credits.id == "ebb":
            raise ZeroDivisionError("a slip of ours")
        return judge(puzzle, *others)

    monkeypatch.setattr(verifier.intake.workers.task, "judge", buggy)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))


@pytest.mark.usefixtures("bug")
def test_a_bug_of_ours_costs_one_puzzle_and_leaves_a_trace_in_a_file(tmp_path: Path) -> None:
    finished = called("check", "box.yaml", "sound.yaml")
    assert finished.code == 70
    assert finished.out.count("\nverdict: ") == 4
    assert "gridproof made a mistake of its own while judging box.yaml#2." in finished.err
    (trace,) = tmp_path.iterdir()
    assert str(trace) in finished.err
    assert "ZeroDivisionError: a slip of ours" in trace.read_text()


@pytest.mark.usefixtures("bug")
def test_a_bug_of_ours_is_a_line_of_the_table() -> None:
    table = called("check", "box.yaml#2", "--table").out
    assert re.search(r"box\.yaml#2 +not judged +a mistake of gridproof's own", table)


def test_an_undecided_puzzle_outranks_a_rejected_one(monkeypatch: pytest.MonkeyPatch) -> None:
    def undecided_or_not(puzzle: Puzzle, style: HouseStyle, settings: Settings) -> Verdict:
        return (
            lost(identity_of(puzzle)) if puzzle.credits.id == "low-tide" else judge(puzzle, style, settings)
        )

    monkeypatch.setattr(verifier.intake.workers.task, "judge", undecided_or_not)
    assert called("check", "box.yaml#1", "box.yaml#2", "--table").code == 3
    assert called("check", "box.yaml#1", "box.yaml#3", "--table").code == 2
    assert re.search(r"low-tide +undecided +\? +worker lost", called("check", "box.yaml#1", "--table").out)


def test_a_bug_outside_the_judging_leaves_a_trace_too(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("verifier.intake.sources.sources.find_sources", broken)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    finished = called("check", "box.yaml")
    assert finished.code == 70
    assert finished.err.startswith("gridproof made a mistake of its own. The details are in ")
    assert "Traceback" not in finished.err


def box_of(copies: int, folder: Path) -> Path:
    """Write a box with many puzzles, each of another id."""
    text = (PUZZLES / "sound.yaml").read_text()
    path = folder / "many.yaml"
    path.write_text("---\n".join(f"{text}id: n{number}\n" for number in range(copies)))
    return path


@pytest.mark.parametrize("jobs", [1, 2])
def test_ctrl_c_keeps_what_is_finished_and_says_so(tmp_path: Path, jobs: int) -> None:
    box = box_of(3000, tmp_path)
    running = subprocess.Popen(
        words("check", box, "--jobs", jobs),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=environment(),
        text=True,
    )
    assert running.stdout is not None
    assert running.stderr is not None
    assert running.stdout.readline() == "---\n"  # the first verdict is there
    running.send_signal(signal.SIGINT)
    out, err = running.stdout.read(), running.stderr.read()
    assert running.wait(timeout=60) == 130
    assert "Stopped. " in err
    assert "Traceback" not in err
    finished = 1 + out.count("---\n")
    assert 1 <= finished < 3000
    assert len(list(yaml.safe_load_all(out))) == finished  # each of them whole


def test_with_out_ctrl_c_leaves_whole_files_only(tmp_path: Path) -> None:
    box = box_of(3000, tmp_path)
    out = tmp_path / "verdicts"
    running = subprocess.Popen(
        words("check", box, "--jobs", 1, "--out", out), stderr=subprocess.PIPE, env=environment(), text=True
    )
    while not (out.is_dir() and any(out.glob("*.yaml"))):
        assert running.poll() is None
    running.send_signal(signal.SIGINT)
    _, err = running.communicate(timeout=60)
    assert running.returncode == 130
    assert f"Their verdicts are in {out}." in err
    assert all(path.read_text().endswith("\n") for path in out.glob("*.yaml"))
    assert not list(out.glob(".*"))


def test_a_reader_that_goes_away_ends_the_run_quietly(tmp_path: Path) -> None:
    running = subprocess.Popen(
        words("check", box_of(300, tmp_path), "--jobs", 1),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=environment(),
    )
    assert running.stdout is not None
    assert running.stderr is not None
    running.stdout.readline()
    running.stdout.close()
    assert b"Traceback" not in running.stderr.read()
    assert running.wait(timeout=60) == 141
