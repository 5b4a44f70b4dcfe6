"""Tables with a column of puzzles."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from tests.intake.boxes import MIXED, fault_codes, found_in
from verifier.files.reading import ReadEntry, read_submission
from verifier.puzzle.puzzle import Puzzle

FOUR = "1..." + "." * 12
NINE = "." * 80 + "1"


def read(folder: Path, text: str | bytes, name: str = "box.csv") -> list[ReadEntry]:
    (folder / name).write_bytes(text if isinstance(text, bytes) else text.encode())
    return [read_submission(found) for found in found_in(folder / name)]


def only(entries: list[ReadEntry]) -> Puzzle:
    (entry,) = entries
    assert entry.puzzle is not None, entry.faults
    return entry.puzzle


def test_bare_lines_stand_in_the_column(tmp_path: Path) -> None:
    entries = read(tmp_path, f"puzzle,rating\n{NINE},1.2\n{NINE.replace('.', '0')},\n")
    assert [entry.address.partition("#")[2] for entry in entries] == ["1", "2"]
    assert [entry.puzzle.givens for entry in entries if entry.puzzle] == [((80, 1),)] * 2


def test_credits_and_solution_stand_in_columns_of_their_own(tmp_path: Path) -> None:
    text = f"Setter,id,PUZZLE,title,solution\nWren,ebb,{FOUR},Low tide,1234341221434321\n"
    puzzle = only(read(tmp_path, text))
    assert (puzzle.credits.id, puzzle.credits.title, puzzle.credits.setter) == ("ebb", "Low tide", "Wren")
    assert puzzle.solution == (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_the_separator_is_found_out(tmp_path: Path, separator: str) -> None:
    text = f"\ufeffid{separator}puzzle\nebb{separator}{FOUR}\n"
    assert only(read(tmp_path, text)).credits.id == "ebb"


def test_whole_puzzles_stand_in_the_column(tmp_path: Path) -> None:
    table = io.StringIO()
    writer = csv.writer(table)
    writer.writerow(["puzzle"])
    writer.writerow([MIXED[0].decode()])
    writer.writerow([json.dumps({"puzzle": "classic", "grid": "4x4", "id": "json"})])
    entries = read(tmp_path, table.getvalue())
    assert [entry.puzzle.credits.id for entry in entries if entry.puzzle] == ["low-tide", "json"]


def test_the_line_of_a_fault_is_that_of_the_table(tmp_path: Path) -> None:
    (good, bad) = read(tmp_path, f"puzzle\n{NINE}\n\n{NINE[1:]}\n")
    assert good.puzzle is not None
    assert (bad.address.partition("#")[2], bad.faults[0].line, bad.faults[0].code) == ("2", 4, "bare-length")


def test_a_table_without_the_column_is_told(tmp_path: Path) -> None:
    (tmp_path / "box.csv").write_text("quiz,solution\n1,2\n")
    assert fault_codes(tmp_path / "box.csv") == ["no-puzzle-column"]


def test_a_table_without_puzzles_is_empty(tmp_path: Path) -> None:
    (tmp_path / "box.csv").write_text("puzzle\n\n,\n")
    assert fault_codes(tmp_path / "box.csv") == ["empty"]


@pytest.mark.parametrize(
    "hostile",
    [
        b'puzzle\n"' + b"x" * 3_000_000,
        b"puzzle\n\0\n",
        b"puzzle\n\xff\xfe\n",
        b'puzzle\n"open\n' + b"1\n" * 99_999,
    ],
    ids=["a cell without end", "NUL", "no UTF-8", "an open quote"],
)
def test_hostile_tables_cost_only_themselves(tmp_path: Path, hostile: bytes) -> None:
    entries = read(tmp_path, hostile)
    assert entries
    assert all(entry.faults for entry in entries)


def test_a_row_after_a_hostile_one_is_read(tmp_path: Path) -> None:
    entries = read(tmp_path, f'puzzle\n"{"x" * 200_000}"\n{NINE}\n')
    assert [entry.puzzle is None for entry in entries] == [True, False]
