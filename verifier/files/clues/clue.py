"""One clue of a file: its parts, each with the faults it may have."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from verifier.files.faults import FaultReport
from verifier.files.fields.cells import read_cells_in_order
from verifier.files.fields.fields import MOST_FIGURES, looks_like, text_of, whole_number
from verifier.files.text.nodes import Node
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import beside, touch
from verifier.puzzle.printable import counted
from verifier.puzzle.rules.house import House

__all__ = ["ClueText"]


@dataclass(frozen=True, slots=True)
class ClueText:
    """What a file says of one clue. Each part that cannot be read is a fault, and None.

    Parameters
    ----------
    parts : mapping of str to Node
        The values of the clue by key; none is missing.
    where : str
        What messages call the clue: ``clue 3``.
    grid : Grid
        The grid of the puzzle.
    houses : tuple of House
        The houses of the puzzle: boxes are among them.
    report : FaultReport
        Takes the faults.
    """

    parts: Mapping[str, Node]
    where: str
    grid: Grid
    houses: tuple[House, ...]
    report: FaultReport

    def fault(
        self, code: str, key: str, choices: Sequence[str] = (), hint: str = "", **facts: object
    ) -> None:
        """Note a fault of one part; see `FaultReport.add`."""
        self.report.add(code, self.parts[key].line, self.where, None, choices, hint, **facts)

    def text(self, key: str) -> str | None:
        """Return a part that is text."""
        return text_of(self.parts[key], self.where, self.report)

    def number(self, key: str) -> int | None:
        """Return a part that is a whole number."""
        text = self.text(key)
        number = None if text is None else whole_number(text)
        if text is not None and number is None:
            self.fault("clue-number", key, hint=looks_like(text), word=text, most=MOST_FIGURES)
        return number

    def cells(self, key: str, least: int = 1) -> tuple[int, ...] | None:
        """Return so many cells or more, in the order in which they are written."""
        cells = read_cells_in_order(self.parts[key], self.where, self.grid, self.report)
        if cells is not None and len(cells) < least:
            wanted = f"at least {counted(least, 'cell')}"
            self.fault("clue-cells", key, found=counted(len(cells), "cell"), wanted=wanted)
            return None
        return cells

    def exactly(self, number: int, key: str, wanted: str) -> tuple[int, ...] | None:
        """Return so many cells, in the order in which they are written."""
        cells = self.cells(key, least=0)
        if cells is not None and len(cells) != number:
            self.fault("clue-cells", key, found=counted(len(cells), "cell"), wanted=wanted)
            return None
        return cells

    def neighbours(self, key: str) -> tuple[int, ...] | None:
        """Return two cells that have a border in common, in the order in which they are written."""
        cells = self.exactly(2, key, "two neighbours")
        if cells is None:
            return None
        if cells[1] not in beside(self.grid, cells[0]):
            one, other = map(self.grid.cell_name, cells)
            self.fault("not-neighbours", key, one=one, other=other)
            return None
        return cells

    def line(self, key: str, least: int = 2) -> tuple[int, ...] | None:
        """Return so many cells or more, each of which touches the one before it."""
        cells = self.cells(key, least)
        if cells is None:
            return None
        jumps = [pair for pair in pairwise(cells) if not touch(self.grid, *pair)]
        for pair in jumps:
            one, other = map(self.grid.cell_name, pair)
            self.fault("line-jumps", key, one=one, other=other)
        return None if jumps else cells

    def block(self, key: str) -> tuple[int, ...] | None:
        """Return the four cells of a square, in reading order."""
        cells = self.exactly(4, key, "the four cells of a square")
        if cells is None:
            return None
        first, columns = min(cells), self.grid.columns
        corner = first % columns + 1 < columns
        if not corner or set(cells) != {first, first + 1, first + columns, first + columns + 1}:
            self.fault("not-a-square", key, cells=self.grid.cell_names(cells))
            return None
        return tuple(sorted(cells))
