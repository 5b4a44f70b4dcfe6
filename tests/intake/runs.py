"""Runs of the command over one box, and their sudden end; for a test of a few and a study of many."""

from __future__ import annotations

import os
import signal
import subprocess
from pathlib import Path

import psutil

from tests.cli.command import Finished, called, environment, words

__all__ = ["Runs", "orphans_of"]

_WITHIN = 5.0  # seconds in which workers must be gone when the one who started them is


class Runs:
    """The command over one box, into one folder."""

    def __init__(self, box: Path, folder: Path) -> None:
        folder.mkdir(exist_ok=True)
        self.box, self.out, self.ledger = box, folder / "out", folder / "ledger.db"

    @property
    def words(self) -> list[str]:
        return words("intake", self.box, "--out", self.out, "--ledger", self.ledger, "--jobs", 2)

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
        names = (path for path in self.out.rglob("*") if path.is_file())
        return exported, {str(path.relative_to(self.out)): path.read_bytes() for path in names}


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
    return len(psutil.wait_procs(workers, timeout=_WITHIN)[1])
