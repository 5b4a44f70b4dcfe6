"""Marks and lines over pairs of cells: digits without a partner, or with too few for all neighbours."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import lru_cache, reduce
from itertools import combinations
from operator import or_

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue
from grader.reasoning.pairs import Fit, fits_of
from verifier.puzzle.masks import bits
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.marks.greater import Greater

__all__ = ["NEVER_FITS", "TOO_FEW_PARTNERS"]

_BOUNDED = (Greater, Thermometer)
"""What does not fit these is told by bounds."""
_NEIGHBOURS_AT_MOST = 3
"""More neighbours that see each other nobody looks at together."""


def find_never_fitting(board: Board) -> Iterator[Step]:
    """A digit goes from the cells of a mark or a line where no digit at all fits beside it.

    On a whisper of 5, no digit is so far from 5. In the ratio 2, nothing goes with 5, 7 and 9; to a sum of 5,
    nothing above 4::

        row 1, a sum of 5    before  123456789 123456789    after  1234 1234

    Yields
    ------
    Step
        In the order of the rules; one for each. `focus` is the cells that lose something.

    Notes
    -----
    Sound in every solution: the neighbour holds some digit, another one where the two cells see each other.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> from verifier.puzzle.rules.marks.pair_sum import PairSum
    >>> board = board_from_text("", clues=[PairSum((0, 1), 10)])
    >>> [[digits_of(gone) for _, gone in step.removes] for step in find_never_fitting(board)]
    [[(5,), (5,)]]
    """
    for number, barred in _never(board.layout).items():
        removes = tuple(
            (cell, gone) for cell, (digits, _) in barred.items() if (gone := board.candidates[cell] & digits)
        )
        if removes and board.fresh & board.layout.masks[number]:
            apart = {rule for cell, _ in removes for rule in barred[cell][1]}
            yield Step(
                "never-fits",
                removes=removes,
                rules=tuple(sorted({number, *apart})),
                focus=tuple(cell for cell, _ in removes),
                digits=reduce(or_, (gone for _, gone in removes)),
                pattern=Clue(board.layout, number, board.candidates).says("never-fits"),
            )


@lru_cache(maxsize=8)
def _never(layout: Layout) -> Mapping[int, Mapping[int, tuple[int, tuple[int, ...]]]]:
    """Return, for each rule over pairs and each of its cells, the digits that nothing fits, and why."""
    found: defaultdict[int, dict[int, tuple[int, tuple[int, ...]]]] = defaultdict(dict)
    for (cell, other), fits in fits_of(layout).items():
        for rule, left in fits:
            if isinstance(layout.rules[rule], _BOUNDED):
                continue
            sees = bool(layout.sees[cell] >> other & 1)
            alone = [d for d in layout.grid.all_digits if not left[d] & ~(sees << d)]
            if alone:
                links = layout.link(cell, other) if any(left[digit] for digit in alone) else ()
                before, rules = found[rule].get(cell, (0, ()))
                digits = reduce(or_, (1 << digit for digit in alone))
                found[rule][cell] = before | digits, (*rules, *links)
    return {rule: dict(sorted(cells.items())) for rule, cells in sorted(found.items())}


def find_too_few_partners(board: Board) -> Iterator[Step]:
    """A digit goes from a cell where neighbours that see each other would have to share too few digits.

    With marks for a ratio of 2 on both sides of a cell: 1 there would make both its neighbours 2::

        row 1    before  1248 1248 1248    after  1248 24 1248

    Yields
    ------
    Step
        In the order of the cells; one for each digit. `focus` is the cell, then its neighbours.

    Notes
    -----
    Sound in every solution: cells that see each other differ, so they take as many digits as they are.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> from verifier.puzzle.rules.marks.ratio import Ratio
    >>> board = board_from_text("124 124 124", size=4, clues=[Ratio((0, 1), 2), Ratio((1, 2), 2)])
    >>> [(step.focus, digits_of(step.digits)) for step in find_too_few_partners(board)]
    [((1, 0, 2), (1,)), ((1, 0, 2), (4,))]
    """
    for cell, neighbours in _neighbours(board.layout).items():
        around = reduce(or_, (1 << other for other in neighbours), 0)
        if board.candidates[cell] & (board.candidates[cell] - 1) and around & board.fresh:
            for digit in bits(board.candidates[cell]):
                step = _too_few(board, cell, digit, neighbours)
                if step is not None:
                    yield step


@lru_cache(maxsize=8)
def _neighbours(layout: Layout) -> Mapping[int, Mapping[int, tuple[Fit, ...]]]:
    """Return, for each cell, those that share a mark or a line over pairs with it, with what that leaves."""
    found: defaultdict[int, dict[int, tuple[Fit, ...]]] = defaultdict(dict)
    differ = {number for number, _ in layout.partners if layout.rules[number].word == "no_repeats"}
    for (cell, other), fits in fits_of(layout).items():
        left = tuple(fit for fit in fits if fit.rule not in differ)
        if left:
            found[cell][other] = left
    return {cell: dict(sorted(others.items())) for cell, others in sorted(found.items()) if len(others) > 1}


def _too_few(board: Board, cell: int, digit: int, neighbours: Mapping[int, tuple[Fit, ...]]) -> Step | None:
    """Return the step that takes a digit from a cell, by as few of its neighbours as will do."""
    layout = board.layout
    left = {}
    for other, fits in neighbours.items():
        mask = board.candidates[other] & ~((layout.sees[cell] >> other & 1) << digit)
        for fit in fits:
            mask &= fit.left[digit]
        left[other] = mask
    for count in range(2, _NEIGHBOURS_AT_MOST + 1):
        for some in combinations([other for other in left if left[other].bit_count() < count], count):
            together = reduce(or_, (left[other] for other in some))
            apart = all(layout.sees[a] >> b & 1 for a, b in combinations(some, 2))
            if apart and all(left[other] for other in some) and together.bit_count() < count:
                return _step(board, cell, digit, some, together)
    return None


def _step(board: Board, cell: int, digit: int, some: tuple[int, ...], together: int) -> Step:
    layout = board.layout
    marks = {fit.rule for other in some for fit in _neighbours(layout)[cell][other]}
    links = {rule for a, b in combinations(some, 2) for rule in layout.link(a, b)}
    own = {rule for other in some if layout.sees[cell] >> other & 1 for rule in layout.link(cell, other)}
    number = min(marks)
    said = Clue(layout, number, board.candidates).says(
        "too-few-partners", number=len(some), cells=some, digits=together
    )
    return Step(
        "too-few-partners",
        removes=((cell, 1 << digit),),
        rules=tuple(sorted(marks | links | own)),
        looks=tuple(sorted(some)),
        focus=(cell, *some),
        digits=1 << digit,
        pattern=said,
    )


NEVER_FITS = Technique("never-fits", "digits that nothing fits", find_never_fitting)
TOO_FEW_PARTNERS = Technique("too-few-partners", "too few partners", find_too_few_partners)
