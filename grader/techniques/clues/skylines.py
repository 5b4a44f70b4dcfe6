"""Clues at the edge that count what is seen from there, each digit a building of that height."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from grader.reasoning.clues.machines import MACHINES
from grader.reasoning.clues.ways import ClueWays
from verifier.puzzle.rules.edge.skyscraper import Skyscraper

__all__ = ["HIGHEST_PLACES", "SEEN_HEIGHTS"]

_PLACES_AT_MOST = 4
"""A person goes through no more places of the highest digit."""


def find_seen_heights(board: Board) -> Iterator[Step]:
    """The nearer to the edge, the lower a digit must be for as many to be seen as the clue asks.

    Before it there are so many cells, and behind it only higher ones are seen. If one is seen, the highest
    stands first; if all are, they rise all along. With 4 to be seen from the left::

        row 1    before  123456789 123456789 123456789 123456789    after  123456 1234567 12345678 123456789

    Yields
    ------
    Step
        In the order of the clues and of their cells. `focus` is the cell.

    Notes
    -----
    Sound in every solution: seen are at most the cells before a digit, itself, and the digits above it. A
    first cell that is not the highest does not hide it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("", size=4, clues=[Skyscraper((0, 1, 2, 3), 3)])
    >>> [(step.focus, digits_of(step.digits)) for step in find_seen_heights(board)]
    [((0,), (3, 4)), ((1,), (4,))]
    """
    yield from clue_steps(board, "seen-heights", {Skyscraper: _too_high})


def _too_high(clue: Clue) -> Iterator[ClueFinding]:
    count, top = clue.rule.count, clue.digits
    if clue.house is None:
        return
    if count == 1:
        first = clue.cells[0]
        if gone := clue.open_in(first, clue.below(top)):
            yield ClueFinding(((first, gone),), (), clue.says("sees-one", bound=top), (clue.house,))
        return
    for before, cell in enumerate(clue.cells):
        most = top - count + 1 + before
        if gone := clue.open_in(cell, clue.above(most)):
            how = "sees-all" if count == top else "too-high-first" if not before else "too-high"
            said = clue.says(how, bound=most, number=before, total=count)
            yield ClueFinding(((cell, gone),), (), said, (clue.house,))


def find_highest_places(board: Board) -> Iterator[Step]:
    """The highest digit hides all behind it, so as many as the clue asks must be seen up to its place.

    Where too few or too many would be seen before it, it cannot stand; and a digit goes that fits with none
    of its few places. With 2 to be seen from the left of a row of four, the 4 in r1c4 would have two or three
    seen before it, so it is in r1c3, with the higher of two digits first::

        row 1    before  12 123 234 34    after  2 1 4 3

    Yields
    ------
    Step
        In the order of the clues; one for each where the highest has four places or fewer. `focus` is the
        cells that lose something.

    Notes
    -----
    Sound in every solution: the highest digit has one of these places; nothing behind it is seen, and it is
    seen itself. For each place, all ways to fill the cells before it have been gone through.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("12 123 234 34", size=4, clues=[Skyscraper((0, 1, 2, 3), 2)])
    >>> [[(cell, digits_of(gone)) for cell, gone in step.removes] for step in find_highest_places(board)]
    [[(0, (1,)), (1, (2, 3)), (2, (2, 3)), (3, (4,))]]
    """
    yield from clue_steps(board, "highest-places", {Skyscraper: _by_places})


def _by_places(clue: Clue) -> Iterator[ClueFinding]:
    top = 1 << clue.digits
    places = [place for place, cell in enumerate(clue.cells) if clue.candidates[cell] & top]
    if clue.house is None or clue.rule.count < 2 or not 0 < len(places) <= _PLACES_AT_MOST:
        return
    before = {place: _before(clue, place) for place in places}
    kept = dict.fromkeys(clue.cells, 0)
    for place, ways in before.items():
        for at, cell in enumerate(clue.cells if ways.found else ()):
            kept[cell] |= ways.kept[cell] if at < place else top if at == place else ~top
    removes = tuple((cell, gone) for cell, keep in kept.items() if (gone := clue.open_in(cell, ~keep)))
    left = tuple(clue.cells[place] for place, ways in before.items() if ways.found)
    if removes and left:
        said = clue.says("highest-in", bound=clue.digits, total=clue.rule.count, cells=left)
        yield ClueFinding(removes, clue.cells, said, (clue.house,))


def _before(clue: Clue, place: int) -> ClueWays:
    """Return the ways to fill the cells before a place so that one fewer is seen than the clue asks."""
    cells = clue.cells[:place]
    candidates = {cell: clue.candidates[cell] & ~(1 << clue.digits) for cell in cells}
    machine = MACHINES[Skyscraper](Skyscraper(cells, clue.rule.count - 1), candidates, clue.digits)
    return ClueWays(clue.layout, machine, candidates, rules=frozenset())


SEEN_HEIGHTS = Technique("seen-heights", "heights near the edge", find_seen_heights)
HIGHEST_PLACES = Technique("highest-places", "places of the highest", find_highest_places)
