"""The runs of a kakuro on its grid: where they lie, where their totals stand, which of them hang together.

A run is a cage whose cells lie in line without a gap; one without a total is cells that differ. A total
stands in the blocked cell before the run: to its left, or above it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby, pairwise
from typing import NamedTuple

from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import KAKURO, Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.linear_sum import LinearSum

__all__ = [
    "Area",
    "CellTotals",
    "RunStretch",
    "Totals",
    "before",
    "cage_at",
    "clue_cells",
    "in_line",
    "is_across",
    "parts",
    "runs_of",
    "runs_without_total",
    "stretches",
    "totals_of",
]


Totals = Mapping[tuple[int, bool], int]
"""Totals, each by the blocked cell in which it stands and whether it is the one across."""


class CellTotals(NamedTuple):
    """What stands in a blocked cell: the total of the run below it, and of the run to its right."""

    down: int | None = None
    across: int | None = None


class RunStretch(NamedTuple):
    """Cells to be filled between two blocked ones or edges, and whether they lie in a row."""

    cells: tuple[int, ...]
    across: bool


class Area(NamedTuple):
    """Cells that hang together by runs.

    Parameters
    ----------
    cells : tuple of int
        In reading order.
    across, down : int or None
        What the totals in each direction add up to; None where a cell is in no run with a total that way.
    """

    cells: tuple[int, ...]
    across: int | None
    down: int | None


def in_line(grid: Grid, cells: tuple[int, ...]) -> bool:
    """Whether cells in reading order stand side by side in one row, or one below the other.

    Examples
    --------
    >>> grid = Grid(3, 4, 0, 0, 9)
    >>> in_line(grid, (1, 2, 3)), in_line(grid, (2, 6)), in_line(grid, (3, 4)), in_line(grid, (0, 2))
    (True, True, False, False)
    """
    steps = {after - before for before, after in pairwise(cells)}
    return steps <= {grid.columns} or (steps == {1} and cells[0] // grid.columns == cells[-1] // grid.columns)


def is_across(cells: tuple[int, ...]) -> bool:
    """Whether a run of two or more cells lies in a row."""
    return len(cells) > 1 and cells[1] == cells[0] + 1


def stretches(grid: Grid) -> Iterator[RunStretch]:
    """Yield the cells to be filled between two blocked ones or edges: those of rows, then those of columns.

    Examples
    --------
    >>> [cells for cells, _ in stretches(Grid(2, 3, 0, 0, 9, blocked=(0,)))]
    [(1, 2), (3, 4, 5), (3,), (1, 4), (2, 5)]
    """
    blocked = set(grid.blocked)
    for line in range(grid.rows):
        yield from _divided(range(line * grid.columns, (line + 1) * grid.columns), blocked, across=True)
    for line in range(grid.columns):
        yield from _divided(range(line, grid.cell_count, grid.columns), blocked, across=False)


def _divided(line: range, blocked: set[int], *, across: bool) -> Iterator[RunStretch]:
    for is_blocked, cells in groupby(line, blocked.__contains__):
        if not is_blocked:
            yield RunStretch(tuple(cells), across)


def cage_at(grid: Grid, cage: Cage | LinearSum) -> str:
    """Return a cage by its total and its first cell, as one points at it; two runs may begin in one cell.

    Examples
    --------
    >>> cage_at(Grid.square(4), Cage((4, 5), 9)), cage_at(Grid(3, 3, 0, 0, 9, blocked=(0,)), Cage((4, 7), 9))
    ('9 at r2c1', '9 down at r2c2')
    """
    is_run = grid.blocked and len(cage.cells) > 1
    way = f" {'across' if is_across(cage.cells) else 'down'}" if is_run else ""
    return f"{cage.total}{way} at {grid.cell_name(cage.cells[0])}"


def before(grid: Grid, cell: int, *, across: bool) -> int | None:
    """Return the cell to the left of another, or above it; None at the edge."""
    if across:
        return cell - 1 if cell % grid.columns else None
    return cell - grid.columns if cell >= grid.columns else None


def runs_without_total(puzzle: Puzzle) -> tuple[Different, ...]:
    """Return the runs of a kakuro that have no total."""
    return rules_of(puzzle.rules, Different) if puzzle.kind == KAKURO else ()


def clue_cells(puzzle: Puzzle) -> tuple[dict[int, CellTotals], tuple[Cage, ...]]:
    """Return the totals by the blocked cells in which they stand, and the runs that have no such cell.

    A run that begins at the edge, or behind a cell to be filled, has none. A run of one cell has its total
    before a cell that stands alone: to the left, or else above.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> cages = [Cage((1, 2), 4), Cage((1, 4), 9), Cage((3, 4), 7)]
    >>> clue_cells(make_puzzle("kakuro", Grid(2, 3, 0, 0, 9, blocked=(0, 5)), houses=(), cages=cages))
    ({0: CellTotals(down=None, across=4)}, (Cage(cells=(1, 4), total=9), Cage(cells=(3, 4), total=7)))
    """
    grid, blocked = puzzle.grid, set(puzzle.grid.blocked)
    alone = {stretch for stretch in stretches(grid) if len(stretch.cells) == 1}
    clues: dict[int, CellTotals] = {}
    without: list[Cage] = []
    for cage in puzzle.cages:
        ways = [across for across in (True, False) if (cage.cells, across) in alone]
        for across in ways if len(cage.cells) == 1 else [is_across(cage.cells)]:
            cell = before(grid, cage.cells[0], across=across)
            if cell is None or cell not in blocked:
                continue
            clue, way = clues.get(cell, CellTotals()), "across" if across else "down"
            if getattr(clue, way) is None:
                clues[cell] = clue._replace(**{way: cage.total})
                break
        else:
            without.append(cage)
    return clues, tuple(without)


def runs_of(grid: Grid, totals: Totals) -> tuple[list[Cage | Different], Totals]:
    """Return the runs of a grid with these totals in blocked cells, and the totals that stand before no run.

    A stretch of two or more cells is a run, with or without a total, a single cell only with one.

    Examples
    --------
    >>> totals = {(0, True): 4, (0, False): 3, (3, True): 9}
    >>> runs_of(Grid(2, 3, 0, 0, 9, blocked=(0, 3, 4, 5)), totals)
    ([Cage(cells=(1, 2), total=4)], {(0, False): 3, (3, True): 9})
    """
    left, runs = dict(totals), list[Cage | Different]()
    for cells, across in stretches(grid):
        head = before(grid, cells[0], across=across)
        total = None if head is None else left.pop((head, across), None)
        if total is not None:
            runs.append(Cage(cells, total))
        elif len(cells) > 1:
            runs.append(Different(cells))
    return runs, left


def totals_of(puzzle: Puzzle) -> Totals | None:
    """Return the totals of a kakuro as `runs_of` takes them; None where these would not make its runs."""
    clues, without = clue_cells(puzzle)
    totals = {(cell, False): clue.down for cell, clue in clues.items()}
    totals |= {(cell, True): clue.across for cell, clue in clues.items()}
    known = {place: total for place, total in totals.items() if total is not None}
    made = set(runs_of(puzzle.grid, known)[0])
    return known if made == {*puzzle.cages, *runs_without_total(puzzle)} and not without else None


def parts(puzzle: Puzzle) -> tuple[Area, ...]:
    """Return the parts of a kakuro: cells that hang together by runs, in the order of their first cells.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> square = [Cage((0, 1), 3), Cage((4, 5), 4), Cage((0, 4), 3), Cage((1, 5), 5)]
    >>> grid = Grid(2, 4, 0, 0, 9, blocked=(2, 6))
    >>> parts(make_puzzle("kakuro", grid, houses=(), cages=[*square, Cage((3, 7), 9)]))
    (Area(cells=(0, 1, 4, 5), across=7, down=8), Area(cells=(3, 7), across=None, down=9))
    """
    runs = [cage.cells for cage in puzzle.cages] + [rule.cells for rule in runs_without_total(puzzle)]
    part_of = {cell: {cell} for cell in puzzle.grid.cells}
    for cells in runs:
        together = set().union(*(part_of[cell] for cell in cells))
        part_of.update(dict.fromkeys(together, together))
    found = {min(part): part for part in part_of.values()}
    return tuple(_part(found[first], puzzle) for first in sorted(found))


def _part(cells: set[int], puzzle: Puzzle) -> Area:
    inside = [cage for cage in puzzle.cages if cage.cells[0] in cells]
    ways = (
        [cage for cage in inside if len(cage.cells) > 1 and is_across(cage.cells) is across]
        for across in (True, False)
    )
    across, down = (
        sum(cage.total for cage in runs) if sum(len(cage.cells) for cage in runs) == len(cells) else None
        for runs in ways
    )
    return Area(tuple(sorted(cells)), across, down)
