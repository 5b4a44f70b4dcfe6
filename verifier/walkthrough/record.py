"""A walkthrough as YAML: each step with what it does, what it rests on, and its sentence."""

from __future__ import annotations

from typing import Any

from grader.board import Board, digits_of
from grader.chapters import chapters_of
from grader.narrate import tell
from grader.steps import DerivedSum, Step
from verifier.puzzle.yaml_lines import Line, Pairs, yaml_of
from verifier.walkthrough.work import Walkthrough

__all__ = ["as_record", "as_yaml"]


def as_yaml(told: Walkthrough) -> str:
    """Return a walkthrough as one YAML document, without a document mark.

    Notes
    -----
    For each step ``because`` has all that it rests on: houses, cages, sums, and the digits open in the
    cells it looks at, at that moment; a cell that has its digit is listed with that digit alone. A sum
    names the houses and cages that it is the difference of.
    """
    return yaml_of(as_record(told))


def as_record(told: Walkthrough) -> dict[str, Any]:
    """Return a walkthrough as plain dictionaries and lists, in the order in which they are written."""
    puzzle, credits = told.puzzle, told.puzzle.credits
    record: dict[str, Any] = {
        "puzzle": {
            "id": credits.id,
            "title": credits.title,
            "setter": credits.setter,
            "kind": puzzle.kind,
            "grid": puzzle.grid.name,
        },
        "solutions": {"count": told.tally.count, "complete": told.tally.complete},
        "tier": told.grade.tier if told.grade else None,
        "ends": told.whole.outcome.value,
    }
    if told.cell is not None:
        record["from"] = puzzle.grid.cell_name(told.cell)
    if told.audit is not None:
        record["audit"] = {"steps": len(told.told.steps), "failed": Line(told.audit)}
    return record | {"steps": _steps(told)}


def _steps(told: Walkthrough) -> list[dict[str, Any]]:
    chapters = (
        [chapter.name for chapter in chapters_of(told.told.steps) for _ in chapter.steps]
        if told.cell is None
        else [None] * len(told.told.steps)
    )
    return [
        {
            "n": number,
            "round": told.round_of(taken.step),
            **({"chapter": chapter} if chapter else {}),
            **_step(taken.step, taken.board),
        }
        for number, (taken, chapter) in enumerate(zip(told.told.steps, chapters, strict=True), start=1)
    ]


def _step(step: Step, board: Board) -> dict[str, Any]:
    layout = board.layout
    name = layout.grid.cell_name
    return {
        "technique": step.technique,
        "places": Pairs({name(cell): digit for cell, digit in step.places}),
        "removes": Pairs({name(cell): list(digits_of(gone)) for cell, gone in step.removes}),
        "because": {
            "houses": Line([layout.houses[house].name for house in step.houses]),
            "cages": [_cage(cage, board) for cage in step.cages],
            "sums": [_sum(derived, board) for derived in step.sums],
            "candidates": Pairs({name(cell): list(digits_of(board.candidates[cell])) for cell in step.looks}),
        },
        "says": tell(step, layout, board),
    }


def _cage(cage: int, board: Board) -> dict[str, Any]:
    written = board.layout.cages[cage]
    names = [board.layout.grid.cell_name(cell) for cell in written.cells]
    return Pairs({"total": written.total, "cells": names})


def _sum(derived: DerivedSum, board: Board) -> dict[str, Any]:
    layout = board.layout
    return {
        "cells": Pairs({layout.grid.cell_name(cell): weight for cell, weight in derived.linear.weights}),
        "total": derived.linear.total,
        "from": {
            "houses": Line([layout.houses[house].name for house in derived.houses]),
            "cages": [_cage(cage, board) for cage in derived.cages],
        },
    }
