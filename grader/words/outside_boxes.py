"""The law of leftovers, told: which boxes nearly fill which lines, and what that says of the other cells."""

from __future__ import annotations

from grader.board.layout import Layout
from grader.board.patterns import Leftovers
from grader.board.steps import Step
from grader.words.phrases import cells_in_words, digits_in_words, houses_in_words
from grader.words.wording import sum_words

__all__ = ["leftovers_in_words"]


def leftovers_in_words(step: Step, layout: Layout) -> str:
    """Return the evidence of the law of leftovers.

    Examples
    --------
    >>> from grader.board.layout import layout_of
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> layout = layout_of(make_puzzle("classic", Grid.square(4)))
    >>> told = Leftovers("closed", (0,), (8,), here=(4, 5), there=(2, 3))
    >>> step = Step("law-of-leftovers", removes=((4, 4),), looks=(2, 3), digits=4, pattern=told)
    >>> leftovers_in_words(step, layout).split(", so ")[1]
    'both hold the same digits. 2 has no place in r1c3 and r1c4'
    """
    left = step.pattern
    assert isinstance(left, Leftovers), "the law of leftovers is told of such cells"
    one = len(left.boxes) == 1
    in_lines = any(left.here[0] in layout.houses[line].cells for line in left.lines)
    within, beyond = (left.here, left.there) if in_lines else (left.there, left.here)
    one_each = len(beyond) == 1
    frame = sum_words.LEFTOVER_CELLS if one_each else sum_words.LEFTOVERS + sum_words.LEFT_OVER[left.how]
    return frame.format(
        boxes=houses_in_words(left.boxes, layout),
        lines=houses_in_words(left.lines, layout),
        fill="fills" if one else "fill",
        stick="sticks" if one else "stick",
        beyond=cells_in_words(beyond, layout),
        within=cells_in_words(within, layout),
        digits=digits_in_words(step.digits, "or" if left.how == "closed" else "and"),
        has="has" if not step.digits & (step.digits - 1) else "have",
        there=cells_in_words(left.there, layout),
        known=cells_in_words(left.known, layout),
        found=cells_in_words(left.found, layout, "or"),
    )
