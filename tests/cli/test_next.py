"""``gridproof next``: mistakes first, else the next step in three strengths."""

from __future__ import annotations

import zipfile
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.cli.command import PUZZLES, Finished, called, gridproof

SOUND = "sound.yaml"  # 1 2 3 4 / 3 4 1 2 / 2 1 4 3 / 4 3 2 1
FULL = "1 2 3 4\n3 4 1 2\n2 1 4 3\n4 3 2 1"
KILLER = """\
puzzle: killer
grid: 4x4
cages:
  - {total: 3, cells: [r1c1, r1c2]}
  - {total: 9, cells: [r1c3, r1c4, r2c4]}
  - {total: 5, cells: [r2c1, r3c1]}
  - {total: 6, cells: [r3c3, r4c3]}
givens: |
  . . . .
  . . . .
  . . . .
  . 3 . .
"""


def stuck_at(folder: Path, rows: str, *options: str, puzzle: str = SOUND) -> Finished:
    """Ask for the next step from these rows."""
    path = folder / "so-far.yaml"
    path.write_text("givens: |\n" + "".join(f"  {row.strip()}\n" for row in rows.splitlines()))
    return called("next", puzzle, "--so-far", path, *options)


def test_without_an_entry_the_next_step_is_the_first_one(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "1 2 3 .\n. . . 2\n2 . . .\n. 3 . .")
    assert finished.code == 0
    assert finished.out == (
        "Look at row 1.\nLast cell of a house: r1c4 is 4.\nOnly r1c4 is left in row 1: it is 4.\n"
    )


@pytest.mark.parametrize(("strength", "lines"), [("where", 1), ("what", 2), ("why", 3)])
def test_each_strength_gives_away_more(strength: str, lines: int, tmp_path: Path) -> None:
    said = stuck_at(tmp_path, "1 2 3 .\n. . . 2\n2 . . .\n. 3 . .", "--show", strength).out.splitlines()
    assert len(said) == lines
    assert ("r1c4" in " ".join(said)) is (strength != "where")


@pytest.mark.parametrize(
    ("strength", "said"),
    [
        ("where", "Something is wrong in row 2."),
        ("what", "r2c3 cannot be 4."),
        ("why", "4 stands twice in row 2: r2c2 and r2c3. r2c3 is the wrong one."),
    ],
)
def test_two_digits_that_clash_are_named_with_their_house(strength: str, said: str, tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "1 2 3 .\n. 4 4 2\n2 . . .\n. 3 . .", "--show", strength)
    assert finished.code == 1
    assert finished.out.splitlines() == [
        said,
        "The other digit that was entered is right.",
        "(--drop-wrong goes on without it.)",
    ]


def test_of_two_digits_that_clash_both_may_be_wrong(tmp_path: Path) -> None:
    said = stuck_at(tmp_path, "1 2 3 .\n4 . 4 2\n2 . . .\n. 3 . .").out.splitlines()
    assert said[0] == "4 stands twice in row 2: r2c1 and r2c3. Neither of them is right."


def test_a_wrong_digit_is_refuted_by_steps_that_cite_no_more_than_they_need(tmp_path: Path) -> None:
    said = stuck_at(tmp_path, "1 2 3 .\n. . 4 2\n2 . . .\n. 3 . .").out.splitlines()
    assert said[0] == ("r2c3 cannot be 4. Only r1c4 is left in row 1: it is 4. That is the 4 of box 2.")


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("4 2 . .", "r1c1 cannot be 4: the cage of 3 at r1c1 is full and makes 6."),
        (". . 1 .", "r1c3 cannot be 1: the cage of 9 at r1c3 would need 8 in r1c4 and r2c4, and two cells"),
        ("4 . . .", "r1c1 cannot be 4: the cage of 3 at r1c1 would make 4 already, with r1c2 still empty."),
        (
            ". . . .\n. . . .\n. . 3 .",
            "r3c3 cannot be 3: the cage of 6 at r3c3 would need 3 in r4c3, and 3 st",
        ),
    ],
)
def test_what_a_cage_alone_rules_out_is_told_by_what_it_makes(rows: str, said: str, tmp_path: Path) -> None:
    (tmp_path / "killer.yaml").write_text(KILLER)
    rows += "\n. . . ." * (3 - rows.count("\n"))
    finished = stuck_at(tmp_path, rows, puzzle=str(tmp_path / "killer.yaml"))
    assert finished.code == 1
    assert finished.out.startswith(said), finished.out


