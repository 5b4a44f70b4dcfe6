"""Why combinations fall: what keeps cells with a known total from holding them.

Made late, for words and records, from a step and its board: to find a step nobody need know
which digit stood in the way of which combination.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import combinations
from operator import or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.reasoning.combinations import LISTED_AT_MOST, combinations_of, how_many, rest_of_cage
from verifier.puzzle.masks import bits, digits_of

__all__ = ["Excluded", "Rest", "excluded_combinations", "rest_of_step", "standing", "why_excluded"]


@dataclass(frozen=True, slots=True)
class Rest:
    """Cells without a digit that make a known total: what is left of a cage, or of a sum.

    Parameters
    ----------
    cells : tuple of int
        The cells.
    total : int
        What they make.
    filled : tuple of int
        The cells of the cage that have their digit: none of these digits comes again.
    differ : bool
        Whether no two of the cells hold the same digit.
    """

    cells: tuple[int, ...]
    total: int
    filled: tuple[int, ...] = ()
    differ: bool = True

    def listed(self, board: Board) -> tuple[int, ...]:
        """Return the combinations of the total, whatever is open; none where nobody would list them."""
        size, digits = len(self.cells), board.layout.grid.digits
        if not self.differ or how_many(self.total, size, digits) > LISTED_AT_MOST:
            return ()
        return combinations_of(self.total, size, digits)


@dataclass(frozen=True, slots=True)
class Excluded:
    """A combination that falls, and what excludes it.

    Parameters
    ----------
    combination : int
        Mask of its digits.
    digits, cells : int
        Masks: digits of it that have fewer places than they are, and these places; or cells that have fewer
        of its digits than they are, and these digits. Where `by_cells`, the cells come first.
    by_cells : bool
        Whether cells lack digits, rather than digits places.
    by : tuple of int
        The cells that a person points at: where a digit stands that is not open in any of the cells, or else
        those of the cells themselves in which too little is open.
    """

    combination: int
    digits: int
    cells: int
    by_cells: bool
    by: tuple[int, ...]

    @property
    def blocked(self) -> bool:
        """Whether it falls because a digit of it has no place at all."""
        return not self.by_cells and not self.cells


def rest_of_step(step: Step, board: Board) -> Rest | None:
    """Return the cells of which a step says that they make a total; None if it speaks of none, or several.

    That is the rest of its only cage, or the unknown cells of its only sum, if they stand on one side.
    """
    layout = board.layout
    cages = layout.cages_among(step.rules)
    if len(cages) == 1 and not step.sums:
        cells, total, _ = rest_of_cage(board, cages[0])
        return Rest(tuple(cells), total, tuple(c for c in layout.rules[cages[0]].cells if c not in cells))
    if len(step.sums) != 1 or cages:
        return None
    left, rest = step.sums[0].left(board)
    if len(set(left.values())) != 1:
        return None
    differ = all(layout.sees[one] >> other & 1 for one, other in combinations(left, 2))
    return Rest(tuple(left), abs(rest), differ=differ)


def excluded_combinations(rest: Rest, board: Board, *, whole: bool) -> tuple[Excluded, ...]:
    """Return the combinations of a total that its cells cannot hold, each with what excludes it.

    Parameters
    ----------
    rest : Rest
        The cells and what they make.
    board : Board
        The board on which it is asked.
    whole : bool
        Whether only whole arrangements count. If not, a combination falls where a digit of it has no place,
        or a cell takes none of it.

    Returns
    -------
    tuple of Excluded
        In the order of the combinations. Few digits explain many of them, where that is possible: first the
        one that stands in the way of most.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text(". . 6")
    >>> for each in excluded_combinations(Rest((0, 1), 14), board, whole=False):
    ...     print(digits_of(each.combination), digits_of(each.digits), each.by)
    (6, 8) (6,) (2,)
    """
    found = {
        c: why for c in rest.listed(board) if (why := why_excluded(c, rest, board, whole=whole)) is not None
    }
    nowhere = reduce(or_, found, 0) & ~_open_digits(rest, board)
    waiting = [combination for combination in found if combination & nowhere]
    while waiting:
        digit = max(bits(nowhere), key=lambda digit: (*_weight(digit, waiting, rest, board), -digit))
        by = _blocking(digit, rest, board)
        for combination in waiting:
            if combination >> digit & 1:
                found[combination] = Excluded(combination, 1 << digit, 0, False, by)
        waiting = [combination for combination in waiting if not combination >> digit & 1]
    return tuple(found.values())


def _open_digits(rest: Rest, board: Board) -> int:
    """Return the digits that may come into the cells: those open there that the cage does not hold yet."""
    used = reduce(or_, (board.candidates[cell] for cell in rest.filled), 0)
    return reduce(or_, (board.candidates[cell] for cell in rest.cells), 0) & ~used


def _weight(digit: int, waiting: Sequence[int], rest: Rest, board: Board) -> tuple[bool, int]:
    """Return how well a digit explains what falls: whether it can be pointed at, and for how much."""
    count = sum(combination >> digit & 1 for combination in waiting)
    return bool(count and standing(digit, rest, board)), count


def standing(digit: int, rest: Rest, board: Board) -> tuple[int, ...]:
    """Return cells where a digit stands such that each of the cells sees one; empty if there are none.

    As few as will do: one that all of the cells see, if there is one.
    """
    layout, bit = board.layout, 1 << digit
    for cell in rest.filled:
        if board.candidates[cell] == bit:
            return (cell,)
    around = {cell for own in rest.cells for cell in bits(layout.sees[own] & board.placed)}
    sources = sorted(cell for cell in around if board.candidates[cell] == bit)
    for count in range(1, min(len(sources), len(rest.cells)) + 1):
        for some in combinations(sources, count):
            if all(any(layout.sees[own] >> cell & 1 for cell in some) for own in rest.cells):
                return some
    return ()


def _blocking(digit: int, rest: Rest, board: Board) -> tuple[int, ...]:
    return standing(digit, rest, board) or rest.cells


def why_excluded(combination: int, rest: Rest, board: Board, *, whole: bool = False) -> Excluded | None:
    """Return what keeps the cells from holding a combination; None if nothing does.

    Parameters
    ----------
    combination : int
        Mask of as many digits as there are cells.
    rest, board, whole
        As for `excluded_combinations`.

    Notes
    -----
    It is the smallest set of digits with too few places, or of cells with too few digits: by Hall's theorem
    there is one wherever the digits cannot be shared out.
    """
    open_in = {cell: board.candidates[cell] & _open_digits(rest, board) & combination for cell in rest.cells}
    for size in range(1, len(rest.cells) + 1 if whole else 2):
        for digits in combinations(digits_of(combination), size):
            mask = reduce(or_, (1 << digit for digit in digits))
            places = tuple(cell for cell in rest.cells if open_in[cell] & mask)
            if len(places) < size:
                by = places or _blocking(digits[0], rest, board)
                return Excluded(combination, mask, reduce(or_, (1 << c for c in places), 0), False, by)
        for cells in combinations(rest.cells, size):
            taken = reduce(or_, (open_in[cell] for cell in cells))
            if taken.bit_count() < size:
                return Excluded(combination, taken, reduce(or_, (1 << c for c in cells)), True, cells)
    return None
