"""What holds of every kind of rule: all layers understand it alike, none lacks it, and nothing drops it."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator, Mapping
from dataclasses import fields, replace
from inspect import isabstract
from itertools import product

import pytest

from tests.rules.shapes import solved_by
from verifier.audit.postings import POSTINGS as AUDIT
from verifier.audit.premises import Premises
from verifier.audit.proof import Answer, prove
from verifier.counting.count import count_solutions
from verifier.counting.postings import POSTINGS as COUNT
from verifier.diagnosis.repairs.changes import CellMove, changed, given_change, total_change
from verifier.diagnosis.without.conflicts import only
from verifier.likeness.corners import CORNERS
from verifier.likeness.turned import complement, turned_images, turned_key
from verifier.puzzle import rules
from verifier.puzzle.all_marked import marked_anew
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
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
from verifier.recount.recount import recount_solutions
from verifier.recount.statements import FACTS

EXAMPLES: dict[type[Rule], tuple[Rule, ...]] = {
    House: (House("extra house", 1, (0, 1, 2)), House("row", 1, (0, 1)), House("box", 1, (0, 1, 2, 3))),
    Cage: (Cage((0, 1), 4), Cage((0, 1, 2), 6), Cage((0, 1), 2), Cage((1, 3), 99)),
    Different: (Different((0, 2)), Different((0, 1, 2)), Different((0, 1, 2, 3))),
    LinearSum: (
        LinearSum(((0, 1), (1, 1), (2, 1)), 5),
        LinearSum(((0, 2), (1, -1)), 1),
        LinearSum(((1, -1), (2, 1)), 0),
        LinearSum(((0, 1),), 10**12),
    ),
    Greater: (Greater((0, 1)), Greater((3, 2))),
    ChessMove: (ChessMove("knight", ((0, 2), (1, 3))), ChessMove("king", ((0, 1), (1, 2), (2, 3)))),
    NotConsecutive: (NotConsecutive(((0, 1), (1, 2), (2, 3))), NotConsecutive(((0, 3),))),
    Given: (Given(2, 3),),
    Consecutive: (Consecutive((0, 1)),),
    Ratio: (Ratio((1, 2), 2), Ratio((0, 1), 3), Ratio((0, 1), 10**6)),
    Difference: (Difference((0, 1), 2), Difference((2, 3), 0), Difference((0, 1), 10**6)),
    PairSum: (PairSum((0, 1), 4), PairSum((0, 1), 10**6)),
    Even: (Even((0,)), Even((1, 3))),
    Odd: (Odd((0, 1, 3)),),
    Quadruple: (
        Quadruple((0, 1, 2, 3), (1, 1, 3)),
        Quadruple((0, 1, 2, 3), (2,)),
        Quadruple((0, 1), (1, 2, 3)),
    ),
    Unmarked: (
        Unmarked("consecutive", (), ((0, 1), (2, 3))),
        Unmarked("ratio", (2, 3), ((0, 1), (1, 2))),
        Unmarked("pair_sum", (4,), ((0, 1), (1, 2), (2, 3))),
        Unmarked("pair_sum", (), ((0, 1),)),
    ),
    Thermometer: (Thermometer((0, 1, 2)), Thermometer((2, 0)), Thermometer((0, 1, 2, 3))),
    Whisper: (Whisper((0, 1, 2), 2), Whisper((1, 2), 0), Whisper((0, 3), 10**6)),
    Palindrome: (Palindrome((0, 1, 2, 3)), Palindrome((1, 2, 3))),
    Renban: (Renban((0, 1)), Renban((0, 1, 3)), Renban((0, 1, 2, 3))),
    Between: (Between((0, 1, 2)), Between((0, 1, 2, 3))),
    Arrow: (Arrow((0,), (1, 2)), Arrow((0, 1), (2, 3)), Arrow((3,), (2,)), Arrow((1, 0), (2, 3))),
    RegionSum: (RegionSum(((0, 1), (2,))), RegionSum(((0,), (1,), (2, 3))), RegionSum(((0, 1), (2, 3)))),
    Sandwich: (
        Sandwich((0, 1, 2), 2),
        Sandwich((1, 2, 3), 0),
        Sandwich((0, 1, 2, 3), 2),
        Sandwich((0, 1, 2), 10**6),
    ),
    Skyscraper: (Skyscraper((0, 1, 2, 3), 2), Skyscraper((3, 2, 1), 3), Skyscraper((0, 1), 10**6)),
    LittleKiller: (LittleKiller((0, 1, 2), 5), LittleKiller((3, 2), 10**6)),
}
"""Rules of each class over cells of a strip of four, with the digits 1 to 3."""

NOT_COMPLEMENTED = {
    *(rule for sort in (Ratio, Skyscraper) for rule in EXAMPLES[sort]),
    *(rule for rule in EXAMPLES[Unmarked] if "ratio" in repr(rule)),
    *(rule for rule in EXAMPLES[Arrow] if len(rule.cells) > 2),
    *(rule for rule in EXAMPLES[RegionSum] if rule != RegionSum(((0, 1), (2, 3)))),
    *(rule for rule in EXAMPLES[Sandwich] if rule.figure),
}
"""Those that say of the complements of digits what no rule of their class says."""

STRIP = make_puzzle("classic", Grid(1, 4, 0, 0, 3), houses=())
ALL = [rule for examples in EXAMPLES.values() for rule in examples]


def every_class_of_rule() -> Iterator[type[Rule]]:
    """All that the modules of the rules define."""
    for module in pkgutil.walk_packages(rules.__path__, f"{rules.__name__}."):
        for value in vars(importlib.import_module(module.name)).values():
            if isinstance(value, type) and issubclass(value, Rule) and not isabstract(value):
                yield value


def test_there_is_an_example_of_every_rule() -> None:
    assert set(every_class_of_rule()) == set(EXAMPLES)


@pytest.mark.parametrize(
    "table", [COUNT, FACTS, AUDIT, CORNERS], ids=["count", "recount", "audit", "likeness"]
)
def test_no_layer_lacks_a_rule(table: Mapping[type[Rule], object]) -> None:
    # The count has a default, but no rule so far leaves itself to it.
    assert set(table) == set(every_class_of_rule())


@pytest.mark.parametrize("rule", ALL, ids=repr)
def test_all_layers_say_of_every_filling_what_the_rule_says(rule: Rule) -> None:
    wanted = {filling for filling in product((1, 2, 3), repeat=4) if rule.holds(filling)}
    puzzle = solved_by(STRIP, rule)
    counted, recounted = count_solutions(puzzle, 1000), recount_solutions(puzzle, 1000)
    assert set(counted.solutions) == set(recounted.solutions) == wanted
    assert (counted.complete, counted.refused, recounted.complete, recounted.refused) == (
        True,
        None,
        True,
        None,
    )
    for filling in product((1, 2, 3), repeat=4):
        looks = tuple((cell, (digit,)) for cell, digit in enumerate(filling))
        # The auditor proves anything from premises that contradict each other, and nothing wrong from others.
        absurd = prove(Premises(3, (rule,), looks), [(0, filling[0] % 3 + 1, True)])
        assert (absurd is Answer.REFUTED) == (filling in wanted)


@pytest.mark.parametrize("rule", ALL, ids=repr)
def test_the_count_by_what_a_rule_forbids_is_the_same(rule: Rule, monkeypatch: pytest.MonkeyPatch) -> None:
    from verifier.counting import postings

    usual = count_solutions(solved_by(STRIP, rule), 1000).solutions
    monkeypatch.setattr(postings, "POSTINGS", {})
    assert count_solutions(solved_by(STRIP, rule), 1000).solutions == usual


@pytest.mark.parametrize("rule", ALL, ids=repr)
def test_a_rule_that_is_turned_holds_where_it_did(rule: Rule) -> None:
    turned = rule.moved((3, 2, 1, 0))
    for filling in product((1, 2, 3), repeat=4):
        assert rule.holds(filling) == turned.holds(filling[::-1])
    assert turned.moved((3, 2, 1, 0)) == rule


@pytest.mark.parametrize("rule", ALL, ids=repr)
def test_a_rule_that_is_complemented_holds_where_it_did(rule: Rule) -> None:
    digits = (0, 3, 2, 1)
    other = rule.relabelled(digits)
    assert (other is None) == (rule in NOT_COMPLEMENTED)
    if other is not None:
        for filling in product((1, 2, 3), repeat=4):
            assert rule.holds(filling) == other.holds(tuple(digits[digit] for digit in filling))
        assert other.relabelled(digits) == rule


@pytest.mark.parametrize("rule", ALL, ids=repr)
def test_a_rule_renamed_says_the_same_or_says_that_it_cannot(rule: Rule) -> None:
    digits = (0, 2, 3, 1)
    renamed = rule.relabelled(digits)
    if renamed is not None:
        for filling in product((1, 2, 3), repeat=4):
            assert rule.holds(filling) == renamed.holds(tuple(digits[digit] for digit in filling))


FULL = Puzzle(
    kind="killer",
    grid=Grid(4, 4, 0, 0, 4, blocked=(15,)),
    rules=solved_by(
        make_puzzle(
            "killer",
            Grid.square(4),
            houses=(House("row", 1, (0, 1, 2, 3)), House("extra house", 1, (4, 5, 9))),
            cages=[Cage((0, 4), 5)],
            givens={8: 2},
        ),
        Different((6, 9)),
        LinearSum(((1, 1), (6, 1)), 4),
        Greater((2, 6)),
        ChessMove("knight", ((1, 4), (2, 9))),
        NotConsecutive(((6, 7), (10, 11))),
        Consecutive((0, 1)),
        Ratio((0, 4), 2),
        Difference((5, 6), 2),
        PairSum((9, 10), 5),
        Even((11,)),
        Odd((1, 12)),
        Quadruple((5, 6, 9, 10), (1, 4)),
        Unmarked("consecutive", (), ((1, 2), (2, 3))),
        Unmarked("ratio", (2,), ((1, 2),)),
        Thermometer((12, 8, 5)),
        Whisper((3, 6, 11), 2),
        Palindrome((8, 13, 14)),
        Renban((7, 11, 10)),
        Between((0, 5, 10)),
        Arrow((2,), (5, 8)),
        RegionSum(((1, 5), (6, 10))),
        Sandwich((4, 5, 6, 7), 3),
        Skyscraper((13, 9, 5, 1), 2),
        LittleKiller((4, 9, 14), 7),
    ).rules,
    credits=Credits("all", "All of it", "Nobody"),
    solution=(1, 2, 3, 4, 4, 1, 2, 3, 2, 3, 4, 1, 3, 4, 1, 0),
    marks=tuple("abcdefghijklmnop"),
)
FULL = marked_anew(FULL)
"""A puzzle with a rule of each class and something of its own in each field."""


def unlike(puzzle: Puzzle) -> set[str]:
    """The fields in which a puzzle differs from `FULL`."""
    return {
        field.name for field in fields(Puzzle) if getattr(puzzle, field.name) != getattr(FULL, field.name)
    }


def test_the_full_puzzle_has_all_that_a_puzzle_can_have() -> None:
    assert {type(rule) for rule in FULL.rules} == set(EXAMPLES)
    empty = make_puzzle("classic", Grid(1, 1, 0, 0, 1), houses=())
    assert unlike(empty) == {field.name for field in fields(Puzzle)}


def test_a_change_drops_no_other_rule_and_no_field() -> None:
    more = Given(9, 1)
    assert unlike(FULL.changed([], [])) == set()
    other = FULL.changed(FULL.cages, [more])
    assert unlike(other) == {"rules"}
    assert set(other.rules) == set(FULL.rules) - set(FULL.cages) | {more}
    assert set(FULL.having(Cage, []).rules) == set(FULL.rules) - set(FULL.cages)


def test_the_changes_of_a_repair_drop_no_other_rule_and_no_field() -> None:
    (cage,) = FULL.cages
    extra, total = given_change(9, None, 1), total_change(cage, 6)
    assert unlike(changed(FULL, [extra, total])) == {"rules"}
    assert set(changed(FULL, [extra]).rules) == {*FULL.rules, Given(9, 1)}
    assert set(changed(FULL, [total]).rules) == set(FULL.rules) - {cage} | {Cage(cage.cells, 6)}
    moved = changed(FULL, [CellMove(4, cage, None)])
    assert unlike(moved) == {"rules"}
    assert set(FULL.rules) - {cage} < set(moved.rules)


def test_a_puzzle_with_some_of_its_rules_keeps_its_fields() -> None:
    for rule in FULL.rules:
        assert unlike(FULL.changed([rule])) == unlike(only(FULL, [rule])) == {"rules"}
        assert (*only(FULL, [rule]).rules,) == (rule,)
        assert set(FULL.changed([rule]).rules) == set(FULL.rules) - {rule}


def test_a_turned_puzzle_turned_back_is_the_same_in_every_field() -> None:
    for grid, places in turned_images(FULL.grid):
        turned = FULL.moved(grid, places)
        assert turned is not None
        assert sorted(map(type, turned.rules), key=repr) == sorted(map(type, FULL.rules), key=repr)
        back = [0] * len(places)
        for cell, place in enumerate(places):
            back[place] = cell
        again = turned.moved(FULL.grid, back)
        assert again is not None
        assert unlike(again) == set()


def test_a_complement_drops_no_rule_and_no_field() -> None:
    puzzle = FULL.changed([rule for rule in FULL.rules if rule.relabelled((0, 4, 3, 2, 1)) is None])
    other = complement(puzzle)
    assert unlike(other) == {"rules", "solution"}
    assert len(other.rules) == len(puzzle.rules)
    assert complement(other) == puzzle
    with pytest.raises(ValueError, match="bars that its digits are complemented"):
        complement(FULL)


@pytest.mark.parametrize("rule", FULL.rules, ids=repr)
def test_every_rule_shows_in_the_hash_and_in_the_key(rule: Rule) -> None:
    less = FULL.changed([rule])
    assert less.content != FULL.content
    assert turned_key(less) != turned_key(FULL)


def test_blocked_cells_show_in_the_hash_and_in_the_key() -> None:
    other = replace(FULL, grid=replace(FULL.grid, blocked=()))
    assert other.content != FULL.content
    assert turned_key(other) != turned_key(FULL)
