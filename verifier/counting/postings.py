"""How each rule is put to CP-SAT: one function a rule, in the table `POSTINGS`.

A rule that has no function of its own is posted by what it forbids: each filling of its cells that it does
not hold for, taken from the rule itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import product
from typing import Any

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.cage_postings import post_cages
from verifier.counting.edge_postings import post_little_killers, post_sandwiches, post_skyscrapers
from verifier.counting.line_postings import post_arrows, post_between, post_region_sums, post_renbans
from verifier.counting.mark_postings import post_pairs, post_parity, post_quadruples
from verifier.counting.proto import (
    add_all_true,
    add_at_most_one,
    add_clause,
    add_exactly_one,
    holds,
)
from verifier.counting.running_sums import add_weighted_sum
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.rule import Rule

__all__ = ["POSTINGS", "post"]

_MOST_LISTED = 20_000
"""Fillings of its cells that a rule without a function of its own may have."""


def post(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[Rule]) -> None:
    """State some rules of one class."""
    POSTINGS.get(type(rules[0]), _post_by_listing)(model, grid, rules)


def post_houses(model: cp_sat.CpModelProto, grid: Grid, houses: Sequence[House]) -> None:
    """State that a house has exactly one place for every digit; with fewer cells than digits, at most one."""
    for house in houses:
        add = add_exactly_one if len(house.cells) == grid.digits else add_at_most_one
        for digit in grid.all_digits:
            add(model, [holds(grid, cell, digit) for cell in house.cells])


def post_different(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[Different]) -> None:
    """State that no digit stands twice in some cells."""
    for rule in rules:
        for digit in grid.all_digits:
            add_at_most_one(model, [holds(grid, cell, digit) for cell in rule.cells])


def post_sums(model: cp_sat.CpModelProto, grid: Grid, sums: Sequence[LinearSum]) -> None:
    """State that digits, each with its weight, add up to a total."""
    for rule in sums:
        add_weighted_sum(model, grid, rule.weights, rule.total)


def post_givens(model: cp_sat.CpModelProto, grid: Grid, givens: Sequence[Given]) -> None:
    """State that the givens stand."""
    add_all_true(model, [holds(grid, given.cell, given.digit) for given in givens])


def _post_by_listing(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[Rule]) -> None:
    """State of each rule that its cells take none of the fillings that it does not hold for."""
    for rule in rules:
        if grid.digits ** len(rule.cells) > _MOST_LISTED:
            raise ValueError(f"{rule.word}: a rule over {len(rule.cells)} cells needs a posting of its own")
        filling = [0] * grid.cell_count
        for digits in product(grid.all_digits, repeat=len(rule.cells)):
            for cell, digit in zip(rule.cells, digits, strict=True):
                filling[cell] = digit
            if not rule.holds(tuple(filling)):
                add_clause(model, [~holds(grid, c, d) for c, d in zip(rule.cells, digits, strict=True)])


POSTINGS: Mapping[type[Rule], Callable[[cp_sat.CpModelProto, Grid, Sequence[Any]], None]] = {
    House: post_houses,
    Cage: post_cages,
    Different: post_different,
    LinearSum: post_sums,
    Greater: post_pairs,
    Consecutive: post_pairs,
    Ratio: post_pairs,
    Difference: post_pairs,
    PairSum: post_pairs,
    Even: post_parity,
    Odd: post_parity,
    Quadruple: post_quadruples,
    ChessMove: post_pairs,
    NotConsecutive: post_pairs,
    Unmarked: post_pairs,
    Thermometer: post_pairs,
    Whisper: post_pairs,
    Palindrome: post_pairs,
    Renban: post_renbans,
    Between: post_between,
    Arrow: post_arrows,
    RegionSum: post_region_sums,
    Sandwich: post_sandwiches,
    Skyscraper: post_skyscrapers,
    LittleKiller: post_little_killers,
    Given: post_givens,
}
"""Who states the rules of each class."""
