"""Print sheets: puzzles laid out on paper, and their solutions on a page at the end. All sizes in mm.

A sheet is worked out as lines and words at places on paper; `verifier.pages.sheets.pdf` and
`verifier.pages.sheets.svg` write it down.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from verifier.pages import wording
from verifier.pages.drawing.edge_signs import NO_MARGINS, margins
from verifier.pages.drawing.figure import digit_numbers, grid_lines, rule_lines, rule_numbers, totals
from verifier.pages.drawing.house_signs import house_tints
from verifier.pages.drawing.look import ABOVE, CELL, PENS, Face, faces_of
from verifier.pages.drawing.run_signs import blocked_cells
from verifier.pages.drawing.shapes import Number, PenLine
from verifier.pages.sheets.below import NOTHING_BELOW, Below, said_below
from verifier.pages.sheets.lettering import shortened, width
from verifier.puzzle.grid import Filling
from verifier.puzzle.printable import visible
from verifier.puzzle.puzzle import Puzzle

__all__ = ["A4", "LETTER", "MOST_ON_A_PAGE", "Leaf", "Paper", "SheetPuzzle", "Stroke", "Words", "lay_out"]


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, upright, in mm."""

    name: str
    width: float
    height: float


A4 = Paper("A4", 210.0, 297.0)
LETTER = Paper("Letter", 215.9, 279.4)

MOST_ON_A_PAGE = 6

_MARGIN, _GUTTER, _FOOT = 15.0, 12.0, 6.0
_HEAD, _SMALL_HEAD = 13.0, 6.0  # room above a puzzle, and above a solution
_LARGEST_CELL = 18.0
_SOLUTIONS_ON_A_PAGE = 12
_THINNEST = 0.1  # what a press still prints
_MARK, _MARK_OFF = 4.0, 1.5  # length of a cut mark, and how far it stays off
_TITLE, _BY_LINE, _SMALL_TITLE, _PAGE_NUMBER = 4.6, 3.2, 3.0, 2.8  # sizes of type
_TRACK, _BED, _BLOCK = 0.5, 0.88, 0.15
_GREYS = {
    "line": 0.55,
    "cage": 0.2,
    "repeats": 0.2,
    "tie": 0.2,
    "tint": _BED,
    "bore": _BED,
    "gap": 1.0,
    "block": _BLOCK,
    "corner": 0.55,
    "slant": 0.35,
    **dict.fromkeys(
        ("parity", "tube", "bulb", "arrow", "mirror", "dashes", "rails", "span", "beads"), _TRACK
    ),
}
"""How light the lines of a pen are that are not black."""

_FILLS = {"paper": 1.0, "bed": _BED, "ink": 0.0, "block": _BLOCK}


