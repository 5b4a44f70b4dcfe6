"""Hold the effort figure against people's times, and fit its constants.

    python -m scripts.fit_effort            show how well it does, next to simpler figures; write nothing
    python -m scripts.fit_effort --write    also set the unit in effort.yaml: the median classic is 100

The times: 511 classics, each the mean of 10 to 43 people (S.-W. Wang, IEEE Access 12, 2024, 104254-104262).
All figures are Spearman's rho with them. The constants are round numbers, not the result of a regression;
how much was gained by choosing them on these very puzzles, the nested figure shows: in each of 5 x 10 folds
they are chosen anew, among their neighbours, on nine tenths of the puzzles and held against the last.

The minutes are chosen in the same way: so many at effort 100 that half the puzzles lie above the middle, and
four in five between the ends, on one half of the puzzles; the other half says how many it really are.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import product
from math import log, log1p
from pathlib import Path
from typing import Annotated, Any

import numpy as np
import numpy.typing as npt
import typer
from rich.console import Console
from rich.table import Table
from scipy.stats import linregress, spearmanr

from grader.board.board import Board
from grader.grading.effort import EffortTable, Turn, cost_of, default_effort, ways_through
from grader.grading.glance import glance
from grader.grading.minutes import MinutesTable
from grader.grading.replay import Replay, replay
from grader.grading.tiers import default_tiers
from tests.reference import load, puzzle_of

__all__ = ["Classic", "folds", "main", "minutes_at_100", "neighbours", "within"]

TABLE = Path(__file__).resolve().parents[1] / "grader" / "grading" / "effort.yaml"
REPEATS, FOLDS = 5, 10
LAST_CELL = "last-cell-of-house"
SINGLES = {LAST_CELL, "hidden-single-box", "hidden-single-line", "naked-single"}
FIRST_STUDY = {LAST_CELL: 3.3, "box": 1.0, "line": 0.7, "naked": 0.1}
"""How easily a first study of the same times took a single to be seen; its crowding was 0.7."""

Figures = npt.NDArray[np.float64]
_look = cache(glance)


@dataclass(frozen=True, eq=False)
class Classic:
    """A timed classic, replayed."""

    human: dict[str, Any]
    played: Replay
    turns: tuple[Turn, ...]

    def cost(self, table: EffortTable) -> float:
        """Return the sum over both ways through."""
        return sum(cost_of(turn, table, _look) for turn in self.turns) / 2


def timed_classics() -> list[Classic]:
    """Read and replay the timed classics."""
    classics = []
    for record in load("classic_human"):
        played = replay(puzzle_of(record))
        turns = tuple(turn for way in ways_through(played) for turn in way)
        classics.append(Classic(record["human"], played, turns))
    return classics


def neighbours(table: EffortTable) -> Iterator[tuple[str, EffortTable]]:
    """Yield each table that differs in one constant, with the name of the change."""
    for crowding in (0.5, 0.8):
        yield f"crowding {crowding}", replace(table, crowding=crowding)
    for followed in (0.2, 0.45):
        yield f"followed {followed}", replace(table, followed=followed)
    for naked in (0.05, 0.2):
        yield f"naked {naked}", replace(table, naked=naked)
    for last in (2.0, 5.0):
        yield f"last cell {last}", replace(table, at_sight={**table.at_sight, LAST_CELL: last})


def _grid(table: EffortTable) -> list[EffortTable]:
    """Return all tables from which the nested figure chooses."""
    return [
        replace(
            table,
            crowding=crowding,
            followed=followed,
            naked=naked,
            at_sight={**table.at_sight, LAST_CELL: last},
        )
        for crowding, followed, naked, last in product(
            (0.5, 0.65, 0.8), (0.2, 0.3, 0.45), (0.05, 0.1, 0.2), (2.0, 3.0, 5.0)
        )
    ]


def folds(count: int) -> Iterator[tuple[npt.NDArray[np.intp], npt.NDArray[np.intp], int]]:
    """Yield the training part, the part left out and the number of the repeat; the same at every run."""
    for repeat in range(REPEATS):
        order = np.random.default_rng(repeat).permutation(count)
        for fold in range(FOLDS):
            left_out = order[fold::FOLDS]
            yield np.setdiff1d(order, left_out), left_out, repeat


def cross_validated(
    times: Figures, predict: Callable[[npt.NDArray[np.intp], npt.NDArray[np.intp]], Figures]
) -> float:
    """Return the mean rho over the repeats; `predict` sees the times of the training part alone."""
    predicted = np.empty((REPEATS, len(times)))
    for train, left_out, repeat in folds(len(times)):
        predicted[repeat, left_out] = predict(train, left_out)
    return float(np.mean([rho(row, times) for row in predicted]))


def regression(terms: Sequence[Figures], times: Figures) -> float:
    """Return the cross-validated rho of ``ln time = a + b x term + ...``."""
    matrix = np.column_stack([np.ones(len(times)), *terms])

    def predict(train: npt.NDArray[np.intp], left_out: npt.NDArray[np.intp]) -> Figures:
        weights, *_ = np.linalg.lstsq(matrix[train], np.log(times[train]), rcond=None)
        return np.asarray(matrix[left_out] @ weights, float)

    return cross_validated(times, predict)


def nested(costs: Figures, times: Figures) -> float:
    """Return the cross-validated rho where each fold chooses its table; a row of costs for each table."""

    def predict(train: npt.NDArray[np.intp], left_out: npt.NDArray[np.intp]) -> Figures:
        best = max(range(len(costs)), key=lambda row: rho(costs[row, train], times[train]))
        fitted = linregress(np.log(costs[best, train]), np.log(times[train]))
        return np.asarray(fitted.intercept + fitted.slope * np.log(costs[best, left_out]), float)

    return cross_validated(times, predict)


def rho(one: Figures, other: Figures) -> float:
    """Return Spearman's rho."""
    return float(spearmanr(one, other).statistic)


