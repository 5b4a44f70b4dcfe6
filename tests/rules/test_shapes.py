"""Puzzles whose houses are not rows, columns and boxes: every layer takes them as they are."""

from __future__ import annotations

import re
from dataclasses import replace
from random import Random

import pytest

from grader.board.board import empty_board, opening_board
from grader.board.layout import layout_of
from grader.grading.effort import effort_of
from grader.grading.glance import glance, hidden_singles
from grader.grading.replay import Outcome, replay
from grader.walking.walk import walk
from grader.words.narrate import where_to_look
from tests.rules.shapes import IRREGULAR_6, SHAPES, SIX, fillings_of, lines, solved_by
from verifier.audit.audit import failed_audits
from verifier.counting.count import count_solutions
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.report import in_words, write_diagnosis
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.likeness.filling import filling_key
from verifier.likeness.structure import structure_key
from verifier.likeness.turned import forms, turned_images, turned_key
from verifier.pages.drawing.svg import Picture, drawing
from verifier.pages.drawing.thumbnail import thumbnail
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.recount.recount import recount_solutions
from verifier.verdict.judge import judge
from verifier.walkthrough.text import as_text
from verifier.walkthrough.work import work_through

every_shape = pytest.mark.parametrize("puzzle", [made() for made in SHAPES.values()], ids=list(SHAPES))


def reduced(puzzle: Puzzle, seed: int = 1) -> Puzzle:
    """The puzzle with givens of one of its fillings, none of which can be left out."""
    random = Random(seed)
    filling = random.choice(fillings_of(puzzle, 300))
    cells = random.sample(puzzle.grid.cells, len(puzzle.grid.cells))
    left = [Given(cell, filling[cell]) for cell in cells if cell not in dict(puzzle.givens)]
    for given in list(left):
        fewer = [other for other in left if other is not given]
        if count_solutions(puzzle.changed([], fewer)).count == 1:
            left = fewer
    return puzzle.changed([], left)


@every_shape
def test_both_counts_find_all_fillings_and_no_others(puzzle: Puzzle) -> None:
    wanted = fillings_of(puzzle)
    assert 0 < len(wanted) < 10_000
    for tally in (count_solutions(puzzle, 20_000), recount_solutions(puzzle, 20_000)):
        assert list(tally.solutions) == wanted
        assert (tally.complete, tally.refused) == (True, None)


def test_known_numbers() -> None:
    """576 Latin squares of order 4 (OEIS A002860); 288 with boxes (OEIS A107739)."""
    assert len(fillings_of(SHAPES["no boxes"]())) == 576
    assert count_solutions(SHAPES["no boxes"](), 1000).count == 576
    # Both diagonals of a Latin square of order 4: 48 (OEIS A274806, from memory).
    assert count_solutions(SHAPES["no boxes"]().changed([], Grid.square(4).diagonals), 1000).count == 48


@every_shape
def test_a_replay_ends_in_the_one_solution_and_each_step_stands(puzzle: Puzzle) -> None:
    for seed in range(3):
        sound = reduced(puzzle, seed)
        (solution,) = count_solutions(sound).solutions
        played = replay(sound)
        assert played.outcome is not Outcome.CONTRADICTION
        if played.end is not None:
            wrong = [
                cell for cell, mask in enumerate(played.end.candidates) if not mask >> solution[cell] & 1
            ]
            assert wrong == [], "the replay has taken away what is right"
        if played.outcome is Outcome.SOLVED:
            assert played.filling == solution
        taken = walk(sound)
        assert failed_audits(taken.steps) == []


@every_shape
def test_what_is_said_is_whole(puzzle: Puzzle) -> None:
    sound = reduced(puzzle)
    lines = as_text(work_through(sound)).split("\n")
    text = "\n".join(line for line in lines if not re.fullmatch(r"[\d.#| +-]*", line))  # less the small grids
    checks = " ".join(check.says for check in (*arithmetic_checks(sound), *judge(sound).checks))
    hints = " ".join(where_to_look(taken.step, taken.board.layout) for taken in walk(sound).steps)
    assert text.strip()
    assert checks.strip()
    for said in (text, checks, hints):
        found = [
            gap for gap in (" .", " ,", "in .", "at .", "()", "None", "{", "row 0", "house 0") if gap in said
        ]
        assert found == []


