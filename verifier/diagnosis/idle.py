"""Idle cages and givens: those that a sound puzzle can do without."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from verifier.diagnosis import wording
from verifier.diagnosis.clues import clues_of, facts_of
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.repairs.proof import Proof, prove
from verifier.diagnosis.search import Stage
from verifier.diagnosis.search_budget import OutOfBudgetError, SearchBudget
from verifier.diagnosis.several.hitting_sets import smallest_hitting_set
from verifier.puzzle.all_marked import marked_anew
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.rule import Rule

__all__ = ["idle_findings", "idle_rules", "idle_together"]

_FRESH = 20
"""Further fillings that are looked for at a time."""


def idle_rules(puzzle: Puzzle, budget: SearchBudget) -> Iterator[tuple[Rule, Proof]]:
    """Yield each cage and given that can go without the others, with the proof of what is left.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent; what was yielded before stands.
    """
    for clue in clues_of(puzzle):
        if puzzle.kind == KAKURO and clue.is_cage:
            continue  # a run without its total is no run to print
        proof = prove(marked_anew(puzzle.changed([clue])), budget)
        if proof is not None:
            yield clue, proof


def idle_together(
    puzzle: Puzzle, idle: Sequence[Rule], solution: Filling, budget: SearchBudget
) -> tuple[tuple[Rule, ...], Proof]:
    """Return the largest set found of idle rules that can all go at once, and the proof of what is left.

    Parameters
    ----------
    puzzle : Puzzle
        With exactly one solution.
    idle : sequence of Rule
        Those that can go one at a time, at least one.
    solution : Filling
        The solution of the puzzle.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent.

    Notes
    -----
    Rules are taken out one after the other as long as one solution is left, in a few different orders.
    Then the rules that have to stay are looked for: each other filling that is let in breaks some idle
    rules, and one of them has to stay. A smallest set that is enough for all fillings seen so far is a
    smallest one for good when it lets in no other.
    """
    best = max((_one_by_one(puzzle, order(idle), budget) for order in _ORDERS), key=len)
    larger = _all_but_fewest(puzzle, idle, solution, len(best), budget)
    together = tuple(rule for rule in idle if rule in (larger or best))
    while True:
        proof = prove(marked_anew(puzzle.changed(together)), budget)
        if proof is not None:
            return together, proof
        together = together[:-1]  # the second witness could not follow so far


def _one_by_one(puzzle: Puzzle, rules: Sequence[Rule], budget: SearchBudget) -> list[Rule]:
    """Return the rules that can go, taken out in order as long as one solution is left."""
    gone: list[Rule] = []
    for rule in rules:
        left = budget.count(puzzle.changed([*gone, rule]))
        if left.complete and left.count == 1:
            gone.append(rule)
    return gone


def _all_but_fewest(
    puzzle: Puzzle, idle: Sequence[Rule], solution: Filling, beaten: int, budget: SearchBudget
) -> list[Rule]:
    """Return all idle rules but the fewest that have to stay; none if that is no more than `beaten`."""
    broken: list[set[int]] = []
    enough = budget.left / 2
    staying: set[int] = set()
    while len(idle) - len(staying) > beaten and budget.left > enough:
        gone = [rule for number, rule in enumerate(idle) if number not in staying]
        left = budget.count(puzzle.changed(gone), _FRESH)
        others = [filling for filling in left.solutions if filling != solution]
        if not others:
            return gone if left.complete else []
        broken += [{n for n, rule in enumerate(idle) if not rule.holds(filling)} for filling in others]
        staying, _ = smallest_hitting_set(broken, budget)
    return []


_ORDERS: tuple[Callable[[Sequence[Rule]], Sequence[Rule]], ...] = (
    list,
    lambda rules: list(reversed(rules)),
    lambda rules: sorted(rules, key=lambda rule: len(rule.cells)),
    lambda rules: sorted(rules, key=lambda rule: -len(rule.cells)),
)


def idle_findings(puzzle: Puzzle, budget: SearchBudget) -> tuple[Finding, ...]:
    """Return what a sound puzzle can do without, and what that does to its tier.

    Returns
    -------
    tuple of Finding
        One for each tier that the puzzle can have without one of its rules; what can go together; and
        whether the budget was spent before all was tried.
    """
    idle: list[tuple[Rule, Proof]] = []
    findings: list[Finding] = []
    try:
        before = prove(puzzle, budget)
        if before is None:
            return (Finding("unknown", wording.UNKNOWN),)
    except OutOfBudgetError:
        return (_not_looked_at(),)
    try:
        idle.extend(idle_rules(puzzle, budget))
        rules = [rule for rule, _ in idle]
        if len(rules) > 1:
            together, after = idle_together(puzzle, rules, before.solution, budget)
            says = wording.idle_together(puzzle.grid, together, len(rules), after)
            findings.append(Finding("idle-together", says, _facts(puzzle, together, after)))
    except OutOfBudgetError:
        findings.append(_not_looked_at())
    return (*_one_at_a_time(puzzle, idle, before), *findings)


def _not_looked_at() -> Finding:
    looks = [Stage.IDLE.value]
    return Finding("cut-short", wording.cut_short(looks), {"not_looked_at": looks})


def _one_at_a_time(puzzle: Puzzle, idle: Sequence[tuple[Rule, Proof]], before: Proof) -> Iterator[Finding]:
    """Yield the rules that can go, those that leave the same tier together."""
    if not idle:
        says = wording.NO_GIVEN_IDLE if puzzle.kind == KAKURO else wording.NONE_IDLE
        yield Finding("none-idle", says)
    for tier in sorted({after.tier for _, after in idle}):
        alike = [(rule, after) for rule, after in idle if after.tier == tier]
        rules = [rule for rule, _ in alike]
        says = wording.idle(puzzle.grid, rules, alike[0][1], before)
        yield Finding("idle", says, _facts(puzzle, rules, alike[0][1]))


def _facts(puzzle: Puzzle, rules: Sequence[Rule], after: Proof) -> dict[str, Any]:
    return {**facts_of(puzzle.grid, rules), "tier": after.tier}
