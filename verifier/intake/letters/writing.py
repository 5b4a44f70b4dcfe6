"""Writing letters: one a setter, under the day on which it was written, and into the ledger."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from itertools import chain, count, islice
from pathlib import Path

from verifier.files.submissions import Submission
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.letters import record_letter
from verifier.intake.ledger.repairs import record_repairs
from verifier.intake.letters import wording
from verifier.intake.letters.body import body_of, in_markdown
from verifier.intake.letters.news import Addressee, News, broken_in, entry_of
from verifier.intake.letters.template import LetterTemplate, plain_template
from verifier.intake.papers.files import made_folder, remove, write_whole
from verifier.intake.papers.naming import names_for
from verifier.intake.setters import same_setter
from verifier.puzzle.printable import printable, visible

__all__ = ["FOLDER", "LetterSettings", "look_for_repairs", "write_letters"]

FOLDER = "for-setters"
"""Of letters, in the folder of the verdicts."""

Repairs = Iterator[tuple[int, tuple[str, ...] | None]]
"""The number of each broken puzzle with what puts it right; None where the search was lost."""


@dataclass(frozen=True, slots=True)
class LetterSettings:
    """How letters are written.

    Parameters
    ----------
    template : LetterTemplate
        What stands around them.
    everything : bool
        Whether they tell all that a setter sent; else what is new since the last letters.
    repairs : int
        For how many broken puzzles at most repairs are looked for.
    house : str
        The name of the house style; may be empty.
    """

    template: LetterTemplate = field(default_factory=plain_template)
    everything: bool = False
    repairs: int = 100
    house: str = ""


def look_for_repairs(
    ledger: Ledger,
    letters: Mapping[Addressee, Sequence[News]],
    most: int,
    found: Callable[[Iterable[tuple[int, Submission]]], Repairs],
) -> None:
    """Have repairs looked for of the broken puzzles of which letters tell; keep each as it is found.

    Parameters
    ----------
    ledger : Ledger
        Open for writing.
    letters : mapping of Addressee to sequence of News
        What there is to tell.
    most : int
        For how many puzzles at most.
    found : callable
        Given broken puzzles with their numbers, yields what puts them right.
    """
    makers: dict[int, str] = {}

    def broken() -> Iterator[tuple[int, Submission]]:
        rejected = (one.number for one in chain.from_iterable(letters.values()) if one.part == "rejected")
        known = filter(None, (broken_in(ledger, number) for number in rejected))
        for one in islice(known, most):  # those of a run that was stopped count: its letters are the same
            if not one.looked_for:
                makers[one.number] = one.maker
                yield one.number, one.sent

    for number, repairs in found(broken()):
        if repairs is not None:
            record_repairs(ledger, number, makers[number], repairs)
            ledger.commit()


def write_letters(
    ledger: Ledger,
    folder: Path,
    day: date,
    settings: LetterSettings,
    letters: Mapping[Addressee, Sequence[News]],
) -> list[Path]:
    """Write what there is to tell, and return where the letters are.

    A letter that was written stays what it is. One that a run was kept from writing is written by the next,
    to the same place on the same day; a second one to a setter goes into a folder of its own.

    Parameters
    ----------
    ledger : Ledger
        Open for writing.
    folder : Path
        Of the verdicts.
    day : date
        On which they are written.
    settings : LetterSettings
        How.
    letters : mapping of Addressee to sequence of News
        What there is to tell.

    Raises
    ------
    CannotWriteError, LetterTooLongError
        If one cannot be written; those before it are, and are in the ledger.
    """
    _remove_undated(ledger, folder)
    written = []
    for to, news in letters.items():
        name = _name(ledger, to, day, markdown=settings.template.markdown)
        text = _letter(ledger, to, news, day, settings)
        write_whole(made_folder((folder / name).parent) / Path(name).name, visible(text))
        record_letter(ledger, to.name, day, name, {one.number: one.what for one in news})
        ledger.commit()
        written.append(folder / name)
    return written


def _remove_undated(ledger: Ledger, folder: Path) -> None:
    """Remove the letters of an earlier version, which bear no date and tell what may no longer be so."""
    for (name,) in list(ledger.rows("SELECT name FROM letter_files")):
        remove(folder / FOLDER / name)
        ledger.change("DELETE FROM letter_files WHERE name = ?", (name,))
    ledger.commit()


def _letter(ledger: Ledger, to: Addressee, news: Sequence[News], day: date, settings: LetterSettings) -> str:
    template = settings.template
    entries = [entry_of(ledger, one) for one in news]
    counts = Counter(entry.part for entry in entries)
    shown = in_markdown if template.markdown else str
    facts: Mapping[str, object] = {
        "letter": body_of(entries, everything=settings.everything, markdown=template.markdown),
        "setter": shown(printable(to.name or wording.UNKNOWN_SETTER)),
        "date": day.isoformat(),
        "day": day.day,
        "month": wording.MONTHS[day.month - 1],
        "year": day.year,
        "house": shown(printable(settings.house)),
        "accepted": counts["accepted"],
        "sent_back": counts["rejected"],
        "repeats": counts["repeats"],
        "unreadable": counts["unreadable"],
    }
    return template.filled(facts)


def _name(ledger: Ledger, to: Addressee, day: date, *, markdown: bool) -> str:
    """Return where a letter goes: no other letter of the day is there."""
    title = to.name or " ".join(filter(None, (wording.NO_SETTER, to.source)))
    own = same_setter(to.name) if to.name else None
    rows = ledger.rows("SELECT file, setter FROM letters WHERE day = ?", (day.isoformat(),))
    taken = {file.casefold(): same_setter(setter) if setter else None for file, setter in rows}
    for number in count(1):
        place = f"{FOLDER}/{day}{'' if number == 1 else f'-{number}'}"
        for name in names_for(title, to.source, ".md" if markdown else ".txt"):
            file = f"{place}/{name}"
            if file.casefold() not in taken:
                return file
            if taken[file.casefold()] == own:  # an earlier one to the same: not in this folder
                break
    raise AssertionError
