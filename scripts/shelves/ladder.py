"""The rungs of the ladder: for every technique a puzzle of which it is the hardest."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from scripts.setting.broken import with_givens
from scripts.setting.classics import draw_classic
from scripts.setting.killers import Draft, draw_killer
from scripts.setting.repeating import draw_repeating
from scripts.setting.shelf import ShelfFile, single
from scripts.shelves.sound import MIXED, NINE, WIDE, slug, titled
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle

__all__ = ["ladder_files"]

FOUR = Grid.square(4)
TWELVE = Grid.square(12)

Drawn = tuple[Puzzle, Filling]


class Rung(NamedTuple):
    """A line of the table below: how a puzzle is drawn, and which cells are given besides."""

    title: str
    setter: str
    drawn: Callable[[int], Drawn]
    seed: int
    besides: str = ""


def _killer(seed: int) -> Drawn:
    return draw_killer(NINE, Draft(seed, MIXED, 0.3, 8))


def _covered(seed: int) -> Drawn:
    """Draw a killer whose cages cover nearly all of the grid."""
    return draw_killer(NINE, Draft(seed, MIXED, 0.1, 6))


def _loose(seed: int) -> Drawn:
    """Draw a killer whose cages cover half of the grid."""
    return draw_killer(NINE, Draft(seed, MIXED, 0.5, 12))


def _wide(seed: int) -> Drawn:
    """Draw a killer with larger cages."""
    return draw_killer(NINE, Draft(seed, WIDE, 0.3, 6))


def _repeating(seed: int) -> Drawn:
    """Draw a killer in some of whose cages digits may repeat, while others have no total."""
    return draw_repeating(NINE, seed, untold=0.15)


def _small(seed: int) -> Drawn:
    return draw_killer(FOUR, Draft(seed, {2: 2.0, 3: 1.0}))


def _classic(seed: int) -> Drawn:
    return draw_classic(NINE, seed, 20, symmetric=False)


def _large_classic(seed: int) -> Drawn:
    return draw_classic(TWELVE, seed, 54, tries=50)


# Found with `scripts/prospect.py --hardest`, one for each technique as the ladder stood then and in its
# order. What is the hardest today is recorded in `corpus/expected.yaml`.
RUNGS = (
    # From the last cell to what a cage can hold
    Rung("Last candle", "Odile", _small, 26, "r1c4 r2c1 r2c2 r3c1 r4c3"),
    Rung("Lid of the tin", "Juno", _small, 30),
    Rung("Egg cosy", "Otis", _small, 9, "r2c3"),
    Rung("Two in the fog", "Jory", _covered, 237),
    Rung("Three-legged stool", "Wren", _classic, 223),
    Rung("Three coats deep", "Ivo", _classic, 320, "r1c6 r6c8"),
    Rung("Packed trunk", "Marigold", _killer, 2365),
    # Sums and combinations
    Rung("Plimsoll line", "Tamsin", _killer, 1280),
    Rung("Twin bollards", "Odile", _killer, 1742, "r5c5"),
    Rung("Split rope", "Juno", _killer, 239),
    Rung("Neighbours' quarrel", "Otis", _killer, 616),
    Rung("Full larder", "Marigold", _killer, 1543),
    # Four of a kind, and fish
    Rung("Four at table", "Jory", _large_classic, 173),
    Rung(
        "Four in the attic",
        "Wren",
        _large_classic,
        513,
        "r1c9 r2c8 r4c3 r5c5 r5c7 r6c6 r8c1 r10c4 r11c1 r11c2",
    ),
    Rung("Crossed oars", "Ivo", _classic, 395, "r9c6"),
    Rung("Three nets", "Tamsin", _classic, 943, "r5c1"),
    Rung("Long trawl", "Odile", _large_classic, 81, "r3c12 r7c9 r8c8"),
    Rung("Lobster pot", "Juno", _killer, 431),
    Rung("Loose thread", "Otis", _classic, 115),
    Rung("Torn mesh", "Jory", _classic, 143),
    Rung("Drift net", "Wren", _classic, 0, "r2c2 r2c5 r2c7"),
    Rung("Double doors", "Marigold", _large_classic, 251, "r5c7"),
    # Wings and chains
    Rung("Weathervane", "Ivo", _classic, 429),
    Rung("Three-way lamp", "Tamsin", _classic, 285),
    Rung("Linked arms", "Odile", _classic, 242),
    Rung("Signal flags", "Juno", _classic, 331),
    Rung("Paint shop", "Otis", _classic, 253, "r2c3 r2c5"),
    Rung("Chain locker", "Jory", _classic, 372),
    Rung("Anchor chain", "Wren", _classic, 71),
    Rung("Party wall", "Ivo", _classic, 14),
    Rung("Dog watch", "Marigold", _killer, 2419),
    # Lines that must be followed
    Rung("Fork in the path", "Tamsin", _killer, 47),
    Rung("Wrong turning", "Odile", _classic, 1359),
    Rung("Either way home", "Juno", _loose, 334),
    Rung("All roads down", "Wren", _wide, 15, "r6c5 r6c9"),
    # What came to the ladder later
    Rung("Two rows out", "Ivo", _killer, 22, "r7c6"),
    Rung("Few ways in", "Tamsin", _killer, 8, "r4c5"),
    Rung("Only berth", "Jory", _killer, 29, "r7c6"),
    Rung("Spring and neap", "Otis", _killer, 47, "r2c6 r7c2 r9c8 r6c8 r9c1"),
    Rung("Second helping", "Wren", _repeating, 29),
)


def ladder_files() -> Iterator[ShelfFile]:
    """Yield the folder ``ladder``."""
    for number, line in enumerate(RUNGS, start=1):
        puzzle, filling = line.drawn(line.seed)
        cells = {name: puzzle.grid.cell_at(name) for name in line.besides.split()}
        given = with_givens(puzzle, {cell: filling[cell] for cell in cells.values() if cell is not None})
        named = titled(given, f"rung-{number:02}", line.title, line.setter)
        besides = f"; besides, {', '.join(cells)} given" if cells else ""
        made = f"drawn with one solution, from seed {line.seed}{besides}"
        yield single(f"ladder/{slug(line.title)}.yaml", named, made)
