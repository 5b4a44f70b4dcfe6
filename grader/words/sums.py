"""The rule of 45, told: what the houses add up to, what the cages hold, what that leaves.

A sum over innies and outies is told with the digits that are known by then, as one would count at the
board: "Row 4 adds up to 45; the cages inside make 28, and r4c2 and r4c8 make 14".
"""

from __future__ import annotations

from collections.abc import Sequence

from grader.board.board import Board, Layout
from grader.board.steps import DerivedSum
from grader.words import wording
from grader.words.phrases import cells_in_words, houses_in_words, list_in_words

__all__ = ["sum_in_words", "what_is_left"]

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
    'row 1 adds up to 45; the cages that cover it make 46, with r2c9 the one cell outside'
    """
    houses, cages = layout.houses_among(derived.rules), layout.cages_among(derived.rules)
    inside = {cell for house in houses for cell in layout.houses[house].cells}
    innies = [cell for cell in derived.linear.cells if cell in inside]
    outies = [cell for cell in derived.linear.cells if cell not in inside]
    known = _known(derived, board)
    unknown = [cell for cell in derived.linear.cells if cell not in known]
    if innies and outies:
        told = _each(known, [innies, outies], layout)
        template = _two_sided(len(known), len(unknown) == 1)
    else:
        told = _together(sorted(known), known, layout)
        template = _one_sided(bool(innies), bool(cages), bool(known), len(unknown) == 1)
    one = len(houses) == 1
    return template.format(
        houses=houses_in_words(houses, layout),
        add="adds" if one else "add",
        them="it" if one else "them",
        whole=len(houses) * layout.grid.house_total,
        cages=sum(layout.cage(cage).total for cage in cages),
        innies=cells_in_words(innies, layout),
        outies=cells_in_words(outies, layout),
        known=told,
        rest=_rest(derived, known),
        unknown=cells_in_words(unknown, layout),
        difference=_difference(innies, outies, derived.linear.total, layout),
    )


def what_is_left(derived: DerivedSum, layout: Layout, board: Board | None = None) -> str:
    """Return what a sum says of its unknown cells, whatever it comes from.

    Parameters
    ----------
    derived, layout, board
        As for `sum_in_words`.

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
    rest = _rest(derived, known)
    if plus and minus:
        return _difference(plus, minus, rest, layout)
    return _makes(plus or minus, rest if plus else -rest, layout)


def _known(derived: DerivedSum, board: Board | None) -> dict[int, int]:
    """Return the digits that stand in cells of the sum."""
    if board is None:
        return {}
    placed, candidates = board.placed, board.candidates
    return {cell: candidates[cell].bit_length() - 1 for cell in derived.linear.cells if placed >> cell & 1}


def _rest(derived: DerivedSum, known: dict[int, int]) -> int:
    """Return what the unknown cells make."""
    weights = dict(derived.linear.weights)
    return derived.linear.total - sum(weights[cell] * digit for cell, digit in known.items())


def _two_sided(known: int, one: bool) -> str:
    """Return the template for innies and outies, with so many known digits."""
    if one and known > 1:  # what follows for all cells together would only be one more thing to keep in mind
        return wording.SUM_BOTH_KNOWN
    return wording.SUM_BOTH + (wording.SUM_AND_KNOWN if known else "")


def _one_sided(inside: bool, cages: bool, known: bool, one: bool) -> str:
    """Return the template for innies alone, or outies alone, with or without cages and known digits."""
    if inside:
        start = wording.SUM_INNIES if cages else wording.SUM_NO_CAGES
        return start + (wording.SUM_LESS_KNOWN if known else "") + ("" if one else wording.SUM_LEAVES)
    if not known:
        return wording.SUM_OUTIE if one else wording.SUM_OUTIES
    return wording.SUM_OUTIES_KNOWN + ("" if one else wording.SUM_LEAVES)


def _each(known: dict[int, int], sides: Sequence[Sequence[int]], layout: Layout) -> str:
    """Tell known digits one by one; of many, what they make on each side."""
    groups = [[cell for cell in side if cell in known] for side in sides]
    if len(known) <= _EACH_AT_MOST:
        groups = [[cell] for group in groups for cell in group]
    return list_in_words([_together(group, known, layout) for group in groups if group])


def _together(cells: Sequence[int], known: dict[int, int], layout: Layout) -> str:
    return _makes(cells, sum(known[cell] for cell in cells), layout)


def _makes(cells: Sequence[int], total: int, layout: Layout) -> str:
    return f"{cells_in_words(cells, layout)} {'is' if len(cells) == 1 else 'make'} {total}"


def _difference(more: Sequence[int], less: Sequence[int], total: int, layout: Layout) -> str:
    """Tell that some cells are together so much more than others."""
    if total < 0:
        more, less, total = less, more, -total
    alone = len(more) == len(less) == 1
    amount = f"{total} more than" if total else "the same as" if alone else "as much as"
    verb = "is" if len(more) == 1 else "together are"
    return f"{cells_in_words(more, layout)} {verb} {amount} {cells_in_words(less, layout)}"
