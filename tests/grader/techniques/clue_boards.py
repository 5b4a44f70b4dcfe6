"""Boards with marks, lines and clues at the edge that a random filling obeys."""

from __future__ import annotations

from dataclasses import replace
from itertools import accumulate, combinations, pairwise
from random import Random

from hypothesis import strategies as st

from grader.board.board import Board
from grader.board.layout import layout_of
from grader.board.steps import Step
from tests.grader.boards import Position, positions
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule

__all__ = ["clued_positions"]

_GRIDS = (Grid.square(4), Grid.square(6), Grid.square(6, (3, 2)))


@st.composite
def clued_positions(draw: st.DrawFn) -> Position:
    """A position of a small classic, with a dozen clues of all kinds over any cells."""
    position = draw(positions(draw(st.sampled_from(_GRIDS))))
    grid, filling = position.puzzle.grid, position.solution
    rng = Random(draw(st.integers(0, 2**32)))
    clues = dict.fromkeys(
        clue for _ in range(6) for clue in _drawn(grid, filling, rng) if clue.holds(filling)
    )
    puzzle = make_puzzle("classic", grid, clues=rng.sample(list(clues), k=min(12, len(clues))))
    layout = layout_of(puzzle)
    places = tuple(
        (cell, filling[cell]) for cell in range(grid.cell_count) if position.board.placed >> cell & 1
    )
    board = Board(layout, position.board.candidates, 0, layout.all_cells).after(
        [Step("given", places=places)]
    )
    return replace(position, puzzle=puzzle, board=board.looking_at(layout.all_cells))


def _drawn(grid: Grid, filling: Filling, rng: Random) -> list[Rule]:
    """One clue of each kind, if there is one over the cells that come up."""
    cells = tuple(rng.sample(range(grid.cell_count), k=rng.randint(3, 5)))
    rising = tuple(sorted({filling[cell]: cell for cell in cells}.values(), key=lambda cell: filling[cell]))
    apart = tuple(abs(filling[a] - filling[b]) for a, b in pairwise(cells))
    low, *inner, high = sorted(cells, key=lambda cell: filling[cell])
    line = rng.choice([house.cells for house in grid.houses if house.kind != "box"])[:: rng.choice((1, -1))]
    one, other = rng.choice(
        [pair for pair in combinations(line, 2) if abs(pair[0] - pair[1]) in (1, grid.columns)]
    )
    pair = tuple(sorted((one, other)))
    larger, smaller = max(filling[one], filling[other]), min(filling[one], filling[other])
    parity = (Even, Odd)[filling[cells[0]] % 2]
    digits = [filling[cell] for cell in line]
    first, last = sorted((digits.index(1), digits.index(grid.digits)))
    return [
        Thermometer(rising),
        Whisper(min(cells, cells[::-1]), max(min(apart), 1)),
        Between(min((low, *inner, high), (high, *inner[::-1], low))),
        LittleKiller(cells, sum(filling[cell] for cell in cells)),
        Quadruple(tuple(sorted(line[:4])), tuple(sorted(filling[cell] for cell in line[:2]))),
        parity(tuple(sorted(cell for cell in cells if filling[cell] % 2 == filling[cells[0]] % 2))),
        Skyscraper(line, len(set(accumulate(digits, max)))),
        Sandwich(min(line, line[::-1]), sum(digits[first + 1 : last])),
        Consecutive(pair),
        PairSum(pair, larger + smaller),
        Ratio(pair, larger // smaller),
        *_of_equal_digits(grid, filling, rng),
        *_of_sums(grid, filling, rng),
    ]


def _of_equal_digits(grid: Grid, filling: Filling, rng: Random) -> list[Rule]:
    """A palindrome of three cells, a whisper of low and high ones, and cells with digits in a row."""
    one = rng.randrange(grid.cell_count)
    other = rng.choice([cell for cell, digit in enumerate(filling) if digit == filling[one] and cell != one])
    middle = rng.choice([cell for cell in range(grid.cell_count) if cell not in (one, other)])
    first = rng.randint(1, grid.digits - 2)
    window = [rng.choice([c for c, d in enumerate(filling) if d == first + more]) for more in range(3)]
    rng.shuffle(window)
    line = tuple(window)
    half = grid.digits // 2
    house = rng.choice(grid.houses).cells  # with two low cells of a line
    low, other_low = rng.sample([cell for cell in house if filling[cell] <= half], k=2)
    high = filling.index(grid.digits)
    return [
        Whisper(min((low, high, other_low), (other_low, high, low)), half),
        Palindrome(min((one, middle, other), (other, middle, one))),
        Renban(min(line, line[::-1])),
    ]


def _of_sums(grid: Grid, filling: Filling, rng: Random) -> list[Rule]:
    """Arrows with circles of one and two cells, and parts in two boxes that make the same."""
    line = tuple(rng.sample(range(grid.cell_count), k=rng.randint(2, 4)))
    total = sum(filling[cell] for cell in line)
    rest = [cell for cell in range(grid.cell_count) if cell not in line]
    single = [cell for cell in rest if filling[cell] == total]
    pairs = [(a, a + 1) for a in rest if a + 1 in rest and (a + 1) % grid.columns]
    double = [pair for pair in pairs if 10 * filling[pair[0]] + filling[pair[1]] == total]
    boxes = [house.cells for house in grid.houses if house.kind == "box"]
    here, there = rng.sample(boxes, k=2)
    part = tuple(rng.sample(here, k=2))
    made = sum(filling[cell] for cell in part)
    equal = [
        some for k in (1, 2, 3) for some in combinations(there, k) if sum(filling[c] for c in some) == made
    ]
    found: list[Rule] = [Arrow((cell,), line) for cell in single[:1]]
    found += [Arrow(pair, line) for pair in double[:1]]
    return [*found, *(RegionSum((part, some)) for some in rng.sample(equal, k=min(1, len(equal))))]
