"""All ways to fill one clue: where few are left, and, last of all, where one must write them down."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import reduce
from operator import and_

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.assignments import differing
from grader.reasoning.clues.around import gone_around
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from grader.reasoning.clues.machines import MACHINES
from grader.reasoning.clues.narrow import few_ways
from grader.reasoning.clues.ways import ClueWays
from verifier.puzzle.masks import bits, mask_of

__all__ = ["CLUE_ARRANGEMENTS", "FEW_CLUE_WAYS"]

_CELLS_AT_MOST = 9
"""Ways to fill more cells without a digit nobody writes down,"""
_OPEN_AT_MOST = 81
"""nor of cells in which more digits are open, one cell with the other."""


def find_few_clue_ways(board: Board) -> Iterator[Step]:
    """A clue that can be filled in only a few ways leaves its cells what these put there.

    Up to seven empty cells, and up to eight ways. A digit that stands in all of them goes as well from what
    sees it in each of them. On a renban of r1c1 to r1c3::

        row 1    before  57 6 678    after  57 6 78    (5-7 or 7-8)

    Yields
    ------
    Step
        In the order of the kinds of clues and of the clues; what goes from their cells, then what goes around
        them. `focus` is the cells that lose something, or the places of the digit.

    Notes
    -----
    Sound in every solution: the clue is filled in one of these ways; cells that see each other differ.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> from verifier.puzzle.rules.lines.renban import Renban
    >>> step = next(find_few_clue_ways(board_from_text("57 6 678", clues=[Renban((0, 1, 2))])))
    >>> step.pattern.ways, [(cell, digits_of(gone)) for cell, gone in step.removes]
    (((5, 7), (7, 8)), [(2, (6,))])
    """
    yield from clue_steps(board, "few-clue-ways", dict.fromkeys(MACHINES, _few))


def _few(clue: Clue) -> Iterator[ClueFinding]:
    empty, ways = few_ways(clue.layout, clue.number, clue.candidates)
    if not ways:
        return
    kept = {cell: mask_of(held) for cell, held in zip(empty, zip(*ways, strict=True), strict=True)}
    removes = _removes(clue, kept)
    apart = differing(clue.layout, clue.cells)
    said = clue.says("few-ways", cells=empty, ways=ways)
    if removes:
        yield ClueFinding(removes, clue.cells, said, _needed(clue, removes, apart))
    for digit in bits(reduce(and_, (mask_of(way) for way in ways))):
        by_way = [
            mask_of(cell for cell, held in zip(empty, way, strict=True) if held == digit) for way in ways
        ]
        for found in gone_around(clue, digit, "few-ways-around", by_way=by_way):
            said = found.said._replace(cells=empty, ways=ways)
            yield found._replace(said=said, apart={*found.apart, *apart})


def _removes(clue: Clue, kept: Mapping[int, int]) -> tuple[tuple[int, int], ...]:
    return tuple((cell, gone) for cell, keep in kept.items() if (gone := clue.open_in(cell, ~keep)))


def _needed(clue: Clue, removes: tuple[tuple[int, int], ...], apart: Sequence[int]) -> Sequence[int]:
    """Return why cells of a clue differ that see each other; nothing where as much goes if they need not."""
    if (
        apart
        and _removes(clue, ClueWays.of_clue(clue, MACHINES[type(clue.rule)], seeing=False).kept) == removes
    ):
        return ()
    return apart


def find_clue_arrangements(board: Board) -> Iterator[Step]:
    """Of all ways to fill a clue, what none of them has goes.

    As where few ways are left, but there may be any number of them. A skyscraper clue of 2 that looks
    from the left::

        row 1 of a 4x4    before  2 13 134 134    after  2 1 4 3

    Yields
    ------
    Step
        In the order of the kinds of clues and of the clues, up to nine empty cells. `focus` is the cells that
        lose something.

    Notes
    -----
    Sound in every solution: the clue is filled in one of these ways; cells that see each other differ.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> from verifier.puzzle.rules.edge.skyscraper import Skyscraper
    >>> board = board_from_text("2 13 134 134", size=4, clues=[Skyscraper((0, 1, 2, 3), 2)])
    >>> [[(cell, digits_of(gone)) for cell, gone in step.removes] for step in find_clue_arrangements(board)]
    [[(1, (3,)), (2, (1, 3)), (3, (1, 4))]]
    """
    yield from clue_steps(board, "clue-arrangements", dict.fromkeys(MACHINES, _all))


def _all(clue: Clue) -> Iterator[ClueFinding]:
    empty = tuple(cell for cell in clue.cells if clue.candidates[cell].bit_count() > 1)
    open_there = sum(clue.candidates[cell].bit_count() for cell in empty)
    if not 0 < len(empty) <= _CELLS_AT_MOST or open_there > _OPEN_AT_MOST:
        return
    filled = ClueWays.of_clue(clue, MACHINES[type(clue.rule)])
    removes = _removes(clue, filled.kept) if filled.found else ()
    if removes:
        apart = _needed(clue, removes, differing(clue.layout, clue.cells))
        yield ClueFinding(removes, clue.cells, clue.says("all-ways", cells=empty), apart)


FEW_CLUE_WAYS = Technique("few-clue-ways", "few ways to fill a clue", find_few_clue_ways)
CLUE_ARRANGEMENTS = Technique("clue-arrangements", "arrangements of a clue", find_clue_arrangements)
