"""What a picture points at: the premises of a step, what it removes and places, the links of its chain.

Every kind has a shape of its own - a hatching, a frame, a stroke, a sign - so that a picture can be read
without colour.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace
from itertools import pairwise, product
from math import dist

from grader.board.steps import Step
from verifier.pages.drawing.arrows import Link, Way, arrows
from verifier.pages.drawing.figure import marks_in
from verifier.pages.drawing.look import CELL
from verifier.pages.drawing.outlines import Point
from verifier.puzzle.masks import bits
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.spoken_rules import NOT_SEEN

__all__ = ["NOTHING", "Highlight", "clues_among", "highlight_of"]


@dataclass(frozen=True, slots=True)
class Highlight:
    """What a picture points at. Cells, houses and cages are spoken of by number.

    Parameters
    ----------
    houses, cages : tuple of int
        Premises; the cages, by their place after the houses, are whatever is drawn: clues, too.
    sights : tuple of int
        Houses, too: those in which cells see each other, beside the ones that are added up.
    looks : tuple of int
        Cells whose open digits a step rests on.
    focus : tuple of int
        The cells of the pattern itself, or those that a repair changes.
    swings : tuple of int
        Cells that differ between solutions.
    signs : tuple of (int, str)
        Cells of a derived sum with the sign of their weight, ``+`` or ``-``.
    gone, placed : tuple of (int, int)
        Pairs of cell and digit: candidates that go, digits that are written in.
    nodes : tuple of (int, int, bool)
        Candidates of a chain: cell, digit, and whether it is right if the first one is wrong.
    links : tuple of Link
        What leads from one node to the next.
    """

    houses: tuple[int, ...] = ()
    sights: tuple[int, ...] = ()
    cages: tuple[int, ...] = ()
    looks: tuple[int, ...] = ()
    focus: tuple[int, ...] = ()
    swings: tuple[int, ...] = ()
    signs: tuple[tuple[int, str], ...] = ()
    gone: tuple[tuple[int, int], ...] = ()
    placed: tuple[tuple[int, int], ...] = ()
    nodes: tuple[tuple[int, int, bool], ...] = ()
    links: tuple[Link, ...] = ()

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of thing that the picture points at, in the order in which a key names them."""
        return tuple(field.name for field in fields(self) if getattr(self, field.name))


_TOUCHING = 2.2
"""Candidates nearer than this, in sizes of their type, stand side by side in a cell: an arrow has no room."""

NOTHING = Highlight()
"""Points at nothing."""


def highlight_of(step: Step, puzzle: Puzzle) -> Highlight:
    """Return what the picture of a step points at.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4))
    >>> step = Step("naked-pair", removes=((2, 0b110),), rules=(0,), looks=(0, 1), focus=(0, 1))
    >>> highlight_of(step, puzzle).gone, highlight_of(step, puzzle).kinds
    (((2, 1), (2, 2)), ('houses', 'looks', 'focus', 'gone'))
    """
    removed = tuple((cell, digit) for cell, gone in step.removes for digit in bits(gone))
    acted_on = {cell for cell, _ in (*step.places, *removed)}
    first_cage = len(puzzle.full_houses)
    summed = [rule for derived in step.sums for rule in derived.rules]
    houses, added_up = (_once(r for r in rules if r < first_cage) for rules in (step.rules, summed))
    pattern = Highlight(
        houses=added_up or houses,
        sights=tuple(house for house in houses if added_up and house not in added_up),
        cages=clues_among((*step.rules, *summed), puzzle),
        looks=step.looks,
        focus=tuple(cell for cell in step.focus if cell not in acted_on),
        signs=_signs(step),
        gone=removed,
        placed=step.places,
    )
    return _with_chain(pattern, step, puzzle) if step.chain else pattern


def clues_among(premises: Iterable[int], puzzle: Puzzle) -> tuple[int, ...]:
    """Return the premises that are drawn and no houses, by their place after these: cages and clues."""
    first = len(puzzle.full_houses)
    return _once(r - first for r in premises if r >= first and puzzle.premises[r].word not in NOT_SEEN)


def _once(numbers: Iterable[int]) -> tuple[int, ...]:
    return tuple(dict.fromkeys(numbers))


def _signs(step: Step) -> tuple[tuple[int, str], ...]:
    weights = dict(pair for derived in step.sums for pair in derived.linear.weights)
    return tuple((cell, _sign(weight)) for cell, weight in sorted(weights.items()))


def _sign(weight: int) -> str:
    """Return a weight as people write it before a number.

    Examples
    --------
    >>> _sign(1), _sign(-1), _sign(-2)
    ('+', '-', '-2')
    """
    sign = "-" if weight < 0 else "+"
    return sign if abs(weight) == 1 else f"{sign}{abs(weight)}"


def _with_chain(pattern: Highlight, step: Step, puzzle: Puzzle) -> Highlight:
    marks = marks_in(puzzle)

    def spot(cell: int, digit: int) -> Point:
        row, column = divmod(cell, puzzle.grid.columns)
        return column * CELL + marks.places[digit][0], row * CELL + marks.places[digit][1]

    spots = [[spot(cell, digit) for cell in cells] for cells, digit in step.chain]
    ways = []
    for number, (ones, others) in enumerate(pairwise(spots)):
        one, other = min(product(ones, others), key=lambda ends: dist(*ends))
        if dist(one, other) > _TOUCHING * marks.face.size:
            ways.append(Way(one, other, strong=number % 2 == 0))
    links = arrows(ways, [spot for group in spots for spot in group], marks.face.size)
    nodes = [
        (cell, digit, number % 2 == 1) for number, (cells, digit) in enumerate(step.chain) for cell in cells
    ]
    return replace(pattern, nodes=tuple(dict.fromkeys(nodes)), links=links, focus=())
