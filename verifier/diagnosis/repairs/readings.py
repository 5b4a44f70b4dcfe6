"""What a rule may have been meant to say on its cells: with another figure, or the other way round.

A class of rules has a place in the table here; a rule of any other class can only be left out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import product
from typing import Any, TypeVar

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import repeated
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.totals import possible_totals

__all__ = ["FITTED", "OTHERS", "can_go", "fitted", "others"]

_Summed = TypeVar("_Summed", PairSum, LittleKiller)

_MOST_LISTED = 2
"""Rules of so few cells have their readings listed by what fits each filling of them."""


def _fitted_cage(cage: Cage, filling: Filling) -> Cage | None:
    if repeated(cage.cells, filling):
        return None
    return replace(cage, total=sum(filling[cell] for cell in cage.cells))


def _fitted_greater(sign: Greater, filling: Filling) -> Greater | None:
    more, less = sorted(sign.cells, key=lambda cell: -filling[cell])
    return Greater((more, less)) if filling[more] > filling[less] else None


def _fitted_ratio(mark: Ratio, filling: Filling) -> Ratio | None:
    less, more = sorted(filling[cell] for cell in mark.cells)
    return replace(mark, ratio=more // less) if more % less == 0 else None


def _fitted_difference(mark: Difference, filling: Filling) -> Difference:
    one, other = (filling[cell] for cell in mark.cells)
    return replace(mark, difference=abs(one - other))


def _fitted_sum(rule: _Summed, filling: Filling) -> _Summed:
    return replace(rule, total=sum(filling[cell] for cell in rule.cells))


def _fitted_weights(cage: LinearSum, filling: Filling) -> LinearSum:
    return replace(cage, total=sum(weight * filling[cell] for cell, weight in cage.weights))


def _fitted_whisper(line: Whisper, filling: Filling) -> Whisper:
    return replace(line, least=min(abs(filling[one] - filling[other]) for one, other in line.pairs))


def _fitted_sandwich(clue: Sandwich, filling: Filling) -> Sandwich | None:
    filled = clue.filled(filling)
    return replace(clue, total=sum(filling[cell] for cell in filled[1:-1])) if filled else None


def _fitted_skyscraper(clue: Skyscraper, filling: Filling) -> Skyscraper:
    return replace(clue, count=len(clue.seen(filling)))


FITTED: Mapping[type[Rule], Callable[[Any, Filling], Rule | None]] = {
    Cage: _fitted_cage,
    LinearSum: _fitted_weights,
    Greater: _fitted_greater,
    Given: lambda given, filling: replace(given, digit=filling[given.cell]),
    Ratio: _fitted_ratio,
    Difference: _fitted_difference,
    PairSum: _fitted_sum,
    Whisper: _fitted_whisper,
    Sandwich: _fitted_sandwich,
    Skyscraper: _fitted_skyscraper,
    LittleKiller: _fitted_sum,
}
"""What a rule of a class says where a filling is right."""

OTHERS: Mapping[type[Rule], Callable[[Any, Grid], Iterable[Rule]]] = {
    Cage: lambda cage, grid: (
        replace(cage, total=total)
        for total in sorted(possible_totals(len(cage.cells), tuple(grid.all_digits)))
    ),
    Whisper: lambda line, grid: (replace(line, least=least) for least in grid.all_digits[:-1]),
    Sandwich: lambda clue, grid: (
        replace(clue, total=total) for total in range(grid.house_total - grid.digits)
    ),
    Skyscraper: lambda clue, grid: (replace(clue, count=count) for count in grid.all_digits),
    LittleKiller: lambda clue, grid: (
        replace(clue, total=total) for total in range(len(clue.cells), grid.digits * len(clue.cells) + 1)
    ),
    LinearSum: lambda cage, grid: (
        replace(cage, total=total)
        for total in range(len(cage.cells), len(cage.cells) * grid.digits + 1)
        if cage.is_cage
    ),
}
"""All that a rule of a class can say, where its cells are too many to list how they can be filled."""

_NEVER_LEFT_OUT: frozenset[type[Rule]] = frozenset({Cage, LinearSum})
"""Nobody draws a cage by mistake: it has the wrong total, or the wrong cells."""


def can_go(rule: Rule) -> bool:
    """Whether a rule may be there by mistake."""
    return type(rule) not in _NEVER_LEFT_OUT


def fitted(rule: Rule, filling: Filling) -> Rule | None:
    """Return the rule as it would have to read for a filling to obey it; None if no reading will do.

    Examples
    --------
    >>> fitted(Cage((0, 1), 7), (1, 2, 3, 4)), fitted(Cage((0, 1), 7), (2, 2, 3, 4))
    (Cage(cells=(0, 1), total=3), None)
    """
    fit = FITTED.get(type(rule))
    return fit(rule, filling) if fit else None


def others(rule: Rule, grid: Grid) -> list[Rule]:
    """Return all other readings of a rule on the same cells; see `near` for others.

    Examples
    --------
    >>> others(Given(3, 2), Grid.square(4))
    [Given(cell=3, digit=1), Given(cell=3, digit=3), Given(cell=3, digit=4)]
    """
    listed = OTHERS.get(type(rule), _listed)(rule, grid)
    return [reading for reading in dict.fromkeys(listed) if reading != rule]


def _listed(rule: Rule, grid: Grid) -> Iterator[Rule]:
    cells = rule.cells if len(rule.cells) <= _MOST_LISTED else ()
    filling = [0] * grid.cell_count
    for digits in product(grid.all_digits, repeat=len(cells)):
        for cell, digit in zip(cells, digits, strict=True):
            filling[cell] = digit
        reading = fitted(rule, tuple(filling)) if cells else None
        if reading is not None:
            yield reading
