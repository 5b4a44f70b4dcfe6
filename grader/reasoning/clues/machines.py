"""How a clue is filled in one cell after the other: what must be remembered, clue by clue."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from grader.reasoning.clues.clue import high, low
from grader.reasoning.clues.ways import Machine, MakeMachine, unwatched
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.rule import Rule

__all__ = ["MACHINES"]

_BOTH = -1
"""Of a sandwich: both ends were met."""


def _added(cells: Sequence[int], weights: Sequence[int], total: int, masks: Mapping[int, int]) -> Machine:
    """Return the machine of a sum: what is still to be made, as long as the cells behind can make it."""
    behind = [(0, 0)]
    for cell, weight in zip(reversed(cells), reversed(weights), strict=True):
        ends = sorted((weight * low(masks[cell]), weight * high(masks[cell])))
        behind.append((behind[-1][0] + ends[0], behind[-1][1] + ends[1]))
    behind.reverse()

    def advance(rest: int, place: int, digit: int) -> int | None:
        rest -= weights[place] * digit
        least, most = behind[place + 1]
        return rest if least <= rest <= most else None

    return Machine(tuple(cells), total, advance, lambda rest: not rest)


def _repeating_cage(rule: LinearSum, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    return _added(rule.cells, [weight for _, weight in rule.weights], rule.total, masks)


def _little_killer(rule: LittleKiller, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    return _added(rule.cells, [1] * len(rule.cells), rule.total, masks)


def _arrow(rule: Arrow, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    weights = [1] if len(rule.circle) == 1 else [10, 1]
    return _added((*rule.circle, *rule.line), [*weights, *(-1 for _ in rule.line)], 0, masks)


def _region_sum(rule: RegionSum, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    ends = [number for number, part in enumerate(rule.parts) for _ in part]

    def advance(state: tuple[int, int], place: int, digit: int) -> tuple[int, int] | None:
        common, made = state
        made += digit
        if common and made > common:
            return None
        if place + 1 < len(ends) and ends[place + 1] == ends[place]:
            return common, made
        return None if common and made != common else (made, 0)

    return Machine(rule.cells, (0, 0), advance, lambda state: True)  # noqa: ARG005


def _renban(rule: Renban, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    size = len(rule.cells)

    def advance(used: int, place: int, digit: int) -> int | None:  # noqa: ARG001
        if used >> digit & 1:
            return None
        used |= 1 << digit
        return used if high(used) - low(used) < size else None

    return Machine(rule.cells, 0, advance, bool)


def _between(rule: Between, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    one, *inner, other = rule.cells

    def advance(state: tuple[int, int], place: int, digit: int) -> tuple[int, int] | None:
        if place == 0:
            return digit, digit
        least, most = min(*state, digit), max(*state, digit)
        if place == 1:
            return (least, most) if most - least > 1 else None
        return state if state[0] < digit < state[1] else None

    return Machine((one, other, *inner), (0, 0), advance, lambda state: True)  # noqa: ARG005


def _sandwich(rule: Sandwich, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    """Remembered are the end that was met, or that both were, and what is still to be added between them."""

    def advance(state: tuple[int, int], place: int, digit: int) -> tuple[int, int] | None:  # noqa: ARG001
        met, rest = state
        if digit in (1, digits):
            if not met:
                return digit, rest
            return (_BOTH, 0) if met not in (digit, _BOTH) and not rest else None
        if met in (0, _BOTH):
            return state
        return (met, rest - digit) if rest >= digit else None

    return Machine(rule.cells, (0, rule.total), advance, lambda state: state[0] == _BOTH)


def _skyscraper(rule: Skyscraper, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    """Remembered are the highest so far, and how many are still to be seen."""

    def advance(state: tuple[int, int], place: int, digit: int) -> tuple[int, int] | None:  # noqa: ARG001
        highest, to_see = state
        if digit <= highest:
            return state
        to_see -= 1
        return (digit, to_see) if 0 <= to_see <= digits - digit else None

    return Machine(rule.cells, (0, rule.count), advance, lambda state: not state[1])


def _quadruple(rule: Quadruple, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001
    """Remembered are the digits that are still needed."""
    size = len(rule.cells)

    def advance(needed: tuple[int, ...], place: int, digit: int) -> tuple[int, ...] | None:
        if digit in needed:
            at = needed.index(digit)
            needed = needed[:at] + needed[at + 1 :]
        return needed if len(needed) < size - place else None

    return Machine(rule.cells, tuple(sorted(rule.digits)), advance, lambda needed: not needed)


MACHINES: Mapping[type[Rule], MakeMachine] = {
    Thermometer: unwatched,
    Palindrome: unwatched,
    Whisper: unwatched,
    Renban: _renban,
    Between: _between,
    Arrow: _arrow,
    RegionSum: _region_sum,
    Quadruple: _quadruple,
    Sandwich: _sandwich,
    Skyscraper: _skyscraper,
    LittleKiller: _little_killer,
    LinearSum: _repeating_cage,
}
"""How each clue is filled in, by its class. Marks over two cells need none: what fits a digit is seen."""
