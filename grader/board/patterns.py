"""Patterns: what a step has seen, as far as its sentence needs more than the cells and digits of the step.

Each is made by the family that finds the step, so that nobody who tells it need guess what was meant.
"""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["ClueSaid", "DeadEnd", "EqualCells", "Fish", "Fork", "Leftovers", "Pattern", "SharedSubset"]


class Fish(NamedTuple):
    """Rules that have a digit only in some houses, or else in the fins.

    Parameters
    ----------
    base, cover : tuple of int
        The houses and cages in which the digit is looked at, and the houses it lies in, by their numbers.
    fins : tuple of int
        The cells of the base outside the cover in which it may stand as well.
    """

    base: tuple[int, ...]
    cover: tuple[int, ...]
    fins: tuple[int, ...] = ()


class SharedSubset(NamedTuple):
    """Digits of a house that some cells share with a cage, or with a sum by the rule of 45.

    Parameters
    ----------
    house : int
        The house.
    cells : int
        Mask of the cells beside the cage or sum; 0 for none.
    part : int
        Mask of the cells of the cage or sum that have no digit.
    hidden : bool
        Whether the digits have no other place in the house, rather than the cells no other digits.
    """

    house: int
    cells: int
    part: int
    hidden: bool


class EqualCells(NamedTuple):
    """How it is used that two cells are equal.

    Parameters
    ----------
    how : str
        Each place of a digit is ``seen`` from one of them, one of them is a ``place`` of the digit, or one
        makes a ``pair`` with another cell.
    home : int or None
        The number of the house or cage that holds the digit; none for a pair.
    line : int or None
        The number of the line that makes them equal; none where a sum does.
    mirrored : tuple of int
        The equal cells on the line.
    """

    how: str
    home: int | None = None
    line: int | None = None
    mirrored: tuple[int, ...] = ()


class Leftovers(NamedTuple):
    """Lines and as many boxes, whose cells that they do not share hold the same digits.

    Parameters
    ----------
    how : str
        What follows here: digits are ``closed`` that the cells there cannot take; a digit that stands there
        is ``placed``, or ``seen`` from all its places.
    lines, boxes : tuple of int
        Their numbers.
    here, there : tuple of int
        The cells of which something follows, and those from which: the ones stick out of the lines, the
        others are left in them.
    known : tuple of int
        The cell there in which the digit stands.
    found : tuple of int
        The cells here that can take it.
    """

    how: str
    lines: tuple[int, ...]
    boxes: tuple[int, ...]
    here: tuple[int, ...]
    there: tuple[int, ...]
    known: tuple[int, ...] = ()
    found: tuple[int, ...] = ()


class Fork(NamedTuple):
    """Of what the lines of a forcing chain start from each possibility.

    Parameters
    ----------
    kind : str
        The candidates of a ``cell``, the places of a ``digit`` or the combinations of a ``cage``.
    cage : int or None
        The number of the cage.
    """

    kind: str
    cage: int | None = None


class DeadEnd(NamedTuple):
    """Where digits lead nowhere.

    Parameters
    ----------
    kind : str
        A ``cell`` that nothing is left for, a ``house`` without a place for a digit, a ``cage`` without a
        combination, a ``clue`` that cannot be filled, a ``clash`` of a digit with the only cell left for it.
    where : int
        The cell, or the number of the house, cage or clue.
    digit : int
        The digit of a house or a clash; 0 where none is meant.
    """

    kind: str
    where: int
    digit: int = 0


class ClueSaid(NamedTuple):
    """What is said of a mark, a line or a clue at the edge; which fields count depends on what is said.

    Parameters
    ----------
    clue : int
        Its number in the layout.
    how : str
        Which sentence tells it.
    bound, number, total : int
        How far it goes, how many cells or digits that takes, and what they make.
    cells : tuple of int
        The cells, beside those of the step, that are named.
    digits : int
        Mask of the digits that are named, where they are not those of the step.
    ways : tuple of tuple of int
        The digits of each way that is left.
    ends : tuple of DeadEnd
        Where these ways lead nowhere.
    """

    clue: int
    how: str
    bound: int = 0
    number: int = 0
    total: int = 0
    cells: tuple[int, ...] = ()
    digits: int = 0
    ways: tuple[tuple[int, ...], ...] = ()
    ends: tuple[DeadEnd, ...] = ()


Pattern = Fish | SharedSubset | EqualCells | Leftovers | Fork | ClueSaid
