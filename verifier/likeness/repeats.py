"""What puzzles look like, and which printed ones a puzzle repeats."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from verifier.likeness.filling import filling_key
from verifier.likeness.guises import Guise, Likeness
from verifier.likeness.solution import only_solution
from verifier.likeness.structure import structure_key
from verifier.likeness.turned import turned_key
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["PrintedPuzzles", "in_disguise", "likeness_of", "likeness_of_printed"]


def likeness_of(puzzle: Puzzle) -> Likeness:
    """Return what is found at once."""
    return Likeness(puzzle.content, turned_key(puzzle))


def in_disguise(likeness: Likeness, puzzle: Puzzle, solution: Filling | None) -> Likeness:
    """Return all of what a puzzle with this solution looks like."""
    filling = None if solution is None else filling_key(puzzle, solution)
    return replace(likeness, structure=structure_key(puzzle), filling=filling)


def likeness_of_printed(puzzle: Puzzle) -> Likeness:
    """Return all of what a puzzle that nobody has judged looks like."""
    return in_disguise(likeness_of(puzzle), puzzle, only_solution(puzzle))


class PrintedPuzzles:
    """Printed puzzles, each with the name it is called by, filed under their keys.

    Parameters
    ----------
    printed : iterable of (str, Likeness)
        Names, and what the puzzles look like.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> puzzle = make_puzzle("classic", grid, givens={0: 1, 6: 2, 9: 3, 15: 4})
    >>> printed = PrintedPuzzles([("spring-017", likeness_of_printed(puzzle))])
    >>> len(printed)
    1
    >>> printed.repeated_by(make_puzzle("classic", grid, givens={3: 1, 5: 2, 10: 3, 12: 4}))
    {'spring-017': <Guise.TURNED: 'turned'>}
    """

    def __init__(self, printed: Iterable[tuple[str, Likeness]]) -> None:
        self._filed: dict[tuple[Guise, str], list[str]] = {}
        self._count = 0
        for name, likeness in printed:
            self._count += 1
            for key in likeness.keys.items():
                self._filed.setdefault(key, []).append(name)

    def __len__(self) -> int:
        """How many they are."""
        return self._count

    def repeated_by(self, puzzle: Puzzle, solution: Filling | None = None) -> dict[str, Guise]:
        """Return the printed puzzles that a puzzle repeats, each with its guise, the closest first.

        Where its only `solution` is known, printed puzzles with the same one are found, too.
        """
        found: dict[str, Guise] = {}
        for key in in_disguise(likeness_of(puzzle), puzzle, solution).keys.items():
            for name in self._filed.get(key, ()):
                found.setdefault(name, key[0])
        return found
