"""Patterns told that have parts of several kinds: cages among lines, cages among cells, equal cells."""

from __future__ import annotations

from collections.abc import Sequence

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import EqualCells, SharedSubset
from grader.board.steps import Step
from grader.reasoning.combinations import open_combinations
from grader.words.phrases import (
    cage_in_words,
    cells_in_words,
    combination_in_words,
    combinations_in_words,
    digits_in_words,
    houses_in_words,
    list_in_words,
)
from grader.words.sums import what_is_left
from grader.words.wording import pattern_words

__all__ = ["bases_in_words", "equal_in_words", "subset_in_words"]

_NAMED_AT_MOST = 4
"""So many combinations are named one by one."""


def bases_in_words(base: Sequence[int], layout: Layout) -> str:
    """Name the rules that a fish with cages looks at one by one: its houses, then its cages.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> bases_in_words((6, 27), board_from_text("", [Cage((18, 27, 28), 8)]).layout)
    'row 7 and the cage of 8 at r3c1'
    """
    return list_in_words([_named(rule, layout) for rule in base])


def subset_in_words(step: Step, layout: Layout, board: Board | None = None) -> str:
    """Return the evidence of a subset with a cage, or with a sum by the rule of 45.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.cage_subsets import find_cage_subsets
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("1245 1245 12 1234", [Cage((0, 1), 6)])
    >>> subset_in_words(next(find_cage_subsets(board)), board.layout, board)
    'r1c3 and the cage of 6 at r1c1 take 1 and 2 of row 1 between them'
    >>> board = board_from_text("1245 1245 24 24", [Cage((0, 1), 6)])
    >>> print(subset_in_words(next(find_cage_subsets(board)), board.layout, board))
    r1c3 takes one of 2 and 4 in row 1, which leaves no more than one for the cage of 6 at r1c1, so 2+4 falls
    """
    pattern = step.pattern
    assert isinstance(pattern, SharedSubset), "only such subsets are told so"
    cages, alone, hidden = layout.cages_among(step.rules), not pattern.cells, pattern.hidden
    told = cage_in_words(cages[0], layout) if cages else pattern_words.THESE
    is_out = any(pattern.part >> cell & 1 for cell, _ in step.removes)
    count = pattern.cells.bit_count()
    share = step.digits.bit_count() - count
    template = pattern_words.SUBSETS["hidden" if hidden else "naked", "out" if is_out else "full", alone]
    evidence = template.format(
        cells=cells_in_words(step.focus, layout),
        part=told,
        digits=digits_in_words(step.digits),
        house=houses_in_words([pattern.house], layout),
        count=_count(count),
        share=_count(share),
        take="takes" if count == 1 else "take",
        fit="fits" if not step.digits & (step.digits - 1) else "fit",
        so=_what_falls(step, layout, board, share, hidden=hidden) if board and is_out else "",
    )
    if cages:
        return evidence
    return pattern_words.BY_THE_RULE_OF_45.format(
        houses=houses_in_words(layout.houses_among(step.sums[0].rules), layout),
        left=what_is_left(step.sums[0], layout, board),
        evidence=evidence,
    )


def _what_falls(step: Step, layout: Layout, board: Board, share: int, *, hidden: bool) -> str:
    """Tell which combinations have too many of the digits, or too few if `hidden`; or which are left."""
    written = step.sums[0].linear if step.sums else layout.cage(layout.cages_among(step.rules)[0])
    cells = _cells_of_part(step, layout, board)
    known = sum(board.candidates[cell].bit_length() - 1 for cell in written.cells if cell not in cells)
    masks = tuple(board.candidates[cell] for cell in cells)
    left: list[int] = []
    fall: list[int] = []
    for combination in open_combinations(masks, written.total - known, layout.grid.digits):
        count = (combination & step.digits).bit_count()
        (fall if (count < share if hidden else count > share) else left).append(combination)
    if len(fall) <= _NAMED_AT_MOST:
        told = list_in_words([combination_in_words(combination, layout) for combination in fall])
        return pattern_words.FALL[len(fall) > 1].format(combinations=told)
    if len(left) <= _NAMED_AT_MOST:
        return pattern_words.ALONE_LEFT.format(combinations=combinations_in_words(left, layout))
    return ""


def equal_in_words(step: Step, layout: Layout, board: Board | None = None) -> str:
    r"""Return the evidence of equal cells: why they are equal, and what makes use of it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.equal_cells import find_equal_cells
    >>> from verifier.puzzle.rules.cage import Cage
    >>> row_5 = ".\n" * 4 + ". " + "12345689 " * 7 + "."
    >>> board = board_from_text(row_5, [Cage(tuple(range(7)), 36), Cage((7, 9), 9)])
    >>> equal_in_words(next(find_equal_cells(board)), board.layout, board)
    'by the rule of 45 on row 1, r1c9 is the same as r2c1; each place for 7 in row 5 sees one of them'
    """
    pattern = step.pattern
    assert isinstance(pattern, EqualCells), "only equal cells are told so"
    home = "" if pattern.home is None else _named(pattern.home, layout)
    evidence = pattern_words.EQUAL[pattern.how].format(
        digits=digits_in_words(step.digits),
        home=home,
        cells=cells_in_words(step.focus, layout),
        or_cells=cells_in_words(step.focus, layout, "or"),
    )
    if pattern.line is not None:
        one, other = (cells_in_words([cell], layout) for cell in pattern.mirrored)
        clue = layout.rules[pattern.line].called(layout.grid)
        return pattern_words.EQUAL_ON_LINE.format(one=one, other=other, clue=clue, evidence=evidence)
    return pattern_words.BY_THE_RULE_OF_45.format(
        houses=houses_in_words(layout.houses_among(step.sums[0].rules), layout),
        left=what_is_left(step.sums[0], layout, board),
        evidence=evidence,
    )


def _named(rule: int, layout: Layout) -> str:
    """Name a house or a cage."""
    return cage_in_words(rule, layout) if rule in layout.cage_numbers else houses_in_words([rule], layout)


def _cells_of_part(step: Step, layout: Layout, board: Board | None) -> list[int]:
    """Return the cells of the step's cage or sum that have no digit, as far as is known."""
    cells = step.sums[0].linear.cells if step.sums else layout.rules[layout.cages_among(step.rules)[0]].cells
    return [cell for cell in cells if board is None or not board.placed >> cell & 1]


def _count(number: int) -> str:
    """Return a small number in words, so that it is not taken for a digit."""
    return pattern_words.COUNTS[number] if number < len(pattern_words.COUNTS) else str(number)
