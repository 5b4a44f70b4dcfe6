"""Count the solutions of a puzzle again, with clingo, on an encoding that states sums as sums."""

from __future__ import annotations

from dataclasses import dataclass

from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules import solves
from verifier.puzzle.tally import Stop, Tally

__all__ = ["WITNESS", "Budget", "recount_solutions"]

WITNESS = "clingo"
"""The name of this witness in a verdict."""

_RULES = """
{ holds(C,D) : digit(D) } = 1 :- cell(C).
:- house(H), digit(D), { holds(C,D) : in_house(H,C) } != 1.
:- in_cage(G,C), in_cage(G,E), C < E, holds(C,D), holds(E,D).
:- total(G,T), not #sum { D,C : in_cage(G,C), holds(C,D) } = T.
:- given(C,D), not holds(C,D).
#show holds/2.
"""


@dataclass(frozen=True, slots=True)
class Budget:
    """How much work a recount may take.

    Parameters
    ----------
    conflicts : int
        Conflicts of the search: the same limit on every machine.
    seconds : float
        Guard on the wall clock; a recount that it ends says so with `Stop.CLOCK`.
    """

    conflicts: int = 2_000_000
    seconds: float = 120.0


def recount_solutions(puzzle: Puzzle, limit: int = 2, budget: Budget = Budget()) -> Tally:
    """Count the solutions of `puzzle` a second time, at most `limit` of them."""
    import clingo

    control = clingo.Control([f"--models={limit}", f"--solve-limit={budget.conflicts}"])
    facts = [f"cell(0..{puzzle.grid.cell_count - 1}). digit(1..{puzzle.grid.digits})."]
    for number, house in enumerate(puzzle.houses):
        facts += [f"house({number})."] + [f"in_house({number},{c})." for c in house.cells]
    for number, cage in enumerate(puzzle.cages):
        facts += [f"total({number},{cage.total})."] + [f"in_cage({number},{c})." for c in cage.cells]
    facts += [f"given({c},{d})." for c, d in puzzle.givens]
    control.add("base", [], "\n".join([_RULES, *facts]))
    control.ground([("base", [])])
    found: set[Filling] = set()
    with control.solve(yield_=True, async_=True) as handle:
        stop = Stop.FINISHED
        while True:
            handle.resume()
            if not handle.wait(budget.seconds):
                handle.cancel()
                stop = Stop.CLOCK
                break
            model = handle.model()
            if model is None:
                break
            holds = sorted((s.arguments[0].number, s.arguments[1].number) for s in model.symbols(shown=True))
            found.add(tuple(d for _, d in holds))
        if stop is Stop.FINISHED and not handle.get().exhausted:
            stop = Stop.BUDGET
    solutions = tuple(sorted(f for f in found if solves(puzzle, f)))
    return Tally(WITNESS, solutions, Stop.ASKED if len(solutions) >= limit else stop)
