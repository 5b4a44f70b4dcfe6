"""Clues of any kind for a full grid, by the word that files have for the kind."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from random import Random

from scripts.setting.clues.edge import EDGE, draw_edge
from scripts.setting.clues.lines import LINES, draw_lines
from scripts.setting.clues.marks import ALL_OF_A_KIND, MARKS, all_marks, draw_marks
from scripts.setting.clues.of_cages import CAGES, draw_some_cages
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.rule import Rule

__all__ = ["CLUES", "drawn_clues"]

CLUES: Mapping[str, Callable[[str, Puzzle, Filling, Random, int], Iterator[Rule]]] = {
    **dict.fromkeys(MARKS, draw_marks),
    **dict.fromkeys(ALL_OF_A_KIND, all_marks),
    **dict.fromkeys(LINES, draw_lines),
    **dict.fromkeys(EDGE, draw_edge),
    **dict.fromkeys(CAGES, draw_some_cages),
}
"""How clues are drawn: from the word, the puzzle so far, its filling, chance, and how many are wanted."""


def drawn_clues(wanted: Mapping[str, int], puzzle: Puzzle, filling: Filling, rng: Random) -> list[Rule]:
    """Return clues that hold in a filling: of each kind as many as are wanted, where there are so many.

    Examples
    --------
    >>> from scripts.setting.grids import full_grid
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle, rng = make_puzzle("classic", Grid.square(4)), Random(1)
    >>> clues = drawn_clues({"odd": 2, "thermometer": 1}, puzzle, full_grid(puzzle.grid, rng), rng)
    >>> [clue.word for clue in clues]
    ['odd', 'odd', 'thermometer']
    """
    return [clue for word, count in wanted.items() for clue in CLUES[word](word, puzzle, filling, rng, count)]
