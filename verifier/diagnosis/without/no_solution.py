"""A puzzle without a solution: the conflict in the fewest words, and what a repair can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress

from grader.words.narrate import tell
from verifier.diagnosis import wording
from verifier.diagnosis.clues import facts_of
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.repairs.blocked_cells import block_changes
from verifier.diagnosis.repairs.cells import cell_exchanges, moves
from verifier.diagnosis.repairs.mends import Mend
from verifier.diagnosis.repairs.slips import exchanges, pairs, total_and_given, values
from verifier.diagnosis.repairs.sorts_of_cages import sorts
from verifier.diagnosis.search import Stage
from verifier.diagnosis.search_budget import OutOfBudgetError, SearchBudget
from verifier.diagnosis.several.redrawn_cages import parted
from verifier.diagnosis.without.conflicts import Conflict, nearest_first, only, possible, shrunk
from verifier.diagnosis.without.imbalances import Comparison, imbalances
from verifier.diagnosis.without.refutations import Refutation, refutations
from verifier.diagnosis.without.suspects import Suspects
from verifier.puzzle.puzzle import Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.rule import Rule

__all__ = ["conflict_findings", "smallest_conflict", "stages", "suspect_finding"]

_SMALL = 8
"""A conflict of so few rules is told as it is; a larger one is worth looking for a smaller."""
_MOST_IMBALANCES = 4
_MOST_SUSPECTS = 6
_SHARE = 0.1
"""The share of the budget that may go into looking for a smaller conflict."""


def conflict_findings(puzzle: Puzzle, suspects: Suspects, budget: SearchBudget) -> Iterator[Finding]:
    """Yield the conflicts of a puzzle without a solution: by arithmetic first, then by search.

    A conflict by search is left out where an arithmetic one is as small.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent; what was yielded before stands.
    """
    simplest = None
    for imbalance in imbalances(puzzle)[:_MOST_IMBALANCES]:
        if imbalance.compared is Comparison.ACROSS or _needed(puzzle, imbalance.rules, budget):
            simplest = imbalance
            yield Finding(
                "arithmetic",
                wording.imbalance(puzzle.grid, imbalance),
                facts_of(puzzle.grid, imbalance.rules),
            )
            break
    if simplest is None or len(simplest.rules) > _SMALL:
        found = smallest_conflict(puzzle, suspects, budget)
        if simplest is None or len(found.rules) < len(simplest.rules):
            yield _told(puzzle, found, budget)


def _needed(puzzle: Puzzle, rules: Sequence[Rule], budget: SearchBudget) -> bool:
    """Whether the others can be met without any one of the rules."""
    return all(possible(puzzle, [p for p in rules if p != rule], budget) for rule in rules)


def smallest_conflict(puzzle: Puzzle, suspects: Suspects, budget: SearchBudget) -> Conflict:
    """Return the smallest conflict that can be found within a share of the budget.

    Parameters
    ----------
    puzzle : Puzzle
        Without a solution.
    suspects : Suspects
        Its first conflict is where the search begins.

    Notes
    -----
    What is needed with all houses is needed with fewer, so of the first conflict only the houses have to be
    looked through. If the result is large, two other starts are tried: a refutation by the replay, since what
    a person needs is little; and all rules in the order of their distance from one that is wrong alone,
    since every conflict contains such a rule.
    """
    first = suspects.first
    with (
        budget.share(_SHARE) as lent,
        suppress(OutOfBudgetError),
    ):  # the best so far is a conflict all the same
        houses = shrunk(puzzle, puzzle.houses, lent, fixed=first.rules)
        best = Conflict((*houses.rules, *first.rules), houses.minimal and first.minimal)
        for start in _other_starts(puzzle, suspects, lent):
            if len(best.rules) > _SMALL:
                best = min(best, shrunk(puzzle, start, lent), key=lambda conflict: len(conflict.rules))
    return best


def _other_starts(puzzle: Puzzle, suspects: Suspects, budget: SearchBudget) -> Iterator[list[Rule]]:
    for refutation in refutations(puzzle, budget)[:1]:
        yield [rule for rule in puzzle.rules if rule in refutation.rules]
    for seed in suspects.alone()[:1]:
        yield nearest_first(puzzle, puzzle.rules, seed)


def _told(puzzle: Puzzle, found: Conflict, budget: SearchBudget) -> Finding:
    """Return the finding for a conflict, with the steps of the ladder that show it."""
    says = wording.conflict(puzzle.grid, found.rules, minimal=found.minimal)
    facts = facts_of(puzzle.grid, found.rules)
    for refutation in refutations(only(puzzle, found.rules), budget)[:1]:
        if refutation.steps:
            facts["steps"] = _steps(refutation)
    return Finding("conflict", says, facts)


def _steps(refutation: Refutation) -> list[str]:
    """Return the steps in words, with the contradiction as the last of them."""
    layout, end = refutation.board.layout, refutation.end
    *told, told_last = (tell(step, layout) for step in refutation.steps)
    last = refutation.steps[-1]
    cages = layout.cages_among(last.rules)
    if last.technique == "cage-combinations" and not last.digits and cages:
        return [*told, wording.no_combination(layout.grid, layout.cage(cages[0]))]
    evidence = told_last.rpartition(": ")[0] or told_last.rpartition("; ")[0]
    if evidence and end.cell is not None and end.cell in dict(last.removes):
        return [*told, wording.nothing_left(evidence, layout.grid, end.cell)]
    return [*told, told_last, wording.contradiction(layout.grid, end)]


def suspect_finding(puzzle: Puzzle, suspects: Suspects) -> Iterator[Finding]:
    """Yield which cages and givens can be at fault alone, if they are few."""
    alone = suspects.alone()
    if 1 <= len(alone) <= _MOST_SUSPECTS:
        yield Finding("suspects", wording.suspects(puzzle.grid, alone), facts_of(puzzle.grid, alone))


def stages(
    puzzle: Puzzle, suspects: Suspects, budget: SearchBudget, found: Sequence[Mend]
) -> list[tuple[Stage, Iterator[Mend]]]:
    """Return the stages of the search for repairs of a puzzle without a solution.

    Single changes first. Two cells that changed places are looked for only where no slip that shows was
    found, two wrong totals or givens only where nothing was: `found` is looked at when their turn comes.
    """
    return [
        (Stage.VALUES, _values(puzzle, suspects, budget)),
        (Stage.SORTS, sorts(puzzle, suspects.allow, budget)),
        (Stage.EXCHANGES, exchanges(puzzle, suspects.allow, budget)),
        (Stage.MOVES, moves(puzzle, suspects.allow, budget)),
        (Stage.BLOCKED, block_changes(puzzle, suspects.allow, budget)),
        (Stage.PARTED, parted(puzzle, budget)),
        (Stage.CELLS, _cells(puzzle, suspects, budget, found)),
        (Stage.PAIRS, _pairs(puzzle, suspects, budget, found)),
    ]


def _values(puzzle: Puzzle, suspects: Suspects, budget: SearchBudget) -> Iterator[Mend]:
    for clue in suspects.alone():
        yield from values(puzzle, clue, budget)


def _cells(puzzle: Puzzle, suspects: Suspects, budget: SearchBudget, found: Sequence[Mend]) -> Iterator[Mend]:
    if not any(mend.shows for mend in found):
        yield from cell_exchanges(puzzle, suspects.allow, budget)


def _pairs(puzzle: Puzzle, suspects: Suspects, budget: SearchBudget, found: Sequence[Mend]) -> Iterator[Mend]:
    if found:
        return
    for cage in rules_of(suspects.alone(), Cage):
        yield from total_and_given(puzzle, cage, budget)
    yield from pairs(puzzle, suspects.allow, budget)
