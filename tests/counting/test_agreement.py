"""Count, recount and plain search on the same random killers: three ways, one answer."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.counting.backtracking import first_solutions
from tests.strategies import killers
from verifier.counting.count import count_solutions
from verifier.puzzle.grid import Grid
from verifier.recount.recount import recount_solutions

GRIDS = {"4x4": Grid.square(4), "6x6, boxes 2x3": Grid.square(6), "6x6, boxes 3x2": Grid.square(6, (3, 2))}


@pytest.mark.parametrize("grid", GRIDS.values(), ids=GRIDS)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_count_and_recount_find_what_plain_search_finds(grid: Grid, data: st.DataObject) -> None:
    puzzle = data.draw(killers(grid, most_cells=5))
    plain = first_solutions(puzzle, limit=3)
    for tally in (count_solutions(puzzle, limit=3), recount_solutions(puzzle, limit=3)):
        assert (tally.count, tally.complete) == (len(plain), len(plain) < 3)
        if tally.complete:
            assert tally.solutions == plain
