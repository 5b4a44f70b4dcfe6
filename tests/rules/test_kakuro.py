"""Kakuros in every layer: both counts against plain search, their turned forms, a house style."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from scripts.build_corpus import CORPUS
from tests.cli.command import called
from tests.rules.shapes import fillings_of
from verifier.counting.count import count_solutions
from verifier.files.reading import read_file, read_text
from verifier.files.writing import write_puzzle
from verifier.likeness.turned import turned_images, turned_key
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import KAKURO, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.run_layout import stretches
from verifier.recount.recount import recount_solutions
from verifier.verdict.judge import judge
from verifier.verdict.style.style import HouseStyle


def random_kakuro(seed: int) -> Puzzle:
    """A small one with any number of solutions: its totals are those of any digits, equal ones too."""
    random = Random(seed)
    rows, columns = random.randint(2, 4), random.randint(2, 4)
    cells = range(rows * columns)
    grid = Grid(rows, columns, 0, 0, 9, tuple(cell for cell in cells if random.random() < 0.3))
    runs = [stretch.cells for stretch in stretches(grid) if len(stretch.cells) > 1]
    filling = {cell: random.randint(1, 9) for cell in grid.cells}
    cages = [Cage(cells, sum(filling[cell] for cell in cells)) for cells in runs if random.random() < 0.9]
    return make_puzzle(KAKURO, grid, houses=(), cages=cages)


@pytest.mark.parametrize("seed", range(20))
def test_both_counts_find_what_plain_search_finds(seed: int) -> None:
    puzzle = random_kakuro(seed)
    wanted = fillings_of(puzzle, 300)
    for tally in (count_solutions(puzzle, 300), recount_solutions(puzzle, 300)):
        assert tally.count == len(wanted)
        assert tally.refused is None
        assert len(wanted) == 300 or list(tally.solutions) == wanted


def corpus_puzzle(name: str) -> Puzzle:
    (entry,) = read_file(CORPUS / "kakuro" / f"{name}.yaml")
    assert entry.puzzle is not None
    return entry.puzzle


def test_turned_and_complemented_forms_have_one_solution_one_key_and_can_be_written() -> None:
    puzzle = corpus_puzzle("wicket-gate")
    verdict = judge(puzzle)
    assert verdict.difficulty is not None
    for grid, places in turned_images(puzzle.grid):
        for digits in (range(10), (0, *range(9, 0, -1))):
            form = puzzle.moved(grid, places, tuple(digits))
            assert form is not None
            assert turned_key(form) == turned_key(puzzle)
            (entry,) = read_text(write_puzzle(form).encode(), "form.yaml")
            assert entry.puzzle == form
            said = judge(form)
            assert said.difficulty is not None
            assert (said.difficulty.tier, said.difficulty.effort) == (
                verdict.difficulty.tier,
                verdict.difficulty.effort,
            )
            assert said.solutions.filling is not None
            assert solves(form, said.solutions.filling)


def test_a_house_style_may_take_kakuros_alone_and_of_some_sizes() -> None:
    puzzle = corpus_puzzle("wicket-gate")
    assert not judge(puzzle, HouseStyle("Lamps", kinds=("kakuro",), grids=("5x5", "12x20"))).reasons
    (reason,) = judge(puzzle, HouseStyle("Lamps", kinds=("killer", "classic"))).reasons
    assert reason.says.endswith("takes only killer and classic puzzles; this one is a kakuro.")


def test_a_missing_total_is_what_a_setter_is_told_and_a_repair_is_looked_for() -> None:
    verdict = judge(corpus_puzzle("blank-lintel"))
    assert [reason.code for reason in verdict.reasons] == ["run-total"]
    assert verdict.solutions.count == 1
    assert verdict.is_broken


def test_no_argument_is_told_for_a_blocked_cell(tmp_path: Path) -> None:
    done = called("walk", str(CORPUS / "kakuro" / "wicket-gate.yaml"), "--from", "r1c1", folder=tmp_path)
    assert done.code == 2
    assert "--from: found 'r1c1', which is blocked; allowed: a cell that is to be filled." in done.err
