"""Cages of one house taken together: their combinations must share the house's digits out."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache, reduce
from operator import or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.combinations import LISTED_AT_MOST, how_many, open_combinations, rest_of_cage

__all__ = ["HOUSE_COMBINATIONS"]


def find_house_combinations(board: Board) -> Iterator[Step]:
    """Cages of one house share its digits out: combinations that do not fit together are out.

    Each digit of the house goes to one cage or to one of the cells left over. A combination that leaves
    no combination to another cage, or nothing to a cell left over, is out::

        row 1, cages of 5 and 8    before  1234 1234 135 345    after  14 14 35 35
                                           5 is 14 or 23, but 8 is 35 here and needs the 3

    Yields
    ------
    Step
        In the order of the houses; one step for all that goes from a house.

    Notes
    -----
    Sound in every solution: the empty parts of cages that lie inside the house hold combinations without a
    common digit, and the other empty cells of the house hold the rest. All ways to share the digits out are
    tried.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import bits
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("1234 1234 135 345", [Cage((0, 1), 5), Cage((2, 3), 8)])
    >>> step = next(find_house_combinations(board))
    >>> [(cell, list(bits(gone))) for cell, gone in step.removes[:4]]
    [(0, [2, 3]), (1, [2, 3]), (2, [1]), (3, [4])]
    """
    for house in board.fresh_houses():
        yield from _in_house(board, house)


def _in_house(board: Board, house: int) -> Iterator[Step]:
    layout, candidates = board.layout, board.candidates
    empty = layout.house_masks[house] & ~board.placed
    cages, options, parts = _cages_inside(board, empty)
    if len(cages) < 2 or all(len(option) == 1 for option in options):
        return
    left_over = [c for c in layout.houses[house].cells if empty >> c & 1 and not any(c in p for p in parts)]
    digits = layout.all_digits
    for cell in layout.houses[house].cells:
        if board.placed >> cell & 1:
            digits &= ~candidates[cell]
    kept, rest = _shared_out(tuple(options), tuple(candidates[c] for c in left_over), digits)
    removes = list(board.removable(~rest, left_over))
    for part, combinations in zip(parts, kept, strict=True):
        removes += board.removable(~reduce(or_, combinations, 0), part)
    if removes:
        looks = set(layout.houses[house].cells).union(*(layout.rules[cage].cells for cage in cages))
        yield Step(
            "house-combinations",
            removes=tuple(sorted(removes)),
            rules=(house, *cages),
            looks=tuple(sorted(looks)),
            focus=tuple(sorted(cell for part in parts for cell in part)),
            digits=reduce(or_, (gone for _, gone in removes)),
        )


def _cages_inside(board: Board, empty: int) -> tuple[list[int], list[tuple[int, ...]], list[list[int]]]:
    """Return the cages whose empty cells lie among `empty`, their open combinations, and those cells."""
    layout, digits = board.layout, board.layout.grid.digits
    cages: list[int] = []
    options: list[tuple[int, ...]] = []
    parts: list[list[int]] = []
    for cage, mask in layout.cage_masks:
        unknown = mask & ~board.placed
        if not unknown or unknown & ~empty or not unknown & (unknown - 1):
            continue
        cells, total, _ = rest_of_cage(board, cage)
        if how_many(total, len(cells), digits) <= LISTED_AT_MOST:
            cages.append(cage)
            options.append(open_combinations(tuple(board.candidates[c] for c in cells), total, digits))
            parts.append(cells)
    return cages, options, parts


@lru_cache(maxsize=1 << 14)
def _shared_out(
    options: tuple[tuple[int, ...], ...], left_over: tuple[int, ...], digits: int
) -> tuple[tuple[frozenset[int], ...], int]:
    """Return the combinations, cage by cage, and the digits left over, of every way to share `digits` out."""
    kept: list[set[int]] = [set() for _ in options]
    reachable = reduce(or_, left_over, 0)
    rests = 0
    known: dict[tuple[int, int], bool] = {}

    def share(cage: int, free: int) -> bool:
        nonlocal rests
        if cage == len(options):
            fits = not free & ~reachable and all(mask & free for mask in left_over)
            rests |= free if fits else 0
            return fits
        if (cage, free) not in known:
            known[cage, free] = False
            for combination in options[cage]:
                if not combination & ~free and share(cage + 1, free & ~combination):
                    kept[cage].add(combination)
                    known[cage, free] = True
        return known[cage, free]

    share(0, digits)
    return tuple(frozenset(combinations) for combinations in kept), rests


HOUSE_COMBINATIONS = Technique(
    "house-combinations",
    "combinations of several cages of a house",
    find_house_combinations,
    source="Own derivation: the open combinations of all the cages are gone through.",
)
