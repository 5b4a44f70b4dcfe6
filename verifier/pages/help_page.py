"""The page for somebody who is stuck: what is wrong in a part-filled grid, and the way to the next digit."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from grader.grading.replay import Outcome
from grader.walking.walk import Walk
from verifier.pages import wording
from verifier.pages.drawing.highlight import Highlight, clues_among
from verifier.pages.drawing.svg import Picture
from verifier.pages.walkthrough import walk_page
from verifier.puzzle.puzzle import Puzzle
from verifier.walkthrough.help_text import doubts, what_is_right
from verifier.walkthrough.helping import Help
from verifier.walkthrough.wrong.mistakes import MOST_REFUTED, Mistake
from verifier.walkthrough.wrong.mistakes_in_words import mistake_in_words, slip_in_words

__all__ = ["help_page"]


def help_page(given: Help, voice: Callable[[str], str] = str) -> str:
    """Return what there is to say about a part-filled grid as one HTML file: a walk from there on.

    Parameters
    ----------
    given : Help
        What there is to say.
    voice : callable, optional
        How each text is said, such as `verifier.walkthrough.spoken.spoken`.
    """
    walked = Walk(given.board.layout, Outcome.STUCK, None, given.steps)
    return walk_page(
        given.puzzle,
        walked,
        head=[*_head(given), *doubts(given)],
        story_name=wording.NEXT_DIGIT,
        start=given.board,
        wrong=list(_wrong(given)),
        voice=voice,
    )


def _head(given: Help) -> Iterator[str]:
    """Yield what is said before the pictures of what is wrong."""
    yield from what_is_right(given) if given.slip is None else (slip_in_words(given.slip),)


def _wrong(given: Help) -> Iterator[tuple[str, Picture]]:
    """Yield each mistake with its picture: the cell, and the house or cage that rules its digit out."""
    puzzle, written = given.puzzle, dict(given.so_far.entries)
    marks = {cell: sum(1 << digit for digit in marked) for cell, marked in given.so_far.marks}
    for mistake in given.mistakes[:MOST_REFUTED]:
        says = mistake_in_words(puzzle, mistake, given.mistakes)
        yield says, Picture(puzzle, written, marks, _pointed(mistake, puzzle))


def _pointed(mistake: Mistake, puzzle: Puzzle) -> Highlight:
    rules = mistake.why.rules if mistake.why else ()
    numbers = [puzzle.premises.index(rule) for rule in rules]
    first = len(puzzle.full_houses)
    return Highlight(
        houses=tuple(number for number in numbers if number < first),
        cages=clues_among(numbers, puzzle),
        looks=tuple(cell for cell, _ in mistake.why.beside) if mistake.why else (),
        swings=(mistake.cell,),
    )
