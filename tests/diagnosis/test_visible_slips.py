"""Slips that show: an example of each, a near miss that does not show, and what holds for all of them."""

from __future__ import annotations

from dataclasses import replace
from itertools import starmap
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scripts.slips.slip import SLIPS, Slip
from tests.diagnosis.backtracking import count_plainly
from tests.diagnosis.puzzles import drawn, sound
from verifier.counting.count import count_solutions
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.findings import Diagnosis, Finding, SolutionCount
from verifier.diagnosis.repairs.cells import cell_exchanges
from verifier.diagnosis.repairs.changes import CageChange, CellMove, changed
from verifier.diagnosis.repairs.mends import Kind, Mend
from verifier.diagnosis.report import as_record, in_words
from verifier.diagnosis.search import Stage, search_through
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.several.several_solutions import stages
from verifier.puzzle.cage_layout import cages_in_pieces, lone_bare_cell, places_that_look_wrong
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import beside, in_one_piece, pieces
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given

SIX = Grid.square(6)
NEW_KINDS = ("shared mark", "two cells", "forgotten", "alike")


def slipped(kind: str, number: int) -> Slip:
    """A slip that leaves a cage in pieces, or not exactly one solution."""
    meant, solution = sound(12)[number]
    random = Random(number)
    while True:
        slip = SLIPS[kind](meant, solution, random)
        if (
            places_that_look_wrong(slip.puzzle) > places_that_look_wrong(meant)
            or count_plainly(slip.puzzle, 2) != 1
        ):
            return slip


def mended(slip: Slip) -> Puzzle:
    """The puzzle after the first repair."""
    return changed(slip.puzzle, diagnose(slip.puzzle, 8).mends[0].changes)


def codes(found: Diagnosis) -> list[str]:
    return [finding.code for finding in found.findings]


@pytest.mark.parametrize("kind", ["shared mark", "forgotten", "alike"])
@pytest.mark.parametrize("number", [1, 2])
def test_a_slip_that_shows_is_mended_first(kind: str, number: int) -> None:
    slip = slipped(kind, number)
    assert mended(slip) == slip.meant


# One mark for two cages


def shared() -> Slip:
    return slipped("shared mark", 1)


def test_a_cage_in_pieces_is_named_and_split_and_the_missing_total_is_found() -> None:
    slip = shared()
    ((both, rules),) = cages_in_pieces(slip.puzzle).items()
    found = diagnose(slip.puzzle, 8)
    assert "cage-in-pieces" in codes(found)
    (change,) = found.mends[0].changes
    assert isinstance(change, CageChange)
    assert (change.old, {cage.cells for cage in change.new}) == ((both,), set(rules))
    assert both.figure in {cage.total for cage in change.new}


def test_a_split_is_one_change_with_the_cages_before_and_after() -> None:
    (change,) = as_record(diagnose(shared().puzzle, 8))["repairs"][0]["changes"]
    assert (change["what"], len(change["from"]), len(change["to"])) == ("cages", 1, 2)


def test_two_cages_that_touch_are_one_in_one_piece_and_nothing_shows() -> None:
    meant, _ = sound(12)[1]
    one = meant.cages[0]
    other = next(c for c in meant.cages[1:] if in_one_piece(SIX, (*one.cells, *c.cells)))
    both = Cage((*one.cells, *other.cells), one.total)
    assert places_that_look_wrong(changed(meant, [CageChange((one, other), (both,))])) == 0


def test_a_sound_puzzle_with_a_cage_in_pieces_is_sound_and_says_so() -> None:
    """The cage may be meant so: nothing is rejected, and what else it may have been is only offered."""
    meant, filling = sound(12)[0]
    one = meant.cages[0]
    other = next(c for c in meant.cages if len(pieces(SIX, (*one.cells, *c.cells))) == 2)
    digits = [filling[cell] for cell in (*one.cells, *other.cells)]
    givens = {cell: filling[cell] for cell in range(0, 36, 2)}
    both = Cage((*one.cells, *other.cells), one.total + other.total)
    puzzle = changed(meant.having(Given, starmap(Given, givens.items())), [CageChange((one, other), (both,))])
    found = diagnose(puzzle, 8)
    if len(set(digits)) == len(digits) and found.count is SolutionCount.ONE:
        assert codes(found) == ["sound", "cage-in-pieces"]
        assert found.sound


# Two cells


def with_exchange(side_by_side: bool) -> tuple[Slip, Mend]:
    """Two cells that changed places, and the repair that puts them back."""
    for number in range(8):
        slip = slipped("two cells", number)
        if (places_that_look_wrong(slip.puzzle) > 0) is side_by_side:
            for mend in diagnose(slip.puzzle, 8).mends:
                if changed(slip.puzzle, mend.changes) == slip.meant:
                    return slip, mend
    raise AssertionError("no such slip was drawn, or none was mended")


@pytest.mark.parametrize("side_by_side", [True, False])
def test_two_cells_that_changed_places_change_back(side_by_side: bool) -> None:
    _, mend = with_exchange(side_by_side)
    assert mend.shows is side_by_side
    assert mend.kind in (Kind.CELLS, Kind.CELL)


