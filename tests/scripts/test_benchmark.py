"""The benchmark and its study measure what they say they measure."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from scripts.timing.forms import FORMS, Form
from scripts.timing.parts import PARTS, Case, DifferentCountError, seconds_by_part
from scripts.timing.textbook import count_up_to_two, textbook_count
from tests.counting.puzzles import EMPTY_4X4, UNIQUE_4X4
from tests.rules.shapes import solved_by
from tests.rules.test_every_rule import EXAMPLES, STRIP
from verifier.counting.count import count_solutions
from verifier.files.writing import write_puzzle
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.rule import Rule

ROOT = Path(__file__).resolve().parents[2]
LOOSE_4X4 = make_puzzle("killer", Grid.square(4), cages=UNIQUE_4X4.cages[1:], givens={0: 1})
IMPOSSIBLE_4X4 = make_puzzle("killer", Grid.square(4), cages=[*UNIQUE_4X4.cages, Cage((2,), 4)])
NUMBERS = [(EMPTY_4X4, 2), (LOOSE_4X4, 2), (UNIQUE_4X4, 1), (IMPOSSIBLE_4X4, 0)]


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.name)
def test_every_form_of_the_model_counts_the_same(form: Form) -> None:
    counts = [count_up_to_two(form.build(puzzle), form.parameters) for puzzle, _ in NUMBERS]
    assert counts == [number for _, number in NUMBERS]


def test_the_textbook_count_counts_two_at_most() -> None:
    assert [textbook_count(puzzle) for puzzle, _ in NUMBERS] == [number for _, number in NUMBERS]


@pytest.mark.parametrize("rule", [rule for rules in EXAMPLES.values() for rule in rules], ids=repr)
def test_the_textbook_states_every_rule(rule: Rule) -> None:
    puzzle = solved_by(STRIP, rule)
    assert textbook_count(puzzle) == count_solutions(puzzle, 2).count


@pytest.mark.parametrize(("puzzle", "number"), NUMBERS)
def test_the_parts_of_a_verdict_are_those_of_the_table(puzzle: Puzzle, number: int) -> None:
    seconds = seconds_by_part(Case(puzzle, write_puzzle(puzzle).encode()))
    assert set(seconds) <= set(PARTS)
    assert ("  replay" in seconds) == (number < 2)  # two grids are proof enough
    assert ("  grade" in seconds) == (number == 1)


def test_a_count_that_differs_from_the_textbook_count_ends_the_benchmark(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("scripts.timing.parts.textbook_count", lambda _: 0)
    with pytest.raises(DifferentCountError, match="counted 1, the textbook count says 0"):
        seconds_by_part(Case(UNIQUE_4X4, write_puzzle(UNIQUE_4X4).encode()))


def record(number: int) -> str:
    cages = [
        {"sum": cage.total, "cells": [[c // 4 + 1, c % 4 + 1] for c in cage.cells]}
        for cage in UNIQUE_4X4.cages
    ]
    return json.dumps(
        {
            "id": f"small-{number}",
            "kind": "killer",
            "rows": 4,
            "cols": 4,
            "box": [2, 2],
            "cages": cages,
            "solutions": 1,
        }
    )


@pytest.mark.parametrize("option", [[], ["--models"]])
def test_the_command_prints_a_table_for_any_file_in_the_reference_format(
    tmp_path: Path, option: list[str]
) -> None:
    cases = tmp_path / "small.jsonl"
    cases.write_text("\n".join(map(record, range(3))), encoding="utf-8")
    words = [sys.executable, "-m", "scripts.benchmark", "--cases", str(cases), "--limit", "2", *option]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1), done.stderr  # 1: so small a puzzle can miss a goal
    assert "small.jsonl: 2 puzzles" in done.stdout
    assert "textbook" in done.stdout


def test_a_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    words = [sys.executable, "-m", "scripts.benchmark", "--cases", str(tmp_path / "none.jsonl")]
    wide = {**os.environ, "COLUMNS": "400"}  # so that no frame breaks the name of the file
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False, env=wide)
    assert done.returncode == 2
    assert "none.jsonl" in done.stderr
    assert "Traceback" not in done.stderr
