"""Slips of the pen: every other total or given that leaves exactly one solution.

A total or a given that may be wrong is taken out, and the solutions that then appear say what it could have
been; only where there are very many are the values tried one by one.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence
from itertools import combinations

from verifier.diagnosis.parts import Given, Part, parts_of, without
from verifier.diagnosis.purse import Purse
from verifier.diagnosis.repairs.changes import Change, GivenChange, TotalChange
from verifier.diagnosis.repairs.mends import Kind, Mend, nearness, proved
from verifier.diagnosis.several.extra_givens import fewest_for_all
from verifier.puzzle.breaches import breaches
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.totals import possible_totals

__all__ = ["Allow", "claimed", "exchanges", "pairs", "total_and_given", "values"]

Allow = Callable[[Collection[Part]], bool]
"""Says whether a change that touches these parts can be a repair."""

_MOST_SOLUTIONS = 200
"""With more solutions than this once a part is taken out, its values are tried one by one."""
_MOST_EXTRA = 2
"""Extra givens that go with another total."""
_MOST_CLAIMED = 4
"""A claimed solution that contradicts more cages and givens than this belongs to another puzzle."""


def claimed(puzzle: Puzzle, purse: Purse) -> Iterator[Mend]:
    """Yield the repair that makes the solution in the file the only one, if totals and givens can do it."""
    solution = puzzle.solution
    if solution is None:
        return
    broken = list(breaches(puzzle, solution))
    if not 1 <= len(broken) <= _MOST_CLAIMED:
        return
    changes: list[Change] = []
    givens = dict(puzzle.givens)
    for breach in broken:
        if isinstance(breach.rule, Cage):
            total = sum(solution[cell] for cell in breach.rule.cells)
            changes.append(TotalChange(breach.rule, total))
        elif breach.rule is None and len(breach.cells) == 1 and breach.cells[0] in givens:
            cell = breach.cells[0]
            changes.append(GivenChange(cell, givens[cell], solution[cell]))
        else:
            return
    yield from proved(puzzle, _kind(changes), changes, purse)


def _kind(changes: Sequence[Change]) -> Kind:
    if len(changes) > 1:
        return Kind.CLAIM
    return Kind.TOTAL if isinstance(changes[0], TotalChange) else Kind.GIVEN


def values(puzzle: Puzzle, part: Cage | Given, purse: Purse) -> Iterator[Mend]:
    """Yield each other total of a cage, or digit of a given, that leaves exactly one solution.

    Parameters
    ----------
    puzzle : Puzzle
        The broken puzzle.
    part : Cage or Given
        What may be wrong. A given may also simply go.
    purse : Purse
        Pays for it.

    Yields
    ------
    Mend
        The nearest first.
    """
    freed = purse.count(without(puzzle, [part]), _MOST_SOLUTIONS)
    changes = [_becomes(part, value) for value in _values(puzzle.grid, part)]
    if freed.complete:
        often = Counter(_value(part, filling) for filling in freed.solutions)
        changes = [change for change in changes if often[_to(change)] == 1]
    for change in sorted(changes, key=nearness):
        yield from proved(puzzle, Kind.TOTAL if isinstance(part, Cage) else Kind.GIVEN, [change], purse)
    if isinstance(part, Given) and freed.complete and freed.count == 1:
        yield from proved(puzzle, Kind.LESS, [GivenChange(part.cell, part.digit, None)], purse)


def _becomes(part: Cage | Given, value: int) -> TotalChange | GivenChange:
    return TotalChange(part, value) if isinstance(part, Cage) else GivenChange(part.cell, part.digit, value)


def _to(change: TotalChange | GivenChange) -> int:
    return change.to if isinstance(change, TotalChange) else change.new or 0


def _value(part: Cage | Given, filling: Filling) -> int:
    """Return the value that a part has in a filling; 0 where a cage repeats a digit."""
    if isinstance(part, Given):
        return filling[part.cell]
    digits = [filling[cell] for cell in part.cells]
    return sum(digits) if len(set(digits)) == len(digits) else 0


def _values(grid: Grid, part: Cage | Given) -> list[int]:
    """Return the other values that a part could have."""
    if isinstance(part, Given):
        return [digit for digit in grid.all_digits if digit != part.digit]
    return sorted(possible_totals(len(part.cells), tuple(grid.all_digits)) - {part.total})


def exchanges(puzzle: Puzzle, allow: Allow, purse: Purse) -> Iterator[Mend]:
    """Yield each exchange of two totals that leaves exactly one solution, the nearest totals first."""
    digits = tuple(puzzle.grid.all_digits)
    pairs_of_cages = [
        (one, other)
        for one, other in combinations(puzzle.cages, 2)
        if one.total != other.total
        and other.total in possible_totals(len(one.cells), digits)
        and one.total in possible_totals(len(other.cells), digits)
    ]
    for one, other in sorted(pairs_of_cages, key=lambda pair: abs(pair[0].total - pair[1].total)):
        if allow((one, other)):
            changes = [TotalChange(one, other.total), TotalChange(other, one.total)]
            yield from proved(puzzle, Kind.EXCHANGE, changes, purse)


def pairs(puzzle: Puzzle, allow: Allow, purse: Purse) -> Iterator[Mend]:
    """Yield changes of two totals or givens that leave exactly one solution.

    Pairs that still have very many solutions with both parts taken out are passed over.
    """
    soft = [part for part in parts_of(puzzle) if isinstance(part, Cage | Given)]
    for both in combinations(soft, 2):
        if not allow(both):
            continue
        freed = purse.count(without(puzzle, both), _MOST_SOLUTIONS)
        if not freed.complete:
            continue
        often = Counter(tuple(_value(part, filling) for part in both) for filling in freed.solutions)
        for pair_of_values, times in sorted(often.items()):
            changes = [_becomes(part, value) for part, value in zip(both, pair_of_values, strict=True)]
            both_new = all(value != _old(part) for part, value in zip(both, pair_of_values, strict=True))
            if times == 1 and both_new and 0 not in pair_of_values:
                yield from proved(puzzle, Kind.PAIR, changes, purse)


def total_and_given(puzzle: Puzzle, cage: Cage, purse: Purse) -> Iterator[Mend]:
    """Yield another total of a cage with extra givens, where the total alone leaves a few solutions.

    For each such total there are many givens that do; one set is offered.
    """
    freed = purse.count(without(puzzle, [cage]), _MOST_SOLUTIONS)
    if not freed.complete:
        return
    by_total: dict[int, list[Filling]] = {}
    for filling in freed.solutions:
        by_total.setdefault(_value(cage, filling), []).append(filling)
    by_total.pop(0, None)
    for total, left in sorted(by_total.items(), key=lambda item: nearness(TotalChange(cage, item[0]))):
        if len(left) > 1:
            extra = fewest_for_all(left, 1, purse)[0][0]
            if len(extra) <= _MOST_EXTRA:
                givens = [GivenChange(cell, None, digit) for cell, digit in extra]
                yield from proved(puzzle, Kind.PAIR, [TotalChange(cage, total), *givens], purse)


def _old(part: Cage | Given) -> int:
    return part.total if isinstance(part, Cage) else part.digit
