"""Reading clues at the edge: ``{sandwich: 12, line: row 3}``, ``{little_killer: 27, cells: r1c3 r2c4}``."""

from __future__ import annotations

from verifier.files.clues.clue import ClueText
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.seen import SIDES, whole_diagonal
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.house import House

__all__ = ["read_little_killer", "read_sandwich", "read_skyscraper"]

_SHORTEST = 2
"""Cells of a diagonal: one alone would be a given."""


def read_sandwich(clue: ClueText) -> Sandwich | None:
    """Read a row or column with the sum between its 1 and its largest digit."""
    total, line = clue.number(Sandwich.word), _line(clue)
    return None if total is None or line is None else Sandwich(line.cells, total)


def read_skyscraper(clue: ClueText) -> Skyscraper | None:
    """Read a row or column with the number of digits that are seen from one side."""
    count, line, side = clue.number(Skyscraper.word), _line(clue), clue.text("from")
    if count is None or line is None or side is None:
        return None
    sides = SIDES[line.kind]
    if side not in sides:
        clue.fault("side", "from", choices=sides, word=side, sides=" or ".join(sides), line_name=line.name)
        return None
    return Skyscraper(line.cells[:: 1 if side == sides[0] else -1], count)


def _line(clue: ClueText) -> House | None:
    """Return the row or column that the clue names."""
    text = clue.text("line")
    lines = {house.name: house for house in clue.grid.houses if house.kind in SIDES}
    if text is None or text in lines:
        return lines.get(text or "")
    kind, _, number = text.partition(" ")
    meant = [name for name in lines if name.endswith(f" {number}")] if kind != "box" else []
    rows, columns = clue.grid.rows, clue.grid.columns
    clue.fault("line", "line", choices=meant, word=text, rows=rows, columns=columns)
    return None


def read_little_killer(clue: ClueText) -> LittleKiller | None:
    """Read a diagonal from edge to edge, from where the clue stands, with its sum."""
    total, cells = clue.number(LittleKiller.word), clue.cells("cells", _SHORTEST)
    if total is None or cells is None:
        return None
    if cells != whole_diagonal(cells[0], cells[1], clue.grid):
        clue.fault("not-a-diagonal", "cells", cells=clue.grid.cell_names(cells))
        return None
    return LittleKiller(cells, total)
