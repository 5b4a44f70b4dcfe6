"""Puzzles with houses of other shapes and with rules of the whole grid; in some a given is misprinted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from scripts.setting.doubts import misprinted_given
from scripts.setting.ruled import draw_ruled
from scripts.setting.shelf import REJECTED, ShelfFile, single
from scripts.shelves.sound import NINE, slug, titled
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import apart
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.chess_move import MOVES, ChessMove
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.not_consecutive import NotConsecutive

__all__ = ["rule_files"]

SIX = Grid.square(6)

NEIGHBOURS = apart(SIX, ((0, 1), (1, 0)))

CROOKED = """
a a a b b b
a c c c b b
a a c d d b
e c c d d f
e e d d f f
e e e f f f
"""


def _boxes() -> tuple[House, ...]:
    marks = CROOKED.split()
    return tuple(
        House("box", number, tuple(cell for cell, own in enumerate(marks) if own == mark))
        for number, mark in enumerate(dict.fromkeys(marks), start=1)
    )


def _windows() -> tuple[House, ...]:
    corners = ((1, 1), (1, 5), (5, 1), (5, 5))
    return tuple(
        House("extra house", number, tuple(r * 9 + c for r in range(y, y + 3) for c in range(x, x + 3)))
        for number, (y, x) in enumerate(corners, start=1)
    )


def _no_repeats(piece: str) -> Puzzle:
    return make_puzzle("classic", SIX, clues=[ChessMove(piece, apart(SIX, MOVES[piece]))])


EMPTY: dict[str, Callable[[], Puzzle]] = {
    "irregular": lambda: make_puzzle(
        "classic", Grid(6, 6, 0, 0, 6), houses=(*Grid(6, 6, 0, 0, 6).houses, *_boxes())
    ),
    "diagonals": lambda: make_puzzle("classic", NINE, houses=(*NINE.houses, *NINE.diagonals)),
    "extra houses": lambda: make_puzzle("classic", NINE, houses=(*NINE.houses, *_windows())),
    "knight": lambda: _no_repeats("knight"),
    "king": lambda: _no_repeats("king"),
    "not consecutive": lambda: make_puzzle(
        "classic", SIX, clues=[NotConsecutive(apart(SIX, ((0, 1), (1, 0))))]
    ),
}


class Drawn(NamedTuple):
    """A line of the table below."""

    title: str
    setter: str
    rules: str
    seed: int
    more: int = 0
    misprinted: bool = False


PUZZLES = (
    Drawn("Crazy paving", "Odile", "irregular", 1),
    Drawn("Loose slates", "Jory", "irregular", 2, misprinted=True),
    Drawn("Crossed beams", "Tamsin", "diagonals", 2),
    Drawn("Four portholes", "Ivo", "extra houses", 3, more=6),
    Drawn("Bolted shutter", "Otis", "extra houses", 2, misprinted=True),
    Drawn("Stable door", "Wren", "knight", 1),
    Drawn("Harbour master", "Marigold", "king", 1),
    Drawn("Kept apart", "Juno", "not consecutive", 2, more=5),
)


def rule_files() -> Iterator[ShelfFile]:
    """Yield the folder ``rules``."""
    for number, line in enumerate(PUZZLES, start=1):
        puzzle, filling = draw_ruled(EMPTY[line.rules](), line.seed, more=line.more)
        name = f"rules/{slug(line.title)}.yaml"
        if line.misprinted:
            broken = misprinted_given(puzzle, line.seed)
            sent = titled(broken.puzzle, f"rule-{number}", line.title, line.setter)
            yield single(name, sent, broken.made, verdict=REJECTED, codes=broken.codes, solutions=0)
        else:
            sent = titled(puzzle, f"rule-{number}", line.title, line.setter, filling)
            yield single(name, sent, "drawn with one solution")
