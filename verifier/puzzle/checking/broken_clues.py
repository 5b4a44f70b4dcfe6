"""How a filling breaks a mark, a line or a clue at the edge, in words: one function a rule, in `BROKEN`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from verifier.puzzle.clue_wording import CLUE_BREACHES
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.printable import filled
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
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

__all__ = ["BROKEN"]

_Says = Callable[[Any, Grid, Filling], str]
"""Takes a rule, its grid, and a filling that breaks it."""


def _greater(sign: Greater, grid: Grid, filling: Filling) -> str:
    more, less = sign.cells
    return filled(
        CLUE_BREACHES["greater"],
        more=grid.cell_name(more),
        less=grid.cell_name(less),
        held=filling[more],
        other=filling[less],
    )


def _pair(rule: PairRule, grid: Grid, filling: Filling) -> str:
    one, other = next(pair for pair in rule.pairs if not rule.fits(*(filling[cell] for cell in pair)))
    return filled(
        CLUE_BREACHES["pair"],
        one=grid.cell_name(one),
        other=grid.cell_name(other),
        digits=(filling[one], filling[other]),
        rule=rule.called(grid),
    )


def _between(line: Between, grid: Grid, filling: Filling) -> str:
    cell = line.broken_in(filling)[1]
    return filled(
        CLUE_BREACHES["between"],
        cell=grid.cell_name(cell),
        digit=filling[cell],
        ends=[f"{filling[end]} in {grid.cell_name(end)}" for end in line.ends],
    )


def _arrow(arrow: Arrow, grid: Grid, filling: Filling) -> str:
    made = sum(filling[cell] for cell in arrow.line)
    held = made + sum(weight * filling[cell] for cell, weight in arrow.weights)
    return filled(CLUE_BREACHES["arrow"], rule=arrow.called(grid), made=made, held=held)


def _region_sum(line: RegionSum, grid: Grid, filling: Filling) -> str:
    sums = [sum(filling[cell] for cell in part) for part in line.parts]
    return filled(CLUE_BREACHES["region_sum"], rule=line.called(grid), sums=sums)


def _sandwich(clue: Sandwich, grid: Grid, filling: Filling) -> str:
    filling_of = clue.filled(filling)
    if filling_of is None:
        return filled(CLUE_BREACHES["sandwich-open"], rule=clue.called(grid), largest=len(clue.cells))
    made = sum(filling[cell] for cell in filling_of[1:-1])
    return filled(CLUE_BREACHES["sandwich"], rule=clue.called(grid), made=made, largest=len(clue.cells))


def _skyscraper(clue: Skyscraper, grid: Grid, filling: Filling) -> str:
    return filled(CLUE_BREACHES["skyscraper"], rule=clue.called(grid), seen=len(clue.seen(filling)))


def _little_killer(clue: LittleKiller, grid: Grid, filling: Filling) -> str:
    made = sum(filling[cell] for cell in clue.cells)
    return filled(CLUE_BREACHES["little_killer"], rule=clue.called(grid), made=made)


BROKEN: Mapping[type[Rule], _Says] = {
    Greater: _greater,
    **dict.fromkeys((Consecutive, Ratio, Difference, PairSum, Unmarked), _pair),
    **dict.fromkeys((Thermometer, Whisper, Palindrome, ChessMove, NotConsecutive), _pair),
    Between: _between,
    Arrow: _arrow,
    RegionSum: _region_sum,
    Sandwich: _sandwich,
    Skyscraper: _skyscraper,
    LittleKiller: _little_killer,
}
"""What is said of a rule of a class that is broken; of any other its digits are named."""
