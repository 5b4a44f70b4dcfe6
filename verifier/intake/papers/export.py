"""The ledger as a table: JSON Lines for programs, CSV for spreadsheets.

Without timings and numbers of tries, two runs over the same box give the same bytes, however often they were
cut short.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from itertools import chain
from typing import Any

from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.schema import COUNTED, LIKENESS
from verifier.intake.papers.duplicates import repeated_by
from verifier.puzzle.printable import printable, visible

__all__ = ["csv_lines", "json_lines"]

COLUMNS = (
    *("address", "id", "title", "setter", "kind", "state", "tier", "effort", "minutes", "repeats", "reasons"),
    *("grid", "tier_name", "hardest", "rounds", "steps", "solved_by_logic", "solutions", "complete"),
    *("provisional", "page", "page_date", "slot", "file", "content", "turned", "structure", "filling"),
    *("digest", "made_by"),
)
"""First what is for reading; the hashes come last."""
TIMINGS = ("tries", "seconds", "judged_at")

_TRUTHS = ("provisional", "complete", "solved_by_logic")
_FORMULA_SIGNS = tuple("=+-@\uff1d\uff0b\uff0d\uff20")  # the wide ones of East Asian keyboards work, too


def json_lines(ledger: Ledger, *, timings: bool = False) -> Iterator[str]:
    """Yield one object a submission, in the order of addresses, then one for each printed puzzle of a folder.

    Also of submissions that no longer count; those have ``counts: false``.
    """
    submissions = _records(ledger, "ORDER BY place, address, submission", timings=timings, history=True)
    for record in chain(submissions, _printed(ledger)):
        text = json.dumps(record, ensure_ascii=False, separators=(",", ":"))
        if not text.isprintable():  # then JSON writes what nobody could see by its number
            text = json.dumps(record, separators=(",", ":"))
        yield f"{text}\n"


def csv_lines(ledger: Ledger, *, timings: bool = False) -> Iterator[str]:
    """Yield one line a submission that counts, in the order of addresses, under a line of headings.

    It begins with a byte-order mark, without which some spreadsheets take UTF-8 for something else. A text
    that one would take for a formula gets an apostrophe before it: titles come from strangers.
    """
    yield "\ufeff" + _csv_line([*COLUMNS, *(TIMINGS if timings else ())])
    for record in _records(ledger, f"WHERE {COUNTED} ORDER BY place, address", timings=timings):
        record["reasons"] = "\n".join(printable(reason["says"], None) for reason in record["reasons"])
        record["made_by"] = json.dumps(record["made_by"])
        record["repeats"] = "\n".join(record["repeats"])
        yield _csv_line([_cell(value) for value in record.values()])


def _csv_line(cells: list[Any]) -> str:
    line = io.StringIO()
    csv.writer(line, lineterminator="\n").writerow(cells)
    return line.getvalue()


def _records(
    ledger: Ledger, wanted: str, *, timings: bool, history: bool = False
) -> Iterator[dict[str, Any]]:
    columns = (*COLUMNS, *(TIMINGS if timings else ()))
    kept_as = {"made_by": "maker", "repeats": "submission"}  # by which they are looked up
    selected = ", ".join(kept_as.get(name, name) for name in columns)
    makers: dict[str | None, Any] = {None: None}
    for number, *row in ledger.submissions(f"submission, {selected}", wanted):
        record = dict(zip(columns, row, strict=True))
        record["reasons"] = json.loads(record["reasons"])
        record |= {name: bool(record[name]) for name in _TRUTHS if record[name] is not None}
        key = record["made_by"]
        if key not in makers:
            makers[key] = ledger.maker(key)
        record["made_by"] = makers[key]
        record["repeats"] = list(repeated_by(ledger, number).addresses)
        yield record | (_history(ledger, number) if history else {})


def _history(ledger: Ledger, number: int) -> dict[str, Any]:
    """Return whether a submission counts, what replaced it, and the letters that speak of it."""
    ((counts, replaced_by),) = ledger.rows(
        f"SELECT {COUNTED}, (SELECT newer.address FROM submissions newer"
        " WHERE newer.submission = submissions.replaced_by) FROM submissions WHERE submission = ?",
        (number,),
    )
    letters = ledger.rows(
        "SELECT day, setter, file FROM told JOIN letters USING (letter) WHERE submission = ? ORDER BY letter",
        (number,),
    )
    return {
        "counts": bool(counts),
        "replaced_by": replaced_by,
        "letters": [{"day": day, "setter": setter, "file": file} for day, setter, file in letters],
    }


def _printed(ledger: Ledger) -> Iterator[dict[str, Any]]:
    """Yield the printed puzzles with which the box was compared, of which folder and when."""
    columns = ("address", "id", "title", "setter", "folder", "day", *LIKENESS[:-1], "content", "digest")
    for row in ledger.rows(f"SELECT {', '.join(columns)} FROM printed ORDER BY address"):
        yield {**dict(zip(columns, row, strict=True)), "state": "printed", "reasons": [], "repeats": []}


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
