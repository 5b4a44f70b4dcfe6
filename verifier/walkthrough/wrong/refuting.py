"""Why a digit cannot stand where it was written: what rules it out, and the steps that show it.

Of the puzzle's rules a smallest set is looked for that leaves the digit no place beside the other digits of
the grid; the count is asked about each set. How it comes about is told by steps that know these rules and
digits alone: they close the digit in its cell, or, with the digit supposed, end in a contradiction.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from grader.board.board import Board
from grader.board.steps import WalkStep
from grader.grading.replay import Outcome
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER, TECHNIQUES
from grader.walking.walk import walk
from verifier.evidence.establish import count
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.masks import mask_of
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.rule import Rule
from verifier.walkthrough.wrong.contradictions import contradiction_on

__all__ = ["MOST_RULES", "Disproof", "clash_of", "refuted"]

_WORK_FOR_ONE = 0.25
"""Deterministic units that one look at a set of rules may cost; a set that takes more counts as possible."""
_HARDEST_TIER = 4
"""The hardest tier of the steps that show it; beyond that the rules are named, and no more."""
_EASY = tuple(one for one in LADDER if default_tiers().tier_of[one.id] <= _HARDEST_TIER)
"""The techniques up to it."""
MOST_RULES = 8
"""Of more rules than this nobody would call to mind how they work together."""
_FEW = 4
"""With more rules than this, it is worth looking for another set."""
_MOST_STEPS = 8
"""More steps than this are not told to somebody who has made a slip."""
_APART = (House, Cage, Different)
"""Rules in which no digit stands twice."""


@dataclass(frozen=True, slots=True, eq=False)
class Disproof:
    """What shows that a digit cannot stand in a cell.

    Parameters
    ----------
    cell, digit : int
        What is refuted.
    rules : tuple of Rule
        What rules it out, together with `beside`: none can be left out, unless they are more than
        `MOST_RULES` or a look took too much work.
    beside : tuple of (int, int)
        The other digits of the grid that stand in the cells of `rules`.
    twice : int or None
        A cell in which the digit stands as well, where that is all there is to say.
    steps : tuple of WalkStep
        Steps that know these rules and digits alone, in order; none where they are not told.
    contradiction : str
        What the steps come to with the digit supposed, in words; empty where they close it themselves.
    """

    cell: int
    digit: int
    rules: tuple[Rule, ...]
    beside: tuple[tuple[int, int], ...]
    twice: int | None = None
    steps: tuple[WalkStep, ...] = ()
    contradiction: str = ""


def clash_of(puzzle: Puzzle, entries: Mapping[int, int], cell: int, digit: int) -> Disproof | None:
    """Return what shows that a digit stands twice in a house or a cage; None where it does not.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    entries : mapping of int to int
        Digits by cell; that of `cell` itself does not matter.
    cell, digit : int
        The digit in question.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> clash = clash_of(make_puzzle("classic", Grid.square(4)), {1: 4, 2: 3}, 3, 3)
    >>> clash.rules[0].name, clash.twice
    ('row 1', 2)
    """
    for rule in puzzle.premises:
        if isinstance(rule, _APART) and cell in rule.cells:
            for other in rule.cells:
                if other != cell and entries.get(other) == digit:
                    return Disproof(cell, digit, (rule,), ((other, digit),), twice=other)
    return None


def refuted(
    puzzle: Puzzle, entries: Mapping[int, int], cell: int, digit: int, allowance: WorkAllowance
) -> Disproof | None:
    """Return what shows that a digit cannot stand in a cell beside others; None where nothing was found.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    entries : mapping of int to int
        The other digits of the grid, givens included, by cell.
    cell, digit : int
        The digit in question.
    allowance : WorkAllowance
        Guard for each look.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> cages = [Cage((0, 1), 3), Cage((2, 3), 7)]
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=cages)
    >>> found = refuted(puzzle, {}, 4, 1, WorkAllowance())
    >>> [rule.called(puzzle.grid) for rule in found.rules]
    ['box 1', 'the cage of 3 in r1c1 and r1c2']
    """
    others = {c: d for c, d in entries.items() if c != cell}
    looked = _Looks(puzzle, others, cell, digit, allowance)
    near: list[Rule] = []
    for ring in _rings(puzzle, others, cell):
        near += ring
        if looked.impossible(near):
            break
    else:
        return None
    rules = min(_sets(near, looked.impossible), key=len)
    beside = tuple(sorted((c, others[c]) for rule in rules for c in rule.cells if c in others))
    found = Disproof(cell, digit, rules, tuple(dict.fromkeys(beside)))
    if len(rules) > MOST_RULES:
        return found
    return _shown(puzzle, found, time.monotonic() + allowance.seconds)


@dataclass(frozen=True, slots=True)
class _Looks:
    """Asks the count whether a digit has a place, by some rules and the other digits in their cells."""

    puzzle: Puzzle
    others: Mapping[int, int]
    cell: int
    digit: int
    allowance: WorkAllowance

    def impossible(self, rules: Sequence[Rule]) -> bool:
        spoken = {cell for rule in rules for cell in rule.cells}
        stand = [Given(c, d) for c, d in self.others.items() if c in spoken]
        asked = _only(self.puzzle, rules, [*stand, Given(self.cell, self.digit)])
        allowed = WorkAllowance(work=_WORK_FOR_ONE, seconds=self.allowance.seconds)
        tally = count(asked, 1, allowed)
        return tally.complete and not tally.count


def _only(puzzle: Puzzle, rules: Sequence[Rule], givens: Sequence[Given]) -> Puzzle:
    return puzzle.changed(puzzle.rules, [*rules, *givens])


def _rings(puzzle: Puzzle, others: Mapping[int, int], cell: int) -> Iterator[list[Rule]]:
    """Yield the rules by their distance from a cell, over empty cells; in a ring, the fullest first."""
    left = [rule for rule in puzzle.rules if not isinstance(rule, Given)]
    reached = {cell}
    while ring := [rule for rule in left if not reached.isdisjoint(rule.cells)]:
        yield sorted(ring, key=lambda rule: sum(c not in others for c in rule.cells))
        left = [rule for rule in left if rule not in ring]
        reached |= {c for rule in ring for c in rule.cells if c not in others}


def _sets(near: Sequence[Rule], impossible: Callable[[Sequence[Rule]], bool]) -> Iterator[tuple[Rule, ...]]:
    """Yield smallest sets of rules: of the nearest; where they are many, also cages or houses rather kept."""
    nearest = _smallest(near, impossible)
    yield nearest
    if _FEW < len(nearest) <= MOST_RULES:
        for first in (Cage, House):
            yield _smallest(sorted(near, key=lambda rule: type(rule) is not first), impossible)


def _smallest(rules: Sequence[Rule], impossible: Callable[[Sequence[Rule]], bool]) -> tuple[Rule, ...]:
    """Return a set of rules from which none can be left out, the first ones rather kept.

    Where it would have more than `MOST_RULES`, the search is given up: what is returned rules the digit out,
    but may have rules too many.

    Notes
    -----
    The shortest beginning that is impossible ends with a rule that is needed; it is kept, what lies behind it
    is not, and the search goes on before it. Halving finds each in a logarithm of looks (after U. Junker,
    "QuickXplain", AAAI 2004).
    """
    needed: list[Rule] = []
    while not (needed and impossible(needed)):
        low, high = 1, len(rules)
        while low < high:
            middle = (low + high) // 2
            if impossible([*needed, *rules[:middle]]):
                high = middle
            else:
                low = middle + 1
        needed.append(rules[low - 1])
        rules = rules[: low - 1]
        if len(needed) > MOST_RULES:
            needed += rules
            break
    return tuple(sorted(needed, key=lambda rule: (rule.rank, rule.cells)))


def _shown(puzzle: Puzzle, found: Disproof, deadline: float) -> Disproof:
    """Return a refutation with the steps that show it, where a few easy ones do."""
    stand = [Given(cell, digit) for cell, digit in found.beside]
    for shown in (
        _closed(_only(puzzle, found.rules, stand), found, deadline),
        _contradicted(_only(puzzle, found.rules, [*stand, Given(found.cell, found.digit)]), found, deadline),
    ):
        if shown is not None and len(shown.steps) <= _MOST_STEPS:
            return shown
    return found


def _closed(asked: Puzzle, found: Disproof, deadline: float) -> Disproof | None:
    """Return it with the steps that close the digit in its cell without giving away what stands there."""
    taken = walk(asked, trial=False, deadline=deadline, ladder=_EASY).steps
    for number, each in enumerate(taken):
        if each.board.after([each.step]).candidates[found.cell] >> found.digit & 1:
            continue
        if any(cell == found.cell for cell, _ in each.step.places):
            return None
        gone = tuple((cell, mask) for cell, mask in each.step.removes if cell == found.cell)
        last = replace(each, step=replace(each.step, removes=tuple((c, 1 << found.digit) for c, _ in gone)))
        alone = _alone(last, taken[0].board, found)
        kept = () if alone else _leading_to(taken[:number], mask_of(each.step.looks))
        return replace(found, steps=(*kept, alone or last))
    return None


def _alone(last: WalkStep, board: Board, found: Disproof) -> WalkStep | None:
    """Return the last step as its technique finds it without the others, if it does."""
    for step in TECHNIQUES[last.step.technique].find(board):
        if dict(step.removes).get(found.cell, 0) >> found.digit & 1:
            return WalkStep(replace(step, removes=((found.cell, 1 << found.digit),)), board)
    return None


def _contradicted(asked: Puzzle, found: Disproof, deadline: float) -> Disproof | None:
    """Return it with the steps from the digit, supposed, to a contradiction."""
    walked = walk(asked, trial=False, deadline=deadline, ladder=_EASY)
    if walked.outcome is not Outcome.CONTRADICTION or not walked.steps:
        return None
    last = walked.steps[-1]
    end = contradiction_on(last.board.after([last.step]))
    if end is None:
        return None
    return replace(found, steps=_leading_to(walked.steps, end.cells), contradiction=end.says)


def _leading_to(taken: Sequence[WalkStep], cells: int) -> tuple[WalkStep, ...]:
    """Return those steps that change something in some cells, and whatever leads to these."""
    kept: list[WalkStep] = []
    for each in reversed(taken):
        touched = each.step.acted_on
        for cell, _ in each.step.places:
            touched |= each.board.layout.sees[cell]
        if touched & cells:
            kept.append(each)
            cells |= mask_of(each.step.looks)
    return tuple(reversed(kept))
