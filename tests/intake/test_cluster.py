"""Workers on a Dask cluster: the same bytes, and the same care for each puzzle."""

from __future__ import annotations

import io
import os
import signal
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tests.evidence.stand_ins import ONE
from tests.intake.boxes import mixed_box
from tests.intake.deadly import DEADLY
from tests.intake.test_run import Desk
from verifier.files.reading import ReadEntry
from verifier.intake.ledger.ledger import new_or_existing_ledger
from verifier.intake.ledger.makers import makers_of
from verifier.intake.limits import WORKER_LIMITS, WorkerLimits
from verifier.intake.outcome import RunPlan
from verifier.intake.papers.verdict_files import VerdictFiles
from verifier.intake.run import Intake
from verifier.intake.sources.sources import Box, find_sources
from verifier.intake.workers.cluster import ClusterPool
from verifier.intake.workers.pool import LocalPool, NoClusterError, WorkerPool
from verifier.intake.workers.task import Judged, RunSettings, Task
from verifier.puzzle.puzzle import Credits
from verifier.verdict.judge import Settings

SETTINGS = RunSettings(judging=Settings(witnesses=DEADLY))


@pytest.fixture(scope="module")
def pool() -> Iterator[ClusterPool]:
    pool = ClusterPool("local:2", SETTINGS, WorkerLimits(seconds=5.0))
    yield pool
    pool.close()


def results(pool: WorkerPool, names: list[str]) -> dict[str, Judged]:
    """Return what becomes of the small killer under each id."""
    for ticket, name in enumerate(names):
        pool.submit(ticket, Task(ReadEntry(name, replace(ONE, credits=Credits(name)))))
    met: dict[int, Judged] = {}
    while len(met) < len(names):
        result = pool.result(60)
        assert result is not None
        met[result[0]] = result[1]
    return {name: met[ticket] for ticket, name in enumerate(names)}


def run_by(pool: WorkerPool, desk: Desk, name: str) -> tuple[dict[str, bytes], str]:
    """Return the verdict files and the export of the desk's box, judged by a pool."""
    place = Desk(desk.folder)
    place.out, place.ledger = desk.folder / name, desk.folder / f"{name}.db"
    with new_or_existing_ledger(place.ledger) as ledger:
        makers = makers_of(SETTINGS)
        ledger.begin_run(["box"], makers)
        plan = RunPlan((str(place.box),), place.out, place.ledger, SETTINGS, WORKER_LIMITS, jobs=1)
        run = Intake(ledger, makers, pool, VerdictFiles(place.out, ledger), plan)
        run.go(Box(find_sources([str(place.box)]), io.BytesIO()))
    return place.files(), place.export()


def test_the_bytes_are_those_of_a_pool_and_of_one_process(pool: ClusterPool, tmp_path: Path) -> None:
    mixed_box(tmp_path / "box")
    desk = Desk(tmp_path)
    desk.run()
    local = LocalPool(2, SETTINGS)
    on_the_pool, on_the_cluster = run_by(local, desk, "pool"), run_by(pool, desk, "cluster")
    local.close()
    assert on_the_cluster == on_the_pool == (desk.files(), desk.export())


def test_a_puzzle_that_hangs_or_kills_is_ended_alone_on_the_cluster_too(pool: ClusterPool) -> None:
    met = results(pool, ["a", "hanging", "b", "deadly", "c"])
    states = {name: judged.verdict.state.value for name, judged in met.items() if judged.verdict}
    assert states == {
        "a": "accepted",
        "hanging": "undecided",
        "b": "accepted",
        "deadly": "undecided",
        "c": "accepted",
    }


def test_a_cluster_that_is_there_is_joined(pool: ClusterPool) -> None:
    guest = ClusterPool(pool.address, SETTINGS)
    assert set(results(guest, ["a", "b"])) == {"a", "b"}
    guest.close()
    assert set(results(pool, ["c"])) == {"c"}


def test_a_dask_worker_that_is_shot_from_outside_costs_nothing(pool: ClusterPool) -> None:
    names = [f"n{number}" for number in range(20)]
    for ticket, name in enumerate(names):
        pool.submit(ticket, Task(ReadEntry(name, replace(ONE, credits=Credits(name)))))
    os.kill(next(iter(pool.processes().values())), signal.SIGKILL)
    met: set[int] = set()
    while len(met) < len(names):
        result = pool.result(60)
        assert result is not None
        assert result[1].verdict is not None
        assert result[1].verdict.state.value == "accepted"
        met.add(result[0])


def test_where_no_cluster_is_that_is_told() -> None:
    with pytest.raises(NoClusterError):
        ClusterPool("nonsense", SETTINGS)
