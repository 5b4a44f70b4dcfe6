"""Tell a step as one would say it aloud: the evidence, then what follows.

The sentences stand in `grader.words.wording`; here the fields in their braces are filled in. Each field is
worked out only where a sentence has it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from grader.board.board import Board, Layout, bits, digits_of
from grader.board.patterns import Fish, Fork
from grader.board.steps import Step
from grader.ladder import TECHNIQUES
from grader.reasoning.arguments import Reason, reason_of
from grader.reasoning.combinations import rest_of_cage
from grader.words import wording
from grader.words.chains import chain_in_words
from grader.words.effects import effect_in_words, gone_digits, never_in_words
from grader.words.lines import forcing_in_words, fork_in_words
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
    difference_in_words,
    exclusions_in_words,
    names_all,
    sorting_in_words,
    ways_in_words,
)
from grader.words.sums import rest_of_house_in_words, sum_in_words, what_is_left

__all__ = ["tell", "what_to_do", "where_to_look"]

_GONE_AT_MOST = 3
"""Where it is known what stays in a cage, so many digits that go are named; of more, all else goes."""


def tell(step: Step, layout: Layout, board: Board | None = None) -> str:
    """Return the step as one says it, in one sentence or two.

    Parameters
    ----------
    step : Step
        Any step of a replay or walk of the puzzle.
    layout : Layout
        The puzzle's layout.
    board : Board, optional
        The board on which the step is taken. With it, digits that are known by then, open combinations
        and the lines of chains are told as well.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.subsets import find_naked_pairs
    >>> board = board_from_text("37 5 379 37 1 2 4 6 8")
    >>> print(tell(next(find_naked_pairs(board)), board.layout))
    r1c1 and r1c4 take 3 and 7 of row 1 between them: 3 and 7 go from r1c3.
    """
    told = _Told(step, layout, board)
    template = _variant(told) or wording.EVIDENCE[step.technique]
    if "{effect}" not in template and not template.endswith("."):
        template += wording.SO if "{why}" in template and _why(told) else wording.THEN
    return sentence(template.removesuffix(".").format_map(_Fields(told)))


def where_to_look(step: Step, layout: Layout) -> str:
    """Say where the next step is to be found, and no more."""
    houses, cages = layout.houses_among(step.rules), layout.cages_among(step.rules)
    if step.length:
        return wording.START_FROM.format(cell=layout.grid.cell_name(step.focus[0]))
    if step.sums:
        added = {house for derived in step.sums for house in layout.houses_among(derived.rules)}
        return wording.ADD_UP.format(houses=houses_in_words(sorted(added), layout) or wording.THE_CAGES)
    if cages:
        return wording.LOOK_AT.format(what=cage_in_words(cages[0], layout))
    around = sorted(layout.houses_of[step.focus[0]], key=lambda house: layout.houses[house].kind != "box")
    house = houses_in_words((houses or tuple(around))[:1], layout)
    return wording.LOOK_AT.format(what=house or layout.grid.cell_name(step.focus[0]))


def what_to_do(step: Step, layout: Layout, board: Board) -> str:
    """Say what the next step does, and what it is called, without its reason."""
    return sentence(f"{TECHNIQUES[step.technique].name}: {effect_in_words(step, layout, board)}")


@dataclass(frozen=True, slots=True)
class _Told:
    """What is told: a step, the layout it speaks of, and the board on which it is taken, if known."""

    step: Step
    layout: Layout
    board: Board | None

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


class _Fields(Mapping[str, str]):
    """The fields of a sentence by name, each worked out when the sentence asks for it."""

    def __init__(self, told: _Told) -> None:
        self._told = told

    def __getitem__(self, name: str) -> str:
        return _FIELDS[name](self._told)

    def __iter__(self) -> Iterator[str]:
        return iter(_FIELDS)

    def __len__(self) -> int:
        return len(_FIELDS)


def _fish(told: _Told) -> Fish:
    assert isinstance(told.step.pattern, Fish), "the technique of this sentence finds fish"
    return told.step.pattern


def _rest(told: _Told) -> tuple[list[int], int, int]:
    """Return the empty cells of the step's first cage, what they make, and what stands there already."""
    cage, board = told.cages[0], told.board
    written = told.layout.cage(cage)
    if board is None:
        return list(written.cells), written.total, 0
    cells, rest, _ = rest_of_cage(board, cage)
    return cells, rest, written.total - rest


def _why(told: _Told) -> str:
    """Tell what excludes the other combinations."""
    reason, board = told.reason, told.board
    if reason is None or board is None:
        return ""
    if reason.without is not None:
        return (wording.LEAST_WITHOUT if reason.without > reason.rest.total else wording.MOST_WITHOUT).format(
            made=reason.without
        )
    exclusions = exclusions_in_words(reason.excluded, reason.rest, board)
    return wording.WHY.format(exclusions=exclusions) if exclusions else ""


