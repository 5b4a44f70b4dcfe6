"""``gridproof mend`` and ``gridproof check --printed``."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from tests.cli.command import HERE, called, gridproof
from tests.diagnosis.puzzles import drawn, sound
from tests.snapshots import assert_snapshot
from verifier.diagnosis.repairs.changes import changed, total_change
from verifier.files.writing import write_puzzle
from verifier.likeness.turned import complement
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle


def broken() -> Puzzle:
    puzzle, _ = sound(12)[4]
    cage = puzzle.cages[4]
    return changed(puzzle, [total_change(cage, cage.total + 1)])


def files(folder: Path, **puzzles: Puzzle) -> Path:
    for name, puzzle in puzzles.items():
        (folder / f"{name}.yaml").write_text(write_puzzle(puzzle), encoding="utf-8")
    return folder


def test_a_broken_puzzle_is_told_with_its_repairs(tmp_path: Path) -> None:
    finished = gridproof("mend", "wrong.yaml", folder=files(tmp_path, wrong=broken()))
    assert (finished.code, finished.err) == (1, "")
    assert_snapshot(HERE / "snapshots" / "mend.txt", finished.out)


def test_yaml_has_findings_and_repairs_and_nothing_else(tmp_path: Path) -> None:
    finished = called("mend", "--yaml", "wrong.yaml", folder=files(tmp_path, wrong=broken()))
    record = yaml.safe_load(finished.out)
    assert list(record) == ["findings", "repairs"]
    cage = sound(12)[4][0].cages[4]
    names = [broken().grid.cell_name(cell) for cell in cage.cells]
    change = {"what": "total", "cage": names, "from": cage.total + 1, "to": cage.total}
    assert [change] in [repair["changes"] for repair in record["repairs"]]
    assert all(repair["solutions"] == 1 for repair in record["repairs"])


def test_a_sound_puzzle_has_nothing_to_mend(tmp_path: Path) -> None:
    finished = called("mend", "fine.yaml", folder=files(tmp_path, fine=sound(12)[0][0]))
    assert finished.code == 0
    assert "There is nothing to mend." in finished.out


def test_idle_parts_are_told_of_a_sound_puzzle_only_when_asked(tmp_path: Path) -> None:
    folder = files(tmp_path, fine=sound(12)[0][0])
    assert " can each go" in called("mend", "--idle", "--seconds", 3, "fine.yaml", folder=folder).out
    assert " can each go" not in called("mend", "fine.yaml", folder=folder).out


def test_several_puzzles_of_a_file_are_told_one_by_one_and_the_worst_code_counts(tmp_path: Path) -> None:
    text = "---\n".join(write_puzzle(puzzle) for puzzle in (sound(12)[0][0], broken()))
    (tmp_path / "box.yaml").write_text(text, encoding="utf-8")
    finished = called("mend", "box.yaml", "--yaml", folder=tmp_path)
    assert finished.code == 1
    assert [len(record["repairs"]) > 0 for record in yaml.safe_load_all(finished.out)] == [False, True]
    assert called("mend", "box.yaml#1", folder=tmp_path).code == 0


@pytest.mark.parametrize("word", ["missing.yaml", "torn.yaml"])
def test_what_cannot_be_read_is_said_on_standard_error(word: str, tmp_path: Path) -> None:
    (tmp_path / "torn.yaml").write_text("puzzle: kiler\n", encoding="utf-8")
    finished = called("mend", word, folder=tmp_path)
    assert (finished.code, finished.out) == (2, "")
    assert word in finished.err


def test_a_budget_that_is_no_number_is_refused() -> None:
    finished = called("mend", "--seconds", "soon", "x.yaml")
    assert finished.code == 2
    assert "found 'soon'; allowed: a whole number from 1 to 3600." in finished.err


# check --printed


def test_check_says_which_puzzles_were_printed_and_in_which_guise(tmp_path: Path) -> None:
    puzzle, filling = sound(12)[0]
    classic = make_puzzle("classic", puzzle.grid, givens=enumerate(filling))
    box, shelf = tmp_path / "box", tmp_path / "shelf"
    box.mkdir()
    shelf.mkdir()
    files(shelf, spring=puzzle)
    files(box, again=puzzle, turned=complement(puzzle), other=broken(), filling=classic)
    finished = gridproof("check", "--table", "--printed", "shelf", "box", folder=tmp_path)
    told = [line for line in finished.err.splitlines() if " repeats " in line]
    repeats = " repeats shelf/spring.yaml: "
    assert told == [
        f"box/again.yaml{repeats}the same puzzle.",
        f"box/filling.yaml{repeats}the same solution, or one in disguise, under other cages or givens.",
        f"box/turned.yaml{repeats}the same puzzle, turned, mirrored or complemented.",
    ]


def test_the_printed_puzzles_change_no_verdict(tmp_path: Path) -> None:
    folder = files(tmp_path, one=sound(12)[0][0])
    plain = called("check", "one.yaml", folder=folder)
    compared = called("check", "--printed", ".", "one.yaml", folder=folder)
    assert (compared.out, compared.code) == (plain.out, plain.code)


def test_a_shelf_that_is_no_folder_is_refused(tmp_path: Path) -> None:
    finished = called("check", "--printed", "nowhere", "x.yaml", folder=tmp_path)
    assert finished.code == 2
    assert "'--printed' needs a folder of printed puzzles; found none at 'nowhere'." in finished.err


def test_a_printed_file_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    folder = files(tmp_path, one=drawn(Grid.square(4), 3)[0])
    (tmp_path / "shelf").mkdir()
    (tmp_path / "shelf" / "torn.yaml").write_text("puzzle: kiler\n", encoding="utf-8")
    finished = called("check", "--printed", "shelf", "one.yaml", folder=folder)
    assert "Not compared with printed puzzles that could not be read: shelf/torn.yaml." in finished.err