def test_cells_are_said_in_full_on_demand(tmp_path: Path) -> None:
    said = stuck_at(tmp_path, "1 2 3 .\n. 4 4 2\n2 . . .\n. 3 . .", "--spoken").out
    assert said.startswith(
        "4 stands twice in row 2: row 2, columns 2 and 3. Row 2, column 3 is the wrong one.\n"
    )


def test_what_is_wrong_can_be_dropped_to_go_on_from_the_rest(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "1 2 3 .\n. . 4 2\n2 . . .\n. 3 . .", "--drop-wrong", "--show", "what")
    assert finished.code == 1
    assert finished.out.splitlines() == [
        "r2c3 cannot be 4.",
        "Without it, this is next:",
        "Look at row 1.",
        "Last cell of a house: r1c4 is 4.",
    ]


def test_nothing_is_dropped_where_nothing_is_wrong(tmp_path: Path) -> None:
    right = "1 2 3 4\n. . . 2\n2 . . .\n. 3 . ."
    assert stuck_at(tmp_path, right, "--drop-wrong") == stuck_at(tmp_path, right)


@pytest.mark.parametrize(
    ("rows", "asked", "how"),
    [
        ("3 4 1 2\n2 1 4 3\n. . . .\n. . . .", "Is the grid shifted by a row?", "one row further down"),
        (". . . .\n1 2 3 4\n3 4 1 2\n. . . .", "Is the grid shifted by a row?", "one row further up"),
        ("2 3 4 .\n4 1 2 .\n. . . .\n. . . .", "Is the grid shifted by a column?", "further to the right"),
        ("4 2 3 1\n3 1 4 2\n2 4 1 3\n. . . .", "Is the grid turned?", "to the left by a quarter"),
        ("1 3 2 4\n2 4 1 3\n3 1 4 2\n. . . .", "Are rows and columns exchanged?", "read as columns"),
    ],
)
def test_many_mistakes_that_one_slip_explains_are_a_question(
    rows: str, asked: str, how: str, tmp_path: Path
) -> None:
    (tmp_path / "killer.yaml").write_text(KILLER)
    said = stuck_at(tmp_path, rows, puzzle=str(tmp_path / "killer.yaml")).out.splitlines()
    assert said[0].startswith(asked)
    assert how in said[0]
    assert len(said) == 2  # no list of mistakes


def test_many_mistakes_without_a_pattern_are_told_one_by_one(tmp_path: Path) -> None:
    (tmp_path / "killer.yaml").write_text(KILLER)
    said = stuck_at(tmp_path, "2 1 4 3\n4 3 2 1\n1 2 3 4\n3 4 1 2", puzzle=str(tmp_path / "killer.yaml"))
    assert "Is the grid" not in said.out
    assert "Not right either:" in said.out


def test_of_a_puzzle_with_several_solutions_digits_that_clash_are_named(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "1 . . .\n. . . .\n. . . .\n1 . . .", puzzle="box.yaml#2")
    assert finished.code == 1
    assert finished.out.startswith("1 stands twice in column 1: r1c1 and r4c1. One of them must be wrong.\n")


def test_what_rules_a_digit_out_stands_in_the_yaml(tmp_path: Path) -> None:
    _, given, _ = yaml_at(tmp_path, "1 2 3 .\n. . 4 2\n2 . . .\n. 3 . .")
    (wrong,) = given["wrong"]
    assert (wrong["cell"], wrong["digit"]) == ("r2c3", 4)
    assert wrong["because"] == {
        "houses": ["row 1", "box 2"],
        "cages": [],
        "sums": [],
        "rules": [],
        "candidates": {"r1c1": [1], "r1c2": [2], "r1c3": [3], "r2c4": [2]},
        "excluded": [],
    }


def test_a_given_that_was_overwritten_is_named_as_such(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "4 2 3 .\n. . . 2\n2 . . .\n. 3 . .")
    assert finished.code == 1
    assert finished.out.splitlines()[0] == "r1c1 is given as 1, not 4."


