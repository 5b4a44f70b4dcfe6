"""``gridproof check``: what goes in, what comes out, and the exit code."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
import yaml

from tests.cli.command import HERE, PUZZLES, Finished, called, gridproof
from tests.snapshots import assert_snapshot

SNAPSHOTS = HERE / "snapshots"


def all_said(finished: Finished) -> str:
    """Return the exit code and everything printed, without versions."""
    text = f"exit {finished.code}\n\n--- stdout\n{finished.out}\n--- stderr\n{finished.err}"
    return re.sub(r"^(  (gridproof|ladder|ortools|clingo)): .*", r"\1: (version)", text, flags=re.MULTILINE)


def verdicts(finished: Finished) -> dict[str, str]:
    """Return the verdict by puzzle id."""
    return {v["puzzle"]["id"]: v["verdict"] for v in yaml.safe_load_all(finished.out)}


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("check-one", ["check", "sound.yaml"]),
        ("check-box", ["check", "box.yaml", "--jobs", "1"]),
        ("check-table", ["check", ".", "--table"]),
        ("check-style", ["check", "box.yaml#1", "--style", "../harbour.yaml", "--table"]),
        ("check-count", ["check", "box.yaml#2", "--count", "10", "--table"]),
        ("check-no-such-file", ["check", "bix.yaml", "box.yaml#9"]),
        ("check-wrong-style", ["check", "box.yaml", "--style", "box.yaml"]),
        ("table-and-out", ["check", "box.yaml", "--table", "--out", "x"]),
    ],
)
def test_what_people_read_is_that_of_the_snapshot(name: str, arguments: list[str]) -> None:
    assert_snapshot(SNAPSHOTS / f"{name}.txt", all_said(called(*arguments)))


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["box.yaml#1", "sound.yaml"], 0),
        (["box.yaml#1", "box.yaml#2"], 1),
        (["box.yaml#2", "box.yaml#3"], 2),
        (["box.yaml#1", "nowhere.yaml"], 2),
    ],
)
def test_the_exit_code_says_what_an_editor_must_look_at_first(arguments: list[str], code: int) -> None:
    assert called("check", "--table", *arguments).code == code


def test_a_broken_puzzle_does_not_stop_the_others() -> None:
    finished = called("check", "box.yaml")
    assert verdicts(finished) == {
        "low-tide": "accepted",
        "ebb": "rejected",
        "box.yaml#4": "rejected",
        "stranded": "rejected",
    }
    assert "box.yaml#3:23: the puzzle: found 'puzle'" in finished.err


def test_a_folder_is_searched_to_the_bottom_and_hidden_or_other_files_are_passed_over(tmp_path: Path) -> None:
    for name in ("a/b/sound.yaml", ".hidden/sound.yaml", "a/.sound.yaml", "a/notes.md"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(PUZZLES / "sound.yaml", tmp_path / name)
    finished = called("check", tmp_path)
    assert list(verdicts(finished)) == ["sound.yaml"]
    assert finished.err.startswith("one file passed over")


def test_a_folder_without_puzzles_is_told(tmp_path: Path) -> None:
    finished = called("check", tmp_path)
    assert finished.code == 2
    assert "found a folder without puzzle files" in finished.err


def test_standard_input_is_read_for_a_dash() -> None:
    finished = called("check", "-", typed=(PUZZLES / "sound.yaml").read_bytes())
    assert verdicts(finished) == {"stdin": "accepted"}


def test_a_bare_line_is_a_classic() -> None:
    line = b"1" + b"." * 80
    assert verdicts(called("check", "-", typed=line)) == {"stdin": "rejected"}


def test_files_come_in_the_order_of_their_names_with_numbers_as_numbers(tmp_path: Path) -> None:
    for number in (10, 9, 1):
        shutil.copy(PUZZLES / "sound.yaml", tmp_path / f"k{number}.yaml")
    assert list(verdicts(called("check", tmp_path))) == ["k1.yaml", "k9.yaml", "k10.yaml"]


def test_a_file_that_is_named_twice_is_judged_once() -> None:
    assert called("check", "sound.yaml", "./sound.yaml").out.count("verdict:") == 1


def test_the_bytes_depend_on_neither_the_run_nor_the_jobs_nor_the_order_of_the_words(tmp_path: Path) -> None:
    names = [f"box{number}.yaml" for number in range(3)]  # enough puzzles for processes to be started
    for name in names:
        shutil.copy(PUZZLES / "box.yaml", tmp_path / name)
    first = gridproof("check", *names, "--jobs", "1", folder=tmp_path)
    assert first.out.count("verdict: ") == 12
    assert gridproof("check", *names, "--jobs", "2", folder=tmp_path) == first
    assert gridproof("check", *reversed(names), "--jobs", "3", folder=tmp_path) == first


def test_the_verdict_of_a_puzzle_does_not_depend_on_the_rest_of_the_box() -> None:
    alone = called("check", "box.yaml#2").out
    assert alone in called("check", "box.yaml").out


def files_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_with_out_each_verdict_is_a_file_named_by_its_id(tmp_path: Path) -> None:
    finished = called("check", "box.yaml", "--out", tmp_path / "verdicts")
    assert finished.out == ""
    assert files_in(tmp_path / "verdicts") == [
        "box.yaml#4.yaml",
        "ebb.yaml",
        "low-tide.yaml",
        "stranded.yaml",
    ]
    written = yaml.safe_load((tmp_path / "verdicts" / "ebb.yaml").read_text())
    assert written["verdict"] == "rejected"


def test_two_puzzles_of_one_id_get_two_files(tmp_path: Path) -> None:
    for name in ("a.yaml", "b.yaml"):
        (tmp_path / name).write_text((PUZZLES / "sound.yaml").read_text() + "id: Same\n")
    for folder, order in (("one", ["a.yaml", "b.yaml"]), ("two", ["b.yaml", "a.yaml"])):
        called("check", *order, "--out", folder, folder=tmp_path)
    assert len(files_in(tmp_path / "one")) == 2
    assert files_in(tmp_path / "one") == files_in(tmp_path / "two")


@pytest.mark.parametrize("puzzle_id", ["../../escape", "/etc/x", "a\\b", "CON", "..", "é" * 300, "x\ty"])
def test_no_id_leads_out_of_the_folder(tmp_path: Path, puzzle_id: str) -> None:
    quoted = puzzle_id.replace("\\", "\\\\").replace("\t", "\\t")
    (tmp_path / "p.yaml").write_text((PUZZLES / "sound.yaml").read_text() + f'id: "{quoted}"\n')
    finished = called("check", "p.yaml", "--out", "verdicts", folder=tmp_path)
    assert finished.code == 0, finished.err
    assert files_in(tmp_path) == ["p.yaml", "verdicts"]
    assert len(files_in(tmp_path / "verdicts")) == 1


def test_the_folder_for_the_verdicts_is_not_searched_for_puzzles(tmp_path: Path) -> None:
    shutil.copy(PUZZLES / "sound.yaml", tmp_path)
    for _ in range(2):
        finished = called("check", ".", "--out", "verdicts", folder=tmp_path)
        assert finished.code == 0, finished.err


def test_a_folder_that_cannot_be_written_to_is_told_in_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("")
    finished = called("check", PUZZLES / "sound.yaml", "--out", "taken", folder=tmp_path)
    assert finished.code == 2
    assert finished.err == (
        "gridproof: cannot write to taken: File exists. Free the place, or give another one with --out.\n"
    )


def test_what_comes_from_a_file_cannot_command_the_terminal(tmp_path: Path) -> None:
    (tmp_path / "p.yaml").write_text((PUZZLES / "sound.yaml").read_text() + 'id: "\\e[31mred"\n')
    assert "\x1b" not in called("check", "p.yaml", "--table", folder=tmp_path).out
    assert "\x1b" not in called("check", "p.yaml", folder=tmp_path).out


def hinted(*arguments: object, typed: bytes = b"", folder: Path = PUZZLES) -> list[str]:
    """Return the lines that name the next command."""
    said = called("check", *arguments, typed=typed, folder=folder).err
    return said.partition("To see what is wrong")[2].splitlines()[1:]


def test_of_a_broken_puzzle_the_next_command_is_named() -> None:
    assert hinted("box.yaml#2") == ["  gridproof mend box.yaml#2"]
    assert called("mend", "box.yaml#2").code == 1  # and it is one
    assert hinted("box.yaml", "--table") == [f"  gridproof mend box.yaml#{number}" for number in (2, 4, 5)]
    assert hinted("sound.yaml") == []


def test_a_puzzle_against_the_house_style_alone_is_not_to_be_mended() -> None:
    assert hinted("box.yaml#1", "--style", "../harbour.yaml", "--table") == []


def test_the_next_command_can_be_given_as_it_stands(tmp_path: Path) -> None:
    several = (PUZZLES / "box.yaml").read_text().split("---\n")[1]
    for name in ("it's late.yaml", "$(ls).yaml"):
        (tmp_path / name).write_text(several)
        (line,) = hinted(name, folder=tmp_path)
        assert shlex.split(line) == ["gridproof", "mend", name]
    for number in range(9):
        (tmp_path / f"k{number}.yaml").write_text(several)
    assert hinted(".", folder=tmp_path)[-1] == "  and so for the other three"


def test_what_has_no_address_is_mended_from_a_file() -> None:
    several = (PUZZLES / "box.yaml").read_bytes().split(b"---\n")[1]
    assert hinted("-", typed=several) == ["  gridproof mend FILE"]
