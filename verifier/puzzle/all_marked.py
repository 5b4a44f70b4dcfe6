"""What ``all_marked`` comes to: the neighbours without a mark of a kind, and what they are not."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import BESIDE, apart
from verifier.puzzle.puzzle import Puzzle, rules_of
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule

__all__ = ["KINDS_OF_MARKS", "all_marked", "marked_anew", "worked_out_from"]

KINDS_OF_MARKS = (Consecutive.word, Ratio.word, PairSum.word)
"""The kinds of marks that may be said to be all there."""

_EITHER_WILL_DO = frozenset({Consecutive.word, Ratio.word})
"""Where all of both are there, neighbours that are in both ways so bear either of the two: 1 and 2."""


def all_marked(grid: Grid, kinds: Collection[str], clues: Iterable[Rule]) -> tuple[Unmarked, ...]:
    """Return what it means that all marks of some kinds are there, one rule a kind.

    Parameters
    ----------
    grid : Grid
        Its neighbours are those in a row or column.
    kinds : collection of str
        Some of `KINDS_OF_MARKS`.
    clues : iterable of Rule
        The marks of the puzzle, and other rules.

    Returns
    -------
    tuple of Unmarked
        In the order of `KINDS_OF_MARKS`.

    Examples
    --------
    >>> grid = Grid(1, 4, 0, 0, 4)
    >>> all_marked(grid, ["ratio"], [Ratio((0, 1), 2), Consecutive((1, 2))])
    (Unmarked(kind='ratio', values=(2,), pairs=((1, 2), (2, 3))),)
    """
    marks = [rule for rule in clues if rule.word in KINDS_OF_MARKS]
    every = apart(grid, BESIDE)
    found = []
    for kind in KINDS_OF_MARKS:
        if kind in kinds:
            excusing = {kind} | (_EITHER_WILL_DO.intersection(kinds) if kind in _EITHER_WILL_DO else set())
            excused = {mark.cells for mark in marks if mark.word in excusing}
            values = {mark.figure for mark in marks if mark.word == kind} - {0}
            pairs = tuple(pair for pair in every if pair not in excused)
            found.append(Unmarked(kind, tuple(sorted(values)), pairs))
    return tuple(found)


def marked_anew(puzzle: Puzzle) -> Puzzle:
    """Return a puzzle whose marks were changed with what it means that all are there, as its file would say.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid(1, 3, 0, 0, 3)
    >>> puzzle = make_puzzle("classic", grid, clues=all_marked(grid, ["consecutive"], []))
    >>> marked_anew(puzzle.changed([], [Consecutive((0, 1))])).rules[-1]
    Unmarked(kind='consecutive', values=(), pairs=((1, 2),))
    """
    stated = rules_of(puzzle.rules, Unmarked)
    if not stated:
        return puzzle
    return puzzle.changed(stated, all_marked(puzzle.grid, [rule.kind for rule in stated], puzzle.rules))


def worked_out_from(rule: Rule, puzzle: Puzzle) -> tuple[Unmarked, ...]:
    """Return what of a puzzle would say something else if one of its rules were another: all for a mark."""
    return rules_of(puzzle.rules, Unmarked) if rule.word in KINDS_OF_MARKS else ()
