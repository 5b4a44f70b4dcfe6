"""A small grid in plain text: what stands on a board, for those who follow on paper."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board

__all__ = ["small_grid"]


def small_grid(board: Board) -> list[str]:
    r"""Return a board in lines of text: digits, dots for empty cells, ``#`` for blocked ones, boxes parted.

    A board on which no digit stands says nothing, and has no lines.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> print("\n".join(small_grid(board_from_text("1 2 . .", size=4))))
    1 2 | . .
    . . | . .
    ----+----
    . . | . .
    . . | . .
    """
    grid = board.layout.grid
    if not board.placed & ~sum(1 << cell for cell in grid.blocked):
        return []
    return list(_lines(board))


def _lines(board: Board) -> Iterator[str]:
    grid = board.layout.grid
    width = len(str(grid.digits))
    across, down = grid.box_columns or grid.columns, grid.box_rows or grid.rows
    rows = [
        [_sign(board, cell).rjust(width) for cell in row]
        for row in grid.rows_of(tuple(range(grid.cell_count)))
    ]
    rule = "-+-".join(
        "-" * (min(across, grid.columns - at) * (width + 1) - 1) for at in range(0, grid.columns, across)
    )
    for number, row in enumerate(rows):
        if number and number % down == 0:
            yield rule
        yield " | ".join(" ".join(row[at : at + across]) for at in range(0, grid.columns, across))


def _sign(board: Board, cell: int) -> str:
    if cell in board.layout.grid.blocked:
        return "#"
    return str(board.candidates[cell].bit_length() - 1) if board.placed >> cell & 1 else "."
