"""A comparison as text for a person, and as plain values for a program."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from textwrap import fill, wrap
from typing import Any

from verifier.diagnosis.report import yaml_of_changes
from verifier.puzzle.printable import filled
from verifier.tuning import wording
from verifier.tuning.comparing import Beside, VersionsCompared
from verifier.tuning.tuning_record import figures_of

__all__ = ["comparison_in_words", "write_comparison"]

_WIDTH, _COLUMN = 100, 36
"""Characters of a line, and of what stands in it of each puzzle."""


def comparison_in_words(found: VersionsCompared, names: tuple[str, str]) -> str:
    """Return a comparison as a text; `names` are what the two are called. It ends with a line break."""
    head = filled(wording.COMPARISON, first=names[0], second=names[1])
    said = [fill(each, _WIDTH) for each in found.says()]
    table = _table([("", *names), *found.lines])
    steps = _table([(wording.BY_TECHNIQUE, *names), *found.techniques])
    return "\n".join([head, "", *said, "", *table, "", *steps, ""])


def _table(lines: Sequence[Beside]) -> Iterator[str]:
    first = max(len(about) for about, _, _ in lines) + 2
    for about, one, other in lines:
        for left, right in zip_longest(wrap(one, _COLUMN) or [""], wrap(other, _COLUMN), fillvalue=""):
            yield f"{about:<{first}}{left:<{_COLUMN + 2}}{right}".rstrip()
            about = ""


def write_comparison(found: VersionsCompared) -> str:
    """Return a comparison as one YAML document, without a document mark."""
    return yaml_of_changes(_record(found))


def _record(found: VersionsCompared) -> dict[str, Any]:
    grid = found.first.puzzle.grid
    differing = found.differing
    return {
        "first": {"puzzle": found.first.puzzle.credits.id, **figures_of(found.first)},
        "second": {"puzzle": found.second.puzzle.credits.id, **figures_of(found.second)},
        "same_solution": None if differing is None else not differing,
        "differ_in": [grid.cell_name(cell) for cell in differing or ()],
        "changes": None if found.changes is None else [change.record(grid) for change in found.changes],
        "says": list(found.says()),
    }
