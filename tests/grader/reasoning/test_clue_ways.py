"""All ways to fill a clue: against plain search, and for every rule there is."""

from __future__ import annotations

from itertools import product
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from grader.board.board import board_from_text
from grader.reasoning.clues.clue import Clue
from grader.reasoning.clues.listed import clue_ways, left_if_listed, list_ways
from grader.reasoning.clues.machines import MACHINES
from grader.reasoning.clues.ways import ClueWays
from tests.grader.boards import Position
from tests.grader.techniques.clue_boards import clued_positions
from tests.rules.test_every_rule import EXAMPLES
from verifier.puzzle.grid import Filling
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.pair_rule import PairRule

CELLS_AT_MOST = 5
"""Plain search fills no larger clues."""


@settings(max_examples=15, deadline=None)
@given(clued_positions())
def test_they_are_those_that_plain_search_finds(position: Position) -> None:
    layout, candidates = position.board.layout, position.board.candidates
    for number, rule in enumerate(layout.rules):
        if type(rule) in MACHINES and len(rule.cells) <= CELLS_AT_MOST:
            ways = ClueWays.of_clue(Clue(layout, number, candidates), MACHINES[type(rule)], seeing=False)
            order = [ways.cells.index(cell) for cell in rule.cells]
            plain = set()
            for held in product(*(digits_of(candidates[cell]) for cell in rule.cells)):
                if rule.holds(filled(rule.cells, held, layout.grid.cell_count)):
                    plain.add(held)
            assert {tuple(way[place] for place in order) for way in ways.each()} == plain


@settings(max_examples=15, deadline=None)
@given(clued_positions(), st.randoms(use_true_random=False))
def test_listed_ways_leave_what_ways_gone_through_leave(position: Position, random: Random) -> None:
    layout, candidates = position.board.layout, position.board.candidates
    for number, rule in enumerate(layout.rules):
        if type(rule) in MACHINES and len(rule.cells) <= CELLS_AT_MOST:
            list_ways(layout, number, candidates)
            fewer = tuple(candidates[cell] & ~(1 << random.randint(1, 9)) for cell in rule.cells)
            left = left_if_listed(layout, number, fewer)
            assert left is None or left == clue_ways(layout, number, fewer).kept


def test_where_more_is_open_than_was_listed_the_list_says_nothing() -> None:
    board = board_from_text("34 2 12", size=4, clues=[Arrow((0,), (1, 2))])
    number = len(board.layout.rules) - 1
    assert left_if_listed(board.layout, number, (0b11000, 0b100, 0b110)) is None
    list_ways(board.layout, number, board.candidates)
    assert left_if_listed(board.layout, number, (0b11000, 0b100, 0b110)) == {0: 0b1000, 1: 0b100, 2: 0b10}
    assert left_if_listed(board.layout, number, (0b11000, 0b110, 0b110)) is None


def test_every_clue_over_more_than_pairs_can_be_filled() -> None:
    """Sums have techniques of their own, and what is even or odd is seen cell by cell."""
    clues = {kind for kind in EXAMPLES if not issubclass(kind, House | Cage | Different | Given | PairRule)}
    assert clues - {LinearSum, Even, Odd} <= set(MACHINES)


def filled(cells: tuple[int, ...], digits: tuple[int, ...], count: int) -> Filling:
    by_cell = dict(zip(cells, digits, strict=True))
    return tuple(by_cell.get(cell, 0) for cell in range(count))
