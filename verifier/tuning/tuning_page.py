"""What came of a wish, and a comparison, as pages with pictures before and after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from verifier.diagnosis.repairs.changes import Change
from verifier.pages.versions_page import Version, versions_page
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning import wording
from verifier.tuning.answers import Tuning, TuningAnswer
from verifier.tuning.comparing import VersionsCompared
from verifier.tuning.portrait import lines_of
from verifier.tuning.tuning_text import changes_in_words, what_came_of_it, what_stands_in_the_way

__all__ = ["comparison_page", "tuning_page"]


def tuning_page(tuning: Tuning, *, more: int | None) -> str:
    """Return the page of what came of a wish; `more` is as in `tuning_in_words`."""
    name = _name(tuning.before.puzzle)
    versions = [
        _way(tuning, filled(wording.A_WAY, rank=rank), answer)
        for rank, answer in enumerate(tuning.answers, start=1)
    ]
    if tuning.nearest:
        nearest = _way(tuning, wording.NEAREST, tuning.nearest[0])
        versions = [replace(nearest, says=tuple(what_stands_in_the_way(tuning, more))[1:])]
    title = filled(wording.TITLE, name=name)
    alone = Version("", (), tuning.before.puzzle, None, ())
    return versions_page(title, list(what_came_of_it(tuning)), versions or [alone])


def _way(tuning: Tuning, heading: str, answer: TuningAnswer) -> Version:
    before, after = lines_of(tuning.before), lines_of(answer)
    rows = tuple((about, before.get(about, ""), says) for about, says in after.items())
    return Version(
        heading,
        (changes_in_words(tuning.before.puzzle.grid, answer.changes),),
        tuning.before.puzzle,
        answer.puzzle,
        _seen_at(answer.changes),
        (("", wording.BEFORE, wording.AFTER), *rows),
    )


def _seen_at(changes: Sequence[Change]) -> tuple[int, ...]:
    return tuple(sorted({cell for change in changes for cell in change.seen_at}))


def _name(puzzle: Puzzle) -> str:
    return puzzle.credits.title or puzzle.credits.id


def comparison_page(found: VersionsCompared, names: tuple[str, str]) -> str:
    """Return the page of a comparison; `names` are what the two are called."""
    title = filled(wording.COMPARISON, first=names[0], second=names[1])
    table = (("", *names), *found.lines, (wording.BY_TECHNIQUE, "", ""), *found.techniques)
    version = Version("", (), found.first.puzzle, found.second.puzzle, _seen_at(found.changes or ()), table)
    return versions_page(title, list(found.says()), [version], names)
