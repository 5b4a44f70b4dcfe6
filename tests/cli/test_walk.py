"""``gridproof walk``: what people read, what programs read, and the exit code."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
import yaml

from grader.board.steps import Step
from grader.ladder import TECHNIQUES
from tests.cli.command import HERE, Finished, called, gridproof
from tests.snapshots import assert_snapshot
from verifier.files.reading import read_file
from verifier.walkthrough.short import key_steps
from verifier.walkthrough.text import as_text
from verifier.walkthrough.work import work_through

SNAPSHOTS = HERE / "snapshots"
CORPUS = HERE.parents[1] / "corpus"


def steps_of(*arguments: object) -> list[dict[str, Any]]:
    document = yaml.safe_load(called("walk", "--yaml", *arguments).out)
    return list(document["steps"])


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("walk-classic", ["sound.yaml"]),
        ("walk-killer", ["box.yaml#1", "--audit"]),
        ("walk-several", ["box.yaml#2"]),
        ("walk-none", ["box.yaml#5"]),
        ("walk-from", ["box.yaml#1", "--from", "r4c4"]),
        ("walk-from-given", ["sound.yaml", "--from", "R1C1"]),
        ("walk-markdown", ["box.yaml#1", "--markdown"]),
        ("walk-spoken", ["box.yaml#1", "--spoken", "--from", "r4c4"]),
        ("walk-yaml", ["sound.yaml", "--yaml", "--audit"]),
        ("walk-unreadable", ["box.yaml#3"]),
        ("walk-short", [CORPUS / "killers" / "coopers-yard.yaml", "--short"]),
        ("walk-short-markdown", [CORPUS / "killers" / "coopers-yard.yaml", "--short", "--markdown"]),
    ],
)
def test_what_people_read_is_that_of_the_snapshot(name: str, arguments: list[str]) -> None:
    finished = called("walk", *arguments)
    text = f"exit {finished.code}\n\n--- stdout\n{finished.out}\n--- stderr\n{finished.err}"
    assert_snapshot(SNAPSHOTS / f"{name}.txt", text)


@pytest.mark.parametrize(("file", "code"), [("sound.yaml", 0), ("box.yaml#2", 1), ("box.yaml", 2)])
def test_the_exit_code_says_how_it_went(file: str, code: int) -> None:
    assert called("walk", file).code == code


def test_every_puzzle_of_a_file_is_walked() -> None:
    documents = list(yaml.safe_load_all(called("walk", "--yaml", "box.yaml").out))
    assert [document["puzzle"]["id"] for document in documents] == [
        "low-tide",
        "ebb",
        "box.yaml#4",
        "stranded",
    ]


def test_a_puzzle_comes_in_by_standard_input_too() -> None:
    text = (HERE / "puzzles" / "sound.yaml").read_bytes()
    assert called("walk", "-", typed=text).code == 0


def test_each_step_of_the_yaml_is_numbered_and_has_all_its_keys() -> None:
    steps = steps_of("box.yaml#1", "--full")
    assert [step["n"] for step in steps] == list(range(1, len(steps) + 1))
    for step in steps:
        assert {"n", "round", "technique", "places", "removes", "because", "breath", "says"} <= step.keys()
        assert step["because"].keys() == {
            "houses",
            "cages",
            "sums",
            "rules",
            "candidates",
            "excluded",
        }


def test_houses_are_named_as_people_do() -> None:
    steps = steps_of(CORPUS / "killers" / "two-lamps.yaml", "--full")
    houses = {house for step in steps for house in step["because"]["houses"]}
    assert houses
    assert all(re.fullmatch(r"(row|column|box) [1-9]", house) for house in houses)


def test_a_placed_cell_is_listed_with_its_one_digit() -> None:
    (first, *_) = steps_of("sound.yaml", "--full")
    assert {"r1c1": [1], "r1c2": [2]}.items() <= first["because"]["candidates"].items()


def test_full_tells_at_least_as_many_steps() -> None:
    file = CORPUS / "killers" / "slack-water.yaml"
    assert len(steps_of(file, "--full")) > len(steps_of(file))


def test_a_short_walk_has_about_eight_steps_of_the_walk_each_with_its_idea() -> None:
    for name in ("storm-cone", "coopers-yard", "low-tide", "wash-day"):
        (entry,) = read_file(CORPUS / "killers" / f"{name}.yaml")
        assert entry.puzzle is not None
        told = work_through(entry.puzzle)
        keys = key_steps(told)
        assert 3 <= len(keys) <= 8
        assert [key.number for key in keys] == sorted({key.number for key in keys})
        assert all(told.told.steps[key.number - 1] is key.taken and key.idea for key in keys)
        ranks = list(TECHNIQUES)
        hardest = max((taken.step.technique for taken in told.told.steps), key=ranks.index)
        assert hardest in {key.taken.step.technique for key in keys} or (told.grade and told.grade.tier == 1)


def test_places_at_which_people_get_stuck_are_pointed_out() -> None:
    said = called("walk", CORPUS / "killers" / "storm-cone.yaml").out
    assert 1 <= said.count("People get stuck here: no digit is at hand") <= 3
    assert "People get stuck here" not in called("walk", "box.yaml#5").out  # no solution, no way on


def so_far(folder: Path, rows: str, *options: str, puzzle: str = "sound.yaml") -> Finished:
    """Walk on from these rows; the solution is 1 2 3 4 / 3 4 1 2 / 2 1 4 3 / 4 3 2 1."""
    (folder / "rows.txt").write_text(rows)
    return called("walk", puzzle, "--so-far", str(folder / "rows.txt"), *options)


def test_a_walk_goes_on_from_a_part_filled_grid(tmp_path: Path) -> None:
    rows = "1 2 3 4\n3 4 . 2\n2 . . .\n. 3 . ."
    finished = so_far(tmp_path, rows, "--yaml")
    placed = [cell for step in yaml.safe_load(finished.out)["steps"] for cell in step["places"]]
    assert finished.code == 0
    assert sorted(placed) == ["r2c3", "r3c2", "r3c3", "r3c4", "r4c1", "r4c3", "r4c4"]
    assert "The walk goes on from a grid with 9 of 16 digits." in so_far(tmp_path, rows).out


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        (
            "1 2 3 .\n. 4 4 2\n2 . . .\n. 3 . .",
            "4 stands twice in row 2: r2c2 and r2c3.",
        ),
        ("4 2 3 .\n. . . 2\n2 . . .\n. 3 . .", "r1c1 is given as 1, not 4."),
        ("1 2 3 {2}\n. . . 2\n2 . . .\n. 3 . .", "The right digit is missing from the pencil marks in r1c4."),
    ],
)
def test_a_walk_does_not_go_on_from_what_is_wrong_unless_that_is_dropped(
    rows: str, said: str, tmp_path: Path
) -> None:
    finished = so_far(tmp_path, rows)
    assert finished.code == 1
    assert finished.out.startswith(said)
    assert "RUN-IN" not in finished.out
    dropped = so_far(tmp_path, rows, "--drop-wrong")
    assert dropped.code == 0
    assert "The walk goes on from a grid" in dropped.out


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        ("", "rows.txt: the file: found nothing; allowed: at least one puzzle."),
        ("1 2 3\n" * 4, "rows.txt:1: givens, row 1: found three marks"),
        ("1 2 3 4\n" * 3, "rows.txt: givens: found three rows; allowed: four rows of four marks."),
        ("1 2 3 5\n" + ". . . .\n" * 3, "rows.txt:1: givens, r1c4: found '5'"),
        ("what is this", "rows.txt:1: givens"),
    ],
)
def test_a_grid_that_is_none_is_told_where_and_how(rows: str, message: str, tmp_path: Path) -> None:
    for command in ("walk", "next"):
        (tmp_path / "rows.txt").write_text(rows)
        finished = called(command, "sound.yaml", "--so-far", str(tmp_path / "rows.txt"))
        assert (finished.code, finished.out) == (2, "")
        assert message in finished.err


def test_a_grid_without_a_digit_is_walked_from_the_start(tmp_path: Path) -> None:
    assert steps_of("sound.yaml") == yaml.safe_load(so_far(tmp_path, ". . . .\n" * 4, "--yaml").out)["steps"]


def test_a_full_grid_has_nothing_to_walk(tmp_path: Path) -> None:
    finished = so_far(tmp_path, "1 2 3 4\n3 4 1 2\n2 1 4 3\n4 3 2 1")
    assert finished.code == 0
    assert "The grid is full, and every digit is right." in finished.out


@pytest.mark.parametrize(("puzzle", "said"), [("box.yaml#2", "more than one"), ("box.yaml#5", "no solution")])
def test_of_a_broken_puzzle_no_grid_is_walked_on(puzzle: str, said: str, tmp_path: Path) -> None:
    finished = so_far(tmp_path, ". . . .\n" * 4, puzzle=puzzle)
    assert finished.code == 1
    assert said in finished.out
    assert "goes on" not in finished.out


def test_the_story_of_a_cell_that_is_filled_is_short(tmp_path: Path) -> None:
    rows = "1 2 3 4\n. . . 2\n2 . . .\n. 3 . ."
    assert "r1c4 is 4 already." in so_far(tmp_path, rows, "--from", "r1c4").out


def test_cells_are_said_in_full_on_demand() -> None:
    for options in ([], ["--markdown"], ["--short"], ["--from", "r4c4"]):
        said = called("walk", "box.yaml#1", "--spoken", *options).out
        assert not re.search(r"\br[0-9]c[0-9]\b", said)
        assert re.search(r"[Rr]ow [0-9], +column", " ".join(said.split()))


def test_the_story_of_a_cell_ends_with_its_digit() -> None:
    steps = steps_of("box.yaml#1", "--from", "r4c4")
    assert list(steps[-1]["places"]) == ["r4c4"]


def test_a_sum_names_the_houses_and_cages_it_comes_from() -> None:
    steps = steps_of(CORPUS / "killers" / "two-lamps.yaml", "--full")
    sums = [derived for step in steps for derived in step["because"]["sums"]]
    assert sums
    assert all(derived["from"]["houses"] and derived["cells"] for derived in sums)


def test_what_is_known_is_taken_off_a_sum_and_a_sum_of_one_side_has_no_minus() -> None:
    known: set[str] = set()
    for step in steps_of(CORPUS / "killers" / "two-lamps.yaml", "--full"):
        for derived in step["because"]["sums"]:
            assert not known & set(derived["cells"])
            assert 1 in derived["cells"].values()
        known |= set(step["places"])
    assert known


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["sound.yaml", "--yaml", "--markdown"], "'--yaml' and '--markdown' ask for different things"),
        (["sound.yaml", "--full", "--from", "r1c1"], "'--full' and '--from' ask for different things"),
        (["sound.yaml", "--short", "--from", "r1c1"], "'--short' and '--from' ask for different things"),
        (["sound.yaml", "--short", "--full"], "'--full' and '--short' ask for different things"),
        (["sound.yaml", "--short", "--yaml"], "'--short' and '--yaml' ask for different things"),
        (["sound.yaml", "--yaml", "--spoken"], "'--yaml' and '--spoken' ask for different things"),
        (["sound.yaml", "--from", "r5c5"], "--from: found 'r5c5'; allowed: a cell such as r1c2, rows 1 to 4"),
        (["sound.yaml", "--seconds", "0"], "found '0'; allowed: a whole number from 1 to"),
        (["sound.yaml", "--drop-wrong"], "'--drop-wrong' goes with '--so-far'"),
        (["box.yaml", "--so-far", "sound.yaml"], "box.yaml holds five puzzles: name one of them"),
        (["-", "--so-far", "-"], "can be the puzzle or the part-filled grid, not both"),
        ([], "Missing argument 'FILE'"),
    ],
)
def test_a_call_that_cannot_be_answered_says_why(arguments: list[str], message: str) -> None:
    finished = called("walk", *arguments)
    assert (finished.code, finished.out) == (2, "")
    assert message in finished.err


def test_a_step_that_fails_its_audit_is_a_bug_and_named() -> None:
    with patch("verifier.audit.audit.failed_audits", lambda _: [(2, None), (3, None)]):
        finished = called("walk", "sound.yaml", "--audit")
    assert finished.code == 70
    assert "not proved from what they cite: 2 and 3." in finished.out
    assert "gridproof made a mistake of its own" in finished.err


def test_a_walk_that_ends_in_another_grid_than_the_count_tells_nothing() -> None:
    with patch("verifier.walkthrough.work.solves", lambda *_: False):
        finished = called("walk", "sound.yaml")
    assert (finished.code, finished.out) == (70, "")


def test_a_puzzle_that_needs_more_than_the_ladder_has_says_so_and_is_told_as_far_as_it_goes() -> None:
    finished = called("walk", CORPUS / "killers" / "uncharted.yaml")
    assert finished.code == 3
    assert "It has exactly one solution, but cannot be solved without trial" in finished.out
    assert "no technique of the ladder goes further" in finished.out


def test_steps_found_by_trial_are_announced_and_told_as_such() -> None:
    (entry,) = read_file(HERE / "puzzles" / "sound.yaml")
    assert entry.puzzle is not None
    told = work_through(entry.puzzle)
    first = told.told.steps[0]
    (cell, digit) = first.step.places[0]
    tried = Step("trial", removes=((cell, 1 << digit),), focus=(cell,), digits=1 << digit, length=2)
    steps = (replace(first, step=tried), *told.told.steps)
    said = as_text(replace(told, told=replace(told.told, steps=steps)))
    assert "It cannot be solved without trial: one step told below is found by supposing" in said
    assert "By trial, 4 in r1c4 ends in a contradiction" in said


def test_a_second_run_gives_the_same_bytes() -> None:
    file = CORPUS / "killers" / "slack-water.yaml"
    assert gridproof("walk", file, "--yaml").out == gridproof("walk", file, "--yaml").out


def test_the_round_of_a_step_is_that_of_the_replay() -> None:
    (entry,) = read_file(HERE / "puzzles" / "sound.yaml")
    assert entry.puzzle is not None
    told = work_through(entry.puzzle, full=True)
    assert all(told.round_of(taken.step) for taken in told.told.steps)
    assert told.grade is not None
    assert max(told.rounds.values()) == told.grade.rounds
