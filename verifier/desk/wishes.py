"""What the page asks for: a message from outside, of which every part is looked at before it is used."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from typing import Any

from verifier.desk import wording
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import filled

__all__ = ["PageWish", "RefusedError", "wish_in"]


class RefusedError(Exception):
    """A wish that cannot be fulfilled; its text tells the setter why."""


class PageWish:
    """One message of the page.

    Parameters
    ----------
    facts : mapping
        What it says; nothing about it is known but that its keys are texts.

    Examples
    --------
    >>> wish = PageWish({"do": "given", "cells": [0, 5], "digit": 3})
    >>> wish.cells(Grid.square(4)), wish.number("digit", 1, 4)
    ((0, 5), 3)
    >>> wish.number("digit", 1, 2)
    Traceback (most recent call last):
    verifier.desk.wishes.RefusedError: The digit is 3; it must be a whole number from 1 to 2.
    """

    MOST_NUMBER = 100_000
    """No total is larger; a number of a million figures must not be made into one."""

    def __init__(self, facts: Mapping[str, Any]) -> None:
        self._facts = facts

    def __contains__(self, key: str) -> bool:
        return self._facts.get(key) is not None

    @property
    def name(self) -> str:
        """What is to be done."""
        return self.text("do", 40)

    def cells(self, grid: Grid, *, blocked: bool = False) -> tuple[int, ...]:
        """Return cells of a grid in the order in which they were named, each once, at least one.

        Blocked cells are refused unless they are asked for.
        """
        named = self._facts.get("cells")
        if not isinstance(named, list) or not named:
            raise RefusedError(wording.NO_CELLS)
        cells = [cell for cell in named if type(cell) is int and 0 <= cell < grid.cell_count]
        barred = set() if blocked else set(grid.blocked)
        if len(cells) < len(named) or len(set(cells)) < len(cells) or barred.intersection(cells):
            raise RefusedError(wording.STRANGE_CELLS)
        return tuple(cells)

    def number(self, key: str, least: int = 0, most: int = MOST_NUMBER) -> int:
        """Return a whole number, which may have come as text."""
        said = self._facts.get(key)
        if isinstance(said, str) and said.isascii() and said.strip().isdigit() and len(said) < 9:
            said = int(said)
        if type(said) is not int or not least <= said <= most:
            raise RefusedError(
                filled(wording.NOT_SUCH_A_NUMBER, what=key, said=str(said)[:40], least=least, most=most)
            )
        return said

    def row(self, key: str, length: int) -> list[int]:
        """Return a list of so many whole numbers."""
        said = self._facts.get(key)
        if not isinstance(said, list) or len(said) != length or any(type(each) is not int for each in said):
            raise RefusedError(wording.NO_WISH)
        return said

    def text(self, key: str, most: int) -> str:
        """Return a text on one line."""
        said = self._facts.get(key)
        if not isinstance(said, str) or len(said) > most:
            raise RefusedError(filled(wording.NOT_SUCH_A_TEXT, what=key, most=most))
        return said

    def one_of(self, key: str, words: Collection[str]) -> str:
        """Return one of some words."""
        said = self.text(key, 100)
        if said not in words:
            raise RefusedError(filled(wording.NOT_SUCH_A_WORD, what=key, said=said))
        return said

    def yes(self, key: str) -> bool:
        """Whether something is wanted."""
        return self._facts.get(key) is True

    def words(self, key: str, most: int = 10) -> list[str]:
        """Return a list of short words."""
        said = self._facts.get(key)
        if not isinstance(said, list) or len(said) > most or not all(isinstance(word, str) for word in said):
            raise RefusedError(filled(wording.NOT_SUCH_A_TEXT, what=key, most=most))
        return [word[:40] for word in said]


def wish_in(text: str) -> PageWish:
    """Return the wish in a message.

    Raises
    ------
    RefusedError
        If the message is none.
    """
    try:
        facts = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise RefusedError(wording.NO_WISH) from error
    if not isinstance(facts, dict):
        raise RefusedError(wording.NO_WISH)
    return PageWish(facts)
