"""A rule as if no table of the diagnosis knew its class: it is named, written down, and can be put right."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.diagnosis.puzzles import sound
from verifier.diagnosis.clues import clues_of, facts_of, rules_named
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.repairs import changes, readings
from verifier.diagnosis.repairs.changes import RuleChange, changed
from verifier.diagnosis.repairs.readings import fitted, others
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.linear_sum import LinearSum

MEANT, SOLUTION = sound(1, size=4)[0]
GRID = MEANT.grid


def fits(linear: LinearSum, filling: Filling) -> LinearSum:
    return replace(linear, total=sum(weight * filling[cell] for cell, weight in linear.weights))


RIGHT = fits(LinearSum(((0, 1), (5, 1)), 0), SOLUTION)
WRONG = replace(RIGHT, total=RIGHT.total + 1)


@pytest.fixture(autouse=True)
def no_table_knows_it(monkeypatch: pytest.MonkeyPatch) -> None:
    for module, name in (
        (readings, "FITTED"),
        (readings, "OTHERS"),
        (changes, "_SAID"),
        (changes, "_RECORDS"),
        (changes, "_SLIPS"),
    ):
        table = {sort: said for sort, said in getattr(module, name).items() if sort is not LinearSum}
        monkeypatch.setattr(module, name, table)
    monkeypatch.setattr(readings, "_NEVER_LEFT_OUT", frozenset())


@pytest.fixture
def broken() -> Puzzle:
    return MEANT.changed(come=[WRONG])


def test_it_is_the_setters_and_goes_by_what_it_says_of_itself(broken: Puzzle) -> None:
    assert WRONG in clues_of(broken)
    assert not set(clues_of(broken)) & set(broken.houses)
    assert rules_named(GRID, [WRONG, GRID.houses[0]]) == "row 1; the cage of 5 with repeats in r1c1 and r2c2"
    assert facts_of(GRID, [WRONG, WRONG]) == {"rules": [WRONG.record(GRID)] * 2}


@pytest.mark.parametrize(
    ("change", "says", "record"),
    [
        (RuleChange(None, RIGHT), "Add the cage of 4 with repeats in r1c1 and r2c2.", (None, RIGHT)),
        (RuleChange(WRONG, None), "Take out the cage of 5 with repeats in r1c1 and r2c2.", (WRONG, None)),
        (
            RuleChange(WRONG, RIGHT),
            "Change the cage of 5 with repeats in r1c1 and r2c2 "
            "to the cage of 4 with repeats in r1c1 and r2c2.",
            (WRONG, RIGHT),
        ),
    ],
)
def test_its_change_is_told_and_written_down(
    change: RuleChange, says: str, record: tuple[LinearSum | None, LinearSum | None]
) -> None:
    assert change.says(GRID) == says
    old, new = (rule and rule.record(GRID) for rule in record)
    assert change.record(GRID) == {"what": "clue", "from": old, "to": new}


def test_without_a_place_in_the_table_it_can_only_go(broken: Puzzle) -> None:
    assert fitted(WRONG, SOLUTION) is None
    assert others(WRONG, GRID) == []
    found = diagnose(broken, seconds=5)
    assert [mend.changes for mend in found.mends] == [(RuleChange(WRONG, None),)]
    assert changed(broken, found.mends[0].changes) == MEANT


def test_with_one_line_in_the_table_its_other_readings_are_tried(
    broken: Puzzle, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(readings, "FITTED", dict([*readings.FITTED.items(), (LinearSum, fits)]))
    assert others(WRONG, GRID) == [replace(WRONG, total=total) for total in (2, 3, 4, 6, 7, 8)]
    found = diagnose(broken, seconds=5)
    assert [mend.changes for mend in found.mends] == [
        (RuleChange(WRONG, None),),  # first, for it leaves no cage in pieces
        (RuleChange(WRONG, RIGHT),),
    ]
