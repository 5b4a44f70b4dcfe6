"""What was changed from one version of a puzzle to another, as the changes by which one would make it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import permutations, product

import networkx as nx

from verifier.diagnosis.repairs.changes import CageChange, CellMove, Change, RuleChange
from verifier.puzzle.puzzle import Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.rule import Rule
from verifier.tuning.neighbours.runs_redrawn import RunsRedrawn

__all__ = ["changes_between"]

_LARGEST_DIGIT = 25
"""Of the largest grid."""
_MOST_MOVED = 2
"""Cages that the move of a cell changes."""


def changes_between(before: Puzzle, after: Puzzle) -> tuple[Change, ...]:
    """Return changes that make one puzzle of another on the same grid.

    Parameters
    ----------
    before, after : Puzzle
        With grids that are equal, but for the blocked cells of a kakuro.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> one = make_puzzle("killer", grid, cages=[Cage((0, 1, 4, 5), 10)], givens={15: 1})
    >>> other = make_puzzle("killer", grid, cages=[Cage((0, 1), 3), Cage((4, 5), 7)])
    >>> for change in changes_between(one, other):
    ...     print(change.says(grid))
    Split the cage of 10 at r1c1 in two: r1c1 r1c2 = 3 and r2c1 r2c2 = 7.
    Take out the given 1 in r4c4.
    """
    gone, come = (_without(one.rules, other.rules) for one, other in ((before, after), (after, before)))
    if before.grid != after.grid:
        freed, blocked = (
            tuple(sorted(set(one.grid.blocked).difference(other.grid.blocked)))
            for one, other in ((before, after), (after, before))
        )
        old, new = (tuple(rule for rule in rules if rule.is_cage) for rules in (gone, come))
        apart = ([rule for rule in rules if not rule.is_cage] for rules in (gone, come))
        return (RunsRedrawn(freed, blocked, old, new), *_of_others(*apart))
    cages = rules_of(gone, Cage), rules_of(come, Cage)
    others = [[rule for rule in rules if type(rule) is not Cage] for rules in (gone, come)]
    return (*_of_cages(*cages), *_of_others(*others))


def _without(rules: Sequence[Rule], others: Sequence[Rule]) -> list[Rule]:
    return list((Counter(rules) - Counter(others)).elements())


def _of_cages(gone: Sequence[Cage], come: Sequence[Cage]) -> Iterator[Change]:
    """Yield a change for each group of cages that have cells in common, before or after."""
    graph: nx.Graph[tuple[int, Cage]] = nx.Graph()
    graph.add_nodes_from([(0, cage) for cage in gone] + [(1, cage) for cage in come])
    graph.add_edges_from(((0, old), (1, new)) for old, new in product(gone, come) if _overlap(old, new))
    groups = [
        tuple(tuple(sorted((cage for side, cage in group if side == this), key=_place)) for this in (0, 1))
        for group in nx.connected_components(graph)
    ]
    for old, new in sorted(groups, key=lambda group: [cage.cells for cages in group for cage in cages]):
        yield _of_group(old, new)


def _place(cage: Cage) -> tuple[tuple[int, ...], int]:
    return cage.cells, cage.total


def _overlap(one: Cage, other: Cage) -> bool:
    return not set(one.cells).isdisjoint(other.cells)


def _of_group(old: tuple[Cage, ...], new: tuple[Cage, ...]) -> Change:
    if len(old) == len(new) == 1 and old[0].cells == new[0].cells:
        return RuleChange(old[0], new[0])
    return next(_moves(old, new), CageChange(old, new))


def _moves(old: tuple[Cage, ...], new: tuple[Cage, ...]) -> Iterator[Change]:
    """Yield the moves of one cell that make these cages of those, with and without its digit."""
    either: tuple[Cage | None, ...] = (*old, None)
    for one, other in permutations(either, 2) if len(old) == len(new) <= _MOST_MOVED else ():
        if {one, other} - {None} == set(old):
            outside = {cell for cage in new for cell in cage.cells}.difference(*(cage.cells for cage in old))
            cells = sorted(outside) if one is None else one.cells
            for cell, digit in product(cells, range(_LARGEST_DIGIT + 1)):
                move = CellMove(cell, one, other, digit)
                if sorted(move.come, key=_place) == list(new):
                    yield move


def _of_others(gone: Sequence[Rule], come: Sequence[Rule]) -> Iterator[Change]:
    """Yield what became of each other rule: one of its class on its cells, or none."""
    left = list(come)
    for old in gone:
        new = next((rule for rule in left if type(rule) is type(old) and rule.cells == old.cells), None)
        if new is not None:
            left.remove(new)
        yield RuleChange(old, new)
    yield from (RuleChange(None, new) for new in left)
