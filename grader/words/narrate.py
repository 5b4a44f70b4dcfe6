"""Tell a step as one would say it aloud: the evidence, then what follows.

The sentences stand in `grader/words/wording/`, the fields in their braces in `grader.words.fields`.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import reduce
from operator import or_

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import ClueSaid
from grader.board.steps import Step
from grader.ladder import TECHNIQUES
from grader.reasoning.arguments import Reason, reason_of
from grader.words.effects import effect_in_words
from grader.words.fields import Fields, Told, why_in_words
from grader.words.phrases import (
    cage_in_words,
    houses_in_words,
    sentence,
)
from grader.words.variants import variant_of
from grader.words.wording import evidence, reason_words

__all__ = ["reason_told", "tell", "told_by", "what_to_do", "where_to_look"]


def tell(step: Step, layout: Layout, board: Board | None = None, *, heard: Collection[object] = ()) -> str:
    """Return the step as one says it, in one sentence or two.

    Parameters
    ----------
    step : Step
        Any step of a replay or walk of the puzzle.
    layout : Layout
        The puzzle's layout.
    board : Board, optional
        The board on which the step is taken. With it, digits that are known by then, open combinations
        and the lines of chains are told as well.
    heard : collection, optional
        What has been told before, by `told_by`: a reason is not told again.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.subsets import find_naked_pairs
    >>> board = board_from_text("37 5 379 37 1 2 4 6 8")
    >>> print(tell(next(find_naked_pairs(board)), board.layout))
    r1c1 and r1c4 take 3 and 7 of row 1 between them: 3 and 7 go from r1c3.
    """
    told = Told(step, layout, board, told_by(step, layout, board) in heard)
    template = variant_of(told) or evidence.EVIDENCE[step.technique]
    if "{effect}" not in template and not template.endswith("."):
        template += reason_words.SO if "{why}" in template and why_in_words(told) else evidence.THEN
    return sentence(template.removesuffix(".").format_map(Fields(told)))


def reason_told(step: Step, board: Board) -> Reason | None:
    """Return why a step holds, as its sentence tells it; none where that is plain from what it cites."""
    return reason_of(step, board)


def told_by(step: Step, layout: Layout, board: Board | None) -> object:
    """Return what is known after a step, if it tells that: the cage, and its combinations that are left."""
    reason = None if board is None else reason_of(step, board)
    if board is None or reason is None or not reason.left:
        return None
    filled = reduce(or_, (board.candidates[cell] for cell in reason.rest.filled), 0)
    return layout.cages_among(step.rules), tuple(combination | filled for combination in reason.left)


def where_to_look(step: Step, layout: Layout) -> str:
    """Say where the next step is to be found, a house, a cage or a clue, and no more."""
    houses, cages = layout.houses_among(step.rules), layout.cages_among(step.rules)
    if step.sums:
        added = {house for derived in step.sums for house in layout.houses_among(derived.rules)}
        return evidence.ADD_UP.format(houses=houses_in_words(sorted(added), layout) or evidence.THE_CAGES)
    if cages:
        return evidence.LOOK_AT.format(what=cage_in_words(cages[0], layout))
    if isinstance(step.pattern, ClueSaid):
        return evidence.LOOK_AT.format(what=layout.rules[step.pattern.clue].called(layout.grid))
    around = sorted(layout.houses_of[step.focus[0]], key=lambda house: layout.houses[house].kind != "box")
    house = houses_in_words((houses or tuple(around))[:1], layout)
    return evidence.LOOK_AT.format(what=house or layout.grid.cell_name(step.focus[0]))


def what_to_do(step: Step, layout: Layout, board: Board) -> str:
    """Say what the next step does, and what it is called, without its reason."""
    return sentence(f"{TECHNIQUES[step.technique].name}: {effect_in_words(step, layout, board)}")
