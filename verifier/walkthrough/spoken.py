"""Cells said in full, for an audience that sees no names: "row 5, column 2" for r5c2."""

from __future__ import annotations

import re
from collections.abc import Sequence

from verifier.puzzle.printable import listed
from verifier.walkthrough import wording

__all__ = ["spoken"]

_CELL = r"r\d+c\d+"
_NEW_CLAUSE = "(?! (?:is|can|sees|takes) )"
"""What comes before one of these verbs is one cell: "5 goes in r1c2 and r1c4 is 3" has no list in it."""
_CELLS = re.compile(rf"\b{_CELL}(?:(?:, {_CELL})* (?:and {_CELL}\b{_NEW_CLAUSE}|or {_CELL}))?\b")
_FIRST_WORD = re.compile(rf"(^|[.!?] )({wording.ROW}|{wording.COLUMN})")


def spoken(text: str) -> str:
    """Return a text with its cells said in full, those of one line together.

    Examples
    --------
    >>> spoken("r5c2 is 9.")
    'Row 5, column 2 is 9.'
    >>> spoken("So 3 goes from r1c5, r1c6 and r1c7.")
    'So 3 goes from row 1, columns 5, 6 and 7.'
    >>> spoken("6 is in r4c8 or r6c8.")
    '6 is in column 8, row 4 or 6.'
    """
    said = _CELLS.sub(_said, text)
    return _FIRST_WORD.sub(lambda match: match[1] + match[2].capitalize(), said)


def _said(match: re.Match[str]) -> str:
    cells = [(int(row), int(column)) for row, column in re.findall(r"r(\d+)c(\d+)", match[0])]
    last = "or" if " or " in match[0] else "and"
    rows, columns = ([cell[place] for cell in cells] for place in (0, 1))
    if len(cells) > 1 and len(set(rows)) == 1:
        return _on_a_line(wording.ROW, rows[0], wording.COLUMN, columns, last)
    if len(cells) > 1 and len(set(columns)) == 1:
        return _on_a_line(wording.COLUMN, columns[0], wording.ROW, rows, last)
    named = [f"{wording.ROW} {row}, {wording.COLUMN} {column}" for row, column in cells]
    return named[0] if len(named) == 1 else f"{'; '.join(named[:-1])}; {last} {named[-1]}"


def _on_a_line(line: str, number: int, across: str, numbers: Sequence[int], last: str) -> str:
    """Return some cells of one line: "row 1, columns 5 and 6"."""
    many = "" if last == "or" else "s"
    return f"{line} {number}, {across}{many} {listed(map(str, numbers), last, most=len(numbers))}"
