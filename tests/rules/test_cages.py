"""Cages without a total, and cages in which digits may repeat, in every layer."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grader.walking.walk import walk
from scripts.setting.repeating import draw_repeating
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.repairs.sorts_of_cages import SortChange
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.pages.drawing.figure import rule_lines, totals
from verifier.pages.rule_key import signs_in_words
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.checking.claim import solution_check
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.verdict.judge import judge
from verifier.verdict.remarks import remarks_on
from verifier.walkthrough.record import step_as_record

HEAD = "puzzle: killer\ngrid: 4x4\ncages:\n"


def read(cages: str) -> Puzzle:
    (entry,) = read_text((HEAD + cages).encode(), "box.yaml")
    assert entry.puzzle is not None, entry.faults
    return entry.puzzle


def repeating(total: int, *cells: int) -> LinearSum:
    return LinearSum(tuple((cell, 1) for cell in cells), total)


MIXED = """\
  - {total: 5, cells: [r1c1, r1c2]}
  - {cells: r1c3 r1c4 r2c4}
  - {cells: [r3c2, r2c1, r3c1], repeats: yes, total: 6}
  - {cells: [r4c1, r4c2], repeats: no, total: 6}
"""


def test_a_list_has_cages_of_every_sort() -> None:
    assert read(MIXED).all_cages == (
        Cage((0, 1), 5),
        Different((2, 3, 7)),
        repeating(6, 4, 8, 9),
        Cage((12, 13), 6),
    )


def test_they_are_written_as_a_list_and_read_back() -> None:
    puzzle = read(MIXED)
    assert "  - {total: 6, repeats: yes, cells: [r2c1, r3c1, r3c2]}\n" in write_puzzle(puzzle)
    (entry,) = read_text(write_puzzle(puzzle).encode(), "box.yaml")
    assert entry.puzzle == puzzle


def test_a_cell_in_two_cages_is_a_fault_whatever_their_sort() -> None:
    (entry,) = read_text((HEAD + MIXED + "  - {cells: [r4c2, r4c3]}\n").encode(), "box.yaml")
    assert [fault.code for fault in entry.faults] == ["cell-in-two-cages"]


def failed(*cages: LinearSum | Different | Cage, givens: dict[int, int] | None = None) -> list[str]:
    puzzle = make_puzzle("killer", Grid.square(4), clues=cages, givens=givens or {})
    return [check.says for check in arithmetic_checks(puzzle) if not check.passed]


def test_the_totals_of_repeated_digits_reach_further() -> None:
    assert failed(repeating(3, 3, 6, 9)) == failed(repeating(12, 3, 6, 9)) == []
    assert failed(repeating(13, 3, 6, 9)) == [
        "The cage r1c4, r2c3 and r3c2 has the total 13, but three cells can make only 3 to 12. "
        "Correct the total, or the cells of the cage."
    ]


def test_givens_are_held_against_each_sort_of_cage() -> None:
    assert failed(repeating(9, 3, 6, 8), givens={3: 2, 8: 2}) == [
        "The cage r1c4, r2c3 and r3c1 has the total 9, and what is given in it (2 and 2) leaves 5 for one "
        "cell, where digits may repeat; one cell can make only 1 to 4. Correct the givens, or the total."
    ]
    assert failed(Different((3, 6, 8)), givens={3: 2, 8: 2}) == [
        "The digit 2 is given in r1c4 and r3c1, which are in one cage, and no digit stands twice in a cage. "
        "Correct the givens, or the cells of the cage."
    ]


def test_cages_of_both_sorts_that_cover_a_house_must_add_up() -> None:
    assert failed(Cage((0, 1), 5), repeating(6, 2, 3)) == [
        "The cages r1c1 r1c2 = 5 and r1c3 r1c4 = 6 cover row 1 exactly, so their totals must add up to 10; "
        "they add up to 11, which is 1 too many. Correct the total that is wrong, or the cells."
    ]


def test_a_claimed_solution_that_breaks_them_is_told_so() -> None:
    claim = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    cages = [Different((1, 7)), repeating(9, 3, 6, 9)]
    check = solution_check(make_puzzle("killer", Grid.square(4), clues=cages, solution=claim))
    assert check is not None
    assert check.says == (
        "The solution in the file breaks the rules: the cage r1c2 and r2c4 has 2 more than once "
        "(r1c2 and r2c4); the cage r1c4, r2c3 and r3c2 adds up to 6, not 9. Correct it, or leave it out."
    )


TOTALS = [Cage((0, 1), 3), Cage((2, 3), 7), Cage((4, 5), 7), Cage((6, 7), 3)]
REST = [Cage((8, 9), 3), Cage((10, 11), 7), Cage((12, 13), 7)]


@pytest.mark.parametrize(
    ("cages", "says"),
    [
        pytest.param([*TOTALS, *REST, Different((14, 15))], "so it would be 3", id="the rest is known"),
        pytest.param([*TOTALS, Different((14, 15))], "was its total forgotten", id="it is not"),
    ],
)
def test_the_only_cage_without_a_total_is_asked_about(cages: list[Cage | Different], says: str) -> None:
    (remark,) = remarks_on(make_puzzle("killer", Grid.square(4), clues=cages))
    assert (remark.code, remark.cells) == ("one-cage-without-total", ("r4c3", "r4c4"))
    assert says in remark.says.lower()


@pytest.mark.parametrize(
    "cages",
    [
        pytest.param([*TOTALS, Different((8, 9)), Different((14, 15))], id="two without"),
        pytest.param([*TOTALS[:2], Different((14, 15))], id="few with"),
    ],
)
def test_where_it_is_no_exception_it_is_not(cages: list[Cage | Different]) -> None:
    assert list(remarks_on(make_puzzle("killer", Grid.square(4), clues=cages))) == []


def test_a_cage_without_a_total_in_pieces_is_asked_about() -> None:
    (remark,) = remarks_on(make_puzzle("killer", Grid.square(4), clues=[Different((0, 1, 15))]))
    assert remark.says == (
        "The cage without a total in r1c1, r1c2 and r4c4 lies in pieces that do not touch: r1c1 r1c2 and "
        "r4c4. Were two cages meant? Then list each by itself."
    )


@pytest.fixture(scope="module")
def sound() -> Puzzle:
    """A 6x6 with cages of every sort that has one solution."""
    puzzle, _ = draw_repeating(Grid.square(6), 8, untold=0.3)
    assert {type(cage) for cage in puzzle.all_cages} == {Cage, Different, LinearSum}
    return puzzle


def test_it_is_judged_and_says_which_rules_it_has(sound: Puzzle) -> None:
    assert judge(sound).solutions.count == 1
    words = ("cage", "cage_without_total", "cage_with_repeats", "given")
    assert sound.kinds_of_rules == tuple(word for word in words if word != "given" or sound.givens)


def first_repaired(puzzle: Puzzle, old: Cage | LinearSum | Different, new: Cage | LinearSum) -> bool:
    """Whether the first repairs of a puzzle with `new` in place of `old` bring `old` back."""
    found = diagnose(puzzle.changed([old], [new]), seconds=5)
    return any(mend.changes[0].come == (old,) for mend in found.mends[:3])


def test_a_total_that_is_off_by_one_is_found(sound: Puzzle) -> None:
    cage = sound.repeating_cages[0]
    assert first_repaired(sound, cage, replace(cage, total=cage.total + 1))


def test_repeats_that_were_forgotten_are_found() -> None:
    puzzle = next(drawn for drawn, _ in map(_drawn, range(20)) if len(drawn.repeating_cages) > 1)
    cage = puzzle.repeating_cages[0]
    assert first_repaired(puzzle, cage, Cage(cage.cells, cage.total))


def _drawn(seed: int) -> tuple[Puzzle, object]:
    return draw_repeating(Grid.square(6), seed)


def test_a_change_of_sort_is_told_and_written_down() -> None:
    grid = Grid.square(4)
    change = SortChange(Cage((0, 5), 4), repeating(4, 0, 5))
    assert change.says(grid) == "Let digits repeat in the cage r1c1 and r2c2."
    assert change.record(grid) == {
        "what": "cages",
        "from": [{"total": 4, "cells": ["r1c1", "r2c2"]}],
        "to": [{"total": 4, "repeats": "yes", "cells": ["r1c1", "r2c2"]}],
    }


def test_pictures_tell_the_sorts_apart_without_colour() -> None:
    puzzle = read(MIXED)
    assert {line.pen for line in rule_lines(puzzle)} == {"cage", "repeats"}
    assert [number.text for number in totals(puzzle)] == ["5", "6", "6"]
    assert signs_in_words(puzzle) == [
        "cage without a total: no digit stands in it twice",
        "cage with a solid outline: its digits add up to the total; they may repeat",
    ]


def test_a_step_names_the_cage_as_a_file_would(sound: Puzzle) -> None:
    cited = [
        cage
        for taken in walk(sound).steps
        for cage in step_as_record(taken, n=1, breath=1)["because"]["cages"]
    ]
    records = [cage.record(sound.grid) for cage in sound.cages_with_total]
    assert cited
    assert all(cage in records for cage in cited)
