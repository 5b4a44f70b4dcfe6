"""Parts of a puzzle that cannot hold together, shrunk until every one of them is needed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from verifier.diagnosis.search_budget import OutOfBudgetError, SearchBudget
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.rule import Rule

__all__ = ["Conflict", "nearest_first", "only", "possible", "shrunk"]

_MOST_FOR_ONE = 0.25
"""What one look at a set of rules may cost; a set that takes more counts as possible."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Parts that cannot hold together.

    Parameters
    ----------
    rules : tuple of Rule
        In the order of the puzzle: houses first, givens last.
    minimal : bool
        Whether it is proved that without any one of them the others can be met.
    """

    rules: tuple[Rule, ...]
    minimal: bool


def only(puzzle: Puzzle, rules: Iterable[Rule]) -> Puzzle:
    """Return the puzzle with none but these of its rules; every cell still holds a digit of the grid."""
    kept = set(rules)
    return puzzle.changed([rule for rule in puzzle.rules if rule not in kept])


def possible(puzzle: Puzzle, rules: Iterable[Rule], budget: SearchBudget) -> bool | None:
    """Whether some filling meets these rules of a puzzle; None if that could not be found out.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent.
    """
    tally = budget.count(only(puzzle, rules), limit=1, most=_MOST_FOR_ONE)
    if tally.count:
        return True
    return False if tally.complete else None


def shrunk(
    puzzle: Puzzle, rules: Sequence[Rule], budget: SearchBudget, fixed: Iterable[Rule] = ()
) -> Conflict:
    """Shrink rules that cannot hold together until every one of them is needed, or the budget is spent.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle they are rules of.
    rules : sequence of Rule
        Known not to hold together, with `fixed`. Those that come first are rather kept than the others.
    fixed : iterable of Rule, optional
        Parts that hold in any case and are not in question.

    Returns
    -------
    Conflict
        A smallest set in the sense that none can be left out, not that there is no smaller one.

    Notes
    -----
    The rules are halved, and each half is shrunk with the other as a fixed rule: with `k` rules left of
    `n` that takes about ``2k log(n/k)`` looks instead of `n`. A look that takes too long counts as
    "possible", and so does one that the budget no longer allows: the result is still a conflict, but may hold
    rules too many.

    References
    ----------
    .. [1] U. Junker, "QuickXplain", AAAI 2004.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> cages = [Cage((0, 1), 3), Cage((2, 3), 6), Cage((12, 13), 5)]
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=cages)
    >>>
    >>> conflict = shrunk(puzzle, puzzle.rules, SearchBudget())
    >>> [rule.called(puzzle.grid) for rule in conflict.rules][:2], conflict.minimal
    (['row 1', 'the cage of 3 in r1c1 and r1c2'], True)
    """
    looks = _Looks(puzzle, budget)
    needed = set(looks.needed(tuple(fixed), tuple(rules), grown=bool(fixed)))
    ordered = sorted(rules, key=lambda rule: (rule.rank, rule.cells))
    return Conflict(tuple(rule for rule in ordered if rule in needed), not looks.unsure)


class _Looks:
    """The looks at sets of rules, and whether one of them was inconclusive."""

    def __init__(self, puzzle: Puzzle, budget: SearchBudget) -> None:
        self._puzzle, self._budget = puzzle, budget
        self.unsure = False

    def needed(self, fixed: tuple[Rule, ...], rules: tuple[Rule, ...], *, grown: bool) -> tuple[Rule, ...]:
        """Return a smallest set of `rules` that contradicts `fixed`; `grown` since `fixed` was last tried."""
        if grown and self._impossible(fixed):
            return ()
        if len(rules) < 2:
            return rules
        first, second = rules[: len(rules) // 2], rules[len(rules) // 2 :]
        of_second = self.needed((*fixed, *first), second, grown=True)
        of_first = self.needed((*fixed, *of_second), first, grown=bool(of_second))
        return (*of_first, *of_second)

    def _impossible(self, rules: tuple[Rule, ...]) -> bool:
        try:
            answer = possible(self._puzzle, rules, self._budget)
        except OutOfBudgetError:
            answer = None
        self.unsure = self.unsure or answer is None
        return answer is False


def nearest_first(puzzle: Puzzle, rules: Iterable[Rule], seed: Rule) -> list[Rule]:
    """Return rules in the order of their distance from a seed, so that a conflict stays close to it.

    The distance of two rules is that of their nearest cells, in rows plus columns.
    """
    columns = puzzle.grid.columns

    def distance(rule: Rule) -> int:
        return min(
            abs(one // columns - other // columns) + abs(one % columns - other % columns)
            for one in rule.cells
            for other in seed.cells
        )

    return sorted(rules, key=distance)
