"""``gridproof intake``: the box from the command line, the report, and what is refused."""

from __future__ import annotations

import csv
import errno
import json
import os
import pty
import re
import subprocess
import time
from datetime import date
from pathlib import Path

import pytest

from tests.cli.command import HERE, Finished, called, environment, words
from tests.intake.boxes import MIXED, SOUND, hard_for_the_solver, mixed_box, tar_of, zip_of
from tests.snapshots import assert_snapshot
from verifier.intake.ledger.ledger import new_or_existing_ledger
from verifier.intake.ledger.placements import schedule
from verifier.intake.papers import verdict_files

SNAPSHOTS = HERE / "snapshots"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1774828800")  # letters bear the day
    mixed_box(tmp_path / "box", copies=1)
    return tmp_path


def intake(folder: Path, *more: object, typed: bytes = b"") -> Finished:
    return called("intake", *more, "--ledger", "l.db", "--jobs", 1, typed=typed, folder=folder)


def said(finished: Finished) -> str:
    return f"exit {finished.code}\n\n--- stdout\n{finished.out}\n--- stderr\n{finished.err}"


def test_what_people_read_is_that_of_the_snapshots(folder: Path) -> None:
    assert_snapshot(SNAPSHOTS / "intake.txt", said(intake(folder, "box", "--out", "out")))
    assert_snapshot(SNAPSHOTS / "intake-again.txt", said(intake(folder, "box", "--out", "out")))
    (folder / "style.yaml").write_text("name: By Lamplight\ntiers: [5]\n")
    styled = intake(folder, "box", "--out", "out", "--style", "style.yaml")
    assert_snapshot(SNAPSHOTS / "intake-style.txt", said(styled))
    listed = called("intake", "--report", "--ledger", "l.db", "--list", "rejected", folder=folder)
    assert_snapshot(SNAPSHOTS / "intake-list.txt", said(listed))


@pytest.mark.parametrize(
    "wrong",
    [
        ["box"],
        ["--ledger", "l.db"],
        ["box", "--ledger", "l.db", "--list", "rejected"],
        ["box", "--ledger", "l.db", "--report", "--out", "out"],
        ["--ledger", "none.db", "--report"],
        ["--ledger", "l.db", "--report", "--list", "good"],
        ["box", "--ledger", "no/such/l.db"],
        ["box", "--ledger", "box/stream.yaml"],
        ["box", "pots", "--ledger", "l.db"],
        ["box", "--ledger", "l.db", "--printed", "pots"],
        ["box", "--ledger", "l.db", "--out", "box"],
        ["box", "--ledger", "l.db", "--cluster", "nonsense"],
        ["box", "--ledger", "l.db", "--memory", "1"],
        ["box", "--ledger", "l.db", "--style", "box/stream.yaml"],
    ],
    ids=lambda words: " ".join(words),
)
def test_a_wrong_call_is_refused_and_nothing_is_touched(folder: Path, wrong: list[str]) -> None:
    before = {path: path.read_bytes() for path in (folder / "box").rglob("*") if path.is_file()}
    finished = called("intake", *wrong, folder=folder)
    assert finished.code == 2
    assert finished.err.startswith("gridproof: ")
    assert "Traceback" not in finished.err
    assert {path: path.read_bytes() for path in (folder / "box").rglob("*") if path.is_file()} == before


@pytest.mark.parametrize(
    ("puzzles", "code"), [([SOUND], 0), ([SOUND, MIXED[1]], 1), ([SOUND, MIXED[1], b"puzle: x"], 2)]
)
def test_the_exit_code_says_what_to_look_at_first(tmp_path: Path, puzzles: list[bytes], code: int) -> None:
    assert intake(tmp_path, "-", typed=b"\n---\n".join(puzzles)).code == code


