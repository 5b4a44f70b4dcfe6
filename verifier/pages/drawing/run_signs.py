"""The picture of a kakuro: blocked cells, those with totals, and where a run begins or ends without one.

A total stands in the blocked cell before its run, below a slanting line the total down, above it the total
across. A run that begins at the edge of the grid has its total outside; one that begins behind a cell to be
filled, where a bar parts the two, has it in the corner of its first cell.
"""

from __future__ import annotations

from collections.abc import Iterator

from verifier.pages.drawing.look import CELL, FACES, INSET
from verifier.pages.drawing.outlines import Polyline
from verifier.pages.drawing.shapes import Number, PenLine, middle, number_at, rectangle
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.run_layout import before, clue_cells, is_across, runs_without_total, stretches

__all__ = [
    "LANE",
    "blocked_cells",
    "frame_of_total",
    "run_lines",
    "run_totals",
    "sides_with_totals",
    "totals_inside",
]

LANE = 32.0
"""Width of the room for totals outside the grid."""

_ASIDE = 0.33 * CELL
"""How far from two sides of its cell a total stands."""


def blocked_cells(puzzle: Puzzle) -> Iterator[PenLine]:
    """Yield the blocked cells, which lie below all else: solid, or tinted where totals stand."""
    clues = clue_cells(puzzle)[0] if puzzle.kind == KAKURO else {}
    for cell in puzzle.grid.blocked:
        pen = "corner" if cell in clues else "block"
        yield PenLine(pen, rectangle(middle(puzzle.grid, cell), CELL, CELL))


def run_lines(puzzle: Puzzle) -> Iterator[PenLine]:
    """Yield the slanting lines between totals, and the bars between neighbours that no run joins."""
    for cell in clue_cells(puzzle)[0]:
        x, y = _corner(puzzle, cell)
        yield PenLine("slant", ((x, y), (x + CELL, y + CELL)))
    runs = [run.cells for run in (*puzzle.cages, *runs_without_total(puzzle)) if len(run.cells) > 1]
    joined = {(cell, is_across(cells)) for cells in runs for cell in cells[1:]}
    for cells, across in stretches(puzzle.grid):
        for cell in cells[1:]:
            if (cell, across) not in joined:  # to the one before it
                x, y = _corner(puzzle, cell)
                yield PenLine("box", ((x, y), (x, y + CELL) if across else (x + CELL, y)))


def run_totals(puzzle: Puzzle) -> Iterator[Number]:
    """Yield the total of each run of a kakuro."""
    grid, (clues, without) = puzzle.grid, clue_cells(puzzle)
    for cell, clue in clues.items():
        x, y = middle(grid, cell)
        aside = CELL / 2 - _ASIDE
        if clue.down is not None:
            yield number_at("run", clue.down, (x - aside, y + aside), grid)
        if clue.across is not None:
            yield number_at("run", clue.across, (x + aside, y - aside), grid)
    for cage in without:
        if before(grid, cage.cells[0], across=is_across(cage.cells)) is None:
            yield number_at("run", cage.total, _outside(puzzle, cage), grid)
        else:
            yield _inside(puzzle, cage)


def sides_with_totals(puzzle: Puzzle) -> tuple[bool, bool]:
    """Return whether totals of a kakuro stand outside its grid: on the left, and above."""
    if puzzle.kind != KAKURO:
        return False, False
    ways = {is_across(cage.cells) for cage in _beginning_outside(puzzle)}
    return True in ways, False in ways


def totals_inside(puzzle: Puzzle) -> bool:
    """Whether totals stand in cells that are to be filled: those of cages, and few of a kakuro."""
    if puzzle.kind != KAKURO:
        return bool(puzzle.all_cages)
    return len(clue_cells(puzzle)[1]) > len(_beginning_outside(puzzle))


def frame_of_total(puzzle: Puzzle, cage: Cage) -> Iterator[Polyline]:
    """Yield what goes round the total of a run: half of its cell, or its place outside the grid."""
    grid, across = puzzle.grid, is_across(cage.cells)
    cell = before(grid, cage.cells[0], across=across)
    if cell is None:
        yield rectangle(_outside(puzzle, cage), LANE - 4, LANE - 4)
    elif cell in grid.blocked:
        x, y = _corner(puzzle, cell)
        turn = (x + CELL, y) if across else (x, y + CELL)
        yield (x, y), turn, (x + CELL, y + CELL), (x, y)


def _beginning_outside(puzzle: Puzzle) -> list[Cage]:
    return [
        cage
        for cage in clue_cells(puzzle)[1]
        if before(puzzle.grid, cage.cells[0], across=is_across(cage.cells)) is None
    ]


def _outside(puzzle: Puzzle, cage: Cage) -> tuple[float, float]:
    x, y = middle(puzzle.grid, cage.cells[0])
    return (-LANE / 2, y) if is_across(cage.cells) else (x, -LANE / 2)


def _inside(puzzle: Puzzle, cage: Cage) -> Number:
    """Return a total in its first cell: on the left that of a run across, on the right that of one down."""
    x, y = _corner(puzzle, cage.cells[0])
    size, text = FACES["total"].size, str(cage.total)
    right = CELL - INSET - 0.6 * size * len(text)
    return Number("total", text, (x + (INSET if is_across(cage.cells) else right), y + INSET + 0.72 * size))


def _corner(puzzle: Puzzle, cell: int) -> tuple[int, int]:
    return cell % puzzle.grid.columns * CELL, cell // puzzle.grid.columns * CELL
