"""Finned fish: fish but for a few places, the fins, which all lead to the same."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache, reduce
from itertools import combinations
from operator import and_, or_
from typing import NamedTuple

from grader.board.basis import Basis, seen_by_all, sights
from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import Fish
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.needed_cells import closed_by_each
from grader.reasoning.hall import hall_sets, houses_met, union_of
from verifier.puzzle.masks import bits, mask_of

__all__ = ["FINNED_JELLYFISH", "FINNED_SWORDFISH", "FINNED_X_WING"]

_WAYS = (("row", "column"), ("column", "row"))

_FIN_LINES_AT_MOST = 2
"""Lines beside those of the fish on which its fins may lie: as many as a box of a 9x9 grid has left."""


def find_finned_x_wings(board: Board) -> Iterator[Step]:
    """An X-wing but for a few more places, the fins: the digit goes from cells that see these too.

    In two rows a digit has places in two columns, and a few more, the fins. Either a fin holds it, or the
    X-wing stands; so it goes from the cells of both columns that see every fin. If a row has no more than one
    place beside the fins, the fish is called sashimi (and the same with rows and columns exchanged). X marks
    where the digit is open, F the fin, * where it goes::

        X F - - - X - - -    row 1
        * . . . . . . . .
        * . . . . . . . .
        . . . . . . . . .
        X - - - - X - - -    row 5, and so on below

    Yields
    ------
    Step
        First fish in rows, then in columns; in the order of digits, then of lines. Its `houses` are
        first the lines in which the digit is looked at, then those it goes from, then why the fins are
        seen. Its `focus` has the fins among the other places.

    Notes
    -----
    Sound in every solution: if a fin holds the digit, no cell that sees it does; if none does, the two rows
    have it on two columns, and these have it nowhere else. Fins lie on no more than two further lines.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... . . - - - . - - -
    ... . . . . . . . . .
    ... . . . . . . . . .
    ... . . . . . . . . .
    ... . - - - - . - - -'''
    >>> step, = find_finned_x_wings(board_from_text(text.replace("-", "12345789")))
    >>> step.focus, step.removes == ((9, 1 << 6), (18, 1 << 6))
    ((0, 1, 5, 36, 41), True)
    """
    return _finned_fish(board, "finned-x-wing", 2)


def find_finned_swordfish(board: Board) -> Iterator[Step]:
    """A swordfish but for a few more places, the fins: the digit goes from cells that see these too.

    In three rows a digit has places in three columns, and a few more, the fins; some row may have one place
    only beside the fins (sashimi). It goes from the cells of the three columns that see every fin (and the
    same with rows and columns exchanged). X marks where the digit is open, F the fins, * where it goes::

        X - - - - X - - -    row 1
        . . . . . . . . .
        . . . . . . . . .
        - F X - - X - - -    row 4
        * . * . . . . . .
        * . * . . . . . .
        X - X - - - - - -    row 7, and so on below

    Yields
    ------
    Step
        In the order of `find_finned_x_wings`.

    Notes
    -----
    Sound in every solution, as the finned X-wing, with three lines for two.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... . - - - - . - - -
    ... . . . . . . . . .
    ... . . . . . . . . .
    ... - . . - - . - - -
    ... . . . . . . . . .
    ... . . . . . . . . .
    ... . - . - - - - - -'''
    >>> step, = find_finned_swordfish(board_from_text(text.replace("-", "12345789")))
    >>> step.focus, [cell for cell, _ in step.removes]
    ((0, 5, 28, 29, 32, 54, 56), [36, 38, 45, 47])
    """
    return _finned_fish(board, "finned-swordfish", 3)


def find_finned_jellyfish(board: Board) -> Iterator[Step]:
    """A jellyfish but for a few more places, the fins: the digit goes from cells that see these too.

    In four rows a digit has places in four columns, and a few more, the fins; some row may have one place
    only beside the fins (sashimi). It goes from the cells of the four columns that see every fin (and the
    same with rows and columns exchanged). X marks where the digit is open, F the fin, * where it goes::

        X F - - - X - - -    row 1
        * . . . . . . . .
        - - X - - X - - -    row 3
        . . . . . . . . .
        - - X - - - - - X    row 5
        . . . . . . . . .
        X - - - - - - - X    row 7, and so on below

    Yields
    ------
    Step
        In the order of `find_finned_x_wings`.

    Notes
    -----
    Sound in every solution, as the finned X-wing, with four lines for two.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... . . - - - . - - -
    ... . . . . . . . . .
    ... - - . - - . - - -
    ... . . . . . . . . .
    ... - - . - - - - - .
    ... . . . . . . . . .
    ... . - - - - - - - .'''
    >>> step = next(find_finned_jellyfish(board_from_text(text.replace("-", "12345789"))))
    >>> step.focus, step.removes == ((9, 1 << 6), (11, 1 << 6))
    ((0, 1, 5, 20, 23, 38, 44, 54, 62), True)
    """
    return _finned_fish(board, "finned-jellyfish", 4)


def _finned_fish(board: Board, technique: str, size: int) -> Iterator[Step]:
    layout, places = board.layout, board.places()
    for confined, to in _WAYS:
        for digit in layout.grid.all_digits:
            for fish in _fish(layout, places[digit], confined, to, size):
                if fish.inside & board.fresh:  # else what it tells has been told
                    yield _step(board, technique, digit, places[digit], fish)


class _Fish(NamedTuple):
    """A finned fish that removes something.

    Parameters
    ----------
    base : tuple of int
        The lines in which a digit is looked at.
    inside : int
        Mask of their cells.
    cover, fin_lines : int
        Masks of the lines that it goes from, and of those on which its other places in the base are fins.
    """

    base: tuple[int, ...]
    inside: int
    cover: int
    fin_lines: int


@lru_cache(maxsize=1 << 9)
def _fish(layout: Layout, places: int, confined: str, to: str, size: int) -> tuple[_Fish, ...]:
    """Return the finned fish of a digit, given by its places: as long as they stay, so do its fish."""
    lines = houses_met(layout, places, confined, to)
    met_by, seeing = dict(lines), _Seeing(layout, places, lines)
    found = []
    for fin_lines in range(1, _FIN_LINES_AT_MOST + 1):
        for base, met in hall_sets(lines, size, spare=fin_lines):
            inside = union_of(layout.house_masks, base)
            seen_by = seeing.fins(base, inside)
            for chosen in combinations(seen_by, fin_lines) if seen_by else ():
                seen = reduce(and_, [seen_by[line] for line in chosen])
                fins = mask_of(chosen)
                cover = met & ~fins if seen else 0
                # Each line of the fish must meet one that is left.
                if seen & union_of(layout.house_masks, bits(cover)) and all(
                    met_by[line] & cover for line in base
                ):
                    found.append(_Fish(base, inside, cover, fins))
    return tuple(found)


class _Seeing:
    """Where the places of a digit on a line across, as far as some lines hold them, are all seen from.

    Few of the many choices of lines have fins that do anything. So all lines across are looked at in one
    operation: what is seen by the place where a line crosses each of them stands side by side in one number.

    Parameters
    ----------
    layout : Layout
        Houses, and who sees whom.
    places : int
        Mask of the places of the digit.
    lines : sequence of (int, int)
        What `houses_met` returns.
    """

    def __init__(self, layout: Layout, places: int, lines: Sequence[tuple[int, int]]) -> None:
        self._cells = layout.grid.cell_count
        self._every = layout.all_cells
        self._across = list(bits(reduce(or_, [met for _, met in lines], 0)))
        self._seen: dict[int, int] = {}
        self._met: dict[int, int] = {}
        for line, met in lines:
            seen = held = 0
            for field, other in enumerate(self._across):
                masks = layout.house_masks[line], layout.house_masks[other]
                beside = (
                    places & ~masks[1] & seen_by_all(layout, places & masks[0] & masks[1])
                    if met >> other & 1
                    else self._every
                )
                seen |= beside << field * self._cells
                held |= (met >> other & 1) * self._every << field * self._cells
            self._seen[line], self._met[line] = seen, held
        self._spread = sum([1 << field * self._cells for field in range(len(self._across))])

    def fins(self, base: Sequence[int], inside: int) -> dict[int, int]:
        """Return the lines across on which fins of a base do something, with the places that see them all."""
        seen, met = (self._every & ~inside) * self._spread, 0
        for line in base:
            seen &= self._seen[line]
            met |= self._met[line]
        seen &= met
        if not seen:
            return {}
        fields = [seen >> field * self._cells & self._every for field in range(len(self._across))]
        return {line: field for line, field in zip(self._across, fields, strict=True) if field}


def _step(board: Board, technique: str, digit: int, places: int, fish: _Fish) -> Step:
    layout, (base, inside, cover, fin_lines) = board.layout, fish
    covered = union_of(layout.house_masks, bits(cover))
    fins = places & inside & union_of(layout.house_masks, bits(fin_lines))
    gone = places & covered & ~inside & seen_by_all(layout, fins)
    links = sights(layout, Basis(), [(1 << cell, fins) for cell in bits(gone)])
    removes = tuple((cell, 1 << digit) for cell in bits(gone))
    return Step(
        technique,
        removes=removes,
        rules=(*base, *bits(cover), *bits(links.rules)),
        looks=tuple(bits(inside & ~covered & ~closed_by_each(layout, removes, digit, links))),
        focus=tuple(bits(places & inside)),
        digits=1 << digit,
        pattern=Fish(base, tuple(bits(cover)), tuple(bits(fins))),
    )


FINNED_X_WING = Technique("finned-x-wing", "finned X-wing", find_finned_x_wings)
FINNED_SWORDFISH = Technique("finned-swordfish", "finned swordfish", find_finned_swordfish)
FINNED_JELLYFISH = Technique("finned-jellyfish", "finned jellyfish", find_finned_jellyfish)
