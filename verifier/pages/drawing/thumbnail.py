"""A puzzle as a small picture for a list: its cages as areas, its givens, nothing to be read closely."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from verifier.pages.drawing.svg import element
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle

__all__ = ["blank", "blank_name", "thumbnail"]

_CELL = 10


def blank_name(grid: Grid) -> str:
    """Return the name by which the pictures of a page refer to the lines of a grid.

    Examples
    --------
    >>> blank_name(Grid.square(6))
    'blank-6x6-2x3'
    """
    return f"blank-{grid.name}-{grid.boxes_name}"


def blank(grid: Grid) -> Markup:
    """Return the lines of a grid: a page holds them once for all its pictures."""
    wide, high = grid.columns * _CELL, grid.rows * _CELL
    rows = [f"M0 {row * _CELL}H{wide}" for row in range(grid.rows + 1)]
    columns = [f"M{column * _CELL} 0V{high}" for column in range(grid.columns + 1)]
    thin = element("path", **{"class": "thin"}, d="".join(rows + columns))
    thick = "".join(rows[:: grid.box_rows] + columns[:: grid.box_columns])
    return element("g", thin + element("path", **{"class": "thick"}, d=thick), id=blank_name(grid))


def thumbnail(puzzle: Puzzle, label: str) -> Markup:
    """Return a puzzle as a small ``svg`` element, to stand in a page that holds the `blank` of its grid."""
    grid = puzzle.grid
    parts = [element("use", href=f"#{blank_name(grid)}")]
    if puzzle.cages:
        parts.append(element("path", **{"class": "walls"}, d="".join(_walls(puzzle))))
    for cell, digit in puzzle.givens:
        row, column = divmod(cell, grid.columns)
        parts.append(element("text", str(digit), x=column * _CELL + _CELL / 2, y=row * _CELL + 0.8 * _CELL))
    return element(
        "svg",
        Markup("").join(parts),
        viewBox=f"-1 -1 {grid.columns * _CELL + 2} {grid.rows * _CELL + 2}",
        role="img",
        aria_label=label,
        **{"class": "small"},
    )


def _walls(puzzle: Puzzle) -> Iterator[str]:
    """Yield the borders between two cages, or a cage and none; those that meet end to end as one."""
    cage_of = {cell: number for number, cage in enumerate(puzzle.cages) for cell in cage.cells}
    columns, rows = puzzle.grid.columns, puzzle.grid.rows

    def wall(one: int, other: int) -> bool:
        return cage_of.get(one) != cage_of.get(other)

    for row in range(1, rows):
        line = [wall((row - 1) * columns + column, row * columns + column) for column in range(columns)]
        yield from (f"M{start * _CELL} {row * _CELL}h{length * _CELL}" for start, length in _stretches(line))
    for column in range(1, columns):
        line = [wall(row * columns + column - 1, row * columns + column) for row in range(rows)]
        yield from (
            f"M{column * _CELL} {start * _CELL}v{length * _CELL}" for start, length in _stretches(line)
        )


def _stretches(line: list[bool]) -> Iterator[tuple[int, int]]:
    """Yield start and length of each stretch of true.

    Examples
    --------
    >>> list(_stretches([True, True, False, True]))
    [(0, 2), (3, 1)]
    """
    start = None
    for place, wanted in enumerate([*line, False]):
        if wanted and start is None:
            start = place
        elif not wanted and start is not None:
            yield start, place - start
            start = None
