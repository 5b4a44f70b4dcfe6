"""Symmetries of a grid."""

from __future__ import annotations

import pytest

from verifier.puzzle.grid import Grid
from verifier.verdict.style.symmetry import SYMMETRIES, partners, unmatched

GRID = Grid.square(9)


def partner_of(symmetry: str, cell: str) -> str:
    place = GRID.cell_at(cell)
    assert place is not None
    return GRID.cell_name(partners(symmetry, GRID)[place])


@pytest.mark.parametrize(
    ("symmetry", "partner"),
    [
        ("half-turn", "r9c8"),
        ("quarter-turn", "r2c9"),
        ("left-right", "r1c8"),
        ("top-bottom", "r9c2"),
        ("diagonal", "r2c1"),
        ("antidiagonal", "r8c9"),
    ],
)
def test_where_each_symmetry_takes_r1c2(symmetry: str, partner: str) -> None:
    assert partner_of(symmetry, "r1c2") == partner


@pytest.mark.parametrize("symmetry", SYMMETRIES)
def test_a_symmetry_takes_the_grid_to_itself(symmetry: str) -> None:
    assert sorted(partners(symmetry, GRID)) == list(range(81))


@pytest.mark.parametrize("symmetry", sorted(set(SYMMETRIES) - {"quarter-turn"}))
def test_all_but_the_quarter_turn_come_back_after_two(symmetry: str) -> None:
    there = partners(symmetry, GRID)
    assert [there[there[cell]] for cell in range(81)] == list(range(81))


def test_two_quarter_turns_make_a_half_turn() -> None:
    quarter = partners("quarter-turn", GRID)
    assert tuple(quarter[quarter[cell]] for cell in range(81)) == partners("half-turn", GRID)


def test_a_lone_centre_is_symmetric_in_every_way() -> None:
    assert all(unmatched(symmetry, GRID, [40]) == () for symmetry in SYMMETRIES)
