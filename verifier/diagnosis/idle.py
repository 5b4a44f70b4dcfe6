"""Idle cages and givens: those that a sound puzzle can do without."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from verifier.diagnosis import wording
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.parts import Part, cells_of, facts_of, parts_of, without
from verifier.diagnosis.proof import Proof, prove
from verifier.diagnosis.purse import Purse
from verifier.puzzle.parts import House
from verifier.puzzle.puzzle import Puzzle

__all__ = ["idle_findings", "idle_parts", "idle_together"]


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


def idle_together(puzzle: Puzzle, idle: Sequence[Part], purse: Purse) -> tuple[tuple[Part, ...], Proof]:
    """Return the largest set found of idle parts that can all go at once, and the proof of what is left.

    Parts are taken out one after the other as long as one solution is left, in a few different orders:
    what can go depends on what has gone.

    Parameters
    ----------
    puzzle : Puzzle
        With exactly one solution.
    idle : sequence of Part
        Parts that can go one at a time, at least one.
    purse : Purse
        Pays for it.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent.
    """
    best: tuple[Part, ...] = ()
    for order in _ORDERS:
        gone: list[Part] = []
        for part in order(idle):
            left = purse.count(without(puzzle, [*gone, part]))
            if left.complete and left.count == 1:
                gone.append(part)
        best = max(best, tuple(part for part in idle if part in gone), key=len)
    while True:
        proof = prove(without(puzzle, best), purse)
        if proof is not None:
            return best, proof
        best = best[:-1]  # the second witness could not follow so far


_ORDERS: tuple[Callable[[Sequence[Part]], Sequence[Part]], ...] = (
    list,
    lambda parts: list(reversed(parts)),
    lambda parts: sorted(parts, key=lambda part: len(cells_of(part))),
    lambda parts: sorted(parts, key=lambda part: -len(cells_of(part))),
)


def idle_findings(puzzle: Puzzle, purse: Purse) -> Iterator[Finding]:
    """Yield what a sound puzzle can do without, and what that does to its tier.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent; what was yielded before stands.
    """
    before = prove(puzzle, purse)
    if before is None:
        return
    idle: list[Part] = []
    for part, after in idle_parts(puzzle, purse):
        idle.append(part)
        says = wording.idle(puzzle.grid, part, before, after)
        yield Finding("idle", says, _facts(puzzle, [part], after))
    if not idle:
        yield Finding("none-idle", wording.NONE_IDLE)
    if len(idle) > 1:
        together, after = idle_together(puzzle, idle, purse)
        says = wording.idle_together(puzzle.grid, together, len(idle), after)
        yield Finding("idle-together", says, _facts(puzzle, together, after))


def _facts(puzzle: Puzzle, parts: Sequence[Part], after: Proof) -> dict[str, Any]:
    return {**facts_of(puzzle.grid, parts), "tier": after.tier}
