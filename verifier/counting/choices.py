"""One choice out of several: the digits of some cells are those of one set, and all of them stand there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.proto import add_all_true, add_each_exactly_one, add_exactly_one, holds, new_booleans
from verifier.puzzle.grid import Grid

__all__ = ["SetsByDigit", "add_choice"]


@dataclass(frozen=True, slots=True)
class SetsByDigit:
    """Some sets of digits, turned around: for each digit, those that lack it.

    Parameters
    ----------
    count : int
        Number of sets.
    lacking : tuple of (int, list of int)
        For each digit that some set holds, the numbers of those that lack it.
    never : tuple of int
        The digits that no set holds.
    """

    count: int
    lacking: tuple[tuple[int, list[int]], ...]
    never: tuple[int, ...]

    @classmethod
    def among(cls, sets: Sequence[Iterable[int]], digits: int) -> SetsByDigit:
        """Return the choice of one of some sets, each without repetition, of digits up to the largest."""
        lacking = {d: [i for i, held in enumerate(sets) if d not in held] for d in range(1, digits + 1)}
        return cls(
            len(sets),
            tuple((d, numbers) for d, numbers in lacking.items() if len(numbers) < len(sets)),
            tuple(d for d, numbers in lacking.items() if len(numbers) == len(sets)),
        )


def add_choice(model: cp_sat.CpModelProto, grid: Grid, cells: Sequence[int], choice: SetsByDigit) -> None:
    """State that as many cells as each set has digits hold those of one set: one selector a set."""
    first = new_booleans(model, choice.count) if choice.count > 1 else 0
    if choice.count != 1:
        # Exactly one set is that of the cells; where there is none, this cannot be met.
        add_exactly_one(model, list(range(first, first + choice.count)))
    # A digit in no set is in no cell (``~`` is how CP-SAT numbers a negation).
    add_all_true(model, [~holds(grid, cell, digit) for digit in choice.never for cell in cells])
    # Any other digit is in exactly one cell, unless the set is one that lacks it.
    before = [holds(grid, cell, 1) - 1 for cell in cells]
    add_each_exactly_one(
        model,
        (
            [literal + digit for literal in before] + [first + number for number in numbers]
            for digit, numbers in choice.lacking
        ),
    )
