"""What is said of the witnesses, and of what they establish together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from verifier.puzzle.breaches import Breach
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import listed
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.tally import Stop

__all__ = ["WITNESSES", "cells_in_words", "proved_by", "solutions_in_words"]

_REPORT_IT = (
    "That is a fault of gridproof, not of the puzzle. Do not print the puzzle on the strength of this "
    "verdict; send the file to the people who look after gridproof."
)


def cells_in_words(grid: Grid, cells: Sequence[int]) -> str:
    """Return the names of cells, the first few of them where there are many.

    Examples
    --------
    >>> cells_in_words(Grid.square(9), [0, 1, 21])
    'r1c1, r1c2 and r3c4'
    >>> cells_in_words(Grid.square(4), range(16))[-27:]
    'r3c2, r3c3, r3c4 and 4 more'
    """
    return grid.cell_names(cells)


def solutions_in_words(count: int, *, complete: bool = True) -> str:
    """Return a number of solutions.

    Examples
    --------
    >>> solutions_in_words(0), solutions_in_words(1), solutions_in_words(2, complete=False)
    ('no solution', 'exactly one solution', 'at least 2 solutions')
    """
    if not complete:
        return f"at least {count} solution{'s' if count != 1 else ''}"
    return {0: "no solution", 1: "exactly one solution"}.get(count, f"exactly {count} solutions")


def several(puzzle: Puzzle, count: int, swing: Sequence[int], *, complete: bool) -> str:
    """Say that there are several solutions, where they differ, and what the setter can do."""
    more = "" if complete else " Other solutions may differ elsewhere too."
    cages = ", or change the cages that hold them," if puzzle.all_cages else ""
    return (
        f"The puzzle has {solutions_in_words(count, complete=complete)}. The solutions found differ in "
        f"{cells_in_words(puzzle.grid, swing)}.{more} Add a given in one of these cells{cages} so that only "
        "one of the grids is left; then check the puzzle again."
    )


def none_at_all(puzzle: Puzzle) -> str:
    """Say that there is no solution, and what the setter can do."""
    caged = ("the totals", "the cages") if puzzle.all_cages else ()
    compared = listed([*caged, *["the clues"] * _has_clues(puzzle), "the givens"])
    return (
        f"The puzzle has no solution: no filling obeys {_rules_of(puzzle)}. Compare {compared} with the "
        "draft; one of them is most likely mistyped."
    )


def _rules_of(puzzle: Puzzle) -> str:
    parts = [
        *["house"] * bool(puzzle.houses),
        *["cage"] * bool(puzzle.all_cages),
        *["clue"] * _has_clues(puzzle),
        "given",
    ]
    return f"every {listed(parts)}"


def _has_clues(puzzle: Puzzle) -> bool:
    """Whether it has rules that a sentence cannot do without: others than houses, cages and givens."""
    return any(type(rule) not in (House, Given) and not rule.is_cage for rule in puzzle.rules)


ONE_SOLUTION = "The puzzle has exactly one solution."


def rechecked(puzzle: Puzzle, count: int) -> str:
    """Say that the grids found were held against the rules."""
    grids = "The grid found obeys" if count == 1 else f"The {count} grids found all differ, and each obeys"
    return f"{grids} {_rules_of(puzzle)} (checked again without a solver)."


_PERSON = "working it through as a person does"

_NAMES = {"cp-sat": "the solver", "clingo": "the second solver", "replay": _PERSON}
"""What a sentence calls a witness: its name in the YAML means nothing to an editor."""

_PROOFS = {"cp-sat": "a solver", "clingo": "a second solver of another kind", "replay": _PERSON}

WITNESSES = {
    "cp-sat": "A solver",
    "clingo": "A second solver, of another kind",
    "replay": f"W{_PERSON[1:]}",
    "arithmetic": "Adding up",
    "re-check": "The grids, held against every rule",
}
"""What a table calls a witness, by its name in the YAML."""


def proved_by(names: Iterable[str]) -> str:
    """Say which witnesses proved it, by their names in the YAML.

    Examples
    --------
    >>> proved_by(["cp-sat", "replay"])
    'by a solver, and by working it through as a person does'
    """
    return ", and ".join(f"by {_PROOFS.get(name, name)}" for name in names)


def second_witness(name: str, count: int) -> str:
    """Say that a second witness agrees."""
    number = solutions_in_words(count)
    if name == "replay":
        end = "reaches the same grid" if count else "ends in a contradiction"
        how = "worked through as a person does, by logic alone"
        return f"A second witness agrees on {number}: {how}, the puzzle {end}."
    return f"A second witness agrees on {number}: another kind of solver, told the rules in another way."


def disagreement(findings: Sequence[str]) -> str:
    """Say that the witnesses contradict each other."""
    return f"The witnesses do not agree, so nothing is proved: {'; '.join(findings)}. {_REPORT_IT}"


def found_by(name: str, count: int, *, complete: bool, by_trial: bool = False) -> str:
    """Say what one witness found, as part of a disagreement."""
    how = " by trial" if by_trial else ""
    return f"{_NAMES[name]} finds {solutions_in_words(count, complete=complete)}{how}"


def different_grids(grid: Grid, cells: Sequence[int]) -> str:
    """Say that witnesses show grids that differ."""
    return f"the grids they show differ in {cells_in_words(grid, cells)}"


FILE_OBEYS = "the solution in the file obeys every rule"


def failed(name: str, why: str) -> str:
    """Say that a witness could not do its work."""
    return f"{_NAMES[name]} failed ({why.strip() or 'no reason given'})"


def wrong_grid(name: str, grid: Grid, breach: Breach | None) -> str:
    """Say that a witness showed a grid that breaks a rule."""
    return f"{_NAMES[name]} shows a grid that breaks {_rule_in_words(grid, breach)}"


def false_claim(name: str) -> str:
    """Say that a witness claims more grids than it shows."""
    return f"{_NAMES[name]} says that it found as many solutions as it was asked for, but shows fewer"


def _rule_in_words(grid: Grid, breach: Breach | None) -> str:
    if breach is None:
        return "a rule"
    if breach.rule is not None:
        return breach.rule.called(grid)
    return f"the digits allowed in {cells_in_words(grid, breach.cells)}" if breach.cells else "its size"


def limit_reached(name: str, found: int, stop: Stop) -> str:
    """Say that a witness ran out of work or time, or was ended, and what can be done."""
    so_far = "one solution so far" if found else "no solution so far"
    why, cure = {
        Stop.CLOCK: (
            "ran out of time or memory",
            "Check it again on a machine with less to do, or allow more time with --seconds.",
        ),
        Stop.ENDED: ("was ended early", "Check it again."),
    }.get(
        stop,
        ("reached its limit of work", "A given or two, or smaller cages, make the puzzle easier to prove."),
    )
    return f"Not proved either way: {_NAMES[name]} {why}, with {so_far}. {cure}"
