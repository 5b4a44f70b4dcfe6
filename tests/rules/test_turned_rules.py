"""Which turnings and renamings houses, cages and rules of the whole grid keep: what repeats are found by."""

from __future__ import annotations

import pytest

from verifier.likeness.turned import turned_images, turned_key
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import apart
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.chess_move import MOVES, ChessMove
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.rule import Rule

SIX = Grid.square(6)
STAY = tuple(range(7))
COMPLEMENT = (0, *range(6, 0, -1))
SHUFFLED = (0, 3, 1, 2, 6, 5, 4)
ANY, ORDERED = {STAY, COMPLEMENT, SHUFFLED}, {STAY, COMPLEMENT}

KEPT: list[tuple[Rule, set[tuple[int, ...]]]] = [
    (House("extra house", 1, (7, 8, 9, 13, 14, 15)), ANY),
    (SIX.diagonals[0], ANY),
    (Different((0, 7, 14)), ANY),
    (ChessMove("knight", apart(SIX, MOVES["knight"])), ANY),
    (ChessMove("king", apart(SIX, MOVES["king"])), ANY),
    (NotConsecutive(apart(SIX, ((0, 1), (1, 0)))), ORDERED),
    (Cage((0, 1), 4), ORDERED),
    (LinearSum(((0, 1), (7, 1)), 4), ORDERED),
]
every_rule = pytest.mark.parametrize(("rule", "kept"), KEPT, ids=[repr(rule)[:24] for rule, _ in KEPT])


@every_rule
def test_digits_may_be_renamed_as_far_as_the_rule_does_not_order_or_add_them(
    rule: Rule, kept: set[tuple[int, ...]]
) -> None:
    assert {digits for digits in ANY if rule.relabelled(digits) is not None} == kept


@every_rule
def test_every_turn_keeps_it_and_is_known_as_the_same_puzzle(rule: Rule, kept: set[tuple[int, ...]]) -> None:
    puzzle = make_puzzle("killer", SIX, houses=SIX.houses).changed(come=[rule])
    for grid, places in turned_images(SIX):
        for digits in kept - {SHUFFLED}:
            form = puzzle.moved(grid, places, digits)
            assert isinstance(form, Puzzle)
            assert turned_key(form) == turned_key(puzzle)


def test_rules_of_the_whole_grid_are_the_same_whichever_way_it_is_turned() -> None:
    for rule, _ in KEPT[3:6]:
        for grid, places in turned_images(SIX):
            if grid == SIX:
                assert rule.moved(places) == rule