def _argument(told: _Told) -> str:
    """Tell why the digits that go cannot stand; empty where nobody could follow."""
    if told.reason is None or told.board is None or not told.reason.arguments:
        return ""
    return arguments_in_words(told.reason, told.board) or ""


def _start(told: _Told) -> str:
    """Tell where a chain starts, and with the board how each line of it goes on."""
    step, layout = told.step, told.layout
    if told.board is not None:
        return forcing_in_words(step, told.board)
    length = "one step" if step.length == 1 else f"{step.length} steps"
    if isinstance(step.pattern, Fork):
        return fork_in_words(step, step.pattern, layout, length)
    return wording.ONE_START.format(
        digits=digits_in_words(step.digits), cell=cells_in_words(step.focus, layout), length=length
    )


_FIELDS: Mapping[str, Callable[[_Told], str]] = {
    "argument": _argument,
    "argument_said": lambda told: sentence(_argument(told)).removesuffix("."),
    "base": lambda told: houses_in_words(_fish(told).base, told.layout),
    "bases": lambda told: bases_in_words(_fish(told).base, told.layout),
    "bound": lambda told: str(_bound(told)),
    "cage": lambda told: cage_in_words(told.cages[0], told.layout),
    "cages": lambda told: list_in_words([cage_in_words(cage, told.layout) for cage in told.cages]),
    "cell": lambda told: cells_in_words(told.step.focus[:1], told.layout),
    "cells": lambda told: cells_in_words(told.step.focus, told.layout),
    "chain": lambda told: chain_in_words(told.step.chain, told.layout),
    "combinations": lambda told: combinations_in_words(told.reason.left if told.reason else (), told.layout),
    "combination": lambda told: combination_in_words(told.step.digits, told.layout, ""),
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
    "never": lambda told: never_in_words(told.step, told.layout),
    "sorted_out": lambda told: "" if told.board is None else sorting_in_words(told.step, told.board),
    "ways": lambda told: (
        "" if told.reason is None or told.board is None else ways_in_words(told.reason, told.board)
    ),
    "one_combination": lambda told: combination_in_words(
        told.reason.left[0] if told.reason else 0, told.layout, ""
    ),
    "open": lambda told: _open_in(told.step.looks[0], told),
    "or_cells": lambda told: cells_in_words(told.step.focus, told.layout, "or"),
    "other_cell": lambda told: cells_in_words(told.step.focus[1:2], told.layout),
    "or_others": lambda told: cells_in_words(told.step.focus[1:], told.layout, "or"),
    "other_cage": lambda told: cage_in_words(told.cages[1], told.layout),
    "other_house": lambda told: houses_in_words(told.houses[1:2], told.layout),
    "rest": lambda told: str(_rest(told)[1]),
    "rest_of_cage": lambda told: ("" if _whole_cage(told) else "the rest of ") + _FIELDS["cage"](told),
    "rest_cells": lambda told: cells_in_words(_rest(told)[0], told.layout),
    "smaller_cell": lambda told: cells_in_words(told.layout.rules[told.step.rules[0]].cells[1:], told.layout),
    "rule": lambda told: told.layout.rules[told.step.rules[0]].called(told.layout.grid),
    "so_far": lambda told: str(_rest(told)[2]),
    "start": _start,
    "subset": lambda told: subset_in_words(told.step, told.layout, told.board),
    "sum": lambda told: sum_in_words(told.step.sums[0], told.layout, told.board),
    "is": lambda told: "are" if told.step.digits & (told.step.digits - 1) else "is",
    "why": _why,
    "them": lambda told: "them" if told.step.digits & (told.step.digits - 1) else "it",
}


def _open_in(cell: int, told: _Told) -> str:
    """Return the digits that are open in a cell; where the board is not known, all of them."""
    mask = told.layout.all_digits if told.board is None else told.board.candidates[cell]
    return list_in_words([str(digit) for digit in digits_of(mask)], "or")


def _above(told: _Told) -> bool:
    """Whether the step is about the greater of the two cells that its sign stands between."""
    return told.step.focus[:1] == told.layout.rules[told.step.rules[0]].cells[:1]


def _bound(told: _Told) -> int:
    assert told.board is not None, "only a sentence about a board names what is open"
    digits = digits_of(told.board.candidates[told.step.looks[0]])
    return digits[0] if _above(told) else digits[-1]


def _sign_bounds(told: _Told) -> str | None:
    if told.board is None:
        return None
    return wording.SIGN_ABOVE if _above(told) else wording.SIGN_BELOW


def _last_cell_of_cage(told: _Told) -> str | None:
    if not told.step.looks:
        return wording.ONE_CELL_CAGE
    return wording.CAGE_SO_FAR if told.board is not None and told.step.places else None


def _naked_single(told: _Told) -> str | None:
    board = told.board
    if board is None:
        return None
    seen = 0
    for peer in bits(told.layout.sees[told.step.focus[0]] & board.placed):
        seen |= board.candidates[peer]
    return wording.SEES_ALL_OTHERS if seen == told.layout.all_digits & ~told.step.digits else None


