"""The fit of the effort figure: nothing is judged on what it was chosen on."""

from __future__ import annotations

from dataclasses import asdict

import numpy as np
import pytest

from grader.grading.effort import default_effort
from scripts.fit_effort import FOLDS, REPEATS, cross_validated, folds, neighbours, nested, regression


def test_each_puzzle_is_left_out_once_in_each_repeat_and_never_trained_on_then() -> None:
    left = [np.concatenate([out for _, out, repeat in folds(57) if repeat == r]) for r in range(REPEATS)]
    assert all(sorted(out) == list(range(57)) for out in left)
    assert all(not set(train) & set(out) and len(train) + len(out) == 57 for train, out, _ in folds(57))


def test_the_folds_are_the_same_at_every_run() -> None:
    assert all(np.array_equal(one[1], other[1]) for one, other in zip(folds(57), folds(57), strict=True))
    assert len(list(folds(57))) == REPEATS * FOLDS


def test_a_prediction_from_chance_has_no_rank_correlation() -> None:
    random = np.random.default_rng(1)
    times, noise = random.uniform(100, 900, 400), random.uniform(1, 2, 400)
    assert abs(regression([noise], times)) < 0.15


def test_choosing_among_chance_figures_gains_nothing() -> None:
    random = np.random.default_rng(2)
    times, costs = random.uniform(100, 900, 200), random.uniform(1, 2, (50, 200))
    assert abs(nested(costs, times)) < 0.2


def test_a_prediction_of_the_times_themselves_is_perfect() -> None:
    times = np.random.default_rng(3).uniform(100, 900, 57)
    assert cross_validated(times, lambda _, left_out: times[left_out]) == pytest.approx(1.0)


def test_a_neighbour_differs_in_one_constant() -> None:
    home = asdict(default_effort())
    for _, table in neighbours(default_effort()):
        assert sum(asdict(table)[name] != value for name, value in home.items()) == 1
