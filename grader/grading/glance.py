"""What is open at a glance: how many singles a board shows, and how many when each digit is followed up.

To look at all houses at once, the board is read as one whole number in which each cell has a field of bits
of its own, bit ``d`` of the field standing for digit ``d``. Laid over itself so that the cells of each box
come to lie on one another, that number tells which digits are open in just one cell of their box; the same
with rows and columns, and with the stretches that a line and a box share. A puzzle whose houses are others is
looked at house by house.
"""

from __future__ import annotations

import struct
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import cycle

from grader.board.board import Board
from grader.board.layout import Layout
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import bits

__all__ = ["Glance", "Onlooker", "glance", "hidden_singles"]


@dataclass(frozen=True, slots=True)
class Glance:
    """How many places a board shows.

    Parameters
    ----------
    in_boxes : int
        Hidden singles in boxes, the last cell of a box among them.
    followed : int
        Further places found when each digit, without regard to the others, is followed through the grid as
        far as its hidden singles and locked candidates lead: hidden singles in lines and what comes then.
    naked : int
        Cells without a digit that have one candidate left.
    """

    in_boxes: int
    followed: int
    naked: int


def glance(board: Board) -> Glance:
    """Count what a board shows, by its houses; cages play no part.

    Examples
    --------
    The 3 is the one candidate of r1c3, and has no other place in its row: so it goes from the rest of
    the box, and shows there when it is followed up.

    >>> from grader.board.board import board_from_text
    >>> glance(board_from_text("1 2 . 4", size=4))
    Glance(in_boxes=0, followed=1, naked=1)
    """
    return Onlooker()(board)


class Onlooker:
    """Looks at the boards of one way through a puzzle, one after the other, as `glance` does.

    What has gone where a digit was followed on one board stays gone on those that come after it, for these
    have the same candidates or fewer. So following goes on from where it got to.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> look = Onlooker()
    >>> look(board_from_text("1 2 . .", size=4)), look(board_from_text("1 2 . 4", size=4))
    (Glance(in_boxes=0, followed=0, naked=0), Glance(in_boxes=0, followed=1, naked=1))
    """

    def __init__(self) -> None:
        self._followed = -1  # every bit: nothing has gone yet
        self._followed_each: list[int] | None = None  # the same, digit by digit

    def __call__(self, board: Board) -> Glance:
        """Return what a board shows; it must come after those looked at before."""
        if not _is_usual(board.layout):
            return self._house_by_house(board)
        shape = _shape(board.layout.grid)
        open_digits = shape.read(board.candidates)
        placed = board.placed.bit_count()  # each of them stands alone in its box
        in_boxes = shape.boxes.alone(open_digits).bit_count() - placed
        still_open = open_digits & self._followed
        if still_open != self._followed:
            self._followed = shape.followed(still_open)
        # A digit that has been followed to a place is alone in the box, the row and the column of that cell.
        settled = shape.boxes.alone(self._followed).bit_count() - placed
        naked = shape.single(open_digits) - placed
        return Glance(in_boxes, settled - in_boxes, naked)

    def _house_by_house(self, board: Board) -> Glance:
        """Return the same on a grid with houses of its own, of which any two that cross share a stretch."""
        layout, still_open = board.layout, ~board.placed
        boxes = [
            mask for mask, house in zip(layout.house_masks, layout.houses, strict=True) if house.kind == "box"
        ]
        places = board.places()[1:]
        followed = self._followed_each or places
        followed = [_followed(layout, here & before) for here, before in zip(places, followed, strict=True)]
        self._followed_each = followed
        in_boxes = sum((_alone(boxes, here) & still_open).bit_count() for here in places)
        settled = sum((_alone(layout.house_masks, here) & still_open).bit_count() for here in followed)
        naked = sum(
            mask.bit_count() == 1 and still_open >> cell & 1 for cell, mask in enumerate(board.candidates)
        )
        return Glance(in_boxes, settled - in_boxes, naked)


def _is_usual(layout: Layout) -> bool:
    """Whether the houses are the rows, columns and boxes of the grid, and nothing else."""
    return layout.grid.box_rows > 0 and layout.houses == layout.grid.houses


def _alone(houses: Iterable[int], places: int) -> int:
    """Return those of the places of a digit that are the only ones in one of the houses."""
    alone = 0
    for mask in houses:
        found = places & mask
        if not found & (found - 1):
            alone |= found
    return alone


def _followed(layout: Layout, places: int) -> int:
    """Return the places of a digit when its hidden singles and locked candidates have been followed."""
    masks, before = layout.house_masks, 0
    while places != before:
        before = places
        for mask in masks:
            found = places & mask
            if found:
                for other in layout.houses_of[found.bit_length() - 1]:
                    if not found & ~masks[other]:
                        places &= ~masks[other] | found
    return places


def hidden_singles(board: Board) -> tuple[tuple[int, int], ...]:
    """Return every hidden single of a board, in any house, as pairs of cell and digit.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> hidden_singles(board_from_text("1 2 . 4", size=4))
    ((2, 3),)
    """
    if not _is_usual(board.layout):
        alone = [_alone(board.layout.house_masks, here) & ~board.placed for here in board.places()]
        return tuple(sorted((cell, digit) for digit, cells in enumerate(alone) for cell in bits(cells)))
    shape = _shape(board.layout.grid)
    open_digits = shape.read(board.candidates)
    singles = 0
    for house in shape.houses:
        singles |= house.spread(house.alone(open_digits))
    singles &= open_digits & ~shape.fields_of(board.placed)
    return tuple(divmod(bit, shape.field) for bit in bits(singles))


