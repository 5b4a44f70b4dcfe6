"""Digits that a clue is certain to hold: they go from the cells that see all their places in it."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.basis import seen_by_all, sight
from grader.board.board import bits, mask_of
from grader.reasoning.clues.clue import Clue, ClueFinding

__all__ = ["gone_around"]


def gone_around(clue: Clue, digit: int, how: str, *, places: int | None = None) -> Iterator[ClueFinding]:
    """Yield that a digit, which a clue holds somewhere, goes from all that see its places there.

    Parameters
    ----------
    clue : Clue
        The clue.
    digit : int
        The digit.
    how : str
        How it is told.
    places : int, optional
        Mask of its places; wherever it is open in the cells of the clue when absent.
    """
    if places is None:
        places = mask_of(cell for cell in clue.cells if clue.candidates[cell] >> digit & 1)
    if not places & (places - 1):
        return  # the digit of one cell goes anyway once it is written in
    around = bits(seen_by_all(clue.layout, places))
    removes = tuple((cell, 1 << digit) for cell in around if clue.candidates[cell] >> digit & 1)
    if removes:
        apart = {rule for cell, _ in removes for rule in bits(sight(clue.layout, 1 << cell, places).rules)}
        said = clue.says(how, digits=1 << digit, cells=tuple(bits(places)))
        yield ClueFinding(removes, clue.cells, said, apart, focus=tuple(bits(places)))
