"""Drawing cages: made, grown, joined, split, taken out; totals typed, or added up from a known solution."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from verifier.desk import wording
from verifier.desk.drafting.unfinished import total_of
from verifier.desk.wishes import PageWish, RefusedError
from verifier.puzzle.cage_layout import cage_of_sort
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import repeated
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["CAGE_EDITS"]

_KINDS = ("classic", "killer")


def make_cage(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:
    """Make a cage of some cells, which leave the cages that they were in."""
    cells = wish.cells(puzzle.grid)
    total = wish.number("total", 1) if "total" in wish else None
    touched = _touched(puzzle, cells)
    left = [_with_cells(cage, set(cage.cells) - set(cells), known) for cage in touched]
    return _recaged(puzzle, touched, [*left, [_new_cage(cells, total, known)]])


def set_total(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - it is typed
    """Give the cage in which some cells are a total, or take it away."""
    cells = set(wish.cells(puzzle.grid))
    around = [cage for cage in puzzle.all_cages if cells <= set(cage.cells)] or _no_cage()
    if len(around) > 1:  # where a run across and one down cross
        raise RefusedError(wording.WHICH_RUN)
    cage, total = around[0], wish.number("total", 1) if "total" in wish else None
    return puzzle.changed([cage], [_new_cage(cage.cells, total, None, repeats=type(cage) is LinearSum)])


def let_repeat(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - the total stays
    """Let digits repeat in the cage of a cell, or no longer."""
    (cage,) = _touched(puzzle, wish.cells(puzzle.grid)[:1]) or _no_cage()
    total = total_of(cage)
    if total is None:
        raise RefusedError(wording.TOTAL_FIRST)
    return _recaged(puzzle, [cage], [[_new_cage(cage.cells, total, None, repeats=type(cage) is Cage)]])


def add_up(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - it is for all
    """Give every cage the total that it has in the solution that is known."""
    if known is None:
        raise RefusedError(wording.NO_SOLUTION_TO_ADD_UP)
    cages = puzzle.all_cages
    added = [_new_cage(cage.cells, None, known, repeats=type(cage) is LinearSum) for cage in cages]
    return puzzle.changed(cages, added)


def grow(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:
    """Bring cells into the cage of the first of them."""
    first, *others = wish.cells(puzzle.grid)
    (cage,) = _touched(puzzle, [first]) or _no_cage()
    touched = _touched(puzzle, [first, *others])
    left = [_with_cells(each, set(each.cells) - set(others), known) for each in touched if each is not cage]
    return _recaged(puzzle, touched, [*left, _with_cells(cage, {*cage.cells, *others}, known)])


def join(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:
    """Make one cage of all that some cells touch, and of those in no cage."""
    cells = wish.cells(puzzle.grid)
    touched = _touched(puzzle, cells)
    joined = {cell for cage in touched for cell in cage.cells} | set(cells)
    caged = sum(len(cage.cells) for cage in touched)
    totals = [total for cage in touched if (total := total_of(cage)) is not None]
    total = sum(totals) if len(totals) == len(touched) and caged == len(joined) else None
    return _recaged(puzzle, touched, [[_new_cage(joined, total, None if total else known)]])


def split(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:
    """Cut some cells off their cages; both parts have their totals to come, unless a solution is known."""
    cells = set(wish.cells(puzzle.grid))
    touched = _touched(puzzle, cells) or _no_cage()
    parts = [part for cage in touched for part in (set(cage.cells) & cells, set(cage.cells) - cells) if part]
    return _recaged(puzzle, touched, [[_new_cage(part, None, known) for part in parts]])


def uncage(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing is added up
    """Take out the cages that some cells touch."""
    return _recaged(puzzle, _touched(puzzle, wish.cells(puzzle.grid)) or _no_cage(), [])


CAGE_EDITS = {
    "cage": make_cage,
    "total": set_total,
    "repeats": let_repeat,
    "add_up": add_up,
    "grow": grow,
    "join": join,
    "split": split,
    "uncage": uncage,
}


def _no_cage() -> Sequence[Rule]:
    raise RefusedError(wording.NO_CAGE_THERE)


def _touched(puzzle: Puzzle, cells: Iterable[int]) -> list[Rule]:
    wanted = set(cells)
    return [cage for cage in puzzle.all_cages if wanted & set(cage.cells)]


def _new_cage(
    cells: Collection[int], total: int | None, known: Filling | None, *, repeats: bool = False
) -> Rule:
    if total is None and known is not None and (repeats or not repeated(tuple(cells), known)):
        total = sum(known[cell] for cell in cells)
    return cage_of_sort(cells, total, repeats=repeats)


def _with_cells(cage: Rule, cells: Collection[int], known: Filling | None) -> list[Rule]:
    """Return a cage that has gained or lost cells; with its old total where no solution tells a new one."""
    if not cells:
        return []
    total = total_of(cage) if known is None else None
    return [_new_cage(cells, total, known, repeats=type(cage) is LinearSum)]


def _recaged(puzzle: Puzzle, gone: Iterable[Rule], come: Iterable[Iterable[Rule]]) -> Puzzle:
    if puzzle.kind not in _KINDS:
        raise RefusedError(wording.NO_CAGES_HERE)
    cages = [cage for cages in come for cage in cages]
    changed = puzzle.changed(gone, cages)
    return replace(changed, kind=_KINDS[bool(changed.all_cages)], marks=())
