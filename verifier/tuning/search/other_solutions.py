"""Other solutions of candidates: each of them refutes many more, which need not be counted then."""

from __future__ import annotations

from collections.abc import Iterable

from verifier.puzzle.breaches import breaches
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.rule import Rule

__all__ = ["OtherSolutions"]

_MOST = 5_000
"""So many are kept."""


class OtherSolutions:
    """Fillings that obey all of a puzzle but some of its rules: without these, it has several solutions.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle of which all candidates are made.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    >>> known = OtherSolutions(puzzle)
    >>> one, other = puzzle.rules[-3], puzzle.rules[-1]
    >>> known.add(puzzle.changed([one]), [(1, 2, 3, 4, 3, 4, 2, 1, 2, 1, 4, 3, 4, 3, 1, 2)])
    >>> known.refute(puzzle.changed([one])), known.refute(puzzle.changed([other]))
    (True, False)
    """

    def __init__(self, puzzle: Puzzle) -> None:
        self._puzzle, self._rules = puzzle, frozenset(puzzle.rules)
        self._by_broken: dict[frozenset[Rule], list[Filling]] = {}
        self._known: set[Filling] = set()

    def add(self, candidate: Puzzle, fillings: Iterable[Filling]) -> None:
        """Take note of solutions of a candidate that are none of the puzzle."""
        if candidate.grid != self._puzzle.grid:
            return
        for filling in fillings:
            if filling not in self._known and len(self._known) < _MOST:
                self._known.add(filling)
                broken = frozenset(b.rule for b in breaches(self._puzzle, filling) if b.rule is not None)
                self._by_broken.setdefault(broken, []).append(filling)

    def refute(self, candidate: Puzzle) -> bool:
        """Whether one of them solves a candidate too.

        No rule that it breaks is left then, and it obeys all that came.
        """
        if candidate.grid != self._puzzle.grid:  # cells are blocked that were not
            return False
        rules = frozenset(candidate.rules)
        gone, come = self._rules - rules, rules - self._rules
        return any(
            all(rule.holds(filling) for rule in come)
            for broken, fillings in self._by_broken.items()
            if broken <= gone
            for filling in fillings
        )
