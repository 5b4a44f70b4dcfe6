"""Lines and diagonals that add up: what the other cells make leaves so much, and no more, for each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from grader.reasoning.clues.crowds import reach_of
from verifier.puzzle.masks import digits_of, mask_of
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.lines.arrow import Arrow

__all__ = ["ARROW_CIRCLE", "ARROW_LINE", "CIRCLE_DIGITS", "DIAGONAL_BOUNDS"]


def find_arrow_circles(board: Board) -> Iterator[Step]:
    """A circle is at least what its line makes at the least, and at most what that makes at the most.

    Cells of the line that see each other differ, so two of a row make 3 at the least. With the line r1c2,
    r1c3 and r1c4 of the circle r1c1::

        row 1    before  123456789 123 123 345    after  6789 123 123 345

    In a circle of two cells, the tens and the units are told together.

    Yields
    ------
    Step
        In the order of the arrows; one for each cell of the circle. `focus` is the cell.

    Notes
    -----
    Sound in every solution: the line adds up to the circle.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("123456789 123 123 345", clues=[Arrow((0,), (1, 2, 3))])
    >>> [(step.focus, digits_of(step.digits)) for step in find_arrow_circles(board)]
    [((0,), (1, 2, 3, 4, 5))]
    """
    yield from clue_steps(board, "arrow-circle", {Arrow: _circle})


def _circle(clue: Clue) -> Iterator[ClueFinding]:
    circle, line = clue.rule.circle, clue.rule.line
    reach, totals = reach_of(clue, line), _totals(clue)
    fitting = [digits for digits, total in totals if reach.least <= total <= reach.most]
    for place, cell in enumerate(circle):
        gone = clue.open_in(cell, ~mask_of(digits[place] for digits in fitting))
        out = [total for digits, total in totals if gone >> digits[place] & 1]
        if not gone or not out:
            continue
        low, high = min(out) < reach.least, max(out) > reach.most
        said = clue.says(
            "circle-both" if low and high else "circle-least" if low else "circle-most",
            bound=reach.least,
            total=reach.most,
            cells=line,
        )
        apart = {*(reach.low_rules if low else ()), *(reach.high_rules if high else ())}
        others = [other for other in circle if other != cell]
        apart.update(clue.layout.link(*circle) if others else ())
        yield ClueFinding(((cell, gone),), (*line, *others), said, apart)


def _totals(clue: Clue) -> list[tuple[tuple[int, ...], int]]:
    """Return the digits that a circle may hold, with what they say that the line makes."""
    weights = [weight for cell, weight in clue.rule.weights if cell in clue.rule.circle]
    open_digits = [digits_of(clue.candidates[cell]) for cell in clue.rule.circle]
    if len(open_digits) == 1:
        return [((digit,), digit) for digit in open_digits[0]]
    return [
        ((one, other), weights[0] * one + weights[1] * other)
        for one in open_digits[0]
        for other in open_digits[1]
        if one != other
    ]


def find_circle_digits(board: Board) -> Iterator[Step]:
    """A digit goes from a circle if, beside it, the line makes too much or too little.

    A cell of the line that sees the digit in the circle is something else. If the circle r1c1 and r1c2 had
    1 for its tens, its line r2c1 to r2c3 had no 1, being in the same box, and made 19 at the least, where
    the circle is 18 at the most::

        row 1    before  12 2345678    after  2 2345678
        row 2            12 89 89             12 89 89

    Yields
    ------
    Step
        In the order of the arrows, of the cells of their circles and of the digits. `focus` is the cell.

    Notes
    -----
    Sound in every solution: the line adds up to the circle, and cells that see each other differ.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("12 2345678" + chr(10) + "12 89 89", clues=[Arrow((0, 1), (9, 10, 11))])
    >>> [(step.focus, digits_of(step.digits)) for step in find_circle_digits(board)][:1]
    [((0,), (1,))]
    """
    yield from clue_steps(board, "circle-digits", {Arrow: _digits_of_circle})


def _digits_of_circle(clue: Clue) -> Iterator[ClueFinding]:
    for place, cell in enumerate(clue.rule.circle):
        for digit in digits_of(clue.candidates[cell]):
            totals = [total for digits, total in _totals(clue) if digits[place] == digit]
            beside = _beside(clue, cell, digit)
            if totals and all(beside.values()):
                yield from _not_made(clue, cell, digit, totals, beside)


def _beside(clue: Clue, cell: int, digit: int) -> dict[int, int]:
    """Return what a digit in a cell of the circle leaves in the cells of the line."""
    sees = clue.layout.sees[cell]
    return {other: clue.candidates[other] & ~((sees >> other & 1) << digit) for other in clue.rule.line}


def _not_made(
    clue: Clue, cell: int, digit: int, totals: list[int], beside: dict[int, int]
) -> Iterator[ClueFinding]:
    """Yield that a digit goes from a circle if the line makes none of its totals beside it."""
    line, layout = clue.rule.line, clue.layout
    reach, plain = reach_of(replace(clue, candidates=beside), line), reach_of(clue, line)
    if reach.least > reach.most or not any(plain.least <= total <= plain.most for total in totals):
        return  # too few digits for the line, or what the bounds of the circle say
    if any(reach.least <= total <= reach.most for total in totals):
        return
    low, high = min(totals) < reach.least, max(totals) > reach.most
    apart = {*(reach.low_rules if low else ()), *(reach.high_rules if high else ())}
    apart.update(layout.link(*clue.rule.circle) if len(clue.rule.circle) > 1 else ())
    for other in line:
        apart.update(layout.link(cell, other) if beside[other] != clue.candidates[other] else ())
    said = clue.says(
        "with-digit-both" if low and high else "with-digit-least" if low else "with-digit-most",
        bound=reach.least,
        total=reach.most,
        number=max(totals) if low else min(totals),
        cells=line,
        ways=tuple((total,) for total in totals),
    )
    others = [other for other in clue.rule.circle if other != cell]
    yield ClueFinding(((cell, 1 << digit),), (*line, *others), said, apart)


def find_arrow_lines(board: Board) -> Iterator[Step]:
    """A cell on the line of an arrow has room for no more than the circle leaves beside the other cells.

    Nor for less than the circle needs beside them. With the circle r1c1 and the line r1c2, r1c3 and r1c4::

        row 1    before  6789 123456789 12 34    after  6789 12345 12 34

    Yields
    ------
    Step
        In the order of the arrows and of their cells; what is too large, then what is too small.

    Notes
    -----
    Sound in every solution: the line adds up to the circle, and the other cells make no less than their
    least and no more than their most. Cells that see each other differ.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("6789 123456789 12 34", clues=[Arrow((0,), (1, 2, 3))])
    >>> [(step.focus, digits_of(step.digits)) for step in find_arrow_lines(board)]
    [((1,), (6, 7, 8, 9))]
    """
    yield from clue_steps(board, "arrow-line", {Arrow: _line})


def _line(clue: Clue) -> Iterator[ClueFinding]:
    circle = clue.rule.circle
    totals = [total for _, total in _totals(clue)]
    if totals:
        links = clue.layout.link(*circle) if len(circle) > 1 else ()
        yield from _bounded(clue, clue.rule.line, (min(totals), max(totals)), circle, links)


def find_diagonal_bounds(board: Board) -> Iterator[Step]:
    """A cell of a diagonal with a total has room for no more than the other cells leave.

    Nor for less than they need. With a total of 10 over r1c3, r2c2 and r3c1::

        r1c3  before  123456789    after  456
        r2c2  before  23           after  23
        r3c1  before  23           after  23

    Yields
    ------
    Step
        In the order of the clues and of their cells; what is too large, then what is too small.

    Notes
    -----
    Sound in every solution: the other cells make no less than their least and no more than their most. Cells
    that see each other differ.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> lines = ". . 123456789", ". 23 .", "23 . ."
    >>> board = board_from_text(chr(10).join(lines), clues=[LittleKiller((2, 10, 18), 10)])
    >>> [(step.focus, digits_of(step.digits)) for step in find_diagonal_bounds(board)]
    [((2,), (6, 7, 8, 9)), ((2,), (1, 2, 3, 4))]
    """
    yield from clue_steps(board, "diagonal-bounds", {LittleKiller: _diagonal})


def _diagonal(clue: Clue) -> Iterator[ClueFinding]:
    yield from _bounded(clue, clue.cells, (clue.rule.total, clue.rule.total))


def _bounded(
    clue: Clue,
    line: tuple[int, ...],
    totals: tuple[int, int],
    circle: tuple[int, ...] = (),
    links: tuple[int, ...] = (),
) -> Iterator[ClueFinding]:
    """Yield what the other cells of a line leave no room for, where all make at least and at most so much."""
    least, most = totals
    kind = ("line" if circle else "diagonal") + ("" if len(line) > 1 else "-alone")
    for cell in line:
        others = tuple(other for other in line if other != cell)
        reach = reach_of(clue, others)
        if gone := clue.open_in(cell, clue.above(most - reach.least)):
            room = most - reach.least
            said = clue.says(f"{kind}-most", bound=room, number=reach.least, total=most, cells=circle)
            yield ClueFinding(((cell, gone),), (*others, *circle), said, {*reach.low_rules, *links})
        if gone := clue.open_in(cell, clue.below(least - reach.most)):
            need = least - reach.most
            said = clue.says(f"{kind}-least", bound=need, number=reach.most, total=least, cells=circle)
            yield ClueFinding(((cell, gone),), (*others, *circle), said, {*reach.high_rules, *links})


ARROW_CIRCLE = Technique("arrow-circle", "circle of an arrow", find_arrow_circles)
CIRCLE_DIGITS = Technique("circle-digits", "digits of a circle", find_circle_digits)
ARROW_LINE = Technique("arrow-line", "line of an arrow", find_arrow_lines)
DIAGONAL_BOUNDS = Technique("diagonal-bounds", "bounds of a diagonal's total", find_diagonal_bounds)
