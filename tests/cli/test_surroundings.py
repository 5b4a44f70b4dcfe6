"""What the machine lacks is told in a sentence: a full disk, a closed stream, few handles, no interpreter."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.command import PUZZLES, Finished, environment, words

FULL = Path("/dev/full")
needs_a_full_device = pytest.mark.skipif(not FULL.exists(), reason="no /dev/full on this system")

UNREADABLE = 2


def in_shell(line: str, *arguments: object, folder: Path = PUZZLES, **more: str) -> Finished:
    """Run ``gridproof`` in a shell, where ``"$@"`` in the line stands for it."""
    command = ["sh", "-c", line, "sh", *words(*arguments)]
    env = {**environment(), **more}
    done = subprocess.run(command, capture_output=True, cwd=folder, env=env, timeout=120)
    return Finished(done.returncode, done.stdout.decode(), done.stderr.decode())


def assert_told(finished: Finished, code: int = UNREADABLE) -> None:
    assert "Traceback" not in finished.err
    assert "mistake of its own" not in finished.err
    assert finished.code == code, finished.err


EVERY = [
    ["check", "sound.yaml"],
    ["check", "box.yaml#1", "--table"],
    ["sums", "28", "4"],
    ["--help"],
    ["check", "--help"],
    ["--version"],
]


@pytest.mark.parametrize("closing", [">&-", pytest.param(">/dev/full", marks=needs_a_full_device)])
@pytest.mark.parametrize("arguments", EVERY, ids=" ".join)
def test_an_output_that_takes_nothing_is_told_in_a_sentence(arguments: list[str], closing: str) -> None:
    finished = in_shell(f'"$@" {closing}', *arguments)
    assert_told(finished)
    assert finished.err == (
        "gridproof: standard output takes nothing: the disk behind it is full, or it is closed. Free some "
        "space, or send the result to a file: > FILE.\n"
    )


def test_who_writes_nothing_to_standard_output_needs_none(tmp_path: Path) -> None:
    finished = in_shell('"$@" >&-', "check", PUZZLES / "sound.yaml", "--out", "verdicts", folder=tmp_path)
    assert finished == Finished(0, "", "1 puzzle: 1 accepted\n")
    assert [path.name for path in (tmp_path / "verdicts").iterdir()] == ["sound.yaml.yaml"]


@pytest.mark.parametrize("closing", ["2>&-", pytest.param("2>/dev/full", marks=needs_a_full_device)])
@pytest.mark.parametrize(("arguments", "code"), [(["check", "box.yaml"], 2), (["sums", "3", "9"], 1)])
def test_without_standard_error_the_result_and_the_code_are_the_same(
    closing: str, arguments: list[str], code: int
) -> None:
    finished = in_shell(f'"$@" {closing}', *arguments)
    assert finished == Finished(code, in_shell('"$@"', *arguments).out, "")


def test_all_three_may_be_closed() -> None:
    assert in_shell('"$@" <&- >&- 2>&-', "check", "box.yaml").code == UNREADABLE
    assert in_shell('"$@" <&- >&- 2>&-', "check", "sound.yaml", "--table").code == UNREADABLE


def test_a_closed_input_is_an_empty_one() -> None:
    assert in_shell('"$@" <&-', "check", "sound.yaml").code == 0
    assert in_shell('"$@" <&-', "check", "-") == in_shell('"$@" </dev/null', "check", "-")


def test_a_ledger_does_not_take_the_place_of_a_closed_output(tmp_path: Path) -> None:
    box = ["intake", PUZZLES / "sound.yaml", "--ledger", "l.db", "--out", "v", "--jobs", "1"]
    assert in_shell('"$@" >&- 2>&-', *box, folder=tmp_path).code == UNREADABLE
    report = in_shell('"$@"', "intake", "--report", "--ledger", "l.db", folder=tmp_path)
    assert "accepted" in report.out


@pytest.mark.parametrize("handles", [8, 16, 24])
@pytest.mark.parametrize("arguments", [["check", "box.yaml"], ["check", ".", "--jobs", "2"]], ids=" ".join)
def test_too_few_handles_are_no_mistake_of_ours(handles: int, arguments: list[str]) -> None:
    finished = in_shell(f'ulimit -n {handles}; "$@"', *arguments)
    assert "mistake of its own" not in finished.err
    assert "Traceback" not in finished.err
    assert finished.code == UNREADABLE  # also where they are enough: one of the puzzles cannot be read


def test_an_interpreter_that_cannot_start_is_told_in_a_sentence(tmp_path: Path) -> None:
    program = "import sys; sys.executable = '/nowhere/python'; from verifier.cli import main; main()"
    for number in range(12):
        (tmp_path / f"{number}.yaml").write_bytes((PUZZLES / "sound.yaml").read_bytes())
    for arguments in (["check", ".", "--jobs", "2"], ["intake", ".", "--ledger", "l.db"]):
        command = [sys.executable, "-c", program, *arguments]
        done = subprocess.run(command, capture_output=True, cwd=tmp_path, env=environment(), timeout=120)
        assert_told(Finished(done.returncode, "", done.stderr.decode()))
        assert b"no process can be started that judges puzzles (" in done.stderr


def test_a_trace_that_cannot_be_kept_costs_no_sentence() -> None:
    program = (
        "import verifier.intake.sources.sources, tempfile\n"
        "verifier.intake.sources.sources.find_sources = lambda *_, **__: {}[0]\n"
        "tempfile.tempdir = '/nowhere'\n"
        "from verifier.cli import main; main()"
    )
    command = [sys.executable, "-c", program, "check", "sound.yaml"]
    done = subprocess.run(command, capture_output=True, cwd=PUZZLES, env=environment(), timeout=120)
    assert done.returncode == 70
    assert done.stderr.decode() == (
        "gridproof made a mistake of its own. The details could not be kept, since no file can be written: "
        "free some space, and try again.\n"
    )


def test_what_keeps_the_program_from_starting_is_told_in_a_sentence() -> None:
    program = "import sys; sys.modules['typer'] = None; from verifier.cli import main; main()"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, env=environment(), timeout=60)
    finished = Finished(done.returncode, done.stdout.decode(), done.stderr.decode())
    assert_told(finished)
    assert finished.err.startswith("gridproof: it cannot start: import of typer halted; None in sys.modules.")
