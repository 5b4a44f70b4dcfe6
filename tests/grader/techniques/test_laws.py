"""What holds of every technique on the ladder, on boards made at random; CP-SAT judges each step."""

from __future__ import annotations

import pytest
from hypothesis import Phase, find, given, settings

from grader.board.technique import Technique
from grader.ladder import LADDER
from tests.grader.boards import positions
from tests.grader.laws import BOARDS, NINE, Case, broken, cases, steps_of

OF_OTHER_RULES = {
    *("sign-bounds", "pair-values", "all-places", "repeating-cage"),
    *("crossing-cell", "area-of-one", "area-of-two"),
    *("leftover-cell", "law-of-leftovers", "mixed-fish"),
    *(one.id for one in LADDER if one.find.__module__.startswith("grader.techniques.clues.")),
}
"""For rules that the boards of the laws do not have: `test_clue_laws`, and the tests of each, try them."""


@pytest.mark.parametrize(
    "technique",
    [technique for technique in LADDER if technique.id not in OF_OTHER_RULES],
    ids=lambda technique: technique.id,
)
def test_the_boards_give_every_technique_something_to_find(technique: Technique) -> None:
    # Always the same boards, so that a rare pattern does not fail a run by chance.
    boards = settings(max_examples=500, phases=[Phase.generate], database=None, derandomize=True)
    killers = positions(NINE, killer=True)
    assert find(killers, lambda position: bool(steps_of(technique, position.board)), settings=boards)


# A failing board is shown as it was drawn: to make it smaller, out of hundreds of draws, takes minutes.
@settings(max_examples=BOARDS, deadline=None, phases=[Phase.explicit, Phase.reuse, Phase.generate])
@given(cases())
def test_no_law_is_broken(case: Case) -> None:
    assert broken(case) == {}
