"""How lines are put to CP-SAT; those that are rules over pairs are with the marks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.choices import SetsByDigit, add_choice
from verifier.counting.proto import add_all_true, add_clause, holds, new_booleans
from verifier.counting.running_sums import add_running_sum, add_weighted_sum, takes_few_steps
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.lines.arrow import TENS, Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban

__all__ = ["post_arrows", "post_between", "post_region_sums", "post_renbans"]


def post_renbans(model: cp_sat.CpModelProto, grid: Grid, lines: Sequence[Renban]) -> None:
    """State that the digits of each line are those of one run without a gap."""
    for line in lines:
        length = len(line.cells)
        runs = [range(first, first + length) for first in range(1, grid.digits - length + 2)]
        add_choice(model, grid, line.cells, SetsByDigit.among(runs, grid.digits))


def post_between(model: cp_sat.CpModelProto, grid: Grid, lines: Sequence[Between]) -> None:
    """State which end is the smaller one, and that each inner digit lies between the two."""
    for line in lines:
        first_is_smaller = new_booleans(model, 1)
        for way, (low, high) in ((first_is_smaller, line.ends), (~first_is_smaller, line.ends[::-1])):
            for less, more in [(low, high), *((low, cell) for cell in line.inner)]:
                _add_less(model, grid, way, less, more)
            for cell in line.inner:
                _add_less(model, grid, way, cell, high)


def _add_less(model: cp_sat.CpModelProto, grid: Grid, when: int, less: int, more: int) -> None:
    """State that, when a literal is true, the digit of one cell is less than that of another."""
    for digit in grid.all_digits:
        smaller = [holds(grid, less, other) for other in range(1, digit)]
        add_clause(model, [~when, ~holds(grid, more, digit), *smaller])


def post_arrows(model: cp_sat.CpModelProto, grid: Grid, arrows: Sequence[Arrow]) -> None:
    """State of each sum that the line makes what stands in the circle."""
    for arrow in arrows:
        most = max(grid.all_digits) * sum(weight for _, weight in arrow.weights if weight > 0)
        if takes_few_steps(grid, arrow.line, most):
            _add_arrow(model, grid, arrow, add_running_sum(model, grid, arrow.line, 0, most))
        else:
            add_weighted_sum(model, grid, arrow.weights, 0)


def _add_arrow(model: cp_sat.CpModelProto, grid: Grid, arrow: Arrow, sums: Mapping[int, int]) -> None:
    """State for each sum what the circle holds."""
    *tens, units = arrow.circle
    for total, literal in sums.items():
        # What of the total the units leave for the tens; where they leave nothing of it, there is no way.
        ways = [digit for digit in grid.all_digits if _tens(total - digit, bool(tens), grid)]
        add_clause(model, [~literal, *(holds(grid, units, digit) for digit in ways)])
        for digit in ways if tens else ():
            then = holds(grid, tens[0], (total - digit) // TENS)
            add_clause(model, [~literal, ~holds(grid, units, digit), then])


def _tens(left: int, two_cells: bool, grid: Grid) -> bool:
    """Whether what is left of a total is what the tens can be; nothing may be left where there are none."""
    return left % TENS == 0 and left // TENS in grid.all_digits if two_cells else left == 0


def post_region_sums(model: cp_sat.CpModelProto, grid: Grid, lines: Sequence[RegionSum]) -> None:
    """State that what the first part adds up to is what each other part does."""
    for line in lines:
        least, most = max(map(len, line.parts)), grid.digits * min(map(len, line.parts))
        if all(takes_few_steps(grid, part, most) for part in line.parts):
            first, *others = (add_running_sum(model, grid, part, least, most) for part in line.parts)
            for other in others:
                for total in sorted(first.keys() | other.keys()):
                    _add_equal(model, first.get(total), other.get(total))
        else:
            for one, other_part in pairwise(line.parts):
                weights = [*((cell, 1) for cell in one), *((cell, -1) for cell in other_part)]
                add_weighted_sum(model, grid, weights, 0)


def _add_equal(model: cp_sat.CpModelProto, one: int | None, other: int | None) -> None:
    """State that two literals are equal; one that is not there is false."""
    if one is None or other is None:
        add_all_true(model, [~literal for literal in (one, other) if literal is not None])
    else:
        add_clause(model, [~one, other])
        add_clause(model, [one, ~other])
