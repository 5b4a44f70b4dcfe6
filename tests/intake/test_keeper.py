"""One worker and its keeper: what a puzzle does to the worker costs that puzzle alone."""

from __future__ import annotations

import os
import signal
import threading
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tests.evidence.stand_ins import ONE
from tests.intake.deadly import DEADLY
from verifier.files.documents import Document, Form
from verifier.files.reading import Entry
from verifier.files.submissions import Submission
from verifier.intake.limits import Care
from verifier.intake.workers import keeper as keeping
from verifier.intake.workers.keeper import Keeper, KeeperClosedError
from verifier.intake.workers.shortage import WorkerWillNotStartError
from verifier.intake.workers.task import Brief, Judged, Task
from verifier.puzzle.puzzle import Credits
from verifier.verdict.judge import Settings

IMPATIENT = Care(seconds=3.0, memory_bytes=250 << 20)


@pytest.fixture(scope="module")
def keeper() -> Iterator[Keeper]:
    keeper = Keeper(Brief(settings=Settings(witnesses=DEADLY)), IMPATIENT)
    yield keeper
    keeper.close()


def judged(keeper: Keeper, name: str, *, likeness: bool = False) -> Judged:
    return keeper.do(Task(Entry(name, replace(ONE, credits=Credits(name))), likeness=likeness))


@pytest.mark.parametrize(
    ("name", "cause"),
    [
        ("deadly", "was ended from outside, or broke down, 2 times"),
        ("hanging", "did not answer within 3 seconds, 2 times"),
        ("bloated", "took more than 250 MiB of memory, 2 times"),
    ],
)
def test_a_puzzle_that_costs_its_worker_is_undecided_with_the_cause(
    keeper: Keeper, name: str, cause: str
) -> None:
    lost = judged(keeper, name)
    assert lost.verdict is not None
    assert (lost.verdict.state.value, lost.verdict.provisional, lost.tries) == ("undecided", True, 2)
    assert cause in lost.verdict.reasons[0].says


def test_the_next_puzzle_gets_its_verdict(keeper: Keeper) -> None:
    judged(keeper, "deadly")
    after = judged(keeper, "sound")
    assert after.verdict is not None
    assert (after.verdict.state.value, after.tries) == ("accepted", 1)


def test_a_worker_that_is_shot_from_outside_is_replaced(keeper: Keeper) -> None:
    judged(keeper, "sound")
    before = keeper.worker
    assert before is not None
    os.kill(before, signal.SIGKILL)
    after = judged(keeper, "sound")
    assert after.verdict is not None
    assert after.verdict.state.value == "accepted"
    assert keeper.worker != before


def test_the_worker_says_what_a_puzzle_looks_like(keeper: Keeper) -> None:
    likeness = judged(keeper, "sound", likeness=True).likeness
    assert likeness is not None
    assert likeness.content == ONE.content
    assert judged(keeper, "sound").likeness is None


def test_a_submission_is_read_by_the_worker(keeper: Keeper) -> None:
    document = Document(Form.YAML, 3, b"puzle: classic\n", 15)
    (fault, *_) = keeper.do(Task(Submission("box.yaml#3", document))).faults
    assert (fault.file, fault.line) == ("box.yaml#3", 3)


def test_closing_ends_the_worker_in_the_middle_of_a_puzzle() -> None:
    keeper = Keeper(Brief(settings=Settings(witnesses=DEADLY)))
    ended: list[Exception] = []

    def wait() -> None:
        try:
            judged(keeper, "hanging")
        except KeeperClosedError as error:
            ended.append(error)

    thread = threading.Thread(target=wait)
    thread.start()
    while keeper.worker is None:
        time.sleep(0.05)
    keeper.close()
    thread.join(30)
    assert len(ended) == 1


def test_a_worker_that_cannot_start_is_told_at_once(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    # A broken package of the same name is found first, however gridproof is installed.
    (tmp_path / "verifier").mkdir()
    (tmp_path / "verifier" / "__init__.py").write_text("raise ImportError('no verifier here')")
    monkeypatch.setattr(keeping.sys, "path", [str(tmp_path)])  # type: ignore[attr-defined]
    keeper = Keeper(Brief())
    with pytest.raises(WorkerWillNotStartError, match="verifier"):
        judged(keeper, "sound")
    keeper.close()