def first_study(classic: Classic) -> float:
    """Return the sum over placing rounds of ``places x empty / ease ^ 0.7``, as a first study had it."""
    return sum(
        float(one.width * one.empty / _ease(one.board) ** 0.7)
        for one in classic.played.rounds
        if one.technique in SINGLES
    )


def _ease(board: Board) -> float:
    ease = FIRST_STUDY["naked"] * glance(board).naked
    for house, mask in zip(board.layout.houses, board.layout.house_masks, strict=True):
        if (mask & ~board.placed).bit_count() == 1:
            ease += FIRST_STUDY[LAST_CELL]
        else:
            kind = FIRST_STUDY["box" if house.kind == "box" else "line"]
            open_places = [places & mask for places in board.places()]
            ease += kind * sum(
                places.bit_count() == 1 and not places & board.placed for places in open_places
            )
    return ease


def main(write: Annotated[bool, typer.Option(help="Set the unit in effort.yaml.")] = False) -> None:
    """Show how well the effort figure does, and set its unit if asked to."""
    classics, table = timed_classics(), default_effort()
    times = np.array([classic.human["mean_time_s"] for classic in classics], float)
    costs = np.array([classic.cost(table) for classic in classics])
    console = Console()
    console.print(_comparison(classics, table, times, costs))
    console.print(_neighbourhood(classics, table, times))
    console.print(_halves(100 * costs / table.unit, times / 60))
    slope = linregress(np.log(costs), np.log(times)).slope
    console.print(f"twice the effort goes with {2**slope:.2f} times the time")
    unit = round(float(np.median(costs)))
    console.print(f"unit: {unit} (the table has {table.unit:.0f})")
    if write:
        TABLE.write_text(re.sub(r"(?m)^unit: .*$", f"unit: {unit}", TABLE.read_text("utf-8")), "utf-8")


