"""Lines and boxes of any shape that nearly cover each other: what sticks out holds what is left."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from grader.board.layout import Layout

__all__ = ["LEFT_OVER_AT_MOST", "Leftover", "leftovers"]

LEFT_OVER_AT_MOST = 4
"""A person compares no more cells with as many others."""
_HOUSES_AT_MOST = 4
"""A person holds no more lines against as many boxes."""


class Leftover(NamedTuple):
    """As many boxes as lines, and the cells that they do not share.

    Parameters
    ----------
    lines, boxes : tuple of int
        Their numbers; the lines lie side by side.
    beyond, within : int
        Masks of the cells that stick out of the lines, and of those that the boxes leave in them: as many,
        and together with the same digits.
    """

    lines: tuple[int, ...]
    boxes: tuple[int, ...]
    beyond: int
    within: int


@lru_cache(maxsize=8)
def leftovers(layout: Layout) -> tuple[Leftover, ...]:
    """Return what lines and boxes leave of each other, few cells first; none where boxes are of one shape.

    Of several that compare the same cells, the one with the fewest houses is kept.

    Notes
    -----
    Own derivation. So many lines hold each digit so often, and as many boxes hold it as often. Take away the
    cells that both hold: what is left of the lines has each digit as often as what is left of the boxes.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import bits
    >>> from verifier.puzzle.rules.house import House
    >>> maps = (0, 1, 2, 4), (3, 6, 7, 11), (5, 8, 9, 12), (10, 13, 14, 15)
    >>> boxes = tuple(House("box", number, cells) for number, cells in enumerate(maps, 1))
    >>> layout = board_from_text("", size=4, houses=boxes).layout
    >>> [(list(bits(left.within)), list(bits(left.beyond))) for left in leftovers(layout)][0]
    ([3], [4])
    """
    if layout.grid.box_rows:
        return ()
    found: dict[tuple[int, int], Leftover] = {}
    for count in range(1, min(_HOUSES_AT_MOST, layout.grid.digits // 2) + 1):
        for kind in ("row", "column"):
            for left in _of_lines(layout, kind, count):
                found.setdefault((min(left[2:]), max(left[2:])), left)
    return tuple(sorted(found.values(), key=lambda left: (left.beyond.bit_count(), len(left.lines))))


def _of_lines(layout: Layout, kind: str, count: int) -> Iterator[Leftover]:
    """Yield what each group of lines side by side and as many boxes leave of each other."""
    masks = layout.house_masks
    lines = [number for number, house in enumerate(layout.houses) if house.kind == kind]
    boxes = [number for number, house in enumerate(layout.houses) if house.kind == "box"]
    for first in range(len(lines) - count + 1):
        chosen = tuple(lines[first : first + count])
        inside = sum(masks[line] for line in chosen)
        near = [box for box in boxes if (masks[box] & ~inside).bit_count() <= LEFT_OVER_AT_MOST]
        for some in combinations(near, count):
            covered = sum(masks[box] for box in some)
            beyond, within = covered & ~inside, inside & ~covered
            if 0 < beyond.bit_count() <= LEFT_OVER_AT_MOST:
                yield Leftover(chosen, some, beyond, within)
