"""Witnesses for the tests of the workers: functions that a worker process can import.

The id of a puzzle says what becomes of the process that judges it.
"""

from __future__ import annotations

import os
import time
from dataclasses import replace

from verifier.evidence.witnesses import Witnesses
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally

__all__ = ["DEADLY", "DEADLY_ONCE", "MARK"]

MARK = "GRIDPROOF_TEST_MARK"
"""The environment variable that names the file which says that a worker has died."""


def _count_or_die(puzzle: Puzzle, limit: int, allowance: WorkAllowance) -> Tally:
    match puzzle.credits.id:
        case "deadly":
            os._exit(9)  # as when the system ends a process that wants too much memory
        case "hanging":
            time.sleep(600)
        case "bloated":
            kept = b"x" * (400 << 20)
            time.sleep(600 + len(kept))
    return Witnesses.real().count(puzzle, limit, allowance)


def _count_or_die_once(puzzle: Puzzle, limit: int, allowance: WorkAllowance) -> Tally:
    mark = os.environ[MARK]
    if puzzle.credits.id == "deadly" and not os.path.exists(mark):
        with open(mark, "w"):
            os._exit(9)
    return Witnesses.real().count(puzzle, limit, allowance)


DEADLY = replace(Witnesses.real(), count=_count_or_die)
DEADLY_ONCE = replace(Witnesses.real(), count=_count_or_die_once)
