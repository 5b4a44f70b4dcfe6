"""Which clues a repair of a puzzle without a solution has to touch.

Whatever leaves a conflict as it stands leaves the puzzle without a solution. So a repair must touch a rule
of every conflict; a few conflicts rule out most changes without a count.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import cached_property

from verifier.diagnosis.clues import clues_of
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.without.conflicts import Conflict, possible, shrunk
from verifier.diagnosis.without.refutations import refutations
from verifier.puzzle.all_marked import worked_out_from
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.rule import Rule

__all__ = ["Suspects"]

_SHARE = 0.25
"""The share of the budget that may go into the first conflict."""


class Suspects:
    """The clues that can be at fault. It finds conflicts when it is asked, and keeps them.

    Notes
    -----
    Houses are not in question, for they are not the setter's: every conflict here stands among clues
    with all houses kept.

    References
    ----------
    .. [1] R. Reiter, 1987: what mends a contradiction is a hitting set of its conflicts.
    """

    def __init__(self, puzzle: Puzzle, budget: SearchBudget) -> None:
        self._puzzle, self._budget = puzzle, budget
        self._clues = clues_of(puzzle)
        self._mended_by: dict[Rule, bool] = {}
        self._looked_without: set[Rule] = set()
        self._by_replay: list[tuple[Rule, ...]] = []

    @cached_property
    def first(self) -> Conflict:
        """A conflict in which every clue is needed; it is looked for when it is first asked for."""
        refuted = refutations(self._puzzle, self._budget)  # what a person needs is little: a good start
        start = self._clues_in(refuted[0].rules) if refuted else self._clues
        with self._budget.share(_SHARE) as lent:
            return shrunk(self._puzzle, start, lent, fixed=self._puzzle.houses)

    def alone(self) -> list[Rule]:
        """Return the rules of which one alone can be at fault, in the order of the puzzle."""
        return [rule for rule in self.first.rules if self._can_mend(rule)]

    def allow(self, touched: Collection[Rule]) -> bool:
        """Whether a change that touches these rules, and no others, can be a repair."""
        for rule in self.first.rules:
            if rule in touched and self._hits_all(touched) and not self._can_mend(rule):
                self._look_for_conflict_without(rule)
        return self._hits_all(touched)

    def _hits_all(self, touched: Collection[Rule]) -> bool:
        return all(any(rule in touched for rule in conflict) for conflict in self._conflicts)

    @property
    def _conflicts(self) -> list[tuple[Rule, ...]]:
        return [self.first.rules, *self._by_replay]

    def _can_mend(self, rule: Rule) -> bool:
        """Whether the puzzle has a solution, or may have one, without this rule."""
        if rule not in self._mended_by:
            rest = self._puzzle.changed([rule, *worked_out_from(rule, self._puzzle)])
            self._mended_by[rule] = possible(rest, rest.rules, self._budget) is not False
        return self._mended_by[rule]

    def _look_for_conflict_without(self, rule: Rule) -> None:
        """See that one of the conflicts does without this rule, if that can be had cheaply.

        A refutation by the replay gives one, larger than need be. To shrink it would take longer than to try
        the changes that a smaller one would rule out.
        """
        if rule not in self._looked_without and all(rule in conflict for conflict in self._conflicts):
            refuted = refutations(self._puzzle.changed([rule]), self._budget)
            self._by_replay += [self._clues_in(each.rules) for each in refuted[:1]]
        self._looked_without.add(rule)

    def _clues_in(self, rules: Collection[Rule]) -> tuple[Rule, ...]:
        return tuple(rule for rule in self._clues if rule in rules)
