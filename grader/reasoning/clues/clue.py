"""A clue on a board: its cells with what is open there, and what it can be found to rule out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import ClueSaid
from grader.board.steps import Step
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.rules.rule import Rule

__all__ = ["Clue", "ClueFinding", "Look", "clue_steps", "clues_of", "high", "low"]


def low(mask: int) -> int:
    """Return the smallest digit of a mask that has one."""
    return (mask & -mask).bit_length() - 1


def high(mask: int) -> int:
    """Return the largest digit of a mask that has one."""
    return mask.bit_length() - 1


@dataclass(frozen=True, slots=True)
class Clue:
    """A clue, and what is open by now.

    Parameters
    ----------
    layout : Layout
        The puzzle's layout.
    number : int
        The number of the clue among its rules.
    candidates : sequence of int, or mapping
        For each cell of the grid, or of the clue, the mask of its open digits.
    """

    layout: Layout
    number: int
    candidates: Sequence[int] | Mapping[int, int]

    @property
    def rule(self) -> Any:
        """The rule itself."""
        return self.layout.rules[self.number]

    @property
    def cells(self) -> tuple[int, ...]:
        """Its cells, in its order."""
        return self.layout.rules[self.number].cells

    @property
    def digits(self) -> int:
        """The largest digit."""
        return self.layout.grid.digits

    @property
    def house(self) -> int | None:
        """The number of the house with the very cells of the clue, if there is one."""
        mask = self.layout.masks[self.number]
        return next((h for h, cells in enumerate(self.layout.house_masks) if cells == mask), None)

    def low(self, cell: int) -> int:
        """Return the smallest digit that is open in a cell."""
        return low(self.candidates[cell])

    def high(self, cell: int) -> int:
        """Return the largest digit that is open in a cell."""
        return high(self.candidates[cell])

    def open_in(self, cell: int, digits: int) -> int:
        """Return those of some digits that are open in a cell."""
        return self.candidates[cell] & digits

    def above(self, most: int) -> int:
        """Return the mask of the digits above one."""
        return self.layout.all_digits & -(2 << max(most, 0))

    def below(self, least: int) -> int:
        """Return the mask of the digits below one."""
        return self.layout.all_digits & ((1 << max(least, 0)) - 1)

    def says(self, how: str, **facts: Any) -> ClueSaid:
        """Return how it is told what was found."""
        return ClueSaid(self.number, how, **facts)


class ClueFinding(NamedTuple):
    """What a clue rules out.

    Parameters
    ----------
    removes : tuple of (int, int)
        Pairs of cell and mask of open digits that go.
    looks : iterable of int
        The cells whose open digits that rests on.
    said : ClueSaid
        How it is told.
    apart : iterable of int
        The numbers of the rules, beside the clue, by which some of its cells differ.
    focus : tuple of int
        The cells that it is about, where they are others than those that lose something.
    """

    removes: tuple[tuple[int, int], ...]
    looks: Iterable[int]
    said: ClueSaid
    apart: Iterable[int] = ()
    focus: tuple[int, ...] = ()


Look = Callable[[Clue], Iterator[ClueFinding]]
"""One way to look at a clue: every finding that removes something."""


@lru_cache(maxsize=8)
def clues_of(layout: Layout) -> Mapping[type[Rule], tuple[int, ...]]:
    """Return the numbers of the rules that are neither houses nor common cages, by their class."""
    found: dict[type[Rule], tuple[int, ...]] = {}
    repeating = range(layout.summed.start, layout.cage_numbers.start)
    for number in (*repeating, *range(layout.cage_numbers.stop, len(layout.rules))):
        kind = type(layout.rules[number])
        found[kind] = (*found.get(kind, ()), number)
    return found


def clue_steps(board: Board, technique: str, looks: Mapping[type[Rule], Look]) -> Iterator[Step]:
    """Yield what is found by looking at each clue in which something changed.

    Parameters
    ----------
    board : Board
        Where.
    technique : str
        The id of the technique.
    looks : mapping
        How clues are looked at, by their class.
    """
    clues = clues_of(board.layout)
    for kind, look in looks.items():
        for number in clues.get(kind, ()):
            if board.layout.masks[number] & board.fresh & _with_something(board, number):
                for finding in look(Clue(board.layout, number, board.candidates)):
                    yield _step(technique, number, finding)


def _with_something(board: Board, number: int) -> int:
    """Return the mask of all cells; none where a cell of the clue has nothing left."""
    return -all(board.candidates[cell] for cell in board.layout.rules[number].cells)


def _step(technique: str, number: int, finding: ClueFinding) -> Step:
    removes = tuple(sorted(finding.removes))
    return Step(
        technique,
        removes=removes,
        rules=tuple(sorted({number, *finding.apart})),
        looks=tuple(sorted(set(finding.looks))),
        focus=finding.focus or tuple(cell for cell, _ in removes),
        digits=mask_of(digit for _, gone in removes for digit in bits(gone)),
        pattern=finding.said,
    )
