"""Lines whose neighbours are far apart: low and high digits take turns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from operator import or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps, clues_of
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.rules.lines.whisper import Whisper

__all__ = ["LOW_AND_HIGH", "LOW_AND_HIGH_IN_HOUSE"]


def find_low_and_high(board: Board) -> Iterator[Step]:
    """Along a line whose neighbours are far apart, low and high digits take turns.

    Where neighbours differ by more than half of the digits, no two low ones stand side by side, nor two high
    ones. Once one cell is known to be low or high, so are all. On a whisper of 5 over r1c1 to r1c3::

        row 1    before  12346789 678 12346789    after  1234 678 1234

    Yields
    ------
    Step
        In the order of the lines. `focus` is the cells that lose something.

    Notes
    -----
    Sound in every solution: a low digit has only high ones far enough from it, and the other way about.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("1234 4 1234", size=4, clues=[Whisper((0, 1, 2), 2)])
    >>> [[(cell, digits_of(gone)) for cell, gone in step.removes] for step in find_low_and_high(board)]
    [[(0, (3, 4)), (2, (3, 4))]]
    """
    yield from clue_steps(board, "low-and-high", {Whisper: _in_turn})


def _in_turn(clue: Clue) -> Iterator[ClueFinding]:
    sides = _sides(clue)
    for place, cell in enumerate(clue.cells) if sides else ():
        side = next((at for at, digits in enumerate(sides) if not clue.candidates[cell] & ~digits), None)
        if side is not None:
            removes = _wrong(clue, place, sides[side], cell)
            if removes:
                said = clue.says(("take-turns-low", "take-turns-high")[side], cells=(cell,))
                yield ClueFinding(removes, (cell,), said)
                return


def _sides(clue: Clue) -> tuple[int, ...]:
    """Return the masks of the low and the high digits of a line; none where they do not take turns."""
    top, least = clue.digits, clue.rule.least
    low, high = mask_of(range(1, top - least + 1)), mask_of(range(1 + least, top + 1))
    return () if low & high else (low, high)  # a digit in the middle may have neighbours on both sides


def _wrong(clue: Clue, place: int, side: int, known: int | None = None) -> tuple[tuple[int, int], ...]:
    """Return what goes from the cells of a line if the one at a place is on a side, itself known to be so."""
    low, high = _sides(clue)
    other_side = low | high if not side else high if side == low else low
    return tuple(
        (cell, gone)
        for at, cell in enumerate(clue.cells)
        if cell != known and (gone := clue.open_in(cell, ~(other_side if (at - place) % 2 else side)))
    )


def find_low_and_high_in_houses(board: Board) -> Iterator[Step]:
    """A house has so many low and so many high digits, and a line must not bring more.

    Low and high digits take turns along such a line, so it goes one way or the other. A row of six has three
    low digits. With a 2, one low cell by another line, and two cells of one side by a whisper of 3, these two
    are high::

        row 1    before  156 1346 1346 356 1346 2    after  156 1346 46 356 46 2

    Yields
    ------
    Step
        In the order of the lines, then of the houses; one for each. `focus` is the cells that lose something.

    Notes
    -----
    Sound in every solution: every low digit stands in the house once, and so does every high one. Of each
    line that has not been settled, as many cells are counted as are low, or high, either way.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("1234 1234 12 1234", size=4, clues=[Whisper((0, 4, 1), 2)])
    >>> step = next(find_low_and_high_in_houses(board))
    >>> [(cell, digits_of(gone)) for cell, gone in step.removes]
    [(0, (1, 2)), (1, (1, 2)), (4, (3, 4))]
    """
    layout = board.layout
    lines = [Clue(layout, number, board.candidates) for number in clues_of(layout).get(Whisper, ())]
    unsettled = [line for line in lines if _sides(line) and not _settled(line)]
    for line in unsettled:
        alike = [other for other in unsettled if other.rule.least == line.rule.least and other != line]
        for house, mask in enumerate(layout.house_masks):
            if mask & layout.masks[line.number]:
                yield from _crowded(line, house, _apart(line, alike, mask))


def _settled(line: Clue) -> bool:
    """Whether it is known which cells of a line are low, or one of them has nothing left."""
    return any(not line.candidates[cell] & ~side for cell in line.cells for side in _sides(line))


def _split(line: Clue, mask: int) -> tuple[int, int]:
    """Return how many cells of a line at even and at odd places lie in a house."""
    inside = [place % 2 for place, cell in enumerate(line.cells) if mask >> cell & 1]
    return inside.count(0), inside.count(1)


def _apart(line: Clue, others: Sequence[Clue], mask: int) -> list[Clue]:
    """Return those of other lines with low and high cells in a house that share no cell with any of these."""
    inside = [other for other in others if min(_split(other, mask))]
    masks = {other.number: mask_of(other.cells) for other in (line, *inside)}
    return [
        other
        for other in inside
        if not any(masks[other.number] & cells for number, cells in masks.items() if number != other.number)
    ]


def _crowded(line: Clue, house: int, others: Sequence[Clue]) -> Iterator[Step]:
    """Yield what goes from a line that would bring too many digits of a side to a house, one way about."""
    mask, sides = line.layout.house_masks[house], _sides(line)
    in_lines = mask_of(cell for one in (line, *others) for cell in one.cells)
    for at, side in enumerate(sides):
        known = [cell for cell in bits(mask & ~in_lines) if not line.candidates[cell] & ~side]
        sure = len(known) + sum(min(_split(other, mask)) for other in others)
        for start, own in enumerate(_split(line, mask)):
            removes = _wrong(line, start, sides[1 - at])
            if sure + own > side.bit_count() and removes:
                named = tuple(cell for cell in line.cells[start::2] if mask >> cell & 1)
                how = ("too-many-low", "too-many-high")[at]
                said = line.says(how, number=sure + own, bound=side.bit_count(), cells=named)
                rules = (house, line.number, *(other.number for other in others))
                yield Step(
                    "low-and-high-in-house",
                    removes=tuple(sorted(removes)),
                    rules=tuple(sorted(rules)),
                    looks=tuple(sorted(known)),
                    focus=tuple(cell for cell, _ in sorted(removes)),
                    digits=reduce(or_, (gone for _, gone in removes)),
                    pattern=said,
                )


LOW_AND_HIGH = Technique("low-and-high", "low and high in turn", find_low_and_high)
LOW_AND_HIGH_IN_HOUSE = Technique(
    "low-and-high-in-house", "low and high digits of a house", find_low_and_high_in_houses
)
