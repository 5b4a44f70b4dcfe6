"""What a puzzle is like, line by line: for whoever chooses between versions of it."""

from __future__ import annotations

from collections.abc import Iterator

from grader.ladder import TECHNIQUES
from verifier.puzzle.printable import filled
from verifier.tuning import wording
from verifier.tuning.answers import TuningAnswer
from verifier.verdict.style.symmetry import SYMMETRIES, unmatched
from verifier.verdict.verdict import Difficulty, Solutions

__all__ = ["in_short", "lines_of", "symmetries_of", "technique_name"]


def technique_name(technique: str) -> str:
    """Return the name of a technique as people say it."""
    return TECHNIQUES[technique].name


def in_short(difficulty: Difficulty | None) -> str:
    """Return how hard a puzzle is, as part of a sentence."""
    if difficulty is None or difficulty.tier is None:
        return wording.NOT_WORKED_THROUGH
    hardest = technique_name(difficulty.hardest) if difficulty.hardest else wording.NONE
    tier, name, effort = difficulty.tier, difficulty.name, difficulty.effort
    return filled(wording.PORTRAIT, tier=tier, name=name, effort=effort, hardest=hardest)


def symmetries_of(answer: TuningAnswer) -> tuple[str, ...]:
    """Return the symmetries that the cells of the givens have; none where there are no givens."""
    puzzle = answer.puzzle
    cells = [cell for cell, _ in puzzle.givens]
    return tuple(name for name in SYMMETRIES if cells and not unmatched(name, puzzle.grid, cells))


def lines_of(answer: TuningAnswer) -> dict[str, str]:
    """Return what a puzzle is like, by what each line is about."""
    verdict = answer.verdict
    lines = {
        wording.VERDICT: verdict.state.value,
        wording.SOLUTIONS: _solutions(verdict.solutions),
        **dict(_lines_of_difficulty(verdict.difficulty)),
        wording.NARROW: _narrow(answer),
        wording.GIVENS: str(len(answer.puzzle.givens)),
    }
    if answer.puzzle.cages:
        lines[wording.CAGES] = str(len(answer.puzzle.cages))
    if answer.puzzle.givens:
        lines[wording.SYMMETRY] = ", ".join(symmetries_of(answer)) or wording.NONE
    lines[wording.REMARKS] = " ".join(remark.says for remark in verdict.remarks) or wording.NONE
    return lines


def _solutions(found: Solutions) -> str:
    if found.count is None:
        return wording.NO_ANSWER
    return str(found.count) if found.complete else filled(wording.SEVERAL, count=found.count)


def _lines_of_difficulty(difficulty: Difficulty | None) -> Iterator[tuple[str, str]]:
    if difficulty is None or difficulty.tier is None:
        yield wording.TIER, wording.NOT_WORKED_THROUGH
        return
    yield wording.TIER, f"{difficulty.tier}, {difficulty.name}"
    yield wording.EFFORT, str(difficulty.effort)
    minutes = difficulty.minutes
    if minutes is not None:
        between = {"middle": minutes.middle, "least": minutes.least, "most": minutes.most}
        alike = len(set(between.values())) == 1
        yield wording.MINUTES, str(minutes.middle) if alike else filled(wording.MINUTES_BETWEEN, **between)
    yield wording.HARDEST, technique_name(difficulty.hardest) if difficulty.hardest else wording.NONE
    if difficulty.break_in is not None:
        first = difficulty.break_in
        yield (
            wording.BREAK_IN,
            filled(wording.IN_ROUND, round=first.round, rounds=difficulty.rounds, says=first.says),
        )
    yield wording.ROUNDS, str(difficulty.rounds)
    yield wording.STEPS, str(difficulty.steps)


def _narrow(answer: TuningAnswer) -> str:
    if not answer.narrow:
        return wording.NOWHERE
    return filled(wording.NARROW_AT if len(answer.narrow) > 1 else wording.NARROW_AT_ONE, steps=answer.narrow)
