"""Slips of the pen: every other reading of a clue that leaves exactly one solution.

A total, a given or another clue that may be wrong is taken out, and the solutions that then appear say what
it could have been; only where there are very many are the readings tried one by one.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence
from itertools import combinations
from operator import attrgetter, ne

from verifier.diagnosis.clues import clues_of
from verifier.diagnosis.repairs.changes import RuleChange, changed, given_change, total_change
from verifier.diagnosis.repairs.mends import Kind, Mend, proved
from verifier.diagnosis.repairs.near_readings import missing_marks, near
from verifier.diagnosis.repairs.readings import can_go, fitted, others
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.several.extra_givens import fewest_for_all
from verifier.puzzle.all_marked import worked_out_from
from verifier.puzzle.breaches import breaches
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.totals import possible_totals

__all__ = ["Allow", "claimed", "exchanges", "pairs", "total_and_given", "values"]

Allow = Callable[[Collection[Rule]], bool]
"""Says whether a change that touches these rules can be a repair."""

_MOST_SOLUTIONS = 200
"""With more solutions than this once a rule is taken out, its readings are tried one by one."""
_MOST_EXTRA = 2
"""Extra givens that go with another total."""
_MOST_CLAIMED = 4
"""A claimed solution that contradicts more clues than this belongs to another puzzle."""


def claimed(puzzle: Puzzle, budget: SearchBudget) -> Iterator[Mend]:
    """Yield the repair that makes the solution in the file the only one, if other readings of clues can."""
    solution = puzzle.solution
    if solution is None:
        return
    broken = [breach.rule for breach in breaches(puzzle, solution)]
    meant = [_as_meant(rule, puzzle, solution) for rule in broken if rule]
    changes = [change for found in meant for change in found]
    if all(meant) and len(meant) == len(broken) and 1 <= len(changes) <= _MOST_CLAIMED:
        kind = _kind(changes[0]) if len(changes) == 1 else Kind.CLAIM
        yield from proved(puzzle, kind, changes, budget)


def _as_meant(rule: Rule, puzzle: Puzzle, solution: Filling) -> list[RuleChange]:
    """Return the changes by which a solution obeys a rule that it breaks; none if there are none at hand."""
    if rules_of([rule], Unmarked):
        marks = (mark for mark in missing_marks(rule) if mark.holds(solution))
        return [RuleChange(None, mark) for mark in marks]
    drawn_alike = (clue for clue in near(rule, puzzle) if clue.holds(solution))
    meant = fitted(rule, solution) or next(drawn_alike, None)
    return [RuleChange(rule, meant)] if meant else []


def _kind(change: RuleChange) -> Kind:
    return Kind.TOTAL if any(rule.is_cage for rule in change.gone) else Kind.GIVEN


def values(puzzle: Puzzle, rule: Rule, budget: SearchBudget) -> Iterator[Mend]:
    """Yield each other reading of a clue that leaves exactly one solution, the nearest first.

    A given, and any other clue but a cage, may also simply go. Where all marks are said to be there, one may
    be missing.
    """
    freed = budget.count(puzzle.changed([rule, *worked_out_from(rule, puzzle)]), _MOST_SOLUTIONS)
    readings = [*others(rule, puzzle.grid), *near(rule, puzzle)]
    changes = [RuleChange(rule, reading) for reading in readings]
    changes += [RuleChange(None, mark) for mark in missing_marks(rule)]
    if freed.complete:
        changes = [change for change in changes if _leaves_one(puzzle, change, freed.solutions)]
    for change in sorted(changes, key=attrgetter("nearness")):
        yield from proved(puzzle, _kind(change), [change], budget)
    if can_go(rule) and freed.complete and freed.count == 1:
        yield from proved(puzzle, Kind.LESS, [RuleChange(rule, None)], budget)


def _leaves_one(puzzle: Puzzle, change: RuleChange, solutions: Sequence[Filling]) -> bool:
    """Whether exactly one of some solutions, those without what the change touches, obeys what it brings."""
    left = [filling for filling in solutions if all(rule.holds(filling) for rule in change.come)]
    if len(left) > 1 and rules_of(puzzle.rules, Unmarked):
        marked = rules_of(changed(puzzle, [change]).rules, Unmarked)
        left = [filling for filling in left if all(rule.holds(filling) for rule in marked)]
    return len(left) == 1


def exchanges(puzzle: Puzzle, allow: Allow, budget: SearchBudget) -> Iterator[Mend]:
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
            changes = [total_change(one, other.total), total_change(other, one.total)]
            yield from proved(puzzle, Kind.EXCHANGE, changes, budget)


def pairs(puzzle: Puzzle, allow: Allow, budget: SearchBudget) -> Iterator[Mend]:
    """Yield other readings of two clues that together leave exactly one solution.

    Pairs that still have very many solutions with both rules taken out are passed over.
    """
    for both in combinations(clues_of(puzzle), 2):
        if allow(both):
            freed = budget.count(puzzle.changed(both), _MOST_SOLUTIONS)
            for meant in _read_anew(both, freed.solutions) if freed.complete else ():
                yield from proved(puzzle, Kind.PAIR, list(map(RuleChange, both, meant)), budget)


def _read_anew(both: Sequence[Rule], solutions: Sequence[Filling]) -> list[tuple[Rule, ...]]:
    """Return the readings of two rules, other than they stand, that exactly one of the solutions obeys."""
    found = ([fitted(rule, filling) for rule in both] for filling in solutions)
    often = Counter(tuple(rule for rule in meant if rule is not None) for meant in found)
    once = [
        meant
        for meant, times in often.items()
        if times == 1 and len(meant) == len(both) and all(map(ne, both, meant))
    ]
    return sorted(once, key=lambda meant: [(rule.cells, rule.figure) for rule in meant])


def total_and_given(puzzle: Puzzle, cage: Cage, budget: SearchBudget) -> Iterator[Mend]:
    """Yield another total of a cage with extra givens, where the total alone leaves a few solutions.

    For each such total there are many givens that do; one set is offered.
    """
    freed = budget.count(puzzle.changed([cage]), _MOST_SOLUTIONS)
    if not freed.complete:
        return
    left: dict[RuleChange, list[Filling]] = {}
    for filling in freed.solutions:
        meant = fitted(cage, filling)
        if meant is not None:
            left.setdefault(RuleChange(cage, meant), []).append(filling)
    for change, solutions in sorted(left.items(), key=lambda item: item[0].nearness):
        if len(solutions) > 1:
            extra = fewest_for_all(solutions, 1, budget)[0][0]
            if len(extra) <= _MOST_EXTRA:
                givens = [given_change(cell, None, digit) for cell, digit in extra]
                yield from proved(puzzle, Kind.PAIR, [change, *givens], budget)