@dataclass(frozen=True, slots=True)
class SheetPuzzle:
    """A puzzle to be printed.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    tier : str
        Its tier in words; empty to say nothing of it.
    solution : Filling or None
        Its proved solution; None leaves it out of the solutions.
    """

    puzzle: Puzzle
    tier: str = ""
    solution: Filling | None = None


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line on paper: points, width and dashes in mm, how light it is (0 is black), what is in it, ends."""

    points: tuple[tuple[float, float], ...]
    width: float
    dash: tuple[float, ...] = ()
    phase: float = 0.0
    grey: float = 0.0
    fill: float | None = None
    round: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """A text on paper: where it begins on its base line, its size in mm, and how light it is (0 is black)."""

    text: str
    place: tuple[float, float]
    size: float
    bold: bool = False
    grey: float = 0.0


@dataclass(frozen=True, slots=True)
class Leaf:
    """A page: its paper, and what is on it."""

    paper: Paper
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]


@dataclass(frozen=True, slots=True)
class _Slot:
    """The room for one puzzle: its top left corner, its width and height."""

    left: float
    top: float
    width: float
    height: float


def lay_out(
    puzzles: Sequence[SheetPuzzle],
    *,
    paper: Paper = A4,
    per_page: int = 1,
    solutions: bool = True,
    solved: Sequence[SheetPuzzle] | None = None,
    cut_marks: bool = False,
) -> tuple[Leaf, ...]:
    """Lay puzzles out on pages.

    Parameters
    ----------
    puzzles : sequence of SheetPuzzle
        In order.
    paper : Paper, optional
        `A4` or `LETTER`.
    per_page : int, optional
        Puzzles on a page, 1 to `MOST_ON_A_PAGE`.
    solutions : bool, optional
        Whether pages with the solutions follow.
    solved : sequence of SheetPuzzle, optional
        Whose solutions these are, where not those of the puzzles themselves: those of last week.
    cut_marks : bool, optional
        Whether marks at the corners show where to cut each puzzle out.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> one = SheetPuzzle(make_puzzle("classic", Grid.square(4), givens={0: 1}), solution=(1,) * 16)
    >>> len(lay_out([one] * 5, per_page=4)), len(lay_out([one], solutions=False))
    (3, 1)
    """
    asked = puzzles if solved is None else solved
    solved = [one for one in asked if solutions and one.solution is not None]
    few = min(_SOLUTIONS_ON_A_PAGE, max(MOST_ON_A_PAGE, len(solved)))
    pages = [(part, _PUZZLES, per_page) for part in _parts(puzzles, per_page)]
    pages += [(part, _SOLUTIONS, few) for part in _parts(solved, few)]
    return tuple(
        _leaf(
            paper,
            part,
            kind,
            _slots(paper, count, kind.head),
            f"{number} / {len(pages)}",
            cut_marks=cut_marks,
        )
        for number, (part, kind, count) in enumerate(pages, start=1)
    )


def _parts(puzzles: Sequence[SheetPuzzle], most: int) -> Iterator[Sequence[SheetPuzzle]]:
    return (puzzles[at : at + most] for at in range(0, len(puzzles), most))


def _slots(paper: Paper, count: int, head: float) -> list[_Slot]:
    """Divide a page into slots, so that the grids in them are as large as they can be."""
    wide, high = paper.width - 2 * _MARGIN, paper.height - 2 * _MARGIN - _FOOT

    def slot_size(across: int) -> tuple[float, float]:
        down = ceil(count / across)
        return (wide - (across - 1) * _GUTTER) / across, (high - (down - 1) * _GUTTER) / down

    def grid_size(across: int) -> float:
        slot_wide, slot_high = slot_size(across)
        return min(slot_wide, slot_high - head)

    across = max(range(1, count + 1), key=grid_size)
    slot_wide, slot_high = slot_size(across)
    return [
        _Slot(
            _MARGIN + place % across * (slot_wide + _GUTTER),
            _MARGIN + place // across * (slot_high + _GUTTER),
            slot_wide,
            slot_high,
        )
        for place in range(count)
    ]


def _leaf(
    paper: Paper,
    puzzles: Sequence[SheetPuzzle],
    kind: _Kind,
    slots: Sequence[_Slot],
    number: str,
    *,
    cut_marks: bool,
) -> Leaf:
    strokes: list[Stroke] = []
    words = [_centred(number, paper.width / 2, paper.height - _MARGIN + 4, _PAGE_NUMBER)]
    if kind.title:
        words.append(Words(kind.title, (_MARGIN, _MARGIN - 4), _BY_LINE))
    for printed, slot in zip(puzzles, slots, strict=False):  # a page may have room for more
        block = _block(printed.puzzle, slot, kind)
        words += kind.words(printed, block)
        words += _words_below(block)
        strokes += _strokes(printed.puzzle, block, kind)
        words += _numbers(printed, block, kind)
        if cut_marks and kind is _PUZZLES:
            strokes += _cut_marks(block)
    return Leaf(paper, tuple(strokes), tuple(words))


@dataclass(frozen=True, slots=True)
class _Block:
    """A puzzle on paper: where its heading begins, where its grid begins, and mm to a unit of the grid."""

    left: float
    top: float
    grid_left: float
    grid_top: float
    width: float
    height: float
    scale: float
    below: Below

    def at(self, across: float, down: float) -> tuple[float, float]:
        """Return the place on paper of a point of the grid."""
        return round(self.grid_left + across * self.scale, 3), round(self.grid_top + down * self.scale, 3)


def _block(puzzle: Puzzle, slot: _Slot, kind: _Kind) -> _Block:
    """Return where a puzzle stands in its slot: in the middle from left to right, at the top."""
    grid, beside = puzzle.grid, margins(puzzle) if kind is _PUZZLES else NO_MARGINS
    across = grid.columns + (beside.left + beside.right) / CELL
    down = grid.rows + (beside.top + beside.bottom) / CELL
    most = min(slot.width, _LARGEST_CELL * across)
    below = said_below(puzzle, most, slot.height) if kind is _PUZZLES else NOTHING_BELOW
    cell = min(slot.width / across, (slot.height - kind.head - below.height) / down, _LARGEST_CELL)
    wide, high, scale = cell * across, cell * down, cell / CELL
    whole = max(wide, below.width)
    return _Block(
        left=slot.left + (slot.width - whole) / 2,
        top=slot.top,
        grid_left=slot.left + (slot.width - wide) / 2 + beside.left * scale,
        grid_top=slot.top + kind.head + beside.top * scale,
        width=whole,
        height=kind.head + high + below.height,
        scale=scale,
        below=below,
    )


def _words_below(block: _Block) -> Iterator[Words]:
    below = block.below
    for number, line in enumerate(below.lines, start=1):
        foot = block.top + block.height - (len(below.lines) - number) * below.leading
        yield Words(line, (block.left, round(foot, 3)), below.size)


def _strokes(puzzle: Puzzle, block: _Block, kind: _Kind) -> Iterator[Stroke]:
    rules = rule_lines(puzzle) if kind is _PUZZLES else []
    above = [line for line in rules if PENS[line.pen].level == ABOVE]
    for line in (
        *house_tints(puzzle),
        *blocked_cells(puzzle),
        *rules[: len(rules) - len(above)],
        *grid_lines(puzzle),
        *above,
    ):
        yield _stroke(line, block)


def _stroke(line: PenLine, block: _Block) -> Stroke:
    pen = PENS[line.pen]
    return Stroke(
        tuple(block.at(*point) for point in line.points),
        max(_THINNEST, round(pen.width * block.scale, 3)),
        tuple(round(part * block.scale, 4) for part in pen.dash),
        round(pen.phase * block.scale, 4),
        _GREYS.get(line.pen, 0.0),
        _FILLS.get(pen.fill),
        pen.round,
    )


def _numbers(printed: SheetPuzzle, block: _Block, kind: _Kind) -> Iterator[Words]:
    puzzle = printed.puzzle
    givens = dict(puzzle.givens)
    faces = faces_of(puzzle.grid.digits)
    numbers = list(digit_numbers(puzzle, "given", givens))
    if kind is _PUZZLES:
        numbers += [*totals(puzzle), *rule_numbers(puzzle)]
    else:
        others = {c: digit for c, digit in enumerate(printed.solution or ()) if c not in givens}
        numbers += digit_numbers(puzzle, "digit", others)
    yield from (_number(number, faces[number.face], block) for number in numbers)


def _number(number: Number, face: Face, block: _Block) -> Words:
    size = round(face.size * block.scale, 3)
    across, down = block.at(*number.place)
    if face.anchor == "start":
        return Words(number.text, (across, down), size, face.bold)
    centred = _centred(number.text, across, down, size, bold=face.bold)
    return replace(centred, grey=1.0) if face.reverse else centred


def _centred(text: str, across: float, down: float, size: float, *, bold: bool = False) -> Words:
    return Words(text, (round(across - width(text, size, bold=bold) / 2, 3), round(down, 3)), size, bold)


def _heading(printed: SheetPuzzle, block: _Block) -> Iterator[Words]:
    puzzle = printed.puzzle
    title = _one_line(wording.name_of(puzzle), _TITLE, block.width, bold=True)
    yield Words(title, (block.left, block.top + 4.2), _TITLE, bold=True)
    below = " \u00b7 ".join(part for part in (wording.kind_and_setter(puzzle), printed.tier) if part)
    yield Words(_one_line(below, _BY_LINE, block.width), (block.left, block.top + 9.4), _BY_LINE)


def _small_heading(printed: SheetPuzzle, block: _Block) -> Iterator[Words]:
    title = _one_line(wording.name_of(printed.puzzle), _SMALL_TITLE, block.width, bold=True)
    yield Words(title, (block.left, block.top + 3.4), _SMALL_TITLE, bold=True)


def _one_line(text: str, size: float, most: float, *, bold: bool = False) -> str:
    return shortened(unicodedata.normalize("NFC", visible(text)), size, most, bold=bold)


def _cut_marks(block: _Block) -> Iterator[Stroke]:
    """Yield two marks at each corner of a puzzle with its heading, clear of what is cut out."""
    right, bottom = block.left + block.width, block.top + block.height
    for across, side in ((block.left, -1), (right, 1)):
        for down, way in ((block.top, -1), (bottom, 1)):
            x, y = across + side * _MARK_OFF, down + way * _MARK_OFF
            yield Stroke(((x, y), (x + side * _MARK, y)), _THINNEST)
            yield Stroke(((x, y), (x, y + way * _MARK)), _THINNEST)


@dataclass(frozen=True, slots=True)
class _Kind:
    """What is printed of each puzzle: the puzzle, or its solution."""

    head: float
    title: str
    words: Callable[[SheetPuzzle, _Block], Iterator[Words]]


_PUZZLES = _Kind(_HEAD, "", _heading)
_SOLUTIONS = _Kind(_SMALL_HEAD, wording.SOLUTIONS, _small_heading)
