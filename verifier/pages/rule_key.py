"""What the signs of a puzzle's rules mean: as a key with a small picture of each, and in words alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from verifier.pages import wording
from verifier.pages.drawing.figure import LINES
from verifier.pages.drawing.house_signs import house_lines, house_tints
from verifier.pages.drawing.look import FACES, PENS
from verifier.pages.drawing.run_signs import totals_inside
from verifier.pages.drawing.shapes import Number, PenLine, Piece
from verifier.pages.drawing.svg import drawn_pieces, element
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import KAKURO, Puzzle, make_puzzle, rules_of
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule

__all__ = ["SAMPLES", "Meaning", "key_of_rules", "meanings_of", "rules_in_words", "sample", "signs_in_words"]

_GRID = Grid(2, 3, 0, 0, 9)
"""The grid in which the samples stand: two rows of three cells."""

SAMPLES: Mapping[type[Rule], Rule] = {
    Different: Different((0, 1)),
    LinearSum: LinearSum(((0, 1), (1, 1)), 12),
    Greater: Greater((0, 1)),
    Consecutive: Consecutive((0, 1)),
    Ratio: Ratio((0, 1), 2),
    Difference: Difference((0, 1), 4),
    PairSum: PairSum((0, 1), 10),
    Even: Even((0,)),
    Odd: Odd((0,)),
    Quadruple: Quadruple((0, 1, 3, 4), (1, 4, 9)),
    Thermometer: Thermometer((0, 1)),
    Arrow: Arrow((0,), (1,)),
    Palindrome: Palindrome((0, 1)),
    Renban: Renban((0, 1)),
    Whisper: Whisper((0, 1), 5),
    Between: Between((0, 1, 2)),
    RegionSum: RegionSum(((0,), (1,))),
    Sandwich: Sandwich((0, 1, 2), 12),
    Skyscraper: Skyscraper((0, 1, 2), 4),
    LittleKiller: LittleKiller((0, 4), 13),
}
"""A rule of each class to show what its sign looks like; common cages are known by their totals."""

_LEAST_SIDE, _EDGE = 32.0, 2.0
"""The least width and height of a sample, and the room round it, in units."""


@dataclass(frozen=True, slots=True)
class Meaning:
    """A kind of rule in a puzzle: what its sign looks like, and what it says."""

    picture: Markup
    says: str


def key_of_rules(puzzle: Puzzle, voice: Callable[[str], str] = str) -> dict[str, Any]:
    """Return what the template of a page fills in to explain the rules of a puzzle, each text in a voice."""
    return {
        "signs_of_rules": meanings_of(puzzle),
        "signs_title": wording.SIGNS_TITLE,
        "rules_in_words": [voice(says) for says in rules_in_words(puzzle)],
        "rules_title": wording.RULES_TITLE,
    }


def meanings_of(puzzle: Puzzle) -> list[Meaning]:
    """Return the key to the signs of a puzzle: one entry a kind of rule."""
    told = [Meaning(sample(kind), says) for kind, says in _told(puzzle)]
    return [*_houses_told(puzzle), *told, *(Meaning(Markup(""), says) for says in _runs_told(puzzle))]


def signs_in_words(puzzle: Puzzle) -> list[str]:
    """Return what the signs of a puzzle mean, where there is no room for pictures.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> signs_in_words(make_puzzle("classic", Grid.square(4), clues=[Thermometer((0, 1)), Odd((3,))]))
    ['grey circle: an odd digit', 'tube: digits rise from its bulb']
    """
    return [*(says for _, says in _told(puzzle)), *_runs_told(puzzle)]


def rules_in_words(puzzle: Puzzle) -> list[str]:
    """Return each cage, mark, line and clue of a puzzle with its cells, for those who do not see the picture.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> rules_in_words(make_puzzle("classic", Grid.square(4), clues=[Thermometer((0, 1, 6)), Odd((3,))]))
    ['The mark that r1c4 is odd', 'The thermometer from r1c1 to r2c3: r1c1, r1c2, r2c3']
    """
    return [_in_words(rule, puzzle.grid) for rule in puzzle.rules if type(rule) in LINES]


def _in_words(rule: Rule, grid: Grid) -> str:
    """Return a rule with its cells, where a file would name them and its own name does not."""
    called = rule.called(grid)
    names, recorded = [grid.cell_name(cell) for cell in rule.cells], str(rule.record(grid))
    more = all(name in recorded for name in names) and not all(name in called for name in names)
    return f"{called[0].upper()}{called[1:]}" + (f": {', '.join(names)}" if more else "")


def _told(puzzle: Puzzle) -> Iterator[tuple[type[Rule], str]]:
    """Yield each kind of rule that has a sign in a puzzle, and what it means there."""
    least = sorted({line.least for line in rules_of(puzzle.rules, Whisper)})
    by = str(least[0]) if len(least) == 1 else wording.THE_NUMBER_ON_IT
    drawn = () if puzzle.kind == KAKURO else puzzle.rules  # its runs have no outlines
    words = {type(rule): rule.word for rule in drawn if type(rule) in SAMPLES}
    for kind, word in words.items():
        yield kind, filled(wording.SIGNS[word], by=by, largest=puzzle.grid.digits)


def _houses_told(puzzle: Puzzle) -> Iterator[Meaning]:
    """Yield what houses beside rows, columns and boxes look like and mean, one of each kind."""
    grid = Grid(2, 2, 0, 0, 2)
    shown = {"diagonal": grid.diagonals[0], "extra house": House("extra house", 1, (0, 1))}
    for kind, house in shown.items():
        if any(other.kind.endswith(kind) for other in puzzle.houses):
            small = make_puzzle("classic", grid, houses=(house,))
            yield Meaning(_drawn([*house_tints(small), *house_lines(small)]), wording.HOUSE_SIGNS[kind])


def _runs_told(puzzle: Puzzle) -> list[str]:
    return [wording.TOTALS_INSIDE] if puzzle.kind == KAKURO and totals_inside(puzzle) else []


def sample(kind: type[Rule]) -> Markup:
    """Return the sign of a kind of rule as an ``svg`` element, as small as it can be."""
    return _drawn(list(LINES[kind](_GRID, SAMPLES[kind])))


def _drawn(pieces: Sequence[Piece]) -> Markup:
    """Return pieces of a drawing as an ``svg`` element with no more room than they take."""
    left, top, right, bottom = _bounds(pieces)
    wide, high = (max(_LEAST_SIDE, far - near) for near, far in ((left, right), (top, bottom)))
    corner = ((left + right - wide) / 2, (top + bottom - high) / 2)
    return element(
        "svg",
        drawn_pieces(pieces),
        viewBox=f"{corner[0]:g} {corner[1]:g} {wide:g} {high:g}",
        aria_hidden="true",
        **{"class": "grid"},
    )


def _bounds(pieces: Sequence[Piece]) -> tuple[float, float, float, float]:
    """Return the least and greatest places across and down that pieces take: left, top, right, bottom."""
    corners: list[tuple[float, float]] = []
    for piece in pieces:
        if isinstance(piece, PenLine):
            reach = PENS[piece.pen].width / 2 + _EDGE
            corners += [(x + side * reach, y + side * reach) for x, y in piece.points for side in (-1, 1)]
        else:
            corners += _corners(piece)
    across, down = zip(*corners, strict=True)
    return min(across), min(down), max(across), max(down)


def _corners(number: Number) -> list[tuple[float, float]]:
    size, (x, foot) = FACES[number.face].size, number.place
    half = 0.3 * size * len(number.text) + _EDGE
    return [(x - half, foot - 0.72 * size - _EDGE), (x + half, foot + _EDGE)]