def test_standard_input_archives_and_tables_come_in_together(tmp_path: Path) -> None:
    (tmp_path / "a.zip").write_bytes(zip_of({"late/17.yaml": b"---\n".join([SOUND] * 3)}))
    (tmp_path / "b.tar.xz").write_bytes(tar_of({"x.yaml": SOUND}, "xz"))
    (tmp_path / "c.csv").write_text("id,puzzle\nebb,1...............\n")
    intake(tmp_path, "-", "a.zip", "b.tar.xz", "c.csv", typed=SOUND)
    out = called("intake", "--report", "--ledger", "l.db", "--jsonl", "-", folder=tmp_path).out
    assert [json.loads(line)["address"] for line in out.splitlines()] == [
        *(f"a.zip!late/17.yaml#{number}" for number in (1, 2, 3)),
        "b.tar.xz!x.yaml",
        "c.csv",
        "stdin",
    ]


def test_an_address_of_the_ledger_can_be_checked_by_itself(folder: Path) -> None:
    finished = called("check", "box/late.zip!a/17.yaml", "--table", folder=folder)
    assert "ebb" in finished.out
    assert finished.code == 1


def test_the_exports_hold_every_submission_and_timings_only_when_asked_for(folder: Path) -> None:
    intake(folder, "box")
    called("intake", "--report", "--ledger", "l.db", "--csv", "l.csv", "--jsonl", "l.jsonl", folder=folder)
    rows = list(csv.DictReader((folder / "l.csv").open(encoding="utf-8-sig")))
    records = [json.loads(line) for line in (folder / "l.jsonl").read_text().splitlines()]
    assert [row["address"] for row in rows] == [record["address"] for record in records]
    assert len(rows) == 11
    assert "seconds" not in rows[0]
    timed = called("intake", "--report", "--ledger", "l.db", "--jsonl", "-", "--timings", folder=folder).out
    assert json.loads(timed.splitlines()[0])["seconds"] > 0


