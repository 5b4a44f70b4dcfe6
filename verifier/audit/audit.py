"""The audit of steps: each must follow from what it cites, and from nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from grader.board.steps import WalkStep
from verifier.audit.premises import Premise, claims_of, follows_from_its_rules, premises_of
from verifier.audit.proof import WORK, Answer, prove

__all__ = ["Audit", "audit_step", "cuttable", "failed_audits"]


@dataclass(frozen=True, slots=True)
class Audit:
    """What the audit of one step found.

    Parameters
    ----------
    proof : Answer
        Whether the step follows from its premises.
    sums : bool
        Whether each of its derived sums follows from its own rules.
    """

    proof: Answer
    sums: bool

    @property
    def passed(self) -> bool:
        """Whether the step stands."""
        return self.sums and self.proof is Answer.PROVED


def audit_step(taken: WalkStep, work: float = WORK) -> Audit:
    """Audit one step.

    Parameters
    ----------
    taken : WalkStep
        The step, and the board on which it is taken: of that, only the digits open in the cells that
        the step looks at are used.
    work : float, optional
        Limit for the proof, in the solver's deterministic units.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from grader.walking.walk import walk
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3})
    >>> taken = walk(puzzle).steps[0]
    >>> audit_step(taken).passed
    True
    >>> audit_step(replace(taken, step=replace(taken.step, looks=()))).passed
    False
    """
    step, board = taken.step, taken.board
    return Audit(
        prove(premises_of(step, board), claims_of(step), work),
        all(follows_from_its_rules(derived, board) for derived in step.sums),
    )


def failed_audits(steps: Iterable[WalkStep], work: float = WORK) -> list[tuple[int, Audit]]:
    """Return the steps that do not pass, by their place in `steps`, counted from 1, with what was found."""
    audits = ((number, audit_step(taken, work)) for number, taken in enumerate(steps, start=1))
    return [(number, audit) for number, audit in audits if not audit.passed]


def cuttable(taken: WalkStep, work: float = WORK) -> tuple[Premise, ...]:
    """Return premises that a step cites and its proof does without, all of them at once.

    Parameters
    ----------
    taken : WalkStep
        A step that passes its audit.
    work : float, optional
        Limit for each proof, in the solver's deterministic units.

    Returns
    -------
    tuple of Premise
        Rules, and cells that need not be looked at.

    Notes
    -----
    By deletion: each premise is left out in turn, and stays out if the step is still proved; houses first,
    then cages, sums, and cells, each in the order cited. What is left is such that nothing more can be
    left out; in another order other premises may go (Chinneck and Dravnieks, ORSA Journal on Computing
    3(2), 1991, from memory).
    """
    told, claims = premises_of(taken.step, taken.board), claims_of(taken.step)
    cut: list[Premise] = []
    for premise in told:
        shorter = told.without(premise)
        if prove(shorter, claims, work) is Answer.PROVED:
            told = shorter
            cut.append(premise)
    return tuple(cut)