def test_pencil_marks_that_have_lost_the_right_digit_are_named(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "1 2 3 {1,2}\n{4} . . 2\n2 . . .\n. 3 . .")
    assert finished.code == 1
    assert finished.out.splitlines() == [
        "The right digit is missing from the pencil marks in r1c4 and r2c1.",
        "(--drop-wrong goes on without them.)",
    ]


def test_the_right_digit_is_not_given_away(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "1 2 3 1\n. . . 2\n2 . . .\n. 3 . .")
    assert "4" not in finished.out.replace("r1c4", "")


def test_a_mark_that_is_missing_counts_as_ruled_out(tmp_path: Path) -> None:
    plain = "1 2 3 4\n. . . 2\n2 . . .\n. 3 . ."
    marked = "1 2 3 4\n{3,4} {4} {1} 2\n2 {1,4} {1,4} {1,3}\n{4} 3 {2} {1}"
    assert "Naked single" not in stuck_at(tmp_path, plain).out
    assert stuck_at(tmp_path, marked.replace("{3,4}", "{3}")).code == 0


def test_a_grid_without_the_givens_is_helped_as_well(tmp_path: Path) -> None:
    assert stuck_at(tmp_path, ". . . .\n" * 4).out.startswith("Look at row 1.")


def test_a_full_grid_that_is_right_is_said_to_be(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, FULL)
    assert (finished.code, finished.out) == (0, "The grid is full, and every digit is right.\n")


def test_of_a_puzzle_with_several_solutions_no_entry_is_judged(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "1 . . .\n. . . .\n. . . .\n. . . .", puzzle="box.yaml#2")
    assert finished.code == 1
    assert finished.out.startswith("This puzzle has more than one solution")


def test_a_puzzle_without_a_solution_has_no_next_step(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, ". . . .\n" * 4, puzzle="box.yaml#5")
    assert finished.code == 1
    assert finished.out == "This puzzle has no solution, so there is no next step.\n"


def test_the_grid_so_far_may_come_by_standard_input() -> None:
    finished = gridproof("next", SOUND, "--so-far", "-", typed=b"123.\n...2\n2...\n.3..\n")
    assert finished.code == 0
    assert finished.out.startswith("Look at row 1.\n")


def test_the_puzzle_s_own_file_will_do_as_the_grid_so_far() -> None:
    assert called("next", SOUND, "--so-far", SOUND).code == 0


def test_standard_input_cannot_be_both_files() -> None:
    finished = called("next", "-", "--so-far", "-", typed=b"1")
    assert finished.code == 2
    assert "can be the puzzle or the part-filled grid, not both" in finished.err


def test_the_grid_so_far_may_be_unreadable(tmp_path: Path) -> None:
    finished = stuck_at(tmp_path, "1 2 3\n. . . .\n. . . .\n. . . .")
    assert (finished.code, finished.out) == (2, "")
    assert "so-far.yaml:2: givens, row 1: found three marks" in finished.err


def yaml_at(folder: Path, rows: str, puzzle: str = SOUND) -> tuple[int, dict[str, Any], str]:
    """Ask for the next step from these rows, for programs."""
    finished = stuck_at(folder, rows, "--yaml", puzzle=puzzle)
    return finished.code, yaml.safe_load(finished.out), finished.err


def test_for_programs_the_next_step_has_the_keys_of_a_walk(tmp_path: Path) -> None:
    code, given, _ = yaml_at(tmp_path, "1 2 3 .\n. . . 2\n2 . . .\n. 3 . .")
    assert (code, given["wrong"]) == (0, [])
    assert given["steps"] == [
        {
            "n": 1,
            "round": None,
            "technique": "last-cell-of-house",
            "places": {"r1c4": 4},
            "removes": {},
            "because": {
                "houses": ["row 1"],
                "cages": [],
                "sums": [],
                "rules": [],
                "candidates": {"r1c1": [1], "r1c2": [2], "r1c3": [3]},
                "excluded": [],
            },
            "breath": 1,
            "says": "Only r1c4 is left in row 1: it is 4.",
        }
    ]


