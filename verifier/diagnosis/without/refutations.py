"""The steps that lead to a contradiction, traced back from its end in a replay."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from grader.board.board import Board, opening_board
from grader.board.steps import Step
from grader.grading.replay import Outcome, Replay, replay
from verifier.diagnosis.search_budget import COST_OF_ROUND, SearchBudget
from verifier.puzzle.breaches import breaches
from verifier.puzzle.masks import bits
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.rule import Rule

__all__ = ["Contradiction", "Refutation", "refutations"]

_Fact = tuple[int, int]
"""A cell, and a digit that has gone from it."""
_Cause = tuple[int, int]
"""A round and the place of a step in it; for a given, -1 and its cell."""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Where a refutation ends: with something that has nothing left.

    Parameters
    ----------
    cell : int or None
        A cell without a candidate.
    house : House or None
        A house without a place for `digit`.
    digit : int
        0 where there is none to name.
    cells : tuple of int
        Full cells that break a rule together; empty in the other cases.
    """

    cell: int | None = None
    house: House | None = None
    digit: int = 0
    cells: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Refutation:
    """Steps that lead to a contradiction, and what they rest on.

    Parameters
    ----------
    board : Board
        The board at the end.
    steps : tuple of Step
        In order, only those that the end rests on.
    end : Contradiction
        The contradiction.
    rules : frozenset of Rule
        The houses, cages and givens that the steps and the end rest on.
    """

    board: Board
    steps: tuple[Step, ...]
    end: Contradiction
    rules: frozenset[Rule]


def refutations(puzzle: Puzzle, budget: SearchBudget) -> tuple[Refutation, ...]:
    """Work a puzzle through and return what leads to its contradictions, those with fewest rules first.

    Returns
    -------
    tuple of Refutation
        Empty where the replay by logic meets no contradiction.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle, rules_of
    >>> cages = [Cage((0, 1), 3), Cage((2, 3), 6), Cage((12, 13), 5)]
    >>> refutation = refutations(make_puzzle("killer", Grid.square(4), cages=cages), SearchBudget())[0]
    >>> sorted(rule.total for rule in rules_of(refutation.rules, Cage))
    [3, 6]
    """
    played = replay(puzzle, trial=False, deadline=budget.deadline)
    budget.spend(COST_OF_ROUND * len(played.rounds))
    if played.outcome is not Outcome.CONTRADICTION:
        return ()
    trace = _Trace(puzzle, played)
    found = [trace.back_from(end) for end in _contradictions(puzzle, trace.board)]
    return tuple(sorted(found, key=lambda each: (len(each.rules), len(each.steps))))


def _contradictions(puzzle: Puzzle, board: Board) -> Iterator[Contradiction]:
    """Yield the contradictions of a board: empty cells, houses without a place, broken rules."""
    yield from (Contradiction(cell=cell) for cell, mask in enumerate(board.candidates) if not mask)
    places = board.places()
    for house, mask in zip(board.layout.houses, board.layout.house_masks, strict=True):
        for digit in board.layout.grid.all_digits:
            if not places[digit] & mask:
                yield Contradiction(house=house, digit=digit)
    if board.solved and 0 not in board.candidates:
        for breach in breaches(puzzle, board.filling):
            yield Contradiction(cells=breach.cells)


class _Trace:
    """Where each candidate of a replay went, so that an end can be traced back to its beginning."""

    def __init__(self, puzzle: Puzzle, played: Replay) -> None:
        self._layout = played.layout
        self._played = played
        self._givens = dict(puzzle.givens)
        self._cause: dict[_Fact, _Cause] = {}
        last = played.rounds[-1] if played.rounds else None
        self.board = last.board.after(last.steps) if last else opening_board(puzzle)
        for cell, digit in puzzle.givens:
            self._note(Step("given", places=((cell, digit),)), (-1, cell))
        for number, played_round in enumerate(played.rounds):
            for place, step in enumerate(played_round.steps):
                self._note(step, (number, place))

    def _note(self, step: Step, cause: _Cause) -> None:
        """Note what a step takes away first."""
        for cell, digits in step.removes:
            for digit in bits(digits):
                self._cause.setdefault((cell, digit), cause)
        for cell, digit in step.places:
            for other in self._layout.grid.all_digits:
                if other != digit:
                    self._cause.setdefault((cell, other), cause)
            for peer in self._layout.peers[cell]:
                self._cause.setdefault((peer, digit), cause)

    def back_from(self, end: Contradiction) -> Refutation:
        """Return the refutation that ends here."""
        rules: set[Rule] = set()
        steps: set[_Cause] = set()
        open_facts = list(self._facts_of(end, rules))
        seen = set(open_facts)
        while open_facts:
            cell, digit = open_facts.pop()
            cause = self._cause[cell, digit]
            rules.update(self._link(cause, cell, digit))
            if cause not in steps:
                steps.add(cause)
                fresh = self._premises(cause, rules) - seen
                seen |= fresh
                open_facts += fresh
        told = tuple(self._step(cause) for cause in sorted(steps) if cause[0] >= 0)
        return Refutation(self.board, told, end, frozenset(rules))

    def _facts_of(self, end: Contradiction, rules: set[Rule]) -> set[_Fact]:
        """Return the facts that a contradiction consists of; its house or cage goes to `rules`."""
        if end.house is not None:
            rules.add(end.house)
            return {(cell, end.digit) for cell in end.house.cells}
        if end.cell is not None:
            return {(end.cell, digit) for digit in self._layout.grid.all_digits}
        rules.update(rule for rule in self._layout.rules if set(end.cells) <= set(rule.cells))
        return self._gone(end.cells, self.board)

    def _gone(self, cells: Iterable[int], board: Board) -> set[_Fact]:
        gone = self._layout.all_digits
        return {(cell, digit) for cell in cells for digit in bits(gone & ~board.candidates[cell])}

    def _premises(self, cause: _Cause, rules: set[Rule]) -> set[_Fact]:
        """Return the facts that a step rests on; its houses and cages go to `rules`."""
        number, place = cause
        if number < 0:
            rules.add(Given(place, self._givens[place]))
            return set()
        step, layout = self._step(cause), self._layout
        for derived in step.sums:
            rules.update(layout.rules[number] for number in derived.rules)
        rules.update(layout.rules[number] for number in step.rules)
        return self._gone(step.looks, self._played.rounds[number].board)

    def _link(self, cause: _Cause, cell: int, digit: int) -> Iterator[Rule]:
        """Yield the house or cage through which a placed digit takes itself from a cell that sees it."""
        number, place = cause
        placed = ((place, self._givens[place]),) if number < 0 else self._step(cause).places
        removed = () if number < 0 else self._step(cause).removes
        if any(gone == cell and digits >> digit & 1 for gone, digits in removed):
            return
        for other, its_digit in placed:
            if other != cell and its_digit == digit:
                yield from (self._layout.rules[rule] for rule in self._layout.link(other, cell))
                return

    def _step(self, cause: _Cause) -> Step:
        return self._played.rounds[cause[0]].steps[cause[1]]
