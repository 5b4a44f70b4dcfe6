"""How each rule is put to the auditor: one function a rule, in the table `POSTINGS`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import product
from typing import Any

from verifier.audit.clue_postings import CLUE_POSTINGS
from verifier.audit.question import Question
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import Rule

__all__ = ["POSTINGS"]


def _post_house(question: Question, house: House) -> None:
    if len(house.cells) < len(question.all):
        _post_different(question, house)
        return
    for digit in question.all:
        question.model.add_exactly_one(question.places(house.cells, digit))


def _post_different(question: Question, rule: House | Different) -> None:
    for digit in question.all:
        question.model.add_at_most_one(question.places(rule.cells, digit))


def _post_cage(question: Question, cage: Cage) -> None:
    used = {digit: question.model.new_bool_var("") for digit in question.all}
    for digit, is_used in used.items():
        question.model.add_exactly_one([*question.places(cage.cells, digit), ~is_used])
    question.model.add(sum(used.values()) == len(cage.cells))
    question.model.add(sum(digit * is_used for digit, is_used in used.items()) == cage.total)


def _post_sum(question: Question, linear: LinearSum) -> None:
    weights = dict(linear.weights)
    terms = [
        weights[cell] * digit * stands for (cell, digit), stands in question.digit.items() if cell in weights
    ]
    question.model.add(sum(terms) == linear.total)


def _post_pairs(question: Question, rule: PairRule) -> None:
    for one, other in rule.pairs:
        for pair in product(question.all, repeat=2):
            if not rule.fits(*pair):
                stand = zip((one, other), pair, strict=True)
                question.model.add_at_most_one([question.digit[at] for at in stand if at in question.digit])


def _post_given(question: Question, given: Given) -> None:
    question.model.add_bool_or(question.places(given.cells, given.digit))


POSTINGS: Mapping[type[Rule], Callable[[Question, Any], None]] = {
    House: _post_house,
    Cage: _post_cage,
    Different: _post_different,
    LinearSum: _post_sum,
    **dict.fromkeys((Greater, Consecutive, Ratio, Difference, PairSum, Unmarked), _post_pairs),
    **dict.fromkeys((Thermometer, Whisper, Palindrome, ChessMove, NotConsecutive), _post_pairs),
    **CLUE_POSTINGS,
    Given: _post_given,
}
"""How each rule is put to the auditor, by its class."""
