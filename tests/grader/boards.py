"""Boards to try techniques on, and an auditor that proves a step from its premises alone."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from grader.board.board import Board, board_from_text
from grader.board.layout import layout_of
from grader.board.steps import DerivedSum, Step
from tests.strategies import fillings
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.masks import bits, digits_of
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = [
    "Position",
    "agrees",
    "audit",
    "board_without",
    "derived",
    "houses_of",
    "names",
    "positions",
    "removed",
]


def names(board: Board, cells: Iterable[int]) -> str:
    """The names of some cells: ``r1c1 r1c4``."""
    return " ".join(board.layout.grid.cell_name(cell) for cell in cells)


def removed(board: Board, step: Step) -> dict[str, tuple[int, ...]]:
    """What a step removes, as people say it: ``{"r1c3": (2, 6)}``."""
    return {names(board, [cell]): digits_of(gone) for cell, gone in step.removes}


def board_without(digit: int, text: str, cages: Iterable[Cage] = (), size: int = 9) -> Board:
    """The board of a picture in which ``-`` marks the cells where only `digit` has gone."""
    others = ",".join(str(other) for other in range(1, size + 1) if other != digit)
    return board_from_text(text.replace("-", "{" + others + "}"), cages, size)


def houses_of(board: Board, step: Step) -> list[str]:
    """The names of the houses a step rests on."""
    return [board.layout.houses[index].name for index in board.layout.houses_among(step.rules)]


def cages_of(board: Board, premises: Step | DerivedSum) -> tuple[int, ...]:
    """The cages that a step or a sum rests on, counted from 0 in the order of the puzzle."""
    layout = board.layout
    return tuple(number - len(layout.houses) for number in layout.cages_among(premises.rules))


def agrees(step: Step, solution: Filling) -> bool:
    """Whether a step places only digits of the solution and removes none of them."""
    return all(solution[cell] == digit for cell, digit in step.places) and not any(
        gone >> solution[cell] & 1 for cell, gone in step.removes
    )


def audit(step: Step, board: Board) -> bool:
    """Whether a step follows from its premises alone: CP-SAT finds no way for any part of it to be wrong.

    The solver is given the step's houses (all different), cages (all different, and the total), sums, and the
    open digits of the cells of `looks`; in every other cell all digits are open to it.
    """
    layout, model = board.layout, cp_model.CpModel()
    cells = {
        cell: model.new_int_var_from_domain(
            cp_model.Domain.from_values(
                digits_of(board.candidates[cell] if cell in step.looks else layout.all_digits)
            ),
            layout.grid.cell_name(cell),
        )
        for cell in range(layout.grid.cell_count)
    }
    for number in step.rules:
        model.add_all_different(cells[cell] for cell in layout.rules[number].cells)
    for number in layout.cages_among(step.rules):
        cage = layout.cage(number)
        model.add(sum(cells[cell] for cell in cage.cells) == cage.total)
    for premise in step.sums:
        linear = premise.linear
        model.add(sum(weight * cells[cell] for cell, weight in linear.weights) == linear.total)
    wrong = []
    for cell, digit in step.places:
        wrong.append(model.new_bool_var(""))
        model.add(cells[cell] != digit).only_enforce_if(wrong[-1])
    for cell, gone in step.removes:
        for digit in digits_of(gone):
            wrong.append(model.new_bool_var(""))
            model.add(cells[cell] == digit).only_enforce_if(wrong[-1])
    model.add_bool_or(wrong)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    return bool(wrong) and solver.solve(model) == cp_model.INFEASIBLE


def derived(premise: DerivedSum, board: Board) -> bool:
    """Whether a derived sum is a combination of its houses and cages: numpy finds the shares."""
    layout = board.layout
    known = [(layout.rules[h].cells, layout.grid.house_total) for h in layout.houses_among(premise.rules)]
    known += [(layout.rules[c].cells, layout.cage(c).total) for c in layout.cages_among(premise.rules)]
    equations = np.zeros((len(known), layout.grid.cell_count + 1))
    for row, (cells, total) in enumerate(known):
        equations[row, list(cells)] = 1
        equations[row, -1] = total
    stated = np.zeros(layout.grid.cell_count + 1)
    for cell, weight in premise.linear.weights:
        stated[cell] = weight
    stated[-1] = premise.linear.total
    shares = np.linalg.lstsq(equations.T, stated, rcond=None)[0]
    return bool(np.allclose(equations.T @ shares, stated))


@dataclass(frozen=True)
class Position:
    """A board somewhere in the solve of a puzzle, and the filling that it leads to."""

    puzzle: Puzzle
    board: Board
    solution: Filling


@st.composite
def positions(draw: st.DrawFn, grid: Grid, *, killer: bool = False) -> Position:
    """A full grid, some of it placed, with wrong digits opened here and there in the rest.

    The wrong digits are drawn digit by digit, some digits sparser than others, so that patterns of few cells
    (pairs) and of few places (fish) both come up often.
    """
    solution = draw(fillings(grid))
    cages = draw(_cages(grid, solution)) if killer else []
    candidates = [1 << digit for digit in solution]
    some_cells = _masks(grid.cell_count)
    for digit in grid.all_digits:
        opened = draw(some_cells) & draw(some_cells)
        if draw(st.booleans()):
            opened &= draw(some_cells)
        for cell in bits(opened):
            candidates[cell] |= 1 << digit
    placed = draw(some_cells) & draw(some_cells)
    if draw(st.booleans()):
        placed |= draw(some_cells)
    puzzle = make_puzzle("killer" if killer else "classic", grid, cages=cages)
    layout = layout_of(puzzle)
    places = tuple((cell, digit) for cell, digit in enumerate(solution) if placed >> cell & 1)
    board = Board(layout, candidates, 0, layout.all_cells).after([Step("given", places=places)])
    return Position(puzzle, board.looking_at(layout.all_cells), solution)


@st.composite
def _cages(draw: st.DrawFn, grid: Grid, solution: Filling) -> list[Cage]:
    """Cages of neighbours, up to four cells large, that the solution fits; some cells lie in none."""
    cage_of = {cell: [cell] for cell in range(grid.cell_count)}
    for step in (1, grid.columns):
        for cell in bits(draw(_masks(grid.cell_count - step))):
            one, other = cage_of[cell], cage_of[cell + step]
            together = one + other
            if len(together) > 4 or len({solution[c] for c in together}) < len(together):
                continue
            if step == 1 and (cell + 1) % grid.columns == 0:
                continue  # the cell on the right is in the next row
            cage_of.update(dict.fromkeys(together, together))
    kept = draw(_masks(grid.cell_count)) | draw(_masks(grid.cell_count))
    return [
        Cage(tuple(cells), sum(solution[c] for c in cells))
        for first, cells in cage_of.items()
        if first == min(cells) and kept >> first & 1
    ]


def _masks(size: int) -> st.SearchStrategy[int]:
    """Masks of `size` bits, each bit set or not with even chances; integers as such would come out small."""
    length = -(-size // 8)
    return st.binary(min_size=length, max_size=length).map(
        lambda octets: int.from_bytes(octets, "big") & ((1 << size) - 1)
    )
