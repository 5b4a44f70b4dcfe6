"""Drawing a kakuro: cells are blocked and opened, runs follow. A run whose total is typed is a cage."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from verifier.desk import wording
from verifier.desk.wishes import PageWish, RefusedError
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import KAKURO, Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import runs_of, stretches

__all__ = ["KAKURO_EDITS", "empty_kakuro"]

_DIGITS = 9


def empty_kakuro(rows: int, columns: int, credits: Credits) -> Puzzle:
    """Return a kakuro of which only the first row and the first column are blocked, where totals stand.

    Examples
    --------
    >>> [run.cells for run in empty_kakuro(3, 3, Credits()).all_cages]
    [(4, 5), (4, 7), (5, 8), (7, 8)]
    """
    edge = tuple(cell for cell in range(rows * columns) if cell < columns or cell % columns == 0)
    grid = Grid(rows, columns, 0, 0, _DIGITS, edge)
    return make_puzzle(KAKURO, grid, clues=runs_of(grid, {})[0], credits=credits, houses=())


def block(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:
    """Block cells, or open them; a run that stays as it was keeps its total, others have theirs to come."""
    if puzzle.kind != KAKURO:
        raise RefusedError(wording.NO_BLOCKED_CELLS_HERE)
    chosen, blocked = set(wish.cells(puzzle.grid, blocked=True)), set(puzzle.grid.blocked)
    closing = wish.yes("blocked")
    blocked = blocked | chosen if closing else blocked - chosen
    grid = replace(puzzle.grid, blocked=tuple(sorted(blocked)))
    runs = {run.cells: run for run in puzzle.all_cages}
    drawn = dict.fromkeys(
        runs.get(cells) or _new_run(cells, known)
        for cells, _ in stretches(grid)
        if len(cells) > 1 or cells in runs
    )
    if not drawn:
        raise RefusedError(wording.ONE_RUN_AT_LEAST)
    givens = [(cell, digit) for cell, digit in puzzle.givens if cell not in blocked]
    made = make_puzzle(KAKURO, grid, clues=drawn, givens=givens, credits=puzzle.credits, houses=())
    meant = puzzle.solution
    if meant is None or not closing:  # nobody says what stands in a cell that was blocked
        return made
    return replace(made, solution=tuple(0 if cell in blocked else digit for cell, digit in enumerate(meant)))


Edit = Callable[[Puzzle, PageWish, Filling | None], Puzzle]

KAKURO_EDITS: Mapping[str, Edit] = {"block": block}


def _new_run(cells: tuple[int, ...], known: Filling | None) -> Rule:
    digits = {known[cell] for cell in cells} if known is not None else set()
    return Cage(cells, sum(digits)) if len(digits - {0}) == len(cells) else Different(cells)
