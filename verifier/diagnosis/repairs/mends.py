"""Repairs: changes that belong together, and the proof that they work."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import IntEnum

from verifier.diagnosis.repairs.changes import CellMove, Change, changed
from verifier.diagnosis.repairs.proof import Proof, prove
from verifier.diagnosis.search_budget import SearchBudget
from verifier.files.fields.lookalikes import alike
from verifier.puzzle.cage_layout import places_that_look_wrong
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.run_layout import runs_without_total

__all__ = ["Kind", "Mend", "in_order", "misread_marks", "proved"]

_MOST_PAIRS = 10
"""Changes of two clues that are offered."""


class Kind(IntEnum):
    """What is changed; of repairs that are as good otherwise, the first kind comes first."""

    CLAIM = 0
    """All that contradicts the solution in the file, put right at once."""
    TOTAL = 1
    """One total."""
    EXCHANGE = 2
    """Two totals change places."""
    GIVEN = 3
    """A given gets another digit, or another clue says something else."""
    CELL = 4
    """A cell goes to a neighbouring cage, or a blocked cell lies elsewhere."""
    CELLS = 5
    """Two cells change cages."""
    LESS = 6
    """A given or another clue goes."""
    PAIR = 7
    """Two totals, givens or other clues."""
    EXTRA = 8
    """Givens are put in."""
    SPLIT = 9
    """A cage becomes two or more."""
    JOIN = 10
    """Two cages become one."""
    ADD = 11
    """Cells in no cage get one."""


@dataclass(frozen=True, slots=True)
class Mend:
    """A repair that is proved to work.

    Parameters
    ----------
    kind : Kind
        What is changed.
    changes : tuple of Change
        To be made in order, all of them.
    proof : Proof
        Of the mended puzzle.
    keeps_claim : bool
        Whether its solution is the one that the file brings.
    tidies : bool
        Whether it puts right what anybody can see: a cage in pieces, the only cell in no cage.
    misread : tuple of str
        The mark of a cell, and the mark that looks like it and was meant; empty for any other repair.
    """

    kind: Kind
    changes: tuple[Change, ...]
    proof: Proof
    keeps_claim: bool
    tidies: bool = False
    misread: tuple[str, ...] = ()

    @property
    def shows(self) -> bool:
        """Whether a look at the file tells what went wrong."""
        return self.tidies or bool(self.misread)


def proved(puzzle: Puzzle, kind: Kind, changes: Sequence[Change], budget: SearchBudget) -> Iterator[Mend]:
    """Yield a repair if these changes leave exactly one solution, by two witnesses; else nothing.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent.
    """
    mended = changed(puzzle, changes)
    if runs_without_total(mended):
        return  # one solution or not, it is rejected
    proof = prove(mended, budget)
    if proof is not None:
        tidies = places_that_look_wrong(mended) < places_that_look_wrong(puzzle)
        misread = misread_marks(puzzle, changes[0]) if len(changes) == 1 else ()
        yield Mend(kind, tuple(changes), proof, proof.solution == puzzle.solution, tidies, misread)


def misread_marks(puzzle: Puzzle, change: Change) -> tuple[str, ...]:
    """Return the mark of a cell and that of the cage to which it goes, if the two look alike.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> cages, marks = [Cage((0, 1), 3), Cage((2, 3), 7)], ("l", "l", "I", "I", *["."] * 12)
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=cages, marks=marks)
    >>> misread_marks(puzzle, CellMove(1, *cages)), misread_marks(puzzle, CellMove(1, cages[0], None))
    (('l', 'I'), ())
    """
    if not puzzle.marks or not isinstance(change, CellMove) or change.new is None:
        return ()
    mark, meant = puzzle.marks[change.cell], puzzle.marks[change.new.cells[0]]
    return (mark, meant) if alike(mark, meant) else ()


def in_order(mends: Sequence[Mend]) -> tuple[Mend, ...]:
    """Return repairs without repetitions, the best first.

    Those that keep the solution in the file come first; then those that put right what anybody can see: a
    mark that was taken for one that looks like it, a cage in pieces, a forgotten mark; then single changes
    before pairs; then the kinds in their order, and of a kind the likeliest slips; then the easier puzzle.
    Of pairs only the best are kept, those that leave a puzzle for trial and error last.
    """
    ranked = sorted({mend.changes: mend for mend in mends}.values(), key=_rank)
    pairs = [mend for mend in ranked if mend.kind is Kind.PAIR][_MOST_PAIRS:]
    return tuple(mend for mend in ranked if mend not in pairs)


def _rank(mend: Mend) -> tuple[object, ...]:
    pair = mend.kind in (Kind.PAIR, Kind.CLAIM)
    return (
        not mend.keeps_claim,
        not mend.misread,
        not mend.tidies,
        pair,
        pair and mend.proof.by_trial,
        mend.kind,
        sorted((change.nearness for change in mend.changes), reverse=True),
        mend.proof.tier,
    )
