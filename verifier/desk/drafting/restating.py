"""A puzzle stated otherwise: its file, changed, and read by the reader of files with all its checks."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import yaml

from verifier.desk import wording
from verifier.desk.drafting.unfinished import boxes_of, with_boxes, without_unfit_boxes
from verifier.desk.wishes import RefusedError
from verifier.files.faults import FaultReport
from verifier.files.limits import DEFAULT_LIMITS
from verifier.files.records import read_record
from verifier.files.text.nodes import compose_json
from verifier.files.writing import write_puzzle
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import Puzzle

__all__ = ["restated"]


def restated(puzzle: Puzzle, state: Callable[[dict[str, Any]], None]) -> Puzzle:
    """Return the puzzle that a file would be, were it stated otherwise; unfinished boxes stay as they are.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle as it is.
    state : callable
        Changes the keys of its file.

    Raises
    ------
    RefusedError
        With what the reader says against it.
    """
    bare = without_unfit_boxes(puzzle)
    keys: dict[str, Any] = yaml.load(write_puzzle(bare), Loader=yaml.CBaseLoader)
    state(keys)
    report = FaultReport("", DEFAULT_LIMITS.faults)
    node = compose_json(json.dumps(_plain(keys)), 1, DEFAULT_LIMITS, report)
    read = None if node is None else read_record(node, puzzle.credits.id, DEFAULT_LIMITS, report)
    if read is None:
        fault = report.faults()[0]
        raise RefusedError(filled(wording.NOT_SO, found=fault.found, allowed=fault.allowed, cure=fault.cure))
    read = replace(read, credits=puzzle.credits)
    if bare is puzzle:
        return read
    return with_boxes(read, {cell: box.number for box in boxes_of(puzzle) for cell in box.cells})


def _plain(keys: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in keys.items() if value not in (None, "", [])}
