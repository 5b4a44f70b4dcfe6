"""The verdict on one puzzle: arithmetic, witnesses, grade, house style."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from verifier.evidence.establish import Evidence, establish
from verifier.evidence.statements import ARITHMETIC, WitnessSays
from verifier.evidence.witnesses import Witnesses
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.checking.arithmetic import Check, arithmetic_checks, solution_check
from verifier.puzzle.checking.run_checks import run_total_checks
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally
from verifier.verdict import wording
from verifier.verdict.hardness import Graded, graded
from verifier.verdict.remarks import remarks_on
from verifier.verdict.style.checks import style_checks
from verifier.verdict.style.style import PLAIN, HouseStyle
from verifier.verdict.verdict import (
    Identity,
    Reason,
    Solutions,
    Verdict,
    VerdictState,
)
from verifier.verdict.versions import made_by

__all__ = ["DEFAULT_SETTINGS", "Settings", "identity_of", "judge", "lost"]

LEAST_LIMIT = 2
"""Counting fewer solutions than this cannot tell one from several."""


@dataclass(frozen=True, slots=True)
class Settings:
    """How a puzzle is judged.

    Parameters
    ----------
    limit : int
        How many solutions are counted at most.
    seconds : float
        Guard on the wall clock, for each puzzle. Work has limits of its own that are the same on every
        machine; this one is for a machine that is overloaded.
    witnesses : Witnesses
        Who is asked.

    Raises
    ------
    ValueError
        If `limit` is less than `LEAST_LIMIT`.
    """

    limit: int = LEAST_LIMIT
    seconds: float = 300.0
    witnesses: Witnesses = field(default_factory=Witnesses.real)

    def __post_init__(self) -> None:
        if self.limit < LEAST_LIMIT:
            raise ValueError(f"limit {self.limit}: at least {LEAST_LIMIT} solutions must be counted")


DEFAULT_SETTINGS = Settings()
"""The real witnesses, two solutions, five minutes."""


def judge(puzzle: Puzzle, style: HouseStyle = PLAIN, settings: Settings = DEFAULT_SETTINGS) -> Verdict:
    """Return the verdict on a puzzle.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    style : HouseStyle, optional
        The publisher's rules; `PLAIN` takes every sound puzzle.
    settings : Settings, optional
        Limits and witnesses.

    Returns
    -------
    Verdict
        Accepted only where two witnesses proved exactly one solution and no rule speaks against it. The
        same for the same puzzle, style, settings and versions.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> verdict = judge(make_puzzle("classic", Grid.square(4), givens={0: 1}))
    >>> verdict.state.value, verdict.reasons[0].code, verdict.solutions.count
    ('rejected', 'several-solutions', 2)
    """
    arithmetic = arithmetic_checks(puzzle)
    if all(check.passed for check in arithmetic):
        allowance = WorkAllowance(seconds=settings.seconds, techniques=style.techniques_to_grade_with())
        evidence = establish(puzzle, settings.limit, allowance, settings.witnesses)
    else:
        evidence = Evidence(0, True, (), (WitnessSays(ARITHMETIC, 0),), ())
    grade = graded(evidence.replay, style) if evidence.sound else None
    ungraded = evidence.sound and grade is None
    difficulty = grade and grade.difficulty
    checks = (
        *arithmetic,
        *run_total_checks(puzzle),
        *evidence.checks,
        *_claim_checks(puzzle, evidence),
        *_grade_checks(grade, ungraded=ungraded),
        *style_checks(style, puzzle, difficulty),
    )
    reasons = tuple(Reason(check.code, check.says) for check in checks if not check.passed)
    return Verdict(
        state=_state(reasons, undecided=ungraded or not evidence.decided),
        reasons=reasons,
        puzzle=identity_of(puzzle),
        solutions=_solutions(puzzle.grid, evidence),
        witnesses=evidence.witnesses,
        difficulty=difficulty,
        checks=checks,
        made_by=made_by(style),
        remarks=tuple(remarks_on(puzzle, style)),
        provisional=evidence.provisional or ungraded,
    )


def lost(puzzle: Identity, style: HouseStyle = PLAIN, says: str | None = None) -> Verdict:
    """Return the verdict on a puzzle whose worker process died twice: undecided, to be tried again.

    Parameters
    ----------
    puzzle : Identity
        Which puzzle it is.
    style : HouseStyle, optional
        The publisher's rules, none of which could be looked at.
    says : str, optional
        How the process came to its end.
    """
    check = Check("worker-lost", False, says or wording.WORKER_LOST)
    return Verdict(
        state=VerdictState.UNDECIDED,
        reasons=(Reason(check.code, check.says),),
        puzzle=puzzle,
        solutions=Solutions(None, complete=False),
        witnesses=(),
        difficulty=None,
        checks=(check,),
        made_by=made_by(style),
        provisional=True,
    )


def _state(reasons: tuple[Reason, ...], *, undecided: bool) -> VerdictState:
    if undecided:
        return VerdictState.UNDECIDED
    return VerdictState.REJECTED if reasons else VerdictState.ACCEPTED


def _grade_checks(grade: Graded | None, *, ungraded: bool) -> Iterator[Check]:
    if ungraded:
        yield Check("limit-reached", False, wording.NOT_GRADED)
    if grade is not None:
        yield Check("graded" if grade.difficulty.beyond is None else "graded-in-part", True, grade.says)


def _claim_checks(puzzle: Puzzle, evidence: Evidence) -> Iterator[Check]:
    """Yield what is to be said of the file's own solution: held against the proved one, or the rules."""
    claimed = puzzle.solution
    if claimed is not None and evidence.sound and claimed != evidence.solutions[0]:
        pairs = enumerate(zip(claimed, evidence.solutions[0], strict=True))
        differing = [cell for cell, (claim, proved) in pairs if claim != proved]
        yield Check("solution-differs", False, wording.claimed_differs(puzzle.grid, differing))
        return
    check = solution_check(puzzle)
    if check is not None:
        yield check


def identity_of(puzzle: Puzzle) -> Identity:
    """Return which puzzle it is, as a verdict names it."""
    names = puzzle.credits
    return Identity(
        names.id,
        names.title,
        names.setter,
        puzzle.kind,
        puzzle.grid.name,
        puzzle.content,
        puzzle.kinds_of_rules,
    )


def _solutions(grid: Grid, evidence: Evidence) -> Solutions:
    several = len(evidence.solutions) > 1
    swing = Tally("", evidence.solutions, Stop.ASKED).swing_cells if several else ()
    return Solutions(
        count=evidence.count,
        complete=evidence.complete,
        grid=tuple(grid.rows_of(evidence.solutions[0])) if evidence.sound else None,
        examples=tuple(tuple(grid.rows_of(filling)) for filling in evidence.solutions[:2]) if several else (),
        swing_cells=tuple(grid.cell_name(cell) for cell in swing),
    )