@dataclass(frozen=True, slots=True)
class _Pile:
    """Fields to lay on one another, the same all over the grid: the cells of each row, say.

    `offsets` says how many bits each field of a pile lies behind the first; `firsts` is the mask of the
    fields that are the first of their pile.
    """

    offsets: tuple[int, ...]
    firsts: int

    def alone(self, number: int) -> int:
        """Return the digits that just one field of a pile has, in the pile's first field."""
        once = twice = 0
        for offset in self.offsets:
            field = number >> offset & self.firsts
            twice |= once & field
            once |= field
        return once & ~twice

    def union(self, number: int) -> int:
        """Return the digits that any field of a pile has, in the pile's first field."""
        union = 0
        for offset in self.offsets:
            union |= number >> offset
        return union & self.firsts

    def spread(self, number: int) -> int:
        """Return what is in the first field of each pile, in all its fields."""
        spread = 0
        for offset in self.offsets:
            spread |= number << offset
        return spread


@dataclass(frozen=True, slots=True)
class _Crossing:
    """The stretches that lines of one direction share with boxes.

    `cells` are the cells of each stretch, `lines` the stretches of each line, `boxes` those of each box.
    """

    cells: _Pile
    lines: _Pile
    boxes: _Pile

    def ruled_out(self, number: int) -> int:
        """Return the digits that hidden singles and locked candidates rule out.

        A digit that one stretch alone has in its box goes from the other stretches of the line, and the
        other way round.
        """
        stretches = self.cells.union(number)
        gone = 0
        for here, there in ((self.boxes, self.lines), (self.lines, self.boxes)):
            bound = stretches & here.spread(here.alone(stretches))
            gone |= there.spread(there.union(bound)) & ~bound
        gone &= stretches
        return self.cells.spread(gone) if gone else 0


@dataclass(frozen=True, slots=True)
class _Shape:
    """All piles of a grid.

    `field` is the width of a cell's field, whose highest bit stands for no digit; `ones` has the lowest bit
    of each field. `layout` is that of the number in memory, and `bytewise` the fields of the cells that a
    byte of a mask of cells stands for.
    """

    field: int
    ones: int
    layout: struct.Struct
    bytewise: tuple[int, ...]
    boxes: _Pile
    houses: tuple[_Pile, ...]
    crossings: tuple[_Crossing, ...]

    def read(self, candidates: Sequence[int]) -> int:
        """Return the candidates of all cells as one number."""
        return int.from_bytes(self.layout.pack(*candidates), "little")

    def single(self, number: int) -> int:
        """Return how many fields have just one digit."""
        highest = self.ones << self.field - 1
        filled = self._filled(number)
        # To take 1 from a field clears its lowest digit and fills what is below; an empty one would borrow.
        several = self._filled(number & (number + ((highest ^ filled) >> self.field - 1) - self.ones))
        return (filled & ~several).bit_count()

    def _filled(self, number: int) -> int:
        """Return the highest bit of each field that has a digit."""
        highest = self.ones << self.field - 1
        return (number + (highest - self.ones)) & highest

    def fields_of(self, cells: int) -> int:
        """Return all bits of the fields of some cells."""
        fields, width = 0, 8 * self.field
        for place, byte in enumerate(cells.to_bytes((cells.bit_length() + 7) // 8, "little")):
            fields |= self.bytewise[byte] << place * width
        return fields

    def followed(self, number: int) -> int:
        """Return the same board when each digit by itself has been followed as far as it leads."""
        idle = 0  # looks in a row, each in the other direction, that ruled nothing out
        for crossing in cycle(self.crossings):
            gone = crossing.ruled_out(number)
            idle = 0 if gone else idle + 1
            if idle == len(self.crossings):
                break
            number &= ~gone
        return number


@lru_cache(maxsize=32)
def _shape(grid: Grid) -> _Shape:
    field, code = (16, "H") if grid.digits < 15 else (32, "I")
    size, height, width = grid.columns, grid.box_rows, grid.box_columns

    def pile(offsets: Iterable[int], rows: int, columns: int) -> _Pile:
        """Fields so many cells behind the first; a first one every so many rows and columns."""
        firsts = 0
        for row in range(0, grid.rows, rows):
            for column in range(0, size, columns):
                firsts |= (1 << field) - 1 << field * (row * size + column)
        return _Pile(tuple(field * offset for offset in offsets), firsts)

    boxes = pile((row * size + column for row in range(height) for column in range(width)), height, width)
    rows = pile(range(size), 1, size)
    columns = pile(range(0, grid.cell_count, size), grid.rows, 1)
    across = _Crossing(
        cells=pile(range(width), 1, width),
        lines=pile(range(0, size, width), 1, size),
        boxes=pile(range(0, height * size, size), height, width),
    )
    down = _Crossing(
        cells=pile(range(0, height * size, size), height, 1),
        lines=pile(range(0, grid.cell_count, height * size), grid.rows, 1),
        boxes=pile(range(width), height, width),
    )
    whole = (1 << field) - 1
    return _Shape(
        field=field,
        ones=sum(1 << field * cell for cell in range(grid.cell_count)),
        layout=struct.Struct(f"<{grid.cell_count}{code}"),
        bytewise=tuple(sum(whole << field * cell for cell in bits(byte)) for byte in range(256)),
        boxes=boxes,
        houses=(rows, columns, boxes),
        crossings=(across, down),
    )
