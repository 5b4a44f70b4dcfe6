"""The reason, told: what excludes a combination, and why a digit that nobody sees at once cannot stand."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from operator import or_

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.reasoning.arguments import CASES_AT_MOST, Elimination, Reason
from grader.reasoning.combinations import assignments
from grader.reasoning.exclusions import Excluded, Rest, standing
from grader.words.phrases import (
    cells_in_words,
    combination_in_words,
    digits_in_words,
    houses_in_words,
    list_in_words,
)
from grader.words.sums import what_is_left
from grader.words.wording import reason_words
from verifier.puzzle.masks import bits, digits_of

__all__ = [
    "arguments_in_words",
    "difference_in_words",
    "exclusions_in_words",
    "names_all",
    "sorting_in_words",
    "ways_in_words",
]

_NAMED_AT_MOST = 3
"""So many combinations are named with what excludes them; of more, the digits that stand in the way."""
_FEW_DIGITS = 3
"""A cell with no more digits is told by what it can be; one with more by what it cannot."""


def exclusions_in_words(
    excluded: Sequence[Excluded], rest: Rest, board: Board, *, others: bool = True
) -> str:
    """Tell what excludes some combinations; empty if there are none.

    Parameters
    ----------
    excluded : sequence of Excluded
        The combinations.
    rest, board
        Of what they are combinations, and on which board.
    others : bool, optional
        Whether some are left beside them.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.reasoning.exclusions import excluded_combinations
    >>> board, rest = board_from_text(". . 6"), Rest((0, 1), 14)
    >>> exclusions_in_words(excluded_combinations(rest, board, whole=False), rest, board)
    '6+8 falls, for 6 is in box 1'
    """
    if not excluded:
        return ""
    told: list[str] = []
    blocked = [each for each in excluded if each.blocked]
    if len(excluded) > _NAMED_AT_MOST and blocked:
        digits = reduce(or_, (each.digits for each in blocked))
        whole = reason_words.ALL_OTHERS_NEED if others else reason_words.ALL_NEED
        template = whole if len(blocked) == len(excluded) else reason_words.THOSE_WITH_FALL
        told.append(
            template.format(digits=digits_in_words(digits, "or"), reason=_nowhere(digits, rest, board))
        )
        excluded = [each for each in excluded if not each.blocked]
    groups: dict[object, list[Excluded]] = {}
    for each in excluded:
        groups.setdefault(_alike(each, rest, board), []).append(each)
    for some in sorted(groups.values(), key=lambda some: -len(some))[: CASES_AT_MOST - len(told)]:
        template = reason_words.ALSO_FALLS if told else reason_words.FALLS[len(some) > 1]
        names = [combination_in_words(each.combination, board.layout) for each in some]
        reason = _reason(some, rest, board)
        told.append(template.format(combinations=list_in_words(names), reason=reason))
    return "; ".join(told)


def _alike(each: Excluded, rest: Rest, board: Board) -> object:
    """Return what combinations have in common that fall for one reason; digits of one house are one."""
    if each.blocked:
        return _place(each.by if each.by != rest.cells else (), rest, board.layout)
    return each.by_cells, each.cells, each.cells if each.by_cells else each.digits


def _reason(alike: Sequence[Excluded], rest: Rest, board: Board) -> str:
    """Tell what excludes some combinations that fall for one reason."""
    layout, first = board.layout, alike[0]
    cells = tuple(bits(first.cells))
    if first.blocked:
        return _nowhere(reduce(or_, (each.digits for each in alike)), rest, board)
    if not first.by_cells:
        return reason_words.TOO_FEW_PLACES[len(cells) == 1].format(
            digits=digits_in_words(first.digits), cells=cells_in_words(cells, layout)
        )
    if len(cells) > 1:
        return reason_words.TOO_FEW_DIGITS[first.digits.bit_count() == 1].format(
            digits=digits_in_words(first.digits), cells=cells_in_words(cells, layout)
        )
    there = board.candidates[cells[0]]
    few = there.bit_count() <= _FEW_DIGITS
    takes = reason_words.CELL_IS if few else reason_words.CELL_TAKES[len(rest.cells) == 2]
    return takes.format(cell=layout.grid.cell_name(cells[0]), digits=digits_in_words(there, "or"))


def _nowhere(digits: int, rest: Rest, board: Board) -> str:
    """Tell where digits stand that can therefore stand in none of the cells; digits of one house together."""
    where: dict[tuple[str, str], int] = {}
    for digit in bits(digits):
        place = _place(standing(digit, rest, board), rest, board.layout)
        where[place] = where.get(place, 0) | 1 << digit
    return list_in_words(
        [
            template.format(
                digits=digits_in_words(some),
                where=name,
                are="are" if some & (some - 1) else "is",
                have="have" if some & (some - 1) else "has",
            )
            for (template, name), some in where.items()
        ]
    )


def _place(by: Sequence[int], rest: Rest, layout: Layout) -> tuple[str, str]:
    """Return how it is told where a digit stands, and the name of the place."""
    if not by:
        return reason_words.GONE_ALREADY, ""
    if by[0] in rest.filled:
        return reason_words.IN_THE_CAGE, ""
    around = reduce(or_, (1 << cell for cell in (*rest.cells, *by)))
    shared = [house for house in layout.houses_of[by[0]] if not around & ~layout.house_masks[house]]
    if shared:
        return reason_words.IN_HOUSE, houses_in_words(shared[-1:], layout)
    return reason_words.IN_CELLS[len(by) > 1], cells_in_words(by, layout)


def arguments_in_words(reason: Reason, board: Board) -> str | None:
    """Tell why no arrangement has the digits that a step removes; None where it takes too many cases.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.reasoning.arguments import reason_of
    >>> from grader.techniques.cages import find_cage_arrangements
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("12 12 134", [Cage((0, 1, 2), 6)])
    >>> reason = reason_of(next(find_cage_arrangements(board)), board)
    >>> print(arguments_in_words(reason, board))
    4 in r1c3 would make at least 7 in all; 1 in r1c3 would need 2+3 in r1c1 and r1c2, but 3 has gone already
    """
    found, rest = reason.arguments, reason.rest
    if len(rest.cells) == 2:
        return _pair(reason, board)
    if not reason.short:
        return None
    loose = [each for each in found if not each.bounded]
    too_much = [(each.least, each) for each in found if each.least is not None]
    too_little = [(each.most, each) for each in found if each.most is not None]
    bounded = [
        template.format(
            supposed=_supposed([each for _, each in some], board.layout),
            made=extreme(made for made, _ in some),
        )
        for template, some, extreme in (
            (reason_words.TOO_MUCH, too_much, min),
            (reason_words.TOO_LITTLE, too_little, max),
        )
        if some
    ]
    return "; ".join([*bounded, *(_cases(each, rest, board) for each in loose)])


def names_all(reason: Reason, board: Board) -> bool:
    """Whether its arguments, told, name every digit that goes with its cell."""
    return len(reason.rest.cells) != 2 or (
        _other_cell(reason, board) is None and bool(_partners(reason, board))
    )


def _pair(reason: Reason, board: Board) -> str:
    """Tell of two cells what each digit would need in the other; of many, that each needs a partner."""
    layout = board.layout
    other = _other_cell(reason, board)
    if other is not None:
        digits = digits_in_words(board.candidates[other], "or")
        return reason_words.CELL_IS.format(cell=layout.grid.cell_name(other), digits=digits)
    partners = _partners(reason, board)
    told = [
        reason_words.WOULD_NEED[True].format(
            digit=each.digit,
            cell=layout.grid.cell_name(each.cell),
            cells=layout.grid.cell_name(cell),
            combinations=digit,
            reason=reason_words.TWICE
            if digit == each.digit
            else _nowhere(1 << digit, Rest((cell,), digit), board),
        )
        for each, (cell, digit) in zip(reason.arguments, partners, strict=bool(partners))
    ]
    return "; ".join(told) or reason_words.PARTNERS.format(total=reason.rest.total)


def _other_cell(reason: Reason, board: Board) -> int | None:
    """Return the one of two cells that nothing goes from, if so little is open there that one says it."""
    gone_from = {each.cell for each in reason.arguments}
    others = [cell for cell in reason.rest.cells if cell not in gone_from]
    few = others and board.candidates[others[0]].bit_count() <= _FEW_DIGITS
    return others[0] if few else None


def _partners(reason: Reason, board: Board) -> list[tuple[int, int]]:
    """Return what each digit of two cells would need in the other; nothing where there are too many."""
    total, cells, found = reason.rest.total, reason.rest.cells, reason.arguments
    partners = [(cells[each.cell == cells[0]], total - each.digit) for each in found]
    inside = all(0 < digit <= board.layout.grid.digits for _, digit in partners)
    return partners if inside and len(found) <= CASES_AT_MOST else []


def _supposed(arguments: Sequence[Elimination], layout: Layout) -> str:
    """Name digits with their cells, those of the same cells together: "3 or 5 in r1c1 or r1c2"."""
    digits_in: dict[int, int] = {}
    for each in arguments:
        digits_in[each.cell] = digits_in.get(each.cell, 0) | 1 << each.digit
    cells_with: dict[int, list[int]] = {}
    for cell, digits in digits_in.items():
        cells_with.setdefault(digits, []).append(cell)
    return list_in_words(
        [
            reason_words.IN_ONE_OF.format(
                digits=digits_in_words(digits, "or"), cells=cells_in_words(cells, layout, "or")
            )
            for digits, cells in cells_with.items()
        ],
        "or",
    )


def _cases(argument: Elimination, rest: Rest, board: Board) -> str:
    """Tell what would have to stand beside a digit, and why it cannot."""
    layout = board.layout
    left, supposed = argument.supposing(rest, board)
    one_case = len(argument.cases) == 1
    cases = [combination_in_words(case.combination, layout) for case in argument.cases]
    return reason_words.WOULD_NEED[one_case].format(
        digit=argument.digit,
        cell=layout.grid.cell_name(argument.cell),
        cells=cells_in_words(left.cells, layout),
        combinations=list_in_words(cases, "or") if len(cases) <= _NAMED_AT_MOST else left.total,
        reason=_reason(argument.cases, left, supposed) if one_case else "",
        exclusions=exclusions_in_words(argument.cases, left, supposed, others=False),
    )


def difference_in_words(step: Step, board: Board) -> str:
    r"""Tell why digits go where some cells are so much more than others; empty where that takes long.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.sums import find_innie_outie_differences
    >>> from verifier.puzzle.rules.cage import Cage
    >>> cages = [Cage(tuple(range(7)), 36), Cage((7, 16), 5)]
    >>> board = board_from_text(". . . . . . . . .\n. . . . . . . 12 .", cages)
    >>> difference_in_words(next(find_innie_outie_differences(board)), board)
    'r2c8 is 1 or 2'
    """
    left, _ = step.sums[0].left(board)
    gone = dict(step.removes)
    kept = [cell for cell in left if cell not in gone]
    name = board.layout.grid.cell_name
    if len(kept) == 1 and board.candidates[kept[0]].bit_count() <= _FEW_DIGITS and len(left) <= 3:
        digits = digits_in_words(board.candidates[kept[0]], "or")
        return reason_words.CELL_IS.format(cell=name(kept[0]), digits=digits)
    if len(left) == 2:
        return reason_words.PARTNERS_APART
    if _out_of_bounds(step, board):
        return reason_words.OUT_OF_BOUNDS
    supposed = [(cell, digit) for cell, mask in step.removes for digit in digits_of(mask)]
    if len(left) > 3 or len(supposed) > CASES_AT_MOST:
        return ""
    told = []
    for cell, digit in supposed:
        there = board.after([Step("supposed", places=((cell, digit),))])
        relation = what_is_left(step.sums[0], board.layout, there)
        told.append(reason_words.WITH_THAT.format(digit=digit, cell=name(cell), relation=relation))
    return list_in_words(told)


def _out_of_bounds(step: Step, board: Board) -> bool:
    """Whether each digit that goes would be too much or too little, whatever the other cells are."""
    left, total = step.sums[0].left(board)
    ends = {
        cell: sorted(
            weight * digit
            for digit in (digits_of(board.candidates[cell])[0], digits_of(board.candidates[cell])[-1])
        )
        for cell, weight in left.items()
    }
    for cell, gone in step.removes:
        least, most = (sum(end[side] for other, end in ends.items() if other != cell) for side in (0, 1))
        if any(least <= total - left[cell] * digit <= most for digit in digits_of(gone)):
            return False
    return True


def sorting_in_words(step: Step, board: Board) -> str:
    r"""Tell which cell of a cage takes which digit of its one combination: from one the others follow.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.cage_digits import find_last_cells_of_cages
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text(". .\n. . .\n. . .\n7", [Cage((0, 1), 16)])
    >>> sorting_in_words(next(find_last_cells_of_cages(board)), board)
    '7 is in column 1'
    >>> board = board_from_text("17 . .", [Cage((0, 1, 2), 24)])
    >>> sorting_in_words(next(find_last_cells_of_cages(board)), board)
    '8 and 9 have gone from r1c1'
    """
    layout, combination = board.layout, step.digits
    name = layout.grid.cell_name
    for cell, digit in step.places:
        others = combination & ~(1 << digit)
        if not board.candidates[cell] & others and all(
            standing(d, Rest((cell,), 0), board) for d in bits(others)
        ):
            return _nowhere(others, Rest((cell,), 0), board)
    for cell, digit in step.places:
        if all(not board.candidates[other] >> digit & 1 for other in step.focus if other != cell):
            return reason_words.FITS_ONLY.format(digit=digit, cell=name(cell))
    cell, _ = step.places[0]
    left = board.candidates[cell] & combination
    if not left & (left - 1):
        gone = combination & ~left
        says = reason_words.GONE_FROM[gone.bit_count() == 1]
        return says.format(cell=name(cell), digits=digits_in_words(gone))
    return reason_words.CELL_IS.format(cell=name(cell), digits=digits_in_words(left, "or"))


def ways_in_words(reason: Reason, board: Board) -> str:
    """Tell the few ways to fill the cells, digit by digit: "4-9-3 or 8-5-3"."""
    ways = assignments(tuple(board.candidates[cell] for cell in reason.rest.cells), reason.rest.total)
    return list_in_words(["-".join(map(str, way)) for way in ways], "or")
