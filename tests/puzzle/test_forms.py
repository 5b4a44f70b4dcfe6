"""The forms in which a file may hold puzzles, and how its puzzles are named."""

from __future__ import annotations

import io
import json
from collections.abc import Iterable
from pathlib import Path

import pytest

from tests.puzzle.broken import CAGES, CREDITS, HEAD, TOTALS
from verifier.files.documents import documents
from verifier.files.reading import ReadEntry, read_address, read_file, read_text
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

BARE = ".6.4.5..9..1....6.7.2.3.....9....6.883..6..946.5....7.....5.9.2.2....1..1..2.4.5."
KILLER = HEAD + CAGES + TOTALS
CLASSIC_LINE = '{"puzzle": "classic", "grid": "4x4"}\n'


def puzzles_of(text: str | bytes, name: str = "box.yaml") -> list[Puzzle]:
    data = text.encode() if isinstance(text, str) else text
    entries = list(read_text(data, name))
    assert [fault for entry in entries for fault in entry.faults] == []
    return [entry.puzzle for entry in entries if entry.puzzle]


def addresses(entries: Iterable[ReadEntry]) -> list[str]:
    return [entry.address for entry in entries]


def test_a_killer_is_read_from_a_map() -> None:
    (puzzle,) = puzzles_of(HEAD + CREDITS + CAGES.replace("e e f f", "e . . f") + TOTALS)
    totals = {(0, 1): 3, (2, 3): 7, (4, 5): 7, (6, 7): 3, (8,): 3, (11,): 7, (12, 13): 7, (14, 15): 3}
    assert puzzle == make_puzzle(
        "killer",
        Grid.square(4),
        cages=[Cage(cells, total) for cells, total in totals.items()],
        credits=Credits("harbour-1", "Low tide", "A. Setter"),
    )


def test_the_same_killer_is_read_from_a_list() -> None:
    of_map, of_list = puzzles_of(
        HEAD
        + "id: a\ncages: |\n  a a b .\n  . a b .\n  ....\n  ....\ntotals: {a: 6, b: 7}\n"
        + "---\n"
        + HEAD
        + "id: a\ncages:\n- {total: 7, cells: [r2c3, r1c3]}\n"
        + "- total: 6\n  cells:\n  - r2c2\n  - r1c1\n  - r1c2\n"
    )
    assert of_map == of_list


@pytest.mark.parametrize(
    ("size", "boxes"),
    [
        ("4x4", "2x2"),
        ("6x6", "2x3"),
        ("6x6", "3x2"),
        ("9x9", "3x3"),
        ("12x12", "3x4"),
        ("12x12", "4x3"),
        ("16x16", "4x4"),
        ("25x25", "5x5"),
    ],
)
def test_every_size_is_read(size: str, boxes: str) -> None:
    (puzzle,) = puzzles_of(f"puzzle: classic\ngrid: {size}\nboxes: {boxes}\n")
    assert (puzzle.grid.name, puzzle.grid.boxes_name) == (size, boxes)


def test_digits_above_nine_are_decimal_numbers() -> None:
    row = " ".join(["16", *["."] * 14, "10"])
    (puzzle,) = puzzles_of("puzzle: classic\ngrid: 16x16\ngivens: |\n" + f"  {row}\n" * 16)
    assert puzzle.givens[:3] == ((0, 16), (15, 10), (16, 16))


