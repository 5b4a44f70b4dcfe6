"""The verdict page: what was decided about a puzzle and why, in words and pictures."""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from grader.grading.grade import Grade, grade
from grader.grading.replay import Replay, replay
from grader.grading.tiers import TierTable, default_tiers
from verifier.diagnosis import wording as diagnosis_wording
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.findings import Diagnosis
from verifier.diagnosis.repairs.changes import changed
from verifier.diagnosis.repairs.mends import Mend
from verifier.evidence.wording import WITNESSES
from verifier.pages import wording
from verifier.pages.drawing.chart import Bar, strip_chart
from verifier.pages.drawing.highlight import Highlight, highlight_of
from verifier.pages.drawing.svg import Picture, drawing
from verifier.pages.rule_key import key_of_rules
from verifier.pages.styling import page
from verifier.pages.telling import marks_on, technique_names, written_on
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.verdict import Difficulty, Rows, Verdict
from verifier.walkthrough.wording import effort_in_words

__all__ = ["chart_of_rounds", "page_of_verdict", "verdict_page"]

_SECONDS_FOR_REPAIRS = 10.0
_SECONDS_FOR_A_CHART = 60.0

_GRIDS = "grids"
"""The fact of a finding that holds two solutions."""

_MOST_MENDS = 4
"""Repairs that get pictures; the others are told in words."""


@dataclass(frozen=True, slots=True)
class _Panel:
    """A picture with what stands below it."""

    picture: Markup
    caption: str


@dataclass(frozen=True, slots=True)
class _Finding:
    """Something that is wrong, with the steps that lead there, if there are any."""

    says: str
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Repair:
    """A repair: what to do, and the puzzle before and after, if there is room for pictures."""

    says: str
    panels: tuple[_Panel, ...]


def page_of_verdict(
    puzzle: Puzzle, verdict: Verdict, style: HouseStyle, *, repairs: bool = False, mark: str = ""
) -> str:
    """Return the page of a verdict: a sound puzzle with its chart, a broken one with `repairs` if wanted."""
    graded = verdict.difficulty is not None and verdict.difficulty.beyond is None
    unsound = verdict.difficulty is None and verdict.solutions.count != 1
    broken = repairs and (unsound or verdict.is_broken)
    return verdict_page(
        puzzle,
        verdict,
        played=replay(puzzle, deadline=time.monotonic() + _SECONDS_FOR_A_CHART) if graded else None,
        diagnosis=diagnose(puzzle, _SECONDS_FOR_REPAIRS) if broken else None,
        tiers=style.tiers_to_grade_with(),
        mark=mark,
    )


def verdict_page(
    puzzle: Puzzle,
    verdict: Verdict,
    *,
    played: Replay | None = None,
    diagnosis: Diagnosis | None = None,
    tiers: TierTable | None = None,
    mark: str = "",
) -> str:
    """Return the verdict on a puzzle as one HTML file.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    verdict : Verdict
        The verdict on it.
    played : Replay, optional
        Its replay, for the chart and the picture of the break-in.
    diagnosis : Diagnosis, optional
        What is wrong with it, and repairs.
    tiers : TierTable, optional
        The tiers that the verdict speaks of; those of the grader when absent.
    mark : str, optional
        Of what the page was made; see `verifier.pages.styling.mark_of`.

    Returns
    -------
    str
        Every text from the file is escaped; the page loads nothing and runs nothing.
    """
    table = tiers or default_tiers()
    examples = _examples(verdict, diagnosis)
    graded = grade(played, table) if played is not None and verdict.difficulty is not None else None
    return page(
        "verdict.html.j2",
        puzzle,
        styles=["verdict.css"],
        mark=mark,
        name=wording.name_of(puzzle),
        by_line=wording.by_line(puzzle),
        **key_of_rules(puzzle),
        verdict=verdict,
        summary=wording.summary(verdict),
        remarks_reject_nothing=wording.REMARKS,
        panels=list(_solutions(puzzle, verdict, examples)),
        swings=[(puzzle.grid.cell_name(cell), a, b) for cell, a, b in _swings(examples)],
        findings=list(_findings(diagnosis)) if diagnosis else [],
        repairs=[_repair(puzzle, n, mend) for n, mend in enumerate(diagnosis.mends if diagnosis else ())],
        names=technique_names(),
        witnesses=WITNESSES,
        effort_says=_effort(verdict.difficulty, puzzle.kind) if verdict.difficulty else "",
        chart=chart_of_rounds(played, table) if played is not None and graded is not None else None,
        chart_says=wording.CHART_ROUNDS.format(tiers=table.last),
        break_in=_break_in(puzzle, played, graded),
        meanings={**wording.KEY, "focus": wording.KEY["changed"]} if diagnosis else wording.KEY,
        plain_meanings=wording.KEY,
    )


