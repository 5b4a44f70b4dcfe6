"""Small puzzles of every kind, and witnesses that lie about them, for the tests of the verdict."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, NoReturn

from grader.board.board import opening_board
from grader.board.layout import layout_of
from grader.grading.replay import Outcome, Replay, Round
from verifier.evidence.witnesses import Count, Replayer, Witnesses, WitnessFailedError
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.tally import Stop, Tally
from verifier.verdict.judge import Settings, judge
from verifier.verdict.verdict import Verdict

__all__ = [
    "NONE",
    "ONE",
    "OTHER",
    "SOLUTION",
    "TWO",
    "codes",
    "failing",
    "judged",
    "replay_by_trial",
    "replay_ending",
    "saying",
    "says",
    "witnesses_but",
]

_FOUR = Grid.square(4)

_CAGES = (Cage((0, 1), 3), Cage((3, 7), 6), Cage((14, 15), 3))

ONE = make_puzzle(
    "killer", _FOUR, cages=(*_CAGES, Cage((9, 13), 4)), credits=Credits("one", "Low tide", "Wren Alder")
)
TWO = make_puzzle("killer", _FOUR, cages=(*_CAGES, Cage((9, 13), 5)), credits=Credits("two"))
NONE = make_puzzle("killer", _FOUR, cages=(*_CAGES, Cage((9, 13), 7)), credits=Credits("none"))

SOLUTION: Filling = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
"""The solution of `ONE`."""

OTHER: Filling = (*SOLUTION[:14], 1, 2)
"""A grid that breaks houses."""


def saying(*solutions: Filling, stop: Stop = Stop.FINISHED) -> Count:
    """Return a counting witness that always says the same."""
    return lambda *_: Tally("liar", solutions, stop)


def failing(*_: object) -> NoReturn:
    """Say nothing: the solver gives an error."""
    raise WitnessFailedError("the solver gave up")


def replay_ending(outcome: Outcome, filling: Filling | None = None) -> Replayer:
    """Return a replayer that always ends the same, without a single round."""
    return lambda puzzle, *_: Replay(layout_of(puzzle), outcome, filling, ())


def replay_by_trial(filling: Filling | None) -> Replayer:
    """Return a replayer that needs trial, and ends with a grid or a contradiction."""

    def tried(puzzle: Puzzle, *_: object) -> Replay:
        board = opening_board(puzzle)
        outcome = Outcome.CONTRADICTION if filling is None else Outcome.SOLVED
        return Replay(board.layout, outcome, filling, (Round("trial", (), 0, board),))

    return tried


def witnesses_but(**others: Any) -> Witnesses:
    """Return the real witnesses with some of them replaced."""
    return replace(Witnesses.real(), **others)


def judged(puzzle: Puzzle, **others: Any) -> Verdict:
    """Return the verdict on a puzzle when some witnesses are replaced."""
    return judge(puzzle, settings=Settings(witnesses=witnesses_but(**others)))


def codes(verdict: Verdict) -> list[str]:
    """Return the verdict's word and the codes of its reasons."""
    return [verdict.state.value, *(reason.code for reason in verdict.reasons)]


def says(verdict: Verdict) -> dict[str, int | None]:
    """Return what each witness says."""
    return {witness.name: witness.says for witness in verdict.witnesses}
