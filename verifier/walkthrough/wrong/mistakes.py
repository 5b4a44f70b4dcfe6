"""What is wrong in a part-filled grid: digits and pencil marks, and what rules them out."""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from verifier.files.so_far import SoFar
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.walkthrough.wrong.refuting import Disproof, clash_of, refuted

__all__ = ["MOST_REFUTED", "Mistake", "mistakes_in"]

MOST_REFUTED = 10
"""Of so many wrong digits it is looked for what refutes them; of the others only clashes are named."""


@dataclass(frozen=True, slots=True, eq=False)
class Mistake:
    """One cell in which something is wrong.

    Parameters
    ----------
    cell : int
        The cell.
    digit : int or None
        The digit that cannot be right; None where the pencil marks lack the right one.
    given : int or None
        The given in whose place it stands.
    why : Disproof or None
        What rules the digit out; None where that is not known, and for givens and pencil marks.
    sure : bool
        Whether the digit is proved wrong; of two that clash, it may be the other.
    """

    cell: int
    digit: int | None
    given: int | None = None
    why: Disproof | None = None
    sure: bool = True


def mistakes_in(
    puzzle: Puzzle, so_far: SoFar, solution: Filling | None, seconds: float = 300
) -> tuple[Mistake, ...]:
    """Return what is wrong in a part-filled grid: digits in reading order, then pencil marks.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    so_far : SoFar
        What stands in the grid.
    solution : Filling or None
        The one solution; without it only what is wrong at sight is found: a given written over, and digits
        that clash, each of which is then a mistake.
    seconds : float, optional
        Guard on the wall clock; what is not refuted by then is named without a reason.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1})
    >>> wrong = mistakes_in(puzzle, SoFar(((0, 2), (5, 3), (6, 3))), None)
    >>> [(each.cell, each.digit, each.given, each.why and each.why.rules[0].name) for each in wrong]
    [(0, 2, 1, None), (5, 3, None, 'row 2'), (6, 3, None, 'row 2')]
    """
    found = [*_digits(puzzle, so_far, solution, time.monotonic() + seconds)]
    if solution is not None:
        found += [Mistake(cell, None) for cell, marks in so_far.marks if solution[cell] not in marks]
    return tuple(found)


def _digits(puzzle: Puzzle, so_far: SoFar, solution: Filling | None, deadline: float) -> Iterator[Mistake]:
    givens = dict(puzzle.givens)
    entries = givens | {cell: digit for cell, digit in so_far.entries if cell not in givens}
    right = entries if solution is None else {c: d for c, d in entries.items() if d == solution[c]}
    looked_for = 0
    for cell, digit in sorted(so_far.entries):
        if cell in givens:
            if digit != givens[cell]:
                yield Mistake(cell, digit, given=givens[cell])
            continue
        if solution is not None and digit == solution[cell]:
            continue
        why = clash_of(puzzle, right, cell, digit) or clash_of(puzzle, entries, cell, digit)
        if why is None and solution is not None:
            looked_for += 1
            why = _searched(puzzle, right, cell, digit, deadline) if looked_for <= MOST_REFUTED else None
        if why is not None or solution is not None:
            yield Mistake(cell, digit, why=why, sure=solution is not None)


def _searched(
    puzzle: Puzzle, right: Mapping[int, int], cell: int, digit: int, deadline: float
) -> Disproof | None:
    left = deadline - time.monotonic()
    return refuted(puzzle, right, cell, digit, WorkAllowance(seconds=left)) if left > 0 else None
