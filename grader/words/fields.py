"""The fields of a sentence: what stands in the braces of its template, from a step and its board."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import Fish, Fork
from grader.board.steps import Step
from grader.reasoning.arguments import Reason, reason_of
from grader.reasoning.combinations import rest_of_cage
from grader.words.chains import chain_in_words
from grader.words.clues import clue_in_words
from grader.words.crossings import area_in_words, crossing_in_words
from grader.words.effects import effect_in_words, gone_digits, never_in_words
from grader.words.lines import forcing_in_words, fork_in_words
from grader.words.outside_boxes import leftovers_in_words
from grader.words.patterns import bases_in_words, equal_in_words, subset_in_words
from grader.words.phrases import (
    cage_in_words,
    cells_in_words,
    combination_in_words,
    combinations_in_words,
    digits_in_words,
    houses_in_words,
    list_in_words,
    sentence,
)
from grader.words.reasons import (
    arguments_in_words,
    exclusions_in_words,
    sorting_in_words,
    ways_in_words,
)
from grader.words.sums import sum_in_words, what_is_left
from grader.words.wording import line_words, reason_words
from verifier.puzzle.masks import bits, digits_of

__all__ = [
    "Fields",
    "Told",
    "argument_in_words",
    "clues_named",
    "is_above",
    "sees_all_others",
    "why_in_words",
]


@dataclass(frozen=True, slots=True)
class Told:
    """What is told.

    Parameters
    ----------
    step, layout : Step, Layout
        A step, and the layout it speaks of.
    board : Board or None
        The board on which it is taken, if that is known.
    again : bool
        Whether its reason has been told before.
    """

    step: Step
    layout: Layout
    board: Board | None
    again: bool

    @property
    def reason(self) -> Reason | None:
        """Why it holds, if it speaks of one sum and the board is known."""
        return None if self.board is None else reason_of(self.step, self.board)

    @property
    def houses(self) -> tuple[int, ...]:
        """The houses that the step cites."""
        return self.layout.houses_among(self.step.rules)

    @property
    def cages(self) -> tuple[int, ...]:
        """The cages that the step cites."""
        return self.layout.cages_among(self.step.rules)


class Fields(Mapping[str, str]):
    """The fields of a sentence by name, each worked out when the sentence asks for it."""

    def __init__(self, told: Told) -> None:
        self._told = told

    def __getitem__(self, name: str) -> str:
        return _FIELDS[name](self._told)

    def __iter__(self) -> Iterator[str]:
        return iter(_FIELDS)

    def __len__(self) -> int:
        return len(_FIELDS)


def _fish(told: Told) -> Fish:
    assert isinstance(told.step.pattern, Fish), "the technique of this sentence finds fish"
    return told.step.pattern


def _rest(told: Told) -> tuple[list[int], int, int]:
    """Return the empty cells of the step's first cage, what they make, and what stands there already."""
    cage, board = told.cages[0], told.board
    written = told.layout.cage(cage)
    if board is None:
        return list(written.cells), written.total, 0
    cells, rest, _ = rest_of_cage(board, cage)
    return cells, rest, written.total - rest


def _is_whole(told: Told) -> bool:
    """Whether no cell of the step's first cage has its digit yet, as far as is known."""
    return len(_rest(told)[0]) == len(told.layout.rules[told.cages[0]].cells)


def why_in_words(told: Told) -> str:
    """Tell what excludes the other combinations."""
    reason, board = told.reason, told.board
    if reason is None or board is None or told.again:
        return ""
    if reason.without is not None:
        too_much = reason.without > reason.rest.total
        says = reason_words.LEAST_WITHOUT if too_much else reason_words.MOST_WITHOUT
        return says.format(made=reason.without)
    exclusions = exclusions_in_words(reason.excluded, reason.rest, board)
    return reason_words.WHY.format(exclusions=exclusions) if exclusions else ""


def argument_in_words(told: Told) -> str:
    """Tell why the digits that go cannot stand; empty where nobody could follow."""
    if told.reason is None or told.board is None or not told.reason.arguments:
        return ""
    return arguments_in_words(told.reason, told.board) or ""


def _start(told: Told) -> str:
    """Tell where a chain starts, and with the board how each line of it goes on."""
    step, layout = told.step, told.layout
    lines = None if told.board is None else forcing_in_words(step, told.board)
    if lines is not None:
        return lines
    length = "one step" if step.length == 1 else f"{step.length} steps"
    if isinstance(step.pattern, Fork):
        return fork_in_words(step, step.pattern, layout, length)
    return line_words.ONE_START.format(
        digits=digits_in_words(step.digits), cell=cells_in_words(step.focus, layout), length=length
    )


