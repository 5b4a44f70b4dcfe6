"""The key of a puzzle in disguise: equal under every symmetry of the grid that keeps its houses.

Rows of a band, bands, columns of a stack and stacks may change places, the grid may be turned and mirrored;
in a classic the digits may be renamed, in a killer ``d`` may become ``n + 1 - d``. For 9x9 cells that is
3,359,232 ways to lay the cells out (OEIS A346008).
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterator

from verifier.likeness.labelling import ColouredGraph, Image, canonical_image
from verifier.likeness.turned import complement
from verifier.puzzle.puzzle import Puzzle

__all__ = ["STRUCTURE_VERSION", "hashed", "structure_key"]

STRUCTURE_VERSION = 2
"""Goes up when the key of any puzzle changes; that of a full grid has the same."""

_Label = tuple[str, int]
"""What a corner of the graph is, in words and a number: ``("cage", 14)``."""
_Meaning = tuple[tuple[_Label, int], ...]
"""What the colours stand for, and how many corners have each."""


def structure_key(puzzle: Puzzle) -> str:
    """Return a key that is equal for puzzles that are the same one in disguise, and for no others.

    Parameters
    ----------
    puzzle : Puzzle
        Any puzzle; its cages may lie in pieces.

    Returns
    -------
    str
        ``structure:2:`` and a hash of the canonical form. Credits and the claimed solution make no
        difference.

    Notes
    -----
    The puzzle is drawn as a graph: a corner for each cell, line, box and cage, and in a classic for each
    digit; an edge where a cell lies in a house or a cage, or holds a given digit. Colours tell the kinds
    of corners apart, cages also by their totals, given cells of a killer by their digits. The graph of
    the grid has no symmetries but those of the grid, so two puzzles are the same in disguise where their
    graphs differ in the numbering alone. What the colours stand for goes into the key as well.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> one = make_puzzle("killer", grid, cages=[Cage((0, 1), 3), Cage((2, 6), 5)])
    >>> other = make_puzzle("killer", grid, cages=[Cage((4, 5), 3), Cage((2, 6), 5)])  # rows 1 and 2 changed
    >>> third = make_puzzle("killer", grid, cages=[Cage((0, 1), 3), Cage((6, 10), 5)])
    >>> structure_key(one) == structure_key(other), structure_key(one) == structure_key(third)
    (True, False)
    """
    forms = [puzzle, complement(puzzle)] if puzzle.cages else [puzzle]
    meanings = [_meaning(form) for form in forms]
    least = min(meanings)  # only where both say the same must both graphs be looked at
    images = [_image(form, least) for form, meaning in zip(forms, meanings, strict=True) if meaning == least]
    return hashed("structure", (puzzle.grid.digits, least, min(images)))


def hashed(name: str, canonical: object) -> str:
    """Return a key: a name, a version, and a hash of what is equal for all that are the same."""
    return f"{name}:{STRUCTURE_VERSION}:{hashlib.sha256(repr(canonical).encode()).hexdigest()[:32]}"


def _meaning(puzzle: Puzzle) -> _Meaning:
    return tuple(sorted(Counter(_labels(puzzle)).items()))


def _image(puzzle: Puzzle, meaning: _Meaning) -> Image:
    """Return what is equal for puzzles that differ in the order of rows, columns and the like."""
    number = {label: place for place, (label, _) in enumerate(meaning)}
    colours = [number[label] for label in _labels(puzzle)]
    return canonical_image(ColouredGraph.of(colours, _edges(puzzle)))


def _labels(puzzle: Puzzle) -> list[_Label]:
    """Return what each corner is: cells, houses, cages, digits."""
    given = dict(puzzle.givens) if puzzle.cages else {}
    return [
        *(("cell", given.get(cell, 0)) for cell in range(puzzle.grid.cell_count)),
        *(("box" if house.kind == "box" else "line", 0) for house in puzzle.houses),
        *(("cage", cage.total) for cage in puzzle.cages),
        *(("digit", 0) for _ in (() if puzzle.cages else puzzle.grid.all_digits)),
    ]


def _edges(puzzle: Puzzle) -> Iterator[tuple[int, int]]:
    corner = puzzle.grid.cell_count
    houses, cages = ([part.cells for part in parts] for parts in (puzzle.houses, puzzle.cages))
    for cells in (*houses, *cages):
        yield from ((corner, cell) for cell in cells)
        corner += 1
    if not puzzle.cages:
        yield from ((corner + digit - 1, cell) for cell, digit in puzzle.givens)