def test_a_solution_is_read() -> None:
    solution = "solution: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  4 3 2 1\n"
    (puzzle,) = puzzles_of("puzzle: classic\ngrid: 4x4\n" + solution)
    assert puzzle.solution == (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


@pytest.mark.parametrize("line", [BARE, BARE.replace(".", "0"), f"  {BARE}  \r\n", f"\ufeff{BARE}\n\n"])
def test_a_bare_line_is_a_classic(line: str) -> None:
    (puzzle,) = puzzles_of(line, "box.txt")
    assert puzzle.kind == "classic"
    assert "".join(str(dict(puzzle.givens).get(cell, ".")) for cell in range(81)) == BARE


def test_several_bare_lines_are_several_puzzles() -> None:
    entries = read_text(f"# from the harbour\n{BARE}\n\n{BARE[::-1]}\n".encode(), "box.txt")
    assert addresses(entries) == ["box.txt#1", "box.txt#2"]


def test_a_stream_of_yaml_holds_one_puzzle_a_document() -> None:
    stream = f"# a box\n---\n{KILLER}---  # the second\n{KILLER}...\n---\n\n---\n{KILLER}---\n"
    assert len(puzzles_of(stream)) == 3


def test_a_stream_may_mix_yaml_and_bare_lines() -> None:
    kinds = [puzzle.kind for puzzle in puzzles_of(f"{BARE}\n{BARE}\n---\n{KILLER}\n---\n{BARE}\n")]
    assert kinds == ["classic", "classic", "killer", "classic"]


def test_a_document_may_begin_on_the_line_of_its_marker() -> None:
    (puzzle,) = puzzles_of("%YAML 1.2\n--- {puzzle: classic, grid: 6x6, title: Low tide}\n")
    assert puzzle.credits.title == "Low tide"


@pytest.mark.parametrize("name", ["box.jsonl", "box.NDJSON", "box.txt", "-"])
def test_json_lines_hold_one_puzzle_a_line(name: str) -> None:
    killer = {
        "puzzle": "killer",
        "grid": "4x4",
        "title": "Low tide 🌊",
        "setter": None,
        "cages": [{"total": 3, "cells": ["r1c1", "r1c2"]}],
        "givens": "1...\n....\n....\n....",
    }
    first, second = puzzles_of(json.dumps(killer) + "\n\n" + CLASSIC_LINE, name)
    assert first.credits == Credits(f"{name}#1", "Low tide 🌊")
    assert first.cages == (Cage((0, 1), 3),)
    assert first.givens == ((0, 1),)
    assert second.kind == "classic"


def test_json_may_hold_a_map_with_totals() -> None:
    record = {"puzzle": "killer", "grid": "4x4", "cages": "aa..\n....\n....\n....", "totals": {"a": 3}}
    assert puzzles_of(json.dumps(record))[0].cages == (Cage((0, 1), 3),)


def test_json_over_several_lines_is_read_as_yaml() -> None:
    record = {"puzzle": "killer", "grid": "4x4", "cages": [{"total": 3, "cells": ["r1c1", "r1c2"]}]}
    assert puzzles_of(json.dumps(record, indent=2), "box.json")[0].cages == (Cage((0, 1), 3),)


def test_a_broken_line_of_json_costs_itself_alone() -> None:
    data = CLASSIC_LINE.encode()
    lines = [data, data.replace(b"classic", b"cl\xffassic"), data, data[:-3] + b"\n", data]
    entries = list(read_text(b"".join(lines), "box.jsonl"))
    assert [entry.puzzle is None for entry in entries] == [False, True, False, True, False]


def test_a_puzzle_alone_has_no_number() -> None:
    assert addresses(read_text(KILLER.encode(), "deep/down/box.yaml")) == ["deep/down/box.yaml"]


def test_a_puzzle_without_an_id_takes_the_name_of_its_file_and_its_place() -> None:
    puzzles = puzzles_of(f"{KILLER}---\nid: mine\n{KILLER}---\nid: ''\n{KILLER}", "deep/down/box.yaml")
    assert [puzzle.credits.id for puzzle in puzzles] == ["box.yaml#1", "mine", "box.yaml#3"]


def test_a_number_names_one_puzzle_of_a_file(tmp_path: Path) -> None:
    path = tmp_path / "box.yaml"
    path.write_text("---\n".join([KILLER, KILLER.replace("a: 3", "a: 4"), KILLER]))
    (entry,) = read_address(f"{path}#2")
    assert entry.address == f"{path}#2"
    assert entry.puzzle is not None
    assert entry.puzzle.cages[0].total == 4


def test_a_file_whose_name_ends_like_a_number_is_read_as_a_whole(tmp_path: Path) -> None:
    path = tmp_path / "box#2"
    path.write_text(KILLER)
    assert addresses(read_address(str(path))) == [str(path)]


def test_a_file_is_called_by_the_name_it_is_given(tmp_path: Path) -> None:
    path = tmp_path / "box.yaml"
    path.write_text(KILLER)
    assert addresses(read_file(path, name="submissions.zip/box.yaml")) == ["submissions.zip/box.yaml"]


@pytest.mark.parametrize(("document", "name"), [(CLASSIC_LINE, "box.jsonl"), (KILLER + "---\n", "box.yaml")])
def test_a_file_is_read_as_far_as_its_puzzles_are_asked_for(document: str, name: str) -> None:
    stream = io.BytesIO(document.encode() * 10_000)
    next(documents(stream, name, 1 << 20))
    assert stream.tell() <= 1 << 16  # one block


def test_lines_of_a_document_that_is_too_big_are_not_kept() -> None:
    small, big = b"puzzle: classic\n", b"# " + b"x" * 200 + b"\n"
    found = list(documents(io.BytesIO(small + big * 50 + b"---\n" + small), "box.yaml", limit=1000))
    assert [document.size for document in found] == [len(small + big * 50), len(small)]
    assert len(found[0].data) <= 1000 + len(big)
