"""Drawing boxes of any shape, cell by cell; until all have the right size they are a state (`unfinished`)."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from verifier.desk import wording
from verifier.desk.drafting.restating import restated
from verifier.desk.drafting.unfinished import boxes_of, with_boxes, without_unfit_boxes
from verifier.desk.wishes import PageWish, RefusedError
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import KAKURO, Puzzle

__all__ = ["BOX_EDITS"]


def draw_box(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing is added up
    """Bring cells into the box of the first of them, into a new one where that is in none."""
    box_of, cells = _box_of(puzzle), wish.cells(puzzle.grid)
    return _drawn(puzzle, box_of | dict.fromkeys(cells, box_of.get(cells[0], _FRESH)))


def new_box(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing is added up
    """Make a box of some cells, which leave those that they were in."""
    return _drawn(puzzle, _box_of(puzzle) | dict.fromkeys(wish.cells(puzzle.grid), _FRESH))


def unbox(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing is added up
    """Take cells out of their boxes."""
    gone = set(wish.cells(puzzle.grid))
    return _drawn(puzzle, {cell: box for cell, box in _box_of(puzzle).items() if cell not in gone})


def exchange(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing is added up
    """Exchange two cells between their boxes, which keep their sizes."""
    box_of, cells = _box_of(puzzle), wish.cells(puzzle.grid)
    if len(cells) != 2 or len({box_of.get(cell, _FRESH) for cell in cells} - {_FRESH}) < 2:
        raise RefusedError(wording.TWO_BOXES)
    one, other = cells
    return _drawn(puzzle, box_of | {one: box_of[other], other: box_of[one]})


Edit = Callable[[Puzzle, PageWish, Filling | None], Puzzle]

BOX_EDITS: Mapping[str, Edit] = {"box": draw_box, "new_box": new_box, "unbox": unbox, "exchange": exchange}

_FRESH = 0
"""The number of a new box; the others count from 1."""


def _box_of(puzzle: Puzzle) -> dict[int, int]:
    if puzzle.kind == KAKURO:
        raise RefusedError(wording.NO_BOXES_HERE)
    return {cell: box.number for box in boxes_of(puzzle) for cell in box.cells}


def _drawn(puzzle: Puzzle, box_of: Mapping[int, int]) -> Puzzle:
    drawn = with_boxes(puzzle, box_of)
    if without_unfit_boxes(drawn) is not drawn:
        return drawn
    return restated(drawn, lambda _: None)  # so that the usual ones are called so
