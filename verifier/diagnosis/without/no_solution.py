"""A puzzle without a solution: the conflict in the fewest words, and what a repair can be."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from contextlib import suppress

from grader.words.narrate import tell
from verifier.diagnosis import wording
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.parts import Given, Part, facts_of, only, parts_of
from verifier.diagnosis.purse import OutOfBudgetError, Purse
from verifier.diagnosis.repairs.cells import cell_exchanges, moves
from verifier.diagnosis.repairs.mends import Kind, Mend, nearness
from verifier.diagnosis.repairs.slips import exchanges, pairs, total_and_given, values
from verifier.diagnosis.search import Look
from verifier.diagnosis.several.recuts import parted
from verifier.diagnosis.without.balances import imbalances
from verifier.diagnosis.without.chains import Chain, chains_in
from verifier.diagnosis.without.conflicts import Conflict, nearest_first, possible, shrunk
from verifier.diagnosis.without.suspects import Suspects
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["conflict_findings", "in_order", "smallest_conflict", "stages", "suspect_finding"]

_SMALL = 8
"""A conflict of so few parts is told as it is; a larger one is worth looking for a smaller."""
_MOST_BALANCES = 4
_MOST_SUSPECTS = 6
_MOST_PAIRS = 10
_SHARE = 0.1
"""The share of the budget that may go into looking for a smaller conflict."""


def conflict_findings(puzzle: Puzzle, suspects: Suspects, purse: Purse) -> Iterator[Finding]:
    """Yield the conflicts of a puzzle without a solution: by arithmetic first, then by search.

    A conflict by search is left out where an arithmetic one is as small.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent; what was yielded before stands.
    """
    simplest = None
    for balance in imbalances(puzzle)[:_MOST_BALANCES]:
        if _needed(puzzle, balance.parts, purse):
            simplest = balance
            yield Finding(
                "arithmetic", wording.imbalance(puzzle.grid, balance), facts_of(puzzle.grid, balance.parts)
            )
            break
    if simplest is None or len(simplest.parts) > _SMALL:
        found = smallest_conflict(puzzle, suspects, purse)
        if simplest is None or len(found.parts) < len(simplest.parts):
            yield _told(puzzle, found, purse)


def _needed(puzzle: Puzzle, parts: Sequence[Part], purse: Purse) -> bool:
    """Whether the others can be met without any one of the parts."""
    return all(possible(puzzle, [p for p in parts if p != part], purse) for part in parts)


def smallest_conflict(puzzle: Puzzle, suspects: Suspects, purse: Purse) -> Conflict:
    """Return the smallest conflict that can be found within a share of the budget.

    Parameters
    ----------
    puzzle : Puzzle
        Without a solution.
    suspects : Suspects
        Its first conflict is where the search begins.
    purse : Purse
        Pays for it.

    Notes
    -----
    What is needed with all houses is needed with fewer, so of the first conflict only the houses have to be
    looked through. If the result is large, two other starts are tried: a chain of the replay, since what
    a person needs is little; and all parts in the order of their distance from one that is wrong alone,
    since every conflict contains such a part.
    """
    first = suspects.first
    with (
        purse.share(_SHARE) as lent,
        suppress(OutOfBudgetError),
    ):  # the best so far is a conflict all the same
        houses = shrunk(puzzle, puzzle.houses, lent, fixed=first.parts)
        best = Conflict((*houses.parts, *first.parts), houses.minimal and first.minimal)
        for start in _other_starts(puzzle, suspects, lent):
            if len(best.parts) > _SMALL:
                best = min(best, shrunk(puzzle, start, lent), key=lambda conflict: len(conflict.parts))
    return best


def _other_starts(puzzle: Puzzle, suspects: Suspects, purse: Purse) -> Iterator[list[Part]]:
    for chain in chains_in(puzzle, purse)[:1]:
        yield _in_puzzle_order(puzzle, chain.parts)
    for seed in suspects.alone()[:1]:
        yield nearest_first(puzzle, parts_of(puzzle), seed)


def _in_puzzle_order(puzzle: Puzzle, parts: Collection[Part]) -> list[Part]:
    return [part for part in parts_of(puzzle) if part in parts]


def _told(puzzle: Puzzle, found: Conflict, purse: Purse) -> Finding:
    """Return the finding for a conflict, with the steps of the ladder that show it."""
    says = wording.conflict(puzzle.grid, found.parts, minimal=found.minimal)
    facts = facts_of(puzzle.grid, found.parts)
    chains = chains_in(only(puzzle, found.parts), purse)
    if chains and chains[0].steps:
        facts["steps"] = _steps(chains[0])
    return Finding("conflict", says, facts)


def _steps(chain: Chain) -> list[str]:
    """Return the steps in words, with the contradiction as the last of them."""
    *steps, last = chain.steps
    told = [tell(step, chain.layout) for step in steps]
    if last.technique == "cage-combinations" and not last.digits and chain.layout.cages_among(last.rules):
        return [
            *told,
            wording.no_combination(
                chain.layout.grid, chain.layout.cage(chain.layout.cages_among(last.rules)[0])
            ),
        ]
    gone = dict(last.removes)
    if chain.end.cell is not None and chain.end.cell in gone:
        evidence = tell(last, chain.layout).rpartition(": ")[0]
        return [*told, wording.nothing_left(evidence, chain.layout.grid, chain.end.cell)]
    return [*told, tell(last, chain.layout), wording.dead_end(chain.layout.grid, chain.end)]


def suspect_finding(puzzle: Puzzle, suspects: Suspects) -> Iterator[Finding]:
    """Yield which cages and givens can be at fault alone, if they are few."""
    alone = suspects.alone()
    if 1 <= len(alone) <= _MOST_SUSPECTS:
        yield Finding("suspects", wording.suspects(puzzle.grid, alone), facts_of(puzzle.grid, alone))


def stages(
    puzzle: Puzzle, suspects: Suspects, purse: Purse, found: Sequence[Mend]
) -> list[tuple[Look, Iterator[Mend]]]:
    """Return the stages of the search for repairs of a puzzle without a solution.

    Single changes first. Two cells that changed places are looked for only where no slip that shows was
    found, two wrong totals or givens only where nothing was: `found` is looked at when their turn comes.
    """
    return [
        (Look.VALUES, _values(puzzle, suspects, purse)),
        (Look.EXCHANGES, exchanges(puzzle, suspects.allow, purse)),
        (Look.MOVES, moves(puzzle, suspects.allow, purse)),
        (Look.PARTED, parted(puzzle, purse)),
        (Look.CELLS, _cells(puzzle, suspects, purse, found)),
        (Look.PAIRS, _pairs(puzzle, suspects, purse, found)),
    ]


def _values(puzzle: Puzzle, suspects: Suspects, purse: Purse) -> Iterator[Mend]:
    for part in suspects.alone():
        if isinstance(part, Cage | Given):
            yield from values(puzzle, part, purse)


def _cells(puzzle: Puzzle, suspects: Suspects, purse: Purse, found: Sequence[Mend]) -> Iterator[Mend]:
    if not any(mend.shows for mend in found):
        yield from cell_exchanges(puzzle, suspects.allow, purse)


def _pairs(puzzle: Puzzle, suspects: Suspects, purse: Purse, found: Sequence[Mend]) -> Iterator[Mend]:
    if found:
        return
    for part in suspects.alone():
        if isinstance(part, Cage):
            yield from total_and_given(puzzle, part, purse)
    yield from pairs(puzzle, suspects.allow, purse)


def in_order(mends: Sequence[Mend]) -> tuple[Mend, ...]:
    """Return repairs without repetitions, the best first.

    Those that keep the solution in the file come first; then those that put right what anybody can see: a
    mark that was taken for one that looks like it, a cage in pieces, a forgotten mark; then single changes
    before pairs; then the kinds in their order, and of a kind the likeliest slips; then the easier puzzle.
    Of pairs only the best are kept, those that leave a puzzle for trial and error last.
    """
    ranked = sorted({mend.changes: mend for mend in mends}.values(), key=_rank)
    pairs_seen = 0
    kept = []
    for mend in ranked:
        pairs_seen += mend.kind is Kind.PAIR
        if mend.kind is not Kind.PAIR or pairs_seen <= _MOST_PAIRS:
            kept.append(mend)
    return tuple(kept)


def _rank(mend: Mend) -> tuple[object, ...]:
    slips = sorted((nearness(change) for change in mend.changes), reverse=True)
    pair = mend.kind in (Kind.PAIR, Kind.CLAIM)
    by_trial = pair and mend.proof.by_trial
    return (
        not mend.keeps_claim,
        not mend.misread,
        not mend.tidies,
        pair,
        by_trial,
        mend.kind,
        slips,
        mend.proof.tier,
    )
