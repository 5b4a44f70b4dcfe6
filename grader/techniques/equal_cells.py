"""Equal cells: two cells far apart that the rule of 45 makes the same digit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import reduce
from operator import and_
from typing import NamedTuple

from grader.board.basis import Basis, joined, seen_by_all, sight, sights, step_on
from grader.board.board import Board
from grader.board.patterns import EqualCells
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.links import open_cages
from grader.reasoning.chains.needed_cells import closed_by_each
from grader.reasoning.pairs import mirrors_of
from grader.reasoning.rule_of_45 import InnieOutieSum, SumKind, simplest_sums
from verifier.puzzle.masks import bits

__all__ = ["EQUAL_CELLS"]


def find_equal_cells(board: Board) -> Iterator[Step]:
    r"""Two cells far apart that must be equal: what rules a digit out of one rules it out of the other.

    A difference of nought by the rule of 45: one innie is the same as one outie. Or one cell mirrors the
    other on a line. So each of the two is seen by all that the other is seen by. A digit of
    a house that has all its places where one of the two is seen stands in neither. If one of the two is a
    place itself, the digit goes from what sees the other one and the rest of the places. And a cell with the
    same two candidates that sees one of the two makes a naked pair with the other one::

        r1c9 is the same as r2c1    and row 5 has its 7 in r5c1 or r5c9: no 7 in r1c9 and r2c1
        r1c9 is the same as r2c1    and column 9 has its 7 in r1c9 or r3c9: no 7 in r3c1, r3c2 and r3c3
        r1c9 is the same as r2c1    3 or 7, and so is r8c9: no 3 or 7 in r8c1

    Yields
    ------
    Step
        In the order of the equal cells, those by the rule of 45 first; digits in houses, then in cages that
        are certain to hold them, then pairs. Its `focus` is the places of the digit, or the pair.

    Notes
    -----
    Sound in every solution: write x and y for the equal cells. If x holds the digit, so does y, and no cell
    that sees either does. Where all places in a house see x or y, none would be left. Where x is one of the
    places, either it holds the digit, so that y does and what sees y does not; or another place does, and
    what sees them all does not. A cell with the candidates of x and y that sees x differs from x, and so from
    y: it and y hold both digits between them.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> row_5 = ". " + "12345689 " * 7 + "."
    >>> cages = [Cage(tuple(range(7)), 36), Cage((7, 9), 9)]
    >>> steps = find_equal_cells(board_from_text(".\n.\n.\n.\n" + row_5, cages))
    >>> [(cell, list(bits(gone))) for cell, gone in next(steps).removes]
    [(8, [7]), (9, [7])]
    """
    pairs = [*_by_sums(board), *_by_mirrors(board)]
    if not pairs:
        return
    places = board.places()
    bases = _bases(board, places)
    for equal in pairs:
        for base in bases:
            if (equal.cells | base.cells) & board.fresh:
                yield from _both_lose(board, equal, base)
                yield from _seen_from_afar(board, places, equal, base)
        yield from _pairs(board, equal)


def _by_sums(board: Board) -> Iterator[_Equal]:
    """Yield the cells that the rule of 45 makes the same."""
    for left in simplest_sums(board, SumKind.BOTH_SIDES):
        one, other = left.unknown_plus, left.unknown_minus
        if one & (one - 1) or other & (other - 1) or left.rest(board):
            continue
        seen_from_one = seen_by_all(board.layout, one)
        if not seen_from_one & other:  # else they would have to differ: no solution
            seen_from_other = seen_by_all(board.layout, other)
            yield _Equal(one, other, seen_from_one, seen_from_other, left.plus | left.minus, left)


def _by_mirrors(board: Board) -> Iterator[_Equal]:
    """Yield the cells that a line makes the same, as far as one of them is empty."""
    sees = board.layout.sees
    for cell, mirrors in sorted(mirrors_of(board.layout).items()):
        for other, rule in mirrors:
            pair = 1 << cell | 1 << other
            if cell < other and pair & ~board.placed and not sees[cell] >> other & 1:
                yield _Equal(1 << cell, 1 << other, sees[cell], sees[other], pair, mirrored=rule)


class _Base(NamedTuple):
    """A digit that a house or a cage is certain to hold.

    Parameters
    ----------
    cells : int
        Mask of the cells of the house or cage.
    digit : int
        The digit.
    places : int
        Mask of the two or more cells where it is open.
    basis : Basis
        The house or the cage, and the cells that must be looked at.
    rule : int
        The number of the house or cage.
    by_cage : bool
        Whether it is a cage.
    """

    cells: int
    digit: int
    places: int
    basis: Basis
    rule: int
    by_cage: bool


def _bases(board: Board, places: Sequence[int]) -> list[_Base]:
    layout = board.layout
    bases = []
    for house, mask in enumerate(layout.house_masks):
        for digit in layout.grid.all_digits:
            found = places[digit] & mask
            if found & (found - 1):
                bases.append(
                    _Base(mask, digit, found, Basis(1 << house, mask & ~found), house, by_cage=False)
                )
    for cage in open_cages(board):
        for digit in bits(reduce(and_, cage.combinations, layout.all_digits)):
            found = places[digit] & cage.empty
            if found & (found - 1):
                bases.append(
                    _Base(layout.masks[cage.cage], digit, found, cage.basis, cage.cage, by_cage=True)
                )
    return bases


class _Equal(NamedTuple):
    """Two equal cells, as masks of one cell each.

    Parameters
    ----------
    one, other : int
        The cells.
    seen_from_one, seen_from_other : int
        Masks of what each sees.
    cells : int
        Mask of the cells of the sum, with or without a digit, or of the two.
    left : InnieOutieSum, optional
        The sum that says so.
    mirrored : int, optional
        Or the number of the line that does.
    """

    one: int
    other: int
    seen_from_one: int
    seen_from_other: int
    cells: int
    left: InnieOutieSum | None = None
    mirrored: int | None = None

    def both_ways(self) -> tuple[tuple[int, int, int, int], ...]:
        """Return one cell, the other, and what each sees; both ways about."""
        one, other, from_one, from_other = self[:4]
        return (one, other, from_one, from_other), (other, one, from_other, from_one)


def _both_lose(board: Board, equal: _Equal, base: _Base) -> Iterator[Step]:
    """Yield the removal of a digit from both cells, if each of its places sees the one or the other."""
    from_one, from_other = base.places & equal.seen_from_one, base.places & equal.seen_from_other
    if base.places & ~(from_one | from_other) or base.places in (from_one, from_other):
        return  # a cell that sees all the places needs no other that is equal to it
    removes = board.removable(1 << base.digit, bits(equal.one | equal.other))
    if removes:
        layout, digit = board.layout, base.digit
        links = sight(layout, equal.one, from_one)
        links = joined([links, sight(layout, equal.other, base.places & ~from_one, links.rules)])
        closed = 0
        for cell in bits(equal.one | equal.other):  # if the digit stood in one, it would stand in both
            closed |= closed_by_each(layout, [(cell, 1 << digit)], digit, links)
        yield _on_places("seen", equal, base, links, removes, closed)


def _seen_from_afar(board: Board, places: Sequence[int], equal: _Equal, base: _Base) -> Iterator[Step]:
    """Yield the removal of a digit from what sees the equal cell of one of its places, and all the rest."""
    for near, far, seen_from_near, seen_from_far in equal.both_ways():
        rest = base.places & ~near
        if rest == base.places:
            continue
        gone = places[base.digit] & seen_by_all(board.layout, rest) & seen_from_far & ~seen_from_near & ~near
        if gone:
            links = sights(
                board.layout, Basis(), [(1 << cell, part) for cell in bits(gone) for part in (rest, far)]
            )
            removes = tuple((cell, 1 << base.digit) for cell in bits(gone))
            closed = closed_by_each(board.layout, removes, base.digit, links)
            yield _on_places("place", equal, base, links, removes, closed)


def _on_places(
    how: str, equal: _Equal, base: _Base, links: Basis, removes: tuple[tuple[int, int], ...], closed: int
) -> Step:
    """Return a step that rests on the places of a digit; `closed` is where it cannot stand anyway."""
    # That a cage holds the digit rests on all that is open in it, not on this digit alone.
    basis = base.basis._replace(looks=base.basis.looks & ~(0 if base.by_cage else closed))
    step = step_on(
        "equal-cells", joined([basis, links]), removes, focus=bits(base.places), digits=1 << base.digit
    )
    return _why_equal(step, equal, EqualCells(how, base.rule))


def _pairs(board: Board, equal: _Equal) -> Iterator[Step]:
    """Yield what a cell with the two candidates of the equal cells removes together with the farther one."""
    for near, far, seen_from_near, seen_from_far in equal.both_ways():
        digits = board.candidates[far.bit_length() - 1]
        if digits.bit_count() != 2:
            continue
        for cell in bits(seen_from_near & ~seen_from_far & ~board.placed):
            is_fresh = (1 << cell | equal.cells) & board.fresh
            if board.candidates[cell] != digits or not is_fresh:
                continue
            removes = board.removable(digits, bits(board.layout.sees[cell] & seen_from_far & ~seen_from_near))
            if removes:
                pairs = [(near, 1 << cell)]
                pairs += [(1 << gone, end) for gone, _ in removes for end in (1 << cell, far)]
                basis = sights(board.layout, Basis(looks=far | 1 << cell), pairs)
                focus = bits(far | 1 << cell)
                step = step_on("equal-cells", basis, removes, focus=focus, digits=digits)
                yield _why_equal(step, equal, EqualCells("pair"))


def _why_equal(step: Step, equal: _Equal, pattern: EqualCells) -> Step:
    """Return a step of a pattern that rests on the sum as well, and on the digits in it, or on the line."""
    if equal.left is None:
        rules = () if equal.mirrored is None else (equal.mirrored,)
        pair = tuple(bits(equal.cells))
        mirrored = pattern._replace(mirrored=pair, line=equal.mirrored)
        return replace(step, rules=tuple(sorted({*step.rules, *rules})), pattern=mirrored)
    known = bits(equal.cells & ~(equal.one | equal.other))
    looks = tuple(sorted({*step.looks, *known}))
    return replace(step, sums=(equal.left.derived(),), looks=looks, pattern=pattern)


EQUAL_CELLS = Technique("equal-cells", "equal cells", find_equal_cells, source="Own derivation.")
