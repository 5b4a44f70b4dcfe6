"""The rule of 45, told: what the houses add up to, what the cages hold, what that leaves.

A sum over innies and outies is told with the digits that are known by then, as one would count at the
board: "Row 4 adds up to 45; the cages inside make 10+18 = 28, and r4c2 and r4c8 make 6+8 = 14".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import DerivedSum, Step
from grader.reasoning.combinations import rest_of_cage
from grader.words.phrases import (
    cage_in_words,
    cells_in_words,
    digits_in_words,
    houses_in_words,
    list_in_words,
)
from grader.words.wording import reason_words, sum_words
from verifier.puzzle.masks import bits

__all__ = ["rest_of_house_in_words", "sum_in_words", "what_is_left"]

_MISSING_AT_MOST = 5
"""Of a house that lacks no more digits, these are told; else its total is."""
_EACH_AT_MOST = 3
"""So many known digits are named one by one; of more only the sum is told."""


def sum_in_words(derived: DerivedSum, layout: Layout, board: Board | None = None) -> str:
    """Return the rule of 45 as evidence: everything up to what follows for a single cell.

    Parameters
    ----------
    derived : DerivedSum
        A sum over the innies and outies of its houses.
    layout : Layout
        The puzzle's layout.
    board : Board, optional
        The board on which it is told: the digits known by then are named. Without it, every cell is
        taken to be unknown.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.sums import find_rule_of_45
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("", [Cage((0, 1, 2, 3), 12), Cage((4, 5, 6), 18), Cage((7, 8, 17), 16)])
    >>> step, = find_rule_of_45(board)
    >>> sum_in_words(step.sums[0], board.layout, board)
    'row 1 adds up to 45; the cages that cover it make 12+18+16 = 46, with r2c9 the one cell outside'
    """
    houses, cages = layout.houses_among(derived.rules), layout.cages_among(derived.rules)
    if not houses:
        said = {"cage": cage_in_words(cages[0], layout), "left": what_is_left(derived, layout, board)}
        return sum_words.SUM_OF_REPEATING_CAGE.format_map(said)
    sides = _Sides.of(derived, layout, board)
    one = len(houses) == 1
    template = sum_words.SUM_WHOLE + (sum_words.SUM_CAGES[sides.cover][len(cages) == 1] if cages else "")
    return (template + sides.template).format(
        houses=houses_in_words(houses, layout),
        add="adds" if one else "add",
        them="it" if one else "them",
        whole=len(houses) * layout.grid.house_total,
        cages=_added([layout.cage(cage).total for cage in cages]),
        innies=cells_in_words(sides.innies, layout),
        outies=cells_in_words(sides.outies, layout),
        known_inside=_together(sides.known_inside, sides.known, layout),
        known_outside=_together(sides.known_outside, sides.known, layout),
        outside=_added([sides.known[cell] for cell in sides.known_outside]),
        places=cells_in_words(sides.known_outside, layout),
        stand="stands" if len(sides.known_outside) == 1 else "stand",
        known=_each(sides, layout),
        rest=abs(sides.rest),
        unknown=cells_in_words(sides.unknown, layout),
        they_take="they take" if len(cages) > 1 else "it takes",
        leave="leave" if len(cages) > 1 else "leaves",
        difference=what_is_left(derived, layout, board),
    )


@dataclass(frozen=True, slots=True)
class _Sides:
    """The cells of a sum, as they lie to its houses and as far as they are known."""

    innies: tuple[int, ...]
    outies: tuple[int, ...]
    known: Mapping[int, int]
    rest: int

    @classmethod
    def of(cls, derived: DerivedSum, layout: Layout, board: Board | None) -> _Sides:
        """Return the sides of a sum by the rule of 45."""
        mask = reduce(or_, (layout.house_masks[house] for house in layout.houses_among(derived.rules)))
        cells = derived.linear.cells
        innies = tuple(cell for cell in cells if mask >> cell & 1)
        outies = tuple(cell for cell in cells if not mask >> cell & 1)
        return cls(innies, outies, _known(derived, board), _rest(derived, board))

    @property
    def unknown(self) -> list[int]:
        """The cells without a digit."""
        return [cell for cell in sorted((*self.innies, *self.outies)) if cell not in self.known]

    @property
    def known_inside(self) -> list[int]:
        """The innies that have their digit."""
        return [cell for cell in self.innies if cell in self.known]

    @property
    def known_outside(self) -> list[int]:
        """The outies that have their digit."""
        return [cell for cell in self.outies if cell in self.known]

    @property
    def cover(self) -> str:
        """How the cages lie to the houses: inside, over all of them, or neither."""
        if not self.outies:
            return "inside"
        return "both" if self.innies else "cover"

    @property
    def template(self) -> str:
        """The template for what is left over, with what is known taken off."""
        one = len(self.unknown) == 1
        inside, outside = (
            any(cell not in self.known for cell in side) for side in (self.innies, self.outies)
        )
        if inside and outside:
            known = sum_words.SUM_BOTH_KNOWN if self.known else ""
            return sum_words.SUM_BOTH + known + sum_words.SUM_DIFFERS
        off = sum_words.SUM_OFF_OUTSIDE if self.known_outside else ""
        off += sum_words.SUM_OFF_INSIDE if self.known_inside else ""
        if inside:
            return off + ("" if one else sum_words.SUM_LEAVES)
        if one and not self.known:
            return sum_words.SUM_OUTIE
        known = sum_words.SUM_TOO_MUCH[bool(self.known_inside), bool(self.known_outside)]
        if self.known_outside:  # "outside" has been said
            return known + (sum_words.SUM_LEAVES_ONE if one else sum_words.SUM_LEAVES)
        return known + (sum_words.SUM_LEAVES_OUTSIDE if one else sum_words.SUM_OUTIES)


def rest_of_house_in_words(step: Step, board: Board) -> str:
    """Tell a house against the rests of its cages, as read from the board; empty where much is open.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.sums import find_rests_of_houses
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("4 2 9 1 . . 5 8 7", [Cage((4, 5, 14), 15)])
    >>> print(rest_of_house_in_words(next(find_rests_of_houses(board)), board))
    row 1 still needs 3 and 6, which make 9; the cage of 15 at r1c5 has 15 to go: {effect}
    """
    layout, derived = board.layout, step.sums[0]
    (house,), cages = layout.houses_among(derived.rules), layout.cages_among(derived.rules)
    missing = layout.all_digits
    for cell in bits(layout.house_masks[house] & board.placed):
        missing &= ~board.candidates[cell]
    if not cages or missing.bit_count() > _MISSING_AT_MOST:
        return ""
    rests = [
        reason_words.CAGE_TO_GO.format(cage=cage_in_words(cage, layout), rest=rest_of_cage(board, cage)[1])
        for cage in cages
    ]
    return reason_words.HOUSE_NEEDS.format(
        house=houses_in_words([house], layout),
        digits=digits_in_words(missing),
        total=sum(bits(missing)),
        rests=list_in_words(rests),
    )


def what_is_left(derived: DerivedSum, layout: Layout, board: Board | None = None) -> str:
    """Return what a sum says of its unknown cells, whatever it comes from.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.linear_sum import LinearSum
    >>> layout = board_from_text("").layout
    >>> what_is_left(DerivedSum(LinearSum(((0, 1), (1, 1)), 5), ()), layout)
    'r1c1 and r1c2 make 5'
    >>> what_is_left(DerivedSum(LinearSum(((0, 1), (9, -1)), -3), ()), layout)
    'r2c1 is 3 more than r1c1'
    """
    known = _known(derived, board)
    left = [(cell, weight) for cell, weight in derived.linear.weights if cell not in known]
    plus = [cell for cell, weight in left if weight > 0]
    minus = [cell for cell, weight in left if weight < 0]
    rest = _rest(derived, board)
    if plus and minus:
        return _difference(plus, minus, rest, layout)
    return _makes(plus or minus, str(rest if plus else -rest), layout)


def _known(derived: DerivedSum, board: Board | None) -> dict[int, int]:
    """Return the digits that stand in cells of the sum."""
    if board is None:
        return {}
    placed, candidates = board.placed, board.candidates
    return {cell: candidates[cell].bit_length() - 1 for cell in derived.linear.cells if placed >> cell & 1}


def _rest(derived: DerivedSum, board: Board | None) -> int:
    """Return what the unknown cells make."""
    return derived.linear.total if board is None else derived.left(board)[1]


def _added(numbers: Sequence[int]) -> str:
    """Return numbers as one adds them up: ``10+24 = 34``."""
    return "+".join(map(str, numbers)) + (f" = {sum(numbers)}" if len(numbers) > 1 else "")


def _each(sides: _Sides, layout: Layout) -> str:
    """Tell known digits one by one; of many, what they make on each side."""
    groups = [sides.known_inside, sides.known_outside]
    if len(sides.known) <= _EACH_AT_MOST:
        groups = [[cell] for group in groups for cell in group]
    return list_in_words([_together(group, sides.known, layout) for group in groups if group])


def _together(cells: Sequence[int], known: Mapping[int, int], layout: Layout) -> str:
    return _makes(cells, _added([known[cell] for cell in cells]), layout)


def _makes(cells: Sequence[int], total: str, layout: Layout) -> str:
    return f"{cells_in_words(cells, layout)} {'is' if len(cells) == 1 else 'make'} {total}"


def _difference(more: Sequence[int], less: Sequence[int], total: int, layout: Layout) -> str:
    """Tell that some cells are together so much more than others."""
    if total < 0:
        more, less, total = less, more, -total
    alone = len(more) == len(less) == 1
    amount = f"{total} more than" if total else "the same as" if alone else "as much as"
    verb = "is" if len(more) == 1 else "together are"
    return f"{cells_in_words(more, layout)} {verb} {amount} {cells_in_words(less, layout)}"
