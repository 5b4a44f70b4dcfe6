"""The sound puzzles: one solution each, from the doorstep to off the map, and from 4x4 to 25x25."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import combinations
from typing import NamedTuple

from scripts.setting.classics import draw_classic
from scripts.setting.killers import Draft, draw_killer
from scripts.setting.plain import plain_count
from scripts.setting.shelf import ShelfFile, single
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import in_one_piece
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["EASY", "MIXED", "NINE", "PAIRS", "WIDE", "slug", "sound_files", "titled"]

NINE = Grid.square(9)

PAIRS = {2: 5.0, 3: 1.0}
EASY = {2: 3.0, 3: 3.0}
MIXED = {2: 3.0, 3: 3.0, 4: 1.0}
WIDE = {2: 2.0, 3: 3.0, 4: 3.0, 5: 1.0}
LARGE = {3: 2.0, 4: 3.0, 5: 2.0}
"""How often each number of cells in a cage is aimed at."""


class Killer(NamedTuple):
    """A line of the table below."""

    title: str
    setter: str
    draft: Draft
    form: str = "map"
    grid: Grid = NINE
    with_solution: bool = False


class Classic(NamedTuple):
    """A line of the table below; one without a title is a bare line, which has no room for it."""

    title: str
    setter: str
    seed: int
    givens: int
    form: str = "map"
    grid: Grid = NINE
    tries: int = 2000


# Found with `scripts/prospect.py`, some for each tier as the ladder stood then. The tiers are not stated
# here: `corpus/expected.yaml` records them.
KILLERS = (
    Killer("Low tide", "Odile", Draft(1, EASY, 0.2, 20)),
    Killer("Milk round", "Jory", Draft(4, EASY, 0.2, 20), form="list"),
    Killer("Harbour steps", "Juno", Draft(2, MIXED, 0.0, 16)),
    Killer("Penny ferry", "Otis", Draft(13, MIXED, 0.0, 16), with_solution=True),
    Killer("Net loft", "Jory", Draft(0, EASY, 0.2, 20)),
    Killer("Rope walk", "Wren", Draft(6, EASY, 0.2, 20)),
    Killer("Kettle on", "Odile", Draft(1, MIXED, 0.0, 16)),
    Killer("Wash day", "Marigold", Draft(6, MIXED, 0.0, 16), form="list"),
    Killer("Cooper's yard", "Tamsin", Draft(10, PAIRS)),
    Killer("Slack water", "Ivo", Draft(12, PAIRS), form="list"),
    Killer("Two lamps", "Juno", Draft(0, MIXED, 0.0, 10)),
    Killer("Bell buoy", "Wren", Draft(5, MIXED, 0.0, 10), with_solution=True),
    Killer("Chandler's shelf", "Odile", Draft(4, MIXED, 0.1)),
    Killer("Spring tide", "Tamsin", Draft(20, MIXED, 0.1)),
    Killer("Tar barrel", "Otis", Draft(5, WIDE, 0.0, 2), form="list"),
    Killer("Gull weather", "Marigold", Draft(29, LARGE, 0.0, 2)),
    Killer("Crow's nest", "Ivo", Draft(1, MIXED, 0.1)),
    Killer("Storm cone", "Jory", Draft(14, WIDE, 0.0, 2), with_solution=True),
    Killer("Deep keel", "Tamsin", Draft(17, MIXED, 0.1)),
    Killer("Sea fret", "Juno", Draft(27, LARGE, 0.0, 2), form="list"),
    Killer("North mole", "Otis", Draft(12, MIXED, 0.1)),
    Killer("Lee shore", "Wren", Draft(304, MIXED, 0.1), form="list"),
    Killer("Ninth wave", "Odile", Draft(315, MIXED, 0.1)),
    Killer("Fog signal", "Ivo", Draft(24, LARGE, 0.0, 2)),
    Killer("Off soundings", "Marigold", Draft(86, MIXED, 0.1)),
    Killer("Dead reckoning", "Ivo", Draft(307, MIXED, 0.3), form="list"),
    Killer("Uncharted", "Tamsin", Draft(77, MIXED, 0.1)),
)

CLASSICS = (
    Classic("Quay wall", "Odile", 11, 24),
    Classic("Tide table", "Jory", 2, 24),
    Classic("Ballast", "Tamsin", 17, 24),
    Classic("Mooring line", "Wren", 13, 24),
    Classic("Undertow", "Ivo", 24, 24),
    Classic("", "", 30, 24, form="line"),
    Classic("", "", 37, 24, form="line"),
)

SMALL_KILLERS = (
    Killer("Thimble", "Juno", Draft(3, {2: 2.0, 3: 1.0}), grid=Grid.square(4)),
    Killer("Button box", "Otis", Draft(1, {2: 2.0, 3: 2.0}), grid=Grid.square(6), form="list"),
    Killer("Half a loaf", "Marigold", Draft(6, {3: 2.0, 4: 1.0}, 0.2), grid=Grid.square(6)),
    Killer(
        "Sardine tin", "Wren", Draft(2, {2: 2.0, 3: 2.0}), grid=Grid.square(6, (3, 2)), with_solution=True
    ),
    Killer(
        "Row of pegs", "Ivo", Draft(5, {2: 2.0, 3: 2.0}), form="map, totals in a row", grid=Grid.square(6)
    ),
    Killer(
        "Bare bones",
        "Odile",
        Draft(7, {2: 2.0, 3: 2.0}),
        form="map, totals left out",
        grid=Grid.square(6),
        with_solution=True,
    ),
)

SMALL_CLASSICS = (
    Classic("Pin cushion", "Juno", 2, 4, grid=Grid.square(4)),
    Classic("Egg timer", "Otis", 6, 8, grid=Grid.square(6)),
    Classic("Tea caddy", "Marigold", 5, 8, grid=Grid.square(6, (3, 2))),
)

LARGE_KILLERS = (
    Killer("Town clock", "Tamsin", Draft(1, {2: 2.0, 3: 3.0, 4: 1.0}, 0.0, 20), grid=Grid.square(12)),
    Killer("Fish market", "Ivo", Draft(1, MIXED, 0.0, 70), grid=Grid.square(16)),
    Killer(
        "Regatta day", "Odile", Draft(0, {2: 3.0, 3: 3.0, 4: 2.0, 6: 1.0}, 0.3, 300), grid=Grid.square(25)
    ),
)

LARGE_CLASSICS = (
    Classic("Parish map", "Jory", 2, 54, grid=Grid.square(12, (4, 3)), tries=50),
    Classic("Customs house", "Wren", 0, 110, grid=Grid.square(16), tries=20),
    Classic("Whole fleet", "Tamsin", 0, 330, grid=Grid.square(25), tries=1),
)


def sound_files() -> Iterator[ShelfFile]:
    """Yield the folders ``killers``, ``classics``, ``small`` and ``large``."""
    yield from _killers("killers", KILLERS, "lantern-{:03}")
    yield from _classics("classics", CLASSICS, "lantern-{:03}", first=101)
    yield from _killers("small", SMALL_KILLERS, "pocket-{:02}")
    yield from _classics("small", SMALL_CLASSICS, "pocket-{:02}", first=11)
    yield _two_islands()
    yield from _killers("large", LARGE_KILLERS, "broadsheet-{:02}")
    yield from _classics("large", LARGE_CLASSICS, "broadsheet-{:02}", first=11)


def titled(puzzle: Puzzle, id: str, title: str, setter: str, solution: Filling | None = None) -> Puzzle:
    """Return the puzzle with its credits, and with a solution if the file is to state one."""
    return replace(puzzle, credits=Credits(id, title or None, setter or None), solution=solution)


def slug(title: str) -> str:
    """Return a file's name for a title.

    Examples
    --------
    >>> slug("Cooper's yard")
    'coopers-yard'
    """
    return title.lower().replace("'", "").replace(" ", "-")


def _killers(folder: str, table: tuple[Killer, ...], ids: str) -> Iterator[ShelfFile]:
    for number, line in enumerate(table, start=1):
        puzzle, filling = draw_killer(line.grid, line.draft)
        named = titled(
            puzzle, ids.format(number), line.title, line.setter, filling if line.with_solution else None
        )
        aimed_at = _in_words(line.draft.sizes)
        made = f"drawn with one solution, from seed {line.draft.seed}, cages mostly of {aimed_at} cells"
        yield single(f"{folder}/{slug(line.title)}.yaml", named, made, form=line.form)


def _two_islands() -> ShelfFile:
    """Return a killer with a cage in two pieces: its setter means it, and one solution is left."""
    grid, seed = Grid.square(6), 18
    puzzle, filling = draw_killer(grid, Draft(seed, {2: 2.0, 3: 2.0}))
    for one, other in combinations(puzzle.cages, 2):
        cells = tuple(sorted(one.cells + other.cells))
        if in_one_piece(grid, cells) or len({filling[cell] for cell in cells}) < len(cells):
            continue
        rest = [cage for cage in puzzle.cages if cage not in (one, other)]
        joined = make_puzzle("killer", grid, cages=[*rest, Cage(cells, one.total + other.total)])
        if plain_count(joined) == 1:
            made = f"drawn with one solution, from seed {seed}; two cages that do not touch were made one"
            return single("small/two-islands.yaml", titled(joined, "pocket-21", "Two islands", "Jory"), made)
    raise AssertionError("no two cages can be joined")


def _in_words(sizes: Mapping[int, float]) -> str:
    *others, last = sizes
    return f"{', '.join(map(str, others))} or {last}"


def _classics(folder: str, table: tuple[Classic, ...], ids: str, first: int) -> Iterator[ShelfFile]:
    for number, line in enumerate(table, start=first):
        puzzle, _ = draw_classic(line.grid, line.seed, line.givens, tries=line.tries)
        id = ids.format(number)
        made = f"givens taken from a full grid, from seed {line.seed}, while one solution was left"
        name = f"{slug(line.title)}.yaml" if line.title else f"{id}.txt"
        yield single(f"{folder}/{name}", titled(puzzle, id, line.title, line.setter), made, form=line.form)
