"""Marks, lines and clues at the edge, told: which sentence it is says the step, its facts are its pattern."""

from __future__ import annotations

from collections.abc import Sequence

from grader.board.layout import Layout
from grader.board.patterns import ClueSaid
from grader.board.steps import Step
from grader.words.effects import gone_digits, never_in_words
from grader.words.phrases import (
    cells_in_words,
    dead_end_in_words,
    digits_in_words,
    houses_in_words,
    list_in_words,
)
from grader.words.wording import clue_words, pattern_words
from verifier.puzzle.printable import filled

__all__ = ["clue_in_words"]

_WAYS_AT_MOST = 6
"""So many ways are told one by one."""


def clue_in_words(step: Step, layout: Layout) -> str:
    """Return the evidence of a step that rests on a clue.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.clues.rising_lines import find_rising_bounds
    >>> from verifier.puzzle.rules.lines.thermometer import Thermometer
    >>> board = board_from_text("", size=6, clues=[Thermometer((0, 1, 2))])
    >>> clue_in_words(next(find_rising_bounds(board)), board.layout)
    'three cells rise from r1c1, so it is at most 4'
    """
    said = step.pattern
    assert isinstance(said, ClueSaid), "only steps of clues are told so"
    return filled(
        clue_words.CLUES[said.how],
        clue=layout.rules[said.clue].called(layout.grid),
        cell=cells_in_words(step.focus[:1], layout),
        cells=cells_in_words(step.focus, layout),
        or_cells=cells_in_words(step.focus, layout, "or"),
        be="is" if len(step.focus) == 1 else "are",
        house=houses_in_words(layout.houses_among(step.rules)[:1], layout),
        named=cells_in_words(said.cells, layout),
        first_named=cells_in_words(said.cells[:1], layout),
        last_named=cells_in_words(said.cells[-1:], layout),
        or_named=cells_in_words(said.cells, layout, "or"),
        make="is" if len(said.cells) == 1 else "make",
        bound=said.bound,
        number=_count(said.number),
        few=_count(said.bound),
        count=said.number,
        fewer=said.total - 1,
        total=said.total,
        digits=digits_in_words(said.digits or step.digits),
        or_digits=digits_in_words(said.digits or step.digits, "or"),
        gone=digits_in_words(gone_digits(step), "or"),
        never=never_in_words(step, layout),
        ways=_ways(said.ways),
        sets=_sets(said.ways, layout),
        ends=list_in_words([dead_end_in_words(end, layout) for end in said.ends], "or"),
        room=_room(said.ways[0] if said.ways else ()),
    )


def _count(number: int) -> str:
    """Return a small number in words, so that it is not taken for a digit."""
    return pattern_words.COUNTS[number] if number < len(pattern_words.COUNTS) else str(number)


def _room(counts: Sequence[int]) -> str:
    """Tell of how many cells something can be: ``two or three cells``."""
    told = list_in_words([_count(count) for count in counts], "or")
    return f"{told} {'cell' if counts == (1,) else 'cells'}"


def _ways(ways: Sequence[Sequence[int]]) -> str:
    """Tell the ways to fill cells, digit by digit."""
    return list_in_words(["-".join(map(str, way)) for way in ways], "or")


def _sets(ways: Sequence[Sequence[int]], layout: Layout) -> str:
    """Tell sets of digits; of more than a person wants to hear, only that there are so many."""
    if len(ways) > _WAYS_AT_MOST:
        return filled(clue_words.SO_MANY_SETS, count=len(ways))
    join = "" if layout.grid.digits < 10 else "-"
    return list_in_words([join.join(map(str, way)) if way else clue_words.NOTHING for way in ways], "or")
