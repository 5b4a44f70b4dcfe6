"""Writing a diagnosis down: as text for a person, as YAML for a program."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import yaml

from verifier.diagnosis import wording
from verifier.diagnosis.findings import Diagnosis, Finding
from verifier.diagnosis.repairs.mends import Mend
from verifier.files.text.lines import LineDumper, yaml_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import filled

__all__ = ["as_record", "in_words", "write_diagnosis", "yaml_of_changes"]

_BLOCKED = "#"
_MOST_STEPS = 25
"""Steps that the text gives; of more it gives the last."""


def in_words(diagnosis: Diagnosis) -> str:
    """Return a diagnosis as a text that can be sent to the setter; it ends with a line break."""
    return "".join(f"{line}\n" for line in _lines(diagnosis))


def _lines(diagnosis: Diagnosis) -> Iterator[str]:
    head, *others = diagnosis.findings
    yield head.says
    for finding in others:
        yield ""
        yield finding.says
        yield from _details(diagnosis.puzzle.grid, finding)
    if diagnosis.mends:
        yield ""
        yield wording.repairs(len(diagnosis.mends), sound=diagnosis.sound)
        yield ""
        for rank, mend in enumerate(diagnosis.mends, start=1):
            yield f"{rank:>3}. {wording.mend(diagnosis.puzzle.grid, mend)}"


def _details(grid: Grid, finding: Finding) -> Iterator[str]:
    """Yield the steps or the grids that belong to a finding."""
    steps: Sequence[str] = finding.facts.get("steps", ())
    if len(steps) > _MOST_STEPS:
        yield filled(wording.EARLIER_STEPS, number=len(steps) - _MOST_STEPS)
    for number, step in list(enumerate(steps, start=1))[-_MOST_STEPS:]:
        yield f"{number:>5}. {step}"
    if "grids" in finding.facts:
        one, other = finding.facts["grids"]
        width = len(str(grid.digits))
        for row, its_twin in zip(one, other, strict=True):
            yield "".join(("   ", _row(row, row, width), "     ", _row(its_twin, row, width))).rstrip()


def _row(row: Sequence[int | None], other: Sequence[int | None], width: int) -> str:
    """Return a row of digits, those that differ from the other row with a star."""
    return "".join(
        f"{digit or _BLOCKED:>{width + 1}}{' ' if digit == twin else '*'}"
        for digit, twin in zip(row, other, strict=True)
    )


def write_diagnosis(diagnosis: Diagnosis) -> str:
    """Return a diagnosis as one YAML document, without a document mark."""
    return yaml_of_changes(as_record(diagnosis))


def yaml_of_changes(record: dict[str, Any]) -> str:
    """Return plain values, changes among them, as YAML: lists of cells, digits and the like on one line."""
    return yaml_of(record, _Dumper)


def as_record(diagnosis: Diagnosis) -> dict[str, Any]:
    """Return a diagnosis as plain dictionaries and lists, in the order in which they are written."""
    grid = diagnosis.puzzle.grid
    return {
        "findings": [
            {"code": finding.code, "says": finding.says, **finding.facts} for finding in diagnosis.findings
        ],
        "repairs": [_repair(grid, rank, mend) for rank, mend in enumerate(diagnosis.mends, start=1)],
    }


def _repair(grid: Grid, rank: int, mend: Mend) -> dict[str, Any]:
    return {
        "rank": rank,
        "says": wording.mend(grid, mend),
        "changes": [change.record(grid) for change in mend.changes],
        "solutions": 1,
        "tier": mend.proof.tier,
    }


class _Dumper(LineDumper):
    """Writes any list of plain words or numbers on one line."""


def _list(dumper: _Dumper, items: list[Any]) -> yaml.Node:
    plain = all(isinstance(item, str | int) for item in items) and not any(" " in str(i) for i in items)
    return dumper.represent_sequence("tag:yaml.org,2002:seq", items, flow_style=plain)


_Dumper.add_representer(list, _list)
