"""Every fault: its whole message, and all faults of a file in one report."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.puzzle.broken import BROKEN, CAGES, HEAD, TOTALS
from tests.snapshots import assert_snapshot
from verifier.files.faults import Fault
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.reading import read_address, read_file, read_text
from verifier.files.text.parser_wording import YAML_PROBLEMS
from verifier.puzzle.wording import FAULTS

SNAPSHOTS = Path(__file__).parent / "snapshots"

OF_THE_FILE_SYSTEM = {"cannot-open", "no-such-number"}
OF_A_PART_FILLED_GRID = {"marks", "several-grids"}  # see test_so_far.py


def faults_of(text: str | bytes, limits: Limits = DEFAULT_LIMITS) -> list[Fault]:
    data = text.encode() if isinstance(text, str) else text
    return [fault for entry in read_text(data, "box.yaml", limits) for fault in entry.faults]


def codes_of(text: str | bytes) -> list[str]:
    return [fault.code for fault in faults_of(text)]


def test_every_message_reads_as_agreed() -> None:
    pages = []
    for code, texts in BROKEN.items():
        messages = ["\n".join(str(fault) for fault in faults_of(text)) for text in texts]
        pages.append(f"== {code}\n\n" + "\n\n".join(messages) + "\n")
    assert_snapshot(SNAPSHOTS / "faults.txt", "\n".join(pages))


def test_every_fault_has_an_example() -> None:
    assert BROKEN.keys() | OF_THE_FILE_SYSTEM | OF_A_PART_FILLED_GRID == FAULTS.keys()


@pytest.mark.parametrize(("code", "text"), [(code, text) for code, texts in BROKEN.items() for text in texts])
def test_the_example_of_a_fault_has_that_fault(code: str, text: str | bytes) -> None:
    assert code in codes_of(text)


def test_every_sentence_about_yaml_has_an_example() -> None:
    said = {fault.found for text in BROKEN["not-yaml"] for fault in faults_of(text)}
    never_seen = {problem.found for problem in YAML_PROBLEMS if problem.parser_says} - said
    assert never_seen == set()


def test_a_fault_has_every_part() -> None:
    for texts in BROKEN.values():
        for fault in (fault for text in texts for fault in faults_of(text)):
            assert all((fault.file, fault.field, fault.found, fault.allowed, fault.cure)), fault
            assert fault.cure[-1] in ".?", fault


def test_all_faults_of_a_file_are_reported_at_once() -> None:
    text = "puzzle: kiler\ngrid: 4x4\n" + CAGES.replace("c c d d", "c c d") + TOTALS + "titel: Low tide\n"
    assert [str(fault) for fault in faults_of(text)] == [
        "box.yaml:1: puzzle: found 'kiler'; allowed: classic, killer, kakuro. Did you mean 'killer'?",
        "box.yaml:5: cages, row 2: found three marks; allowed: four marks, with a space between them. "
        "Add one mark; a cell in no cage is a '.' too.",
        "box.yaml:9: the puzzle: found 'titel'; allowed: format, puzzle, id, title, setter, grid, boxes, "
        "diagonals, extra_houses, no_repeats, not_consecutive, all_marked, cages, totals, clues, cells, "
        "runs, givens, solution. "
        "Did you mean 'title'?",
    ]


def test_a_wrong_grid_does_not_hide_the_other_faults() -> None:
    assert codes_of("puzzle: killer\ngrid: 4\n" + CAGES + TOTALS.replace("h: 3", "h: x")) == ["grid", "total"]


def test_every_broken_puzzle_of_a_stream_is_reported_and_the_others_are_read() -> None:
    good = HEAD + CAGES + TOTALS
    stream = "\n---\n".join([good, "a: [", good, HEAD, good])
    entries = list(read_text(stream.encode(), "box.yaml"))
    assert [entry.puzzle is not None for entry in entries] == [True, False, True, False, True]
    assert [entry.address for entry in entries] == [f"box.yaml#{n}" for n in range(1, 6)]


def test_lines_are_those_of_the_file() -> None:
    stream = HEAD + CAGES + TOTALS + "---\n# the second\n\npuzzle: killer\ngrid: 5x5\n"
    assert [(fault.file, fault.line) for fault in faults_of(stream)] == [("box.yaml#2", 13)]


def test_only_so_many_faults_are_reported_and_the_rest_are_counted() -> None:
    text = HEAD + "cages:\n" + "  - {total: x, cells: [r1c1]}\n" * 500
    faults = faults_of(text, Limits(faults=3))
    assert len(faults) == 4
    assert str(faults[-1]) == (
        "box.yaml: the rest: found 996 faults more; allowed: none. "
        "Put the faults above right first, then check the file again."
    )


def test_messages_hold_nothing_a_terminal_would_act_on() -> None:
    escapes = '"\\e]0;owned\\a\\e[31m\\u202E\\0"'
    text = f"puzzle: {escapes}\n{escapes}: 1\ngrid: 4x4\ncages:\n- {{total: {escapes}, cells: [{escapes}]}}\n"
    faults = faults_of(text)
    assert len(faults) == 4
    assert all(str(fault).isprintable() for fault in faults)


def test_a_file_name_cannot_smuggle_escapes_into_a_message() -> None:
    (entry,) = read_text(b"", "red \x1b[31m.yaml")
    assert str(entry.faults[0]).startswith("red �[31m.yaml: the file: found nothing;")


def test_a_long_word_is_cut_in_the_message() -> None:
    (fault, *_) = faults_of("puzzle: " + "k" * 100_000 + "\ngrid: 4x4\n")
    assert re.fullmatch(r"'k{59}…'", fault.found)


@pytest.mark.parametrize(
    ("name", "found"),
    [
        (
            "missing.yaml",
            "no such file or directory",
        ),
        ("", "a folder"),
        (
            "nul\0.yaml",
            "a name that no file can have",
        ),
    ],
)
def test_a_file_that_cannot_be_opened_is_a_fault(tmp_path: Path, name: str, found: str) -> None:
    (entry,) = read_file(tmp_path / name, name="box.yaml")
    assert [str(fault) for fault in entry.faults] == [
        f"box.yaml: the file: found {found}; allowed: a file that can be read. Correct the name of the file."
    ]


def test_a_number_the_file_has_not_is_a_fault(tmp_path: Path) -> None:
    path = tmp_path / "box.yaml"
    path.write_text(HEAD + CAGES + TOTALS)
    (entry,) = read_address(f"{path}#3")
    assert str(entry.faults[0]) == (
        f"{path}#3: the file: found one puzzle in the file; allowed: #1. Ask for a number that the file has."
    )