@every_shape
def test_a_verdict_is_reached_by_two_witnesses(puzzle: Puzzle) -> None:
    verdict = judge(reduced(puzzle))
    assert verdict.solutions.count == 1
    assert len(verdict.witnesses) >= 2


@every_shape
def test_mend_finds_a_repair_of_too_few_givens_and_of_a_wrong_one(puzzle: Puzzle) -> None:
    sound = reduced(puzzle)
    (cell, digit), *_ = set(sound.givens) - set(puzzle.givens)
    wrong = next(
        other
        for other in sound.grid.all_digits
        if other != digit and not count_solutions(_with(sound, Given(cell, digit), Given(cell, other))).count
    )
    for broken in (puzzle, _with(sound, Given(cell, digit), Given(cell, wrong))):
        found = diagnose(broken)
        # What makes rules of other kinds fit together is not sought yet: then it says that it found nothing.
        assert found.mends or {type(rule) for rule in puzzle.rules} - {House, Cage, Given}
        assert in_words(found)
        assert write_diagnosis(found)


def _with(puzzle: Puzzle, old: Given, new: Given) -> Puzzle:
    return puzzle.changed([old], [new])


@every_shape
def test_turned_puzzles_have_the_same_keys(puzzle: Puzzle) -> None:
    puzzle = reduced(puzzle)
    filling = fillings_of(puzzle)[0]
    keys = (turned_key(puzzle), structure_key(puzzle), filling_key(puzzle, filling))
    for grid, places in turned_images(puzzle.grid):
        moved = puzzle.moved(grid, places)
        assert moved is not None
        assert count_solutions(moved, 10).count == 1
        image = tuple(digit for _, digit in sorted(zip(places, filling, strict=True)))
        assert (turned_key(moved), structure_key(moved), filling_key(moved, image)) == keys
        for form in forms(moved):
            assert (turned_key(form), structure_key(form)) == keys[:2]


def test_puzzles_with_other_houses_have_other_keys() -> None:
    made = [shape() for shape in SHAPES.values()]
    for key in (turned_key, structure_key):
        assert len({key(puzzle) for puzzle in made}) == len(made)


def test_one_diagonal_turned_is_called_by_where_it_lies() -> None:
    puzzle = SHAPES["one diagonal"]()
    names = set()
    for grid, places in turned_images(puzzle.grid):
        moved = puzzle.moved(grid, places)
        assert moved is not None
        assert [house.name for house in moved.houses[:8]] == [house.name for house in puzzle.houses[:8]]
        names.add(moved.houses[8].name)
    assert names == {"falling diagonal", "rising diagonal"}


@every_shape
def test_pictures_show_it(puzzle: Puzzle) -> None:
    assert "<svg" in drawing(Picture(puzzle), "a puzzle")
    assert "<svg" in thumbnail(puzzle, "a puzzle")


def test_a_thumbnail_draws_the_boxes_that_the_puzzle_has() -> None:
    usual = make_puzzle("classic", Grid.square(4))
    assert "blank-4x4-2x2" in thumbnail(usual, "usual")
    other = thumbnail(SHAPES["irregular boxes"](), "other")
    assert "blank" not in other
    assert other != thumbnail(SHAPES["no boxes"](), "other")


@every_shape
def test_a_file_says_it_or_says_that_it_cannot(puzzle: Puzzle) -> None:
    try:
        written = write_puzzle(puzzle)
    except ValueError as refused:
        if not re.match(r"no file can say |cages overlap in r", str(refused)):
            raise
    else:
        (entry,) = read_text(written.encode(), "box.yaml")
        assert entry.faults == ()
        assert entry.puzzle is not None
        assert entry.puzzle.rules == puzzle.rules


