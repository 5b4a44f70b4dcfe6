"""Runs of the command over one box, and their sudden end; for a test of a few and a study of many."""

from __future__ import annotations

import os
import signal
import subprocess
import time
from collections.abc import Sequence
from pathlib import Path

import psutil

from tests.cli.command import Finished, called, environment, words

__all__ = ["Runs", "orphans_of", "workers_of"]

_STARTED = 0.5  # seconds of processor time after which a worker has begun with its puzzle
_WITHIN = 5.0  # seconds in which workers must be gone when the one who started them is


class Runs:
    """The command over one box, into one folder, by so many workers or those of a cluster."""

    def __init__(self, box: Path, folder: Path, workers: Sequence[object] = ("--jobs", 2)) -> None:
        folder.mkdir(exist_ok=True)
        self.box, self.out, self.ledger = box, folder / "out", folder / "ledger.db"
        self.workers = workers

    @property
    def words(self) -> list[str]:
        return words("intake", self.box, "--out", self.out, "--ledger", self.ledger, *self.workers)

    def begin(self) -> subprocess.Popen[bytes]:
        quiet = subprocess.DEVNULL
        return subprocess.Popen(
            self.words, stdout=quiet, stderr=subprocess.PIPE, env=environment(), start_new_session=True
        )

    def finish(self) -> Finished:
        done = subprocess.run(self.words, capture_output=True, env=environment(), timeout=120)
        return Finished(done.returncode, done.stdout.decode(), done.stderr.decode())

    def result(self) -> tuple[str, dict[str, bytes]]:
        exported = called("intake", "--report", "--ledger", self.ledger, "--jsonl", "-").out
        files = (path for path in self.out.rglob("[!.]*") if path.is_file())
        names = (path for path in files if path.name != "report.html")  # it tells of the runs
        return exported, {str(path.relative_to(self.out)): path.read_bytes() for path in names}


def workers_of(process: subprocess.Popen[bytes], number: int) -> list[psutil.Process]:
    """Return the workers of a run that has just begun, as soon as so many are at work."""
    started, workers = time.monotonic(), list[psutil.Process]()
    while len(workers) < number or min(worker.cpu_times().user for worker in workers) < _STARTED:
        assert process.poll() is None, "the run is over"
        assert time.monotonic() - started < 60
        time.sleep(0.05)
        children = psutil.Process(process.pid).children(recursive=True)
        workers = [child for child in children if _is_worker(child)]
    return workers


def _is_worker(child: psutil.Process) -> bool:
    try:
        return "verifier.intake.workers.worker" in child.cmdline()
    except psutil.NoSuchProcess:  # it has ended since it was listed
        return False


def orphans_of(process: subprocess.Popen[bytes], *, group: bool) -> int:
    """Kill a run that is at work, alone or with its group, and return how many workers outlive it."""
    workers = psutil.Process(process.pid).children(recursive=True)  # it is there until it is waited for
    if group:
        os.killpg(process.pid, signal.SIGKILL)
    else:
        process.kill()
    process.wait()
    if process.stderr is not None:
        process.stderr.close()
    _, left = psutil.wait_procs(workers, timeout=_WITHIN)
    for orphan in left:  # counted, but not left to the next test
        orphan.kill()
    return len(left)
