"""What came of a wish, as plain values for a program."""

from __future__ import annotations

from typing import Any

from verifier.diagnosis.report import yaml_of_changes
from verifier.tuning.answers import Ending, Tuning, TuningAnswer
from verifier.tuning.portrait import symmetries_of
from verifier.tuning.tuning_text import changes_in_words
from verifier.tuning.wish_in_words import missed_in_words, wish_as_record
from verifier.verdict.report import as_record as verdict_as_record

__all__ = ["as_record", "figures_of", "write_tuning"]


def write_tuning(tuning: Tuning) -> str:
    """Return what came of a wish as one YAML document, without a document mark."""
    return yaml_of_changes(as_record(tuning))


def as_record(tuning: Tuning) -> dict[str, Any]:
    """Return what came of a wish as plain dictionaries and lists, in the order in which they are written."""
    return {
        "puzzle": tuning.before.puzzle.credits.id,
        "wish": wish_as_record(tuning.wish),
        "met": bool(tuning.answers) or tuning.ending is Ending.ALREADY,
        "ended": tuning.ending.value,
        "tried": tuning.tried,
        "one_solution": tuning.kept,
        "before": figures_of(tuning.before),
        "answers": [_way(tuning, rank, answer) for rank, answer in enumerate(tuning.answers, start=1)],
        "nearest": [
            {**_way(tuning, rank, answer), "misses": missed_in_words(answer.gaps)}
            for rank, answer in enumerate(tuning.nearest, start=1)
        ],
    }


def _way(tuning: Tuning, rank: int, answer: TuningAnswer) -> dict[str, Any]:
    grid = tuning.before.puzzle.grid
    return {
        "rank": rank,
        "says": changes_in_words(grid, answer.changes),
        "changes": [change.record(grid) for change in answer.changes],
        **figures_of(answer),
    }


def figures_of(answer: TuningAnswer) -> dict[str, Any]:
    """Return what a puzzle is like: from its verdict, by the verdict's keys, and from its walk."""
    verdict = verdict_as_record(answer.verdict)
    difficulty = verdict["difficulty"] or {}
    return {
        "verdict": verdict["verdict"],
        "solutions": verdict["solutions"]["count"],
        **{
            key: difficulty.get(key)
            for key in ("tier", "name", "effort", "minutes", "hardest", "rounds", "steps", "break_in")
        },
        "narrow": [{"step": number, "says": says} for number, says in answer.narrow.items()],
        "givens": len(answer.puzzle.givens),
        "cages": len(answer.puzzle.cages),
        "symmetry": list(symmetries_of(answer)),
        "remarks": verdict["remarks"],
    }
