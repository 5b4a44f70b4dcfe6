"""Digits that a clue is certain to hold: they go from the cells that see them wherever they stand in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from operator import and_, or_

from grader.board.basis import sight
from grader.board.layout import Layout
from grader.reasoning.clues.clue import Clue, ClueFinding
from verifier.puzzle.masks import bits

__all__ = ["gone_around"]


def gone_around(
    clue: Clue, digit: int, how: str, *, by_way: Sequence[int] | None = None
) -> Iterator[ClueFinding]:
    """Yield that a digit, which a clue holds somewhere, goes from all that see it there.

    Parameters
    ----------
    clue : Clue
        The clue.
    digit : int
        The digit.
    how : str
        How it is told.
    by_way : sequence of int, optional
        Masks of its places in each way to fill the clue, of which what goes must see one; when absent, it may
        be wherever it is open in the cells of the clue.
    """
    if by_way is None:
        by_way = [1 << cell for cell in clue.cells if clue.candidates[cell] >> digit & 1]
    places = reduce(or_, by_way, 0)
    if not places & (places - 1):
        return  # the digit of one cell goes anyway once it is written in
    seen: dict[int, list[int]] = {}
    for cell in bits(_seen_in_each(clue.layout, tuple(by_way))):
        if clue.candidates[cell] >> digit & 1:
            seen.setdefault(clue.layout.sees[cell] & places, []).append(cell)
    for there, cells in seen.items():
        removes = tuple((cell, 1 << digit) for cell in cells)
        apart = {rule for cell in cells for rule in bits(sight(clue.layout, 1 << cell, there).rules)}
        said = clue.says(how, digits=1 << digit, cells=tuple(bits(there)))
        yield ClueFinding(removes, clue.cells, said, apart, focus=tuple(bits(there)))


def _seen_in_each(layout: Layout, by_way: Sequence[int]) -> int:
    """Return the mask of the cells that see a place of each way."""
    return reduce(and_, (reduce(or_, (layout.sees[cell] for cell in bits(mask)), 0) for mask in by_way))
