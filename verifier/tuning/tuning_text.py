"""What came of a wish, as text for the setter."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import fill

from verifier.diagnosis.repairs.changes import Change
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import filled
from verifier.tuning import wording
from verifier.tuning.answers import Ending, Tuning, TuningAnswer
from verifier.tuning.portrait import in_short, lines_of, technique_name
from verifier.tuning.wish import WishPart
from verifier.tuning.wish_in_words import missed_in_words, wish_in_words

__all__ = ["as_sentence", "changes_in_words", "tuning_in_words", "what_came_of_it", "what_stands_in_the_way"]

_WIDTH = 100
_TOLD = (wording.BREAK_IN, wording.NARROW, wording.SYMMETRY, wording.REMARKS)
"""The lines of a puzzle that are told with each way."""
_TAKEN_AWAY = {WishPart.GIVENS: "given", WishPart.CAGES: "cage"}
"""Of what a change takes away one at most."""


def tuning_in_words(tuning: Tuning, *, more: int | None) -> str:
    """Return all there is to say, as a text that ends with a line break.

    Parameters
    ----------
    tuning : Tuning
        What came of the wish.
    more : int or None
        With how many changes at once the search could go on, if it could.
    """
    return "".join(f"{line}\n" for line in _lines(tuning, more))


def _lines(tuning: Tuning, more: int | None) -> Iterator[str]:
    yield from what_came_of_it(tuning)
    for rank, answer in enumerate(tuning.answers, start=1):
        yield ""
        yield from _way(tuning, rank, answer)
    if tuning.nearest:
        yield ""
        yield from map(_folded, what_stands_in_the_way(tuning, more))


def what_came_of_it(tuning: Tuning) -> Iterator[str]:
    """Yield what was wished for, what the puzzle is like, and how the search went, a sentence each."""
    yield wish_in_words(tuning.wish)
    yield filled(wording.AS_IT_STANDS, portrait=in_short(tuning.before.verdict.difficulty))
    if tuning.ending is Ending.ALREADY:
        yield wording.ALREADY
        return
    tried = wording.TRIED_ALL_KEPT if tuning.kept == tuning.tried else wording.TRIED
    yield filled(tried, tried=tuning.tried, kept=tuning.kept)
    if not tuning.answers:
        yield wording.NOTHING_FOUND[tuning.ending]
        return
    if tuning.ending in wording.CUT_SHORT:
        yield wording.CUT_SHORT[tuning.ending]
    yield filled(wording.FOUND, found=len(tuning.answers))


def _way(tuning: Tuning, rank: int, answer: TuningAnswer) -> Iterator[str]:
    grid = tuning.before.puzzle.grid
    yield fill(
        changes_in_words(grid, answer.changes),
        _WIDTH,
        initial_indent=f"{rank:>3}. ",
        subsequent_indent="     ",
    )
    yield _folded(as_sentence(in_short(answer.verdict.difficulty)))
    lines = lines_of(answer)
    for about in _TOLD:
        if lines.get(about, wording.NONE) not in (wording.NONE, wording.NOWHERE):
            yield _folded(f"{about}: {lines[about]}")


def _folded(text: str) -> str:
    return fill(text, _WIDTH, initial_indent="     ", subsequent_indent="     ")


def as_sentence(part: str) -> str:
    """Return what `in_short` says as a sentence of its own."""
    return f"{part[:1].upper()}{part[1:]}."


def changes_in_words(grid: Grid, changes: Sequence[Change]) -> str:
    """Return what is to be done, a sentence each."""
    return " ".join(change.says(grid) for change in changes)


def what_stands_in_the_way(tuning: Tuning, more: int | None) -> Iterator[str]:
    """Yield what comes nearest where nothing meets the wish, and why it does not."""
    nearest = tuning.nearest[0]
    yield f"{wording.NEAREST}:"
    yield changes_in_words(tuning.before.puzzle.grid, nearest.changes)
    yield as_sentence(in_short(nearest.verdict.difficulty))
    yield filled(wording.BUT, missed=missed_in_words(nearest.gaps))
    yield from _why(tuning, nearest)
    for gap in nearest.gaps:
        if gap.part is WishPart.STYLE:
            yield str(gap.facts["says"])
        if gap.part in _TAKEN_AWAY and gap.far > 1:
            yield filled(wording.GO_ON, noun=_TAKEN_AWAY[gap.part])
    if more is not None:
        yield filled(wording.MORE_CHANGES, more=more)


def _why(tuning: Tuning, nearest: TuningAnswer) -> Iterator[str]:
    difficulty, missed = nearest.verdict.difficulty, {gap.part for gap in nearest.gaps}
    if difficulty is None or difficulty.tier is None or difficulty.break_in is None:
        return
    wish, effort = tuning.wish, difficulty.effort or 0
    too_hard = wish.tiers and difficulty.tier > max(wish.tiers)
    if too_hard or difficulty.hardest in wish.without:
        yield filled(wording.HARD_STEP, says=difficulty.break_in.says)
    elif wish.effort is not None and effort > wish.effort[1]:
        yield filled(wording.HARDEST_STEP, says=difficulty.break_in.says)
    elif missed & {WishPart.TIERS, WishPart.HAVING, WishPart.EFFORT} and difficulty.hardest:
        yield filled(wording.TOO_EASY, technique=technique_name(difficulty.hardest))
