"""Writing straight into the solver's protocol buffer.

To make an object of every literal would take as long as to solve an ordinary killer.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.puzzle.grid import Grid

__all__ = [
    "add_all_true",
    "add_at_most_one",
    "add_clause",
    "add_each_exactly_one",
    "add_exactly_one",
    "add_in_range",
    "add_linear",
    "holds",
    "new_booleans",
]


def holds(grid: Grid, cell: int, digit: int) -> int:
    """Return the literal that says: the cell holds the digit (``~`` is how CP-SAT numbers a negation)."""
    return cell * grid.digits + digit - 1


def new_booleans(model: cp_sat.CpModelProto, count: int) -> int:
    """Add Boolean variables and return the literal of the first."""
    first = len(model.variables)
    model.merge_from(_booleans(count))
    return first


@lru_cache(maxsize=1024)
def _booleans(count: int) -> cp_sat.CpModelProto:
    """Return a model of so many Booleans and nothing else; it is merged, never changed."""
    model = cp_sat.CpModelProto()
    for _ in range(count):
        model.variables.add().domain.extend([0, 1])
    return model


def add_exactly_one(model: cp_sat.CpModelProto, literals: list[int]) -> None:
    """State that one of the literals is true, and no other."""
    model.constraints.add().exactly_one.literals.extend(literals)


def add_each_exactly_one(model: cp_sat.CpModelProto, groups: Iterable[list[int]]) -> None:
    """State of each group of literals that one of them is true, and no other."""
    constraint = cp_sat.ConstraintProto()  # filled again and again and copied: half the time of new ones
    literals, add = constraint.exactly_one.literals, model.constraints.append
    for group in groups:
        literals.clear()
        literals.extend(group)
        add(constraint)


def add_at_most_one(model: cp_sat.CpModelProto, literals: list[int]) -> None:
    """State that no two of the literals are true."""
    model.constraints.add().at_most_one.literals.extend(literals)


def add_clause(model: cp_sat.CpModelProto, literals: list[int]) -> None:
    """State that one of the literals at least is true."""
    model.constraints.add().bool_or.literals.extend(literals)


def add_all_true(model: cp_sat.CpModelProto, literals: list[int]) -> None:
    """State that each of the literals is true."""
    model.constraints.add().bool_and.literals.extend(literals)


def add_linear(
    model: cp_sat.CpModelProto, variables: Sequence[int], weights: Sequence[int], total: int
) -> None:
    """State that the variables, each with its weight, add up to a total."""
    add_in_range(model, variables, weights, total, total)


def add_in_range(
    model: cp_sat.CpModelProto,
    variables: Sequence[int],
    weights: Sequence[int],
    least: int,
    most: int,
    when: Sequence[int] = (),
) -> None:
    """State that the variables, each with its weight, add up to no less and no more than said.

    Where literals are given in `when`, that holds when all of them are true.
    """
    constraint = model.constraints.add()
    constraint.enforcement_literal.extend(when)
    linear = constraint.linear
    linear.vars.extend(variables)
    linear.coeffs.extend(weights)
    linear.domain.extend([least, most])
