"""The reason of a step that speaks of one sum: which combinations fall, or why a digit cannot stand.

Made late, for words and records. What `arrangements` finds by going through all is told by what is too
much or too little, or by a few cases; what takes more must be written down.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache, reduce
from operator import or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.reasoning.combinations import open_combinations
from grader.reasoning.exclusions import Excluded, Rest, excluded_combinations, rest_of_step, why_excluded
from verifier.puzzle.masks import digits_of, mask_of

__all__ = ["CASES_AT_MOST", "Elimination", "Reason", "argument_against", "reason_of"]

CASES_AT_MOST = 3
"""A person goes through no more cases without writing them down."""
LEFT_AT_MOST = 4
"""Where more combinations are left, it is told why digits go, not which combinations do."""

_TELLS_COMBINATIONS = {"single-combination", "cage-combinations"}
"""The techniques that list combinations of a cage."""
_SETTLES = {"last-cells-of-cage", "few-arrangements"}
"""Those that place what all arrangements of a cage have in common."""
_NEEDS_A_DIGIT = {"only-cell-in-cage", "only-cell-by-combinations"}
"""Those that place a digit which all combinations of a cage have."""
_TELLS_WHAT_IS_LEFT = {"hidden-cage-digits"}
"""Those whose digits leave some combinations, all others of which fall for that."""
_TELLS_DIGITS = {"cage-arrangements", "derived-sum-2", "derived-sum-3-4"}
"""Those that go through the arrangements of cells with a known sum."""
_SPEAKS_OF_A_SUM = _TELLS_COMBINATIONS | _TELLS_DIGITS | _SETTLES | _NEEDS_A_DIGIT | _TELLS_WHAT_IS_LEFT


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a step that speaks of one sum holds.

    Parameters
    ----------
    rest : Rest
        The cells and what they make.
    left : tuple of int
        The combinations that are left, where the step is told by them; else none.
    excluded : tuple of Excluded
        The combinations that fall: all others, or those that have the digits in question.
    arguments : tuple of Elimination
        Why each digit that goes cannot stand, where the step is told by that.
    without : int or None
        Where a digit is certain for that reason: what the cells make without it, at the least or at the most.
    """

    rest: Rest
    left: tuple[int, ...] = ()
    excluded: tuple[Excluded, ...] = ()
    arguments: tuple[Elimination, ...] = ()
    without: int | None = None

    @property
    def short(self) -> bool:
        """Whether its arguments can be followed by ear."""
        return all(each.bounded or 0 < each.weight <= CASES_AT_MOST for each in self.arguments)


@dataclass(frozen=True, slots=True)
class Elimination:
    """Why a digit cannot stand in a cell.

    Parameters
    ----------
    cell, digit : int
        The candidate.
    least, most : int or None
        What all the cells make with it at the least, where that is too much, or at the most, where that is
        too little.
    cases : tuple of Excluded
        Otherwise, the combinations that the other cells would have to hold, and why each falls.
    """

    cell: int
    digit: int
    least: int | None = None
    most: int | None = None
    cases: tuple[Excluded, ...] = ()

    def supposing(self, rest: Rest, board: Board) -> tuple[Rest, Board]:
        """Return what the other cells would have to make, and the board with the digit written in."""
        others = tuple(cell for cell in rest.cells if cell != self.cell)
        supposed = board.after([Step("supposed", places=((self.cell, self.digit),))])
        return Rest(others, rest.total - self.digit, (*rest.filled, self.cell)), supposed

    @property
    def weight(self) -> int:
        """How many cases there are to go through; those that fail for want of a digit count as one."""
        open_cases = sum(not case.blocked for case in self.cases)
        return open_cases + (open_cases < len(self.cases))

    @property
    def bounded(self) -> bool:
        """Whether the other cells make too much or too little in any case."""
        return self.least is not None or self.most is not None


