"""Sound puzzles held against the house style in ``corpus/house-style.yaml``: some fit, the others do not."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import combinations
from typing import NamedTuple

from scripts.setting.broken import with_cages, with_givens
from scripts.setting.classics import draw_classic
from scripts.setting.killers import Draft, draw_killer
from scripts.setting.plain import plain_count
from scripts.setting.shelf import ACCEPTED, REJECTED, ShelfFile, single
from scripts.shelves.sound import EASY, MIXED, NINE, PAIRS, slug, titled
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import in_one_piece
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.marks.greater import Greater

__all__ = ["FOLDER", "style_files"]

FOLDER = "house-style"
"""The folder whose puzzles are judged with the house style; all others are judged without one."""


class Case(NamedTuple):
    """A line of the table below; the setter is left out where it is empty."""

    title: str
    setter: str
    drawn: Callable[[], Puzzle]
    made: str
    codes: tuple[str, ...] = ()


def _killer(seed: int, sizes: dict[int, float] = PAIRS, grid: Grid = NINE) -> Puzzle:
    return draw_killer(grid, Draft(seed, sizes))[0]


def _joined(seed: int, cells: int, sizes: dict[int, float], *, apart: bool) -> Puzzle:
    """Join two cages to one of so many cells, which may lie apart, and keep the one solution."""
    puzzle, filling = draw_killer(NINE, Draft(seed, sizes))
    for one, other in combinations(puzzle.cages, 2):
        both = Cage(tuple(sorted(one.cells + other.cells)), one.total + other.total)
        if (
            len(both.cells) == cells
            and _all_different(filling, both)
            and apart != in_one_piece(NINE, both.cells)
        ):
            rest = [cage for cage in puzzle.cages if cage not in (one, other)]
            joined = with_cages(puzzle, [*rest, both])
            if plain_count(joined) == 1:
                return joined
    raise ValueError("no cages to join: take another seed")


def _all_different(filling: Filling, cage: Cage) -> bool:
    return len({filling[cell] for cell in cage.cells}) == len(cage.cells)


def _given(seed: int, *cells: str) -> Puzzle:
    """Give some cells of a killer their digits."""
    puzzle, filling = draw_killer(NINE, Draft(seed, PAIRS))
    places = [puzzle.grid.cell_at(name) for name in cells]
    return with_givens(puzzle, {cell: filling[cell] for cell in places if cell is not None})


def _bare(seed: int) -> Puzzle:
    """Take out a cage that the one solution does not rest on."""
    puzzle = _killer(seed)
    for cage in puzzle.cages:
        less = with_cages(puzzle, [c for c in puzzle.cages if c != cage])
        if plain_count(less) == 1:
            return less
    raise ValueError("every cage is needed: take another seed")


def _cut_off(seed: int) -> Puzzle:
    """Cut one cell off a cage of three."""
    puzzle, filling = draw_killer(NINE, Draft(seed, EASY))
    cage = next(c for c in puzzle.cages if len(c.cells) == 3 and in_one_piece(NINE, c.cells[1:]))
    first, *others = cage.cells
    pieces = [Cage((first,), filling[first]), Cage(tuple(others), cage.total - filling[first])]
    return with_cages(puzzle, [c for c in puzzle.cages if c != cage] + pieces)


def _signed(seed: int) -> Puzzle:
    """Put a sign between two cells, as their digits are."""
    puzzle, filling = draw_killer(NINE, Draft(seed, PAIRS))
    cells = (40, 41) if filling[40] > filling[41] else (41, 40)
    return puzzle.changed(come=[Greater(cells)])


CASES = (
    Case("Lantern lighter", "Odile", lambda: _killer(104), "fits the house style"),
    Case("Evening post", "Jory", lambda: _killer(113), "fits the house style"),
    Case(
        "Four corners",
        "Juno",
        lambda: _given(116, "r1c1", "r1c9", "r9c1", "r9c9"),
        "givens in half-turn symmetry",
    ),
    Case(
        "Broken biscuit",
        "Ivo",
        lambda: _joined(104, 4, PAIRS, apart=True),
        "a cage in two pieces",
        ("style-cage-in-pieces",),
    ),
    Case(
        "Long pier",
        "Wren",
        lambda: _joined(105, 6, EASY, apart=False),
        "a cage of six cells",
        ("style-cage-size",),
    ),
    Case("Lone rock", "Otis", lambda: _cut_off(105), "a cage of one cell", ("style-cage-size",)),
    Case("Unsigned", "", lambda: _killer(124), "no setter", ("style-credits",)),
    Case("Holes in the net", "Tamsin", lambda: _bare(125), "a cage taken out", ("style-uncovered",)),
    Case(
        "Crooked candle", "Marigold", lambda: _given(128, "r1c1", "r2c2"), "no symmetry", ("style-symmetry",)
    ),
    Case(
        "Too many lamps",
        "Odile",
        lambda: _given(129, "r1c1", "r9c9", "r1c9", "r9c1", "r5c1", "r5c9"),
        "six givens",
        ("style-givens",),
    ),
    Case("Doll's house", "Juno", lambda: _killer(204, PAIRS, Grid.square(6)), "a 6x6", ("style-grid",)),
    Case(
        "Plain bread",
        "Jory",
        lambda: draw_classic(NINE, 207, 24)[0],
        "a classic",
        ("style-kind", "style-givens"),
    ),
    Case("Arrow on the door", "Tamsin", lambda: _signed(113), "a sign between two cells", ("style-rule",)),
    # What a puzzle needs is not known from its making: these two rest on the ladder.
    Case("High water", "Wren", lambda: _killer(117, MIXED), "needs locked candidates", ("style-technique",)),
    Case(
        "Spring flood",
        "Ivo",
        lambda: _killer(130, MIXED),
        "above tier 4, and needs locked candidates",
        ("style-tier", "style-technique"),
    ),
)


def style_files() -> Iterator[ShelfFile]:
    """Yield the folder that is judged with the house style."""
    for number, case in enumerate(CASES, start=1):
        puzzle = titled(case.drawn(), f"style-{number:02}", case.title, case.setter)
        yield single(
            f"{FOLDER}/{slug(case.title)}.yaml",
            puzzle,
            case.made,
            verdict=REJECTED if case.codes else ACCEPTED,
            codes=case.codes,
        )
