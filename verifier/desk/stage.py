"""The stage: a walk step by step, as much of each step as is wanted, and the grid of an audience."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from grader.board.steps import WalkStep
from grader.grading.replay import Outcome
from grader.walking.walk import Walk
from grader.words.narrate import tell, what_to_do, where_to_look
from verifier.desk import wording
from verifier.desk.wishes import PageWish, RefusedError
from verifier.files.so_far import SoFar
from verifier.pages.drawing.highlight import NOTHING, Highlight, highlight_of
from verifier.pages.drawing.svg import Picture, drawing
from verifier.pages.telling import marks_on, written_on
from verifier.pages.wording import grid_label
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import Puzzle
from verifier.walkthrough.help_text import help_in_words
from verifier.walkthrough.helping import Help
from verifier.walkthrough.strength import Strength

__all__ = ["grid_shown", "help_shown", "so_far_in", "step_shown", "strength_in"]


def step_shown(
    puzzle: Puzzle, walked: Walk, number: int, strength: Strength, *, marks: bool
) -> dict[str, Any]:
    """Return what the stage shows of a walk.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    walked : Walk
        Its walk.
    number : int
        Which step, from 1; 0 for the puzzle as set, one past the last for its end.
    strength : Strength
        How much of it: where to look, what to do, or why as well, which alone points at cells.
    marks : bool
        Whether to show the open digits of all cells.
    """
    count = len(walked.steps)
    facts = {"step": number, "count": count, "ends": number > count}
    if not 0 < number <= count:
        written = _written_at_the_end(walked) if number else {}
        says = [_at_the_end(walked) if number else _at_the_start(walked)]
        return facts | {"says": says, "svg": drawing(Picture(puzzle, written), says[0])}
    taken = walked.steps[number - 1]
    told = step_told(walked, taken, strength)
    cells = walked.layout.all_cells if marks else taken.step.cells if strength is Strength.WHY else 0
    highlight = highlight_of(taken.step, puzzle) if strength is Strength.WHY else NOTHING
    picture = Picture(puzzle, written_on(taken.board), marks_on(taken.board, cells), highlight)
    return facts | {"says": [told], "svg": drawing(picture, told)}


def _written_at_the_end(walked: Walk) -> Mapping[int, int]:
    if walked.filling is not None or not walked.steps:
        return dict(enumerate(walked.filling or ()))
    last = walked.steps[-1]
    return written_on(last.board.after([last.step]))


def _at_the_start(walked: Walk) -> str:
    there = walked.outcome is Outcome.SOLVED
    return filled(wording.AT_THE_START if there else wording.AT_THE_START_OF_PART, count=len(walked.steps))


def _at_the_end(walked: Walk) -> str:
    match walked.outcome:
        case Outcome.SOLVED:
            return wording.AT_THE_END
        case Outcome.CONTRADICTION:
            return wording.AT_A_CONTRADICTION
    return wording.AT_A_STOP


def grid_shown(puzzle: Puzzle, so_far: SoFar) -> dict[str, Any]:
    """Return the grid of an audience as it stands."""
    written = dict(so_far.entries)
    says = grid_label(puzzle, len(puzzle.givens) + len(written))
    return {"says": [wording.GRID_OF_AUDIENCE], "svg": drawing(Picture(puzzle, written), says)}


def step_told(walked: Walk, taken: WalkStep, strength: Strength) -> str:
    """Return as much of a step as is wanted."""
    match strength:
        case Strength.WHERE:
            return where_to_look(taken.step, walked.layout)
        case Strength.WHAT:
            return what_to_do(taken.step, walked.layout, taken.board)
    return tell(taken.step, walked.layout, taken.board)


def so_far_in(puzzle: Puzzle, wish: PageWish) -> SoFar:
    """Return what an audience has in its grid."""
    digits = wish.row("digits", puzzle.grid.cell_count)
    if any(not 0 <= digit <= puzzle.grid.digits for digit in digits):
        raise RefusedError(wording.STRANGE_CELLS)
    givens = dict(puzzle.givens)
    return SoFar(tuple((cell, digit) for cell, digit in enumerate(digits) if digit and cell not in givens))


def strength_in(wish: PageWish) -> Strength:
    """Return how much of a step a page wants to be told; all of it where it does not say."""
    said = wish.text("strength", 10) if "strength" in wish else Strength.WHY.value
    return next((each for each in Strength if each.value == said), Strength.WHY)


def help_shown(given: Help, strength: Strength) -> dict[str, Any]:
    """Return what there is to say about the grid of an audience, and the picture that goes with it."""
    says = help_in_words(given, strength)
    written: Mapping[int, int] = dict(given.so_far.entries)
    highlight, marks = NOTHING, {}
    if given.mistakes and strength is not Strength.WHERE:
        highlight = Highlight(swings=tuple(mistake.cell for mistake in given.mistakes))
    elif given.steps and strength is Strength.WHY:
        first = given.steps[0]
        highlight, marks = highlight_of(first.step, given.puzzle), marks_on(first.board, first.step.cells)
    return {"says": says, "svg": drawing(Picture(given.puzzle, written, marks, highlight), " ".join(says))}