def reason_of(step: Step, board: Board) -> Reason | None:
    """Return the reason of a step; None for one that speaks of no sum, or of several.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.cages import find_cage_combinations
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text(". . 6", [Cage((0, 1), 14)])
    >>> step = next(find_cage_combinations(board))
    >>> reason = reason_of(step, board)
    >>> [digits_of(each) for each in reason.left], [digits_of(each.combination) for each in reason.excluded]
    ([(5, 9)], [(6, 8)])
    """
    name = step.technique
    goes = name in _TELLS_DIGITS
    rest = rest_of_step(step, board) if name in _SPEAKS_OF_A_SUM else None
    if rest is None:
        return None
    if name in _TELLS_WHAT_IS_LEFT:
        masks = tuple(board.candidates[cell] for cell in rest.cells)
        found = open_combinations(masks, rest.total, board.layout.grid.digits)
        kept = tuple(each for each in found if each & step.digits == step.digits)
        return Reason(rest, kept if len(kept) <= LEFT_AT_MOST else ())
    gone = [(cell, digit) for cell, mask in step.removes for digit in digits_of(mask)]
    inside = [(cell, digit) for cell, digit in gone if cell in rest.cells]
    excluded = excluded_combinations(rest, board, whole=goes or name in _SETTLES)
    fallen = {each.combination for each in excluded}
    left = tuple(combination for combination in rest.listed(board) if combination not in fallen)
    said = reduce(or_, left, 0)
    if 0 < len(left) <= LEFT_AT_MOST and not any(said >> digit & 1 for _, digit in inside):
        return Reason(rest, left, excluded)
    arguments = tuple(argument_against(cell, digit, rest, board) for cell, digit in inside)
    if goes or (inside and all(each.bounded for each in arguments)):
        return Reason(rest, arguments=arguments)
    digits = mask_of(digit for _, digit in gone) | (step.digits if name in _NEEDS_A_DIGIT else 0)
    if not inside:
        masks = tuple(sorted(board.candidates[cell] & ~digits for cell in rest.cells))
        least, most = _least(masks, 0), _most(masks, board.layout.grid.digits)
        for made, out in (
            (least, least is not None and least > rest.total),
            (most, most is not None and most < rest.total),
        ):
            if out:
                return Reason(rest, without=made)
    needed = [each for each in excluded if bool(each.combination & digits) == bool(inside)]
    return Reason(rest, (), tuple(needed))


def argument_against(cell: int, digit: int, rest: Rest, board: Board) -> Elimination:
    """Return why a digit that no arrangement puts into a cell cannot stand there.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("12 12 123")
    >>> argument_against(2, 1, Rest((0, 1, 2), 6), board).most
    >>> [digits_of(case.combination) for case in argument_against(2, 1, Rest((0, 1, 2), 6), board).cases]
    [(2, 3)]
    """
    bit = 1 << digit
    others = [board.candidates[other] for other in rest.cells if other != cell]
    if rest.differ:
        masks = tuple(sorted(mask & ~bit for mask in others))
        least, most = _least(masks, 0), _most(masks, board.layout.grid.digits)
    else:  # at the least and at the most, though not all of the cells may be alike
        least = sum((mask & -mask).bit_length() - 1 for mask in others)
        most = sum(mask.bit_length() - 1 for mask in others)
    if least is not None and least + digit > rest.total:
        return Elimination(cell, digit, least=least + digit)
    if most is not None and most + digit < rest.total:
        return Elimination(cell, digit, most=most + digit)
    left, supposed = Elimination(cell, digit).supposing(rest, board)
    cases = [
        why
        for held in left.listed(board)
        if not held & bit
        if (why := why_excluded(held, left, supposed, whole=True)) is not None
    ]
    return Elimination(cell, digit, cases=tuple(cases))


@lru_cache(maxsize=1 << 12)
def _least(masks: tuple[int, ...], used: int) -> int | None:
    """Return the least that cells with these candidates make, all different; None if they cannot be."""
    if not masks:
        return 0
    found = [
        digit + rest
        for digit in digits_of(masks[0] & ~used)
        if (rest := _least(masks[1:], used | 1 << digit)) is not None
    ]
    return min(found, default=None)


def _most(masks: tuple[int, ...], digits: int) -> int | None:
    """Return the most that they make: the least, counted from the largest digit."""
    turned = tuple(mask_of(digits + 1 - digit for digit in digits_of(mask)) for mask in masks)
    least = _least(tuple(sorted(turned)), 0)
    return None if least is None else len(masks) * (digits + 1) - least
