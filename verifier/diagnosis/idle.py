"""Idle cages and givens: those that a sound puzzle can do without."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from verifier.diagnosis import wording
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.parts import Part, cells_of, facts_of, parts_of, without
from verifier.diagnosis.purse import OutOfBudgetError, Purse
from verifier.diagnosis.repairs.proof import Proof, prove
from verifier.diagnosis.search import Look
from verifier.diagnosis.several.hitting import smallest_hitting_set
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.house import House

__all__ = ["idle_findings", "idle_parts", "idle_together"]

_FRESH = 20
"""Further fillings that are looked for at a time."""


def idle_parts(puzzle: Puzzle, purse: Purse) -> Iterator[tuple[Part, Proof]]:
    """Yield each cage and given that can go without the others, with the proof of what is left.

    Parameters
    ----------
    puzzle : Puzzle
        With exactly one solution.
    purse : Purse
        Pays for the proofs.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent; what was yielded before stands.
    """
    for part in parts_of(puzzle):
        if not isinstance(part, House):
            proof = prove(without(puzzle, [part]), purse)
            if proof is not None:
                yield part, proof


def idle_together(
    puzzle: Puzzle, idle: Sequence[Part], solution: Filling, purse: Purse
) -> tuple[tuple[Part, ...], Proof]:
    """Return the largest set found of idle parts that can all go at once, and the proof of what is left.

    Parameters
    ----------
    puzzle : Puzzle
        With exactly one solution.
    idle : sequence of Part
        Parts that can go one at a time, at least one.
    solution : Filling
        The solution of the puzzle.
    purse : Purse
        Pays for it.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent.

    Notes
    -----
    Parts are taken out one after the other as long as one solution is left, in a few different orders.
    Then the parts that have to stay are looked for: each other filling that is let in breaks some idle
    parts, and one of them has to stay. A smallest set that is enough for all fillings seen so far is a
    smallest one for good when it lets in no other.
    """
    best = max((_one_by_one(puzzle, order(idle), purse) for order in _ORDERS), key=len)
    larger = _all_but_fewest(puzzle, idle, solution, len(best), purse)
    together = tuple(part for part in idle if part in (larger or best))
    while True:
        proof = prove(without(puzzle, together), purse)
        if proof is not None:
            return together, proof
        together = together[:-1]  # the second witness could not follow so far


def _one_by_one(puzzle: Puzzle, parts: Sequence[Part], purse: Purse) -> list[Part]:
    """Return the parts that can go, taken out in order as long as one solution is left."""
    gone: list[Part] = []
    for part in parts:
        left = purse.count(without(puzzle, [*gone, part]))
        if left.complete and left.count == 1:
            gone.append(part)
    return gone


def _all_but_fewest(
    puzzle: Puzzle, idle: Sequence[Part], solution: Filling, beaten: int, purse: Purse
) -> list[Part]:
    """Return all idle parts but the fewest that have to stay; none if that is no more than `beaten`."""
    broken: list[set[int]] = []
    enough = purse.left / 2
    staying: set[int] = set()
    while len(idle) - len(staying) > beaten and purse.left > enough:
        gone = [part for number, part in enumerate(idle) if number not in staying]
        left = purse.count(without(puzzle, gone), _FRESH)
        others = [filling for filling in left.solutions if filling != solution]
        if not others:
            return gone if left.complete else []
        broken += [{n for n, part in enumerate(idle) if not part.holds(filling)} for filling in others]
        staying, _ = smallest_hitting_set(broken, purse)
    return []


_ORDERS: tuple[Callable[[Sequence[Part]], Sequence[Part]], ...] = (
    list,
    lambda parts: list(reversed(parts)),
    lambda parts: sorted(parts, key=lambda part: len(cells_of(part))),
    lambda parts: sorted(parts, key=lambda part: -len(cells_of(part))),
)


def idle_findings(puzzle: Puzzle, purse: Purse) -> tuple[Finding, ...]:
    """Return what a sound puzzle can do without, and what that does to its tier.

    Parameters
    ----------
    puzzle : Puzzle
        With exactly one solution.
    purse : Purse
        Pays for it.

    Returns
    -------
    tuple of Finding
        One for each tier that the puzzle can have without one of its parts; what can go together; and
        whether the budget was spent before all was tried.
    """
    idle: list[tuple[Part, Proof]] = []
    findings: list[Finding] = []
    try:
        before = prove(puzzle, purse)
        if before is None:
            return (Finding("unknown", wording.UNKNOWN),)
    except OutOfBudgetError:
        return (_not_looked_at(),)
    try:
        idle.extend(idle_parts(puzzle, purse))
        parts = [part for part, _ in idle]
        if len(parts) > 1:
            together, after = idle_together(puzzle, parts, before.solution, purse)
            says = wording.idle_together(puzzle.grid, together, len(parts), after)
            findings.append(Finding("idle-together", says, _facts(puzzle, together, after)))
    except OutOfBudgetError:
        findings.append(_not_looked_at())
    return (*_one_at_a_time(puzzle, idle, before), *findings)


def _not_looked_at() -> Finding:
    looks = [Look.IDLE.value]
    return Finding("cut-short", wording.cut_short(looks), {"not_looked_at": looks})


def _one_at_a_time(puzzle: Puzzle, idle: Sequence[tuple[Part, Proof]], before: Proof) -> Iterator[Finding]:
    """Yield the parts that can go, those that leave the same tier together."""
    if not idle:
        yield Finding("none-idle", wording.NONE_IDLE)
    for tier in sorted({after.tier for _, after in idle}):
        alike = [(part, after) for part, after in idle if after.tier == tier]
        parts = [part for part, _ in alike]
        says = wording.idle(puzzle.grid, parts, alike[0][1], before)
        yield Finding("idle", says, _facts(puzzle, parts, alike[0][1]))


def _facts(puzzle: Puzzle, parts: Sequence[Part], after: Proof) -> dict[str, Any]:
    return {**facts_of(puzzle.grid, parts), "tier": after.tier}
