"""A walkthrough as text for a terminal or a mail, and as Markdown."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Mapping

from grader.grading.grade import Grade
from grader.grading.replay import Outcome
from verifier.walkthrough import wording
from verifier.walkthrough.short import key_steps, lead_of
from verifier.walkthrough.small_grid import small_grid
from verifier.walkthrough.work import Walkthrough
from verifier.walkthrough.wrong.contradictions import contradiction_on

__all__ = ["as_markdown", "as_text", "foot_of", "head_of", "story_title"]

_WIDTH = 100
"""Characters of a line of text."""
_NUMBERS = 8
"""Characters for the numbers of the steps."""
_MARGIN = " " * (_NUMBERS + 2)


def as_text(told: Walkthrough, *, short: bool = False, voice: Callable[[str], str] = str) -> str:
    """Return a walkthrough, whole or in short, as plain text; it ends with a line break.

    Parameters
    ----------
    told : Walkthrough
        The walkthrough.
    short : bool, optional
        Whether only the key steps are told.
    voice : callable, optional
        How each text is said, such as `verifier.walkthrough.spoken.spoken`; as it is written when absent.
    """
    lines: list[str] = []
    for line in head_of(told):
        lines += textwrap.wrap(line, _WIDTH)
    if short:
        keys = key_steps(told)
        lines += ["", wording.IN_SHORT.upper(), *_set_in("", lead_of(told, keys))]
        for key in keys:
            lines += _set_in(str(key.number), voice(key.says))
            lines += _set_in("", voice(f"{key.idea} {key.follows}".strip()))
        return "\n".join(lines) + "\n"
    for part in told.told.parts(story_title(told)):
        lines += ["", voice(part.title).upper()]
        if part.lead:
            lines += _set_in("", voice(part.lead))
        grid = small_grid(part.board)
        lines += ["", *(_MARGIN + line for line in grid), ""] if grid else []
        for paragraph in part.paragraphs:
            lines += _set_in(
                paragraph.numbers, voice(_with_narrow(paragraph.first, paragraph.text, told.narrow))
            )
    for line in foot_of(told):
        lines += ["", *textwrap.wrap(voice(line), _WIDTH)]
    return "\n".join(lines) + "\n"


def as_markdown(told: Walkthrough, *, short: bool = False, voice: Callable[[str], str] = str) -> str:
    """Return a walkthrough as `as_text` does, as Markdown; it ends with a line break."""
    first, *rest = head_of(told)
    lines = [f"# {_plain(first)}"]
    for line in rest:
        lines += ["", _plain(line)]
    if short:
        keys = key_steps(told)
        lead = [lead_of(told, keys), ""] if lead_of(told, keys) else []
        lines += ["", f"## {wording.IN_SHORT}", "", *lead]
        lines += [voice(f"- **{key.number}** {key.says} *{key.idea}* {key.follows}").rstrip() for key in keys]
        return "\n".join(lines) + "\n"
    for part in told.told.parts(story_title(told)):
        lines += ["", f"## {voice(part.title)}"]
        if part.lead:
            lines += ["", voice(part.lead)]
        grid = small_grid(part.board)
        lines += ["", "```text", *grid, "```"] if grid else []
        lines.append("")
        lines += [
            f"- **{paragraph.numbers}** {voice(_with_narrow(paragraph.first, paragraph.text, told.narrow))}"
            for paragraph in part.paragraphs
        ]
    for line in foot_of(told):
        lines += ["", voice(line)]
    return "\n".join(lines) + "\n"


def _with_narrow(first: int, text: str, narrow: Mapping[int, str]) -> str:
    """Return the text of a paragraph, and before it that people get stuck here where they do."""
    return f"{narrow.get(first, '')} {text}".lstrip()


def _set_in(numbers: str, text: str) -> list[str]:
    first = f"{numbers:>{_NUMBERS}}  "
    return textwrap.wrap(text, _WIDTH, initial_indent=first, subsequent_indent=_MARGIN)


def _plain(text: str) -> str:
    """Take from a title what Markdown would act on."""
    return "".join(f"\\{sign}" if sign in "\\`*_{}[]<>#|" else sign for sign in text)


def story_title(told: Walkthrough) -> str:
    """Return what heads the story of one cell; empty where the whole walk is told, in chapters."""
    return "" if told.cell is None else wording.story_of(told.puzzle.grid.cell_name(told.cell))


def head_of(told: Walkthrough) -> Iterator[str]:
    """Yield what is said before the steps: what the puzzle is called, then how many solutions, how hard."""
    yield wording.title(told.puzzle)
    yield from filter(
        None,
        [
            wording.from_so_far(told.start) if told.start else "",
            wording.solutions_in_words(told.puzzle, told.tally),
            wording.grade_in_words(told.grade) if told.grade else "",
            _effort(told.grade, told.puzzle.kind) if told.grade else "",
            wording.trial_in_words(told.told.by_trial) if told.told.by_trial else "",
            wording.beyond_the_ladder() if told.sound and told.whole.outcome is Outcome.STUCK else "",
        ],
    )


def _effort(grade: Grade, kind: str) -> str:
    minutes = grade.minutes
    return wording.effort_in_words(grade.effort, kind, (minutes.middle, minutes.least, minutes.most))


def foot_of(told: Walkthrough) -> Iterator[str]:
    """Yield what is said after the steps: where they end, and how much of the walk they are."""
    if told.start is not None and told.start.solved:
        yield wording.nothing_next(told.tally, full=True, cut=False)
    elif told.cell is not None:
        yield wording.end_of_story(told.puzzle, told.told, told.cell, told.start)
    else:
        yield from filter(
            None,
            [
                wording.ending(told.whole.outcome, told.last_board, _contradiction(told)),
                wording.left_out(len(told.told.steps), len(told.whole.steps)),
            ],
        )
    if told.audit is not None:
        yield wording.audit_in_words(told.audit, len(told.told.steps))


def _contradiction(told: Walkthrough) -> str:
    found = contradiction_on(told.last_board)
    return wording.REPEATED if found is None else found.says
