"""The puzzles that went back to their setters: each with a fault that was put in on purpose."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from random import Random

from scripts.setting.broken import Broken, with_givens
from scripts.setting.classics import draw_classic
from scripts.setting.doubts import (
    misprinted_given,
    misprinted_total,
    swapped_totals,
    thinned,
    two_ways,
)
from scripts.setting.grids import full_grid
from scripts.setting.killers import Draft, draw_killer
from scripts.setting.shelf import REJECTED, ShelfFile, single
from scripts.setting.slips import (
    given_against_total,
    given_twice_in_cage,
    given_twice_in_house,
    givens_that_miss_their_total,
    impossible_total,
    missed_full_sum,
    missed_house_sum,
    overgrown_cage,
)
from scripts.shelves.sound import EASY, MIXED, NINE, PAIRS, WIDE, slug, titled
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle

__all__ = ["broken_files"]

FOUR, SIX, TALL_SIX = Grid.square(4), Grid.square(6), Grid.square(6, (3, 2))

_SETTERS = ("Odile", "Jory", "Tamsin", "Ivo", "Wren", "Marigold", "Otis", "Juno")


@cache
def _killer(seed: int, grid: Grid = NINE, bare: float = 0.0) -> tuple[Puzzle, Filling]:
    return draw_killer(grid, Draft(seed, MIXED if bare else EASY, bare))


@cache
def _classic(seed: int, grid: Grid = NINE) -> tuple[Puzzle, Filling]:
    return draw_classic(grid, seed, grid.cell_count // 3)


def _two_faults() -> Broken:
    """Put in an impossible total, and a given twice in a column: both must be told."""
    first = impossible_total(with_givens(_killer(31, bare=0.25)[0], {}), 2, 2)
    second = given_twice_in_house(first.puzzle, "column")
    return Broken(second.puzzle, f"{first.made}; {second.made}", (*first.codes, *second.codes))


def _two_digits_exchanged(puzzle: Puzzle, filling: Filling) -> Broken:
    """Claim a solution in which two cells of a row are exchanged."""
    claim = (filling[1], filling[0], *filling[2:])
    made = "the file's solution has the digits of r1c1 and r1c2 exchanged"
    return Broken(replace(puzzle, solution=claim), made, ("solution-differs",), 1)


def _solution_of_another(puzzle: Puzzle, seed: int) -> Broken:
    """Claim a solution that is a good grid, only not this puzzle's."""
    claim = full_grid(puzzle.grid, Random(seed))
    return Broken(
        replace(puzzle, solution=claim), "the file's solution is another puzzle's", ("solution-differs",), 1
    )


def _one_of_two(seed: int) -> Broken:
    """Claim a solution that obeys every rule of a puzzle that has a second one."""
    puzzle, filling = _killer(seed, SIX)
    loose = two_ways(puzzle, seed)
    return loose._replace(
        puzzle=replace(loose.puzzle, solution=filling), made=f"{loose.made}; one is claimed"
    )


def _wrong_claim_of_two(seed: int) -> Broken:
    """Claim a solution that breaks a rule, in a puzzle that has two."""
    loose = _one_of_two(seed)
    claim = loose.puzzle.solution or ()
    wrong = (claim[1], claim[0], *claim[2:])
    return loose._replace(
        puzzle=replace(loose.puzzle, solution=wrong),
        made="givens and cages were taken out until two were left; the solution claimed is neither",
        codes=("several-solutions", "solution"),
    )


FAULTS: tuple[tuple[str, Callable[[], Broken]], ...] = (
    # Totals and sizes of cages
    ("Wet ink", lambda: impossible_total(_killer(32, bare=0.2)[0], 2, 18)),
    ("Short weight", lambda: impossible_total(_killer(33, bare=0.2)[0], 3, 5)),
    ("Overfull basket", lambda: impossible_total(_killer(34, SIX, 0.2)[0], 2, 12)),
    ("Ten to a boat", lambda: overgrown_cage(_killer(35, bare=0.2)[0])),
    ("Seven to a punt", lambda: overgrown_cage(_killer(36, SIX, 0.2)[0])),
    ("Two blots", _two_faults),
    # Cages that cover the grid, or a house
    ("One too many", lambda: missed_full_sum(_killer(37)[0], 1)),
    ("One too few", lambda: missed_full_sum(_killer(38, SIX)[0], -1)),
    ("Crooked shelf", lambda: missed_house_sum(NINE, "row", 4, 39)),
    ("Leaning mast", lambda: missed_house_sum(NINE, "column", 7, 40)),
    ("Loose lid", lambda: missed_house_sum(NINE, "box", 5, 41)),
    ("Small change", lambda: missed_house_sum(SIX, "row", 2, 42)),
    # Givens that clash
    ("Echo in the row", lambda: given_twice_in_house(_classic(43)[0], "row")),
    ("Echo in the column", lambda: given_twice_in_house(_classic(44)[0], "column")),
    ("Echo in the box", lambda: given_twice_in_house(_classic(45, SIX)[0], "box")),
    ("Twins on deck", lambda: given_twice_in_cage(draw_killer(NINE, Draft(46, WIDE, 0.1))[0])),
    ("False weight", lambda: givens_that_miss_their_total(_killer(47, bare=0.2)[0])),
    ("Square peg", lambda: given_against_total(_killer(48, bare=0.2)[0])),
    # Two solutions, and many
    ("Forked channel", lambda: two_ways(_killer(49)[0], 49)),
    ("Two moons", lambda: two_ways(_classic(50)[0], 50)),
    ("Either oar", lambda: two_ways(_killer(51, SIX)[0], 51)),
    ("Coin toss", lambda: two_ways(_classic(64, FOUR)[0], 64)),
    ("Open water", lambda: thinned(_killer(53)[0], 0.4, 53)),
    ("Blank chart", lambda: thinned(_classic(54)[0], 0.4, 54)),
    # None, which only a search shows
    ("Wrong net", lambda: misprinted_total(_killer(55, bare=0.2)[0], 55)),
    ("Crossed lines", lambda: swapped_totals(_killer(56)[0], 56)),
    ("Smudged page", lambda: misprinted_given(_classic(57)[0], 57)),
    ("Bent nail", lambda: swapped_totals(_killer(58, TALL_SIX)[0], 58)),
    ("Odd sock", lambda: misprinted_given(_classic(84, FOUR)[0], 84)),
    # A solution in the file that is not the puzzle's
    ("Swapped boots", lambda: _two_digits_exchanged(*draw_killer(NINE, Draft(60, PAIRS)))),
    ("Wrong envelope", lambda: _solution_of_another(_killer(61)[0], 161)),
    ("Last week's key", lambda: _solution_of_another(_classic(62)[0], 162)),
    ("Half an answer", lambda: _one_of_two(63)),
    ("Double fog", lambda: _wrong_claim_of_two(67)),
)


def broken_files() -> Iterator[ShelfFile]:
    """Yield the folder ``sent-back``."""
    for number, (title, broken_by) in enumerate(FAULTS, start=1):
        broken = broken_by()
        setter = _SETTERS[number % len(_SETTERS)]
        puzzle = titled(broken.puzzle, f"back-{number:02}", title, setter, broken.puzzle.solution)
        yield single(
            f"sent-back/{slug(title)}.yaml",
            puzzle,
            broken.made,
            form="list" if number % 4 == 0 else "map",
            verdict=REJECTED,
            codes=broken.codes,
            solutions=broken.solutions,
        )
