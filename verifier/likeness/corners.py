"""The corners that stand for each rule in the graph of a puzzle, by which a puzzle in disguise is known.

What a corner says of its cells says all that the rule says of them, and nothing that changes when the grid is
turned, or rows and columns change places.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

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
from verifier.puzzle.rules.lines.two_way import along
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
from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import Rule

__all__ = ["CORNERS", "Corner", "Label"]

Label = tuple[str, int]
"""What a corner of the graph is, in words and a number: ``("cage", 14)``."""

Corner = tuple[Label, tuple[int, ...]]
"""A corner, and the cells that an edge joins to it."""


def _house(house: House) -> Iterator[Corner]:
    kind = {"row": "line", "column": "line"}.get(house.kind, house.kind)
    yield ("diagonal" if kind.endswith(" diagonal") else kind, 0), house.cells


def _cage(cage: Cage) -> Iterator[Corner]:
    yield ("cage", cage.total), cage.cells


def _different(rule: Different) -> Iterator[Corner]:
    yield ("different", 0), rule.cells


def _sum(rule: LinearSum) -> Iterator[Corner]:
    weights = sorted({weight for _, weight in rule.weights})
    for weight in weights:
        cells = tuple(cell for cell, own in rule.weights if own == weight)
        yield (f"sum over {weights}, {weight} times", rule.total), cells


def _greater(sign: Greater) -> Iterator[Corner]:
    more, less = sign.cells
    yield ("greater", 0), (more,)
    yield ("smaller", 0), (less,)


def _chess_move(rule: ChessMove) -> Iterator[Corner]:
    yield (f"{rule.piece}'s move", 0), ()
    yield from (((f"{rule.piece}'s pair", 0), pair) for pair in rule.pairs)


def _not_consecutive(rule: NotConsecutive) -> Iterator[Corner]:
    yield ("not consecutive", 0), ()
    yield from ((("not consecutive pair", 0), pair) for pair in rule.pairs)


def _given(given: Given) -> Iterator[Corner]:  # noqa: ARG001 - told by its cell, or by the corner of its digit
    return iter(())


def _alike(rule: Rule) -> Iterator[Corner]:
    """Draw a rule in which all cells do the same."""
    yield (rule.word, rule.figure), rule.cells


def _in_pairs(rule: PairRule) -> Iterator[Corner]:
    """Draw a rule that says the same of both cells of each of its pairs."""
    yield (rule.word, rule.figure), ()
    yield from (((f"{rule.word} pair", 0), pair) for pair in rule.pairs)


def _unmarked(rule: Unmarked) -> Iterator[Corner]:
    yield (f"{rule.kind} is marked, {rule.values}", 0), ()
    yield from (((f"no {rule.kind}", 0), pair) for pair in rule.pairs)


def _in_order(rule: Rule) -> Iterator[Corner]:
    """Draw a rule in which each cell has its place in a row."""
    yield (rule.word, rule.figure), ()
    yield from (((f"{rule.word} place", place), (cell,)) for place, cell in enumerate(rule.cells))


def _between(line: Between) -> Iterator[Corner]:
    yield ("ends", 0), line.ends
    yield ("between", 0), line.inner


def _arrow(arrow: Arrow) -> Iterator[Corner]:
    yield ("arrow", 0), arrow.line
    yield from ((("circle", place), (cell,)) for place, cell in enumerate(reversed(arrow.circle)))


def _region_sum(line: RegionSum) -> Iterator[Corner]:
    yield ("equal parts", 0), ()
    yield from ((("part", 0), part) for part in line.parts)


def _sandwich(clue: Sandwich) -> Iterator[Corner]:
    yield ("sandwich", clue.total), ()
    yield from ((("side by side", 0), pair) for pair in along(clue.cells))


CORNERS: Mapping[type[Rule], Callable[[Any], Iterator[Corner]]] = {
    House: _house,
    Cage: _cage,
    Different: _different,
    LinearSum: _sum,
    Greater: _greater,
    Consecutive: _alike,
    Ratio: _alike,
    Difference: _alike,
    PairSum: _alike,
    Even: _alike,
    Odd: _alike,
    Quadruple: _alike,
    ChessMove: _chess_move,
    NotConsecutive: _not_consecutive,
    Unmarked: _unmarked,
    Thermometer: _in_order,
    Whisper: _in_pairs,
    Palindrome: _in_pairs,
    Renban: _alike,
    Between: _between,
    Arrow: _arrow,
    RegionSum: _region_sum,
    Sandwich: _sandwich,
    Skyscraper: _in_order,
    LittleKiller: _alike,
    Given: _given,
}
"""The corners that stand for a rule in the graph of a puzzle, by its class."""
