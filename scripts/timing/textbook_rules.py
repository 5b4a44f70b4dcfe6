"""The yardstick for rules beyond house and cage: one plain constraint a clue, over integer cells."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Any, NamedTuple

from ortools.sat.python import cp_model

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
from verifier.puzzle.rules.marks.parity import Even, Odd, Parity
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import Rule

__all__ = ["TEXTBOOK_RULES", "Book"]


class Book(NamedTuple):
    """The model of a puzzle: its cells, each a variable for the digit, and the largest digit."""

    model: cp_model.CpModel
    cells: Sequence[cp_model.IntVar]
    digits: int


def _house(book: Book, rule: House | Different) -> None:
    book.model.add_all_different([book.cells[cell] for cell in rule.cells])


def _cage(book: Book, cage: Cage) -> None:
    parts = [book.cells[cell] for cell in cage.cells]
    book.model.add(cp_model.LinearExpr.sum(parts) == cage.total)
    if len(parts) > 1:
        book.model.add_all_different(parts)


def _given(book: Book, given: Given) -> None:
    book.model.add(book.cells[given.cell] == given.digit)


def _sum(book: Book, rule: LinearSum) -> None:
    book.model.add(sum(weight * book.cells[cell] for cell, weight in rule.weights) == rule.total)


def _total(book: Book, rule: PairSum | LittleKiller) -> None:
    book.model.add(sum(book.cells[cell] for cell in rule.cells) == rule.total)


def _table(book: Book, rule: PairRule) -> None:
    """State a rule over pairs by the pairs of digits that fit."""
    every = range(1, book.digits + 1)
    fitting = [(one, other) for one in every for other in every if rule.fits(one, other)]
    for one, other in rule.pairs:
        book.model.add_allowed_assignments([book.cells[one], book.cells[other]], fitting)


def _rising(book: Book, rule: Greater | Thermometer) -> None:
    rising = rule.cells if type(rule) is Thermometer else rule.cells[::-1]
    for low, high in pairwise(rising):
        book.model.add(book.cells[low] < book.cells[high])


def _different(book: Book, rule: ChessMove) -> None:
    for one, other in rule.pairs:
        book.model.add(book.cells[one] != book.cells[other])


def _equal(book: Book, line: Palindrome) -> None:
    for one, other in line.pairs:
        book.model.add(book.cells[one] == book.cells[other])


def _parity(book: Book, mark: Parity) -> None:
    own = [[digit] for digit in range(1, book.digits + 1) if digit % 2 == mark.rest]
    for cell in mark.cells:
        book.model.add_allowed_assignments([book.cells[cell]], own)


def _holds(book: Book, cell: cp_model.IntVar, digit: int) -> cp_model.IntVar:
    """Return whether a cell holds a digit."""
    there = book.model.new_bool_var("")
    book.model.add(cell == digit).only_enforce_if(there)
    book.model.add(cell != digit).only_enforce_if(~there)
    return there


def _quadruple(book: Book, mark: Quadruple) -> None:
    for digit in dict.fromkeys(mark.digits):
        there = [_holds(book, book.cells[cell], digit) for cell in mark.cells]
        book.model.add(sum(there) >= mark.digits.count(digit))


def _renban(book: Book, line: Renban) -> None:
    low, high = book.model.new_int_var(1, book.digits, ""), book.model.new_int_var(1, book.digits, "")
    own = [book.cells[cell] for cell in line.cells]
    book.model.add_all_different(own)
    book.model.add_min_equality(low, own)
    book.model.add_max_equality(high, own)
    book.model.add(high - low == len(own) - 1)


def _between(book: Book, line: Between) -> None:
    rising, (first, last) = book.model.new_bool_var(""), line.ends
    for cell in line.inner:
        book.model.add(book.cells[first] < book.cells[cell]).only_enforce_if(rising)
        book.model.add(book.cells[cell] < book.cells[last]).only_enforce_if(rising)
        book.model.add(book.cells[first] > book.cells[cell]).only_enforce_if(~rising)
        book.model.add(book.cells[cell] > book.cells[last]).only_enforce_if(~rising)


def _arrow(book: Book, arrow: Arrow) -> None:
    book.model.add(sum(weight * book.cells[cell] for cell, weight in arrow.weights) == 0)


def _region_sum(book: Book, line: RegionSum) -> None:
    sums = [sum(book.cells[cell] for cell in part) for part in line.parts]
    for one, other in pairwise(sums):
        book.model.add(one == other)


def _sandwich(book: Book, clue: Sandwich) -> None:
    line, last = [book.cells[cell] for cell in clue.cells], len(clue.cells) - 1
    ends = [book.model.new_int_var(0, last, "") for _ in range(2)]
    low, high = (book.model.new_int_var(0, last, "") for _ in range(2))
    for end, digit in zip(ends, (1, len(line)), strict=True):
        book.model.add_element(end, line, digit)
    book.model.add_min_equality(low, ends)
    book.model.add_max_equality(high, ends)
    counted = []
    for place, cell in enumerate(line):
        after, before, worth = (
            book.model.new_bool_var(""),
            book.model.new_bool_var(""),
            book.model.new_int_var(0, book.digits, ""),
        )
        book.model.add(low < place).only_enforce_if(after)
        book.model.add(low >= place).only_enforce_if(~after)
        book.model.add(high > place).only_enforce_if(before)
        book.model.add(high <= place).only_enforce_if(~before)
        book.model.add(worth == cell).only_enforce_if(after, before)
        for outside in (~after, ~before):
            book.model.add(worth == 0).only_enforce_if(outside)
        counted.append(worth)
    book.model.add(sum(counted) == clue.total)


def _skyscraper(book: Book, clue: Skyscraper) -> None:
    seen, highest = [], book.cells[clue.cells[0]]
    for cell in clue.cells[1:]:
        visible, higher = book.model.new_bool_var(""), book.model.new_int_var(1, book.digits, "")
        book.model.add(book.cells[cell] > highest).only_enforce_if(visible)
        book.model.add(book.cells[cell] < highest).only_enforce_if(~visible)
        book.model.add_max_equality(higher, [highest, book.cells[cell]])
        seen.append(visible)
        highest = higher
    book.model.add(sum(seen) == clue.count - 1)


TEXTBOOK_RULES: Mapping[type[Rule], Callable[[Book, Any], None]] = {
    House: _house,
    Different: _house,
    Cage: _cage,
    Given: _given,
    LinearSum: _sum,
    PairSum: _total,
    LittleKiller: _total,
    **dict.fromkeys((Consecutive, Ratio, Difference, Whisper, Unmarked, NotConsecutive), _table),
    Greater: _rising,
    Thermometer: _rising,
    ChessMove: _different,
    Palindrome: _equal,
    Even: _parity,
    Odd: _parity,
    Quadruple: _quadruple,
    Renban: _renban,
    Between: _between,
    Arrow: _arrow,
    RegionSum: _region_sum,
    Sandwich: _sandwich,
    Skyscraper: _skyscraper,
}
"""How a textbook writes each rule."""
