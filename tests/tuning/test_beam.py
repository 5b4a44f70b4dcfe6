"""The search towards a wish: whatever it offers keeps the solution, and is what was wished for."""

from __future__ import annotations

import pytest

from tests.corpus.puzzles import puzzle_at
from tests.diagnosis.puzzles import sound
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.tuning.answers import Ending, Tuning
from verifier.tuning.search.beam import NotSoundError, Progress, SearchLimits, tune
from verifier.tuning.search.crew import Crew
from verifier.tuning.wish import THIRDS, Wish, WishPart
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.style.symmetry import unmatched

ONE_CHANGE = SearchLimits(changes=1, seconds=600)
PUZZLE, SOLUTION = sound(12)[1]
"""A killer of tier 2 that one change makes one of tier 1."""


def tuned(puzzle: Puzzle, wish: Wish, limits: SearchLimits = ONE_CHANGE, jobs: int = 1) -> Tuning:
    with Crew(jobs) as crew:
        return tune(puzzle, wish, crew, limits)


def test_what_is_offered_is_accepted_keeps_the_solution_and_is_what_was_wished_for() -> None:
    found = tuned(PUZZLE, Wish(tiers=(1,)))
    assert found.answers
    for answer in found.answers:
        assert answer.fits
        assert answer.verdict.solutions.filling == SOLUTION
        assert answer.verdict.difficulty is not None
        assert answer.verdict.difficulty.tier == 1
        assert len(answer.puzzle.givens) == 0


def test_two_processes_find_what_one_finds() -> None:
    wish = Wish(tiers=(1,))
    assert tuned(PUZZLE, wish) == tuned(PUZZLE, wish, jobs=2)


def test_with_one_seed_the_answers_are_the_same_with_another_they_fit_as_well() -> None:
    one, again, other = (tuned(PUZZLE, Wish(tiers=(1,)), SearchLimits(1, 600, seed)) for seed in (0, 0, 1))
    assert one == again
    assert other.answers
    assert all(answer.fits for answer in other.answers)


def test_two_changes_are_tried_where_one_is_not_enough() -> None:
    puzzle, _ = sound(12)[0]
    assert not tuned(puzzle, Wish(tiers=(1,))).answers
    found = tuned(puzzle, Wish(tiers=(1,)), SearchLimits(changes=2, seconds=600))
    assert {len(answer.changes) for answer in found.answers} == {2}


def test_where_no_given_can_go_one_is_exchanged_for_another() -> None:
    """Without any one of these it has several solutions: the search goes on from there."""
    cells = (2, 10, 11, 13, 18, 19, 21, 27, 30, 34)
    puzzle = make_puzzle("classic", PUZZLE.grid, givens={cell: SOLUTION[cell] for cell in cells})
    assert not tuned(puzzle, Wish(effort=(26, 200))).answers
    found = tuned(puzzle, Wish(effort=(26, 200)), SearchLimits(changes=2, seconds=600))
    assert found.answers
    assert {len(answer.puzzle.givens) for answer in found.answers} == {len(cells)}


def test_a_technique_is_done_without() -> None:
    found = tuned(PUZZLE, Wish(without=("last-cells-of-cage",)))
    assert found.answers
    used = [answer.verdict.difficulty.by_technique for answer in found.answers if answer.verdict.difficulty]
    assert not any("last-cells-of-cage" in techniques for techniques in used)


def test_a_technique_comes_in() -> None:
    found = tuned(PUZZLE, Wish(having=("single-combination",)))
    assert found.answers
    assert all(
        answer.verdict.difficulty and "single-combination" in answer.verdict.difficulty.by_technique
        for answer in found.answers
    )


def test_the_effort_lies_where_it_is_wished() -> None:
    found = tuned(PUZZLE, Wish(effort=(50, 65)))
    efforts = [answer.verdict.difficulty.effort for answer in found.answers if answer.verdict.difficulty]
    assert efforts
    assert all(effort is not None and 50 <= effort <= 65 for effort in efforts)


