"""Walkthroughs as YAML: what steps do, and what they rest on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from grader.board.board import Board
from grader.board.steps import DerivedSum, WalkStep
from grader.words.narrate import reason_told, tell
from verifier.files.text.lines import OneLine, Pairs, yaml_of
from verifier.puzzle.masks import digits_of
from verifier.walkthrough.text import story_title
from verifier.walkthrough.work import Walkthrough

__all__ = ["as_record", "as_yaml", "step_as_record"]


def as_yaml(told: Walkthrough) -> str:
    """Return a walkthrough as one YAML document, without a document mark.

    Notes
    -----
    For each step ``because`` has all that it rests on: houses, cages, sums, and the digits open in the
    cells it looks at, at that moment; a cell that has its digit is listed with that digit alone. A sum
    is over cells without a digit, with what is known taken off, and names the houses and cages that it is the
    difference of. ``excluded`` has the combinations that fall, each with the cells that a person points at:
    where a digit of it stands, or where too little is open; where it supposes a digit (``with``), the
    combination is that of the other cells. Steps with the same ``breath`` are told in one.
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
        record["audit"] = {"steps": len(told.told.steps), "failed": OneLine(told.audit)}
    return record | {"steps": list(_steps(told))}


def _steps(told: Walkthrough) -> Iterator[dict[str, Any]]:
    taken = told.told.steps
    chapters = (
        [stage.name for stage in told.told.stages for _ in stage.steps]
        if told.cell is None
        else [None] * len(taken)
    )
    for n, (each, chapter, breath) in enumerate(zip(taken, chapters, _breaths(told), strict=True), start=1):
        yield step_as_record(each, n=n, in_round=told.round_of(each.step), chapter=chapter, breath=breath)


def _breaths(told: Walkthrough) -> Iterator[int]:
    """Yield for each told step the number of the paragraph in which it is told."""
    paragraphs = [paragraph for part in told.told.parts(story_title(told)) for paragraph in part.paragraphs]
    for number, paragraph in enumerate(paragraphs, start=1):
        yield from (number for _ in range(paragraph.first, paragraph.last + 1))


def step_as_record(
    taken: WalkStep, *, n: int, breath: int, in_round: int | None = None, chapter: str | None = None
) -> dict[str, Any]:
    """Return one step, its number, round, chapter and breath given, as plain dictionaries and lists."""
    step, board = taken.step, taken.board
    layout = board.layout
    name = layout.grid.cell_name
    return {
        "n": n,
        "round": in_round,
        **({"chapter": chapter} if chapter else {}),
        "technique": step.technique,
        "places": Pairs({name(cell): digit for cell, digit in step.places}),
        "removes": Pairs({name(cell): list(digits_of(gone)) for cell, gone in step.removes}),
        "because": {
            "houses": OneLine([layout.houses[house].name for house in layout.houses_among(step.rules)]),
            "cages": [_cage(cage, board) for cage in layout.cages_among(step.rules)],
            "sums": [_sum(derived, board) for derived in step.sums],
            "rules": [
                Pairs(layout.rules[rule].record(layout.grid))
                for rule in step.rules
                if rule >= layout.cage_numbers.stop
            ],
            "candidates": Pairs({name(cell): list(digits_of(board.candidates[cell])) for cell in step.looks}),
            "excluded": list(_excluded(taken)),
        },
        "breath": breath,
        "says": tell(step, layout, board),
    }


def _excluded(taken: WalkStep) -> Iterator[dict[str, Any]]:
    reason, name = reason_told(taken.step, taken.board), taken.board.layout.grid.cell_name
    if reason is None:
        return
    whole = [(None, each) for each in reason.excluded]
    supposed = [(argument, case) for argument in reason.arguments for case in argument.cases]
    for argument, each in (*whole, *supposed):
        yield Pairs(
            {
                **({"with": Pairs({name(argument.cell): argument.digit})} if argument else {}),
                "combination": list(digits_of(each.combination)),
                "by": [name(cell) for cell in each.by],
            }
        )


def _cage(cage: int, board: Board) -> dict[str, Any]:
    return Pairs(board.layout.cage(cage).record(board.layout.grid))


def _sum(derived: DerivedSum, board: Board) -> dict[str, Any]:
    layout = board.layout
    weights, total = derived.left(board)
    sign = 1 if max(weights.values()) > 0 else -1  # cells on one side alone are a plain sum
    return {
        "cells": Pairs({layout.grid.cell_name(cell): sign * weight for cell, weight in weights.items()}),
        "total": sign * total,
        "from": {
            "houses": OneLine([layout.houses[house].name for house in layout.houses_among(derived.rules)]),
            "cages": [_cage(cage, board) for cage in layout.cages_among(derived.rules)],
        },
    }
