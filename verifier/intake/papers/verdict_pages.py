"""The pages of verdicts: of one alone, or the list of a box with a page for each in a folder beside it."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, replace
from pathlib import Path
from urllib.parse import quote

from verifier.files.reading import ReadEntry
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.stored import StoredSubmission, ends_of, stored_in
from verifier.intake.papers import wording
from verifier.intake.papers.duplicates import repeated_by
from verifier.intake.papers.files import made_folder, remove, stored, write_whole
from verifier.intake.papers.naming import FileNames
from verifier.intake.papers.wording import each_repeat
from verifier.intake.workers.task import Judged
from verifier.pages.box_page import BoxLine, Whole, box_page
from verifier.pages.styling import mark_of, templates_mark
from verifier.pages.verdict_page import page_of_verdict
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.verdict import Verdict
from verifier.verdict.versions import gridproof_version

__all__ = ["VerdictPages"]

_Shown = Callable[[int, Mapping[str, int]], None]


@dataclass(frozen=True)
class VerdictPages:
    """Pages that are asked for; each method raises `CannotWriteError` where one cannot be written.

    Parameters
    ----------
    path : Path
        Of the page, or of the list; the pages to which a list leads go into a folder beside it.
    style : HouseStyle
        Its tiers are those that the pages speak of.
    """

    path: Path
    style: HouseStyle

    @property
    def folder(self) -> Path:
        """The folder for the pages to which the list leads."""
        return self.path.with_name(f"{self.path.stem}-verdicts")

    def write_run(self, judged: Sequence[tuple[ReadEntry, Judged]]) -> None:
        """Write the page of the one verdict of a run, with repairs, or the list of several."""
        if len(judged) == 1 and judged[0][1].verdict is not None:
            ((entry, one),) = judged
            assert entry.puzzle is not None
            assert one.verdict is not None
            write_whole(self.path, page_of_verdict(entry.puzzle, one.verdict, self.style, repairs=True))
            return
        names, lines = FileNames(), []
        for entry, one in judged:
            if entry.puzzle is None or one.verdict is None:
                says = " ".join(map(str, one.faults))
                lines.append(BoxLine(entry.address, entry.puzzle, one.verdict, says))
            else:
                name = names.name_for(one.verdict.puzzle.id, entry.address)
                lines.append(self._line(entry.address, entry.puzzle, one.verdict, name))
        self._write_list(lines)

    def write_ledger(
        self,
        ledger: Ledger,
        most: int,
        state: str | None = None,
        progress: Callable[[int], AbstractContextManager[_Shown]] = lambda _: nullcontext(lambda *_: None),
    ) -> None:
        """Write the list of what a ledger holds, whatever became of the sources.

        One submission at a time is read from the ledger, and its page written. What stays in memory is what
        its line shows. A page that is there already and was made of the same is left as it is; one that is no
        longer on the list goes.

        Parameters
        ----------
        ledger : Ledger
            An open ledger.
        most : int
            How many submissions are listed.
        state : str, optional
            Only those in this state.
        progress : callable, optional
            Given how many are listed, what shows how many are done, and how many came to which end.
        """
        states, tiers = ends_of(ledger, state)
        names, total = set[str](), states.total()

        def lines(shown: _Shown) -> Iterator[BoxLine]:
            counts: Counter[str] = Counter()
            for number, one in enumerate(stored_in(ledger, most, state), start=1):
                line = self._stored_line(one, names)
                yield replace(line, repeats=tuple(each_repeat(repeated_by(ledger, one.number))))
                counts[one.state] += 1
                shown(number, counts)

        says = wording.LISTED_IN_PART.format(most=most, total=total) if total > most else ""
        with progress(min(total, most)) as shown:
            self._write_list(lines(shown), Whole(states, tiers, says))
        for path in self.folder.glob("*.html"):
            if path.name not in names and _mark_in(path) is not None:  # files that are not ours stay
                remove(path)

    def _stored_line(self, one: StoredSubmission, names: set[str]) -> BoxLine:
        """Return the line of a submission; the name of its page goes into `names`."""
        verdict = one.verdict()
        if verdict is None:  # what no worker has come to an end with is not read here
            says = [text for _, text in one.reasons]
            says += [] if one.written is None else [wording.JUDGED_BY_ANOTHER]
            return BoxLine(one.address, says=" ".join(says), state=one.state)
        puzzle = one.puzzle()
        assert puzzle is not None
        assert one.name is not None
        names.add(stored(Path(f"{Path(one.name).stem}.html")).name)
        made_of = (
            gridproof_version(),
            templates_mark(),
            self.style.tiers_to_grade_with(),
            one.sent,
            one.written,
        )
        mark = hashlib.sha256(repr(made_of).encode("utf-8", "surrogatepass")).hexdigest()[:32]
        line = self._line(one.address, puzzle, verdict, one.name, mark)
        return replace(line, state=one.state, reasons=one.reasons)

    def _line(self, address: str, puzzle: Puzzle, verdict: Verdict, name: str, mark: str = "") -> BoxLine:
        """Write the page of a verdict, unless one with its mark stands; return the line that leads to it."""
        page = f"{Path(name).stem}.html"
        if not mark or _mark_in(stored(self.folder / page)) != mark:
            text = page_of_verdict(puzzle, verdict, self.style, mark=mark)
            write_whole(made_folder(self.folder) / page, text)
        href = quote(
            f"{self.folder.name}/{page}", errors="surrogateescape"
        )  # of bytes that are no letters here
        return BoxLine(address, puzzle, verdict, href=href)

    def _write_list(self, lines: Iterator[BoxLine] | list[BoxLine], whole: Whole | None = None) -> None:
        write_whole(self.path, box_page(lines, self.path.stem, self.style.tiers_to_grade_with(), whole))


def _mark_in(path: Path) -> str | None:
    """Return the mark of a page in a file; None of a file that is none of ours, or not whole."""
    try:
        return mark_of(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError):
        return None
