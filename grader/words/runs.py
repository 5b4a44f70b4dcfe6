"""Runs of easy digits, told in one breath: "Now the rest of box 4 falls: ..."."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grader.board.layout import Layout
from grader.board.steps import Step, WalkStep
from grader.words.fields import sees_all_others
from grader.words.narrate import tell
from grader.words.phrases import cage_in_words, combination_in_words, list_in_words, sentence
from grader.words.wording import walk_words

__all__ = ["runs_in_words", "single_cages_in_words", "totals_in_words"]

_ONE_BREATH = 4
"""So many digits without a house in common are told in one sentence."""


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Steps of a run that stand in one house, or a single one that shares no house with its neighbours."""

    steps: tuple[WalkStep, ...]
    house: int | None


def runs_in_words(steps: Sequence[WalkStep], layout: Layout) -> Iterator[tuple[int, str]]:
    """Tell steps that each place an easy digit.

    Steps in a row that stand in one house are told together; steps with nothing in common by fours. The
    words change from one sentence to the next, always in the same order.

    Yields
    ------
    (int, str)
        How many steps a text tells, and the text.
    """
    spoken = 0
    loose: list[WalkStep] = []
    for stretch in (*_stretches(steps, layout), None):
        if loose and (stretch is None or stretch.house is not None or len(loose) == _ONE_BREATH):
            yield len(loose), _loose(loose, layout, spoken)
            spoken += 1
            loose = []
        if stretch is not None and stretch.house is None:
            loose += stretch.steps
        elif stretch is not None:
            yield len(stretch.steps), _in_house(stretch, layout, spoken)
            spoken += 1


def _stretches(steps: Sequence[WalkStep], layout: Layout) -> Iterator[_Stretch]:
    """Divide a run into stretches, each in the house of which it has the most to tell."""
    at = 0
    while at < len(steps):
        found = {house: _length(steps[at:], house, layout) for house in layout.houses_of[_cell(steps[at])]}
        ranked = {house: (_at_home(steps[at : at + n], house) * 2 + n, house) for house, n in found.items()}
        house = max(ranked, key=lambda house: ranked[house], default=None)
        length = 1 if house is None else found[house]
        yield _Stretch(tuple(steps[at : at + length]), house if length > 1 else None)
        at += length


def _length(steps: Sequence[WalkStep], house: int, layout: Layout) -> int:
    """Return how many of the steps, from the first on, stand in a house."""
    mask = layout.house_masks[house]
    return next((n for n, taken in enumerate(steps) if not mask >> _cell(taken) & 1), len(steps))


def _at_home(steps: Sequence[WalkStep], house: int) -> int:
    """Return how many of the steps rest on that very house: they need not name another."""
    return sum(taken.step.rules[:1] == (house,) for taken in steps)


def _cell(taken: WalkStep) -> int:
    return taken.step.places[0][0]


def _loose(steps: Sequence[WalkStep], layout: Layout, spoken: int) -> str:
    """Tell digits that have nothing in common."""
    if len(steps) == 1:
        return tell(steps[0].step, layout, steps[0].board)
    starts = walk_words.RUN_STARTS
    clauses = _clauses(steps, None, layout)
    return sentence(starts[spoken % len(starts)].format(clauses=_joined(clauses)))


def _in_house(stretch: _Stretch, layout: Layout, spoken: int) -> str:
    assert stretch.house is not None
    last = stretch.steps[-1]
    left = layout.house_masks[stretch.house] & ~last.board.placed & ~(1 << _cell(last))
    starts = walk_words.HOUSE_GOES_ON if left else walk_words.HOUSE_FALLS
    clauses = _clauses(stretch.steps, stretch.house, layout)
    return sentence(
        starts[spoken % len(starts)].format(house=layout.houses[stretch.house].name, clauses=_joined(clauses))
    )


def _joined(clauses: Sequence[str]) -> str:
    """Join clauses as a list; with semicolons where one of them has a comma of its own."""
    if not any("," in clause for clause in clauses) or len(clauses) == 1:
        return list_in_words(clauses)
    return "; ".join([*clauses[:-1], f"and {clauses[-1]}"])


def _clauses(steps: Sequence[WalkStep], house: int | None, layout: Layout) -> list[str]:
    """Tell each digit in a few words; `house` is the one that is spoken of already."""
    told = []
    before = ""
    for taken in steps:
        step = taken.step
        at_home = house is not None and step.rules[:1] == (house,)
        template = walk_words.RUN_CLAUSES[step.technique][not at_home]
        if step.technique == "naked-single" and sees_all_others(step, taken.board):
            template = walk_words.RUN_SEES
        # "9 goes in r7c5 and 4 in r7c4"
        shorter = walk_words.RUN_GOES_ON if template == before == walk_words.RUN_GOES else template
        before = template
        cell, digit = step.places[0]
        told.append(
            shorter.format(
                cell=layout.grid.cell_name(cell),
                digit=digit,
                house=layout.houses[houses[0]].name if (houses := layout.houses_among(step.rules)) else "",
                cage=cage_in_words(cages[0], layout) if (cages := layout.cages_among(step.rules)) else "",
            )
        )
    return told


def single_cages_in_words(steps: Sequence[Step], layout: Layout) -> str:
    """Tell cages of a single cell together."""
    cells = [f"{layout.grid.cell_name(step.places[0][0])} is {step.places[0][1]}" for step in steps]
    template = walk_words.SINGLE_CAGE if len(cells) == 1 else walk_words.SINGLE_CAGES
    return template.format(cells=list_in_words(cells))


def totals_in_words(steps: Sequence[WalkStep], layout: Layout) -> str:
    """Tell whole cages with one combination each."""
    told = [
        walk_words.TOTAL_IS.format(
            cage=cage_in_words(taken.step.rules[-1], layout),
            combination=combination_in_words(taken.step.digits, layout, ""),
        )
        for taken in steps
    ]
    return walk_words.TOTALS.format(totals="; ".join(told))
