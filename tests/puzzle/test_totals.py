"""Totals as people write them down: by mark, in a row, or not at all where the solution tells them."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.puzzle.broken import CAGES, HEAD, TOTALS
from tests.strategies import fillings, killers
from verifier.files.faults import Fault
from verifier.files.reading import ReadEntry, read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different

KILLER = HEAD + CAGES + TOTALS
SOLUTION = "solution: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  4 3 2 1\n"


def entry_of(text: str) -> ReadEntry:
    (entry,) = read_text(text.encode(), "box.yaml")
    return entry


def cages_of(text: str) -> list[int]:
    entry = entry_of(text)
    assert entry.faults == ()
    assert entry.puzzle is not None
    return [cage.total for cage in entry.puzzle.cages]


def faults_of(text: str) -> tuple[Fault, ...]:
    return entry_of(text).faults


def without_totals(text: str) -> tuple[str, str]:
    """What stands before the totals of a written puzzle, and what stands after them."""
    before, _, rest = text.partition("totals: {")
    return before, rest.partition("}\n")[2]


@st.composite
def killers_with_solution(draw: st.DrawFn) -> Puzzle:
    """A killer whose totals are those of the solution that it brings."""
    grid = Grid.square(draw(st.sampled_from([4, 6, 9])))
    filling = draw(fillings(grid))
    drawn = draw(killers(grid))
    assume(drawn.cages)
    cages = [Cage(cage.cells, sum(filling[cell] for cell in cage.cells)) for cage in drawn.cages]
    return make_puzzle("killer", grid, cages=cages, solution=filling, credits=Credits("pier"))


FEW = settings(max_examples=30)


@FEW
@given(killers_with_solution())
def test_totals_in_a_row_read_back_as_those_by_mark(puzzle: Puzzle) -> None:
    before, after = without_totals(write_puzzle(puzzle))
    in_a_row = ", ".join(str(cage.total) for cage in puzzle.cages)
    assert entry_of(f"{before}totals: [{in_a_row}]\n{after}").puzzle == puzzle


@FEW
@given(killers_with_solution())
def test_totals_that_are_left_out_follow_from_the_solution(puzzle: Puzzle) -> None:
    before, after = without_totals(write_puzzle(puzzle))
    assert entry_of(before + after).puzzle == puzzle


@FEW
@given(killers_with_solution())
def test_a_cage_of_a_list_that_leaves_its_total_out_has_none_whatever_the_solution(puzzle: Puzzle) -> None:
    name = puzzle.grid.cell_name
    cages = "".join(f"- {{cells: [{', '.join(map(name, cage.cells))}]}}\n" for cage in puzzle.cages)
    written = write_puzzle(puzzle.having(Cage, []))
    read = entry_of(f"{written}cages:\n{cages}").puzzle
    assert read == puzzle.changed(puzzle.cages, [Different(cage.cells) for cage in puzzle.cages])


def test_the_first_cell_of_a_cage_counts_where_the_map_is_irregular() -> None:
    cages = "cages: |\n  z z y y\n  x z x y\n  x x w w\n  v v v w\n"
    text = HEAD + cages + "totals: [7, 9, 11, 6, 7]\n"
    by_mark = HEAD + cages + "totals: {v: 7, w: 6, x: 11, y: 9, z: 7}\n"
    assert entry_of(text).puzzle == entry_of(by_mark).puzzle


def test_only_what_is_left_out_follows_from_the_solution() -> None:
    text = HEAD + CAGES + SOLUTION + "totals: {a: 4, c: , d: 3}\n"
    assert cages_of(text) == [4, 7, 7, 3, 3, 7, 7, 3]


def test_a_solution_with_faults_of_its_own_is_all_that_is_told() -> None:
    text = HEAD + CAGES + SOLUTION.replace("4 3 2 1", "4 3 2 5")
    assert [fault.code for fault in faults_of(text)] == ["digit-range"]


def test_without_a_solution_every_mark_needs_its_total() -> None:
    assert [fault.code for fault in faults_of(HEAD + CAGES)] == ["missing-key"]


def test_a_total_that_is_written_is_never_replaced_by_the_solution() -> None:
    faults = faults_of(HEAD + CAGES + SOLUTION + TOTALS.replace("h: 3", "h: three"))
    assert [(fault.code, fault.found) for fault in faults] == [("total", "'three'")]


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        pytest.param(KILLER.replace(", h: 3", ""), True, id="the only one"),
        pytest.param(KILLER.replace("h: 3", "h: x"), True, id="one that is no number"),
        pytest.param(KILLER.replace("g: 7, h: 3", "g: 7, h: "), True, id="one with nothing after it"),
        pytest.param(KILLER.replace("g: 7, h: 3", ""), False, id="two"),
        pytest.param(KILLER.replace(", h: 3", "").replace("a a", "a ."), False, id="a bare cell"),
        pytest.param(KILLER.replace("a: 3, ", "a: 7, ").replace(", h: 3", ""), False, id="nothing is left"),
        pytest.param(KILLER.replace("b b\n", "b\n").replace(", h: 3", ""), False, id="a row too short"),
    ],
)
def test_the_missing_total_of_a_covered_grid_is_offered(text: str, offered: bool) -> None:
    says = "The cages cover the grid, so this total is 40 less the rest: 3."
    assert any(says in fault.cure for fault in faults_of(text)) is offered