def test_for_programs_wrong_entries_and_lost_marks_are_listed_cell_by_cell(tmp_path: Path) -> None:
    code, given, _ = yaml_at(tmp_path, "4 2 3 {1,2}\n{4} . 4 2\n2 . . .\n. 3 . .")
    assert (code, given["steps"]) == (1, [])
    assert [(entry["cell"], entry["digit"], entry["says"]) for entry in given["wrong"]] == [
        ("r1c1", 4, "r1c1 is given as 1, not 4."),
        ("r2c3", 4, "r2c3 cannot be 4. Only r1c4 is left in row 1: it is 4. That is the 4 of box 2."),
        ("r1c4", None, "The right digit is missing from the pencil marks in r1c4."),
        ("r2c1", None, "The right digit is missing from the pencil marks in r2c1."),
    ]


def test_for_programs_standard_output_is_yaml_alone_where_nothing_can_be_judged(tmp_path: Path) -> None:
    code, given, said = yaml_at(tmp_path, ". . . .\n" * 4, "box.yaml#5")
    assert (code, given) == (1, {"wrong": [], "steps": []})
    assert "This puzzle has no solution, so there is no next step." in said


def test_the_puzzle_is_found_in_an_archive(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "box.zip", "w") as box:
        box.write(PUZZLES / SOUND, "late/sound.yaml")
    (tmp_path / "rows.txt").write_text("1 2 3 .\n. . . 2\n2 . . .\n. 3 . .")
    for command in ("next", "walk"):
        finished = called(command, "box.zip!late/sound.yaml", "--so-far", "rows.txt", folder=tmp_path)
        assert finished.code == 0, finished.err
        assert "r1c4" in finished.out


def test_the_page_shows_what_is_wrong_and_the_way_on(tmp_path: Path) -> None:
    page = tmp_path / "next.html"
    rows = "1 2 3 .\n. . 4 2\n2 . . .\n. 3 . ."
    finished = stuck_at(tmp_path, rows, "--drop-wrong", "--html", str(page))
    assert (finished.code, finished.out) == (1, "")
    assert finished.err == f"The page is in {page}.\n"
    text = page.read_text(encoding="utf-8")
    assert "<figcaption>r2c3 cannot be 4. Only r1c4 is left in row 1" in text
    assert "<h3>The way to the next digit</h3>" in text
    stuck_at(tmp_path, rows, "--html", str(page))
    assert "The way to the next digit" not in page.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["box.yaml", "--so-far", "sound.yaml"], "box.yaml holds five puzzles: name one of them"),
        (["box.yaml#3", "--so-far", "sound.yaml"], "Did you mean 'puzzle'?"),
        (["sound.yaml", "--so-far", "nowhere.yaml"], "found no such file or directory"),
        (["sound.yaml"], "Missing option '--so-far'"),
        (
            ["sound.yaml", "--so-far", "sound.yaml", "--yaml", "--show", "where"],
            "'--yaml' and '--show where'",
        ),
        (["sound.yaml", "--so-far", "sound.yaml", "--show", "all"], "--show"),
        (
            ["sound.yaml", "--so-far", "sound.yaml", "--html", "x.html", "--show", "what"],
            "'--html' and '--show what'",
        ),
        (
            ["sound.yaml", "--so-far", "sound.yaml", "--html", "x.yaml"],
            "--html: found 'x.yaml'; allowed: a file that ends in .html or .htm.",
        ),
    ],
)
def test_a_call_that_cannot_be_answered_says_why(arguments: list[str], message: str) -> None:
    finished = called("next", *arguments)
    assert (finished.code, finished.out) == (2, "")
    assert message in finished.err


def test_a_search_that_takes_too_long_is_ended_and_says_so(tmp_path: Path) -> None:
    (tmp_path / "wide.yaml").write_text("puzzle: classic\ngrid: 25x25\n")
    (tmp_path / "so-far.yaml").write_text("givens: |\n" + ("  " + " ".join("." * 25) + "\n") * 25)
    finished = called("next", "wide.yaml", "--so-far", "so-far.yaml", "--seconds", 1, folder=tmp_path)
    assert finished.code in {1, 3}  # two solutions may be found in that time
    assert finished.out.endswith(
        "The time ran out before a next step was found. Allow more with --seconds.\n"
    )


def test_the_command_works_in_a_process_of_its_own() -> None:
    assert gridproof("next", SOUND, "--so-far", SOUND, "--show", "where").out == "Look at row 1.\n"
