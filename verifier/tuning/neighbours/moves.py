"""All that can be done to a puzzle in one go, so that its solution stays."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import reduce
from itertools import chain

from verifier.diagnosis.repairs.changes import Change, changed, given_change
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.neighbours.cage_changes import cage_changes
from verifier.tuning.neighbours.cage_sort_changes import cage_sort_changes
from verifier.tuning.neighbours.clue_changes import clue_changes
from verifier.tuning.neighbours.given_changes import given_changes
from verifier.tuning.neighbours.run_changes import run_changes
from verifier.verdict.style.symmetry import partners

__all__ = ["Move", "moved_on", "moves", "solution_after"]

Move = tuple[Change, ...]
"""One change, or several that only make sense together."""


def moves(puzzle: Puzzle, solution: Filling, most_givens: int, symmetry: str | None = None) -> Iterator[Move]:
    """Yield what can be done to a puzzle, each with the solution kept.

    Parameters
    ----------
    puzzle : Puzzle
        With this one solution.
    solution : Filling
        Every total and every digit follows from it.
    most_givens : int
        No move brings more givens than this, except where there are more.
    symmetry : str, optional
        Givens that this takes to one another also go, or come, together.
    """
    found = chain(
        given_changes(puzzle, solution, most_givens),
        cage_changes(puzzle, solution),
        cage_sort_changes(puzzle, solution),
        run_changes(puzzle, solution),
        clue_changes(puzzle, solution),
    )
    yield from ((change,) for change in found)
    if symmetry is not None:
        yield from _together(puzzle, solution, symmetry, most_givens)


def _together(puzzle: Puzzle, solution: Filling, symmetry: str, most: int) -> Iterator[Move]:
    """Yield the givens of whole orbits, which go or come together."""
    given, partner = dict(puzzle.givens), partners(symmetry, puzzle.grid)
    for cell in puzzle.grid.cells:
        orbit = _orbit(cell, partner)
        if len(orbit) == 1 or min(orbit) != cell:
            continue
        if all(each in given for each in orbit):
            yield tuple(given_change(each, given[each], None) for each in orbit)
        elif not any(each in given for each in orbit) and len(given) + len(orbit) <= most:
            yield tuple(given_change(each, None, solution[each]) for each in orbit)


def _orbit(cell: int, partner: Sequence[int]) -> list[int]:
    orbit = [cell]
    while partner[orbit[-1]] != cell:
        orbit.append(partner[orbit[-1]])
    return orbit


def moved_on(puzzle: Puzzle, move: Move, solution: Filling) -> Puzzle | None:
    """Return the puzzle after a move; None where the solution would break one of its rules.

    The marks by which a file draws its cages are left out: they do not fit any more.
    """
    after = replace(changed(puzzle, move), marks=())
    return after if solves(after, solution_after(move, solution)) else None


def solution_after(changes: Iterable[Change], solution: Filling) -> Filling:
    """Return what becomes of the solution that some changes keep, one after the other.

    All cells that are filled before and after hold the same.
    """
    return reduce(lambda kept, change: change.solution_after(kept), changes, solution)
