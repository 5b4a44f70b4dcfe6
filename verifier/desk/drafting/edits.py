"""Every change that the page can ask for, as a function from one puzzle to the next."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from verifier.desk import wording
from verifier.desk.drafting.box_edits import BOX_EDITS
from verifier.desk.drafting.cage_edits import CAGE_EDITS
from verifier.desk.drafting.kakuro_edits import KAKURO_EDITS, empty_kakuro
from verifier.desk.drafting.rule_edits import RULE_EDITS
from verifier.desk.wishes import PageWish, RefusedError
from verifier.files.limits import DEFAULT_LIMITS
from verifier.puzzle.grid import USUAL_BOXES, Filling, Grid
from verifier.puzzle.printable import printable
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.given import Given

__all__ = ["EDITS", "edited", "empty_puzzle"]

_LEAST = 2
_LEAST_KAKURO, _MOST_KAKURO = 3, 40

Edit = Callable[[Puzzle, PageWish, Filling | None], Puzzle]
"""Takes the puzzle, what is wanted, and the solution that is known, from which totals can be added up.

Raises `RefusedError` where it cannot be done."""


def empty_puzzle(size: int, credits: Credits) -> Puzzle:
    """Return a grid without anything in it."""
    return make_puzzle("classic", Grid.square(size, USUAL_BOXES.get(size, (0, 0))), credits=credits)


def set_given(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - it is typed
    """Write a digit into cells as a given, or take out what stands there."""
    cells = wish.cells(puzzle.grid)
    digit = wish.number("digit", 1, puzzle.grid.digits) if "digit" in wish else None
    gone = [rule for rule in puzzle.rules if type(rule) is Given and rule.cell in cells]
    return puzzle.changed(gone, [Given(cell, digit) for cell in cells if digit is not None])


def show_solution(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:
    """Put the digits of the known solution into cells as givens."""
    if known is None:
        raise RefusedError(wording.NO_SOLUTION_TO_ADD_UP)
    cells = wish.cells(puzzle.grid)
    gone = [rule for rule in puzzle.rules if type(rule) is Given and rule.cell in cells]
    return puzzle.changed(gone, [Given(cell, known[cell]) for cell in cells])


def name(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - only names change
    """Change title or setter."""
    names = puzzle.credits
    if "title" in wish:
        names = replace(names, title=_line(wish, "title"))
    if "setter" in wish:
        names = replace(names, setter=_line(wish, "setter"))
    return replace(puzzle, credits=names)


def _line(wish: PageWish, key: str) -> str | None:
    return printable(wish.text(key, DEFAULT_LIMITS.text), None).strip() or None


def begin(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing stays
    """Begin anew with an empty grid; in one of an unusual size the boxes are still to be drawn."""
    if wish.yes("kakuro"):
        rows, columns = (wish.number(key, _LEAST_KAKURO, _MOST_KAKURO) for key in ("rows", "columns"))
        return empty_kakuro(rows, columns, puzzle.credits)
    size = wish.number("size")
    if not _LEAST <= size <= max(USUAL_BOXES):
        raise RefusedError(wording.NO_SUCH_SIZE)
    return empty_puzzle(size, puzzle.credits)


def forget(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing comes
    """Let go of the solution that was meant."""
    return replace(puzzle, solution=None)


EDITS: Mapping[str, Edit] = {
    "given": set_given,
    "show": show_solution,
    "name": name,
    "new": begin,
    "forget": forget,
    **BOX_EDITS,
    **CAGE_EDITS,
    **KAKURO_EDITS,
    **RULE_EDITS,
}


def edited(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:
    """Return the puzzle as the page wants it.

    Raises
    ------
    RefusedError
        If it cannot be done.

    Examples
    --------
    >>> puzzle = empty_puzzle(4, Credits())
    >>> caged = edited(puzzle, PageWish({"do": "cage", "cells": [1, 0], "total": 3}), None)
    >>> grown = edited(caged, PageWish({"do": "grow", "cells": [0, 4]}), (1, 2, 3, 4, 3, *[0] * 11))
    >>> caged.kind, grown.cages
    ('killer', (Cage(cells=(0, 1, 4), total=6),))
    """
    edit = EDITS.get(wish.name)
    if edit is None:
        raise RefusedError(wording.NO_WISH)
    return edit(puzzle, wish, known)
