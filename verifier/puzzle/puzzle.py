"""The puzzle itself: a grid with houses, cages and givens, and the credits that go with it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

__all__ = ["KINDS", "Credits", "Puzzle", "make_puzzle"]

KINDS = ("classic", "killer")
"""The kinds of puzzle that can be judged; the word a file gives for ``puzzle``."""

_CONTENT_VERSION = 1


@dataclass(frozen=True, slots=True)
class Credits:
    """What identifies a puzzle to people. None of it changes the verdict on the puzzle itself.

    Parameters
    ----------
    id : str
        From the file, or taken from the file's name and place (``box.yaml#3``).
    title, setter : str or None
        As the file gives them.
    """

    id: str = ""
    title: str | None = None
    setter: str | None = None


@dataclass(frozen=True, slots=True)
class Puzzle:
    """A puzzle as it was set. Build it with `make_puzzle`, which puts the parts in order.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    grid : Grid
        Size, boxes and digits.
    houses : tuple of House
        Cells that hold every digit once.
    cages : tuple of Cage
        In the order of their first cells; empty for a classic.
    givens : tuple of (int, int)
        Pairs of cell and digit, in reading order.
    credits : Credits
        Not part of the puzzle's identity: two puzzles that differ here have the same `content`.
    solution : tuple of int or None
        The solution that the file claims, if it brings one.
    marks : tuple of str
        The marks by which the file draws its cages, one for each cell; empty where it draws no map. They are
        how the puzzle was written, not what it is: puzzles that differ here are equal.
    """

    kind: str
    grid: Grid
    houses: tuple[House, ...]
    cages: tuple[Cage, ...] = ()
    givens: tuple[tuple[int, int], ...] = ()
    credits: Credits = field(default_factory=Credits)
    solution: Filling | None = None
    marks: tuple[str, ...] = field(default=(), compare=False)

    @property
    def kinds_of_rules(self) -> tuple[str, ...]:
        """The kinds of rules it has beside its houses, always in the same order.

        Examples
        --------
        >>> make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)], givens={2: 3}).kinds_of_rules
        ('cage', 'given')
        """
        present = {"cage": self.cages, "given": self.givens}
        return tuple(kind for kind, rules in present.items() if rules)

    @property
    def content(self) -> str:
        """A versioned hash of the puzzle itself, without its credits and its claimed solution.

        Examples
        --------
        >>> grid = Grid.square(4)
        >>> a = make_puzzle("killer", grid, cages=[Cage((0, 1), 3), Cage((4,), 2)], credits=Credits("a"))
        >>> b = make_puzzle("killer", grid, cages=[Cage((4,), 2), Cage((1, 0), 3)], credits=Credits("b"))
        >>> a.content == b.content, a.content[:2]
        (True, '1:')
        """
        text = repr(
            (
                self.kind,
                (self.grid.rows, self.grid.columns, self.grid.digits),
                sorted((house.kind, house.cells) for house in self.houses),
                [(cage.cells, cage.total) for cage in self.cages],
                self.givens,
            )
        )
        return f"{_CONTENT_VERSION}:{hashlib.sha256(text.encode()).hexdigest()[:32]}"


def make_puzzle(
    kind: str,
    grid: Grid,
    *,
    cages: Iterable[Cage] = (),
    givens: Mapping[int, int] | Iterable[tuple[int, int]] = (),
    credits: Credits | None = None,
    solution: Filling | None = None,
    marks: tuple[str, ...] = (),
    houses: tuple[House, ...] | None = None,
) -> Puzzle:
    """Build a puzzle with its parts in reading order, so that equal puzzles compare equal.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    grid : Grid
        Size, boxes and digits.
    cages : iterable of Cage, optional
        In any order, their cells in any order.
    givens : mapping or iterable of (int, int), optional
        Digit by cell.
    credits, solution, marks : optional
        See `Puzzle`.
    houses : tuple of House, optional
        The rows, columns and boxes of the grid when absent.

    Returns
    -------
    Puzzle
        Equal to any other that was made from the same parts.
    """
    pairs = givens.items() if isinstance(givens, Mapping) else givens
    return Puzzle(
        kind=kind,
        grid=grid,
        houses=grid.houses if houses is None else houses,
        cages=tuple(
            sorted((Cage(tuple(sorted(c.cells)), c.total) for c in cages), key=lambda c: (c.cells, c.total))
        ),
        givens=tuple(sorted(pairs)),
        credits=credits or Credits(),
        solution=solution,
        marks=marks,
    )
