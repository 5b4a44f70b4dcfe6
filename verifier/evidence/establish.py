"""What the witnesses establish together: one solution, several, none - or nothing.

The order of the hearing: the count first; every grid it shows is held against the rules in plain Python;
two such grids prove "several". "One" and "none" need a second witness: the replay where it ends by logic,
else the recount. Whatever does not fit together leaves the puzzle undecided.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from verifier.evidence import wording
from verifier.evidence.statements import (
    COUNT,
    RECHECK,
    RECOUNT,
    Statement,
    WitnessSays,
    hear_count,
    hear_file,
    hear_replay,
)
from verifier.evidence.witnesses import Witnesses
from verifier.puzzle.arithmetic import Check
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally

if TYPE_CHECKING:
    from grader.grading.replay import Replay

__all__ = ["Finding", "establish"]


@dataclass(frozen=True, slots=True)
class Finding:
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
        Whether the clock or the memory cut anyone short who was heard, even where that changes nothing:
        what a finished verdict says must not depend on how fast a machine is.
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


def establish(puzzle: Puzzle, witnesses: Witnesses, limit: int, seconds: float) -> Finding:
    """Hear the witnesses until the number of solutions is proved, or cannot be.

    Parameters
    ----------
    puzzle : Puzzle
        One that passed its arithmetic.
    witnesses : Witnesses
        Who is heard.
    limit : int
        How many solutions are counted at most; at least 2.
    seconds : float
        Guard on the wall clock, for all witnesses together.

    Returns
    -------
    Finding
        Decided only where two witnesses agree, or two different grids obey every rule.
    """
    deadline = time.monotonic() + seconds
    first = hear_count(COUNT, puzzle, limit, witnesses.count, deadline)
    if first.trouble:
        return _disagreed(puzzle, [first])
    if len(first.solutions) > 1:
        return _several(puzzle, first)
    if not first.finished:
        return _out_of_reach([first])
    heard, played = _second(puzzle, witnesses, first, deadline)
    if _conflict(heard):
        return _disagreed(puzzle, heard)
    if not any(statement.finished for statement in heard[1:] if statement.vouches):
        return _out_of_reach(heard)
    return _agreed(puzzle, heard, played)


def _second(
    puzzle: Puzzle, witnesses: Witnesses, first: Statement, deadline: float
) -> tuple[list[Statement], Replay | None]:
    """Return all that is said about "one" or "none", the first statement included, and the replay."""
    claimed = hear_file(puzzle)
    played, replayed = hear_replay(puzzle, bool(first.solutions), witnesses.replay, deadline)
    heard = [first, *([claimed] if claimed else []), replayed]
    if not (replayed.finished and replayed.vouches) or _conflict(heard):
        heard.append(hear_count(RECOUNT, puzzle, 2, witnesses.recount, deadline))
    return heard, played


def _conflict(heard: Sequence[Statement]) -> bool:
    """Whether the statements cannot all be true: a grid that one shows is missing from a finished search."""
    if any(statement.trouble for statement in heard):
        return True
    shown = {filling for statement in heard for filling in statement.solutions}
    return any(set(statement.solutions) != shown for statement in heard if statement.finished)


def _cut(heard: Sequence[Statement]) -> bool:
    return any(statement.cut for statement in heard)


def _agreed(puzzle: Puzzle, heard: Sequence[Statement], played: Replay | None) -> Finding:
    first = heard[0]
    count = len(first.solutions)
    vouching = [statement for statement in heard if statement.vouches and statement.finished]
    checks = [
        Check("one-solution", True, wording.one_solution())
        if count
        else Check("no-solution", False, wording.none_at_all(puzzle))
    ]
    if count:
        checks.append(Check("re-check", True, wording.rechecked(puzzle, count)))
    checks += [Check("second-witness", True, wording.second_witness(s.witness, count)) for s in vouching[1:]]
    return Finding(
        count,
        complete=True,
        solutions=first.solutions,
        witnesses=tuple(s.for_verdict for s in vouching),
        checks=tuple(checks),
        provisional=_cut(heard),
        replay=played,
    )


def _several(puzzle: Puzzle, first: Statement) -> Finding:
    count, complete = len(first.solutions), first.finished
    swing = Tally(COUNT, first.solutions, first.stop).swing_cells
    checks = (
        Check("several-solutions", False, wording.several(puzzle, count, swing, complete=complete)),
        Check("re-check", True, wording.rechecked(puzzle, count)),
    )
    # The grids prove "several" whatever the solver says; how many there are in all rests on it alone.
    witnesses = (WitnessSays(COUNT, count), WitnessSays(RECHECK, count))
    return Finding(count, complete, first.solutions, witnesses, checks, provisional=_cut([first]))


def _out_of_reach(heard: Sequence[Statement]) -> Finding:
    ended = next((statement for statement in heard if statement.cut), heard[-1])  # more time may be the cure
    says = wording.limit_reached(ended.witness, len(ended.solutions), clock=ended.cut)
    return Finding(
        len(heard[0].solutions),
        complete=False,
        solutions=(),
        witnesses=tuple(s.for_verdict for s in heard if s.vouches),
        checks=(Check("limit-reached", False, says),),
        decided=False,
        provisional=_cut(heard),
    )


def _disagreed(puzzle: Puzzle, heard: Sequence[Statement]) -> Finding:
    told = [statement.told for statement in heard]
    shown = tuple(sorted({filling for statement in heard for filling in statement.solutions}))
    if len(shown) > 1:
        swing = Tally("", shown, Stop.ASKED).swing_cells
        told.append(wording.different_grids(puzzle.grid, swing))
    return Finding(
        None,
        complete=False,
        solutions=shown,
        witnesses=tuple(s.for_verdict for s in heard if s.vouches),
        checks=(Check("witnesses-disagree", False, wording.disagreement(told)),),
        decided=False,
        provisional=_cut(heard),
    )
