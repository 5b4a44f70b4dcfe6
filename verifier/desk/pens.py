"""What can be drawn beside givens and cages: for each rule, what the setter says besides its cells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from verifier.desk.wishes import PageWish
from verifier.files.fields.clues import CLUES
from verifier.files.fields.whole_grid import WHOLE_GRID
from verifier.files.rulebook.entries import rulebook
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.lines.arrow import Arrow

__all__ = ["PENS_OF_RULES", "WHOLE_GRID_KEYS", "RulePen", "pens_by_group"]

_MOST_VALUE = 60

WHOLE_GRID_KEYS = ("boxes", "diagonals", "extra_houses", *WHOLE_GRID)
"""The keys of a file that speak of the grid as a whole."""


@dataclass(frozen=True, slots=True)
class RulePen:
    """How a rule is drawn.

    Parameters
    ----------
    word : str
        What files call the rule.
    parts : tuple of str
        The keys of the rule beside its name, in a file.
    circled : bool
        Whether the first cells are a circle, apart from the line.
    """

    word: str
    parts: tuple[str, ...]
    circled: bool = False

    @property
    def has_cells(self) -> bool:
        """Whether it is drawn over cells, and does not stand at the end of a line."""
        return "line" not in self.parts

    @property
    def has_value(self) -> bool:
        """Whether it says a number, or several."""
        return bool(self.parts) and not self.circled

    @property
    def has_side(self) -> bool:
        """Whether it is seen from one side of a line."""
        return "from" in self.parts

    def record(self, grid: Grid, wish: PageWish) -> dict[str, object]:
        """Return the rule as a file states it, from what the page says; nothing of it is checked here."""
        if not self.has_cells:
            said: dict[str, object] = {
                self.word: wish.text("value", _MOST_VALUE),
                "line": wish.text("line", 20),
            }
            return said | ({"from": wish.text("side", 10)} if self.has_side else {})
        names = [grid.cell_name(cell) for cell in wish.cells(grid)]
        if self.circled:
            circle = 2 if wish.yes("two") else 1
            return {self.word: names[:circle], "cells": names[circle:]}
        if self.has_value:
            return {self.word: wish.text("value", _MOST_VALUE), "cells": names}
        return {self.word: names}


PENS_OF_RULES: Mapping[str, RulePen] = {
    word: RulePen(word, clue.others, circled=word == Arrow.word) for word, clue in CLUES.items()
}
"""The rules that are drawn one by one, by their words."""


@cache
def pens_by_group() -> Mapping[str, tuple[tuple[RulePen, str], ...]]:
    """Return the pens with what their rules say, by the groups of the rulebook."""
    groups: dict[str, list[tuple[RulePen, str]]] = {}
    for entry in rulebook():
        if entry.name in PENS_OF_RULES:
            groups.setdefault(entry.group, []).append((PENS_OF_RULES[entry.name], entry.says))
    return {group: tuple(pens) for group, pens in groups.items()}
