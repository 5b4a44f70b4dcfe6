"""Sums cut against one another: what two known sums share falls away, and a third is left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grader.board.board import Board
from grader.board.steps import DerivedSum, Step
from grader.board.technique import Technique, Trait
from grader.reasoning.assignments import left_by_sum, others_if_alone
from grader.reasoning.combinations import rest_of_cage
from grader.reasoning.rule_of_45 import InnieOutieSum, SumKind, fresh_sums
from verifier.puzzle.masks import bits
from verifier.puzzle.rules.linear_sum import LinearSum

__all__ = ["CUT_AT_MOST", "CUT_SUMS"]

CUT_AT_MOST = 4
"""A person follows a cut only where it leaves no more unknown cells than this."""


@dataclass(frozen=True, slots=True, eq=False)
class _Known:
    """A sum over unknown cells, `plus` less `minus`, and where it comes from.

    `cells` are all cells of it, with and without a digit.
    """

    plus: int
    minus: int
    total: int
    cells: int
    source: InnieOutieSum | int  # a cage, by its place in the layout


def find_cut_sums(board: Board) -> Iterator[Step]:
    """Two known sums that share cells give a third: the one less the other, or both together.

    Cages and sums by the rule of 45 that share cells: the shared cells fall away. A sum inside another
    leaves a third; sums over rows and over boxes leave the difference of the two::

        r1c8 + r1c9 make 10 (row 1), r1c9 + r9c9 make 4 (column 9): so r1c8 less r9c9 makes 6

    Yields
    ------
    Step
        In the order of the sums: cages, single houses, groups of houses. Only cuts that leave one to
        `CUT_AT_MOST` unknown cells, and only where every shared cell falls away.

    Notes
    -----
    Sound in every solution: both sums hold, so their sum and their difference do. This is one step of the
    elimination of Gauss over the sums of houses and cages, as far as a person follows it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("", [Cage(tuple(range(7)), 35), Cage(tuple(range(17, 72, 9)), 41)])
    >>> step = next(find_cut_sums(board))
    >>> step.focus  # r1c8 + r1c9 make 10 (row 1), r1c9 + r9c9 make 4 (column 9)
    (7, 80)
    >>> [list(bits(gone)) for _, gone in step.removes]
    [[1, 2, 3, 4, 5, 6], [4, 5, 6, 7, 8, 9]]
    """
    known = _known(board)
    done = {(one.plus, one.minus) for one in known}
    for place, one in enumerate(known):
        unknown, is_fresh = one.plus | one.minus, one.cells & board.fresh
        for other in known[:place]:
            if not unknown & (other.plus | other.minus) or not (is_fresh or other.cells & board.fresh):
                continue
            for sign in (-1, 1):
                plus, minus = _combined(one, other, sign)
                if not 0 < (plus | minus).bit_count() <= CUT_AT_MOST or (plus, minus) in done:
                    continue
                done.update([(plus, minus), (minus, plus)])
                yield from _cut(board, one, other, sign, plus, minus)


def _known(board: Board) -> list[_Known]:
    found = []
    for cage, mask in board.layout.summed_masks:
        left = mask & ~board.placed
        if left & (left - 1):
            found.append(_Known(left, 0, rest_of_cage(board, cage)[1], mask, cage))
    everywhere = board.looking_at(board.layout.all_cells)
    for kind in (SumKind.TWO, SumKind.UP_TO_FOUR, SumKind.BOTH_SIDES):
        for left_over in fresh_sums(everywhere, kind):
            plus, minus = left_over.unknown_plus, left_over.unknown_minus
            cells = left_over.plus | left_over.minus
            found.append(_Known(plus, minus, left_over.rest(board), cells, left_over))
    return list({(known.plus, known.minus): known for known in reversed(found)}.values())[::-1]


def _combined(one: _Known, other: _Known, sign: int) -> tuple[int, int]:
    """Return the cells added and subtracted in `one` + `sign` * `other`; none if a weight would be 2."""
    plus, minus = (other.plus, other.minus) if sign > 0 else (other.minus, other.plus)
    if one.plus & plus or one.minus & minus:
        return 0, 0
    return (one.plus & ~minus) | (plus & ~one.minus), (one.minus & ~plus) | (minus & ~one.plus)


def _cut(board: Board, one: _Known, other: _Known, sign: int, plus: int, minus: int) -> Iterator[Step]:
    kept = left_by_sum(board, plus, minus, one.total + sign * other.total)
    if kept.removes:
        derived = _derived(board, one, other, sign)
        yield Step(
            "cut-sums",
            removes=kept.removes,
            rules=kept.rules,
            sums=(derived,),
            looks=others_if_alone(derived.linear.cells, kept.removes),
            focus=kept.cells,
            digits=kept.digits,
        )


def _derived(board: Board, one: _Known, other: _Known, sign: int) -> DerivedSum:
    """Return the sum that is left, over all cells with or without a digit, with the premises of both."""
    first, second = _written(board, one), _written(board, other)
    weights: dict[int, int] = dict(first.linear.weights)
    for cell, weight in second.linear.weights:
        weights[cell] = weights.get(cell, 0) + sign * weight
    left = tuple(sorted((cell, weight) for cell, weight in weights.items() if weight))
    return DerivedSum(
        LinearSum(left, first.linear.total + sign * second.linear.total),
        tuple(sorted({*first.rules, *second.rules})),
    )


def _written(board: Board, known: _Known) -> DerivedSum:
    """Return a known sum with its premises, signed as `known` is."""
    if isinstance(known.source, int):
        cage = board.layout.cage(known.source)
        return DerivedSum(LinearSum(tuple((cell, 1) for cell in cage.cells), cage.total), (known.source,))
    left = known.source
    weights = [(cell, 1) for cell in bits(left.plus)] + [(cell, -1) for cell in bits(left.minus)]
    return DerivedSum(LinearSum(tuple(sorted(weights)), left.total), (*left.houses, *left.cages))


CUT_SUMS = Technique(
    "cut-sums",
    "sums cut against one another",
    find_cut_sums,
    traits=Trait.ARITHMETIC,
    source="Own derivation.",
)
