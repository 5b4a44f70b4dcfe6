"""Reading marks: ``{ratio: 2, cells: r1c1 r1c2}``, ``{even: r5c5}``."""

from __future__ import annotations

from typing import TypeVar

from verifier.files.clues.clue import ClueText
from verifier.files.fields.fields import looks_like, text_of, whole_number
from verifier.files.text.nodes import ListNode
from verifier.puzzle.printable import counted
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio

__all__ = [
    "read_consecutive",
    "read_difference",
    "read_even",
    "read_greater",
    "read_odd",
    "read_pair_sum",
    "read_quadruple",
    "read_ratio",
]

_Numbered = TypeVar("_Numbered", Ratio, Difference, PairSum)

_MOST_DIGITS = 4


def read_greater(clue: ClueText) -> Greater | None:
    """Read a sign between two neighbours, the greater first."""
    cells = clue.neighbours(Greater.word)
    return None if cells is None else Greater(cells)


def read_consecutive(clue: ClueText) -> Consecutive | None:
    """Read a mark between two neighbours that differ by one."""
    cells = clue.neighbours(Consecutive.word)
    return None if cells is None else Consecutive(tuple(sorted(cells)))


def _numbered(clue: ClueText, sort: type[_Numbered]) -> _Numbered | None:
    number, cells = clue.number(sort.word), clue.neighbours("cells")
    return None if number is None or cells is None else sort(tuple(sorted(cells)), number)


def read_ratio(clue: ClueText) -> Ratio | None:
    """Read a mark between two neighbours, one so many times the other."""
    return _numbered(clue, Ratio)


def read_difference(clue: ClueText) -> Difference | None:
    """Read a mark between two neighbours that differ by so much."""
    return _numbered(clue, Difference)


def read_pair_sum(clue: ClueText) -> PairSum | None:
    """Read a mark between two neighbours that add up to a number."""
    return _numbered(clue, PairSum)


def read_even(clue: ClueText) -> Even | None:
    """Read one or more cells that are even."""
    cells = clue.cells(Even.word)
    return None if cells is None else Even(tuple(sorted(cells)))


def read_odd(clue: ClueText) -> Odd | None:
    """Read one or more cells that are odd."""
    cells = clue.cells(Odd.word)
    return None if cells is None else Odd(tuple(sorted(cells)))


def read_quadruple(clue: ClueText) -> Quadruple | None:
    """Read two to four digits that stand among four cells of a square."""
    digits, cells = _digits(clue, Quadruple.word), clue.block("cells")
    return None if digits is None or cells is None else Quadruple(cells, tuple(sorted(digits)))


def _digits(clue: ClueText, key: str) -> list[int] | None:
    node, before = clue.parts[key], clue.report.count
    items = node.items if isinstance(node, ListNode) else [node]
    texts = [text_of(item, clue.where, clue.report) for item in items]
    words = [word for text in texts for word in (text or "").split()]
    if clue.report.count == before and not 2 <= len(words) <= _MOST_DIGITS:
        clue.fault("quadruple-digits", key, found=counted(len(words), "digit"))
    digits = [digit for word in words[:_MOST_DIGITS] if (digit := _digit(clue, word)) is not None]
    return digits if clue.report.count == before else None


def _digit(clue: ClueText, word: str) -> int | None:
    digit, key, digits = whole_number(word), Quadruple.word, clue.grid.all_digits
    if digit is None:
        clue.fault(
            "not-a-digit", key, hint=looks_like(word, digits), word=word, digits=clue.grid.digits, dot=""
        )
    elif digit not in digits:
        clue.fault("digit-range", key, word=word, digits=clue.grid.digits)
    return digit