def _comparison(classics: Sequence[Classic], table: EffortTable, times: Figures, costs: Figures) -> Table:
    rounds = [classic.played.rounds for classic in classics]
    tier_of = default_tiers().tier_of
    hard = np.array([log1p(sum(tier_of[one.technique] >= 5 for one in played)) for played in rounds])
    study = np.array([log(first_study(classic)) for classic in classics])
    choices = np.array([[classic.cost(one) for classic in classics] for one in _grid(table)])
    rated = np.array(["d_to" in classic.human for classic in classics])
    measure = np.array([classic.human["d_to"] for classic in classics if "d_to" in classic.human])
    shown = Table("figure", "rho", title=f"Rank correlation with the times of {len(classics)} classics")
    for name, value in (
        ("number of givens (few is hard)", rho(np.array([float(p[0].empty) for p in rounds]), times)),
        ("rounds", rho(np.array([float(len(played)) for played in rounds]), times)),
        ("a first study's sum over the rounds", rho(study, times)),
        ("the same and hard rounds, cross-validated", regression([study, hard], times)),
        ("effort", rho(costs, times)),
        ("effort, cross-validated", regression([np.log(costs)], times)),
        ("effort, constants chosen anew in each fold", nested(choices, times)),
        (f"effort with the paper's own measure ({len(measure)} of them)", rho(costs[rated], measure)),
    ):
        shown.add_row(name, f"{value:.3f}")
    shown.add_row("a first study's best, over 36 walks, cross-validated", "0.685, as it says")
    shown.add_row("95 % of resamplings of effort lie in", "{:.3f} to {:.3f}".format(*_interval(costs, times)))
    return shown


def _interval(costs: Figures, times: Figures) -> tuple[float, float]:
    random = np.random.default_rng(0)
    draws = (random.integers(0, len(times), len(times)) for _ in range(1000))
    low, high = np.percentile([rho(costs[draw], times[draw]) for draw in draws], [2.5, 97.5])
    return float(low), float(high)


def minutes_at_100(efforts: Figures, minutes: Figures) -> tuple[float, float, float]:
    """Return the middle of some puzzles' minutes at effort 100, and the ends of the range of four in five.

    The tails are a little thinner than a tenth each: of as many others, somewhat more lie outside.
    """
    low, middle, high = np.quantile(minutes / efforts * 100, [0.09, 0.5, 0.91])
    return float(middle), float(low), float(high)


def within(table: MinutesTable, efforts: Figures, minutes: Figures) -> float:
    """Return the share of puzzles whose minutes lie in the range that is told, in whole minutes."""
    ranges = [table.at(round(effort)) for effort in efforts]
    return float(
        np.mean([told.least <= taken <= told.most for told, taken in zip(ranges, minutes, strict=True)])
    )


def _halves(efforts: Figures, minutes: Figures) -> Table:
    shown = Table("chosen on", "middle", "from", "to", "of the rest within", title="Minutes at effort 100")
    halves = [slice(half, None, 2) for half in (0, 1)]
    for name, one, other in zip(("every second", "the others"), halves, halves[::-1], strict=True):
        chosen = minutes_at_100(efforts[one], minutes[one])
        share = within(MinutesTable(*chosen), efforts[other], minutes[other])
        shown.add_row(name, *(f"{figure:.2f}" for figure in chosen), f"{share:.3f}")
    table = default_effort().minutes
    share = within(table, efforts, minutes)
    shown.add_row("as told", str(table.middle), str(table.least), str(table.most), f"{share:.3f} of all")
    return shown


def _neighbourhood(classics: Sequence[Classic], table: EffortTable, times: Figures) -> Table:
    shown = Table("instead", "rho", title="Other constants")
    for name, other in neighbours(table):
        shown.add_row(name, f"{rho(np.array([classic.cost(other) for classic in classics]), times):.3f}")
    return shown


if __name__ == "__main__":
    typer.run(main)
