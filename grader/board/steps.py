"""A step of a solve: what it places or removes, and the premises it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from grader.board.patterns import Pattern
from verifier.puzzle.rules.linear_sum import LinearSum

if TYPE_CHECKING:
    from grader.board.board import Board

__all__ = ["DerivedSum", "Step", "WalkStep"]


@dataclass(frozen=True, slots=True)
class DerivedSum:
    """A sum over cells that follows from houses and cages: the rule of 45.

    The houses add up to a known total; the cages that touch them say what part of it they hold. What is
    left over is a sum over the *innies* (cells inside the houses, weight 1) less the *outies* (cells
    of those cages outside the houses, weight -1; all signs turned round where there are outies only).

    Parameters
    ----------
    linear : LinearSum
        The sum itself, over all cells left over, also those that have their digit by now.
    rules : tuple of int
        The houses and the cages it is derived from, by their numbers in the layout.
    """

    linear: LinearSum
    rules: tuple[int, ...]

    def left(self, board: Board) -> tuple[dict[int, int], int]:
        """Return the cells that have no digit on a board, with their weights, and what is left for them."""
        known = {c: board.candidates[c].bit_length() - 1 for c in self.linear.cells if board.placed >> c & 1}
        left = {cell: weight for cell, weight in self.linear.weights if cell not in known}
        return left, self.linear.total - sum(w * known.get(cell, 0) for cell, w in self.linear.weights)


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a solve.

    The premises are all that the step rests on: a solver that knows only these rules and sums,
    and the digits open in the cells of `looks`, must find the opposite of the step impossible.

    Parameters
    ----------
    technique : str
        The id of the technique.
    places : tuple of (int, int)
        Pairs of cell and digit written in. What a placed digit takes from the cells that see it is no
        step of its own.
    removes : tuple of (int, int)
        Pairs of cell and mask of the digits that go, in reading order.
    rules : tuple of int
        Premises, by their numbers in the layout: houses, then cages, then others.
    sums : tuple of DerivedSum
        Premises; the rules they are derived from are not repeated in `rules`.
    looks : tuple of int
        The cells whose open digits the step rests on.
    focus : tuple of int
        The cells of the pattern itself, for the sentence: the pair, the cells of the fish.
    digits : int
        Mask of the digits of the pattern, for the sentence.
    length : int
        The length of a chain, in links; 0 where the technique has none.
    chain : tuple of (tuple of int, int)
        The nodes of a chain in order, for the sentence: pairs of cells and the digit that stands in one of
        them. If the first is wrong, the second is right, so the third is wrong, and so on.
    pattern : Pattern or None
        What else the sentence needs; none for most techniques.
    """

    technique: str
    places: tuple[tuple[int, int], ...] = ()
    removes: tuple[tuple[int, int], ...] = ()
    rules: tuple[int, ...] = ()
    sums: tuple[DerivedSum, ...] = ()
    looks: tuple[int, ...] = ()
    focus: tuple[int, ...] = ()
    digits: int = 0
    length: int = 0
    chain: tuple[tuple[tuple[int, ...], int], ...] = ()
    pattern: Pattern | None = None

    @property
    def effect(self) -> tuple[tuple[tuple[int, int], ...], tuple[tuple[int, int], ...]]:
        """What the step does; two steps with the same effect count once in a round."""
        return self.places, self.removes

    @property
    def premise_count(self) -> int:
        """How many things a person must hold in mind: rules, and cells looked at."""
        return len(self.rules) + len(self.looks) + sum(len(derived.rules) for derived in self.sums)

    @property
    def cells(self) -> int:
        """Mask of all cells that the step speaks of: those it looks at, its pattern, its effect."""
        mask = self.acted_on
        for cell in (*self.looks, *self.focus):
            mask |= 1 << cell
        return mask

    @property
    def acted_on(self) -> int:
        """Mask of the cells in which it does something."""
        mask = 0
        for cell, _ in (*self.places, *self.removes):
            mask |= 1 << cell
        return mask


@dataclass(frozen=True, slots=True)
class WalkStep:
    """A step, and the board on which it is taken.

    Parameters
    ----------
    step : Step
        The step.
    board : Board
        What was open before it.
    width : int
        How many steps of its technique were open where it was found: the places at which one could have
        gone on.
    breath : int
        Steps with the same number are told in one breath; 0 where nobody has said which are.
    """

    step: Step
    board: Board
    width: int = 1
    breath: int = 0
