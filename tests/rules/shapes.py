"""Grids whose houses are not the usual ones, built by hand, and the plainest way to count their fillings."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, in_order, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["IRREGULAR_6", "SHAPES", "SIX", "fillings_of", "lines", "solved_by"]


def lines(size: int) -> tuple[House, ...]:
    """The rows and columns of a grid."""
    return tuple(house for house in Grid.square(size).houses if house.kind != "box")


def mapped(kind: str, drawn: str) -> tuple[House, ...]:
    """The houses of a map: one mark a cell, '.' for none; numbered in the order of their first cells."""
    cells = drawn.split()
    marks = dict.fromkeys(mark for mark in cells if mark != ".")
    return tuple(
        House(kind, number, tuple(cell for cell, own in enumerate(cells) if own == mark))
        for number, mark in enumerate(marks, start=1)
    )


def solved_by(puzzle: Puzzle, *rules: Rule) -> Puzzle:
    """The puzzle with more rules."""
    return replace(puzzle, rules=in_order([*puzzle.rules, *rules]))


FOUR = Grid.square(4)
NO_BOXES = Grid(4, 4, 0, 0, 4)
SIX = Grid(6, 6, 0, 0, 6)

IRREGULAR_4 = mapped("box", "a a b b  a c c b  a c d b  c d d d")
IRREGULAR_6 = mapped("box", "a a a b b b  a a b b b c  a d d c c c  e d d d d c  e e e f f c  e e f f f f")

KAKURO = Grid(3, 4, 0, 0, 9, blocked=(0, 1, 4, 11))
"""A kakuro: two cells on top, three across, three below; its digits are 1 to 9."""

SHAPES: dict[str, Callable[[], Puzzle]] = {
    "no boxes": lambda: make_puzzle("classic", NO_BOXES, houses=lines(4)),
    "irregular boxes": lambda: make_puzzle("classic", NO_BOXES, houses=(*lines(4), *IRREGULAR_4)),
    "diagonals": lambda: make_puzzle("classic", FOUR, houses=(*FOUR.houses, *FOUR.diagonals)),
    "one diagonal": lambda: make_puzzle("classic", NO_BOXES, houses=(*lines(4), FOUR.diagonals[1])),
    "an extra house": lambda: make_puzzle(
        "classic", FOUR, houses=(*FOUR.houses, House("extra house", 1, (5, 6, 9, 10)))
    ),
    "two extra houses that overlap": lambda: make_puzzle(
        "classic",
        FOUR,
        houses=(
            *FOUR.houses,
            House("extra house", 1, (0, 1, 4, 10)),
            House("extra house", 2, (0, 2, 5, 14)),
        ),
    ),
    "a blocked cell": lambda: make_puzzle(
        "classic", Grid(2, 4, 0, 0, 4, blocked=(5,)), houses=(House("row", 1, (0, 1, 2, 3)),)
    ),
    "houses shorter than the digits": lambda: make_puzzle(
        "classic",
        Grid(2, 3, 0, 0, 5),
        houses=(House("row", 1, (0, 1, 2)), House("row", 2, (3, 4, 5)), House("column", 1, (0, 3))),
    ),
    "cells that differ without a house": lambda: solved_by(
        make_puzzle("killer", NO_BOXES, houses=lines(4)), Different((0, 5, 10)), Different((3, 6))
    ),
    "a cage that repeats": lambda: solved_by(
        make_puzzle("killer", FOUR), LinearSum(((1, 1), (4, 1), (6, 1), (9, 1)), 6)
    ),
    "a weighted sum": lambda: solved_by(make_puzzle("classic", FOUR), LinearSum(((0, 2), (5, -1)), 0)),
    "a cell in two cages": lambda: make_puzzle(
        "killer", FOUR, cages=[Cage((0, 1, 4), 7), Cage((1, 2, 6), 7), Cage((13, 14), 5)]
    ),
    "a kakuro": lambda: make_puzzle(
        "kakuro",
        KAKURO,
        houses=(),
        cages=[
            *(Cage(cells, total) for cells, total in [((2, 3), 4), ((5, 6, 7), 23), ((8, 9, 10), 8)]),
            *(Cage(cells, total) for cells, total in [((5, 9), 11), ((2, 6, 10), 14), ((3, 7), 9)]),
        ],
    ),
}
"""One puzzle of each shape, by what is unusual about it; each has few enough fillings to count them all."""


def fillings_of(puzzle: Puzzle, most: int = 10_000) -> list[Filling]:
    """All that obeys the rules, cell by cell in reading order, told by the rules' own `holds` alone."""
    return list(islice(_completed(puzzle, ()), most))


def _completed(puzzle: Puzzle, so_far: Filling) -> Iterator[Filling]:
    grid = puzzle.grid
    if len(so_far) == grid.cell_count:
        yield so_far
        return
    for digit in (0,) if len(so_far) in grid.blocked else grid.all_digits:
        longer = (*so_far, digit)
        if all(_may_hold(rule, longer) for rule in puzzle.rules if len(so_far) in rule.cells):
            yield from _completed(puzzle, longer)


def _may_hold(rule: Rule, so_far: Filling) -> bool:
    """Whether a rule holds, as far as that can be said: houses and cells that differ at any time."""
    if isinstance(rule, House | Different):
        known = [so_far[cell] for cell in rule.cells if cell < len(so_far)]
        return len(set(known)) == len(known)
    return max(rule.cells) >= len(so_far) or rule.holds(so_far)
