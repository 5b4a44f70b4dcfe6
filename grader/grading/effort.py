"""Effort: how much work a solve is, in units of the median classic with published human times.

What the figure says, for editors: it goes with the time that people need, and 100 is the median of the
classics whose times have been published. A digit takes the longer to find the more cells are empty, and
the shorter the more places there are where one could go on; so each digit costs::

    empty cells / openness ^ 0.65

Openness adds up what there is to be seen. A digit with one place left in a box counts 1. Each further place
that comes out when one digit is followed through the grid, by lines and locked candidates, counts 0.3: few
look for it, but it is there. A cell with one candidate left counts only 0.1, for its digits must be counted
out. The last cell of a house is filled in at sight, whatever else is open. Who finds no digit must remove
candidates: a round of that costs so many times the empty cells, by technique; so does what is left where
the replay gets no further. People go about a puzzle in different ways, so all this is added up along two
and averaged: one takes what is easiest, as the rounds of the replay do; the other takes every hidden single
in sight at once, and the replay's next round only where there is none.

For classics this is held against people's times (``scripts/fit_effort.py``), and is in proportion to them.
For killers it is an extrapolation, as no times are known: the same sums, in which the last cell of a cage
is filled in at sight too, a place that the rule of 45 gives adds to what else is open, and combinations,
arrangements and derived sums have costs that nobody has measured.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple

import yaml

from grader.board.board import Board
from grader.board.steps import Step
from grader.grading.glance import Glance, Onlooker, glance, hidden_singles
from grader.grading.minutes import MinutesTable
from grader.grading.replay import Replay, Round
from grader.grading.tiers import default_tiers
from grader.techniques.singles import HIDDEN_SINGLE_BOX

__all__ = [
    "STUCK",
    "EffortTable",
    "Turn",
    "cost_of",
    "default_effort",
    "effort_from",
    "effort_of",
    "ways_through",
]


STUCK = "stuck"
"""What `effort.yaml` calls the end of a replay that got no further."""


@dataclass(frozen=True, slots=True)
class EffortTable:
    """The constants of the effort figure; ``effort.yaml`` beside this module explains them.

    Parameters
    ----------
    crowding : float
        How much cheaper a place gets when many are open; from 0 (not at all) to 1.
    unit : float
        The sum that counts as effort 100.
    in_box, followed, naked : float
        What one place that a board shows counts towards its openness.
    shown : frozenset of str
        The techniques whose places the board shows, so that openness has them already.
    ease : mapping of str to float
        For other techniques that place digits: what each place adds to the openness.
    at_sight : mapping of str to float
        For places that are filled in at sight: the openness, whatever else is open.
    cost : mapping of str to float
        For all other techniques: what a round costs for each empty cell.
    minutes : MinutesTable
        How long a puzzle of effort 100 takes.
    """

    crowding: float
    unit: float
    in_box: float
    followed: float
    naked: float
    shown: frozenset[str]
    ease: Mapping[str, float]
    at_sight: Mapping[str, float]
    cost: Mapping[str, float]
    minutes: MinutesTable

    def openness(self, seen: Glance) -> float:
        """Return how open a board is that shows so much; never less than one naked single makes it."""
        open_places = self.in_box * seen.in_boxes + self.followed * seen.followed + self.naked * seen.naked
        return max(open_places, self.naked)


def effort_from(record: Mapping[str, Any]) -> EffortTable:
    """Build a table from the record that ``effort.yaml`` holds, in whole percentages.

    A technique without a line of its own costs what its tier costs.
    """
    by_tier = record["cost_by_tier"]
    usual = {technique: by_tier[tier] for technique, tier in default_tiers().tier_of.items()}
    openness = _from_percent(record["openness"])
    return EffortTable(
        crowding=record["crowding"] / 100,
        unit=float(record["unit"]),
        in_box=openness["in-box"],
        followed=openness["followed"],
        naked=openness["naked"],
        shown=frozenset(record["shown"]),
        ease=_from_percent(record["ease"]),
        at_sight=_from_percent(record["at_sight"]),
        cost=_from_percent({**usual, **record["cost"]}),
        minutes=MinutesTable.of(record["minutes"]),
    )


def _from_percent(figures: Mapping[str, int]) -> dict[str, float]:
    return {name: percent / 100 for name, percent in figures.items()}


@cache
def default_effort() -> EffortTable:
    """Return the constants that ship with the grader."""
    text = files("grader.grading").joinpath("effort.yaml").read_text(encoding="utf-8")
    return effort_from(yaml.load(text, yaml.CSafeLoader))


def effort_of(played: Replay, table: EffortTable | None = None) -> int:
    """Return the effort of a solve.

    Parameters
    ----------
    played : Replay
        The whole solve. Where it got no further, all that is left is charged.
    table : EffortTable, optional
        The constants; those that ship with the grader when absent.

    Returns
    -------
    int
        100 for the median of the classics with published human times; twice that for about twice the time.

    Notes
    -----
    After two findings of Pelánek (FLAIRS 2011; arXiv 1403.7373): people's times follow the hardness of
    the single steps, and how few of them are open at once. Their form here is our own.

    Examples
    --------
    >>> from grader.grading.replay import replay
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> effort_of(replay(make_puzzle("classic", Grid.square(4), givens=givens)))
    4
    """
    used = table or default_effort()
    ways = ways_through(played)
    cost = sum(_cost_of_way(way, used) for way in ways) / len(ways)
    return round(100 * cost / used.unit)


def _cost_of_way(way: Iterable[Turn], table: EffortTable) -> float:
    look = Onlooker()
    return sum(cost_of(turn, table, look) for turn in way)


class Turn(NamedTuple):
    """One round of a way through: a technique, how many steps it has, and the board it starts from."""

    technique: str
    width: int
    board: Board


def ways_through(played: Replay) -> tuple[Iterable[Turn], Iterable[Turn]]:
    """Return the two ways through a puzzle: as it was replayed, and with all hidden singles at once."""
    return _as_played(played), _all_at_once(played)


def cost_of(turn: Turn, table: EffortTable, look: Callable[[Board], Glance] = glance) -> float:
    """Return what a round costs, before it is divided by the table's unit.

    Parameters
    ----------
    turn : Turn
        The round.
    table : EffortTable
        The constants.
    look : callable, optional
        Looks at a board; a study that looks at the same boards again and again brings one that remembers.
    """
    technique, width, board = turn
    empty = board.layout.grid.cell_count - board.placed.bit_count()
    if technique in table.at_sight:
        openness = table.at_sight[technique]
    elif technique in table.shown:
        openness = table.openness(look(board))
    elif technique in table.ease:
        openness = table.openness(look(board)) + table.ease[technique] * width
    else:
        return table.cost[technique] * empty
    return float(width * empty / openness**table.crowding)


def _as_played(played: Replay) -> Iterator[Turn]:
    for one in played.rounds:
        yield Turn(one.technique, one.width, one.board)
    if played.end is not None and not played.end.solved:
        yield Turn(STUCK, 0, played.end)


def _all_at_once(played: Replay) -> Iterator[Turn]:
    """Yield rounds that take every hidden single in sight; where there is none, the next that was played."""
    board = played.rounds[0].board if played.rounds else played.end
    rounds = iter(played.rounds)
    if board is None:
        return
    while not board.solved:
        singles = hidden_singles(board)
        if singles:
            turn, steps = Turn(HIDDEN_SINGLE_BOX.id, len(singles), board), [Step("", places=singles)]
        else:
            turn, steps = _next_news(rounds, board)
        yield turn
        if turn.technique == STUCK:
            return
        board = board.after(steps)


def _next_news(rounds: Iterator[Round], board: Board) -> tuple[Turn, list[Step]]:
    """Return the next round that was played and has not come to nothing on this board."""
    for one in rounds:
        steps = [step for step in one.steps if _brings_news(step, board)]
        if steps:
            return Turn(one.technique, len(steps), board), steps
    return Turn(STUCK, 0, board), []


def _brings_news(step: Step, board: Board) -> bool:
    candidates, placed = board.candidates, board.placed
    return any(not placed >> cell & 1 for cell, _ in step.places) or any(
        candidates[cell] & digits for cell, digits in step.removes
    )
