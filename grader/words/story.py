"""A walk told as a presenter would: chapters, paragraphs, and runs of easy singles in one breath."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step, WalkStep
from grader.board.technique import Trait
from grader.ladder import TECHNIQUES
from grader.walking.stages import Stage
from grader.words.narrate import tell, told_by
from grader.words.phrases import sentence
from grader.words.runs import runs_in_words, single_cages_in_words, totals_in_words
from grader.words.wording import walk_words
from verifier.puzzle.printable import counted

__all__ = ["Paragraph", "Part", "paragraphs_of", "story"]


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Some steps told together.

    Parameters
    ----------
    first, last : int
        Their numbers in the walk, counted from 1.
    text : str
        One sentence or a few.
    """

    first: int
    last: int
    text: str

    @property
    def numbers(self) -> str:
        """The numbers as people write them: ``7``, or ``7-9``."""
        return str(self.first) if self.first == self.last else f"{self.first}-{self.last}"


@dataclass(frozen=True, slots=True)
class Part:
    """One chapter, told.

    Parameters
    ----------
    title : str
        Its heading.
    lead : str
        What it is about, in one line; empty where that is said elsewhere.
    paragraphs : tuple of Paragraph
        In order.
    board : Board
        The board on which it begins.
    """

    title: str
    lead: str
    paragraphs: tuple[Paragraph, ...]
    board: Board


def story(stages: Sequence[Stage], layout: Layout) -> tuple[Part, ...]:
    """Tell the stages of a walk, each in a chapter.

    Examples
    --------
    >>> from grader.walking.walk import walk
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> walked = walk(make_puzzle("classic", Grid.square(4), givens=givens))
    >>> part, = story(walked.stages, walked.layout)
    >>> part.title
    'From beginning to end'
    >>> print(part.paragraphs[0].numbers, part.paragraphs[0].text)
    1-2 Now the rest of box 2 falls: r1c4 is 4, the last digit of row 1; and 1 is left for r2c3.
    """
    titles = dict(walk_words.CHAPTER_TITLES)
    if all(stage.name != "break-in" for stage in stages):
        titles.update(walk_words.NO_BREAK_IN)
    if len(stages) == 1:
        titles[stages[0].name] = walk_words.ONE_CHAPTER
    heard: set[object] = set()
    return tuple(
        Part(
            titles[stage.name],
            _idea(stage, layout, alone=len(stages) == 1),
            paragraphs_of(stage.steps, layout, stage.first, heard),
            stage.steps[0].board,
        )
        for stage in stages
    )


def _idea(stage: Stage, layout: Layout, *, alone: bool) -> str:
    """Return what a chapter is about, in one line; `alone` where there is no other."""
    placed = [place for taken in stage.steps for place in taken.step.places]
    template = walk_words.IDEAS[stage.name][not placed]
    if alone and all(taken.step.places for taken in stage.steps):
        template = walk_words.ONE_IDEA
    first = f"{placed[0][1]} in {layout.grid.cell_name(placed[0][0])}" if placed else ""
    technique = TECHNIQUES[stage.steps[0].step.technique].name
    return sentence(template.format(digits=counted(len(placed), "digit"), technique=technique, first=first))


def paragraphs_of(
    steps: Sequence[WalkStep], layout: Layout, first: int = 1, heard: set[object] | None = None
) -> tuple[Paragraph, ...]:
    """Tell steps that follow one another.

    Parameters
    ----------
    steps : sequence of WalkStep
        In the order of the walk.
    layout : Layout
        The puzzle's layout.
    first : int, optional
        The number of the first of them.
    heard : set, optional
        What has been told before, of which no reason is told again; what is told now is added.
    """
    heard = set() if heard is None else heard
    told: list[Paragraph] = []
    for in_one_breath, together in groupby(steps, _breath_of(steps)):
        begun = first
        texts = []
        for kind, group in groupby(together, _kind):
            for count, text in _tellers[kind](list(group), layout, heard):
                told.append(Paragraph(first, first + count - 1, text))
                texts.append(text)
                first += count
        if in_one_breath:
            told[-len(texts) :] = [Paragraph(begun, first - 1, " ".join(texts))]
    return tuple(told)


def _breath_of(steps: Sequence[WalkStep]) -> Callable[[WalkStep], int]:
    """Return what says the breath of a step that shares it with others, and 0 of any other."""
    count = Counter(taken.breath for taken in steps)
    return lambda taken: taken.breath if count[taken.breath] > 1 else 0


def _kind(taken: WalkStep) -> str:
    step = taken.step
    if step.technique == "last-cell-of-cage" and not step.looks:
        return "single-cages"
    if Trait.EASY_DIGIT in TECHNIQUES[step.technique].traits and step.places:
        return "run"
    whole = step.technique == "single-combination" and not step.looks
    return "totals" if whole else "alone"


_Told = Iterator[tuple[int, str]]
"""How many steps each text tells, and the text."""


def _alone(steps: Sequence[WalkStep], layout: Layout, heard: set[object]) -> _Told:
    """Tell steps one by one; those with the same pattern and other digits together."""
    for _, group in groupby(enumerate(steps), lambda pair: _pattern(*pair)):
        same = [taken for _, taken in group]
        step, board = _merged([taken.step for taken in same], layout), same[0].board
        yield len(same), tell(step, layout, board, heard=heard)
        heard.add(told_by(step, layout, board))


def _pattern(number: int, taken: WalkStep) -> object:
    step, layout = taken.step, taken.board.layout
    inside = {cell for cell, _ in step.removes} & set(step.focus)
    if Trait.MERGED not in TECHNIQUES[step.technique].traits or inside:
        return number
    return step.technique, step.focus, layout.cages_among(step.rules)[:1] or step.rules


def _merged(steps: Sequence[Step], layout: Layout) -> Step:
    removes: dict[int, int] = {}
    digits = 0
    for step in steps:
        digits |= step.digits
        for cell, gone in step.removes:
            removes[cell] = removes.get(cell, 0) | gone
    rules = dict.fromkeys(rule for step in steps for rule in step.rules)  # in the order of the first
    named = (*layout.houses_among(rules), *layout.cages_among(rules))
    rules_in_order = (*named, *(rule for rule in rules if rule not in named))
    return replace(steps[0], removes=tuple(sorted(removes.items())), digits=digits, rules=rules_in_order)


def _run(steps: Sequence[WalkStep], layout: Layout, _: set[object]) -> _Told:
    return runs_in_words(steps, layout)


def _single_cages(steps: Sequence[WalkStep], layout: Layout, _: set[object]) -> _Told:
    yield len(steps), sentence(single_cages_in_words([taken.step for taken in steps], layout))


def _totals(steps: Sequence[WalkStep], layout: Layout, heard: set[object]) -> _Told:
    if len(steps) == 1:
        yield from _alone(steps, layout, heard)
    else:
        yield len(steps), sentence(totals_in_words(steps, layout))


_tellers: dict[str, Callable[[Sequence[WalkStep], Layout, set[object]], _Told]] = {
    "alone": _alone,
    "run": _run,
    "single-cages": _single_cages,
    "totals": _totals,
}
