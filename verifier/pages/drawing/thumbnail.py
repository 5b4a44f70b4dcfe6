"""A puzzle as a small picture for a list: its cages as areas, its lines, its marks as dots, its givens.

Nothing in it is to be read closely.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from verifier.pages.drawing.edge_signs import margins
from verifier.pages.drawing.figure import sign_lines
from verifier.pages.drawing.look import ABOVE, CELL, PENS
from verifier.pages.drawing.svg import element
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import KAKURO, Puzzle

__all__ = ["blank", "thumbnail"]

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
    rows, columns = _cell_lines(grid)
    thick = "".join(rows[:: grid.box_rows or grid.rows] + columns[:: grid.box_columns or grid.columns])
    return element("g", _layers(rows + columns, thick), id=blank_name(grid))


def _cell_lines(grid: Grid) -> tuple[list[str], list[str]]:
    wide, high = grid.columns * _CELL, grid.rows * _CELL
    rows = [f"M0 {row * _CELL}H{wide}" for row in range(grid.rows + 1)]
    columns = [f"M{column * _CELL} 0V{high}" for column in range(grid.columns + 1)]
    return rows, columns


def _layers(thin: list[str], thick: str) -> Markup:
    thick_path = element("path", **{"class": "thick"}, d=thick)
    return element("path", **{"class": "thin"}, d="".join(thin)) + thick_path


def thumbnail(puzzle: Puzzle, label: str) -> Markup:
    """Return a puzzle as a small ``svg`` element, to stand in a page that holds the `blank` of its grid.

    A puzzle whose houses are not those of its grid brings its own lines.
    """
    grid = puzzle.grid
    usual = puzzle.houses == grid.houses and not grid.blocked
    parts = [element("use", href=f"#{blank_name(grid)}") if usual else _own_lines(puzzle)]
    if puzzle.all_cages and puzzle.kind != KAKURO:
        walls = "".join(_walls(grid, [cage.cells for cage in puzzle.all_cages]))
        parts.append(element("path", **{"class": "walls"}, d=walls))
    parts += [element("path", **{"class": name}, d="".join(data)) for name, data in _clues(puzzle).items()]
    beside = [round(side * _CELL / CELL) for side in margins(puzzle)]
    for cell, digit in puzzle.givens:
        row, column = divmod(cell, grid.columns)
        parts.append(element("text", str(digit), x=column * _CELL + _CELL / 2, y=row * _CELL + 0.8 * _CELL))
    return element(
        "svg",
        Markup("").join(parts),
        viewBox=_frame(grid, [1 + side for side in beside]),
        role="img",
        aria_label=label,
        **{"class": "small"},
    )


def _frame(grid: Grid, beside: Sequence[int]) -> str:
    """Return the room for a grid, with so much beside it on the left, above, on the right and below."""
    left, top, right, bottom = beside
    return f"{-left} {-top} {grid.columns * _CELL + left + right} {grid.rows * _CELL + top + bottom}"


def _clues(puzzle: Puzzle) -> dict[str, dict[str, None]]:
    """Return the lines of rules as they go, and a dot for each sign, inside the grid or beside it."""
    drawn: dict[str, dict[str, None]] = {}
    for line in sign_lines(puzzle):
        across, down = (
            [round(place * _CELL / CELL) for place in places] for places in zip(*line.points, strict=True)
        )
        if PENS[line.pen].level == ABOVE or line.points[0] == line.points[-1]:
            dot = f"M{(min(across) + max(across)) // 2} {(min(down) + max(down)) // 2}h0"
            drawn.setdefault("dots", {})[dot] = None
        else:
            way = "L".join(f"{x} {y}" for x, y in zip(across, down, strict=True))
            drawn.setdefault("ways", {})[f"M{way}"] = None
    return drawn


def _own_lines(puzzle: Puzzle) -> Markup:
    grid = puzzle.grid
    rows, columns = _cell_lines(grid)
    wide, high = grid.columns * _CELL, grid.rows * _CELL
    slants = dict(zip(grid.diagonals, (f"M0 0L{wide} {high}", f"M{wide} 0L0 {high}"), strict=False))
    thin, thick, walls = rows + columns, rows[:: grid.rows] + columns[:: grid.columns], list[str]()
    for house in puzzle.houses:
        if house in slants:
            thin.append(slants[house])
        elif house.kind not in ("row", "column"):
            (thick if house.kind == "box" else walls).extend(_walls(grid, [house.cells]))
    blocked = [
        element("rect", x=column * _CELL, y=row * _CELL, width=_CELL, height=_CELL, fill="currentColor")
        for row, column in (divmod(cell, grid.columns) for cell in grid.blocked)
    ]
    own = element("path", **{"class": "walls"}, d="".join(walls)) if walls else Markup("")
    return Markup("").join([_layers(thin, "".join(thick)), own, *blocked])


def _walls(grid: Grid, groups: Sequence[tuple[int, ...]]) -> Iterator[str]:
    """Yield the borders between two groups of cells, or a group and none; those that meet as one."""
    group_of = {cell: number for number, cells in enumerate(groups) for cell in cells}
    columns, rows = grid.columns, grid.rows

    def wall(one: int, other: int) -> bool:
        return group_of.get(one) != group_of.get(other)

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
