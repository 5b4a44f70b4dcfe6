"""How each rule is put to clingo: a fragment in its own words, and the facts of each rule of a puzzle.

Every fragment is written by hand, apart from all that the first count is told: `rules.lp` has those of
houses, cages, cells that differ, sums and givens, and any other rule has its own in `FRAGMENTS`. Those of
marks, lines and clues at the edge stand in modules of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from importlib.resources import files
from typing import Any

from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.rule import Rule
from verifier.recount.edge_statements import EDGE_FACTS, EDGE_FRAGMENTS
from verifier.recount.line_statements import LINE_FACTS, LINE_FRAGMENTS
from verifier.recount.mark_statements import MARK_FACTS, MARK_FRAGMENTS

__all__ = ["FACTS", "FRAGMENTS", "program_of"]


def program_of(puzzle: Puzzle) -> str:
    """Return the program whose answer sets are the solutions of a puzzle."""
    sorts = {type(rule): None for rule in puzzle.rules}
    fragments = "".join(FRAGMENTS.get(sort, "") for sort in sorts)
    return _usual() + fragments + "".join(_facts(puzzle))


@lru_cache(maxsize=1)
def _usual() -> str:
    return files("verifier.recount").joinpath("rules.lp").read_text(encoding="utf-8")


def _facts(puzzle: Puzzle) -> Iterator[str]:
    """Yield the puzzle in the words of the fragments; rules of a class are numbered."""
    yield f"cell({';'.join(map(str, puzzle.grid.cells))}). digit(1..{puzzle.grid.digits}).\n"
    numbers: dict[type[Rule], int] = {}
    for rule in puzzle.rules:
        number = numbers[type(rule)] = numbers.get(type(rule), -1) + 1
        yield from FACTS[type(rule)](number, rule, puzzle.grid)


def _house(number: int, house: House, grid: Grid) -> Iterator[str]:
    yield f"short_house({number})." if len(house.cells) < grid.digits else f"house({number})."
    yield from (f"in_house({number},{cell})." for cell in house.cells)


def _cage(number: int, cage: Cage, grid: Grid) -> Iterator[str]:
    # The solver's whole numbers end at 32 bits. No cage can make 0, nor a total out of all reach.
    total = cage.total if 0 < cage.total <= len(cage.cells) * grid.digits else 0
    yield f"cage({number},{total},{len(cage.cells)})."
    yield from (f"in_cage({number},{cell})." for cell in cage.cells)


def _different(number: int, rule: Different, grid: Grid) -> Iterator[str]:  # noqa: ARG001 - as for all rules
    yield f"different({number})."
    yield from (f"in_different({number},{cell})." for cell in rule.cells)


def _sum(number: int, rule: LinearSum, grid: Grid) -> Iterator[str]:
    most = sum(abs(weight) for _, weight in rule.weights) * grid.digits
    yield f"sum({number},{max(-most - 1, min(rule.total, most + 1))})."  # 32 bits, as for cages
    yield from (f"in_sum({number},{cell},{weight})." for cell, weight in rule.weights)


def _chess_move(number: int, rule: ChessMove, grid: Grid) -> Iterator[str]:  # noqa: ARG001 - as for all rules
    yield from (f"move_apart({one},{other})." for one, other in rule.pairs)


def _not_consecutive(number: int, rule: NotConsecutive, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    yield from (f"not_consecutive({one},{other})." for one, other in rule.pairs)


def _given(number: int, given: Given, grid: Grid) -> Iterator[str]:  # noqa: ARG001 - as for all rules
    yield f"given({given.cell},{given.digit})."


FACTS: Mapping[type[Rule], Callable[[int, Any, Grid], Iterator[str]]] = {
    House: _house,
    Cage: _cage,
    Different: _different,
    LinearSum: _sum,
    **MARK_FACTS,
    **LINE_FACTS,
    **EDGE_FACTS,
    ChessMove: _chess_move,
    NotConsecutive: _not_consecutive,
    Given: _given,
}
"""The facts of one rule, by its class."""

FRAGMENTS: Mapping[type[Rule], str] = {
    **MARK_FRAGMENTS,
    **LINE_FRAGMENTS,
    **EDGE_FRAGMENTS,
    ChessMove: ":- move_apart(A,B), holds(A,D), holds(B,D).\n",
    NotConsecutive: ":- not_consecutive(A,B), holds(A,D), holds(B,E), |D-E| == 1.\n",
}
"""What the facts of the other rules mean, by their class."""