_FIELDS: Mapping[str, Callable[[Told], str]] = {
    "area": lambda told: area_in_words(told.step.sums[0], told.layout, told.board),
    "argument": argument_in_words,
    "argument_said": lambda told: sentence(argument_in_words(told)).removesuffix("."),
    "base": lambda told: houses_in_words(_fish(told).base, told.layout),
    "bases": lambda told: bases_in_words(_fish(told).base, told.layout),
    "bound": lambda told: str(_bound(told)),
    "cage": lambda told: cage_in_words(told.cages[0], told.layout),
    "cages": lambda told: list_in_words([cage_in_words(cage, told.layout) for cage in told.cages]),
    "cell": lambda told: cells_in_words(told.step.focus[:1], told.layout),
    "cells": lambda told: cells_in_words(told.step.focus, told.layout),
    "chain": lambda told: chain_in_words(told.step.chain, told.layout),
    "clues": lambda told: list_in_words(clues_named(told)),
    "clue_said": lambda told: clue_in_words(told.step, told.layout),
    "combinations": lambda told: combinations_in_words(told.reason.left if told.reason else (), told.layout),
    "combination": lambda told: combination_in_words(told.step.digits, told.layout, ""),
    "crossing": lambda told: "" if told.board is None else crossing_in_words(told.step, told.board),
    "cover": lambda told: houses_in_words(_fish(told).cover, told.layout),
    "digits": lambda told: digits_in_words(told.step.digits),
    "effect": lambda told: effect_in_words(told.step, told.layout, told.board),
    "gone": lambda told: digits_in_words(gone_digits(told.step), "or"),
    "equal": lambda told: equal_in_words(told.step, told.layout, told.board),
    "fins": lambda told: cells_in_words(_fish(told).fins, told.layout, "or"),
    "greater_cell": lambda told: cells_in_words(told.layout.rules[told.step.rules[0]].cells[:1], told.layout),
    "has": lambda told: "have" if told.step.digits & (told.step.digits - 1) else "has",
    "house": lambda told: houses_in_words(told.houses[:1], told.layout),
    "houses": lambda told: houses_in_words(told.houses, told.layout),
    "left": lambda told: what_is_left(told.step.sums[0], told.layout, told.board),
    "leftovers": lambda told: leftovers_in_words(told.step, told.layout),
    "never": lambda told: never_in_words(told.step, told.layout),
    "sorted_out": lambda told: "" if told.board is None else sorting_in_words(told.step, told.board),
    "ways": lambda told: (
        "" if told.reason is None or told.board is None else ways_in_words(told.reason, told.board)
    ),
    "one_combination": lambda told: combination_in_words(
        told.reason.left[0] if told.reason else 0, told.layout, ""
    ),
    "placed": lambda told: list_in_words(
        [f"{digit} in {told.layout.grid.cell_name(cell)}" for cell, digit in told.step.places]
    ),
    "can_be": lambda told: _can_be(told.step.looks[0], told),
    "or_cells": lambda told: cells_in_words(told.step.focus, told.layout, "or"),
    "other_cell": lambda told: cells_in_words(told.step.focus[1:2], told.layout),
    "or_others": lambda told: cells_in_words(told.step.focus[1:], told.layout, "or"),
    "other_cage": lambda told: cage_in_words(told.cages[1], told.layout),
    "other_house": lambda told: houses_in_words(told.houses[1:2], told.layout),
    "rest": lambda told: str(_rest(told)[1]),
    "rest_of_cage": lambda told: ("" if _is_whole(told) else "the rest of ") + _FIELDS["cage"](told),
    "rest_cells": lambda told: cells_in_words(_rest(told)[0], told.layout),
    "rule": lambda told: (
        told.layout.rules[told.step.rules[0]].called(told.layout.grid).removeprefix("the rule that ")
    ),
    "smaller_cell": lambda told: cells_in_words(told.layout.rules[told.step.rules[0]].cells[1:], told.layout),
    "so_far": lambda told: str(_rest(told)[2]),
    "start": _start,
    "subset": lambda told: subset_in_words(told.step, told.layout, told.board),
    "sum": lambda told: sum_in_words(told.step.sums[0], told.layout, told.board),
    "is": lambda told: "are" if told.step.digits & (told.step.digits - 1) else "is",
    "why": why_in_words,
    "them": lambda told: "them" if told.step.digits & (told.step.digits - 1) else "it",
}


def _can_be(cell: int, told: Told) -> str:
    """Return what is open in a cell, as it is said of it; where the board is not known, every digit."""
    digits = digits_of(told.layout.all_digits if told.board is None else told.board.candidates[cell])
    return (
        f"is {digits[0]}"
        if len(digits) == 1
        else f"can only be {list_in_words(list(map(str, digits)), 'or')}"
    )


def clues_named(told: Told) -> list[str]:
    """Return the names of the marks, lines and clues at the edge that the step cites."""
    others = [rule for rule in told.step.rules if rule >= told.layout.cage_numbers.stop]
    named = [told.layout.rules[rule].called(told.layout.grid) for rule in others]
    return [name for name in named if not name.startswith("the rule that ")]


def is_above(told: Told) -> bool:
    """Whether the step is about the greater of the two cells that its sign stands between."""
    return told.step.focus[:1] == told.layout.rules[told.step.rules[0]].cells[:1]


def _bound(told: Told) -> int:
    assert told.board is not None, "only a sentence about a board names what is open"
    digits = digits_of(told.board.candidates[told.step.looks[0]])
    return digits[0] if is_above(told) else digits[-1]


def sees_all_others(step: Step, board: Board) -> bool:
    """Whether every digit but that of the step stands where its cell sees it."""
    seen = 0
    for peer in bits(board.layout.sees[step.focus[0]] & board.placed):
        seen |= board.candidates[peer]
    return seen == board.layout.all_digits & ~step.digits
