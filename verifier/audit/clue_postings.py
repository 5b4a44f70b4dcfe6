"""How lines, clues at the edge and marks that are no pairs are put to the auditor."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import combinations
from typing import Any

from verifier.audit.question import Question
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.marks.parity import Even, Odd, Parity
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.rule import Rule

__all__ = ["CLUE_POSTINGS"]


def _post_parity(question: Question, rule: Parity) -> None:
    for (cell, digit), stands in question.digit.items():
        if cell in rule.cells and digit % 2 != rule.rest:
            question.model.add(stands == 0)


def _post_quadruple(question: Question, rule: Quadruple) -> None:
    for digit in dict.fromkeys(rule.digits):
        question.model.add(sum(question.places(rule.cells, digit)) >= rule.digits.count(digit))


def _post_renban(question: Question, line: Renban) -> None:
    lowest = question.model.new_int_var(1, question.all[-1], "")
    for digit in question.all:
        question.model.add_at_most_one(question.places(line.cells, digit))
    for cell in line.cells:
        question.model.add(question.value(cell) >= lowest)
        question.model.add(question.value(cell) < lowest + len(line.cells))


def _post_between(question: Question, line: Between) -> None:
    rises = question.model.new_bool_var("")
    first, last = map(question.value, line.ends)
    for inner in map(question.value, line.inner):
        question.model.add(first < inner).only_enforce_if(rises)
        question.model.add(inner < last).only_enforce_if(rises)
        question.model.add(first > inner).only_enforce_if(~rises)
        question.model.add(inner > last).only_enforce_if(~rises)


def _post_arrow(question: Question, arrow: Arrow) -> None:
    question.model.add(sum(weight * question.value(cell) for cell, weight in arrow.weights) == 0)


def _post_region_sum(question: Question, line: RegionSum) -> None:
    first, *others = (sum(map(question.value, part)) for part in line.parts)
    for other in others:
        question.model.add(first == other)


def _post_sandwich(question: Question, clue: Sandwich) -> None:
    ends = (1, len(clue.cells))
    for digit in ends:
        question.model.add_exactly_one(question.places(clue.cells, digit))
    chosen = []
    for first, last in combinations(range(len(clue.cells)), 2):
        here = question.model.new_bool_var("")
        chosen.append(here)
        for place in (first, last):
            there = [stands for digit in ends for stands in question.places([clue.cells[place]], digit)]
            question.model.add_bool_or(there).only_enforce_if(here)
        inside = sum(map(question.value, clue.cells[first + 1 : last]))
        question.model.add(inside == clue.total).only_enforce_if(here)
    question.model.add_exactly_one(chosen)


def _post_skyscraper(question: Question, clue: Skyscraper) -> None:
    seen = []
    for place, cell in enumerate(clue.cells):
        visible = question.model.new_bool_var("")
        seen.append(visible)
        hides = []
        for before in clue.cells[:place]:
            higher = question.model.new_bool_var("")
            hides.append(higher)
            question.model.add(question.value(before) >= question.value(cell)).only_enforce_if(higher)
            question.model.add(question.value(before) < question.value(cell)).only_enforce_if(~higher)
            question.model.add_implication(higher, ~visible)
        question.model.add_bool_or([visible, *hides])
    question.model.add(sum(seen) == clue.count)


def _post_little_killer(question: Question, clue: LittleKiller) -> None:
    question.model.add(sum(map(question.value, clue.cells)) == clue.total)


CLUE_POSTINGS: Mapping[type[Rule], Callable[[Question, Any], None]] = {
    Even: _post_parity,
    Odd: _post_parity,
    Quadruple: _post_quadruple,
    Renban: _post_renban,
    Between: _post_between,
    Arrow: _post_arrow,
    RegionSum: _post_region_sum,
    Sandwich: _post_sandwich,
    Skyscraper: _post_skyscraper,
    LittleKiller: _post_little_killer,
}
"""How each rule is put, by its class."""
