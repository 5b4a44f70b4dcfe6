"""Other forms of the model of a puzzle, for the study of which one counts fastest."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import combinations, permutations

from ortools.sat.python import cp_model

from scripts.timing.textbook import textbook_model
from verifier.counting.derived import derived_cages
from verifier.counting.model import build_model
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["FORMS", "Form"]

_Booleans = list[list[cp_model.IntVar]]
"""For each cell and each digit: the cell holds the digit."""

_CageRule = Callable[[cp_model.CpModel, _Booleans, Cage], None]


@dataclass(frozen=True)
class Form:
    """One form of the model, with the solver's parameters.

    Parameters
    ----------
    name : str
        What the table calls it.
    build : callable
        From puzzle to model.
    parameters : mapping
        What differs from the solver as it comes.
    """

    name: str
    build: Callable[[Puzzle], cp_model.CpModel]
    parameters: Mapping[str, object] = field(default_factory=dict)


def _integers_with_tables(puzzle: Puzzle) -> cp_model.CpModel:
    """Return the textbook model with each cage of up to 4 cells as a list of all its arrangements."""
    large = tuple(cage for cage in puzzle.cages if len(cage.cells) > 4)
    model = textbook_model(puzzle.having(Cage, large))
    for cage in puzzle.cages:
        if len(cage.cells) <= 4:
            cells = [model.get_int_var_from_proto_index(cell) for cell in cage.cells]
            held = _combinations(cage, puzzle.grid.digits)
            model.add_allowed_assignments(cells, [order for digits in held for order in permutations(digits)])
    return model


def _booleans(puzzle: Puzzle, cage_rule: _CageRule) -> cp_model.CpModel:
    """Return a model in Booleans, written through the solver's objects."""
    model = cp_model.CpModel()
    holds = [[model.new_bool_var("") for _ in puzzle.grid.all_digits] for _ in range(puzzle.grid.cell_count)]
    for cell in holds:
        model.add_exactly_one(cell)
    for house in puzzle.houses:
        for number in range(puzzle.grid.digits):
            model.add_exactly_one(holds[cell][number] for cell in house.cells)
    for given, digit in puzzle.givens:
        model.add_bool_and(holds[given][digit - 1])
    for cage in puzzle.cages:
        cage_rule(model, holds, cage)
    return model


def _by_exactly_one(model: cp_model.CpModel, holds: _Booleans, cage: Cage) -> None:
    """State a cage by selectors: for each digit its places and the selectors that lack it, exactly one."""
    held = _combinations(cage, len(holds[0]))
    selectors = [model.new_bool_var("") for _ in held]
    model.add_exactly_one(selectors)
    for number in range(len(holds[0])):
        lacking = [s for s, digits in zip(selectors, held, strict=True) if number + 1 not in digits]
        model.add_exactly_one([holds[cell][number] for cell in cage.cells] + lacking)


def _by_equations(model: cp_model.CpModel, holds: _Booleans, cage: Cage) -> None:
    """State a cage by selectors: for each digit its places are as many as the selectors that hold it."""
    held = _combinations(cage, len(holds[0]))
    selectors = [model.new_bool_var("") for _ in held]
    model.add_exactly_one(selectors)
    for number in range(len(holds[0])):
        holding = [s for s, digits in zip(selectors, held, strict=True) if number + 1 in digits]
        places = [holds[cell][number] for cell in cage.cells]
        model.add(cp_model.LinearExpr.sum(places) == cp_model.LinearExpr.sum(holding))


def _by_weighted_sum(model: cp_model.CpModel, holds: _Booleans, cage: Cage) -> None:
    """State a cage by at most one place for each digit and one sum over all cells and digits."""
    for number in range(len(holds[0])):
        model.add_at_most_one(holds[cell][number] for cell in cage.cells)
    terms = [(x, number) for cell in cage.cells for number, x in enumerate(holds[cell], 1)]
    model.add(cp_model.LinearExpr.weighted_sum([x for x, _ in terms], [n for _, n in terms]) == cage.total)


def _by_sum_of_used(model: cp_model.CpModel, holds: _Booleans, cage: Cage) -> None:
    """State a cage by a Boolean for each digit in it: as many as cells, and their sum."""
    numbers = range(1, len(holds[0]) + 1)
    used = [model.new_bool_var("") for _ in numbers]
    for number, is_used in zip(numbers, used, strict=True):
        model.add_exactly_one([*(holds[cell][number - 1] for cell in cage.cells), ~is_used])
    model.add(cp_model.LinearExpr.sum(used) == len(cage.cells))
    model.add(cp_model.LinearExpr.weighted_sum(used, list(numbers)) == cage.total)


def _with_derived(puzzle: Puzzle) -> Puzzle:
    return puzzle.changed(come=derived_cages(puzzle))


def _combinations(cage: Cage, digits: int) -> list[tuple[int, ...]]:
    sets = combinations(range(1, digits + 1), len(cage.cells))
    return [held for held in sets if sum(held) == cage.total]


_FLAT = {"linearization_level": 0}
_BARE = {"linearization_level": 0, "cp_model_presolve": False}
_OURS = {**_BARE, "symmetry_level": 0}

FORMS = (
    Form("integers, all-different, sums (textbook)", textbook_model),
    Form("the same, linearization 0", textbook_model, _FLAT),
    Form("the same, no presolve", textbook_model, _BARE),
    Form("integers, a table for each cage", _integers_with_tables, _FLAT),
    Form("Booleans, one weighted sum for each cage", lambda p: _booleans(p, _by_weighted_sum), _FLAT),
    Form("the same, no presolve", lambda p: _booleans(p, _by_weighted_sum), _BARE),
    Form("Booleans, sum over the digits used", lambda p: _booleans(p, _by_sum_of_used), _FLAT),
    Form("the same, no presolve", lambda p: _booleans(p, _by_sum_of_used), _BARE),
    Form("selectors tied by equations, as it comes", lambda p: _booleans(p, _by_equations)),
    Form("the same, linearization 0", lambda p: _booleans(p, _by_equations), _FLAT),
    Form("the same, no presolve", lambda p: _booleans(p, _by_equations), _BARE),
    Form("selectors tied by exactly-one, linearization 0", lambda p: _booleans(p, _by_exactly_one), _FLAT),
    Form("the same, no presolve", lambda p: _booleans(p, _by_exactly_one), _BARE),
    Form("the same, no search for symmetries", lambda p: _booleans(p, _by_exactly_one), _OURS),
    Form("the same, with derived cages", lambda p: _booleans(_with_derived(p), _by_exactly_one), _OURS),
    Form("the same, written directly (ours)", lambda p: cp_model.CpModel(build_model(p)), _OURS),
)
