"""How clues at the edge are put to CP-SAT."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.proto import (
    add_clause,
    add_exactly_one,
    add_in_range,
    holds,
    new_booleans,
)
from verifier.counting.running_sums import add_total
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
    inner = range(2 * len(cells), (grid.digits - 1) * len(cells) + 1)  # the 1 and the largest are elsewhere
    if total not in inner:
        add_clause(model, [~chosen])
    elif cells:
        literals = [holds(grid, cell, digit) for cell in cells for digit in grid.all_digits]
        add_in_range(model, literals, [*grid.all_digits] * len(cells), total, total, [chosen])


def post_skyscrapers(model: cp_sat.CpModelProto, grid: Grid, clues: Sequence[Skyscraper]) -> None:
    """State how high it has come up to each place, so which digits are seen, and how many are."""
    for clue in clues:
        first, *others = clue.cells
        reached = _add_heights(model, grid, first, None)
        seen = []
        for cell in others:
            visible = new_booleans(model, 1)
            seen.append(visible)
            for digit, hidden in zip(grid.all_digits, reached, strict=True):
                add_clause(model, [~holds(grid, cell, digit), hidden, visible])
                add_clause(model, [~holds(grid, cell, digit), ~hidden, ~visible])
            reached = _add_heights(model, grid, cell, reached)
        add_in_range(model, seen, [1] * len(seen), clue.count - 1, clue.count - 1)


def _add_heights(
    model: cp_sat.CpModelProto, grid: Grid, cell: int, before: Sequence[int] | None
) -> Sequence[int]:
    """Return for each digit a literal that says that a digit as high stands in a cell, or did before it."""
    first = new_booleans(model, grid.digits)
    reached = range(first, first + grid.digits)
    for digit, literal in zip(grid.all_digits, reached, strict=True):
        as_high = [holds(grid, cell, other) for other in grid.all_digits[digit - 1 :]]
        add_clause(model, [~holds(grid, cell, digit), literal])
        if digit > 1:  # whatever reaches a height has reached those below it
            add_clause(model, [~literal, reached[digit - 2]])
        if before is None:
            add_clause(model, [~literal, *as_high])
        else:
            add_clause(model, [~before[digit - 1], literal])
            add_clause(model, [~literal, before[digit - 1], *as_high])
    return reached


def post_little_killers(model: cp_sat.CpModelProto, grid: Grid, clues: Sequence[LittleKiller]) -> None:
    """State that the digits of each diagonal add up to its total."""
    for clue in clues:
        add_total(model, grid, clue.cells, clue.total)
