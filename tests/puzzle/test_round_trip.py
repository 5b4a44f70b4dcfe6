"""What is written reads back equal, and is pleasant to read."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from tests.reference import load, puzzle_of, solution_of
from tests.strategies import credits, puzzles
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage


def read_back(puzzle: Puzzle) -> Puzzle | None:
    (entry,) = read_text(write_puzzle(puzzle).encode(), "box.yaml")
    assert entry.faults == ()
    return entry.puzzle


@given(puzzles())
def test_a_puzzle_of_any_size_and_kind_reads_back_equal(puzzle: Puzzle) -> None:
    assert read_back(puzzle) == puzzle


@given(credits())
def test_any_credits_read_back_equal(credits: Credits) -> None:
    puzzle = make_puzzle("classic", Grid.square(4), credits=credits)
    assert read_back(puzzle) == puzzle


@given(puzzles(), puzzles())
@settings(max_examples=20)
def test_puzzles_written_one_after_the_other_read_back_as_a_stream(first: Puzzle, second: Puzzle) -> None:
    stream = write_puzzle(first) + "---\n" + write_puzzle(second)
    assert [entry.puzzle for entry in read_text(stream.encode(), "box.yaml")] == [first, second]


@pytest.mark.reference
@pytest.mark.parametrize("name", ["killer", "killer16", "generated", "classic_hard"])
def test_published_puzzles_read_back_equal(name: str) -> None:
    for record in load(name)[:40]:
        puzzle = replace(puzzle_of(record), solution=solution_of(record))
        assert read_back(puzzle) == puzzle


def test_a_killer_is_written_as_people_draw_it() -> None:
    cages = [Cage((0, 1, 6), 9), Cage((2, 3), 5), Cage((35,), 6)]
    puzzle = make_puzzle(
        "killer",
        Grid.square(6, (3, 2)),
        cages=cages,
        givens={4: 6},
        credits=Credits("harbour-1", "Low tide: a killer", "no"),
    )
    assert write_puzzle(puzzle) == (
        "format: 1\n"
        "puzzle: killer\n"
        "id: harbour-1\n"
        "title: 'Low tide: a killer'\n"
        "setter: 'no'\n"
        "grid: 6x6\n"
        "boxes: 3x2\n"
        "cages: |\n"
        "  a a b b . .\n"
        "  a . . . . .\n"
        "  . . . . . .\n"
        "  . . . . . .\n"
        "  . . . . . .\n"
        "  . . . . . c\n"
        "totals: {a: 9, b: 5, c: 6}\n"
        "givens: |\n"
        "  . . . . 6 .\n"
        "  . . . . . .\n"
        "  . . . . . .\n"
        "  . . . . . .\n"
        "  . . . . . .\n"
        "  . . . . . .\n"
    )


def test_columns_stand_in_line_where_digits_have_two_figures() -> None:
    puzzle = make_puzzle("classic", Grid.square(12), givens={0: 3, 1: 12, 3: 7})
    assert "givens: |\n  3  12 .  7  .  .  .  .  .  .  .  .\n  .  .  . " in write_puzzle(puzzle)


def test_many_totals_go_on_in_another_line() -> None:
    cages = [Cage((cell,), 5) for cell in range(60)]
    text = write_puzzle(make_puzzle("killer", Grid.square(9), cages=cages))
    assert max(len(line) for line in text.splitlines()) <= 100
    assert text.count("\n  ") > 9


def test_overlapping_cages_are_refused() -> None:
    puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3), Cage((1, 2), 4)])
    with pytest.raises(ValueError, match="cages overlap in r1c2"):
        write_puzzle(puzzle)
