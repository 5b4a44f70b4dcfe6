"""Writing a kakuro: as a map where that can say it, else as a list of runs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from verifier.files.fields.maps import BLOCKED, EMPTY, TOTALS_DIVIDED, draw_map
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import CellTotals, clue_cells, totals_of

__all__ = ["givens_map", "kakuro_lines"]


def kakuro_lines(puzzle: Puzzle) -> Iterator[str]:
    """Yield the keys of a kakuro, without its credits and its solution.

    Raises
    ------
    ValueError
        When it has rules that no kakuro has, or a cell in no run that the map cannot show.
    """
    runs = [rule for rule in puzzle.rules if rule.word in (Cage.word, Different.word)]
    if len(runs) + len(puzzle.givens) < len(puzzle.rules):
        raise ValueError("no file can say other rules in a kakuro")
    if totals_of(puzzle) is None:
        yield from _listed(puzzle, runs)
    else:
        yield _drawn(puzzle, clue_cells(puzzle)[0])


def _drawn(puzzle: Puzzle, clues: Mapping[int, CellTotals]) -> str:
    blocked, givens = set(puzzle.grid.blocked), dict(puzzle.givens)

    def mark(cell: int) -> str:
        if cell in clues:
            down, across = ("" if total is None else str(total) for total in clues[cell])
            return f"{down}{TOTALS_DIVIDED}{across}"
        return BLOCKED if cell in blocked else str(givens.get(cell, EMPTY[0]))

    return draw_map("cells", puzzle.grid, mark)


def _listed(puzzle: Puzzle, runs: list[Rule]) -> Iterator[str]:
    grid = puzzle.grid
    bare = set(grid.cells).difference(*(run.cells for run in runs))
    if bare:
        raise ValueError(f"no file can say a cell in no run here: {grid.cell_names(sorted(bare))}")
    yield "runs:\n"
    for run in runs:
        total = f"total: {run.total}, " if isinstance(run, Cage) else ""
        yield f"  - {{{total}cells: {' '.join(map(grid.cell_name, run.cells))}}}\n"
    if puzzle.givens:
        yield givens_map(puzzle)


def givens_map(puzzle: Puzzle) -> str:
    """Return the map of the givens."""
    givens, blocked = dict(puzzle.givens), set(puzzle.grid.blocked)
    return draw_map(
        "givens",
        puzzle.grid,
        lambda cell: BLOCKED if cell in blocked else str(givens.get(cell, EMPTY[0])),
    )
