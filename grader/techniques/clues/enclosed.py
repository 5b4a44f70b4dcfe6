"""Lines whose inner digits lie between those of the two ends."""

from __future__ import annotations

from collections.abc import Iterator
from functools import reduce
from operator import or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from grader.reasoning.clues.crowds import crowd_in
from verifier.puzzle.masks import digits_of, mask_of
from verifier.puzzle.rules.lines.between import Between

__all__ = ["ENCLOSED_BOUNDS", "ENCLOSING_ENDS"]


def find_enclosed_bounds(board: Board) -> Iterator[Step]:
    """What lies between two ends is above the least that either can be, and below the most.

    On a line between r1c1 and r1c4::

        row 1    before  34 123456789 123456789 678    after  34 4567 4567 678

    Yields
    ------
    Step
        In the order of the lines and of their cells; what is too small, then what is too large.

    Notes
    -----
    Sound in every solution: one end is below the cell, and is at least the least that is open in either end;
    the other is above it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("34 1234 56", clues=[Between((0, 1, 2))])
    >>> [(step.focus, digits_of(step.digits)) for step in find_enclosed_bounds(board)]
    [((1,), (1, 2, 3))]
    """
    yield from clue_steps(board, "enclosed-bounds", {Between: _enclosed})


def _enclosed(clue: Clue) -> Iterator[ClueFinding]:
    ends = one, other = clue.rule.ends
    least = min(clue.low(one), clue.low(other)) + 1
    most = max(clue.high(one), clue.high(other)) - 1
    for cell in clue.rule.inner:
        if gone := clue.open_in(cell, clue.below(least)):
            how, looks = ("never-least", ()) if least == 2 else ("above-an-end", ends)
            yield ClueFinding(
                ((cell, gone),), looks, clue.says(how, bound=least, total=least - 1, cells=ends)
            )
        if gone := clue.open_in(cell, clue.above(most)):
            how, looks = ("never-most", ()) if most == clue.digits - 1 else ("below-an-end", ends)
            yield ClueFinding(((cell, gone),), looks, clue.says(how, bound=most, total=most + 1, cells=ends))


def find_enclosing_ends(board: Board) -> Iterator[Step]:
    """An end is below or above all that lies between the ends, and far enough from the other end.

    It cannot be a digit that lies amid what is between; if the other end has to be above all that, it is
    below; and where different digits lie between, the ends are so much further apart, with enough digits open
    between them::

        row 1, ends r1c1 and r1c4    before  2468 34 67 89    after  2 34 67 89

    Yields
    ------
    Step
        In the order of the lines; the first end, then the last. `focus` is the end.

    Notes
    -----
    Sound in every solution: the lower end is below every inner digit, so below the most of each; the higher
    one is above the least of each. And as many different digits as lie between two others, so far apart and
    one more these are.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("2468 34 67 89", clues=[Between((0, 1, 2, 3))])
    >>> [(step.focus, digits_of(step.digits)) for step in find_enclosing_ends(board)]
    [((0,), (4, 6)), ((0,), (8,))]
    """
    yield from clue_steps(board, "enclosing-ends", {Between: _ends})


def _ends(clue: Clue) -> Iterator[ClueFinding]:
    one, other = clue.rule.ends
    for end, far in ((one, other), (other, one)):
        found = (
            *_amid(clue, end),
            *_on_the_side_of_the_other(clue, end, far),
            *_too_near(clue, end, far),
            *_without_room(clue, end, far),
        )
        told = 0
        for finding in found:
            if finding.removes[0][1] & ~told:  # what is told in an easier way is not told again
                yield finding
                told |= finding.removes[0][1]


def _sides(clue: Clue) -> tuple[int, int]:
    """Return the masks of the digits that can be below, and above, all that lies between the ends."""
    inner = clue.rule.inner
    return clue.below(min(map(clue.high, inner))), clue.above(max(map(clue.low, inner)))


def _amid(clue: Clue, end: int) -> Iterator[ClueFinding]:
    lower, higher = _sides(clue)
    if gone := clue.open_in(end, ~(lower | higher)):
        yield ClueFinding(
            ((end, gone),), clue.rule.inner, clue.says("amid", cells=clue.rule.inner, digits=gone)
        )


def _on_the_side_of_the_other(clue: Clue, end: int, far: int) -> Iterator[ClueFinding]:
    lower, higher = _sides(clue)
    there = clue.candidates[far]
    for how, needed, alone in (("lower-end", lower, higher), ("higher-end", higher, lower)):
        gone = clue.open_in(end, alone & ~needed)
        if gone and not there & needed:
            yield ClueFinding(((end, gone),), (*clue.rule.inner, far), clue.says(how, cells=(far,)))


def _too_near(clue: Clue, end: int, far: int) -> Iterator[ClueFinding]:
    crowd = crowd_in(clue.layout, clue.rule.inner)
    apart = len(crowd.cells) + 1
    there = digits_of(clue.candidates[far])
    near = mask_of(
        digit
        for digit in digits_of(clue.candidates[end])
        if all(abs(digit - other) < apart for other in there)
    )
    if near and apart > 2:
        said = clue.says("too-near", number=len(crowd.cells), bound=apart, cells=(far,))
        yield ClueFinding(((end, near),), (far,), said, crowd.rules)


def _without_room(clue: Clue, end: int, far: int) -> Iterator[ClueFinding]:
    """Yield what leaves the cells between too few different digits on the side where the other end can be."""
    crowd, gone = crowd_in(clue.layout, clue.rule.inner), 0
    for digit in digits_of(clue.candidates[end]):
        rooms = [
            clue.above(min(digit, other)) & clue.below(max(digit, other))
            for other in digits_of(clue.candidates[far])
        ]
        if not any(_holds(clue, crowd.cells, room) for room in rooms):
            gone |= 1 << digit
    if gone:
        said = clue.says("without-room", digits=gone, cells=clue.rule.inner)
        yield ClueFinding(((end, gone),), (*clue.rule.inner, far), said, crowd.rules)


def _holds(clue: Clue, crowd: tuple[int, ...], room: int) -> bool:
    """Whether all inner cells take a digit of a room, and those of a crowd as many as they are."""
    masks = {cell: clue.open_in(cell, room) for cell in clue.rule.inner}
    together = reduce(or_, (masks[cell] for cell in crowd))
    return all(masks.values()) and together.bit_count() >= len(crowd)


ENCLOSED_BOUNDS = Technique("enclosed-bounds", "bounds between two ends", find_enclosed_bounds)
ENCLOSING_ENDS = Technique("enclosing-ends", "ends around what lies between", find_enclosing_ends)