def test_an_exchange_is_told_as_one_and_written_as_two_moves() -> None:
    slip, mend = with_exchange(side_by_side=False)
    found = Diagnosis(slip.puzzle, SolutionCount.NONE, diagnose(slip.puzzle, 8).findings, (mend,))
    assert "  1. Exchange two cells: r" in in_words(found)
    one, other = as_record(found)["repairs"][0]["changes"]
    assert (one["what"], other["what"]) == ("cell", "cell")
    assert one["cell"] in other["from"]
    assert one["cell"] not in other["to"]


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000))
def test_whatever_is_exchanged_both_cages_keep_their_size_and_their_one_piece(seed: int) -> None:
    puzzle, _ = drawn(Grid.square(4), seed, largest=3)
    for mend in cell_exchanges(puzzle, lambda _: True, SearchBudget(2)):
        after = changed(puzzle, mend.changes)
        assert sorted(len(c.cells) for c in after.cages) == sorted(len(c.cells) for c in puzzle.cages)
        assert cages_in_pieces(after) == {}
        assert count_plainly(after, 2) == 1


# A forgotten mark


def forgotten() -> tuple[Puzzle, CellMove]:
    slip = slipped("forgotten", 2)
    cell = lone_bare_cell(slip.puzzle)
    assert cell is not None
    cage = next(cage for cage in slip.meant.cages if cell in cage.cells)
    left = Cage(tuple(c for c in cage.cells if c != cell), cage.total)
    return slip.puzzle, CellMove(cell, None, left)


def test_a_forgotten_mark_comes_before_a_wrong_total() -> None:
    puzzle, move = forgotten()
    found = diagnose(puzzle, 8)
    assert "one-bare-cell" in codes(found)
    assert found.mends[0].changes == (move,)
    assert Kind.TOTAL in {mend.kind for mend in found.mends}


def test_with_two_cells_in_no_cage_nothing_shows() -> None:
    puzzle, move = forgotten()
    other = next(c for c in puzzle.cages if c != move.new and len(c.cells) > 2)
    wider = changed(puzzle, [CellMove(other.cells[-1], other, None)])
    assert lone_bare_cell(wider) is None
    assert places_that_look_wrong(wider) == len(cages_in_pieces(wider))


# A mark that looks like another


def beside_it() -> tuple[Slip, CellMove]:
    """A cell with `l` for `I`, where the cage of `l` is beside it and nothing else shows."""
    for number in range(12):
        slip = slipped("alike", number)
        found = diagnose(slip.puzzle, 8)
        move = found.mends[0].changes[0]
        if places_that_look_wrong(slip.puzzle) == 0 and isinstance(move, CellMove):
            return slip, move
    raise AssertionError("no such slip was drawn")


def test_a_mark_that_looks_like_another_comes_first_and_is_named() -> None:
    slip, move = beside_it()
    found = diagnose(slip.puzzle, 8)
    assert changed(slip.puzzle, found.mends[0].changes) == slip.meant
    assert found.mends[0].misread == ("l", "I")
    name = SIX.cell_name(move.cell)
    assert f"Move {name} from" in in_words(found)
    assert ": its mark, 'l', looks like 'I'." in in_words(found)


def test_marks_that_do_not_look_alike_are_no_reason() -> None:
    slip, _ = beside_it()
    marks = tuple("t" if mark == "l" else mark for mark in slip.puzzle.marks)
    found = diagnose(replace(slip.puzzle, marks=marks), 8)
    assert all(mend.misread == () for mend in found.mends)


# What shows


@given(st.sets(st.integers(0, 35)))
def test_pieces_share_out_the_cells_and_none_touches_another(cells: set[int]) -> None:
    found = pieces(SIX, cells)
    assert sorted(cell for piece in found for cell in piece) == sorted(cells)
    assert all(in_one_piece(SIX, piece) for piece in found)
    where = {cell: number for number, piece in enumerate(found) for cell in piece}
    assert all(where[c] == where[n] for c in cells for n in beside(SIX, c) if n in cells)


@given(st.integers(0, 10_000))
def test_cages_as_they_are_drawn_show_nothing(seed: int) -> None:
    assert places_that_look_wrong(drawn(Grid.square(4), seed)[0]) == 0


# The budget


def test_what_the_budget_did_not_suffice_for_is_named() -> None:
    last = diagnose(slipped("total", 1).puzzle, seconds=0.01).findings[-1]
    assert last.code == "cut-short"
    assert "cells that changed places" in last.facts["not_looked_at"]
    assert "the solution in the file" not in last.facts["not_looked_at"]  # it brings none


def test_without_cages_nothing_about_cages_is_named() -> None:
    classic = make_puzzle("classic", Grid.square(4))
    search = stages(classic, count_solutions(classic, 20), SearchBudget(0))
    found: list[Finding | Mend] = []
    assert search_through(classic, search, found.append) == (Stage.GIVENS, Stage.REDRAWN, Stage.VALUES)


def test_where_the_clock_has_run_out_nothing_is_claimed() -> None:
    found = diagnose(sound(12)[0][0], 20, clock=0)
    assert (found.count, found.mends, found.cut_short) == (SolutionCount.UNKNOWN, (), True)