def test_effort_and_the_glance_count_every_house() -> None:
    """Where the houses are the usual ones in another dress, they are counted one by one as at a glance."""
    random = Random(5)
    for size in (4, 6, 9):
        grid = Grid.square(size)
        usual = make_puzzle("classic", grid)
        filling = count_solutions(usual).solutions[0]
        cells = random.sample(range(grid.cell_count), grid.cell_count // 2)
        puzzle = usual.changed([], [Given(cell, filling[cell]) for cell in cells])
        dressed = replace(puzzle, grid=replace(grid, box_rows=0, box_columns=0))
        board, other = opening_board(puzzle), opening_board(dressed)
        assert glance(other) == glance(board)
        assert hidden_singles(other) == hidden_singles(board)


def test_effort_is_the_same_in_another_dress() -> None:
    puzzle = reduced(make_puzzle("classic", Grid.square(6)))
    dressed = replace(puzzle, grid=SIX)
    assert effort_of(replay(dressed)) == effort_of(replay(puzzle))


def test_who_sees_whom_without_a_house() -> None:
    layout = layout_of(SHAPES["houses shorter than the digits"]())
    assert layout.houses == ()
    assert layout.link(0, 3)
    assert not layout.link(1, 3)
    layout = layout_of(solved_by(make_puzzle("classic", SIX, houses=()), Different((0, 35))))
    assert [layout.rules[number] for number in layout.link(0, 35)] == [Different((0, 35))]


def test_a_blocked_cell_is_never_open() -> None:
    puzzle = SHAPES["a kakuro"]()
    board = empty_board(puzzle)
    assert board.unsolved(range(puzzle.grid.cell_count)) == list(puzzle.grid.cells)
    assert not board.contradicted


def test_a_6x6_with_irregular_boxes_works_through_from_end_to_end() -> None:
    puzzle = reduced(make_puzzle("classic", SIX, houses=(*lines(6), *IRREGULAR_6)), seed=3)
    told = work_through(puzzle)
    assert told.sound
    assert "box" in as_text(told)


def test_cages_that_cover_an_irregular_grid_must_add_up() -> None:
    houses = (*lines(6), *IRREGULAR_6)
    cages = [Cage(house.cells, 21) for house in IRREGULAR_6[:-1]]
    low = make_puzzle("killer", SIX, houses=houses, cages=[*cages, Cage(IRREGULAR_6[-1].cells[:-1], 20)])
    assert all(check.passed for check in arithmetic_checks(low))
    full = make_puzzle(
        "killer",
        SIX,
        houses=houses,
        cages=[*cages[:-1], Cage(IRREGULAR_6[-2].cells, 20), *[Cage(IRREGULAR_6[-1].cells, 21)]],
    )
    assert {check.code for check in arithmetic_checks(full) if not check.passed} == {"full-sum", "cage-total"}


def test_no_sum_of_a_whole_grid_is_asked_for_where_no_houses_settle_it() -> None:
    codes = {check.code for check in arithmetic_checks(SHAPES["a kakuro"]())}
    assert codes == {"cage-size", "cage-total"}


def test_clashing_givens_are_told_with_their_house() -> None:
    puzzle = SHAPES["diagonals"]().changed([], [Given(0, 1), Given(15, 1), Given(5, 2), Given(9, 3)])
    failed = [check.says for check in arithmetic_checks(puzzle) if not check.passed]
    assert failed == [
        "The digit 1 is given in r1c1 and r4c4, but no digit stands twice in falling diagonal. "
        "Correct the givens."
    ]
    passed = SHAPES["diagonals"]().changed([], [Given(0, 1)])
    said = [check.says for check in arithmetic_checks(passed)]
    assert said == ["No two givens clash in a row, a column, a box, a falling diagonal or a rising diagonal."]


def test_houses_that_are_named_alike_but_overlap_are_not_added_up() -> None:
    one, other = House("extra house", 1, (0, 1, 4, 5)), House("extra house", 2, (5, 6, 9, 10))
    cages = [Cage((0, 1, 4), 9), Cage((6, 9, 10), 6)]
    puzzle = make_puzzle("killer", Grid(4, 4, 0, 0, 4), houses=(*lines(4), one, other), cages=cages)
    wanted = fillings_of(puzzle)
    assert list(count_solutions(puzzle, 1000).solutions) == wanted
