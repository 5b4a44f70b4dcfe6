"""The folder of verdict files: what the ledger says, one file a puzzle, under names that stay."""

from __future__ import annotations

import os
import re
from contextlib import suppress
from itertools import islice
from pathlib import Path

from verifier.intake.errors import IntakeError
from verifier.intake.ledger.entries import unpacked_verdict
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.schema import COUNTED
from verifier.intake.papers.files import made_folder, remove, stored, write_whole
from verifier.intake.papers.naming import names_for
from verifier.intake.wording import ANOTHER_LEDGER
from verifier.puzzle.printable import printable

__all__ = ["AnotherLedgerError", "VerdictFiles", "owner_of"]

MARKER = ".gridproof"
"""The file that says to which ledger an output folder belongs."""

_OWNER = re.compile(r"^ledger: ([0-9a-f]+)$", re.MULTILINE)

_FEW = 4
"""Names of a puzzle by which its present one is recognised; more are never needed."""


class AnotherLedgerError(IntakeError):
    """A folder that belongs to another ledger, whose verdicts would be overwritten."""

    def __init__(self, folder: Path) -> None:
        super().__init__(ANOTHER_LEDGER.format(folder=printable(str(folder), 300), marker=MARKER))


class VerdictFiles:
    """Writes verdict files as the ledger has them.

    A puzzle gets its name when its turn comes, in the order of the box, and keeps it in every later run: so
    the names do not depend on how a run went. A file that is there already is compared, not trusted: after a
    power cut it may be empty.

    Parameters
    ----------
    folder : Path or None
        Where to; None to give names alone.
    ledger : Ledger
        What to write.

    Raises
    ------
    CannotWriteError
        If the folder cannot be made.
    AnotherLedgerError
        If it holds the verdicts of another ledger.
    """

    def __init__(self, folder: Path | None, ledger: Ledger) -> None:
        self.folder, self._ledger = folder, ledger
        if folder is not None:
            _claim(made_folder(folder), ledger.mark)

    def withdraw(self, name: str | None) -> None:
        """Remove the file of a verdict that no longer counts."""
        if name is not None and self.folder is not None:
            remove(self.folder / name)

    def settle(self, number: int) -> None:
        """Make the file of a submission what its verdict in the ledger is.

        Without a verdict there is no file, nor for what no longer counts.
        """
        columns = f"address, id, verdict, file, file_key, {COUNTED} FROM submissions WHERE submission = ?"
        address, puzzle_id, packed, name, key, counts = next(
            self._ledger.rows(f"SELECT {columns}", (number,))
        )
        if packed is None or not counts:
            self.give_up(number)
            return
        own = {one.casefold() for one in islice(names_for(puzzle_id, address), _FEW)}
        free = (one for one in names_for(puzzle_id, address) if not self._is_taken(one))
        wanted = name if name is not None and key in own else next(free)
        if wanted != name:
            self.withdraw(name)
            self._keep(number, wanted)
        if self.folder is not None:
            _write_if_other(self.folder / wanted, unpacked_verdict(packed))

    def give_up(self, number: int) -> None:
        """Let a submission have no file; should it be met again, it gets one."""
        ((name,),) = self._ledger.rows("SELECT file FROM submissions WHERE submission = ?", (number,))
        self.withdraw(name)
        self._keep(number, None)

    def hand_on(self, older: int, newer: int) -> None:
        """Let a submission have the name of what it takes the place of, which gets none."""
        wanted = "SELECT file FROM submissions WHERE submission = ?"
        (old,), (new,) = (next(self._ledger.rows(wanted, (number,))) for number in (older, newer))
        if old is not None:
            self.withdraw(old)
            self._keep(older, None)
            self.withdraw(new)
            self._keep(newer, old)
            self.settle(newer)

    def _is_taken(self, name: str) -> bool:
        rows = self._ledger.rows("SELECT 1 FROM submissions WHERE file_key = ?", (name.casefold(),))
        return next(rows, None) is not None

    def _keep(self, number: int, name: str | None) -> None:
        key = None if name is None else name.casefold()
        statement = "UPDATE submissions SET file = ?, file_key = ? WHERE submission = ?"
        self._ledger.change(statement, (name, key, number))


def owner_of(folder: Path) -> str | None:
    """Return the mark of the ledger to which a folder belongs; None where it belongs to none."""
    with suppress(OSError, UnicodeDecodeError):
        found = _OWNER.search((folder / MARKER).read_text(encoding="utf-8"))
        return found[1] if found else None
    return None


def _claim(folder: Path, mark: str) -> None:
    """Enter whose folder it is; of two runs that come at once, one is the first."""
    if owner_of(folder) is None:
        unfinished, finished = stored(folder / f"{MARKER}-{mark}"), stored(folder / MARKER)
        text = f"# Written by gridproof: whose verdicts these are.\nledger: {mark}\n"
        write_whole(unfinished, text)
        try:
            os.link(unfinished, finished)  # which there cannot be twice
        except OSError:  # there is one, or a file can have no second name here
            if owner_of(folder) is None:
                write_whole(finished, text)
        remove(unfinished)
    if owner_of(folder) != mark:
        raise AnotherLedgerError(folder)


def _write_if_other(path: Path, text: str) -> None:
    with suppress(OSError):  # not there, or not to be read: then it is written
        if stored(path).read_bytes() == text.encode():
            return
    write_whole(path, text)
