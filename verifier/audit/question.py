"""The model of one question to the auditor: what is known of each cell, and that a claim is wrong."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from ortools.sat.python import cp_model

from verifier.audit.premises import Claim

__all__ = ["Question"]


class Question:
    """The model of one question; `digit[cell, d]` says that `d` stands in `cell`.

    Parameters
    ----------
    digits : int
        The largest digit of the grid.
    open_in : mapping of int to iterable of int
        For each cell the digits that are open there.
    """

    def __init__(self, digits: int, open_in: Mapping[int, Iterable[int]]) -> None:
        self.model = cp_model.CpModel()
        self.digit: dict[tuple[int, int], cp_model.IntVar] = {}
        self.all = range(1, digits + 1)
        for cell, its_own in open_in.items():
            self._add_cell(cell, its_own)

    def _add_cell(self, cell: int, digits: Iterable[int]) -> None:
        own = [self.model.new_bool_var("") for _ in digits]
        self.digit.update(zip(((cell, digit) for digit in digits), own, strict=True))
        self.model.add_exactly_one(own)

    def places(self, cells: Iterable[int], digit: int) -> list[cp_model.IntVar]:
        """Return the variables of a digit in some cells, where it is open."""
        return [self.digit[cell, digit] for cell in cells if (cell, digit) in self.digit]

    def value(self, cell: int) -> cp_model.LinearExprT:
        """Return the digit of a cell as a number."""
        return sum(digit * stands for (own, digit), stands in self.digit.items() if own == cell)

    def deny(self, claims: Sequence[Claim]) -> None:
        """State that at least one of the claims is wrong."""
        denied = []
        for cell, digit, stands in claims:
            there = self.digit.get((cell, digit))
            if there is not None:
                denied.append(~there if stands else there)
            elif stands:
                denied.append(self.model.new_constant(1))  # it is not open there: the claim is wrong
        self.model.add_bool_or(denied)
