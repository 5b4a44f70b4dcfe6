"""Published numbers of 4x4 and 6x6 grids and puzzles."""

from collections import Counter
from math import factorial

import pytest

from tests.facts.symmetries import cell_symmetries, orbits_of_subsets, relabelled
from tests.reference import facts
from verifier.counting.count import count_solutions
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.recount.recount import recount_solutions

pytestmark = pytest.mark.reference

GRID_4X4 = Grid.square(4)
EMPTY_4X4 = make_puzzle("classic", GRID_4X4)


def test_an_empty_4x4_grid_has_288_fillings() -> None:
    # OEIS A107739, a(2). Keep it: with 8 workers OR-tools 9.15 found 255 to 282 of them and still said
    # that the search was finished, so this is what a lost solution looks like.
    expected = facts()["grids"]["grids_4x4"]["value"]
    for tally in (count_solutions(EMPTY_4X4, limit=1000), recount_solutions(EMPTY_4X4, limit=1000)):
        assert (tally.count, tally.complete) == (expected, True)


def test_4x4_puzzles_with_one_solution_are_as_many_as_published_by_number_of_givens() -> None:
    """All terms of OEIS A109252, with one puzzle counted for each class of puzzles that are alike.

    A puzzle with one solution is that filling with some cells left out, so each of the 288 fillings is
    asked for each of the 2**16 sets of its cells. Renaming the digits and reordering the cells (lines in
    a band, bands, rows for columns) takes puzzles to puzzles, and leaves the number of givens and of
    solutions as they were. So one filling of each class is enough, times the size of its class; and for
    that filling one set of cells of each orbit under the reorderings that give the filling itself back up
    to names of digits, times the size of the orbit. That leaves 6,578 puzzles of 18,874,368.
    """
    symmetries = cell_symmetries(GRID_4X4)
    assert len(symmetries) == 128
    left = {relabelled(filling) for filling in count_solutions(EMPTY_4X4, limit=1000).solutions}
    found: Counter[int] = Counter()
    while left:
        filling = min(left)
        images = {s: relabelled(tuple(filling[cell] for cell in s)) for s in symmetries}
        alike = set(images.values())
        left -= alike
        own = [s for s in symmetries if images[s] == filling]
        for mask, orbit in orbits_of_subsets(16, own):
            givens = {cell: filling[cell] for cell in range(16) if mask >> cell & 1}
            if count_solutions(make_puzzle("classic", GRID_4X4, givens=givens)).complete:
                found[len(givens)] += orbit * len(alike) * factorial(4)
    published = facts()["clues"]["unique_puzzles_4x4_by_number_of_givens"]["value"]
    assert [found[givens] for givens in range(17)] == published


@pytest.mark.parametrize("boxes", [(2, 3), (3, 2)])
def test_there_are_28200960_fillings_of_a_6x6_grid(boxes: tuple[int, int]) -> None:
    """The published number of 6x6 grids, from 816 of them.

    Boxes of two rows and three columns. Every filling becomes one of those counted here by

    * renaming the digits, so that box 1 reads 123 / 456: one name in 6! = 720;
    * reordering columns 4 to 6, so that row 1 ends in 456: one order in 3! = 6;
    * exchanging rows 3 and 4, rows 5 and 6, and those two bands, so that column 1 (which holds 2, 3, 5
      and 6 there) rises in each band and has its 2 in row 3: one order in 2 * 2 * 2 = 8.

    None of these steps undoes another, and all keep a filling a filling; so there are 720 * 6 * 8 for
    each one counted. Turned over, the same goes for boxes of three rows and two columns.
    """
    expected = facts()["grids"]["grids_6x6_boxes_2x3"]["value"]  # from memory, recomputed independently
    top = {0: 1, 1: 2, 2: 3, 3: 4, 4: 5, 5: 6, 6: 4, 7: 5, 8: 6}
    counted = 0
    for fourth in (3, 5, 6):
        fifth, sixth = sorted({3, 5, 6} - {fourth})
        givens = {**top, 12: 2, 18: fourth, 24: fifth, 30: sixth}
        if boxes == (3, 2):
            givens = {6 * (cell % 6) + cell // 6: digit for cell, digit in givens.items()}
        puzzle = make_puzzle("classic", Grid.square(6, boxes), givens=givens)
        count, recount = count_solutions(puzzle, limit=1000), recount_solutions(puzzle, limit=1000)
        assert count.complete
        assert count.solutions == recount.solutions
        counted += count.count
    assert counted * factorial(6) * factorial(3) * 2**3 == expected
