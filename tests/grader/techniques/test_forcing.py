import pytest

from grader.board.board import Board, board_from_text
from grader.board.technique import Technique
from grader.grading.replay import replay
from grader.reasoning.lines_of_forcing.branch import Branch, Origin
from grader.reasoning.lines_of_forcing.forks import LEVELS_AT_MOST
from grader.reasoning.lines_of_forcing.tracing import TracedPremises
from grader.techniques.forcing import (
    CONTRADICTION_CHAIN,
    FORCING_CHAIN,
    SHORT,
    SHORT_CONTRADICTION_CHAIN,
    SHORT_FORCING_CHAIN,
)
from grader.techniques.trial import TRIAL
from tests.grader.boards import audit, cages_of, names, removed
from tests.reference import load, puzzle_of
from verifier.puzzle.rules.cage import Cage

PIVOT = "12 . . . 13\n. 23"
CAGE_OF_FIVE = [Cage((1, 2), 5)]


def gone_from(board: Board, technique: Technique) -> set[str]:
    return {cell for step in technique.find(board) for cell in removed(board, step)}


def test_what_both_candidates_of_a_cell_lead_to_goes() -> None:
    board = board_from_text(PIVOT)
    steps = [step for step in SHORT_FORCING_CHAIN.find(board) if step.length == 2]
    assert {cell for step in steps for cell in removed(board, step)} == {
        "r1c2",
        "r1c3",
        "r2c4",
        "r2c5",
        "r2c6",
    }
    assert all(set(removed(board, step).values()) == {(3,)} for step in steps)


def test_a_third_candidate_and_there_is_no_fork() -> None:
    board = board_from_text(PIVOT.replace("12", "124"))
    assert "r1c2" not in gone_from(board, SHORT_FORCING_CHAIN)


def test_a_chain_cites_its_fork_and_what_it_passes() -> None:
    board = board_from_text(PIVOT)
    (step,) = [s for s in SHORT_FORCING_CHAIN.find(board) if names(board, [s.removes[0][0]]) == "r1c2"][:1]
    assert {"r1c1", "r1c5", "r2c2"} <= set(names(board, step.looks).split())
    assert audit(step, board)


def test_a_digit_that_leaves_a_cage_no_combination_goes() -> None:
    # 1 in r1c1 takes 1 and 4 from the cage: 2 + 3 is left. 2 there would leave 1 + 4, 3 likewise.
    board = board_from_text("123 14 14", CAGE_OF_FIVE)
    assert gone_from(board, SHORT_CONTRADICTION_CHAIN) >= {"r1c1"}
    step = next(step for step in SHORT_CONTRADICTION_CHAIN.find(board) if step.focus == (0,))
    assert removed(board, step) == {"r1c1": (1,)}
    assert (step.length, cages_of(board, step)) == (1, (0,))


def test_a_digit_that_leaves_the_cage_one_combination_stays() -> None:
    board = board_from_text("123 1234 1234", CAGE_OF_FIVE)
    assert "r1c1" not in gone_from(board, SHORT_CONTRADICTION_CHAIN)


@pytest.mark.parametrize(
    ("technique", "reach"),
    [
        (SHORT_FORCING_CHAIN, SHORT),
        (SHORT_CONTRADICTION_CHAIN, SHORT),
        (FORCING_CHAIN, LEVELS_AT_MOST),
        (CONTRADICTION_CHAIN, LEVELS_AT_MOST),
    ],
)
def test_no_chain_is_longer_than_its_reach(technique: Technique, reach: int) -> None:
    board = board_from_text(PIVOT + " . . . 12 . .\n12 . . 13 . .", CAGE_OF_FIVE)
    steps = list(technique.find(board))
    assert steps
    assert all(1 <= step.length <= reach for step in steps)


def test_a_branch_stops_at_its_contradiction_and_can_say_why() -> None:
    board = board_from_text("12 12 123", size=4)
    branch = Branch(Origin(board), 2, 1)
    branch.run()
    assert branch.contradicted
    premises = TracedPremises()
    premises.add_contradiction(branch)
    assert names(board, sorted(premises.looks)) == "r1c1 r1c2"


def test_a_branch_from_a_right_digit_is_not_contradicted() -> None:
    branch = Branch(Origin(board_from_text("12 12 123", size=4)), 2, 3)
    branch.run()
    assert not branch.contradicted


@pytest.mark.parametrize(
    "technique",
    [SHORT_FORCING_CHAIN, SHORT_CONTRADICTION_CHAIN, FORCING_CHAIN, CONTRADICTION_CHAIN, TRIAL],
)
def test_a_board_that_is_contradicted_already_gives_no_chain(technique: Technique) -> None:
    nowhere_for_four = board_from_text("123 123 123 123", size=4)
    assert not list(technique.find(nowhere_for_four))


def test_trial_refutes_by_one_line_first() -> None:
    board = board_from_text("12 12 123", size=4)
    steps = list(TRIAL.find(board))
    assert {"r1c3"} <= {cell for step in steps for cell in removed(board, step)}
    assert {step.length for step in steps} == {1}


@pytest.mark.reference
def test_trial_that_branches_cites_what_its_lines_rest_on_and_no_more() -> None:
    hard = next(record for record in load("classic_hard") if record["id"] == "classic-plb2-02")
    board = replay(puzzle_of(hard), trial=False).end
    assert board is not None
    nested = list(TRIAL.find(board))
    assert {step.length for step in nested} == {3}
    for step in nested:
        assert audit(step, board)
        assert len(step.looks) < board.layout.grid.cell_count
    assert any(len(board.layout.houses_among(step.rules)) < len(board.layout.houses) for step in nested)


def test_trial_finds_nothing_where_every_digit_can_be_right() -> None:
    assert not list(TRIAL.find(board_from_text("", size=4)))
