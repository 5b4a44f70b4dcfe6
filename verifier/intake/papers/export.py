"""The ledger as a table: JSON Lines for programs, CSV for spreadsheets.

Without timings and numbers of tries, two runs over the same box give the same bytes, however often they were
cut short.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from typing import Any

from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.schema import COUNTED, CREDITS, FIGURES
from verifier.intake.papers.duplicates import repeated_by
from verifier.puzzle.printable import printable, visible

__all__ = ["csv_lines", "json_lines"]

COLUMNS = (
    *("address", "state", "provisional", "reasons"),
    *CREDITS,
    *FIGURES,
    *("file", "turned", "structure", "filling", "digest", "made_by", "repeats"),
)
TIMINGS = ("tries", "seconds", "judged_at")

_TRUTHS = ("provisional", "complete", "solved_by_logic")
_FORMULA_SIGNS = tuple("=+-@\uff1d\uff0b\uff0d\uff20")  # the wide ones of East Asian keyboards work, too


def json_lines(ledger: Ledger, *, timings: bool = False) -> Iterator[str]:
    """Yield one object a submission, in the order of addresses."""
    for record in _records(ledger, timings=timings):
        text = json.dumps(record, ensure_ascii=False, separators=(",", ":"))
        if not text.isprintable():  # then JSON writes what nobody could see by its number
            text = json.dumps(record, separators=(",", ":"))
        yield f"{text}\n"


def csv_lines(ledger: Ledger, *, timings: bool = False) -> Iterator[str]:
    """Yield one line a submission, in the order of addresses, under a line of headings.

    A text that a spreadsheet would take for a formula gets an apostrophe before it: titles come from
    strangers.
    """
    yield _csv_line([*COLUMNS, *(TIMINGS if timings else ())])
    for record in _records(ledger, timings=timings):
        record["reasons"] = "\n".join(printable(reason["says"], None) for reason in record["reasons"])
        record["made_by"] = json.dumps(record["made_by"])
        record["repeats"] = "\n".join(record["repeats"])
        yield _csv_line([_cell(value) for value in record.values()])


def _csv_line(cells: list[Any]) -> str:
    line = io.StringIO()
    csv.writer(line, lineterminator="\n").writerow(cells)
    return line.getvalue()


def _records(ledger: Ledger, *, timings: bool) -> Iterator[dict[str, Any]]:
    columns = (*COLUMNS, *(TIMINGS if timings else ()))
    kept_as = {"made_by": "maker", "repeats": "submission"}  # by which it is looked up
    selected = ", ".join(kept_as.get(name, name) for name in columns)
    makers: dict[str | None, Any] = {None: None}
    for row in ledger.submissions(selected, f"WHERE {COUNTED} ORDER BY place, address"):
        record = dict(zip(columns, row, strict=True))
        record["reasons"] = json.loads(record["reasons"])
        record |= {name: bool(record[name]) for name in _TRUTHS if record[name] is not None}
        key = record["made_by"]
        if key not in makers:
            makers[key] = ledger.maker(key)
        record["made_by"] = makers[key]
        record["repeats"] = list(repeated_by(ledger, record["repeats"]).addresses)
        yield record


def _cell(value: object) -> object:
    r"""Return what stands in a cell of a spreadsheet.

    Examples
    --------
    >>> _cell("=1+1"), _cell("tide\n +1"), _cell("low tide"), _cell(None), _cell(-1)
    ("'=1+1", "tide\n' +1", 'low tide', '', -1)
    """
    if not isinstance(value, str):
        return "" if value is None else value
    return "\n".join(map(_harmless, visible(value).split("\n")))


def _harmless(line: str) -> str:
    return f"'{line}" if line.lstrip().startswith(_FORMULA_SIGNS) else line
