"""Which cages and givens a repair of a puzzle without a solution has to touch.

Whatever leaves a conflict as it stands leaves the puzzle without a solution. So a repair must touch a part
of every conflict; a few conflicts rule out most changes without a count.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import cached_property

from verifier.diagnosis.parts import Part, only, parts_of
from verifier.diagnosis.purse import Purse
from verifier.diagnosis.without.chains import chains_in
from verifier.diagnosis.without.conflicts import Conflict, possible, shrunk
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.house import House

__all__ = ["Suspects"]

_SHARE = 0.25
"""The share of the budget that may go into the first conflict."""


class Suspects:
    """The cages and givens that can be at fault. It finds conflicts when it is asked, and keeps them.

    Parameters
    ----------
    puzzle : Puzzle
        A puzzle without a solution.
    purse : Purse
        Pays for the conflicts.

    Notes
    -----
    Houses are not in question, for they are not the setter's: every conflict here stands among cages and
    givens with all houses kept.

    References
    ----------
    .. [1] R. Reiter, 1987: what mends a contradiction is a hitting set of its conflicts.
    """

    def __init__(self, puzzle: Puzzle, purse: Purse) -> None:
        self._puzzle, self._purse = puzzle, purse
        self._soft = tuple(part for part in parts_of(puzzle) if not isinstance(part, House))
        self._mended_by: dict[Part, bool] = {}
        self._looked_without: set[Part] = set()
        self._chained: list[tuple[Part, ...]] = []

    @cached_property
    def first(self) -> Conflict:
        """A conflict in which every cage and given is needed; it is looked for when it is first asked for."""
        return self._smallest()

    def alone(self) -> list[Part]:
        """Return the parts of which one alone can be at fault, in the order of the puzzle."""
        return [part for part in self.first.parts if self._can_mend(part)]

    def allow(self, touched: Collection[Part]) -> bool:
        """Whether a change that touches these parts, and no others, can be a repair."""
        for part in self.first.parts:
            if part in touched and self._hits_all(touched) and not self._can_mend(part):
                self._look_for_conflict_without(part)
        return self._hits_all(touched)

    def _hits_all(self, touched: Collection[Part]) -> bool:
        return all(any(part in touched for part in conflict) for conflict in self._conflicts)

    @property
    def _conflicts(self) -> list[tuple[Part, ...]]:
        return [self.first.parts, *self._chained]

    def _can_mend(self, part: Part) -> bool:
        """Whether the puzzle has a solution, or may have one, without this part."""
        if part not in self._mended_by:
            rest = (*self._puzzle.houses, *self._but(part))
            self._mended_by[part] = possible(self._puzzle, rest, self._purse) is not False
        return self._mended_by[part]

    def _look_for_conflict_without(self, part: Part) -> None:
        """See that one of the conflicts does without this part, if that can be had cheaply.

        A chain of the replay gives one, larger than need be. To shrink it would take longer than to try
        the changes that a smaller one would rule out.
        """
        if part not in self._looked_without and all(part in conflict for conflict in self._conflicts):
            rest = only(self._puzzle, (*self._puzzle.houses, *self._but(part)))
            self._chained += [self._soft_parts(chain.parts) for chain in chains_in(rest, self._purse)[:1]]
        self._looked_without.add(part)

    def _but(self, part: Part) -> tuple[Part, ...]:
        return tuple(other for other in self._soft if other != part)

    def _soft_parts(self, parts: Collection[Part]) -> tuple[Part, ...]:
        return tuple(part for part in self._soft if part in parts)

    def _smallest(self) -> Conflict:
        """Return a conflict that holds nothing that is not needed; the grader's chain is a good start."""
        chains = chains_in(self._puzzle, self._purse)
        start = self._soft_parts(chains[0].parts) if chains else self._soft
        with self._purse.share(_SHARE) as lent:
            return shrunk(self._puzzle, start, lent, fixed=self._puzzle.houses)
