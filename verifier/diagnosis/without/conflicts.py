"""Parts of a puzzle that cannot hold together, shrunk until every one of them is needed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from verifier.diagnosis.parts import Part, cells_of, only
from verifier.diagnosis.purse import OutOfBudgetError, Purse
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Conflict", "nearest_first", "possible", "shrunk"]

_MOST_FOR_ONE = 0.25
"""What one look at a set of parts may cost; a set that takes more counts as possible."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Parts that cannot hold together.

    Parameters
    ----------
    parts : tuple of House, Cage or Given
        In the order of the puzzle: houses, cages, givens.
    minimal : bool
        Whether it is proved that without any one of them the others can be met.
    """

    parts: tuple[Part, ...]
    minimal: bool


def possible(puzzle: Puzzle, parts: Iterable[Part], purse: Purse) -> bool | None:
    """Whether some filling meets these parts of a puzzle; None if that could not be found out.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent.
    """
    tally = purse.count(only(puzzle, parts), limit=1, most=_MOST_FOR_ONE)
    if tally.count:
        return True
    return False if tally.complete else None


def shrunk(puzzle: Puzzle, parts: Sequence[Part], purse: Purse, fixed: Iterable[Part] = ()) -> Conflict:
    """Shrink parts that cannot hold together until every one of them is needed, or the budget is spent.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle they are parts of.
    parts : sequence of Part
        Known not to hold together, with `fixed`. Those that come first are rather kept than the others.
    purse : Purse
        Pays for it.
    fixed : iterable of Part, optional
        Parts that hold in any case and are not in question.

    Returns
    -------
    Conflict
        A smallest set in the sense that none can be left out, not that there is no smaller one.

    Notes
    -----
    The parts are halved, and each half is shrunk with the other as a fixed part: with `k` parts left of
    `n` that takes about ``2k log(n/k)`` looks instead of `n`. A look that takes too long counts as
    "possible", and so does one that can no longer be paid: the result is still a conflict, but may hold
    parts too many.

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
    >>> from verifier.diagnosis.parts import parts_of
    >>> conflict = shrunk(puzzle, parts_of(puzzle), Purse())
    >>> [part.name if hasattr(part, "name") else part.total for part in conflict.parts], conflict.minimal
    (['row 1', 3, 6], True)
    """
    looks = _Looks(puzzle, purse)
    needed = set(looks.needed(tuple(fixed), tuple(parts), grown=bool(fixed)))
    return Conflict(tuple(part for part in _ordered(parts) if part in needed), not looks.unsure)


class _Looks:
    """The looks at sets of parts, and whether one of them was inconclusive."""

    def __init__(self, puzzle: Puzzle, purse: Purse) -> None:
        self._puzzle, self._purse = puzzle, purse
        self.unsure = False

    def needed(self, fixed: tuple[Part, ...], parts: tuple[Part, ...], *, grown: bool) -> tuple[Part, ...]:
        """Return a smallest set of `parts` that contradicts `fixed`; `grown` since `fixed` was last tried."""
        if grown and self._impossible(fixed):
            return ()
        if len(parts) < 2:
            return parts
        first, second = parts[: len(parts) // 2], parts[len(parts) // 2 :]
        of_second = self.needed((*fixed, *first), second, grown=True)
        of_first = self.needed((*fixed, *of_second), first, grown=bool(of_second))
        return (*of_first, *of_second)

    def _impossible(self, parts: tuple[Part, ...]) -> bool:
        try:
            answer = possible(self._puzzle, parts, self._purse)
        except OutOfBudgetError:
            answer = None
        self.unsure = self.unsure or answer is None
        return answer is False


def _ordered(parts: Sequence[Part]) -> list[Part]:
    order = {"House": 0, "Cage": 1, "Given": 2}
    return sorted(parts, key=lambda part: (order[type(part).__name__], cells_of(part)))


def nearest_first(puzzle: Puzzle, parts: Iterable[Part], seed: Part) -> list[Part]:
    """Return parts in the order of their distance from a seed, so that a conflict stays close to it.

    The distance of two parts is that of their nearest cells, in rows plus columns.
    """
    columns = puzzle.grid.columns

    def distance(part: Part) -> int:
        return min(
            abs(one // columns - other // columns) + abs(one % columns - other % columns)
            for one in cells_of(part)
            for other in cells_of(seed)
        )

    return sorted(parts, key=distance)
