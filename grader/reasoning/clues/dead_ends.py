"""Where digits lead nowhere: they leave a cell, a digit of a house or another clue nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import reduce
from operator import and_
from typing import NamedTuple

from grader.board.basis import Basis, joined
from grader.board.board import Board
from grader.board.patterns import DeadEnd
from grader.reasoning.assignments import differing
from grader.reasoning.clues.narrow import filled_clues, left_by_clue
from grader.reasoning.pairs import bar, barred_from
from verifier.puzzle.masks import bits, mask_of

__all__ = ["dead_ends"]


def dead_ends(board: Board, filled: Mapping[int, int]) -> Iterator[tuple[DeadEnd, Basis]]:
    """Yield where some digits lead nowhere at once, each with what that rests on beside these digits.

    A cell in which each of them bars something, a house in which they bar all places of a digit, a clue
    with few empty cells that cannot be filled beside them, a cell that several such clues leave nothing.

    Parameters
    ----------
    board : Board
        Read, never changed.
    filled : mapping of int to int
        The digits, by their cells.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("123 123 34 34", size=4)
    >>> [end for end, _ in dead_ends(board, {0: 3, 1: 4})][:1]
    [DeadEnd(kind='cell', where=2, digit=0)]
    """
    around = _Around(board, filled)
    for cell, left in around.left.items():
        why = Basis() if left else around.why_barred(cell, board.candidates[cell])
        if not left and cell in filled:
            yield (
                DeadEnd("clue", next(bits(why.rules))),
                why,
            )  # two of the digits do not fit by a mark or a line
        elif not left:
            yield DeadEnd("cell", cell), why
    yield from _houses(around)
    yield from _clues(around)


class _Around:
    """What some digits leave in the cells around them, and their own."""

    def __init__(self, board: Board, filled: Mapping[int, int]) -> None:
        self.board, self.filled = board, filled
        layout, self.left = board.layout, {cell: 1 << digit for cell, digit in filled.items()}
        barred = barred_from(layout)
        for cell, digit in filled.items():
            for peer in layout.peers[cell]:
                self._leave(peer, ~(1 << digit))
            for other, fit in barred[cell] if barred else ():
                self._leave(other, fit.left[digit])

    def _leave(self, cell: int, mask: int) -> None:
        if cell not in self.filled or not mask & self.left[cell]:
            self.left[cell] = self.left.get(cell, self.board.candidates[cell]) & mask

    def gone(self) -> Mapping[int, int]:
        """Return, for each digit, the mask of the cells from which it goes."""
        cells: dict[int, int] = {}
        for cell, left in self.left.items():
            for digit in bits(self.board.candidates[cell] & ~left):
                cells[digit] = cells.get(digit, 0) | 1 << cell
        return cells

    def why_barred(self, cell: int, digits: int) -> Basis:
        """Return why digits go from a cell, which is looked at."""
        looks = Basis(looks=0 if cell in self.filled else 1 << cell)
        return joined((looks, *(self._why(cell, digit) for digit in bits(digits))))

    def _why(self, cell: int, digit: int) -> Basis:
        layout, own = self.board.layout, self.filled.get(cell)
        if own not in (None, digit):
            return Basis()  # it holds another one
        rules: list[int] = []
        for place, held in self.filled.items():
            if held == digit and layout.sees[place] >> cell & 1:
                rules += layout.link(place, cell)
            by_pair = bar(layout, place, held, cell, digit)
            rules += [] if by_pair is None else [by_pair]
        return Basis(rules=mask_of(rules[:1]))


def _houses(around: _Around) -> Iterator[tuple[DeadEnd, Basis]]:
    layout, places = around.board.layout, around.board.places()
    for digit, gone in sorted(around.gone().items()):
        for house, mask in enumerate(layout.house_masks):
            own = places[digit] & mask
            if own & gone and not own & ~gone:
                why = joined(around.why_barred(cell, 1 << digit) for cell in bits(own))
                yield DeadEnd("house", house, digit), Basis(why.rules | 1 << house, mask & ~own)


class _Narrowed(NamedTuple):
    """A clue with few empty cells, what it leaves beside some digits, and what that rests on."""

    clue: int
    left: Mapping[int, int]
    why: Basis


def _clues(around: _Around) -> Iterator[tuple[DeadEnd, Basis]]:
    narrowed = [*_narrowed(around)]
    for one in narrowed:
        if not all(one.left.values()):
            yield DeadEnd("clue", one.clue), one.why
    for cell in sorted({cell for one in narrowed for cell in one.left}):
        some = [one for one in narrowed if one.left.get(cell)]
        if some and not reduce(and_, (one.left[cell] for one in some)):
            yield DeadEnd("cell", cell), joined(one.why for one in some)


def _narrowed(around: _Around) -> Iterator[_Narrowed]:
    board, layout = around.board, around.board.layout
    changed = mask_of(cell for cell, left in around.left.items() if left != board.candidates[cell])
    supposed = list(board.candidates)
    for cell, mask in around.left.items():
        supposed[cell] = mask
    for clue, mask in filled_clues(layout):
        if not mask & changed or not all(supposed[cell] for cell in layout.rules[clue].cells):
            continue
        left = left_by_clue(layout, clue, supposed)
        if left:
            barred = [(cell, board.candidates[cell] & ~supposed[cell]) for cell in bits(mask & changed)]
            why = joined(around.why_barred(cell, gone) for cell, gone in barred)
            apart = mask_of((clue, *differing(layout, layout.rules[clue].cells)))
            yield _Narrowed(clue, left, Basis(why.rules | apart, why.looks | mask & ~mask_of(around.filled)))
