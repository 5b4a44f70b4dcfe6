"""Writing pages: for one puzzle its verdict, for several the box, with a verdict page for each."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

from verifier.cli import wording
from verifier.cli.console import say

if TYPE_CHECKING:
    from verifier.intake.pool import Judged
    from verifier.pages.box_page import BoxLine
    from verifier.puzzle.puzzle import Puzzle
    from verifier.puzzle.reading import Entry
    from verifier.verdict.style import HouseStyle

__all__ = ["VerdictPages", "numbered"]

_SECONDS_FOR_REPAIRS = 10.0
_SECONDS_FOR_A_CHART = 60.0


class VerdictPages:
    """Gathers the puzzles of a run with their verdicts, and writes the pages at its end.

    Parameters
    ----------
    path : Path or None
        The page; None writes none.
    style : HouseStyle
        Its tiers are those that the pages speak of.
    """

    def __init__(self, path: Path | None, style: HouseStyle) -> None:
        self._path, self._style = path, style
        self._puzzles: dict[str, Puzzle] = {}
        self._lines: list[BoxLine] = []

    def seen(self, entries: Iterable[Entry]) -> Iterator[Entry]:
        """Yield the entries as they come, and keep their puzzles for the pages."""
        for entry in entries:
            if self._path is not None and entry.puzzle is not None:
                self._puzzles[entry.address] = entry.puzzle
            yield entry

    def take(self, judged: Judged) -> None:
        """Keep one verdict for the pages."""
        if self._path is not None:
            from verifier.pages.box_page import BoxLine

            says = " ".join(map(str, judged.faults))
            puzzle = self._puzzles.get(judged.address)
            self._lines.append(BoxLine(judged.address, puzzle, judged.verdict, says))

    def write(self) -> None:
        """Write the page, or the pages.

        Raises
        ------
        CannotWriteError
            If one of them cannot be written.
        """
        if self._path is None or not self._lines:
            return
        if len(self._lines) == 1 and self._lines[0].verdict is not None:
            _write(self._path, self._verdict_page(self._lines[0], repairs=True))
        else:
            self._write_box(self._path)
        say(wording.page_written(str(self._path)))

    def _write_box(self, path: Path) -> None:
        from dataclasses import replace

        from verifier.intake.files import made_folder
        from verifier.intake.naming import FileNames
        from verifier.pages.box_page import box_page

        folder, names = path.with_name(f"{path.stem}-verdicts"), FileNames()
        lines = []
        for line in self._lines:
            if line.puzzle is not None and line.verdict is not None:
                name = Path(names.name_for(line.verdict.puzzle.id, line.address)).stem + ".html"
                _write(made_folder(folder) / name, self._verdict_page(line, repairs=False))
                line = replace(line, href=quote(f"{folder.name}/{name}"))
            lines.append(line)
        _write(path, box_page(lines, path.stem, self._style.tiers_to_grade_with()))

    def _verdict_page(self, line: BoxLine, *, repairs: bool) -> str:
        from grader.replay import replay
        from verifier.diagnosis.diagnose import diagnose
        from verifier.pages.verdict_page import verdict_page

        puzzle, verdict = line.puzzle, line.verdict
        assert puzzle is not None
        assert verdict is not None
        sound = verdict.difficulty is not None
        broken = repairs and not sound and verdict.solutions.count != 1
        return verdict_page(
            puzzle,
            verdict,
            played=replay(puzzle, deadline=time.monotonic() + _SECONDS_FOR_A_CHART) if sound else None,
            diagnosis=diagnose(puzzle, _SECONDS_FOR_REPAIRS) if broken else None,
            tiers=self._style.tiers_to_grade_with(),
        )


def numbered(path: Path, number: int) -> Path:
    """Return the name of the `number`-th of several files.

    Examples
    --------
    >>> numbered(Path("walk.html"), 1).name, numbered(Path("walk.html"), 2).name
    ('walk.html', 'walk-2.html')
    """
    return path if number == 1 else path.with_name(f"{path.stem}-{number}{path.suffix}")


def _write(path: Path, text: str) -> None:
    from verifier.intake.files import write_whole

    write_whole(path, text)
