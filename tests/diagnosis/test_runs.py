"""Kakuros that are broken: sums that disagree, totals that are missing, blocked cells in the wrong place."""

from __future__ import annotations

from scripts.build_corpus import CORPUS
from verifier.counting.count import count_solutions
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.findings import Diagnosis
from verifier.diagnosis.report import as_record, in_words
from verifier.files.reading import read_file, read_text
from verifier.puzzle.puzzle import Puzzle


def puzzle_of(text: str) -> Puzzle:
    (entry,) = read_text(text.encode(), "broken.yaml")
    assert entry.puzzle is not None, entry.faults
    return entry.puzzle


def from_corpus(name: str) -> str:
    return (CORPUS / "kakuro" / f"{name}.yaml").read_text(encoding="utf-8")


def first_change(found: Diagnosis) -> object:
    return as_record(found)["repairs"][0]["changes"][0]


def test_totals_across_and_down_that_disagree_are_told_and_mended() -> None:
    (entry,) = read_file(CORPUS / "kakuro" / "drop-too-much.yaml")
    assert entry.puzzle is not None
    found = diagnose(entry.puzzle)
    assert found.findings[1].says == (
        "The totals across add up to 72 and the totals down to 73, but both are sums of the same cells."
    )
    true_one = {"what": "total", "cage": ["r2c4", "r3c4"], "from": 6, "to": 5}
    assert [true_one] in [repair["changes"] for repair in as_record(found)["repairs"]]


def test_a_missing_total_is_found_though_the_puzzle_has_one_solution_without_it() -> None:
    (entry,) = read_file(CORPUS / "kakuro" / "blank-lintel.yaml")
    assert entry.puzzle is not None
    found = diagnose(entry.puzzle)
    assert not found.sound
    assert "1. Give the cage r2c6 and r3c6 the total 3." in in_words(found)


def test_missing_totals_that_leave_several_solutions_are_put_in_together() -> None:
    whole = from_corpus("wicket-gate")
    puzzle = puzzle_of(whole)
    across, down = (cage for cage in puzzle.cages if puzzle.grid.cell_at("r2c2") in cage.cells)
    text = whole.replace(f"\\{across.total} ", "#  ", 1).replace(f"{down.total}\\", "#", 1)
    broken = puzzle_of(text)
    assert count_solutions(broken).count == 2, "at least"
    for repair in as_record(diagnose(broken))["repairs"][:5]:
        assert [change["what"] for change in repair["changes"]] == ["cages", "cages"]


def test_a_blocked_cell_that_was_moved_goes_back_with_its_total() -> None:
    puzzle = puzzle_of(from_corpus("hatch-and-ladder"))
    assert puzzle.grid.cell_at("r4c4") in puzzle.grid.blocked
    moved = from_corpus("hatch-and-ladder").replace(
        "  \\12   .     .     7\\3   .     .", "  \\12   .     .     .     7\\3   ."
    )
    found = diagnose(puzzle_of(moved))
    assert first_change(found) == {"what": "blocked", "from": "r4c5", "to": "r4c4"}
    assert "Move the blocked cell r4c5, with what stands in it, to r4c4." in in_words(found)


def test_a_cell_that_was_not_blocked_is() -> None:
    text = from_corpus("hatch-and-ladder").replace(
        "  \\16   .     .     .     .     #", "  \\16   .     .     .     .     ."
    )
    found = diagnose(puzzle_of(text))
    assert {"what": "blocked", "from": None, "to": "r5c6"} in [
        change for repair in as_record(found)["repairs"] for change in repair["changes"]
    ]


def test_solutions_that_differ_are_printed_with_blocked_cells() -> None:
    text = "puzzle: kakuro\ngrid: 3x3\ncells: |\n  # 5\\ 5\\\n  \\5 . .\n  \\5 . .\n"
    lines = in_words(diagnose(puzzle_of(text))).splitlines()
    assert lines[3] == "    #  #  #       #  #  #"
    assert lines[4].startswith("    #  1  4 ")


def test_no_total_of_a_kakuro_is_idle() -> None:
    found = diagnose(puzzle_of(from_corpus("wicket-gate")), idle=True)
    assert [finding.code for finding in found.findings] == ["sound", "none-idle"]
    assert found.findings[1].says == "A kakuro keeps all its totals, and no given of this one can go."
