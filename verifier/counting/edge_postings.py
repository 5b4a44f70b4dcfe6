"""How clues at the edge are put to CP-SAT."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.proto import (
    add_all_true,
    add_clause,
    add_exactly_one,
    add_in_range,
    holds,
    new_booleans,
)
from verifier.counting.running_sums import add_running_sum
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper

__all__ = ["post_little_killers", "post_sandwiches", "post_skyscrapers"]


def post_sandwiches(model: cp_sat.CpModelProto, grid: Grid, clues: Sequence[Sandwich]) -> None:
    """State of each two places of the line that the 1 and the largest digit are there, or what follows."""
    for clue in clues:
        ends = (1, len(clue.cells))
        if ends[1] > grid.digits:
            add_clause(model, [])
            continue
        for digit in ends:
            add_exactly_one(model, [holds(grid, cell, digit) for cell in clue.cells])
        selectors = []
        for first, last in combinations(range(len(clue.cells)), 2):
            chosen = new_booleans(model, 1)
            selectors.append(chosen)
            for place in (first, last):
                add_clause(model, [~chosen, *(holds(grid, clue.cells[place], digit) for digit in ends)])
            _add_filled(model, grid, chosen, clue.cells[first + 1 : last], clue.total)
        add_exactly_one(model, selectors)


def _add_filled(
    model: cp_sat.CpModelProto, grid: Grid, chosen: int, cells: Sequence[int], total: int
) -> None:
    """State that cells add up to a total when a literal is true."""
    literals = [holds(grid, cell, digit) for cell in cells for digit in grid.all_digits]
    if literals:
        add_in_range(model, literals, [*grid.all_digits] * len(cells), total, total, [chosen])
    elif total:
        add_clause(model, [~chosen])


def post_skyscrapers(model: cp_sat.CpModelProto, grid: Grid, clues: Sequence[Skyscraper]) -> None:
    """State how high the highest is up to each place, so which digits are seen, and how many are."""
    for clue in clues:
        first, *others = clue.cells
        # For each digit: one as high as it has come, among the cells so far.
        reached = [_at_least(model, grid, first, digit) for digit in grid.all_digits]
        seen = []
        for cell in others:
            visible = new_booleans(model, 1)
            seen.append(visible)
            for digit, hidden in zip(grid.all_digits, reached, strict=True):
                add_clause(model, [~holds(grid, cell, digit), hidden, visible])
                add_clause(model, [~holds(grid, cell, digit), ~hidden, ~visible])
            reached = [
                _either(model, before, [holds(grid, cell, other) for other in grid.all_digits[digit - 1 :]])
                for digit, before in zip(grid.all_digits, reached, strict=True)
            ]
        add_in_range(model, seen, [1] * len(seen), clue.count - 1, clue.count - 1)


def _at_least(model: cp_sat.CpModelProto, grid: Grid, cell: int, digit: int) -> int:
    """Return a literal that says that a cell holds at least a digit."""
    return _either(model, None, [holds(grid, cell, other) for other in grid.all_digits[digit - 1 :]])


def _either(model: cp_sat.CpModelProto, before: int | None, literals: Sequence[int]) -> int:
    """Return a literal that is true where one of some others is."""
    known = [*literals] if before is None else [before, *literals]
    result = new_booleans(model, 1)
    add_clause(model, [~result, *known])
    for literal in known:
        add_clause(model, [~literal, result])
    return result


def post_little_killers(model: cp_sat.CpModelProto, grid: Grid, clues: Sequence[LittleKiller]) -> None:
    """State that the digits of each diagonal add up to its total."""
    for clue in clues:
        sums = add_running_sum(model, grid, clue.cells, min(clue.total, grid.digits * len(clue.cells)))
        wanted = sums.get(clue.total)
        add_all_true(model, [] if wanted is None else [wanted])
        if wanted is None:
            add_clause(model, [])
