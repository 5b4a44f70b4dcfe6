"""Fish: a digit that lies, in so many lines of one direction, on as many lines of the other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache, reduce
from itertools import combinations, compress
from operator import or_

import numpy as np
from numpy.typing import NDArray

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import Fish
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.hall import confined_digits, union_of
from grader.reasoning.pairs import has_own_houses
from verifier.puzzle.masks import bits

__all__ = ["JELLYFISH", "MIXED_FISH", "SWORDFISH", "X_WING"]

_WAYS = (("row", "column"), ("column", "row"))
_LINES_ALONE = {(frozenset({one}), frozenset({other})) for one, other in _WAYS}

_PLACES_AT_MOST = 4
"""Of houses of any kinds, those with more places of a digit are too many to hold against one another."""


def find_x_wings(board: Board) -> Iterator[Step]:
    """A digit that two rows have only in the same two columns goes from the rest of these columns.

    In two rows a digit has places in the same two columns only. One row has it in the one column, the
    other in the other, so it goes from the rest of both columns (and the same with rows and columns
    exchanged). X marks where the digit is open, * where it goes::

        X - - - - X - - -    row 1
        * . . . . * . . .
        * . . . . * . . .
        * . . . . * . . .
        X - - - - X - - -    row 5, and so on below

    Yields
    ------
    Step
        First fish in rows, then in columns; in the order of digits, then of lines. Its `houses` are
        first the lines in which the digit is confined, then those it goes from.

    Notes
    -----
    Sound in every solution: two rows hold the digit twice, on two columns, and a column holds it once. Rows
    and columns are one technique.

    Examples
    --------
    In the text of the board, all but the 6 is open where the picture has a dash.

    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... . - - - - . - - -
    ... . . . . . . . . .
    ... . . . . . . . . .
    ... . . . . . . . . .
    ... . - - - - . - - -'''
    >>> step, = find_x_wings(board_from_text(text.replace("-", "12345789")))
    >>> step.focus, [cell for cell, _ in step.removes], step.digits == 1 << 6
    ((0, 5, 36, 41), [9, 14, 18, 23, 27, 32, 45, 50, 54, 59, 63, 68, 72, 77], True)
    """
    return confined_digits(board, "x-wing", 2, _WAYS)


def find_swordfish(board: Board) -> Iterator[Step]:
    """A digit that three rows have only in three columns goes from the rest of these columns.

    In three rows a digit has places in three columns only; not every row need meet all three (and the
    same with rows and columns exchanged). X marks where the digit is open, * where it goes::

        X - - - - X - - -    row 1
        * . * . . * . . .
        * . * . . * . . .
        - - X - - X - - -    row 4
        * . * . . * . . .
        * . * . . * . . .
        X - X - - - - - -    row 7, and so on below

    Yields
    ------
    Step
        In the order of `find_x_wings`.

    Notes
    -----
    Sound in every solution: three rows hold the digit three times, on three columns, and a column holds it
    once.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... . - - - - . - - -
    ... . . . . . . . . .
    ... . . . . . . . . .
    ... - - . - - . - - -
    ... . . . . . . . . .
    ... . . . . . . . . .
    ... . - . - - - - - -'''
    >>> step, = find_swordfish(board_from_text(text.replace("-", "12345789")))
    >>> step.focus, len(step.removes), step.digits == 1 << 6
    ((0, 5, 29, 32, 54, 56), 18, True)
    """
    return confined_digits(board, "swordfish", 3, _WAYS)


def find_jellyfish(board: Board) -> Iterator[Step]:
    """A digit that four rows have only in four columns goes from the rest of these columns.

    In four rows a digit has places in four columns only (and the same with rows and columns exchanged).
    X marks where the digit is open, * where it goes::

        X - - - - X - - -    row 1
        * . * . . * . . *
        - - X - - X - - -    row 3
        * . * . . * . . *
        - - X - - - - - X    row 5
        * . * . . * . . *
        X - - - - - - - X    row 7, and so on below

    Yields
    ------
    Step
        In the order of `find_x_wings`.

    Notes
    -----
    Sound in every solution: four rows hold the digit four times, on four columns, and a column holds it once.
    A 9x9 grid needs no larger fish: what five rows do, the columns left over do with four or fewer.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... . - - - - . - - -
    ... . . . . . . . . .
    ... - - . - - . - - -
    ... . . . . . . . . .
    ... - - . - - - - - .
    ... . . . . . . . . .
    ... . - - - - - - - .'''
    >>> step, = find_jellyfish(board_from_text(text.replace("-", "12345789")))
    >>> step.focus, len(step.removes), step.digits == 1 << 6
    ((0, 5, 20, 23, 38, 44, 54, 62), 20, True)
    """
    return confined_digits(board, "jellyfish", 4, _WAYS)


def find_mixed_fish(board: Board) -> Iterator[Step]:
    """A digit that two or three houses have only in as many others goes from the rest of these.

    The houses are of any kinds: boxes of any shape, diagonals, extra houses and lines. None of the ones
    shares a place of the digit with another of them. Here the falling diagonal and row 4 have it only in
    columns 2 and 3. X marks where the digit is open, * where it goes::

        - * * .
        . X * .
        . * X .
        - X X -    row 4

    Yields
    ------
    Step
        In the order of digits, then of houses. Its `houses` are first those in which the digit is confined,
        then those it goes from.

    Notes
    -----
    Sound in every solution: the ones hold the digit each in a cell of its own, so as often as there are
    others, and each of these holds it once. Rows and columns alone are an X-wing or a swordfish.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.grid import Grid
    >>> diagonal = Grid.square(4).diagonals[:1]
    >>> text = '''
    ... 123 . . .
    ... . . . .
    ... . . . .
    ... 123 . . 123'''
    >>> step = next(find_mixed_fish(board_from_text(text, size=4, houses=diagonal)))
    >>> step.focus, [cell for cell, _ in step.removes]
    ((5, 10, 13, 14), [1, 2, 6, 9])
    """
    if not has_own_houses(board.layout):
        return
    places = board.places()
    for digit in board.layout.grid.all_digits:
        for union, step in _mixed_fish(board.layout, digit, places[digit]):
            if union & board.fresh:
                yield step


@lru_cache(maxsize=1 << 10)
def _mixed_fish(layout: Layout, digit: int, places: int) -> tuple[tuple[int, Step], ...]:
    """Return every fish of a digit over houses of any kinds, which depends on nothing but its places.

    Each comes with the mask of the places that it rests on.
    """
    return tuple(
        (union, step)
        for size in (2, 3)
        for base, union in _bases(layout, places, size)
        for step in _mixed(layout, digit, places, base, union)
    )


def _bases(layout: Layout, places: int, size: int) -> list[tuple[tuple[int, ...], int]]:
    """Return so many houses that share no place and that as many others cover, with their places.

    Only those where one of the others has a place more. Of the thousands of ways to choose the others, few
    hold so many houses whole: all are looked at in one go.
    """
    found = [places & mask for mask in layout.house_masks]
    few = [house for house, mask in enumerate(found) if 2 <= mask.bit_count() <= _PLACES_AT_MOST]
    chosen, covers = _choices(len(found), size)
    held = ~covers[few]
    for word in _words(found, layout.grid.cell_count):
        held &= word[few, np.newaxis] & ~np.bitwise_or.reduce(word[chosen]) == 0
    several = np.flatnonzero(held.sum(axis=0) >= size)
    bases = set()
    for choice, inside in zip(chosen[:, several].T.tolist(), held[:, several].T.tolist(), strict=True):
        covered = reduce(or_, [found[house] for house in choice])
        for base in combinations(compress(few, inside), size):
            union = sum([found[house] for house in base])
            if union != covered and union == reduce(or_, [found[house] for house in base]):
                bases.add((base, union))
    return sorted(bases)


@lru_cache(maxsize=16)
def _choices(count: int, size: int) -> tuple[NDArray[np.intp], NDArray[np.bool_]]:
    """Return every choice of so many of `count` houses, one a column, and by house which of them have it."""
    chosen = np.array(list(combinations(range(count), size)), np.intp).reshape(-1, size).T
    return chosen, (np.arange(count)[:, np.newaxis, np.newaxis] == chosen).any(axis=1)


def _words(masks: Sequence[int], cells: int) -> NDArray[np.uint64]:
    """Return masks of cells, one a column, as words of 64 cells."""
    size = -(-cells // 64) * 8
    words = np.frombuffer(b"".join([mask.to_bytes(size, "little") for mask in masks]), "<u8")
    return np.ascontiguousarray(words.reshape(len(masks), -1).T)


def _mixed(layout: Layout, digit: int, places: int, base: tuple[int, ...], union: int) -> Iterator[Step]:
    """Yield what goes by each way to cover the places of a digit in some houses with as many others."""
    masks = layout.house_masks
    for cover in sorted(set(_covers(layout, union, len(base), base))):
        gone = places & union_of(masks, cover) & ~union
        if gone and (_kinds(layout, base), _kinds(layout, cover)) not in _LINES_ALONE:
            yield Step(
                "mixed-fish",
                removes=tuple((cell, 1 << digit) for cell in bits(gone)),
                rules=(*base, *cover),
                looks=tuple(bits(union_of(masks, base) & ~places)),
                focus=tuple(bits(union)),
                digits=1 << digit,
                pattern=Fish(base, cover),
            )


def _kinds(layout: Layout, houses: Iterable[int]) -> frozenset[str]:
    return frozenset(layout.houses[house].kind for house in houses)


def _covers(layout: Layout, union: int, size: int, base: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Yield so many houses, none of the base, that together hold all of some cells."""
    if not union:
        if not size:
            yield ()
        return
    for house in layout.houses_of[union.bit_length() - 1] if size else ():
        if house not in base:
            for others in _covers(layout, union & ~layout.house_masks[house], size - 1, base):
                yield tuple(sorted((house, *others)))


X_WING = Technique("x-wing", "X-wing", find_x_wings, traits=Trait.FOLLOWS_ITS_DIGITS)
SWORDFISH = Technique("swordfish", "swordfish", find_swordfish, traits=Trait.FOLLOWS_ITS_DIGITS)
JELLYFISH = Technique("jellyfish", "jellyfish", find_jellyfish, traits=Trait.FOLLOWS_ITS_DIGITS)
MIXED_FISH = Technique(
    "mixed-fish", "fish over houses of any kind", find_mixed_fish, traits=Trait.FOLLOWS_ITS_DIGITS
)
