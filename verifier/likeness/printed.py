"""A shelf of printed puzzles: which of them a new one repeats, and in which guise."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from verifier.likeness.filling import filling_key
from verifier.likeness.solution import only_solution
from verifier.likeness.structure import structure_key
from verifier.likeness.turned import turned_key
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Guise", "Repeat", "Shelf"]


class Guise(Enum):
    """In what way two puzzles are the same."""

    SAME = "the same puzzle"
    TURNED = "the same puzzle, turned, mirrored or complemented"
    STRUCTURE = "the same puzzle in disguise, with its lines in another order or its digits renamed"
    SOLUTION = "the same solution, or one in disguise, under other cages or givens"


@dataclass(frozen=True, slots=True)
class Repeat:
    """A printed puzzle that is repeated.

    Parameters
    ----------
    name : str
        What the printed puzzle is called.
    guise : Guise
        In what way it is the same; the closest.
    """

    name: str
    guise: Guise


class Shelf:
    """Printed puzzles, filed under their keys.

    Parameters
    ----------
    printed : iterable of (str, Puzzle)
        Each with the name it is called by.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> shelf = Shelf([("spring-017", make_puzzle("classic", grid, givens={0: 1, 6: 2, 9: 3, 15: 4}))])
    >>> repeat, = shelf.repeats(make_puzzle("classic", grid, givens={3: 1, 5: 2, 10: 3, 12: 4}))
    >>> repeat.name, repeat.guise.name
    ('spring-017', 'TURNED')
    """

    def __init__(self, printed: Iterable[tuple[str, Puzzle]]) -> None:
        self._filed: dict[str, list[str]] = {}
        for name, puzzle in printed:
            for key in _keys(puzzle, only_solution(puzzle)).values():
                self._filed.setdefault(key, []).append(name)

    def repeats(self, puzzle: Puzzle, solution: Filling | None = None) -> list[Repeat]:
        """Return the printed puzzles that a puzzle repeats, each once, the closest first.

        Parameters
        ----------
        puzzle : Puzzle
            The new puzzle.
        solution : Filling, optional
            Its only solution, where that is known: then printed puzzles with the same one are found.
        """
        found: dict[str, Guise] = {}
        for guise, key in _keys(puzzle, solution).items():
            for name in self._filed.get(key, ()):
                found.setdefault(name, guise)
        return [Repeat(name, guise) for name, guise in found.items()]


def _keys(puzzle: Puzzle, solution: Filling | None) -> dict[Guise, str]:
    """Return the keys of a puzzle, the closest guise first."""
    keys = {
        Guise.SAME: puzzle.content,
        Guise.TURNED: turned_key(puzzle),
        Guise.STRUCTURE: structure_key(puzzle),
    }
    if solution is not None:
        keys[Guise.SOLUTION] = filling_key(puzzle.grid, solution)
    return keys
