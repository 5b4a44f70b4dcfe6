"""Reading lines: ``{thermometer: r1c1 r1c2 r2c3}``, ``{arrow: r1c1, cells: r1c2 r1c3}``."""

from __future__ import annotations

from typing import TypeVar

from verifier.files.clues.clue import ClueText
from verifier.puzzle.neighbours import beside, touch
from verifier.puzzle.printable import counted, listed
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum, parts_in_boxes
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.two_way import either_way
from verifier.puzzle.rules.lines.whisper import Whisper

__all__ = [
    "read_arrow",
    "read_between",
    "read_palindrome",
    "read_region_sum",
    "read_renban",
    "read_thermometer",
    "read_whisper",
]

_TwoWay = TypeVar("_TwoWay", Palindrome, Renban, Between)


def read_thermometer(clue: ClueText) -> Thermometer | None:
    """Read a line along which digits rise, from its bulb on."""
    cells = clue.line(Thermometer.word)
    return None if cells is None else Thermometer(cells)


def read_whisper(clue: ClueText) -> Whisper | None:
    """Read a line whose neighbours differ by at least so much."""
    least, cells = clue.number(Whisper.word), clue.line("cells")
    return None if least is None or cells is None else Whisper(either_way(cells), least)


def _two_way(clue: ClueText, sort: type[_TwoWay], least: int) -> _TwoWay | None:
    cells = clue.line(sort.word, least)
    return None if cells is None else sort(either_way(cells))


def read_palindrome(clue: ClueText) -> Palindrome | None:
    """Read a line that is the same from both ends."""
    return _two_way(clue, Palindrome, least=2)


def read_renban(clue: ClueText) -> Renban | None:
    """Read a line of different digits without a gap."""
    return _two_way(clue, Renban, least=2)


def read_between(clue: ClueText) -> Between | None:
    """Read a line whose inner digits lie between those of its ends."""
    return _two_way(clue, Between, least=3)


def read_arrow(clue: ClueText) -> Arrow | None:
    """Read the circle of an arrow, and the line that adds up to it."""
    circle, line = _circle(clue), clue.line("cells", least=1)
    if circle is None or line is None:
        return None
    for cell in line:
        if cell in circle:
            clue.fault("circle-in-line", "cells", cell=clue.grid.cell_name(cell))
            return None
    if not any(touch(clue.grid, cell, line[0]) for cell in circle):
        first, names = clue.grid.cell_name(line[0]), map(clue.grid.cell_name, circle)
        clue.fault("arrow-apart", "cells", first=first, circle=listed(names, "or"))
        return None
    return Arrow(circle, line)


def _circle(clue: ClueText) -> tuple[int, ...] | None:
    """Return the circle, of two cells the left or upper one first."""
    cells = clue.cells(Arrow.word)
    if cells is None:
        return None
    if len(cells) == 1 or (len(cells) == 2 and cells[1] in beside(clue.grid, cells[0])):
        return tuple(sorted(cells))
    found = counted(len(cells), "cell") if len(cells) > 2 else clue.grid.cell_names(cells)
    clue.fault("arrow-circle", Arrow.word, found=found)
    return None


def read_region_sum(clue: ClueText) -> RegionSum | None:
    """Read a line whose parts, each a stretch of it inside one box, add up to the same."""
    cells = clue.line(RegionSum.word)
    if cells is None:
        return None
    parts = parts_in_boxes(either_way(cells), clue.houses)
    if len(parts) == 1:
        boxes = [house.name for house in clue.houses if house.kind == "box" and cells[0] in house.cells]
        where = f"in {boxes[0]}" if boxes else "in a grid without boxes"
        clue.fault("one-part", RegionSum.word, where=where)
        return None
    return RegionSum(parts)
