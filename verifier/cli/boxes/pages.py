"""The list of a box as a page, with a page for each verdict: all of it read back from the ledger.

Whatever became of the sources, and however often a run was cut short: the pages say what the ledger says.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from verifier.cli import wording
from verifier.cli.telling.console import refuse, say
from verifier.cli.telling.paging import folder_beside, linked, page_of_verdict
from verifier.cli.telling.progress import progress

if TYPE_CHECKING:
    from verifier.intake.ledger.ledger import Ledger
    from verifier.intake.ledger.stored import StoredSubmission
    from verifier.pages.box_page import BoxLine
    from verifier.verdict.style.style import HouseStyle

__all__ = ["ListPage"]


@dataclass(frozen=True)
class ListPage:
    """A list that is asked for.

    One submission at a time is read from the ledger, and its page written. What stays in memory is what its
    line shows, and there are at most so many lines.

    Parameters
    ----------
    path : Path
        Of the list. The pages of the verdicts go into a folder beside it.
    style : HouseStyle
        Its tiers are those that the pages speak of.
    most : int
        How many submissions are listed.
    state : str or None
        Only those in this state.
    """

    path: Path
    style: HouseStyle
    most: int
    state: str | None = None

    def write(self, ledger: Ledger) -> None:
        """Write the pages, and say where they are; a place that cannot be written to ends the call.

        A page that is there already and was made of the same is left as it is; one that is no longer on the
        list goes.
        """
        from verifier.intake.ledger.stored import ends_of
        from verifier.intake.papers.files import CannotWriteError, write_whole
        from verifier.pages.box_page import Whole, box_page

        states, tiers = ends_of(ledger, self.state)
        total, names = states.total(), set[str]()
        says = wording.listed_in_part(self.most, total) if total > self.most else ""
        try:
            with progress(min(total, self.most), wanted=True) as shown:
                lines = self._lines(ledger, names, shown)
                table, whole = self.style.tiers_to_grade_with(), Whole(states, tiers, says)
                text = box_page(lines, self.path.stem, table, whole)
            write_whole(self.path, text)
            _clear(folder_beside(self.path), names)
        except CannotWriteError as error:
            refuse(wording.cannot_write(error.where, error.why, "--html"))
        say(wording.page_written(str(self.path)))

    def _lines(
        self, ledger: Ledger, names: set[str], shown: Callable[[int, Mapping[str, int]], None]
    ) -> Iterator[BoxLine]:
        """Yield the lines, and write the page of each verdict; its name goes into `names`."""
        from verifier.intake.ledger.stored import kept_in

        counts: Counter[str] = Counter()
        for number, kept in enumerate(kept_in(ledger, self.most, self.state), start=1):
            yield self._line(kept, names)
            counts[kept.state] += 1
            shown(number, counts)

    def _line(self, kept: StoredSubmission, names: set[str]) -> BoxLine:
        from verifier.pages.box_page import BoxLine

        verdict = kept.verdict()
        if verdict is None:  # what no worker has come to an end with is not read here
            says = [*kept.says, *([] if kept.written is None else [wording.judged_by_another()])]
            return BoxLine(kept.address, says=" ".join(says), state=kept.state)
        puzzle = kept.puzzle()
        assert puzzle is not None
        assert kept.name is not None
        from verifier.intake.papers.files import made_folder, stored, write_whole

        folder, name = folder_beside(self.path), f"{Path(kept.name).stem}.html"
        names.add(stored(Path(name)).name)
        mark = self._mark(kept)
        if not _is_written(stored(folder / name), mark):
            text = page_of_verdict(puzzle, verdict, self.style, mark=mark)
            write_whole(made_folder(folder) / name, text)
        return BoxLine(kept.address, puzzle, verdict, href=linked(folder, name), state=kept.state)

    def _mark(self, kept: StoredSubmission) -> str:
        """Return what is equal for pages that are made of the same."""
        from verifier.verdict.versions import gridproof_version

        made_of = (gridproof_version(), self.style.tiers_to_grade_with(), kept.sent, kept.written)
        return hashlib.sha256(repr(made_of).encode("utf-8", "surrogatepass")).hexdigest()[:32]


def _is_written(path: Path, mark: str) -> bool:
    return _mark_in(path) == mark


def _mark_in(path: Path) -> str | None:
    """Return the mark of a page in a file; None of a file that is none of ours, or not whole."""
    from verifier.pages.styling import mark_of

    try:
        return mark_of(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError):
        return None


def _clear(folder: Path, names: set[str]) -> None:
    """Remove the pages that the list does not lead to; files that are not of our making stay."""
    from verifier.intake.papers.files import remove

    for path in folder.glob("*.html"):
        if path.name not in names and _mark_in(path) is not None:
            remove(path)
