"""Judging over several processes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tests.evidence.stand_ins import NONE, ONE, TWO
from tests.intake.deadly import DEADLY, DEADLY_ONCE, MARK
from verifier.files.faults import Fault
from verifier.files.reading import ReadEntry
from verifier.intake.workers.judging import Judged, cores, judge_entries, judge_entry
from verifier.puzzle.puzzle import Credits
from verifier.verdict.judge import Settings

UNREADABLE = ReadEntry("box#2", None, (Fault("kind", "box#2", 1, "puzzle", "x", "y", "z"),))


def entries(count: int, deadly: int | None = None) -> Iterator[ReadEntry]:
    """Yield puzzles of every kind, each with an id of its own, and an unreadable one now and then."""
    for number in range(count):
        if number % 5 == 2:
            yield UNREADABLE
        else:
            name = "deadly" if number == deadly else f"n{number}"
            puzzle = replace((ONE, TWO, NONE)[number % 3], credits=Credits(name))
            yield ReadEntry(f"box#{number + 1}", puzzle)


def test_the_results_do_not_depend_on_the_number_of_processes() -> None:
    alone = list(judge_entries(entries(14), jobs=1))
    assert list(judge_entries(entries(14), jobs=3)) == alone
    assert [entry for entry, _ in alone] == list(entries(14))
    assert all(judged.address == entry.address for entry, judged in alone)


@pytest.fixture(scope="module")
def struck() -> list[Judged]:
    """Return what becomes of a box with a puzzle whose worker always dies."""
    pairs = judge_entries(entries(14, deadly=6), settings=Settings(witnesses=DEADLY), jobs=2)
    return [judged for _, judged in pairs]


def test_a_worker_that_dies_costs_its_puzzle_alone(struck: list[Judged]) -> None:
    sound = [judged for _, judged in judge_entries(entries(14), jobs=1) if judged.address != "box#7"]
    assert [judged for judged in struck if judged.address != "box#7"] == sound


def test_the_puzzle_whose_worker_died_is_undecided_and_provisional(struck: list[Judged]) -> None:
    (judged,) = [judged for judged in struck if judged.address == "box#7"]
    assert judged.verdict is not None
    assert [reason.code for reason in judged.verdict.reasons] == ["worker-lost"]
    assert judged.verdict.provisional
    assert "provisional: true" in judged.text


def test_a_puzzle_whose_worker_died_is_tried_once_more(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(MARK, str(tmp_path / "died"))
    judged = list(judge_entries(entries(12, deadly=6), settings=Settings(witnesses=DEADLY_ONCE), jobs=2))
    assert (tmp_path / "died").exists()
    assert judged[6][1].verdict is not None
    assert judged[6][1].verdict.state.value == "accepted"


def test_entries_are_read_only_as_they_are_needed() -> None:
    read = []

    def noting() -> Iterator[ReadEntry]:
        for entry in entries(200):
            read.append(entry)
            yield entry

    judged = judge_entries(noting(), jobs=1)
    next(judged)
    assert len(read) < 20


def test_an_entry_that_could_not_be_read_keeps_its_faults() -> None:
    assert judge_entry(UNREADABLE) == Judged("box#2", UNREADABLE.faults)


def test_there_is_at_least_one_core() -> None:
    assert cores() >= 1
