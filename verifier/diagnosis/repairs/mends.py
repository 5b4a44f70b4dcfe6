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

__all__ = ["Kind", "Mend", "misread_marks", "proved"]


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
    """A cell goes to a neighbouring cage."""
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
