"""Every rule of the program can be changed in every way that makes sense for it, and the solution stays."""

from __future__ import annotations

from collections import defaultdict
from functools import cache

import pytest

from tests.corpus.puzzles import puzzle_at
from verifier.counting.count import count_solutions
from verifier.diagnosis.repairs.changes import Change
from verifier.files.fields.clues import CLUES
from verifier.files.reading import read_text
from verifier.files.rulebook.entries import rulebook
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.rule import Rule
from verifier.tuning.neighbours.moves import moved_on, moves
from verifier.tuning.neighbours.runs_redrawn import RunsRedrawn

MORE_LESS, MARK = {"more", "less"}, {"more", "less", "elsewhere"}
LINE = {*MARK, "longer", "shorter"}
WAYS: dict[str, set[str]] = {
    "given": MORE_LESS,
    "cage": {*MORE_LESS, "split", "joined", "a cell elsewhere"},
    "cage_with_repeats": {*MORE_LESS, "longer", "shorter", "another sort"},
    "cage_without_total": {*MORE_LESS, "longer", "shorter", "another sort"},
    "run": {"blocked", "freed", "a block elsewhere", "more"},
    **dict.fromkeys(("greater", "consecutive", "ratio", "difference", "pair_sum", "even", "odd"), MARK),
    "quadruple": {*MARK, "digits"},
    **dict.fromkeys(
        ("thermometer", "palindrome", "renban", "whisper", "between", "arrow", "region_sum"), LINE
    ),
    **dict.fromkeys(("sandwich", "skyscraper"), MARK),
    "little_killer": {*MORE_LESS, "longer", "shorter"},
}
"""For each word by which files call a rule, the ways to change it."""
SORTS = """
puzzle: killer
grid: 4x4
cages:
  - {total: 7, cells: r1c3 r1c4}
  - {total: 11, repeats: yes, cells: r2c4 r3c3 r3c4 r4c3}
  - {cells: r3c1 r3c2 r4c2}
solution: |
  1 2 3 4
  3 4 1 2
  2 1 4 3
  4 3 2 1
"""


def read(text: str) -> Puzzle:
    (found,) = read_text(text.encode(), "example.yaml")
    assert found.puzzle is not None, found.faults
    return found.puzzle


def example(word: str) -> Puzzle:
    """A puzzle that has the rule, with one solution or with one that it brings."""
    if word.startswith("cage_"):
        return read(SORTS)
    if word == "cage":
        return puzzle_at("small/half-a-loaf.yaml")
    name = {"run": "cells", "given": "diagonals"}.get(word, word)
    return read(next(entry.example for entry in rulebook() if entry.name == name))


@cache
def changes_of(word: str) -> dict[str, list[Change]]:
    """The changes of a rule, by the way in which they change it; all keep the solution."""
    puzzle = example(word)
    solution = puzzle.solution or count_solutions(puzzle).solutions[0]
    found = defaultdict(list)
    for move in moves(puzzle, solution, most_givens=len(puzzle.givens) + 1):
        (change,) = move
        rules = (*change.gone, *change.come)
        if word == "run" or any(rule.word == word for rule in rules):
            assert moved_on(puzzle, move, solution) is not None, change.says(puzzle.grid)
            found[way_of(change)].append(change)
    return found


def way_of(change: Change) -> str:
    if isinstance(change, RunsRedrawn):
        return (
            "a block elsewhere" if change.freed and change.blocked else "freed" if change.freed else "blocked"
        )
    if len(change.gone) == len(change.come) == 1:
        (old,), (new,) = change.gone, change.come
        return way_from(old, new)
    if len(change.gone) == len(change.come):
        return "a cell elsewhere"
    if change.gone and change.come:
        return "split" if len(change.gone) < len(change.come) else "joined"
    return "more" if change.come else "less"


def way_from(old: Rule, new: Rule) -> str:
    if type(old) is not type(new):
        return "another sort"
    before, after = set(old.cells), set(new.cells)
    if before == after:
        return "digits"
    return "longer" if len(after) > len(before) else "shorter" if len(after) < len(before) else "elsewhere"


def test_no_rule_that_files_can_say_is_forgotten() -> None:
    assert set(CLUES) <= set(WAYS)


@pytest.mark.parametrize("word", WAYS)
def test_each_way_to_change_a_rule_comes_up_and_keeps_the_solution(word: str) -> None:
    assert WAYS[word] <= set(changes_of(word))
