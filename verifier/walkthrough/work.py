"""A walkthrough: how many solutions a puzzle has, its grade, and the steps that lead to the solution."""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from grader.board.board import Board, opening_board
from grader.board.steps import Step, WalkStep
from grader.grading.grade import Grade, grade
from grader.grading.replay import Replay, replay
from grader.walking.walk import Walk, walk
from verifier.evidence.establish import ask_witnesses, weigh
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.breaches import solves
from verifier.puzzle.masks import digits_of
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally
from verifier.walkthrough.narrow import narrow_places

__all__ = ["Rounds", "Walkthrough", "work_through"]

Rounds = dict[tuple[int, int], int]
"""For a cell and a digit, the round of the replay by the end of which the digit is closed there; a placed
digit is entered as ``(cell, 0)``."""


@dataclass(frozen=True, slots=True)
class Walkthrough:
    """A puzzle worked through for telling.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    tally : Tally
        How many solutions there are; complete only where the witnesses agree.
    grade : Grade or None
        None for a puzzle that is not proved to have one solution.
    whole : Walk
        Every step.
    told : Walk
        The steps that are told.
    cell : int or None
        The cell whose story is told; None for the whole puzzle.
    rounds : Rounds
        When the replay in rounds got there.
    narrow : mapping of int to str
        The numbers of the told steps at which people get stuck, with what is said there.
    audit : tuple of int or None
        The numbers of the told steps that failed their audit; None where there was none.
    start : Board or None
        The part-filled grid from which it walks on; None from the givens.
    """

    puzzle: Puzzle
    tally: Tally
    grade: Grade | None
    whole: Walk
    told: Walk
    cell: int | None
    rounds: Rounds
    narrow: Mapping[int, str] = field(default_factory=dict)
    audit: tuple[int, ...] | None = None
    start: Board | None = None

    @property
    def sound(self) -> bool:
        """Whether the puzzle has exactly one solution."""
        return self.tally.only_solution is not None

    @property
    def last_board(self) -> Board:
        """The board to which all steps lead."""
        if not self.whole.steps:
            return self.start or opening_board(self.puzzle)
        last = self.whole.steps[-1]
        return last.board.after([last.step])

    def round_of(self, step: Step) -> int | None:
        """Return the round of the replay by the end of which all that a step does was done.

        Returns
        -------
        int or None
            Counted from 1; None where the replay never got there.
        """
        facts = [(cell, 0) for cell, _ in step.places]
        facts += [(cell, digit) for cell, gone in step.removes for digit in digits_of(gone)]
        found = [self.rounds.get(fact) for fact in facts]
        return max((number for number in found if number is not None), default=None) if all(found) else None


def work_through(
    puzzle: Puzzle,
    *,
    full: bool = False,
    cell: int | None = None,
    audit: bool = False,
    start: Board | None = None,
    seconds: float = 300,
) -> Walkthrough:
    """Work a puzzle through for telling.

    Parameters
    ----------
    puzzle : Puzzle
        Sound or not: what can be deduced is deduced all the same.
    full : bool, optional
        Whether to tell every step, also those on which nothing rests.
    cell : int, optional
        Tell only what the digit of this cell rests on.
    audit : bool, optional
        Whether to have each told step proved from what it cites.
    start : Board, optional
        From where to walk, when not from the givens: what somebody has filled in so far, all of it right.
    seconds : float, optional
        Guard on the wall clock; the audit comes on top.

    Raises
    ------
    RuntimeError
        If the witnesses do not agree, or a walk by forced steps ends in another grid than the count found:
        a defect of this program.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> told = work_through(make_puzzle("classic", Grid.square(4), givens=givens))
    >>> told.tally.count, told.grade.name, len(told.told.steps), told.round_of(told.told.steps[0].step)
    (1, 'doorstep', 10, 1)
    """
    deadline = time.monotonic() + seconds
    tally, played = _asked(puzzle, seconds)
    played = played or replay(puzzle, deadline=deadline)
    whole = walk(puzzle, board=start, played=played, deadline=deadline)
    _hold_against(puzzle, tally, whole)
    told = _told(whole, full, cell, deadline)
    sound = tally.only_solution is not None and played.filling is not None
    found = Walkthrough(
        puzzle,
        tally,
        grade(played) if sound else None,
        whole,
        told,
        cell,
        _rounds(played),
        audit=_failed(told.steps) if audit else None,
        start=start,
    )
    whole_told = sound and whole.filling is not None and cell is None and not full
    return replace(found, narrow=narrow_places(told.steps)) if whole_told else found


def _asked(puzzle: Puzzle, seconds: float) -> tuple[Tally, Replay | None]:
    """Return what the witnesses establish, and the replay where it was made with trial."""
    said = tuple(ask_witnesses(puzzle, 2, WorkAllowance(seconds=seconds)))
    evidence, tally = weigh(puzzle, said), said[0]
    if evidence.count is None:
        raise RuntimeError(f"the witnesses do not agree about {puzzle.credits.id!r}")
    if not evidence.decided and tally.complete:  # the second witness came to no end
        tally = replace(tally, stop=Stop.BUDGET)
    return tally, evidence.replay if tally.count else None


def _failed(steps: Sequence[WalkStep]) -> tuple[int, ...]:
    # The auditor's solver brings half a second of imports along, which a walk without it can do without.
    from verifier.audit.audit import failed_audits

    return tuple(number for number, _ in failed_audits(steps))


def _told(whole: Walk, full: bool, cell: int | None, deadline: float) -> Walk:
    if cell is not None:
        return whole.story_of(cell, deadline=deadline)
    return whole if full else whole.shortened()


def _hold_against(puzzle: Puzzle, tally: Tally, whole: Walk) -> None:
    """Make sure that the two ways to the solution agree; nothing may be told if they do not."""
    if whole.filling is None:
        return
    if not solves(puzzle, whole.filling) or (tally.complete and tally.solutions != (whole.filling,)):
        raise RuntimeError(f"the walk through {puzzle.credits.id!r} ends in another grid than the count")


def _rounds(played: Replay) -> Rounds:
    """Return when each candidate was closed and each digit placed."""
    rounds: Rounds = {}
    boards = [each.board for each in played.rounds[1:]]
    for number, each in enumerate(played.rounds, start=1):
        after = boards[number - 1] if number <= len(boards) else each.board.after(each.steps)
        for cell, mask in enumerate(each.board.candidates):
            for digit in digits_of(mask & ~after.candidates[cell]):
                rounds.setdefault((cell, digit), number)
            if after.placed >> cell & 1 and not each.board.placed >> cell & 1:
                rounds.setdefault((cell, 0), number)
    return rounds
