"""What is drawn but not finished: a state of the puzzle, not a fault. It is shown, kept, and judged without.

A cage or run whose total is to come says that its digits differ, and counts as that. Boxes that do not all
have the right size yet count as none at all, and so does a run that is longer than there are digits.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from verifier.desk import wording
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = [
    "BOX",
    "as_judged",
    "boxes_of",
    "judged_without",
    "open_cages",
    "total_of",
    "unfit_boxes",
    "with_boxes",
    "without_unfit_boxes",
]

BOX = "box"


def total_of(cage: Rule) -> int | None:
    """Return the total of a cage of any sort; None where it has none."""
    return cage.total if isinstance(cage, Cage | LinearSum) else None


def open_cages(puzzle: Puzzle) -> list[Rule]:
    """Return the cages whose total is still to come."""
    return [cage for cage in puzzle.all_cages if total_of(cage) is None]


def boxes_of(puzzle: Puzzle) -> list[House]:
    """Return the boxes, finished or not."""
    return [house for house in puzzle.houses if house.kind == BOX]


def unfit_boxes(puzzle: Puzzle) -> list[House]:
    """Return the boxes that have not as many cells as there are digits."""
    return [box for box in boxes_of(puzzle) if len(box.cells) != puzzle.grid.digits]


def with_boxes(puzzle: Puzzle, box_of: Mapping[int, int]) -> Puzzle:
    """Return a puzzle with other boxes, of whatever size.

    Parameters
    ----------
    puzzle : Puzzle
        It keeps all else.
    box_of : mapping of int to int
        For each cell that is in a box, the number of the box; they are numbered anew by their first cells.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = with_boxes(make_puzzle("classic", Grid.square(4)), {0: 7, 1: 7, 4: 7, 2: 1})
    >>> [(box.name, box.cells) for box in boxes_of(puzzle)], puzzle.grid.box_rows
    ([('box 1', (0, 1, 4)), ('box 2', (2,))], 0)
    """
    drawn: dict[int, list[int]] = {}
    for cell in sorted(box_of):
        drawn.setdefault(box_of[cell], []).append(cell)
    boxes = [House(BOX, number, tuple(cells)) for number, cells in enumerate(drawn.values(), start=1)]
    return _boxed(puzzle, boxes)


def without_unfit_boxes(puzzle: Puzzle) -> Puzzle:
    """Return a puzzle without its boxes where they are not finished; else the puzzle itself."""
    boxes = boxes_of(puzzle)
    boxed = sum(len(box.cells) for box in boxes)
    if not boxes or (boxed == puzzle.grid.cell_count and not unfit_boxes(puzzle)):
        return puzzle
    return _boxed(puzzle, [])


def as_judged(puzzle: Puzzle) -> Puzzle:
    """Return a puzzle without all that is not finished; the puzzle itself where nothing need be left out."""
    bare, long = without_unfit_boxes(puzzle), _long_runs(puzzle)
    return bare.changed(long) if long else bare


def judged_without(puzzle: Puzzle) -> list[str]:
    """Return, in sentences, what is not finished and a puzzle was judged without.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> judged_without(with_boxes(make_puzzle("classic", Grid.square(2, (1, 2))), {0: 1, 1: 1, 2: 1}))
    ['Judged without boxes: box 1 has three cells; in none: r2c2. Each box must have two cells.']
    """
    said = []
    if without_unfit_boxes(puzzle) is not puzzle:
        boxed = {cell for box in boxes_of(puzzle) for cell in box.cells}
        bare = [cell for cell in puzzle.grid.cells if cell not in boxed]
        found = [
            *(filled(wording.BOX_HAS, name=box.name, cells=len(box.cells)) for box in unfit_boxes(puzzle)),
            *([filled(wording.IN_NO_BOX, cells=puzzle.grid.cell_names(bare))] if bare else []),
        ]
        said.append(filled(wording.WITHOUT_BOXES, found="; ".join(found), wanted=puzzle.grid.digits))
    if long := _long_runs(puzzle):
        said.append(filled(wording.WITHOUT_LONG_RUNS, runs=len(long), digits=puzzle.grid.digits))
    if cages := len(open_cages(puzzle)) - len(long):
        word = wording.WITHOUT_RUN_TOTALS if puzzle.kind == KAKURO else wording.WITHOUT_TOTALS
        said.append(filled(word, cages=cages))
    return said


def _long_runs(puzzle: Puzzle) -> list[Rule]:
    return [cage for cage in open_cages(puzzle) if len(cage.cells) > puzzle.grid.digits]


def _boxed(puzzle: Puzzle, boxes: Iterable[House]) -> Puzzle:
    """Return a puzzle with these boxes; houses stand in the order in which a file says them."""
    lines = [house for house in puzzle.houses if house.kind in ("row", "column")]
    further = [house for house in puzzle.houses if house.kind not in ("row", "column", BOX)]
    others = [rule for rule in puzzle.rules if type(rule) is not House]
    grid = replace(puzzle.grid, box_rows=0, box_columns=0)
    return replace(puzzle, grid=grid, rules=(*lines, *boxes, *further, *others))
