"""What the witnesses establish together: one solution, several, none - or nothing.

The count is asked first; every grid it shows is held against the rules in plain Python; two such grids prove
"several". "One" and "none" need a second witness: the replay where it ends by logic, else the recount.
Whatever does not fit together leaves the puzzle undecided.

Whoever wants each answer as it comes goes through `ask_witnesses`, and may stop at any time; `weigh` says
what the answers come to; `establish` is both. `WorkAllowance.ended` ends a witness from outside.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from verifier.evidence import wording
from verifier.evidence.statements import (
    COUNT,
    RECHECK,
    RECOUNT,
    Statement,
    WitnessSays,
    ask_count,
    ask_file,
    ask_replay,
)
from verifier.evidence.witnesses import Witnesses
from verifier.puzzle.allowance import USUAL_ALLOWANCE, WorkAllowance
from verifier.puzzle.checking.arithmetic import Check
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally

if TYPE_CHECKING:
    from grader.grading.replay import Replay

__all__ = ["Evidence", "ask_witnesses", "count", "establish", "weigh"]

_REAL = Witnesses.real()

_LEAST_SECONDS = 0.1  # a witness that is asked late still gets to say something


@dataclass(frozen=True, slots=True)
class Evidence:
    """What is established about the number of solutions.

    Parameters
    ----------
    count, complete, solutions
        As in `verifier.verdict.verdict.Solutions`, with plain fillings.
    witnesses : tuple of WitnessSays
        Who says so.
    checks : tuple of Check
        What was checked; a failed one is a reason not to accept the puzzle.
    decided : bool
        Whether the number is proved to be one, several or none.
    provisional : bool
        Whether anyone who was asked was cut short from outside, even where that changes nothing: what a
        finished verdict says must not depend on how fast a machine is.
    replay : Replay or None
        The replay, where one was made.
    """

    count: int | None
    complete: bool
    solutions: tuple[Filling, ...]
    witnesses: tuple[WitnessSays, ...]
    checks: tuple[Check, ...]
    decided: bool = True
    provisional: bool = False
    replay: Replay | None = None

    @property
    def sound(self) -> bool:
        """Whether exactly one solution is proved."""
        return self.decided and self.complete and self.count == 1


def establish(
    puzzle: Puzzle, limit: int = 2, allowance: WorkAllowance = USUAL_ALLOWANCE, witnesses: Witnesses = _REAL
) -> Evidence:
    """Ask the witnesses until the number of solutions is proved, or cannot be.

    Parameters
    ----------
    puzzle : Puzzle
        One that passed its arithmetic.
    limit : int
        How many solutions are counted at most; at least 2.
    allowance : WorkAllowance
        What each witness may take; the clock is for all of them together.
    witnesses : Witnesses
        Who is asked.

    Returns
    -------
    Evidence
        Decided only where two witnesses agree, or two different grids obey every rule.
    """
    return weigh(puzzle, tuple(ask_witnesses(puzzle, limit, allowance, witnesses)))


def ask_witnesses(
    puzzle: Puzzle, limit: int = 2, allowance: WorkAllowance = USUAL_ALLOWANCE, witnesses: Witnesses = _REAL
) -> Iterator[Statement]:
    """Yield what each witness says, as soon as it has been asked; the arguments are those of `establish`.

    Yields
    ------
    Statement
        The count. For "one" and "none" then the file's own solution if it is one, the replay, and the
        recount where the replay proves nothing or contradicts.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    >>> [(said.witness, said.count, said.proves) for said in ask_witnesses(puzzle)]
    [('cp-sat', 1, True), ('replay', 1, True)]
    """
    deadline = time.monotonic() + allowance.seconds

    def left() -> WorkAllowance:
        return replace(allowance, seconds=max(deadline - time.monotonic(), _LEAST_SECONDS))

    first = ask_count(COUNT, witnesses.count, puzzle, limit, left())
    yield first
    if not first.complete or first.count > 1:
        return
    said = [first]
    claimed = ask_file(puzzle)
    if claimed is not None:
        said.append(claimed)
        yield claimed
    replayed = ask_replay(witnesses.replay, puzzle, allowance.trial and first.count == 1, left())
    said.append(replayed)
    yield replayed
    if not replayed.proves or _conflict(said):
        yield ask_count(RECOUNT, witnesses.recount, puzzle, 2, left())


def count(puzzle: Puzzle, limit: int = 2, allowance: WorkAllowance = USUAL_ALLOWANCE) -> Statement:
    """Return what the count alone says: its grids obey every rule, but "one" and "none" are not proved."""
    return ask_count(COUNT, _REAL.count, puzzle, limit, allowance)


def weigh(puzzle: Puzzle, said: Sequence[Statement]) -> Evidence:
    """Return what the statements of witnesses come to, the count being the first of them."""
    first = said[0]
    if _conflict(said):
        return _disagreed(puzzle, said)
    if first.count > 1:
        return _several(puzzle, first)
    if not (first.complete and any(statement.proves for statement in said[1:])):
        return _out_of_reach(said)
    return _agreed(puzzle, said)


def _conflict(said: Sequence[Statement]) -> bool:
    """Whether the statements cannot all be true: a grid that one shows is missing from a finished search."""
    if any(statement.trouble for statement in said):
        return True
    shown = {filling for statement in said for filling in statement.solutions}
    return any(set(statement.solutions) != shown for statement in said if statement.complete)


def _replay_of(said: Sequence[Statement]) -> Replay | None:
    return next((statement.replay for statement in said if statement.replay is not None), None)


def _cut(said: Sequence[Statement]) -> bool:
    return any(statement.cut for statement in said)


def _agreed(puzzle: Puzzle, said: Sequence[Statement]) -> Evidence:
    first = said[0]
    proving = [statement for statement in said if statement.proves]
    checks = [
        Check("one-solution", True, wording.ONE_SOLUTION)
        if first.count
        else Check("no-solution", False, wording.none_at_all(puzzle))
    ]
    if first.count:
        checks.append(Check("re-check", True, wording.rechecked(puzzle, first.count)))
    checks += [
        Check("second-witness", True, wording.second_witness(s.witness, first.count)) for s in proving[1:]
    ]
    return Evidence(
        first.count,
        complete=True,
        solutions=first.solutions,
        witnesses=tuple(s.for_verdict for s in proving),
        checks=tuple(checks),
        provisional=_cut(said),
        replay=_replay_of(said),
    )


def _several(puzzle: Puzzle, first: Statement) -> Evidence:
    says = wording.several(puzzle, first.count, first.swing_cells, complete=first.complete)
    checks = (
        Check("several-solutions", False, says),
        Check("re-check", True, wording.rechecked(puzzle, first.count)),
    )
    # The grids prove "several" whatever the solver says; how many there are in all rests on it alone.
    witnesses = (WitnessSays(COUNT, first.count), WitnessSays(RECHECK, first.count))
    return Evidence(first.count, first.complete, first.solutions, witnesses, checks, provisional=first.cut)


def _out_of_reach(said: Sequence[Statement]) -> Evidence:
    last = next((statement for statement in said if statement.cut), said[-1])  # more time may be the cure
    return Evidence(
        said[0].count,
        complete=False,
        solutions=(),
        witnesses=tuple(s.for_verdict for s in said if s.vouches),
        checks=(Check("limit-reached", False, wording.limit_reached(last.witness, last.count, last.stop)),),
        decided=False,
        provisional=_cut(said),
        replay=_replay_of(said),
    )


def _disagreed(puzzle: Puzzle, said: Sequence[Statement]) -> Evidence:
    told = [statement.told for statement in said]
    shown = tuple(sorted({filling for statement in said for filling in statement.solutions}))
    if len(shown) > 1:
        told.append(wording.different_grids(puzzle.grid, Tally("", shown, Stop.ASKED).swing_cells))
    return Evidence(
        None,
        complete=False,
        solutions=shown,
        witnesses=tuple(s.for_verdict for s in said if s.vouches),
        checks=(Check("witnesses-disagree", False, wording.disagreement(told)),),
        decided=False,
        provisional=_cut(said),
        replay=_replay_of(said),
    )