@pytest.mark.parametrize("option", ["--csv", "--jsonl"])
def test_an_export_that_breaks_off_leaves_the_earlier_one(
    folder: Path, option: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    intake(folder, "box")
    (folder / "table").write_text("of last week")

    def disk_is_full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("verifier.intake.papers.files.os.replace", disk_is_full)
    done = called("intake", "--report", "--ledger", "l.db", option, "table", folder=folder)
    assert done.code == 2
    assert done.err.endswith(f"No space left on device. Free the place, or give another one with {option}.\n")
    assert (folder / "table").read_text() == "of last week"
    assert not list(folder.glob(".gridproof-*"))


def test_printed_puzzles_are_looked_for(folder: Path) -> None:
    (folder / "may").mkdir()
    (folder / "may" / "5.yaml").write_bytes(MIXED[2])
    intake(folder, "box", "--out", "out", "--printed", "may")
    assert "flood (may/5.yaml), already printed" in (folder / "out" / "duplicates.txt").read_text()
    assert called("intake", "--report", "--ledger", "l.db", folder=folder).out.startswith("11 submissions\n")


def test_what_was_printed_and_cannot_be_read_is_told_each_time(folder: Path) -> None:
    (folder / "may").mkdir()
    (folder / "may" / "5.yaml").write_bytes(b"puzle: x")
    (folder / "may" / "6.yaml").write_bytes(b"")
    for _ in range(2):
        said_of_it = intake(folder, "box", "--printed", "may").err
        assert (
            "Not compared with printed puzzles that could not be read: may/5.yaml and may/6.yaml."
            in said_of_it
        )


def test_a_puzzle_made_to_be_hard_for_the_solver_is_undecided(tmp_path: Path) -> None:
    (tmp_path / "hard.yaml").write_bytes(hard_for_the_solver())
    (tmp_path / "sound.yaml").write_bytes(SOUND)
    finished = intake(tmp_path, "hard.yaml", "sound.yaml", "--seconds", "1", "--no-duplicates")
    assert finished.code == 3
    assert re.search(r"accepted +1\n +undecided +1\n", finished.out)
    assert "limit reached" in finished.out


def test_an_empty_large_grid_is_rejected(tmp_path: Path) -> None:
    (tmp_path / "empty.yaml").write_text("puzzle: classic\ngrid: 25x25\n")
    finished = intake(tmp_path, "empty.yaml", "--no-duplicates")
    assert finished.code == 1
    assert "several solutions" in finished.out


@pytest.mark.parametrize(
    "hostile",
    [
        b"a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\npuzzle: *c\n",
        b"puzzle: " + b"[" * 50_000,
        b"\0" * 1000,
        b"puzzle: !!python/object/apply:os.system [ls]\n",
        b"x" * 3_000_000,
    ],
    ids=["alias bomb", "depth", "NUL", "tag", "size"],
)
def test_hostile_files_are_told_and_the_next_one_is_judged(tmp_path: Path, hostile: bytes) -> None:
    (tmp_path / "a.yaml").write_bytes(hostile)
    (tmp_path / "b.yaml").write_bytes(SOUND)
    finished = intake(tmp_path, "a.yaml", "b.yaml")
    assert finished.code == 2
    assert re.search(r"accepted +1\n +unreadable +1\n", finished.out)


def test_limits_can_be_set(folder: Path) -> None:
    finished = intake(folder, "box", "--puzzle-bytes", 100, "--archive-files", 1)
    assert "too big" in finished.out
    assert "archive too many" in finished.out


def test_nothing_to_judge_is_told(tmp_path: Path) -> None:
    (tmp_path / "box").mkdir()
    finished = intake(tmp_path, "box")
    assert finished.code == 2
    assert "empty folder" in finished.out


def test_a_terminal_sees_a_bar_with_counts_and_rate(folder: Path) -> None:
    terminal, inner = pty.openpty()
    command = words("intake", "box", "--ledger", "l.db", "--jobs", 1)
    process = subprocess.Popen(
        command, cwd=folder, env=environment() | {"TERM": "xterm"}, stdout=subprocess.DEVNULL, stderr=inner
    )
    os.close(inner)
    seen = bytearray()
    try:
        while data := os.read(terminal, 4096):
            seen += data
    except OSError:  # the other end is closed
        pass
    process.wait(60)
    assert b"a second" in seen
    assert b"accepted" in seen


def test_a_folder_belongs_to_one_ledger(folder: Path) -> None:
    intake(folder, "box", "--out", "out")
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    other = folder / "other.db"
    for _ in range(2):
        done = called("intake", "box", "--out", "out", "--ledger", other, folder=folder)
        assert done.code == 2
        assert "--out out holds the verdicts of another ledger. Give that ledger" in done.err
        new_or_existing_ledger(other).close()  # the second time, there is such a ledger
    assert all(path.read_bytes() == data for path, data in before.items())
    assert intake(folder, "box", "--out", "out").code == 2  # for what cannot be read; nothing is in the way
    (folder / "out" / ".gridproof").unlink()
    assert (
        "another ledger" not in called("intake", "box", "--out", "out", "--ledger", other, folder=folder).err
    )


def test_a_box_that_is_spelled_otherwise_is_the_same_box(folder: Path) -> None:
    first = intake(folder, "box").out
    for spelled in (folder / "box", "./box/", "out/../box"):
        (folder / "out").mkdir(exist_ok=True)
        again = intake(folder, spelled)
        assert again.out == first
        assert "stand as they were" in again.err


def test_printed_puzzles_are_remembered_and_it_is_said(folder: Path) -> None:
    (folder / "may").mkdir()
    (folder / "may" / "p.yaml").write_bytes(MIXED[0])
    intake(folder, "box", "--printed", "may")
    again = intake(folder, "box")
    assert "compared with one printed puzzle, as earlier runs found them: 1 in may on " in again.err


def test_verdicts_of_an_earlier_format_are_made_anew_and_it_is_said(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as earlier:
        earlier.setattr("verifier.intake.ledger.makers.FORMAT", 1)
        intake(folder, "box")
    again = intake(folder, "box")
    assert "changed since: the format of verdicts (1 before, 2 now)" in again.err


# Two runs at once


def test_of_two_runs_on_one_ledger_or_one_folder_one_goes_on_and_the_other_says_why_not(folder: Path) -> None:
    call = words("intake", "-", "--ledger", "l.db", "--out", "out", "--jobs", 1)
    pipes = dict.fromkeys(("stdin", "stdout", "stderr"), subprocess.PIPE)
    first = subprocess.Popen(call, cwd=folder, env=environment(), **pipes)  # type: ignore[call-overload]
    while first.poll() is None and not (folder / "out" / ".gridproof").exists():
        time.sleep(0.05)
    same_ledger = intake(folder, "box", "--out", "elsewhere")
    same_folder = called("intake", "box", "--ledger", "other.db", "--out", "out", folder=folder)
    out, _ = first.communicate(MIXED[0])
    assert (same_ledger.code, same_folder.code, first.returncode) == (2, 2, 0)
    assert same_ledger.err == (
        "gridproof: the ledger l.db: another run is using it. Wait for its end, or give another ledger.\n"
    )
    assert "--out out holds the verdicts of another ledger." in same_folder.err
    assert out.startswith(b"1 submission\n")
    assert not (folder / "elsewhere").exists()


def test_of_two_runs_that_find_a_new_folder_at_once_one_has_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second one has looked for an owner before the first one entered itself."""
    with new_or_existing_ledger(tmp_path / "1.db") as one, new_or_existing_ledger(tmp_path / "2.db") as other:
        seen = verdict_files.owner_of(tmp_path)
        verdict_files.VerdictFiles(tmp_path, one)
        looks = iter([seen])
        owner_of = verdict_files.owner_of
        monkeypatch.setattr(verdict_files, "owner_of", lambda place: next(looks, owner_of(place)))
        with pytest.raises(verdict_files.AnotherLedgerError):
            verdict_files.VerdictFiles(tmp_path, other)
        assert owner_of(tmp_path) == one.mark


# What a later run says


def test_a_later_run_says_what_is_gone_what_was_corrected_and_what_only_seems_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1774828800")
    box = tmp_path / "box"
    box.mkdir()
    low_tide, ebb, flood, _ = MIXED
    for name, data in (("a", low_tide), ("b", ebb), ("c", flood)):
        (box / f"{name}.yaml").write_bytes(data)
    intake(tmp_path, "box", "--out", "out")
    (box / "c.yaml").unlink()
    (box / "b2.yaml").write_bytes(low_tide.replace(b"id: low-tide", b"id: ebb"))
    (box / "a2.yaml").write_bytes(ebb.replace(b"id: ebb", b"id: low-tide"))
    assert_snapshot(SNAPSHOTS / "intake-later.txt", said(intake(tmp_path, "box", "--out", "out")))


def test_forgetting_what_is_not_there_or_on_a_page_is_told(folder: Path) -> None:
    assert intake(folder, "--forget", "box/k1-0.yaml").code == 2  # no ledger is made for it
    assert not (folder / "l.db").exists()
    intake(folder, "box", "--out", "out")
    with new_or_existing_ledger(folder / "l.db") as ledger:
        numbers = dict(ledger.rows("SELECT address, submission FROM submissions"))
        schedule(ledger, date(2026, 3, 30), {numbers["box/k1-0.yaml"]: "Monday"})
    gone = intake(folder, "--forget", "box/k1-1.yaml", "--forget", "nowhere", "--out", "out")
    kept = intake(folder, "--forget", "box/k1-0.yaml")
    none = intake(folder, "--forget", "nowhere")
    assert [gone.code, kept.code, none.code] == [0, 1, 2]
    assert gone.err == "Forgotten: one submission.\n"
    assert kept.err.startswith("box/k1-0.yaml is scheduled for 2026-03-30 and stays in the ledger.")
    assert none.err.startswith("gridproof: --forget: the ledger has nothing at nowhere.")
    assert "ebb.yaml" not in {path.name for path in (folder / "out").iterdir()}
