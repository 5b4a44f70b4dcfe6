"""The table, the names of files, and the exit code of a run."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from grader.grading.tiers import default_tiers
from verifier.cli.telling.exits import Exit, worst
from verifier.cli.telling.table import Row, row_of, table_text
from verifier.files.faults import Fault
from verifier.intake.papers.naming import FileNames
from verifier.intake.workers.judging import Judged
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.verdict.judge import identity_of, judge, lost
from verifier.verdict.verdict import Remark

GRAVITY = [Exit.ACCEPTED, Exit.REJECTED, Exit.UNDECIDED, Exit.UNREADABLE, Exit.BUG, Exit.INTERRUPTED]


@pytest.mark.parametrize(("lighter", "graver"), list(combinations(GRAVITY, 2)))
def test_the_graver_of_two_outcomes_is_the_exit_code(lighter: Exit, graver: Exit) -> None:
    assert worst({lighter, graver}) is graver


def test_wide_letters_do_not_push_the_columns_apart() -> None:
    """The letters of some scripts take two columns of a terminal."""
    lines = table_text([Row("光", "accepted"), Row("ab", "rejected")]).splitlines()
    assert lines[1].replace("光", "xx").index("accepted") == lines[2].index("rejected")


def test_an_unreadable_puzzle_shows_its_first_fault_and_counts_the_others() -> None:
    fault = Fault("kind", "box.yaml#2", 4, "puzzle", "'kiler'", "classic, killer", "")
    row = row_of(Judged("box.yaml#2", (fault, fault, fault)), default_tiers())
    assert row.cells == (
        "box.yaml#2",
        "unreadable",
        "",
        "",
        "",
        "",
        "line 4: puzzle: found 'kiler'; two faults more",
    )


def test_remarks_stand_after_the_reasons_each_kind_once() -> None:
    bare = Remark("bare-cell", "No cage holds r1c2.", ("r1c2",))
    verdict = replace(lost(identity_of(make_puzzle("classic", Grid.square(4)))), remarks=(bare, bare))
    assert (
        row_of(Judged("box.yaml#2", verdict=verdict), default_tiers()).why == "worker lost, remark: bare cell"
    )


@pytest.mark.parametrize(("tier", "cell"), [(3, "3 hill"), (4, "4 hill (lifted)")])
def test_a_tier_above_that_of_the_hardest_technique_is_said_to_be_lifted(tier: int, cell: str) -> None:
    puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    verdict = judge(puzzle)
    assert verdict.difficulty is not None
    hard = replace(verdict.difficulty, tier=tier, name="hill", hardest="naked-pair")
    row = row_of(Judged("box.yaml", verdict=replace(verdict, difficulty=hard)), default_tiers())
    assert row.tier == cell


def test_every_line_ends_without_spaces() -> None:
    assert not any(line.endswith(" ") for line in table_text([Row("a", "accepted")]).splitlines())


def test_names_that_differ_only_in_case_or_in_unsafe_letters_do_not_collide() -> None:
    names = FileNames()
    ids = ["tide", "Tide", "TIDE", "a/b", "a\\b", "a b", "", ".", "-"]
    given = [names.name_for(puzzle_id, f"box.yaml#{n}") for n, puzzle_id in enumerate(ids)]
    assert len({name.casefold() for name in given}) == len(ids)


def test_a_name_does_not_depend_on_the_names_of_others_unless_they_collide() -> None:
    names = FileNames()
    names.name_for("ebb", "a.yaml")
    assert names.name_for("tide", "b.yaml") == FileNames().name_for("tide", "b.yaml")
