"""Slips of the pen in clues: a figure off by one, the wrong way round, other cells, a cell too many."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from random import Random
from typing import Any

from scripts.setting.broken import Broken
from scripts.setting.chance import shuffled
from scripts.setting.clues.lines import parts_of
from scripts.setting.clues.walks import touching
from scripts.setting.plain import count_within
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.two_way import either_way
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule

__all__ = ["SLIPS", "left_out", "missed_mark", "never_true", "slipped"]

_TRIES = 3000

Slip = tuple[Rule, str]
"""Another rule in place of one, and what was done to it."""


def slipped(puzzle: Puzzle, seed: int) -> Broken:
    """Misdraw one clue of a sound puzzle so that nothing is left, though it could hold by itself."""
    plain = puzzle.changed(rule for rule in puzzle.rules if type(rule) is not House)
    for rule in shuffled((rule for rule in puzzle.rules if type(rule) in SLIPS), Random(seed)):
        for other, done in SLIPS[type(rule)](rule, puzzle):
            broken = puzzle.changed([rule], [other])
            holds_by_itself = count_within(plain.changed([], [other]), _TRIES, 1)
            if other not in puzzle.rules and holds_by_itself and count_within(broken, _TRIES) == 0:
                return Broken(broken, f"{rule.called(puzzle.grid)} {done}", ("no-solution",))
    raise ValueError("no clue whose slip leaves nothing: take another seed")


def left_out(puzzle: Puzzle, seed: int) -> Broken:
    """Leave out one clue of a sound puzzle so that there are several solutions."""
    for rule in shuffled((rule for rule in puzzle.rules if type(rule) in SLIPS), Random(seed)):
        broken = puzzle.changed([rule])
        if count_within(broken, _TRIES) == 2:
            return Broken(broken, f"{rule.called(puzzle.grid)} was left out", ("several-solutions",), 2)
    raise ValueError("no clue without which there are several: take another seed")


def missed_mark(puzzle: Puzzle, seed: int) -> Broken:
    """Leave out one mark where all are marked."""
    (whole,) = rules_of(puzzle.rules, Unmarked)
    for mark in shuffled((rule for rule in puzzle.rules if rule.word == whole.kind), Random(seed)):
        one, other = sorted(mark.cells)
        bare = replace(whole, pairs=tuple(sorted([*whole.pairs, (one, other)])))
        broken = puzzle.changed([mark, whole], [bare])
        if count_within(broken, _TRIES) == 0:
            made = f"{mark.called(puzzle.grid)} was left out, and all such are marked"
            return Broken(broken, made, ("no-solution",))
    raise ValueError("no mark whose absence leaves nothing: take another seed")


def never_true(puzzle: Puzzle, seed: int) -> Broken:
    """Give one clue a figure that is true of no filling of its cells."""
    rule, *_ = shuffled((rule for rule in puzzle.rules if type(rule) in _NEVER), Random(seed))
    other = _NEVER[type(rule)](rule, puzzle)
    made = f"{rule.called(puzzle.grid)} got {other.figure}, which no digits make"
    return Broken(puzzle.changed([rule], [other]), made, ("clue",))


def _figure(field: str, *steps: int) -> Callable[[Any, Puzzle], Iterator[Slip]]:
    def slips(rule: Any, _: Puzzle) -> Iterator[Slip]:
        for step in steps:
            found = getattr(rule, field) + step
            if found > 0:
                yield replace(rule, **{field: found}), f"got {found}"

    return slips


def _turned(rule: Any, _: Puzzle) -> Iterator[Slip]:
    yield replace(rule, cells=rule.cells[::-1]), "was turned round"


def _next_door(mark: Any, puzzle: Puzzle) -> Iterator[Slip]:
    for one, other in (mark.cells, mark.cells[::-1]):
        for cell in beside(puzzle.grid, one):
            if cell != other:
                cells = tuple(sorted((one, cell)))
                yield replace(mark, cells=cells), f"came between {puzzle.grid.cell_names(cells)}"


def _other_parity(mark: Even | Odd, _: Puzzle) -> Iterator[Slip]:
    other = mark.other()
    yield other, f"was drawn as {other.word}"


def _other_digit(mark: Quadruple, puzzle: Puzzle) -> Iterator[Slip]:
    for place, digit in enumerate(mark.digits):
        for other in (digit - 1, digit + 1):
            if other in puzzle.grid.all_digits:
                digits = sorted([*mark.digits[:place], other, *mark.digits[place + 1 :]])
                yield replace(mark, digits=tuple(digits)), f"got {other} for {digit}"


def _longer(cells: tuple[int, ...], puzzle: Puzzle, most: int | None = None) -> Iterator[tuple[int, ...]]:
    if most is None or len(cells) < most:
        for cell in touching(puzzle.grid, cells[-1]):
            if cell not in cells:
                yield (*cells, cell)


def _line_longer(rule: Any, puzzle: Puzzle) -> Iterator[Slip]:
    for cells in _longer(rule.cells, puzzle, puzzle.grid.digits):
        yield replace(rule, cells=either_way(cells)), f"went on to {puzzle.grid.cell_name(cells[-1])}"


def _other_end(rule: Any, puzzle: Puzzle) -> Iterator[Slip]:
    for *cells, end in (rule.cells, rule.cells[::-1]):
        for cell in touching(puzzle.grid, cells[-1]):
            if cell not in (*cells, end):
                ends = f"ended in {puzzle.grid.cell_name(cell)} for {puzzle.grid.cell_name(end)}"
                yield replace(rule, cells=either_way((*cells, cell))), ends


def _arrow_longer(arrow: Arrow, puzzle: Puzzle) -> Iterator[Slip]:
    for cells in _longer(arrow.cells, puzzle):
        line = cells[len(arrow.circle) :]
        yield Arrow(arrow.circle, line), f"went on to {puzzle.grid.cell_name(cells[-1])}"


def _parts_longer(rule: RegionSum, puzzle: Puzzle) -> Iterator[Slip]:
    for cells in _longer(rule.cells, puzzle):
        parts = parts_of(puzzle, either_way(cells))
        yield RegionSum(parts), f"went on to {puzzle.grid.cell_name(cells[-1])}"


def _one_more_differs(rule: Different, puzzle: Puzzle) -> Iterator[Slip]:
    caged = {cell for other in puzzle.rules if other.is_cage for cell in other.cells}
    for cell in sorted({near for own in rule.cells for near in beside(puzzle.grid, own)} - caged):
        cells = tuple(sorted((*rule.cells, cell)))
        yield Different(cells), f"took in {puzzle.grid.cell_name(cell)}"


SLIPS: Mapping[type[Rule], Callable[[Any, Puzzle], Iterator[Slip]]] = {
    Greater: _turned,
    Thermometer: _turned,
    Consecutive: _next_door,
    Ratio: _figure("ratio", 1, -1),
    Difference: _figure("difference", 1, -1),
    PairSum: _figure("total", 1, -1, 2, -2),
    Even: _other_parity,
    Odd: _other_parity,
    Quadruple: _other_digit,
    Whisper: _figure("least", 1, 2),
    Palindrome: _other_end,
    Renban: _line_longer,
    Between: _line_longer,
    Arrow: _arrow_longer,
    RegionSum: _parts_longer,
    Sandwich: _figure("total", 2, -2, 1, -1),
    Skyscraper: _figure("count", 1, -1),
    LittleKiller: _figure("total", 1, -1, 3, -3),
    LinearSum: _figure("total", 1, -1, 2, -2),
    Cage: _figure("total", 1, -1, 2, -2),
    Different: _one_more_differs,
}
"""What may be misdrawn in a clue of each kind."""

_NEVER: Mapping[type[Rule], Callable[[Any, Puzzle], Rule]] = {
    Sandwich: lambda clue, _: replace(clue, total=1),
    Skyscraper: lambda clue, puzzle: replace(clue, count=puzzle.grid.digits + 3),
    LittleKiller: lambda clue, puzzle: replace(clue, total=len(clue.cells) * puzzle.grid.digits + 1),
    PairSum: lambda mark, puzzle: replace(mark, total=2 * puzzle.grid.digits),
    Ratio: lambda mark, puzzle: replace(mark, ratio=puzzle.grid.digits + 1),
    Whisper: lambda line, puzzle: replace(line, least=puzzle.grid.digits),
}
"""Figures that are true of no filling."""