def _examples(verdict: Verdict, diagnosis: Diagnosis | None) -> Sequence[Rows]:
    """Return two solutions: the two most different ones, if there is a diagnosis that looked for them."""
    for finding in diagnosis.findings if diagnosis else ():
        if _GRIDS in finding.facts:
            return tuple(finding.facts[_GRIDS])
    return verdict.solutions.examples[:2]


def _findings(diagnosis: Diagnosis) -> Iterator[_Finding]:
    """Yield what was found; not the number of solutions, nor two of them: the page has those elsewhere."""
    for finding in diagnosis.findings[1:]:
        if _GRIDS not in finding.facts:
            yield _Finding(finding.says, tuple(finding.facts.get("steps", ())))


def _solutions(puzzle: Puzzle, verdict: Verdict, examples: Sequence[Rows]) -> Iterator[_Panel]:
    """Yield the puzzle as set, and its solution or two of them."""
    label = wording.grid_label(puzzle, len(puzzle.givens))
    yield _Panel(drawing(Picture(puzzle), label), wording.AS_SET)
    full = wording.grid_label(puzzle, puzzle.grid.cell_count)
    if verdict.solutions.grid is not None:
        yield _Panel(drawing(_filled(puzzle, verdict.solutions.grid), full), wording.SOLUTION)
    swings = Highlight(swings=tuple(cell for cell, _, _ in _swings(examples)))
    for number, rows in enumerate(examples, start=1):
        yield _Panel(drawing(_filled(puzzle, rows, swings), full), wording.EXAMPLE.format(number=number))


def _filled(puzzle: Puzzle, rows: Rows, highlight: Highlight | None = None) -> Picture:
    digits = dict(enumerate(digit for row in rows for digit in row))
    return Picture(puzzle, digits, highlight=highlight or Highlight())


def _swings(examples: Sequence[Rows]) -> Iterator[tuple[int, int, int]]:
    """Yield the cells that differ between two solutions, with their digits in both."""
    if len(examples) == 2:
        one, other = ([digit for row in rows for digit in row] for rows in examples)
        pairs = enumerate(zip(one, other, strict=True))
        yield from ((cell, a, b) for cell, (a, b) in pairs if a != b)


def _repair(puzzle: Puzzle, number: int, mend: Mend) -> _Repair:
    says = diagnosis_wording.mend(puzzle.grid, mend)
    if number >= _MOST_MENDS:
        return _Repair(says, ())
    marked = Highlight(focus=tuple(sorted({cell for change in mend.changes for cell in change.seen_at})))
    after = changed(puzzle, mend.changes)
    return _Repair(
        says,
        tuple(
            _Panel(drawing(Picture(shown, highlight=marked), f"{caption}: {says}"), caption)
            for shown, caption in ((puzzle, wording.BEFORE), (after, wording.AFTER))
        ),
    )


def _effort(difficulty: Difficulty, kind: str) -> str:
    if difficulty.effort is None:
        return ""
    minutes = difficulty.minutes
    bounds = None if minutes is None else (minutes.middle, minutes.least, minutes.most)
    return effort_in_words(difficulty.effort, kind, bounds)


def chart_of_rounds(played: Replay, tiers: TierTable) -> Markup:
    """Return the strip of a solve in rounds: how hard each is, and how many places are open in it."""
    names = technique_names()
    bars = []
    for number, each in enumerate(played.rounds, start=1):
        tier, name = tiers.tier_of[each.technique], names[each.technique]
        bars.append(Bar(tier, each.width, wording.bar_of_round(number, name, tier, each.width)))
    hardest = max(played.rounds, key=lambda each: list(names).index(each.technique), default=None)
    if hardest is None:
        return Markup("")
    narrow = sum(each.width == 1 for each in played.rounds)
    label = wording.chart_label(
        len(played.rounds), names[hardest.technique], tiers.tier_of[hardest.technique], narrow
    )
    return strip_chart(bars, tiers.last, label, played.rounds.index(hardest) + 1)


def _break_in(puzzle: Puzzle, played: Replay | None, graded: Grade | None) -> _Panel | None:
    if played is None or graded is None or graded.break_in is None:
        return None
    board, step = played.rounds[graded.break_in.round - 1].board, graded.break_in.step
    picture = Picture(puzzle, written_on(board), marks_on(board, step.cells), highlight_of(step, puzzle))
    caption = wording.ROUND.format(number=graded.break_in.round)
    return _Panel(drawing(picture, caption), caption)
