"""How much a step asks of a person: the one measure by which readings and arguments are compared.

What counts, in this order:

- the tier of the technique: a step of the next tier is worth two of this one;
- the cells whose open digits are held in mind, since a digit more in one of them changes everything. Who
  follows one digit through a house only looks where it is open: then the cells of the pattern alone count;
- the cages, since each brings a total that must be added or listed;
- the houses, which need only be looked at; a line a little more than a box, whose cells stand together;
- last, a little for each cell that is looked at, and as much again where that is open.

The load of an argument is that of its steps added up, each told once.
"""

from __future__ import annotations

from collections.abc import Iterable

from grader.board.board import Board
from grader.board.steps import Step, WalkStep
from grader.board.technique import Trait
from grader.grading.tiers import default_tiers
from grader.ladder import TECHNIQUES

__all__ = ["load_of", "load_of_all"]

_FIRST_TIER = 200
"""The load of a technique of the first tier as such; twice that for the second, and so on."""
_CELL, _CAGE, _HOUSE, _LINE, _LOOK = 30, 20, 10, 2, 2


def load_of(step: Step, board: Board) -> int:
    r"""Return the load of a step on the board on which it is told.

    Examples
    --------
    A digit with one place in a box is lighter than the same digit by the open digits of its cell.

    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.singles import HIDDEN_SINGLE_BOX, NAKED_SINGLE
    >>> both = HIDDEN_SINGLE_BOX, NAKED_SINGLE
    >>> board = board_from_text("1? 2 3\n4 5 67\n67 8 9")
    >>> [load_of(next(iter(technique.find(board))), board) for technique in both]
    [260, 432]
    """
    layout = board.layout
    technique = TECHNIQUES[step.technique]
    cells = {*step.focus}
    rules = [*step.rules]
    if Trait.FOLLOWS_ITS_DIGITS not in technique.traits:
        cells.update(step.looks)
    for derived in step.sums:
        cells.update(cell for cell, _ in derived.linear.weights)
        rules += derived.rules
    houses = layout.houses_among(rules)
    lines = sum(layout.houses[house].kind != "box" for house in houses)
    return (
        (_FIRST_TIER << default_tiers().tier_of[step.technique] - 1)
        + _CELL * len(board.unsolved(cells))
        + _CAGE * (len(rules) - len(houses))
        + _HOUSE * len(houses)
        + _LINE * lines
        + _LOOK * (len(step.looks) + len(board.unsolved(set(step.looks) - cells)))
    )


def load_of_all(steps: Iterable[WalkStep]) -> int:
    """Return the load of an argument."""
    return sum(load_of(taken.step, taken.board) for taken in steps)
