"""The printed puzzles of a folder, or all of a ledger, to be compared with new ones."""

from __future__ import annotations

import io
from pathlib import Path

from verifier.intake.ledger.ledger import existing_ledger
from verifier.intake.ledger.makers import LIKENESS_BY
from verifier.intake.ledger.schema import COUNTED
from verifier.intake.sources.sources import find_sources, read_sources
from verifier.likeness.guises import Likeness
from verifier.likeness.repeats import PrintedPuzzles, likeness_of_printed

__all__ = ["printed_in", "printed_in_ledger"]


def printed_in(folder: Path) -> tuple[PrintedPuzzles, list[str]]:
    """Return the printed puzzles of a folder, and the addresses of those that could not be read."""
    entries = list(read_sources(find_sources([str(folder)]), io.BytesIO()))
    unread = [entry.address for entry in entries if entry.puzzle is None]
    read = (
        (entry.address, likeness_of_printed(entry.puzzle)) for entry in entries if entry.puzzle is not None
    )
    return PrintedPuzzles(read), unread


def printed_in_ledger(path: Path) -> PrintedPuzzles:
    """Return the puzzles of a ledger, printed and submitted ones, by what it says they look like.

    Raises
    ------
    LedgerError
        If there is no such ledger, or it cannot be read.
    """
    columns = "address, content, turned, structure, filling"
    alike = f"FROM {{}} WHERE content IS NOT NULL AND turned IS NOT NULL AND likeness_by = '{LIKENESS_BY}'"
    with existing_ledger(path) as ledger:
        rows = ledger.rows(
            f"SELECT {columns} {alike.format('printed')}"
            f" UNION ALL SELECT {columns} {alike.format('submissions')} AND {COUNTED} ORDER BY address"
        )
        return PrintedPuzzles((address, Likeness(*keys)) for address, *keys in rows)
