"""Combinations that are open in their cage, but not beside the houses and cages around it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import reduce
from operator import and_, or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.combinations import (
    LISTED_AT_MOST,
    combinations_by_total,
    how_many,
    open_combinations,
    open_digits,
    rest_of_cage,
)
from verifier.puzzle.masks import bits, digits_of, mask_of

__all__ = ["CAGE_CONFLICTS", "HIDDEN_CAGE_DIGITS"]


def find_hidden_cage_digits(board: Board) -> Iterator[Step]:
    """A cage holds each digit that a house has no other place for.

    All places that a house has left for the digit lie in the cage. So the cage holds it, and every
    combination without it is out. Two or three such digits are a hidden pair or triple of the cage::

        cage of 10 in r1c1 r1c2, no other place for 7 in row 1    before  1346789 1346789    after  37 37

    Yields
    ------
    Step
        In the order of the cages; all such digits of a cage together.

    Notes
    -----
    Sound in every solution: the digit stands in the house, hence in the cage.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> row = "1346789 1346789 . . . . . . .".replace(".", "12345689")
    >>> step, = find_hidden_cage_digits(board_from_text(row, [Cage((0, 1), 10)]))
    >>> [(cell, list(bits(gone))) for cell, gone in step.removes]
    [(0, [1, 4, 6, 8, 9]), (1, [1, 4, 6, 8, 9])]
    """
    layout, candidates = board.layout, board.candidates
    for cage, held in sorted(_held(board).items()):
        cells, total, _ = rest_of_cage(board, cage)
        if how_many(total, len(cells), layout.grid.digits) > LISTED_AT_MOST:
            continue
        found = open_combinations(tuple(candidates[cell] for cell in cells), total, layout.grid.digits)
        certain = reduce(and_, found, layout.all_digits)
        needed = mask_of(held) & ~certain
        kept = [combination for combination in found if combination & needed == needed]
        removes = board.removable(~reduce(or_, kept, 0), cells) if needed else ()
        if removes:
            houses = sorted({held[digit] for digit in bits(needed)})
            looks = {cell for house in houses for cell in layout.houses[house].cells}.difference(cells)
            by_total = [found for found in combinations_by_total(board, cage) if found & needed == needed]
            at_once = board.removable(~reduce(or_, by_total, 0), cells) == removes
            looks.update(
                set(layout.rules[cage].cells).difference(cells) if at_once else layout.rules[cage].cells
            )
            yield Step(
                "hidden-cage-digits",
                removes=removes,
                rules=(*houses, cage),
                looks=tuple(sorted(looks)),
                focus=tuple(cells),
                digits=needed,
            )


def _held(board: Board) -> dict[int, dict[int, int]]:
    """Return, for each cage, the digits that some house can place only there, each with that house."""
    layout, places = board.layout, board.places()
    found: dict[int, dict[int, int]] = {}
    for house, mask in enumerate(layout.house_masks):
        for digit in layout.grid.all_digits:
            left = places[digit] & mask & ~board.placed
            if left & (left - 1):
                for cage in layout.cages_of[left.bit_length() - 1]:
                    if not left & ~layout.masks[cage]:
                        found.setdefault(cage, {}).setdefault(digit, house)
    return found


@dataclass(frozen=True, slots=True, eq=False)
class _Rest:
    """What is left to fill in a cage, and which of its combinations are open."""

    cage: int
    cells: list[int]
    total: int
    combinations: tuple[int, ...]


def find_cage_conflicts(board: Board) -> Iterator[Step]:
    """A combination of a cage is out if it leaves none to another cage that it sees.

    With the combination in place its digits go from the cells of the other cage that see all their
    places. If no combination of the other cage is left then, this one is out::

        cages of 5 and 8 in row 1    before  1234 1234 14 4567    after  23 23 14 4567
                                             8 is 1 + 7 here, so 5 is not 1 + 4

    Yields
    ------
    Step
        In the order of the cages; one step for each pair of cages.

    Notes
    -----
    Sound in every solution: both cages hold an open combination at once.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("1234 1234 14 4567", [Cage((0, 1), 5), Cage((2, 3), 8)])
    >>> step = next(find_cage_conflicts(board))
    >>> [(cell, list(bits(gone))) for cell, gone in step.removes]
    [(0, [1, 4]), (1, [1, 4])]
    """
    layout = board.layout
    rests = _rests(board)
    around = {rest.cage: reduce(or_, (layout.sees[cell] for cell in rest.cells)) for rest in rests}
    for rest in rests:
        if len(rest.combinations) < 2:
            continue
        seen = _seen(board, rest)
        for other in rests:
            mask = layout.masks[other.cage]
            if other is rest or not mask & around[rest.cage]:
                continue
            if (layout.masks[rest.cage] | mask) & board.fresh:
                yield from _conflict(board, rest, other, seen)


def _rests(board: Board) -> list[_Rest]:
    digits, found = board.layout.grid.digits, []
    for cage, mask in board.layout.cage_masks:
        left = mask & ~board.placed
        if left & (left - 1):
            cells, total, _ = rest_of_cage(board, cage)
            if how_many(total, len(cells), digits) <= LISTED_AT_MOST:
                masks = tuple(board.candidates[cell] for cell in cells)
                found.append(_Rest(cage, cells, total, open_combinations(masks, total, digits)))
    return found


def _seen(board: Board, rest: _Rest) -> dict[int, int]:
    """Return, for each digit of a cage's combinations, the mask of the cells that see all its places."""
    candidates, sees = board.candidates, board.layout.sees
    seen = {}
    for digit in digits_of(reduce(or_, rest.combinations)):
        seen[digit] = reduce(and_, [sees[cell] for cell in rest.cells if candidates[cell] >> digit & 1])
    return seen


def _conflict(board: Board, rest: _Rest, other: _Rest, seen: Mapping[int, int]) -> Iterator[Step]:
    """Yield what goes from one cage since its combinations leave nothing to the other.

    `seen` is, for each digit of the one, the mask of the cells that see all its places there.
    """
    candidates, layout = board.candidates, board.layout
    held = reduce(or_, [candidates[cell] for cell in other.cells])
    taken = {}
    for digit, cells in seen.items():
        if held >> digit & 1:
            taken[digit] = [place for place, cell in enumerate(other.cells) if cells >> cell & 1]
    if not any(taken.values()):
        return
    kept = out = 0
    for combination in rest.combinations:
        masks = [candidates[cell] for cell in other.cells]
        for digit in digits_of(combination & held):
            for place in taken[digit]:
                masks[place] &= ~(1 << digit)
        if open_digits(tuple(masks), other.total, layout.grid.digits):
            kept |= combination
        else:
            out |= combination
    removes = board.removable(out & ~kept, rest.cells)
    if removes:
        between = {
            rule
            for digit, places in taken.items()
            if out >> digit & 1
            for place in places
            for cell in rest.cells
            if candidates[cell] >> digit & 1
            for rule in layout.link(cell, other.cells[place])
        }
        looks = sorted({*layout.rules[rest.cage].cells, *layout.rules[other.cage].cells})
        yield Step(
            "cage-conflicts",
            removes=removes,
            rules=(*sorted(between - {rest.cage, other.cage}), rest.cage, other.cage),
            looks=tuple(looks),
            focus=tuple(rest.cells),
            digits=reduce(or_, (gone for _, gone in removes)),
        )


HIDDEN_CAGE_DIGITS = Technique("hidden-cage-digits", "hidden digits of a cage", find_hidden_cage_digits)
CAGE_CONFLICTS = Technique("cage-conflicts", "conflicting cages", find_cage_conflicts)
