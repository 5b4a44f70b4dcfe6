"""The walkthrough page: a walk to click through, to read aloud, or to print.

The grid is drawn once. A script patches it from compact facts: for each step, what has changed on the board
since the last one, and what the step points at. Without the script, the page is a list of steps with three
pictures: the puzzle, the break-in, the solution.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from grader.board.board import Board, opening_board
from grader.grading.tiers import TierTable, default_tiers
from grader.walking.walk import Walk
from verifier.pages import wording
from verifier.pages.drawing.chart import Bar, strip_chart
from verifier.pages.drawing.figure import digit_numbers, marks_in
from verifier.pages.drawing.highlight import highlight_of
from verifier.pages.drawing.look import CELL
from verifier.pages.drawing.svg import Picture, drawing, pointed_at
from verifier.pages.rule_key import key_of_rules
from verifier.pages.styling import FITS_A_PHONE, as_data, page
from verifier.pages.telling import (
    NO_NOTES,
    Scene,
    Stretch,
    chapters_told,
    marks_on,
    stretches_of,
    technique_names,
    written_on,
)
from verifier.puzzle.puzzle import Puzzle
from verifier.walkthrough.short import key_steps, lead_of
from verifier.walkthrough.text import foot_of, head_of, story_title
from verifier.walkthrough.wording import IN_SHORT

if TYPE_CHECKING:
    from verifier.walkthrough.work import Walkthrough

__all__ = ["page_of", "walk_page"]


def page_of(told: Walkthrough, *, short: bool = False, voice: Callable[[str], str] = str) -> str:
    """Return a puzzle worked through for telling, whole or in short, as one HTML file.

    Parameters
    ----------
    told : Walkthrough
        What to tell.
    short : bool, optional
        Whether to tell the key steps alone.
    voice : callable, optional
        How each text is said, such as `verifier.walkthrough.spoken.spoken`.
    """
    _, *head = head_of(told)
    if short:
        keys = key_steps(told)
        return walk_page(
            told.puzzle,
            replace(told.told, steps=tuple(key.taken for key in keys)),
            start=told.start,
            head=[*head, *filter(None, [lead_of(told, keys)])],
            story_name=IN_SHORT,
            voice=voice,
            notes={number: f"{key.idea} {key.follows}" for number, key in enumerate(keys, start=1)},
        )
    return walk_page(
        told.puzzle,
        told.told,
        head=head,
        foot=list(foot_of(told)),
        story_name=story_title(told),
        narrow=told.narrow,
        start=told.start,
        voice=voice,
    )


def walk_page(
    puzzle: Puzzle,
    walked: Walk,
    *,
    head: Sequence[str] = (),
    foot: Sequence[str] = (),
    story_name: str = "",
    narrow: Mapping[int, str] = NO_NOTES,
    notes: Mapping[int, str] = NO_NOTES,
    start: Board | None = None,
    wrong: Sequence[tuple[str, Picture]] = (),
    voice: Callable[[str], str] = str,
    tiers: TierTable | None = None,
) -> str:
    """Return the walkthrough of a puzzle as one HTML file.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    walked : Walk
        Its walk, whole or with only those steps that matter.
    head, foot : sequence of str, optional
        What is said before and after the steps.
    story_name : str, optional
        Heads the steps of one cell's story; they are not divided into chapters then.
    narrow : mapping of int to str, optional
        What is said before a step at which people get stuck, by its number.
    notes : mapping of int to str, optional
        What is said after a step, by its number.
    start : Board, optional
        A part-filled grid from which the walk goes on; that of the givens when absent.
    wrong : sequence of (str, Picture), optional
        What is wrong in it, each with its picture.
    voice : callable, optional
        How each text is said.
    tiers : TierTable, optional
        The tiers to speak of; those of the grader when absent.

    Returns
    -------
    str
        Every text from the file is escaped; the page loads nothing.
    """
    table = tiers or default_tiers()
    chapters = chapters_told(walked, table, story_name, narrow, notes, voice)
    scenes = [scene for chapter in chapters for scene in chapter.scenes]
    break_in = next((chapter.first for chapter in chapters if chapter.name == "break-in"), None)
    return page(
        "walk.html.j2",
        puzzle,
        styles=["walk.css"],
        scripts=["walk.js"] if scenes or not wrong else [],
        puzzle=puzzle,
        name=wording.name_of(puzzle),
        by_line=wording.by_line(puzzle),
        **key_of_rules(puzzle, voice),
        head=[voice(line) for line in head],
        foot=[voice(line) for line in foot],
        chapters=chapters,
        count=len(scenes),
        start_says=wording.AS_SET if start is None else wording.SO_FAR,
        wrong=[(voice(says), drawing(picture, voice(says))) for says, picture in wrong],
        wrong_key=wording.KEY_OF_WRONG,
        swipes=puzzle.grid.columns <= FITS_A_PHONE,  # a larger grid is moved in its frame by that
        break_in=break_in,
        chart=_chart(list(stretches_of(scenes)), table, break_in),
        chart_says=wording.CHART_WALK.format(tiers=table.last),
        pictures=list(_pictures(puzzle, walked, scenes, break_in, start)),
        meanings={kind: says for kind, says in wording.KEY.items() if kind not in ("swings", "changed")},
        data=as_data(_facts(puzzle, scenes, start or opening_board(puzzle))),
    )


def _hardest(stretches: Sequence[Stretch]) -> Stretch | None:
    """Return the first round of the technique that stands highest on the ladder."""
    ranks = list(technique_names().values())
    return max(stretches, key=lambda told: ranks.index(told.technique), default=None)


def scene_picture(puzzle: Puzzle, scene: Scene) -> Picture:
    """Return the picture of a step: what stands on the board, and the marks in the cells it speaks of."""
    board, step = scene.taken.board, scene.taken.step
    return Picture(puzzle, written_on(board), marks_on(board, step.cells), highlight_of(step, puzzle))


def _pictures(
    puzzle: Puzzle, walked: Walk, scenes: Sequence[Scene], break_in: int | None, start: Board | None
) -> Iterator[tuple[str, Markup]]:
    """Yield caption and drawing: the puzzle as set or the grid so far, the break-in, the solution."""
    written = dict(puzzle.givens) if start is None else written_on(start)
    label = wording.grid_label(puzzle, len(written))
    yield wording.AS_SET if start is None else wording.SO_FAR, drawing(Picture(puzzle, written), label)
    if break_in is not None:
        scene = scenes[break_in - 1]
        caption = wording.BREAK_IN.format(step=break_in, says=scene.says)
        yield caption, drawing(scene_picture(puzzle, scene), caption)
    if walked.filling is not None:
        written = dict(enumerate(walked.filling))
        yield (
            wording.SOLUTION,
            drawing(Picture(puzzle, written), wording.grid_label(puzzle, puzzle.grid.cell_count)),
        )


def _chart(stretches: Sequence[Stretch], tiers: TierTable, break_in: int | None) -> Markup:
    bars = [
        Bar(
            told.tier,
            told.width,
            wording.stretch_label(told.first, told.last, told.technique, told.tier, told.width),
            len(told.scenes),
        )
        for told in stretches
    ]
    hardest = _hardest(stretches)
    if hardest is None:
        return Markup("")
    steps = [scene.taken for told in stretches for scene in told.scenes]
    narrow = sum(taken.width == 1 for taken in steps)
    label = wording.walk_label(len(steps), hardest.technique, hardest.tier, narrow)
    return strip_chart(bars, tiers.last, label, break_in)


def _facts(puzzle: Puzzle, scenes: Sequence[Scene], start: Board) -> dict[str, Any]:
    """Return what the script needs; see ``templates/walk.js``."""
    marks = marks_in(puzzle)
    boards = [scene.taken.board for scene in scenes]
    return {
        "columns": puzzle.grid.columns,
        "cell": CELL,
        "foot": next(digit_numbers(puzzle, "digit", {0: 1})).place[1],
        "half": round(0.36 * marks.face.size, 2),
        "marks": [(0, 0), *marks.places.values()],
        "start": _states(boards[0] if boards else start),
        "givens": [cell for cell, _ in puzzle.givens],
        "changes": [
            _changed(_states(one), _states(other))
            for one, other in pairwise((boards[0], *boards) if boards else ())
        ],
        "points": [_pointed(scene_picture(puzzle, scene)) for scene in scenes],
        "says": [scene.says for scene in scenes],
        "names": [wording.named(scene.technique, scene.tier) for scene in scenes],
    }


def _states(board: Board) -> list[int]:
    """Return for each cell the mask of its open digits, or its digit with a minus once it is written in."""
    return [
        1 - mask.bit_length() if board.placed >> cell & 1 else mask
        for cell, mask in enumerate(board.candidates)
    ]


def _changed(before: Sequence[int], after: Sequence[int]) -> list[int]:
    """Return the cells that differ, each followed by its new state."""
    pairs = zip(before, after, strict=True)
    return [number for cell, (old, new) in enumerate(pairs) if old != new for number in (cell, new)]


def _pointed(picture: Picture) -> dict[str, Any]:
    """Return what a picture points at: as it is drawn, and the facts by which the script moves and marks."""
    highlight = picture.highlight
    touched = [cell for cell, *_ in (*highlight.gone, *highlight.nodes)]
    return {
        **pointed_at(picture),
        "kinds": highlight.kinds,
        "spoken": list(dict.fromkeys((*highlight.looks, *highlight.focus, *touched))),
        "gone": highlight.gone,
        "placed": highlight.placed,
    }
