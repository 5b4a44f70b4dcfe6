"""One worker and its supervisor: what a puzzle does to the worker costs that puzzle alone."""

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
from verifier.files.reading import ReadEntry
from verifier.files.submissions import Submission
from verifier.intake.limits import WorkerLimits
from verifier.intake.workers import supervisor as supervising
from verifier.intake.workers.shortage import WorkerWillNotStartError
from verifier.intake.workers.supervisor import Supervisor, SupervisorClosedError
from verifier.intake.workers.task import Judged, RunSettings, Task
from verifier.puzzle.puzzle import Credits
from verifier.verdict.judge import Settings

IMPATIENT = WorkerLimits(seconds=3.0, memory_bytes=250 << 20)


@pytest.fixture(scope="module")
def supervisor() -> Iterator[Supervisor]:
    supervisor = Supervisor(RunSettings(judging=Settings(witnesses=DEADLY)), IMPATIENT)
    yield supervisor
    supervisor.close()


def judged(supervisor: Supervisor, name: str, *, likeness: bool = False) -> Judged:
    return supervisor.do(Task(ReadEntry(name, replace(ONE, credits=Credits(name))), likeness=likeness))


@pytest.mark.parametrize(
    ("name", "cause"),
    [
        ("deadly", "was ended from outside, or broke down, 2 times"),
        ("hanging", "did not answer within 3 seconds, 2 times"),
        ("bloated", "took more than 250 MiB of memory, 2 times"),
    ],
)
def test_a_puzzle_that_costs_its_worker_is_undecided_with_the_cause(
    supervisor: Supervisor, name: str, cause: str
) -> None:
    lost = judged(supervisor, name)
    assert lost.verdict is not None
    assert (lost.verdict.state.value, lost.verdict.provisional, lost.tries) == ("undecided", True, 2)
    assert cause in lost.verdict.reasons[0].says


def test_the_next_puzzle_gets_its_verdict(supervisor: Supervisor) -> None:
    judged(supervisor, "deadly")
    after = judged(supervisor, "sound")
    assert after.verdict is not None
    assert (after.verdict.state.value, after.tries) == ("accepted", 1)


def test_a_worker_that_is_shot_from_outside_is_replaced(supervisor: Supervisor) -> None:
    judged(supervisor, "sound")
    before = supervisor.worker
    assert before is not None
    os.kill(before, signal.SIGKILL)
    after = judged(supervisor, "sound")
    assert after.verdict is not None
    assert after.verdict.state.value == "accepted"
    assert supervisor.worker != before


def test_the_worker_says_what_a_puzzle_looks_like(supervisor: Supervisor) -> None:
    likeness = judged(supervisor, "sound", likeness=True).likeness
    assert likeness is not None
    assert likeness.content == ONE.content
    assert judged(supervisor, "sound").likeness is None


def test_a_submission_is_read_by_the_worker(supervisor: Supervisor) -> None:
    document = Document(Form.YAML, 3, b"puzle: classic\n", 15)
    (fault, *_) = supervisor.do(Task(Submission("box.yaml#3", document))).faults
    assert (fault.file, fault.line) == ("box.yaml#3", 3)


def test_closing_ends_the_worker_in_the_middle_of_a_puzzle() -> None:
    supervisor = Supervisor(RunSettings(judging=Settings(witnesses=DEADLY)))
    ended: list[Exception] = []

    def wait() -> None:
        try:
            judged(supervisor, "hanging")
        except SupervisorClosedError as error:
            ended.append(error)

    thread = threading.Thread(target=wait)
    thread.start()
    while supervisor.worker is None:
        time.sleep(0.05)
    supervisor.close()
    thread.join(30)
    assert len(ended) == 1


def test_a_worker_that_cannot_start_is_told_at_once(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    # A broken package of the same name is found first, however gridproof is installed.
    (tmp_path / "verifier").mkdir()
    (tmp_path / "verifier" / "__init__.py").write_text("raise ImportError('no verifier here')")
    monkeypatch.setattr(supervising.sys, "path", [str(tmp_path)])  # type: ignore[attr-defined]
    supervisor = Supervisor(RunSettings())
    with pytest.raises(WorkerWillNotStartError, match="verifier"):
        judged(supervisor, "sound")
    supervisor.close()
