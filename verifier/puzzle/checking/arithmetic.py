"""Arithmetic that a puzzle must pass before anything is solved.

A check that fails proves that the puzzle has no solution: it rests on a house, a cage or the givens
alone. The sentences stand in `verifier.puzzle.wording`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from verifier.puzzle.checking.checks import Check
from verifier.puzzle.checking.claim import solution_check
from verifier.puzzle.checking.clue_checks import can_be_checked, clues_that_never_hold
from verifier.puzzle.checking.run_checks import run_sum_checks
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import counted, listed
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House, disjoint_kinds
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.totals import possible_totals, spans
from verifier.puzzle.wording import FAILED, PASSED

__all__ = ["Check", "arithmetic_checks", "solution_check"]

_MOST_HOUSES = 4
"""Houses that a passed check names; of more it gives the number."""


def arithmetic_checks(puzzle: Puzzle) -> tuple[Check, ...]:
    """Make every check that takes no solving.

    Parameters
    ----------
    puzzle : Puzzle
        Of any size, with or without cages and givens.

    Returns
    -------
    tuple of Check
        For each kind of check that applies to the puzzle, one that passed, or one that failed for
        each thing wrong. A single failure proves that there is no solution.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 7), Cage((4, 5, 8), 3)])
    >>> for check in arithmetic_checks(puzzle):
    ...     print(check.code, "passed" if check.passed else "failed")
    cage-size passed
    cage-total failed
    >>> check.says[:76]
    'The cage r2c1, r2c2 and r3c1 has the total 3, but three cells can make only '
    """
    return tuple(
        check
        for made in (
            _cage_sizes(puzzle),
            _cage_totals(puzzle),
            _sums_of_houses(puzzle),
            _givens_in_houses(puzzle),
            _givens_in_cages(puzzle),
            _clues(puzzle),
            run_sum_checks(puzzle),
        )
        for check in made
    )


def _outcome(code: str, failures: Iterable[str], **facts: str) -> Iterator[Check]:
    """Yield a check for each failure, or the one that passed."""
    failed = [Check(code, False, says) for says in failures]
    yield from failed or [Check(code, True, PASSED[code].format_map(facts))]


def _cage_sizes(puzzle: Puzzle) -> Iterator[Check]:
    digits = puzzle.grid.digits
    cages = [cage for cage in puzzle.all_cages if cage not in puzzle.repeating_cages]
    if cages:
        yield from _outcome(
            "cage-size",
            (
                _failure("cage-size", puzzle.grid, cage.cells, size=len(cage.cells), digits=digits)
                for cage in cages
                if len(cage.cells) > digits
            ),
        )


def _cage_totals(puzzle: Puzzle) -> Iterator[Check]:
    if puzzle.cages_with_total:
        yield from _outcome("cage-total", _impossible_totals(puzzle))


def _impossible_totals(puzzle: Puzzle) -> Iterator[str]:
    for cage in puzzle.cages_with_total:
        size = len(cage.cells)
        if (possible := _range_of(cage, puzzle.grid)) and cage.total not in possible:
            yield _failure(
                "cage-total",
                puzzle.grid,
                cage.cells,
                total=cage.total,
                size=counted(size, "cell"),
                possible=_either(possible),
            )


def _range_of(cage: Cage | LinearSum, grid: Grid) -> range:
    """Return the totals that the cells of a cage can make; empty for more cells than digits that differ."""
    size = len(cage.cells)
    if isinstance(cage, LinearSum):
        return range(size, size * grid.digits + 1)
    return range(size * (size + 1) // 2, size * (2 * grid.digits + 1 - size) // 2 + 1)


def _sums_of_houses(puzzle: Puzzle) -> Iterator[Check]:
    """Yield the checks of cages that cover a house, or the whole grid, exactly."""
    in_cages = sum(len(cage.cells) for cage in puzzle.cages_with_total)
    if len({cell for cage in puzzle.cages_with_total for cell in cage.cells}) != in_cages:
        return  # where cages overlap, their totals cannot be added up
    grid = puzzle.grid
    whole = [kind for kind in disjoint_kinds(puzzle.full_houses) if _size(kind) == len(grid.cells)]
    if in_cages == len(grid.cells) and whole:
        wanted = len(whole[0]) * grid.house_total
        made = sum(cage.total for cage in puzzle.cages_with_total)
        failed = [] if made == wanted else [_missed("full-sum", wanted, made)]
        yield from _outcome("full-sum", failed, wanted=str(wanted))
    covered = list(_covered_houses(puzzle))
    if covered:
        failures = (
            _missed("house-sum", grid.house_total, made, house=house.name, cages=_with_totals(cages, grid))
            for house, cages in covered
            if (made := sum(cage.total for cage in cages)) != grid.house_total
        )
        yield from _outcome("house-sum", failures, **_named(covered), wanted=str(grid.house_total))


def _size(houses: tuple[House, ...]) -> int:
    return sum(len(house.cells) for house in houses)


def _covered_houses(puzzle: Puzzle) -> Iterator[tuple[House, list[Cage | LinearSum]]]:
    """Yield the houses that hold every digit and consist of two or more whole cages, with these cages."""
    houses = puzzle.full_houses
    houses_of = [0] * puzzle.grid.cell_count  # of each cell, its houses, as bits
    for bit, house in enumerate(houses):
        for cell in house.cells:
            houses_of[cell] |= 1 << bit
    inside: list[list[Cage | LinearSum]] = [[] for _ in houses]
    for cage in puzzle.cages_with_total:
        around = -1
        for cell in cage.cells:
            around &= houses_of[cell]
        while around > 0:
            inside[(around & -around).bit_length() - 1].append(cage)
            around &= around - 1
    for house, cages in zip(houses, inside, strict=True):
        if len(cages) > 1 and sum(len(cage.cells) for cage in cages) == len(house.cells):
            yield house, cages


def _givens_in_houses(puzzle: Puzzle) -> Iterator[Check]:
    if puzzle.givens and puzzle.houses:
        kinds = dict.fromkeys(house.kind for house in puzzle.houses)
        named = listed((f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}" for kind in kinds), "or")
        yield from _outcome("givens-in-houses", _givens_twice(puzzle), houses=named)


def _givens_twice(puzzle: Puzzle) -> Iterator[str]:
    """Yield what is wrong where a house holds the same given twice; once for the same cells."""
    givens = dict(puzzle.givens)
    clashes: dict[tuple[int, tuple[int, ...]], list[str]] = {}
    for house in puzzle.houses:
        for digit, cells in _repeated(house.cells, givens):
            clashes.setdefault((digit, cells), []).append(house.name)
    for (digit, cells), names in clashes.items():
        yield _failure("givens-in-houses", puzzle.grid, cells, digit=digit, houses=listed(names, "or"))


def _givens_in_cages(puzzle: Puzzle) -> Iterator[Check]:
    givens = dict(puzzle.givens)
    cages = [cage for cage in puzzle.all_cages if any(cell in givens for cell in cage.cells)]
    if cages:
        failures = (says for cage in cages for says in _givens_against(cage, givens, puzzle.grid))
        yield from _outcome("givens-in-cages", failures)


def _clues(puzzle: Puzzle) -> Iterator[Check]:
    if can_be_checked(puzzle):
        yield from _outcome("clue", clues_that_never_hold(puzzle))


def _givens_against(cage: Rule, givens: dict[int, int], grid: Grid) -> Iterator[str]:
    """Yield how the givens of a cage contradict it."""
    repeated = list(_repeated(cage.cells, givens)) if cage.differs else []
    for digit, cells in repeated:
        yield _failure("givens-in-cages:twice", grid, cells, digit=digit)
    if isinstance(cage, Cage | LinearSum) and not repeated and cage.total in _range_of(cage, grid):
        yield from _givens_against_total(cage, givens, grid)


def _givens_against_total(cage: Cage | LinearSum, givens: dict[int, int], grid: Grid) -> Iterator[str]:
    digits = [givens[cell] for cell in cage.cells if cell in givens]
    free, left = len(cage.cells) - len(digits), cage.total - sum(digits)
    possible: Collection[int] = range(free, free * grid.digits + 1)
    if cage.differs:
        possible = possible_totals(free, tuple(d for d in grid.all_digits if d not in digits))
    if left in possible:
        return
    rest = "rest" if cage.differs else "rest-with-repeats"
    what = "full" if free == 0 else "over" if left <= 0 else rest
    yield _failure(
        f"givens-in-cages:{what}",
        grid,
        cage.cells,
        total=cage.total,
        givens=listed(str(digit) for digit in digits),
        added=sum(digits),
        left=left,
        free=counted(free, "cell"),
        possible=_either(possible),
    )


def _repeated(cells: tuple[int, ...], givens: dict[int, int]) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield each digit that is given more than once among `cells`, and where."""
    places: dict[int, list[int]] = {}
    for cell in cells:
        if cell in givens:
            places.setdefault(givens[cell], []).append(cell)
    for digit, where in places.items():
        if len(where) > 1:
            yield digit, tuple(where)


def _failure(what: str, grid: Grid, cells: tuple[int, ...], **facts: object) -> str:
    return FAILED[what].format_map({"cells": grid.cell_names(cells), **facts})


def _missed(what: str, wanted: int, made: int, **facts: object) -> str:
    difference = f"{abs(made - wanted)} too {'many' if made > wanted else 'few'}"
    return FAILED[what].format_map({"wanted": wanted, "made": made, "difference": difference, **facts})


def _named(covered: list[tuple[House, list[Cage | LinearSum]]]) -> dict[str, str]:
    """Return the houses that passed, for the sentence that says so."""
    if len(covered) > _MOST_HOUSES:
        return {"houses": counted(len(covered), "house"), "there": "in each"}
    names = listed(house.name for house, _ in covered)
    return {"houses": names, "there": "there" if len(covered) == 1 else "in each"}


def _with_totals(cages: list[Cage | LinearSum], grid: Grid) -> str:
    """Return several cages in one sentence: no commas inside a cage, so that each is seen as one."""
    return listed(f"{' '.join(grid.cell_name(cell) for cell in cage.cells)} = {cage.total}" for cage in cages)


def _either(numbers: Iterable[int]) -> str:
    return listed(spans(numbers), "or")
