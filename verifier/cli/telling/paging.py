"""Writing pages: for one puzzle its verdict, for several the box, with a verdict page for each."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

from verifier.cli import wording
from verifier.cli.telling.console import refuse, say

if TYPE_CHECKING:
    from verifier.files.reading import ReadEntry
    from verifier.intake.workers.judging import Judged
    from verifier.pages.box_page import BoxLine
    from verifier.puzzle.puzzle import Puzzle
    from verifier.verdict.style.style import HouseStyle
    from verifier.verdict.verdict import Verdict

__all__ = ["VerdictPages", "folder_beside", "linked", "numbered", "page_of_verdict", "refuse_wrong_ending"]

_ENDINGS = (".html", ".htm")
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

    def seen(self, entries: Iterable[ReadEntry]) -> Iterator[ReadEntry]:
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
            _write(self._path, self._page_of(self._lines[0], repairs=True))
        else:
            self._write_box(self._path)
        say(wording.page_written(str(self._path)))

    def _write_box(self, path: Path) -> None:
        from dataclasses import replace

        from verifier.intake.papers.files import made_folder
        from verifier.intake.papers.naming import FileNames
        from verifier.pages.box_page import box_page

        folder, names = folder_beside(path), FileNames()
        lines = []
        for line in self._lines:
            if line.puzzle is not None and line.verdict is not None:
                name = Path(names.name_for(line.verdict.puzzle.id, line.address)).stem + ".html"
                _write(made_folder(folder) / name, self._page_of(line, repairs=False))
                line = replace(line, href=linked(folder, name))
            lines.append(line)
        _write(path, box_page(lines, path.stem, self._style.tiers_to_grade_with()))

    def _page_of(self, line: BoxLine, *, repairs: bool) -> str:
        assert line.puzzle is not None
        assert line.verdict is not None
        return page_of_verdict(line.puzzle, line.verdict, self._style, repairs=repairs)


def page_of_verdict(
    puzzle: Puzzle, verdict: Verdict, style: HouseStyle, *, repairs: bool = False, mark: str = ""
) -> str:
    """Return the page of a verdict: a sound puzzle with its chart, a broken one with `repairs` if wanted."""
    from grader.grading.replay import replay
    from verifier.diagnosis.diagnose import diagnose
    from verifier.pages.verdict_page import verdict_page

    sound = verdict.difficulty is not None
    broken = repairs and not sound and verdict.solutions.count != 1
    return verdict_page(
        puzzle,
        verdict,
        played=replay(puzzle, deadline=time.monotonic() + _SECONDS_FOR_A_CHART) if sound else None,
        diagnosis=diagnose(puzzle, _SECONDS_FOR_REPAIRS) if broken else None,
        tiers=style.tiers_to_grade_with(),
        mark=mark,
    )


def refuse_wrong_ending(path: Path | None) -> None:
    """End the call where a page would be written over what is no page, such as a puzzle's file."""
    if path is not None and path.suffix.lower() not in _ENDINGS:
        refuse(wording.wrong_ending("--html", str(path), _ENDINGS))


def folder_beside(path: Path) -> Path:
    """Return the folder for the verdict pages to which a list leads.

    Examples
    --------
    >>> folder_beside(Path("box.html")).name
    'box-verdicts'
    """
    return path.with_name(f"{path.stem}-verdicts")


def linked(folder: Path, name: str) -> str:
    """Return how a list leads to a page in the folder beside it.

    Examples
    --------
    >>> linked(Path("out/box-verdicts"), "Zoë.html")
    'box-verdicts/Zo%C3%AB.html'
    """
    return quote(f"{folder.name}/{name}", errors="surrogateescape")  # of bytes that are no letters here


def numbered(path: Path, number: int) -> Path:
    """Return the name of the `number`-th of several files.

    Examples
    --------
    >>> numbered(Path("walk.html"), 1).name, numbered(Path("walk.html"), 2).name
    ('walk.html', 'walk-2.html')
    """
    return path if number == 1 else path.with_name(f"{path.stem}-{number}{path.suffix}")


def _write(path: Path, text: str) -> None:
    from verifier.intake.papers.files import write_whole

    write_whole(path, text)
