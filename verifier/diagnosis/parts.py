"""The rules of a puzzle that can contradict each other, and the puzzle with some of them alone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.rule import Rule

__all__ = ["Given", "Part", "cells_of", "facts_of", "only", "parts_of", "without"]

Part = Rule


def parts_of(puzzle: Puzzle) -> tuple[Rule, ...]:
    """Return the rules of a puzzle."""
    return puzzle.rules


def cells_of(part: Rule) -> tuple[int, ...]:
    """Return the cells of a rule."""
    return part.cells


def only(puzzle: Puzzle, rules: Iterable[Rule]) -> Puzzle:
    """Return the puzzle with none but these of its rules; every cell still holds a digit of the grid.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)], givens={5: 2})
    >>> left = only(puzzle, [puzzle.houses[0], Given(5, 2)])
    >>> len(left.houses), left.cages, left.givens
    (1, (), ((5, 2),))
    """
    kept = set(rules)
    return replace(puzzle, rules=tuple(rule for rule in puzzle.rules if rule in kept))


def without(puzzle: Puzzle, rules: Iterable[Rule]) -> Puzzle:
    """Return the puzzle without these of its rules."""
    gone = set(rules)
    return replace(puzzle, rules=tuple(rule for rule in puzzle.rules if rule not in gone))


def facts_of(grid: Grid, rules: Sequence[Rule]) -> dict[str, Any]:
    """Return rules as plain values, for a program; sorts that do not occur are left out."""
    facts: dict[str, Any] = {
        "houses": [house.name for house in rules_of(rules, House)],
        "cages": [cage.record(grid) for cage in rules_of(rules, Cage)],
        "givens": {grid.cell_name(given.cell): given.digit for given in rules_of(rules, Given)},
        "rules": [rule.record(grid) for rule in rules if type(rule) not in (House, Cage, Given)],
    }
    return {key: value for key, value in facts.items() if value}
