"""The file of a desk and what the page says of it: written at each pause, followed when others change it."""

from __future__ import annotations

from typing import Any

from verifier.desk import wording
from verifier.desk.keeping import KeptFile
from verifier.intake.papers.files import CannotWriteError
from verifier.puzzle.printable import filled, printable
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Filing"]


class Filing:
    """Keeps a file and a puzzle in step, so that neither what is drawn nor what comes from outside is lost.

    Parameters
    ----------
    file : KeptFile
        The file.

    Attributes
    ----------
    file : KeptFile
        The file.
    """

    def __init__(self, file: KeptFile) -> None:
        self.file = file
        self._saved, self._says = True, ""

    @property
    def told(self) -> dict[str, Any]:
        """What the page needs to know of it."""
        name = printable(self.file.path.name)
        return {"name": name, "key": self.file.key, "saved": self._saved, "says": self._says}

    def changed(self) -> None:
        """Note that the puzzle has changed on the desk."""
        self._saved, self._says = False, wording.NOT_SAVED_YET

    def keep(self, puzzle: Puzzle) -> Puzzle | None:
        """Write what has changed, unless something else has changed the file since the last look.

        Returns what that was, if it is to be taken over.
        """
        news = self.look(puzzle)
        if not self._saved:
            self._save(puzzle)
        return news

    def look(self, puzzle: Puzzle) -> Puzzle | None:
        """See what something else has made of the file; return the puzzle that is to be taken over, if any.

        Where both have changed, that of the desk is written, and what came from outside is put beside it.
        """
        outside = self.file.look()
        if outside is None:
            return None
        if outside.data is None:
            self._saved, self._says = False, wording.FILE_GONE
        elif not self._saved:
            says = self._put_aside(outside.data)
            self._save(puzzle)
            self._says = says if self._saved else self._says
        elif outside.puzzle is None:
            why = next(iter(outside.faults), wording.NOT_ONE)
            self._says = filled(wording.UNREADABLE, why=str(why))
        else:
            self._says = wording.FOLLOWED
            return outside.puzzle
        return None

    def _save(self, puzzle: Puzzle) -> None:
        try:
            self.file.write(puzzle)
        except CannotWriteError as error:
            self._says = filled(wording.CANNOT_SAVE, why=error.why)
        except ValueError as error:
            self._says = filled(wording.CANNOT_SAVE, why=str(error))
        else:
            self._saved, self._says = True, ""

    def _put_aside(self, data: bytes) -> str:
        try:
            return filled(wording.PUT_ASIDE, name=self.file.put_aside(data).name)
        except CannotWriteError as error:
            return filled(wording.CANNOT_SAVE, why=error.why)
