"""The diagnosis of a puzzle: how many solutions, what is wrong, what would put it right."""

from __future__ import annotations

from contextlib import suppress

from verifier.diagnosis import wording
from verifier.diagnosis.chains import chains_in
from verifier.diagnosis.findings import Diagnosis, Finding, State
from verifier.diagnosis.mends import Mend
from verifier.diagnosis.no_solution import conflict_findings, find_mends, in_order, suspect_finding
from verifier.diagnosis.proof import Proof, prove
from verifier.diagnosis.purse import DEFAULT_SECONDS, OutOfBudgetError, Purse
from verifier.diagnosis.several_solutions import Repairs, swing_findings
from verifier.diagnosis.slips import claimed
from verifier.diagnosis.suspects import Suspects
from verifier.puzzle.arithmetic import arithmetic_checks
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally
from verifier.recount.recount import Budget, recount_solutions

__all__ = ["MOST_COUNTED", "diagnose"]

MOST_COUNTED = 1000
"""Solutions are counted exactly up to this number."""

_COUNTING_SHARE = 0.4
"""The share of the budget that may go into counting the solutions."""


def diagnose(puzzle: Puzzle, seconds: float = DEFAULT_SECONDS, limit: int = MOST_COUNTED) -> Diagnosis:
    """Say what is wrong with a puzzle, and find repairs that are proved to work.

    Parameters
    ----------
    puzzle : Puzzle
        Any puzzle.
    seconds : float, optional
        The budget, in deterministic units that are roughly seconds.
    limit : int, optional
        Solutions are counted exactly up to this number, at least 2.

    Returns
    -------
    Diagnosis
        The same for the same puzzle, budget and versions, on any machine that is not overloaded.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.parts import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> cages = [Cage((0, 1), 3), Cage((2, 3), 6), Cage((3 + 4,), 3), Cage((8, 12), 6)]
    >>> found = diagnose(make_puzzle("killer", Grid.square(4), cages=cages))
    >>> print(found.findings[1].says)
    Row 1 adds up to 10, but its cages (3 at r1c1 and 6 at r1c3) to 9: 1 too few.
    """
    purse = Purse(seconds)
    tally = _tally(puzzle, purse, seconds, limit)
    if tally.count > 1:
        return _several(puzzle, tally, purse)
    if tally.complete and tally.count == 0:
        return _none(puzzle, purse)
    proof = prove(puzzle, purse) if tally.complete else None
    return _unknown(puzzle) if proof is None else _one(puzzle, proof, purse)


def _tally(puzzle: Puzzle, purse: Purse, seconds: float, limit: int) -> Tally:
    """Count the solutions. Where the count finds none, arithmetic or a second count must find none either."""
    if not all(check.passed for check in arithmetic_checks(puzzle)):
        return Tally("arithmetic", (), Stop.FINISHED)
    tally = purse.count(puzzle, limit, most=_COUNTING_SHARE * seconds)
    if tally.complete and tally.count == 0 and not chains_in(puzzle, purse):
        return recount_solutions(puzzle, limit, Budget(seconds=seconds))
    return tally


def _unknown(puzzle: Puzzle) -> Diagnosis:
    return Diagnosis(puzzle, State.UNKNOWN, (Finding("unknown", wording.UNKNOWN),), (), cut_short=True)


def _none(puzzle: Puzzle, purse: Purse) -> Diagnosis:
    findings = [Finding("no-solution", wording.NO_SOLUTION)]
    mends: list[Mend] = []
    cut_short = False
    try:
        mends.extend(claimed(puzzle, purse))
        suspects = Suspects(puzzle, purse)
        findings.extend(conflict_findings(puzzle, suspects, purse))  # stays if the budget runs out later
        findings.extend(suspect_finding(puzzle, suspects.alone()))
        mends.extend(find_mends(puzzle, suspects, purse, pairs_too=not mends))
    except OutOfBudgetError:
        cut_short = True
    return _ended(puzzle, State.NONE, findings, in_order(mends), cut_short=cut_short)


def _several(puzzle: Puzzle, tally: Tally, purse: Purse) -> Diagnosis:
    findings = list(swing_findings(puzzle, tally))
    repairs = Repairs(puzzle, tally, purse)
    findings += repairs.findings
    return _ended(puzzle, State.SEVERAL, findings, repairs.ranked(), cut_short=repairs.cut_short)


def _one(puzzle: Puzzle, proof: Proof, purse: Purse) -> Diagnosis:
    """Look at a sound puzzle: it has nothing to mend, unless the file claims another solution."""
    claim = puzzle.solution
    if claim is None or claim == proof.solution:
        return Diagnosis(puzzle, State.ONE, (Finding("sound", wording.SOUND),), ())
    says = wording.solution_differs(puzzle.grid, claim, proof.solution)
    mends: list[Mend] = []
    with suppress(OutOfBudgetError):
        mends.extend(claimed(puzzle, purse))
    return Diagnosis(puzzle, State.ONE, (Finding("solution-differs", says),), tuple(mends))


def _ended(
    puzzle: Puzzle, state: State, findings: list[Finding], mends: tuple[Mend, ...], *, cut_short: bool
) -> Diagnosis:
    if not mends:
        findings = [*findings, Finding("no-repair", wording.NO_REPAIR)]
    if cut_short:
        findings = [*findings, Finding("cut-short", wording.CUT_SHORT)]
    return Diagnosis(puzzle, state, tuple(findings), mends, cut_short)
