"""The key of a puzzle in disguise: equal under every symmetry of the grid that keeps its houses.

Rows of a band, bands, columns of a stack and stacks may change places, the grid may be turned and mirrored;
in a classic the digits may be renamed, in a killer ``d`` may become ``n + 1 - d``. For 9x9 cells that is
3,359,232 ways to lay the cells out (OEIS A346008).
"""

from __future__ import annotations

import hashlib
from collections import Counter

from verifier.likeness.corners import CORNERS, Label
from verifier.likeness.labelling import ColouredGraph, canonical_image
from verifier.likeness.turned import forms
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given

__all__ = ["STRUCTURE_VERSION", "hashed", "structure_key"]

STRUCTURE_VERSION = 2
"""Goes up when the key of any puzzle changes; that of a full grid has the same."""


def structure_key(puzzle: Puzzle) -> str:
    """Return a key that is equal for puzzles that are the same one in disguise, and for no others.

    Parameters
    ----------
    puzzle : Puzzle
        Any puzzle; its cages may lie in pieces, and its houses may be any cells.

    Returns
    -------
    str
        ``structure:2:`` and a hash of the canonical form. Credits and the claimed solution make no
        difference.

    Notes
    -----
    The puzzle is drawn as a graph: a corner for each cell, house and cage, and for each digit where all
    digits can be renamed; an edge where a cell lies in a house or a cage, or holds a given digit. Colours
    tell the kinds of corners apart, cages also by their totals, given cells by their digits where these
    have no corners. The graph of the usual grid has no symmetries but those of the grid, so two puzzles are
    the same in disguise where their graphs differ in the numbering alone. What the colours stand for goes
    into the key as well.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.cage import Cage
    >>> grid = Grid.square(4)
    >>> one = make_puzzle("killer", grid, cages=[Cage((0, 1), 3), Cage((2, 6), 5)])
    >>> other = make_puzzle("killer", grid, cages=[Cage((4, 5), 3), Cage((2, 6), 5)])  # rows 1 and 2 changed
    >>> third = make_puzzle("killer", grid, cages=[Cage((0, 1), 3), Cage((6, 10), 5)])
    >>> structure_key(one) == structure_key(other), structure_key(one) == structure_key(third)
    (True, False)
    """
    named = not _any_digits(puzzle)
    graphs = [_graph(form, named) for form in forms(puzzle)]
    meanings = [tuple(sorted(Counter(labels).items())) for labels, _ in graphs]
    least = min(meanings)  # only where both say the same must both graphs be looked at
    number = {label: place for place, (label, _) in enumerate(least)}
    images = [
        canonical_image(ColouredGraph.of([number[label] for label in labels], edges))
        for (labels, edges), meaning in zip(graphs, meanings, strict=True)
        if meaning == least
    ]
    return hashed("structure", (puzzle.grid.digits, least, min(images)))


def _any_digits(puzzle: Puzzle) -> bool:
    """Whether the digits may be renamed in any way and no rule becomes another: two ways make all others."""
    digits = tuple(puzzle.grid.all_digits)
    ways = ((0, 2, 1, *digits[2:]), (0, *digits[1:], 1))
    rules = [rule for rule in puzzle.rules if type(rule) is not Given]
    return all(rule.relabelled(way) == rule for rule in rules for way in ways)


def hashed(name: str, canonical: object) -> str:
    """Return a key: a name, a version, and a hash of what is equal for all that are the same."""
    return f"{name}:{STRUCTURE_VERSION}:{hashlib.sha256(repr(canonical).encode()).hexdigest()[:32]}"


def _graph(puzzle: Puzzle, named: bool) -> tuple[list[Label], list[tuple[int, int]]]:
    """Return what each corner is, and the edges. Digits are corners unless they are `named`."""
    grid, given = puzzle.grid, dict(puzzle.givens) if named else {}
    labels: list[Label] = [("cell", given.get(cell, 0)) for cell in range(grid.cell_count)]
    for cell in grid.blocked:
        labels[cell] = ("blocked", 0)
    edges = []
    for rule in puzzle.rules:
        first = len(labels)
        for label, cells in CORNERS[type(rule)](rule):
            edges += [(len(labels), cell) for cell in cells]
            edges += [(len(labels), first)] if len(labels) > first else []
            labels.append(label)
    if not named:
        edges += [(len(labels) + digit - 1, cell) for cell, digit in puzzle.givens]
        labels += [("digit", 0)] * grid.digits
    return labels, edges