@pytest.mark.parametrize("place", ["middle", "late"])
def test_the_break_in_comes_in_the_third_of_the_rounds_that_is_wished(place: str) -> None:
    found = tuned(puzzle_at("small/half-a-loaf.yaml"), Wish(break_in=place), SearchLimits(2, 600))
    assert found.answers
    for answer in found.answers:
        difficulty = answer.verdict.difficulty
        assert difficulty is not None
        assert difficulty.break_in is not None
        part = (difficulty.break_in.round - 0.5) / difficulty.rounds
        assert THIRDS[place] / 3 <= part < (THIRDS[place] + 1) / 3


def test_cages_become_fewer() -> None:
    most = len(PUZZLE.cages) - 1
    found = tuned(PUZZLE, Wish(most_cages=most))
    assert found.answers
    assert all(len(answer.puzzle.cages) <= most for answer in found.answers)


def classic() -> Puzzle:
    """Sound with half-turn symmetry but for one given."""
    cells = [2, *(cell for cell in PUZZLE.grid.cells if (cell // 6 + cell % 6) % 3 != 2)]
    return make_puzzle("classic", PUZZLE.grid, givens={cell: SOLUTION[cell] for cell in cells})


def test_givens_go_until_they_are_symmetric_and_few_enough() -> None:
    puzzle = classic()
    wish = Wish(symmetry="half-turn", most_givens=len(puzzle.givens) - 1)
    found = tuned(puzzle, wish)
    assert found.answers
    for answer in found.answers:
        assert not unmatched("half-turn", puzzle.grid, [cell for cell, _ in answer.puzzle.givens])
        assert len(answer.puzzle.givens) < len(puzzle.givens)


def test_a_house_style_is_kept_to() -> None:
    style = HouseStyle("Harbour Page", tiers=(1,), cages_in_one_piece=True)
    found = tuned(PUZZLE, Wish(style=style))
    assert found.answers
    assert {answer.verdict.made_by.style_name for answer in found.answers} == {"Harbour Page"}


def test_a_puzzle_that_is_all_that_already_is_left_alone() -> None:
    found = tuned(PUZZLE, Wish(tiers=(2,)))
    assert (found.ending, found.answers, found.tried) == (Ending.ALREADY, (), 0)


def test_what_cannot_be_had_is_told_by_what_comes_nearest() -> None:
    found = tuned(PUZZLE, Wish(most_cages=2))
    assert not found.answers
    assert found.ending is Ending.ALL_TRIED
    assert [gap.part for gap in found.nearest[0].gaps] == [WishPart.CAGES]


def test_a_puzzle_with_several_solutions_has_none_to_keep() -> None:
    with pytest.raises(NotSoundError):
        tuned(make_puzzle("classic", PUZZLE.grid), Wish(tiers=(1,)))


def test_ctrl_c_leaves_what_was_found() -> None:
    def heard(progress: Progress) -> None:
        if progress.found:
            raise KeyboardInterrupt

    with Crew(1) as crew:
        found = tune(PUZZLE, Wish(tiers=(1,)), crew, ONE_CHANGE, heard)
    assert found.ending is Ending.STOPPED
    assert found.answers


def test_once_the_time_is_up_nothing_more_is_tried() -> None:
    found = tuned(puzzle_at("killers/fog-signal.yaml"), Wish(tiers=(1,)), SearchLimits(2, 0.0))
    assert (found.ending, found.tried) == (Ending.TIME, 0)


def test_a_blocked_cell_of_a_kakuro_moves_and_all_cells_that_stay_hold_what_they_held() -> None:
    puzzle = puzzle_at("kakuro/wicket-gate.yaml")
    found = tuned(puzzle, Wish(effort=(12, 40)))
    before = found.before.verdict.solutions.filling
    assert found.answers
    assert before is not None
    for answer in found.answers:
        after = answer.verdict.solutions.filling
        assert after is not None
        assert answer.fits
        assert all(old == new for old, new in zip(before, after, strict=True) if old and new)
    assert any(answer.puzzle.grid != puzzle.grid for answer in found.answers)
