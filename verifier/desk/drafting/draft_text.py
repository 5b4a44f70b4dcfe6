"""A puzzle as the text of its file, unfinished boxes among it: those stand in comments, for the desk alone.

To everyone else the file says no boxes, as the desk judges it, until each box has the right size.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from verifier.desk import wording
from verifier.desk.drafting.unfinished import boxes_of, with_boxes, without_unfit_boxes
from verifier.files.faults import Fault
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.puzzle import KAKURO, Puzzle

__all__ = ["draft_in", "draft_text"]

_ROW = re.compile(rb"^#((?: (?:[0-9]{1,3}|\.))+)$", re.MULTILINE)
_NONE = "."


def draft_text(puzzle: Puzzle) -> str:
    """Return the text of a file with a puzzle.

    Raises
    ------
    ValueError
        If no file can say such a puzzle.
    """
    bare = without_unfit_boxes(puzzle)
    text = write_puzzle(bare)
    return text if bare is puzzle else text + "".join(_comments(puzzle))


def _comments(puzzle: Puzzle) -> Iterator[str]:
    yield f"# {wording.BOXES_IN_FILE}\n"
    box_of = {cell: box.number for box in boxes_of(puzzle) for cell in box.cells}
    marks = tuple(str(box_of.get(cell, _NONE)) for cell in range(puzzle.grid.cell_count))
    yield from (f"# {' '.join(row)}\n" for row in puzzle.grid.rows_of(marks))


def draft_in(data: bytes, name: str) -> tuple[Puzzle | None, tuple[Fault, ...]]:
    r"""Return the one puzzle that a text holds, or None and the faults, if there are any.

    Examples
    --------
    >>> puzzle, _ = draft_in(b"puzzle: classic\ngrid: 4x4\nboxes: none\n", "a")
    >>> drawn = with_boxes(puzzle, {0: 1, 1: 1, 4: 2})
    >>> draft_in(draft_text(drawn).encode(), "a")[0] == drawn
    True
    """
    entries = list(read_text(data, name))
    puzzle = entries[0].puzzle if len(entries) == 1 else None
    faults = tuple(fault for entry in entries for fault in entry.faults)
    return puzzle and _with_comments(puzzle, data), faults


def _with_comments(puzzle: Puzzle, data: bytes) -> Puzzle:
    """Return a puzzle with the boxes that stand in comments; as it is where those are not of its grid."""
    _, found, after = data.partition(f"# {wording.BOXES_IN_FILE}\n".encode())
    rows = [row.decode().split() for row in _ROW.findall(after)]
    wanted = [puzzle.grid.columns] * puzzle.grid.rows
    if not found or puzzle.kind == KAKURO or boxes_of(puzzle) or [len(row) for row in rows] != wanted:
        return puzzle
    marks = [mark for row in rows for mark in row]
    return with_boxes(puzzle, {cell: int(mark) for cell, mark in enumerate(marks) if mark != _NONE})
