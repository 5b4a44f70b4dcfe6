"""Whole numbers and digits on the command line."""

from __future__ import annotations

import re
from collections.abc import Callable

import typer

from verifier.cli import wording
from verifier.puzzle.printable import filled

__all__ = ["LARGEST_GRID", "MOST_SECONDS", "digits_in", "range_in", "whole_number"]

LARGEST_GRID = 25
"""The largest grid that puzzles come in."""

MOST_SECONDS = 604_800
"""The longest time for one puzzle that can be asked for: a week."""

_FIGURES = re.compile(r"[0-9]{1,9}\Z", re.ASCII)


def whole_number(least: int, most: int) -> Callable[[str | int], int]:
    """Return the parser of an option that takes a whole number.

    Examples
    --------
    >>> whole_number(1, 9)("7")
    7
    >>> whole_number(1, 9)("seven")
    Traceback (most recent call last):
        ...
    typer._click.exceptions.BadParameter: found 'seven'; allowed: a whole number from 1 to 9.
    """

    def parse(given: str | int) -> int:
        word = str(given)  # a default comes as a number
        if not _FIGURES.match(word) or not least <= int(word) <= most:
            raise typer.BadParameter(filled(wording.NOT_A_NUMBER, word=word, least=least, most=most))
        return int(word)

    return parse


def range_in(word: str) -> tuple[int, int]:
    """Return the least and the most that a word names: ``150-200``.

    Raises
    ------
    typer.BadParameter
        If something else stands there.

    Examples
    --------
    >>> range_in("150-200")
    (150, 200)
    """
    parts = word.strip().split("-")
    if len(parts) != 2 or not all(map(_FIGURES.match, parts)) or int(parts[0]) > int(parts[1]):
        raise typer.BadParameter(filled(wording.NOT_AN_EFFORT, word=word))
    return int(parts[0]), int(parts[1])


def digits_in(word: str, largest: int) -> tuple[int, ...]:
    """Return the digits of a word, each once: ``789``, or with commas or spaces where digits go above 9.

    Raises
    ------
    typer.BadParameter
        If something else stands there, or a digit that the grid does not have.

    Examples
    --------
    >>> digits_in("789", 9), digits_in("10, 12", 16), digits_in("12", 16)
    ((7, 8, 9), (10, 12), (12,))
    """
    divided = re.split(r"[,\s]+", word.strip())
    parts = list(divided[0]) if len(divided) == 1 and largest < 10 else divided
    if not all(_FIGURES.match(part) and 1 <= int(part) <= largest for part in parts):
        raise typer.BadParameter(wording.not_digits(word, largest))
    return tuple(sorted({int(part) for part in parts}))
