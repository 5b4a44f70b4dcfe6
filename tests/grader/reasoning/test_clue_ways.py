"""All ways to fill a clue: against plain search, and for every rule there is."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings

from grader.board.board import digits_of
from grader.reasoning.clues.clue import Clue
from grader.reasoning.clues.machines import MACHINES
from grader.reasoning.clues.ways import ClueWays
from tests.grader.boards import Position
from tests.grader.techniques.clue_boards import clued_positions
from tests.rules.test_every_rule import EXAMPLES
from verifier.puzzle.grid import Filling
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
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


def test_every_clue_over_more_than_pairs_can_be_filled() -> None:
    """Sums have techniques of their own, and what is even or odd is seen cell by cell."""
    clues = {kind for kind in EXAMPLES if not issubclass(kind, House | Cage | Different | Given | PairRule)}
    assert clues - {LinearSum, Even, Odd} <= set(MACHINES)


def filled(cells: tuple[int, ...], digits: tuple[int, ...], count: int) -> Filling:
    by_cell = dict(zip(cells, digits, strict=True))
    return tuple(by_cell.get(cell, 0) for cell in range(count))
