"""What a conclusion rests on, kept as masks while it is put together from many parts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce
from operator import and_
from typing import NamedTuple

from grader.board.layout import Layout
from grader.board.patterns import Pattern
from grader.board.steps import Step
from verifier.puzzle.masks import bits

__all__ = ["Basis", "joined", "seen_by_all", "sight", "sights", "step_on"]


class Basis(NamedTuple):
    """The premises of a `Step` before they are written out.

    Parameters
    ----------
    rules, looks : int
        Masks of the numbers of rules, and of the cells whose open digits are looked at.
    """

    rules: int = 0
    looks: int = 0

    @property
    def size(self) -> int:
        """How many premises there are, as in `Step.premise_count`."""
        return self.rules.bit_count() + self.looks.bit_count()


def joined(bases: Iterable[Basis]) -> Basis:
    """Return all premises of several bases together.

    Examples
    --------
    >>> joined([Basis(rules=0b1), Basis(rules=0b10, looks=0b1)])
    Basis(rules=3, looks=1)
    """
    rules = looks = 0
    for basis in bases:
        rules |= basis.rules
        looks |= basis.looks
    return Basis(rules, looks)


def seen_by_all(layout: Layout, cells: int) -> int:
    """Return the mask of the cells that see every one of `cells`; none of these is among them.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import mask_of
    >>> list(bits(seen_by_all(board_from_text("").layout, mask_of([0, 11]))))
    [1, 2, 9, 10, 18, 19, 20]
    """
    if not cells & (cells - 1):
        return layout.sees[cells.bit_length() - 1]
    return reduce(and_, [layout.sees[cell] for cell in bits(cells)])


def sight(layout: Layout, one: int, other: int, cited: int = 0) -> Basis:
    """Return why each cell of one mask sees each cell of another.

    Parameters
    ----------
    layout : Layout
        Houses and cages.
    one, other : int
        Masks of cells that all see each other.
    cited : int, optional
        Mask of rules that are premises anyway: houses among them are preferred.

    Returns
    -------
    Basis
        One house or else one other rule that holds all the cells; where there is none, one for each pair.
        A line is preferred to a box, so that the choice does not depend on how the grid is turned.

    Examples
    --------
    Two cells share a row and a box; where the box is cited already, it is enough.

    >>> from grader.board.board import board_from_text
    >>> layout = board_from_text("").layout
    >>> sight(layout, 0b1, 0b10).rules == 1 << 0, sight(layout, 0b1, 0b10, cited=1 << 18).rules == 1 << 18
    (True, True)
    """
    holding = _holding(layout, one | other)
    for house in holding:
        if cited >> house & 1:
            return Basis(rules=1 << house)
    if holding:
        return Basis(rules=1 << holding[0])
    for number in layout.apart_of[one.bit_length() - 1]:
        if not (one | other) & ~layout.masks[number]:
            return Basis(rules=1 << number)
    if (one | other).bit_count() == 2:
        rules = layout.link(one.bit_length() - 1, other.bit_length() - 1)
        assert rules, "the cells must see each other"
        return Basis(rules=1 << rules[0])
    return joined(sight(layout, 1 << a, 1 << b, cited) for a in bits(one) for b in bits(other))


def sights(layout: Layout, basis: Basis, pairs: Sequence[tuple[int, int]]) -> Basis:
    """Return a basis with the reasons why the two masks of each pair see each other.

    Parameters
    ----------
    layout : Layout
        Houses and cages.
    basis : Basis
        What is cited anyway.
    pairs : sequence of (int, int)
        Pairs of masks, in any order: the choice between a line and a box depends only on `basis` and on
        the pairs that have no choice.
    """
    forced = [pair for pair in pairs if len(_holding(layout, pair[0] | pair[1])) < 2]
    basis = joined([basis, *(sight(layout, *pair, basis.rules) for pair in forced)])
    return joined([basis, *(sight(layout, *pair, basis.rules) for pair in pairs)])


def step_on(
    technique: str,
    basis: Basis,
    removes: tuple[tuple[int, int], ...],
    *,
    focus: Iterable[int],
    digits: int,
    length: int = 0,
    chain: Iterable[tuple[int, int]] = (),
    pattern: Pattern | None = None,
) -> Step:
    """Return the step that removes something on a basis.

    The other fields are as in `Step`, but the nodes of a `chain` are pairs of a mask of cells and a digit.
    """
    return Step(
        technique,
        removes=removes,
        rules=tuple(bits(basis.rules)),
        looks=tuple(bits(basis.looks)),
        focus=tuple(focus),
        digits=digits,
        length=length,
        chain=tuple([(tuple(bits(cells)), digit) for cells, digit in chain]),
        pattern=pattern,
    )


def _holding(layout: Layout, cells: int) -> list[int]:
    """Return the houses that hold all of some cells, lines first."""
    first = cells.bit_length() - 1
    return [house for house in layout.houses_of[first] if not cells & ~layout.house_masks[house]]
