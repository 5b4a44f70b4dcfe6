"""The diagnosis of a puzzle: how many solutions, what is wrong, what would put it right."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from itertools import chain

from verifier.diagnosis import wording
from verifier.diagnosis.findings import Diagnosis, Finding, SolutionCount
from verifier.diagnosis.idle import idle_findings
from verifier.diagnosis.repairs.mends import Mend, in_order
from verifier.diagnosis.repairs.proof import Proof, prove
from verifier.diagnosis.repairs.slips import claimed
from verifier.diagnosis.repairs.visible_slips import visible_slips, visible_slips_mended
from verifier.diagnosis.search import Stage, search_through
from verifier.diagnosis.search_budget import DEFAULT_SECONDS, OutOfBudgetError, SearchBudget
from verifier.diagnosis.several import several_solutions
from verifier.diagnosis.several.several_solutions import ranked, swing_findings
from verifier.diagnosis.without import no_solution
from verifier.diagnosis.without.no_solution import conflict_findings, suspect_finding
from verifier.diagnosis.without.suspects import Suspects
from verifier.evidence.establish import weigh
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.run_layout import runs_without_total
from verifier.puzzle.tally import Stop, Tally

__all__ = ["MOST_COUNTED", "diagnose"]

_Hear = Callable[[Finding | Mend], object]
"""Takes what is found as it is found."""

MOST_COUNTED = 1000
"""Solutions are counted exactly up to this number."""

_COUNTING_SHARE = 0.4
"""The share of the budget that may go into counting the solutions."""


def diagnose(
    puzzle: Puzzle,
    seconds: float = DEFAULT_SECONDS,
    limit: int = MOST_COUNTED,
    *,
    clock: float | None = None,
    idle: bool = False,
    heard: _Hear = lambda _: None,
) -> Diagnosis:
    """Say what is wrong with a puzzle, and find repairs that are proved to work.

    Parameters
    ----------
    puzzle : Puzzle
        Any puzzle.
    seconds : float, optional
        The budget, in deterministic units that are roughly seconds.
    limit : int, optional
        Solutions are counted exactly up to this number, at least 2.
    clock : float, optional
        Seconds of the wall clock that end the search at the latest, for those who promised an answer;
        where it does, the answer depends on the machine. A wide guard when absent.
    idle : bool, optional
        Whether to look for what a sound puzzle can do without.
    heard : callable, optional
        Called with what is found as it is found, for those who do not want to wait for the whole.

    Returns
    -------
    Diagnosis
        The same for the same puzzle, budget and versions, unless a clock ended it.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> cages = [Cage((0, 1), 3), Cage((2, 3), 6), Cage((3 + 4,), 3), Cage((8, 12), 6)]
    >>> found = diagnose(make_puzzle("killer", Grid.square(4), cages=cages))
    >>> print(found.findings[1].says)
    Row 1 adds up to 10, but its cages (3 at r1c1 and 6 at r1c3) to 9: 1 too few.
    """
    budget = SearchBudget(seconds, clock)
    try:
        tally = _counted(puzzle, budget, _COUNTING_SHARE * seconds, limit)
        proof = None if tally is None or tally.only_solution is None else prove(puzzle, budget)
    except OutOfBudgetError:
        return _unknown(puzzle)
    if tally is None:
        return _unknown(puzzle)
    if tally.count > 1:
        return _several(puzzle, tally, budget, heard)
    if tally.complete and tally.count == 0:
        return _none(puzzle, budget, heard)
    return _unknown(puzzle) if proof is None else _one(puzzle, proof, budget, idle=idle)


def _counted(puzzle: Puzzle, budget: SearchBudget, most: float, limit: int) -> Tally | None:
    """Count the solutions; None where the count finds none, and no other witness agrees with it."""
    if not all(check.passed for check in arithmetic_checks(puzzle)):
        return Tally("arithmetic", (), Stop.FINISHED)
    answers = budget.ask_witnesses(puzzle, limit, most)
    first = next(answers)
    if first.complete and not first.count and not weigh(puzzle, [first, *answers]).decided:
        return None
    return first


def _unknown(puzzle: Puzzle) -> Diagnosis:
    return Diagnosis(
        puzzle, SolutionCount.UNKNOWN, (Finding("unknown", wording.UNKNOWN),), (), cut_short=True
    )


def _none(puzzle: Puzzle, budget: SearchBudget, heard: _Hear) -> Diagnosis:
    suspects = Suspects(puzzle, budget)
    findings = [Finding("no-solution", wording.NO_SOLUTION), *visible_slips(puzzle)]
    mends: list[Mend] = []
    told = chain(conflict_findings(puzzle, suspects, budget), suspect_finding(puzzle, suspects))
    search: list[tuple[Stage, Iterable[Finding | Mend]]] = [
        (Stage.CLAIM, claimed(puzzle, budget)),
        (Stage.SEEN, visible_slips_mended(puzzle, budget)),
        (Stage.CONFLICT, told),
        *no_solution.stages(puzzle, suspects, budget, mends),
    ]
    not_looked_at = _search(puzzle, search, findings, mends, heard)
    return _ended(puzzle, SolutionCount.NONE, findings, in_order(mends), not_looked_at)


def _several(puzzle: Puzzle, tally: Tally, budget: SearchBudget, heard: _Hear) -> Diagnosis:
    findings = [*swing_findings(puzzle, tally, budget), *visible_slips(puzzle)]
    mends: list[Mend] = []
    stages = several_solutions.stages(puzzle, tally, budget)
    not_looked_at = _search(puzzle, stages, findings, mends, heard)
    return _ended(puzzle, SolutionCount.SEVERAL, findings, ranked(mends), not_looked_at)


def _search(
    puzzle: Puzzle,
    stages: Sequence[tuple[Stage, Iterable[Finding | Mend]]],
    findings: list[Finding],
    mends: list[Mend],
    heard: _Hear,
) -> tuple[Stage, ...]:
    """Go through the stages and add what they find as it is found; return what was not looked at."""

    def take(found: Finding | Mend) -> None:
        if isinstance(found, Mend):
            mends.append(found)
        else:
            findings.append(found)
        heard(found)

    return search_through(puzzle, stages, take)


def _one(puzzle: Puzzle, proof: Proof, budget: SearchBudget, *, idle: bool) -> Diagnosis:
    """Look at a sound puzzle: it has nothing to mend, unless it claims or looks like something else."""
    claim, mends = puzzle.solution, list[Mend]()
    if claim is None or claim == proof.solution:
        whole = not runs_without_total(puzzle)
        first = Finding("sound", wording.SOUND) if whole else Finding("not-whole", wording.NOT_WHOLE)
        findings = [first, *visible_slips(puzzle)]
        with suppress(OutOfBudgetError):
            mends.extend(visible_slips_mended(puzzle, budget))
        findings += idle_findings(puzzle, budget) if idle else ()
        return Diagnosis(puzzle, SolutionCount.ONE, tuple(findings), in_order(mends))
    says = wording.solution_differs(puzzle.grid, claim, proof.solution)
    with suppress(OutOfBudgetError):
        mends.extend(claimed(puzzle, budget))
    return Diagnosis(puzzle, SolutionCount.ONE, (Finding("solution-differs", says),), tuple(mends))


def _ended(
    puzzle: Puzzle,
    count: SolutionCount,
    findings: list[Finding],
    mends: tuple[Mend, ...],
    not_looked_at: Sequence[Stage],
) -> Diagnosis:
    if not mends:
        findings = [*findings, Finding("no-repair", wording.NO_REPAIR)]
    if not_looked_at:
        looks = [look.value for look in not_looked_at]
        findings = [*findings, Finding("cut-short", wording.cut_short(looks), {"not_looked_at": looks})]
    return Diagnosis(puzzle, count, tuple(findings), mends, cut_short=bool(not_looked_at))
