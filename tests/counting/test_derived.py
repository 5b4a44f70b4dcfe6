"""The cages that the rule of 45 adds."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strategies import fillings
from verifier.counting.derived import derived_cages
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

GRID = Grid.square(9)


def derived(*cages: Cage) -> tuple[Cage, ...]:
    return derived_cages(make_puzzle("killer", GRID, cages=cages))


def row(number: int, columns: range) -> tuple[int, ...]:
    return tuple((number - 1) * 9 + column - 1 for column in columns)


def test_one_innie_of_a_row_is_what_its_cages_leave_of_45() -> None:
    assert Cage(row(1, range(9, 10)), 4) in derived(
        Cage(row(1, range(1, 5)), 20), Cage(row(1, range(5, 9)), 21)
    )


def test_the_outie_of_a_row_is_what_its_cages_have_too_much() -> None:
    straddling = Cage((*row(1, range(5, 10)), *row(2, range(9, 10))), 31)
    assert Cage(row(2, range(9, 10)), 6) in derived(Cage(row(1, range(1, 5)), 20), straddling)


def test_no_outie_is_derived_where_a_cell_of_the_row_is_in_no_cage() -> None:
    straddling = Cage((*row(1, range(5, 9)), *row(2, range(9, 10))), 31)
    assert derived(Cage(row(1, range(1, 4)), 20), straddling) == ()


def test_two_rows_have_innies_that_neither_has_alone() -> None:
    both = [Cage((column, column + 9), total) for column, total in enumerate([9, 10, 11, 12, 8, 9, 10, 11])]
    assert Cage((8, 17), 10) in derived(*both)


def test_leftover_cells_that_do_not_all_see_each_other_are_no_cage() -> None:
    apart = [Cage(row(1, range(1, 9)), 40), Cage(row(2, range(2, 10)), 41)]
    assert Cage((8, 9), 9) not in derived(*apart)


def test_cages_that_overlap_inside_a_row_are_not_counted_twice() -> None:
    overlapping = [Cage(row(1, range(1, 6)), 20), Cage(row(1, range(4, 9)), 21)]
    assert all(cage.cells != row(1, range(9, 10)) for cage in derived(*overlapping))


def test_cages_that_overlap_outside_a_row_are_not_counted_twice() -> None:
    shared = row(2, range(8, 9))
    inside = Cage(row(1, range(1, 8)), 30)
    overlapping = [Cage((7, *shared), 10), Cage((8, *shared), 12)]
    assert all(cage.cells != shared for cage in derived(inside, *overlapping))


def test_houses_with_a_common_cell_are_not_added_up() -> None:
    falling, rising = tuple(range(0, 81, 10)), tuple(range(8, 73, 8))
    houses = (House("diagonal", 1, falling), House("diagonal", 2, rising))
    cages = [Cage(tuple(c for c in cells if c != 40), 40) for cells in (falling, rising)]
    puzzle = make_puzzle("killer", GRID, cages=cages, houses=houses)
    assert derived_cages(puzzle) == (Cage((40,), 5),)


@settings(max_examples=100, deadline=None)
@given(st.data())
def test_every_derived_cage_holds_in_the_filling_that_the_cages_were_drawn_over(data: st.DataObject) -> None:
    grid = data.draw(st.sampled_from([Grid.square(4), Grid.square(6), Grid.square(6, (3, 2)), GRID]))
    filling = data.draw(fillings(grid))
    groups = data.draw(st.lists(st.sets(st.integers(0, grid.cell_count - 1), min_size=1, max_size=5)))
    lines = data.draw(st.lists(st.sampled_from([house.cells[:-1] for house in grid.houses])))
    cages = [
        Cage(tuple(sorted(cells)), sum(filling[c] for c in cells))
        for cells in [*groups, *lines]
        if len({filling[c] for c in cells}) == len(cells)
    ]
    assert solves(make_puzzle("killer", grid, cages=cages), filling)
    added = derived_cages(make_puzzle("killer", grid, cages=cages))
    assert solves(make_puzzle("killer", grid, cages=added), filling)
