"""Sentences that fit better than the usual one of a technique, where more is known of a step."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from grader.words.effects import gone_digits
from grader.words.fields import Told, argument_in_words, clues_named, is_above, sees_all_others, why_in_words
from grader.words.reasons import (
    difference_in_words,
    names_all,
)
from grader.words.sums import rest_of_house_in_words
from grader.words.wording import evidence, line_words, reason_words, sum_words

__all__ = ["variant_of"]

_GONE_AT_MOST = 3
"""Where it is known what stays in a cage, so many digits that go are named; of more, all else goes."""


def _sign_bounds(told: Told) -> str | None:
    if told.board is None:
        return None
    return evidence.SIGN_ABOVE if is_above(told) else evidence.SIGN_BELOW


def _all_places(told: Told) -> str | None:
    return reason_words.ALL_PLACES_BY if clues_named(told) else None


def _pair_values(told: Told) -> str | None:
    rule = told.layout.rules[told.step.rules[0]]
    return None if rule.called(told.layout.grid).startswith("the rule that ") else reason_words.PAIR_MARK


def _last_cell_of_cage(told: Told) -> str | None:
    if not told.step.looks:
        return reason_words.ONE_CELL_CAGE
    return reason_words.CAGE_SO_FAR if told.board is not None and told.step.places else None


def _naked_single(told: Told) -> str | None:
    if told.board is None:
        return None
    return reason_words.SEES_ALL_OTHERS if sees_all_others(told.step, told.board) else None


def _single_combination(told: Told) -> str | None:
    if len(told.step.focus) == len(told.layout.rules[told.cages[0]].cells):
        return reason_words.ONE_COMBINATION
    return None if told.board is None else reason_words.REST_ONE_COMBINATION


def _cage_combinations(told: Told) -> str | None:
    reason = told.reason
    if not told.step.digits:
        return reason_words.NO_COMBINATION
    if reason is None or told.board is None:
        return None
    inside = any(cell in reason.rest.cells for cell, _ in told.step.removes)
    if not inside:
        if reason.left == (told.step.digits,):
            return reason_words.THE_ONE_COMBINATION
        if len(reason.left) == 1:
            return reason_words.IN_THE_ONE_COMBINATION
        return reason_words.NAMED_CERTAIN_DIGIT if reason.left else reason_words.NEEDS
    if reason.arguments:
        return reason_words.IN_CAGE + _out(told)
    if not reason.left:
        return reason_words.NONE_WITH
    plain = len(reason.left) == 1 or gone_digits(told.step).bit_count() > _GONE_AT_MOST
    return reason_words.NAMED_COMBINATIONS + ("." if plain else "")


def _cage_arrangements(told: Told) -> str | None:
    return reason_words.IN_CAGE + _out(told) if argument_in_words(told) else None


def _last_cells_of_cage(told: Told) -> str | None:
    if told.reason is None or told.board is None:
        return None
    return reason_words.CAGE_SETTLES if why_in_words(told) else reason_words.CAGE_SETTLES_AT_ONCE


def _few_arrangements(told: Told) -> str | None:
    if told.reason is None:
        return None
    return reason_words.FEW_WAYS if why_in_words(told) else reason_words.FEW_WAYS_AT_ONCE


def _only_cell(told: Told) -> str | None:
    if told.reason is None:
        return None
    return (
        reason_words.ONLY_CELL[len(told.reason.left)]
        if len(told.reason.left) < 2
        else reason_words.ONLY_CELL_OF_SEVERAL
    )


def _rest_of_house(told: Told) -> str | None:
    if told.board is None or not told.step.places:
        return None
    return rest_of_house_in_words(told.step, told.board) or None


def _hidden_cage_digits(told: Told) -> str | None:
    left = told.reason.left if told.reason else ()
    return reason_words.HIDDEN_LEAVES[len(left) == 1] if left else None


def _difference(told: Told) -> str | None:
    because = None if told.board is None else difference_in_words(told.step, told.board)
    return reason_words.SUM_BECAUSE.replace("{because}", because) if because else None


def _derived_sum(told: Told) -> str | None:
    if told.reason is None:
        return None
    if told.reason.left:
        return reason_words.SUM_CAN_ONLY_BE
    return reason_words.SUM_ARGUED + _out(told) if argument_in_words(told) else None


def _out(told: Told) -> str:
    """Tell what follows from arguments that name each digit that goes; empty where they do not."""
    reason = told.reason
    if reason is None or told.board is None or not names_all(reason, told.board):
        return ""
    return reason_words.OUT[len(reason.arguments) > 1]


def _locked(told: Told) -> str | None:
    return reason_words.BOTH_IN if len(told.step.focus) == 2 else None


def _almost_locked_pair(told: Told) -> str | None:
    return line_words.LINKED_SETS if told.step.chain else None


def _one_cluster(told: Told) -> str | None:
    return None if told.step.length % 2 else line_words.SIDE_CLASH


def _trial(told: Told) -> str | None:
    return line_words.TRIAL_TOLD if told.step.length == 1 and told.board is not None else None


_VARIANTS: Mapping[str, Callable[[Told], str | None]] = {
    "all-places": _all_places,
    "almost-locked-pair": _almost_locked_pair,
    "cage-arrangements": _cage_arrangements,
    "cage-combinations": _cage_combinations,
    "crossing-cell": lambda told: None if told.board is None else sum_words.CROSSING,
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
    "pair-values": _pair_values,
    "rest-of-house": _rest_of_house,
    "sign-bounds": _sign_bounds,
    "single-combination": _single_combination,
    "trial": _trial,
}


def variant_of(told: Told) -> str | None:
    """Return the sentence that fits better than the usual one of the technique, if any."""
    choose = _VARIANTS.get(told.step.technique)
    return None if choose is None else choose(told)
