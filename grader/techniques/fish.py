"""Fish: a digit that lies, in so many lines of one direction, on as many lines of the other."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.hall import confined_digits

__all__ = ["JELLYFISH", "SWORDFISH", "X_WING"]

_WAYS = (("row", "column"), ("column", "row"))


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


X_WING = Technique("x-wing", "X-wing", find_x_wings, traits=Trait.FOLLOWS_ITS_DIGITS)
SWORDFISH = Technique("swordfish", "swordfish", find_swordfish, traits=Trait.FOLLOWS_ITS_DIGITS)
JELLYFISH = Technique("jellyfish", "jellyfish", find_jellyfish, traits=Trait.FOLLOWS_ITS_DIGITS)
