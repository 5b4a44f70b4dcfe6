"""The premises of a step as plain facts: all that the auditor is told."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from grader.board.board import Board
from grader.board.steps import DerivedSum, Step
from verifier.puzzle.masks import bits
from verifier.puzzle.rules.rule import Rule

__all__ = ["Claim", "Premise", "Premises", "claims_of", "follows_from_its_rules", "premises_of"]

Claim = tuple[int, int, bool]
"""A cell, a digit, and whether the digit stands there (True) or cannot (False)."""

Premise = Rule | int
"""A rule, or a cell that is looked at."""


@dataclass(frozen=True, slots=True)
class Premises:
    """What a step rests on.

    Parameters
    ----------
    digits : int
        The largest digit of the grid.
    rules : tuple of Rule
        Those that may be used, derived sums among them.
    looks : tuple of (int, tuple of int)
        Cells with the digits open in them; in every other cell all digits are open.
    """

    digits: int
    rules: tuple[Rule, ...]
    looks: tuple[tuple[int, tuple[int, ...]], ...]

    def __iter__(self) -> Iterator[Premise]:
        """Yield the premises one by one: rules, then cells looked at."""
        yield from self.rules
        yield from (cell for cell, _ in self.looks)

    def without(self, premise: Premise) -> Premises:
        """Return the premises without one of them."""
        return replace(
            self,
            rules=tuple(rule for rule in self.rules if rule is not premise),
            looks=tuple((cell, digits) for cell, digits in self.looks if cell != premise),
        )


def premises_of(step: Step, board: Board) -> Premises:
    """Return the premises that a step cites, on the board on which it is taken.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.subsets import find_naked_pairs
    >>> board = board_from_text("26 4 268 26 1 3 5 7 9")
    >>> told = premises_of(next(find_naked_pairs(board)), board)
    >>> [rule.called(board.layout.grid) for rule in told.rules], told.looks
    (['row 1'], ((0, (2, 6)), (3, (2, 6))))
    """
    layout = board.layout
    return Premises(
        digits=layout.grid.digits,
        rules=(*(layout.rules[rule] for rule in step.rules), *(derived.linear for derived in step.sums)),
        looks=tuple((cell, tuple(bits(board.candidates[cell]))) for cell in step.looks),
    )


def claims_of(step: Step) -> tuple[Claim, ...]:
    """Return what a step claims: each digit it places, each digit it removes."""
    placed = [(cell, digit, True) for cell, digit in step.places]
    removed = [(cell, digit, False) for cell, gone in step.removes for digit in bits(gone)]
    return (*placed, *removed)


def follows_from_its_rules(derived: DerivedSum, board: Board) -> bool:
    """Whether a derived sum is what its own houses and cages add up to, some of them taken away.

    Parameters
    ----------
    derived : DerivedSum
        The sum; its rules by their numbers in the layout.
    board : Board
        Any of the puzzle.

    Notes
    -----
    Every house and every cage is an equation. The sum follows if it is a combination of theirs, which
    the elimination of Gauss decides, in fractions.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.rules.linear_sum import LinearSum
    >>> board = board_from_text("", [Cage((0, 1, 2), 6)], size=4)
    >>> cage = board.layout.cage_numbers[0]
    >>> follows_from_its_rules(DerivedSum(LinearSum(((3, 1),), 4), (0, cage)), board)
    True
    >>> follows_from_its_rules(DerivedSum(LinearSum(((3, 1),), 5), (0, cage)), board)
    False
    """
    layout = board.layout
    houses, cages = layout.houses_among(derived.rules), layout.cages_among(derived.rules)
    totals = dict.fromkeys(houses, layout.grid.house_total)
    totals |= {cage: layout.cage(cage).total for cage in cages}
    rows = [
        _equation([(cell, 1) for cell in layout.rules[rule].cells], totals[rule]) for rule in derived.rules
    ]
    stated = _equation(derived.linear.weights, derived.linear.total)
    solved: list[tuple[int, _Equation]] = []
    for row in rows:
        left = _reduced(row, solved)
        cells = [cell for cell in left if cell != _TOTAL]
        if cells:
            solved.append((cells[0], left))
    return not _reduced(stated, solved)


_Equation = dict[int, Fraction]
_TOTAL = -1  # where an equation keeps its total


def _equation(weights: Iterable[tuple[int, int]], total: int) -> _Equation:
    equation = {cell: Fraction(weight) for cell, weight in weights} | {_TOTAL: Fraction(total)}
    return {cell: weight for cell, weight in equation.items() if weight}


def _reduced(equation: _Equation, solved: list[tuple[int, _Equation]]) -> _Equation:
    """Return what is left of an equation when the solved ones are taken away, each by its first cell."""
    left = dict(equation)
    for cell, known in solved:
        share = left.get(cell, Fraction(0)) / known[cell]
        if share:
            for other, weight in known.items():
                rest = left.get(other, Fraction(0)) - share * weight
                if rest:
                    left[other] = rest
                else:
                    left.pop(other, None)
    return left
