"""Witnesses for the tests of the pool: functions that a worker process can import."""

from __future__ import annotations

import os
from dataclasses import replace

from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally
from verifier.verdict.witnesses import Witnesses

__all__ = ["DEADLY", "DEADLY_ONCE", "MARK"]

MARK = "GRIDPROOF_TEST_MARK"
"""The environment variable that names the file which says that a worker has died."""


def _count_or_die(puzzle: Puzzle, limit: int, seconds: float) -> Tally:
    if puzzle.credits.id == "deadly":
        os._exit(9)  # as when the system ends a process that wants too much memory
    return Witnesses.real().count(puzzle, limit, seconds)


def _count_or_die_once(puzzle: Puzzle, limit: int, seconds: float) -> Tally:
    mark = os.environ[MARK]
    if puzzle.credits.id == "deadly" and not os.path.exists(mark):
        with open(mark, "w"):
            os._exit(9)
    return Witnesses.real().count(puzzle, limit, seconds)


DEADLY = replace(Witnesses.real(), count=_count_or_die)
DEADLY_ONCE = replace(Witnesses.real(), count=_count_or_die_once)
