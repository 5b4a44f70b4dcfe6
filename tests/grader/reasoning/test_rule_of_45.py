from hypothesis import given, settings
from hypothesis import strategies as st

from grader.board.board import opening_board
from grader.board.layout import layout_of
from grader.reasoning.rule_of_45 import SumKind, simplest_sums
from tests.strategies import fillings
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

GRID = Grid.square(9)
FALLING = House("falling diagonal", 0, tuple(range(0, 81, 10)))


def sums_of_the_diagonal(*cages: Cage) -> list[tuple[tuple[int, ...], int]]:
    puzzle = make_puzzle("killer", GRID, cages=cages, houses=(*GRID.houses, FALLING))
    number = layout_of(puzzle).houses.index(FALLING)
    sums = simplest_sums(opening_board(puzzle), *SumKind)
    return [(left.cells, left.total) for left in sums if left.houses == (number,)]


def test_cages_that_lie_on_a_diagonal_leave_its_innies() -> None:
    inside = [Cage((0, 10, 20), 10), Cage((30, 40), 15), Cage((50, 60), 9)]
    assert sums_of_the_diagonal(*inside) == [((70, 80), 11)]


def test_a_cage_that_sticks_out_of_a_diagonal_is_not_inside_it() -> None:
    inside = [Cage((0, 10, 20), 10), Cage((30, 40), 15)]
    sticking_out = Cage((50, 51), 9)
    assert sorted(sums_of_the_diagonal(*inside, sticking_out)) == [
        ((50, 60, 70, 80), 20),
        ((51, 60, 70, 80), 11),
    ]


@st.composite
def one_of_each_digit(draw: st.DrawFn, grid: Grid, filling: Filling) -> House:
    places = [[cell for cell in grid.cells if filling[cell] == digit] for digit in grid.all_digits]
    return House("extra house", 1, tuple(sorted(draw(st.sampled_from(cells)) for cells in places)))


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_every_sum_holds_in_the_filling_that_the_cages_were_drawn_over(data: st.DataObject) -> None:
    grid = data.draw(st.sampled_from([Grid.square(4), Grid.square(6), GRID]))
    filling = data.draw(fillings(grid))
    house = data.draw(one_of_each_digit(grid, filling))
    cages, taken = [], set[int]()
    for start in data.draw(st.lists(st.integers(0, grid.cell_count - 2), max_size=12)):
        cells = data.draw(st.sampled_from([(start, start + 1), (start,), tuple(house.cells[:2])]))
        if not taken & {*cells} and len({filling[cell] for cell in cells}) == len(cells):
            taken |= {*cells}
            cages.append(Cage(cells, sum(filling[cell] for cell in cells)))
    puzzle = make_puzzle("killer", grid, cages=cages, houses=(*grid.houses, house))
    for left in simplest_sums(opening_board(puzzle), *SumKind):
        signs = [1 if left.plus >> cell & 1 else -1 for cell in left.cells]
        assert sum(s * filling[c] for s, c in zip(signs, left.cells, strict=True)) == left.total
