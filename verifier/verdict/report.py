"""Writing a verdict down, as YAML that people read and programs compare byte by byte."""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files
from typing import Any

from verifier.files.text.lines import OneLine, Pairs, yaml_of
from verifier.verdict.verdict import BreakInRecord, Difficulty, Minutes, Rows, Solutions, Verdict

__all__ = ["FORMAT", "as_record", "verdict_schema", "write_verdict"]

FORMAT = 2
"""The format of verdicts; goes up when a key changes its meaning or goes."""


def write_verdict(verdict: Verdict) -> str:
    """Return a verdict as one YAML document, without a document mark.

    Returns
    -------
    str
        Ends with a line break. The same for equal verdicts.
    """
    return yaml_of(as_record(verdict))


def as_record(verdict: Verdict) -> dict[str, Any]:
    """Return a verdict as plain dictionaries and lists, in the order in which they are written."""
    made = verdict.made_by
    record: dict[str, Any] = {"format": FORMAT, "verdict": verdict.state.value}
    if verdict.provisional:
        record["provisional"] = True
    return record | {
        "reasons": [{"code": reason.code, "says": reason.says} for reason in verdict.reasons],
        "puzzle": {
            "id": verdict.puzzle.id,
            "title": verdict.puzzle.title,
            "setter": verdict.puzzle.setter,
            "kind": verdict.puzzle.kind,
            "grid": verdict.puzzle.grid,
            "content": verdict.puzzle.content,
        },
        "solutions": _solutions(verdict.solutions),
        "witnesses": [{"name": witness.name, "says": witness.says} for witness in verdict.witnesses],
        "difficulty": _difficulty(verdict.difficulty),
        "remarks": [
            {"code": remark.code, "says": remark.says, "cells": OneLine(remark.cells)}
            for remark in verdict.remarks
        ],
        "rules": OneLine(verdict.puzzle.rules),
        "checks": [
            {"code": check.code, "passed": check.passed, "says": check.says} for check in verdict.checks
        ],
        "made_by": {
            "gridproof": made.gridproof,
            "ladder": made.ladder,
            "house_style": {"name": made.style_name, "content": made.style_content},
            "ortools": made.ortools,
            "clingo": made.clingo,
        },
    }


@cache
def verdict_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) that every verdict obeys."""
    text = files("verifier.verdict").joinpath("verdict.schema.json").read_text(encoding="utf-8")
    schema: dict[str, Any] = json.loads(text)
    return schema


def _solutions(solutions: Solutions) -> dict[str, Any]:
    grid = solutions.grid
    return {
        "count": solutions.count,
        "complete": solutions.complete,
        "grid": None if grid is None else _rows(grid),
        "examples": [_rows(example) for example in solutions.examples],
        "swing_cells": OneLine(solutions.swing_cells),
    }


def _rows(rows: Rows) -> list[OneLine]:
    return [OneLine(digit or None for digit in row) for row in rows]


def _difficulty(difficulty: Difficulty | None) -> dict[str, Any] | None:
    if difficulty is None:
        return None
    return {
        "tier": difficulty.tier,
        "name": difficulty.name,
        "hardest": difficulty.hardest,
        "effort": difficulty.effort,
        "rounds": difficulty.rounds,
        "steps": difficulty.steps,
        "by_technique": dict(difficulty.by_technique),
        "break_in": _break_in(difficulty.break_in),
        "solved_by_logic": difficulty.solved_by_logic,
        "minutes": _minutes(difficulty.minutes),
        "beyond": difficulty.beyond,
    }


def _minutes(minutes: Minutes | None) -> dict[str, int] | None:
    if minutes is None:
        return None
    return Pairs({"middle": minutes.middle, "from": minutes.least, "to": minutes.most})


def _break_in(break_in: BreakInRecord | None) -> dict[str, Any] | None:
    if break_in is None:
        return None
    record: dict[str, Any] = {"round": break_in.round, "technique": break_in.technique, "says": break_in.says}
    if break_in.places:
        record["places"] = dict(break_in.places)
    if break_in.removes:
        record["removes"] = {cell: OneLine(digits) for cell, digits in break_in.removes.items()}
    return record
