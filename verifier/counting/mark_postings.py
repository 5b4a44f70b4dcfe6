"""How marks, and other rules over pairs of cells, are put to CP-SAT."""

from __future__ import annotations

from collections.abc import Sequence

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.proto import add_all_true, add_clause, add_in_range, holds
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.marks.parity import Parity
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.pair_rule import PairRule

_FEW = 2
"""So few digits that do not fit are barred one by one: short clauses tell the solver more than long ones."""

__all__ = ["post_pairs", "post_parity", "post_quadruples"]


def post_pairs(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[PairRule]) -> None:
    """State of each pair, for every digit in one of its cells, what the other may hold then, or may not."""
    for rule in rules:
        barred = {d: [other for other in grid.all_digits if not rule.fits(d, other)] for d in grid.all_digits}
        for one, other in rule.pairs:
            for digit, gone in barred.items():
                here = holds(grid, one, digit)
                if len(gone) <= _FEW:
                    for misfit in gone:
                        add_clause(model, [~here, ~holds(grid, other, misfit)])
                else:
                    fitting = [d for d in grid.all_digits if d not in gone]
                    add_clause(model, [~here, *(holds(grid, other, fit) for fit in fitting)])


def post_parity(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[Parity]) -> None:
    """State of each cell which digits it does not hold."""
    for rule in rules:
        barred = [digit for digit in grid.all_digits if digit % 2 != rule.rest]
        add_all_true(model, [~holds(grid, cell, digit) for cell in rule.cells for digit in barred])


def post_quadruples(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[Quadruple]) -> None:
    """State of each digit that is named that it stands so often at least."""
    for rule in rules:
        for digit in dict.fromkeys(rule.digits):
            places = [holds(grid, cell, digit) for cell in rule.cells] if digit in grid.all_digits else []
            add_in_range(model, places, [1] * len(places), rule.digits.count(digit), len(rule.cells))