def _single_combination(told: _Told) -> str | None:
    if len(told.step.focus) == len(told.layout.rules[told.cages[0]].cells):
        return wording.ONE_COMBINATION
    return None if told.board is None else wording.REST_ONE_COMBINATION


def _cage_combinations(told: _Told) -> str | None:
    reason = told.reason
    if not told.step.digits:
        return wording.NO_COMBINATION
    if reason is None or told.board is None:
        return None
    inside = any(cell in reason.rest.cells for cell, _ in told.step.removes)
    if not inside:
        if reason.left == (told.step.digits,):
            return wording.THE_ONE_COMBINATION
        if len(reason.left) == 1:
            return wording.IN_THE_ONE_COMBINATION
        return wording.NAMED_CERTAIN_DIGIT if reason.left else wording.NEEDS
    if reason.arguments:
        return wording.IN_CAGE + _out(told)
    if not reason.left:
        return wording.NONE_WITH
    plain = len(reason.left) == 1 or gone_digits(told.step).bit_count() > _GONE_AT_MOST
    return wording.NAMED_COMBINATIONS + ("." if plain else "")


def _cage_arrangements(told: _Told) -> str | None:
    return wording.IN_CAGE + _out(told) if _argument(told) else None


def _last_cells_of_cage(told: _Told) -> str | None:
    if told.reason is None or told.board is None:
        return None
    return wording.CAGE_SETTLES if _why(told) else wording.CAGE_SETTLES_AT_ONCE


def _few_arrangements(told: _Told) -> str | None:
    return None if told.reason is None else wording.FEW_WAYS if _why(told) else wording.FEW_WAYS_AT_ONCE


def _only_cell(told: _Told) -> str | None:
    if told.reason is None:
        return None
    return (
        wording.ONLY_CELL[len(told.reason.left)]
        if len(told.reason.left) < 2
        else wording.ONLY_CELL_OF_SEVERAL
    )


def _rest_of_house(told: _Told) -> str | None:
    if told.board is None or not told.step.places:
        return None
    return rest_of_house_in_words(told.step, told.board) or None


def _hidden_cage_digits(told: _Told) -> str | None:
    return wording.HIDDEN_LEAVES if told.reason and told.reason.left else None


def _difference(told: _Told) -> str | None:
    because = None if told.board is None else difference_in_words(told.step, told.board)
    return wording.SUM_BECAUSE.replace("{because}", because) if because else None


def _derived_sum(told: _Told) -> str | None:
    if told.reason is None:
        return None
    if told.reason.left:
        return wording.SUM_CAN_ONLY_BE
    return wording.SUM_ARGUED + _out(told) if _argument(told) else None


def _out(told: _Told) -> str:
    """Tell what follows from arguments that name each digit that goes; empty where they do not."""
    reason = told.reason
    if reason is None or told.board is None or not names_all(reason, told.board):
        return ""
    return wording.OUT[len(reason.arguments) > 1]


def _whole_cage(told: _Told) -> bool:
    """Whether no cell of the step's first cage has its digit yet, as far as is known."""
    return len(_rest(told)[0]) == len(told.layout.rules[told.cages[0]].cells)


def _locked(told: _Told) -> str | None:
    return wording.BOTH_IN if len(told.step.focus) == 2 else None


def _almost_locked_pair(told: _Told) -> str | None:
    return wording.LINKED_SETS if told.step.chain else None


def _one_cluster(told: _Told) -> str | None:
    return None if told.step.length % 2 else wording.SIDE_CLASH


def _trial(told: _Told) -> str | None:
    return wording.TRIAL_TOLD if told.step.length == 1 and told.board is not None else None


_VARIANTS: Mapping[str, Callable[[_Told], str | None]] = {
    "almost-locked-pair": _almost_locked_pair,
    "cage-arrangements": _cage_arrangements,
    "cage-combinations": _cage_combinations,
    "derived-sum-2": _derived_sum,
    "derived-sum-3-4": _derived_sum,
    "few-arrangements": _few_arrangements,
    "hidden-cage-digits": _hidden_cage_digits,
    "innie-outie-difference": _difference,
    "last-cell-of-cage": _last_cell_of_cage,
    "last-cells-of-cage": _last_cells_of_cage,
    "locked-candidates": _locked,
    "naked-single": _naked_single,
    "one-cluster": _one_cluster,
    "only-cell-by-combinations": _only_cell,
    "only-cell-in-cage": _only_cell,
    "rest-of-house": _rest_of_house,
    "sign-bounds": _sign_bounds,
    "single-combination": _single_combination,
    "trial": _trial,
}


def _variant(told: _Told) -> str | None:
    """Return the sentence that fits better than the usual one of the technique, if any."""
    choose = _VARIANTS.get(told.step.technique)
    return None if choose is None else choose(told)
