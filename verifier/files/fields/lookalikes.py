"""Characters that look like others: letters typed for figures, and marks that are taken for one another."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["DISTINCT_LETTERS", "alike", "misread", "outline"]

_FIGURE_OF = dict(zip("lIiOoSsZzB", "1110055228", strict=True))
"""The figure for which a letter is typed, or taken by a scanner."""

_LONGEST_NUMBER = 6  # characters; no grid needs a number of more

_SHAPES = ("l1I|", "ij", "oO0Q", "sS5", "zZ2", "B8", "cC", "kK", "pP", "uU", "vV", "wW", "xX")
"""Signs that look alike in print or in handwriting; none stands in two groups."""

_SHAPE_OF = {sign: signs[0] for signs in _SHAPES for sign in signs}

DISTINCT_LETTERS = "abcdefghiklmnopqrstuvwxyzABDEFGHJLMNRTY"
"""Letters of which none is taken for another, small ones first."""


class Misread(NamedTuple):
    """What a word with letters in it was probably meant to be."""

    meant: str
    letters: tuple[tuple[str, str], ...]


def misread(word: str) -> Misread | None:
    """Return the number that a word with letters in it looks like; None for any other word.

    Examples
    --------
    >>> misread("l3")
    Misread(meant='13', letters=(('l', '1'),))
    >>> misread("2O").meant, misread("nine"), misread("13"), misread("OO7")
    ('20', None, None, None)
    """
    if len(word) > _LONGEST_NUMBER:
        return None
    meant = "".join(_FIGURE_OF.get(sign, sign) for sign in word)
    letters = tuple(dict.fromkeys((sign, _FIGURE_OF[sign]) for sign in word if sign in _FIGURE_OF))
    is_number = meant.isascii() and meant.isdecimal() and str(int(meant)) == meant
    return Misread(meant, letters) if letters and is_number else None


def alike(mark: str, other: str) -> bool:
    """Whether two different marks look alike: the same signs, but for some that are taken for one another.

    Examples
    --------
    >>> alike("l", "1"), alike("O", "0"), alike("i", "j"), alike("a1", "al"), alike("a", "b"), alike("a", "a")
    (True, True, True, True, False, False)
    """
    return mark != other and outline(mark) == outline(other)


def outline(mark: str) -> str:
    """Return what is the same for all marks that look alike."""
    return "".join(_SHAPE_OF.get(sign, sign) for sign in mark)
