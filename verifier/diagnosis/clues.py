"""What a diagnosis says of rules: which are the setter's, what they are called, how they are written down.

Rules of one class are named together, as an editor would. How, is an entry in a table of this module; a
class without one goes by what its rules say of themselves.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import listed
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House, by_kind
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import cage_at

__all__ = ["cage_name", "cages_named", "cells_named", "clues_of", "facts_of", "houses_named", "rules_named"]

_MOST_NAMED = 24
"""Of more cells or cages than this in a list, the number is given."""
_NOT_THE_SETTERS: frozenset[type[Rule]] = frozenset({House})
"""Rules that come with the grid."""


def clues_of(puzzle: Puzzle) -> tuple[Rule, ...]:
    """Return the rules that are the setter's: those that can be at fault, be changed, or be left out."""
    return tuple(rule for rule in puzzle.rules if type(rule) not in _NOT_THE_SETTERS)


def cells_named(grid: Grid, cells: Iterable[int]) -> str:
    """Return cells as a sentence lists them."""
    return listed((grid.cell_name(cell) for cell in cells), most=_MOST_NAMED)


def cage_name(grid: Grid, cage: Cage | LinearSum) -> str:
    """Return what people call a cage: its total and its first cell."""
    return cage_at(grid, cage)


def cages_named(grid: Grid, cages: Sequence[Cage | LinearSum]) -> str:
    """Return several cages as one says them.

    Examples
    --------
    >>> cages_named(Grid.square(4), [Cage((0, 1), 3), Cage((2, 6), 7)])
    'the cages of 3 at r1c1 and 7 at r1c3'
    """
    noun = "cage" if len(cages) == 1 else "cages"
    return f"the {noun} of {listed((cage_name(grid, cage) for cage in cages), most=_MOST_NAMED)}"


def houses_named(houses: Iterable[House], last: str = "and") -> str:
    """Return houses as one says them: neighbours of one kind together.

    Examples
    --------
    >>> houses_named([House("row", 1, ()), House("row", 2, ()), House("box", 4, ())])
    'rows 1 and 2 and box 4'
    """
    return listed(by_kind(houses, lambda numbers: listed(map(str, numbers), last)), last)


def _givens_named(grid: Grid, givens: Sequence[Given]) -> str:
    noun = "given" if len(givens) == 1 else "givens"
    return f"the {noun} {listed(f'{given.digit} in {grid.cell_name(given.cell)}' for given in givens)}"


def _each_called(grid: Grid, rules: Sequence[Rule]) -> str:
    return listed((rule.called(grid) for rule in rules), most=_MOST_NAMED)


_NAMED: Mapping[type[Rule], Callable[[Grid, Sequence[Any]], str]] = {
    House: lambda _, houses: houses_named(houses),
    Cage: cages_named,
    Given: _givens_named,
}
"""What rules of a class are called together."""


def rules_named(grid: Grid, rules: Iterable[Rule]) -> str:
    """Return rules as a sentence lists them.

    Examples
    --------
    >>> grid = Grid.square(4)
    >>> rules_named(grid, [Given(1, 2), Given(2, 2), grid.houses[0]])
    'row 1; the givens 2 in r1c2 and 2 in r1c3'
    """
    return "; ".join(_NAMED.get(sort, _each_called)(grid, alike) for sort, alike in _sorted(rules).items())


_WRITTEN: Mapping[type[Rule], tuple[str, Callable[[Grid, Sequence[Any]], Any]]] = {
    House: ("houses", lambda _, houses: [house.name for house in houses]),
    Given: ("givens", lambda grid, givens: {k: v for given in givens for k, v in given.record(grid).items()}),
    Cage: ("cages", lambda grid, cages: [cage.record(grid) for cage in cages]),
}
"""The key under which a report lists rules of a class, and the list."""


def facts_of(grid: Grid, rules: Iterable[Rule]) -> dict[str, Any]:
    """Return rules as plain values, for a program; sorts that do not occur are left out."""
    facts: dict[str, Any] = {}
    for sort, alike in _sorted(rules).items():
        if sort in _WRITTEN:
            key, written = _WRITTEN[sort]
            facts[key] = written(grid, alike)
        else:
            facts.setdefault("rules", []).extend(rule.record(grid) for rule in alike)
    return facts


def _sorted(rules: Iterable[Rule]) -> dict[type[Rule], list[Rule]]:
    """Return rules by their class, the classes in the order in which a puzzle has them."""
    found: dict[type[Rule], list[Rule]] = {}
    for rule in sorted(rules, key=lambda rule: rule.rank):
        found.setdefault(type(rule), []).append(rule)
    return found
