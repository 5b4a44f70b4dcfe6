"""Reading a verdict that was written down: the other way round from `verifier.verdict.report`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import yaml

from verifier.evidence.statements import WitnessSays
from verifier.puzzle.checking.arithmetic import Check
from verifier.verdict.report import FORMAT
from verifier.verdict.verdict import (
    BreakInRecord,
    Difficulty,
    Identity,
    MadeBy,
    Minutes,
    Reason,
    Remark,
    Solutions,
    Verdict,
    VerdictState,
)

__all__ = ["AnotherFormatError", "read_verdict", "remarks_in"]

_NO_REMARKS = "\nremarks: []\n"
"""How a verdict without remarks is written; no text of a file can come to stand so, at the left edge."""


class AnotherFormatError(ValueError):
    """A verdict was written by a version of gridproof with another format: the puzzle must be judged anew."""


def read_verdict(text: str) -> Verdict:
    """Return the verdict that `verifier.verdict.report.write_verdict` wrote.

    It reads what gridproof itself has kept, and looks for no faults in it.

    Returns
    -------
    Verdict
        Equal to the one that was written.

    Raises
    ------
    AnotherFormatError
        If it is of another format than `verifier.verdict.report.FORMAT`.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.verdict.judge import judge
    >>> from verifier.verdict.report import write_verdict
    >>> verdict = judge(make_puzzle("classic", Grid.square(4)))
    >>> read_verdict(write_verdict(verdict)) == verdict
    True
    """
    record = yaml.load(text, Loader=yaml.CSafeLoader)
    if record["format"] != FORMAT:
        raise AnotherFormatError(f"format {record['format']}, not {FORMAT}")
    return Verdict(
        state=VerdictState(record["verdict"]),
        reasons=tuple(Reason(**reason) for reason in record["reasons"]),
        puzzle=Identity(**record["puzzle"], rules=tuple(record["rules"])),
        solutions=_solutions(record["solutions"]),
        witnesses=tuple(WitnessSays(**witness) for witness in record["witnesses"]),
        difficulty=_difficulty(record["difficulty"]),
        checks=tuple(Check(**check) for check in record["checks"]),
        made_by=_made_by(record["made_by"]),
        remarks=tuple(
            Remark(remark["code"], remark["says"], tuple(remark["cells"])) for remark in record["remarks"]
        ),
        provisional=record.get("provisional", False),
    )


def remarks_in(text: str) -> tuple[Remark, ...]:
    """Return the remarks of a verdict that was written down; none for one of an earlier format.

    Most verdicts have none, and of those nothing is parsed: a whole ledger is gone through quickly.
    """
    if _NO_REMARKS in text:
        return ()
    try:
        return read_verdict(text).remarks
    except AnotherFormatError:
        return ()


def _solutions(record: Mapping[str, Any]) -> Solutions:
    return Solutions(
        count=record["count"],
        complete=record["complete"],
        grid=None if record["grid"] is None else _rows(record["grid"]),
        examples=tuple(map(_rows, record["examples"])),
        swing_cells=tuple(record["swing_cells"]),
    )


def _rows(rows: Sequence[Sequence[int | None]]) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(digit or 0 for digit in row) for row in rows)


def _difficulty(record: Mapping[str, Any] | None) -> Difficulty | None:
    if record is None:
        return None
    built = {"break_in": _break_in(record["break_in"]), "minutes": _minutes(record["minutes"])}
    return Difficulty(**{**record, **built})


def _minutes(record: Mapping[str, int] | None) -> Minutes | None:
    return None if record is None else Minutes(record["middle"], record["from"], record["to"])


def _break_in(record: Mapping[str, Any] | None) -> BreakInRecord | None:
    if record is None:
        return None
    removes = {cell: tuple(digits) for cell, digits in record.get("removes", {}).items()}
    return BreakInRecord(**{**record, "places": record.get("places", {}), "removes": removes})


def _made_by(record: Mapping[str, Any]) -> MadeBy:
    made, style = dict(record), record["house_style"]
    del made["house_style"]
    return MadeBy(**made, style_name=style["name"], style_content=style["content"])
