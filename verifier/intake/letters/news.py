"""What there is to tell to whom: what is new since the last letters, or all of it."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from verifier.files.submissions import Submission
from verifier.intake.ledger.entries import unpacked_document
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.letters import last_told
from verifier.intake.ledger.repairs import repairs_of
from verifier.intake.ledger.schema import COUNTED
from verifier.intake.ledger.stored import stored_verdict
from verifier.intake.letters import wording
from verifier.intake.letters.body import Entry, file_called
from verifier.intake.papers.duplicates import repeated_by
from verifier.intake.papers.report import worth_a_look
from verifier.intake.setters import same_setter
from verifier.intake.sources.listing import ARCHIVE_ENDINGS
from verifier.puzzle.printable import printable
from verifier.verdict.verdict import Rows, Verdict

__all__ = ["Addressee", "Broken", "News", "broken_in", "entry_of", "news_for"]

_TOLD = ("accepted", "rejected", "unreadable")
_SETTER = "coalesce(setter, sender)"


@dataclass(frozen=True, slots=True)
class Addressee:
    """Who gets a letter.

    Parameters
    ----------
    name : str or None
        The setter's; None where nobody knows it.
    source : str
        Where the files of an unknown one lay: an archive, or a folder. Empty for anybody known.
    """

    name: str | None
    source: str = ""


@dataclass(frozen=True, slots=True)
class News:
    """One submission, as far as a letter speaks of it.

    Parameters
    ----------
    number : int
        Of the submission in the ledger.
    part : str
        The part of the letter in which it stands.
    what : str
        What is told, in short: the same as in the last letter is no news.
    before : (str, date) or None
        What was told last, and when.
    copied : str
        What an accepted puzzle repeats, as the letter says it; empty for none.
    """

    number: int
    part: str
    what: str
    before: tuple[str, date] | None = None
    copied: str = ""


def news_for(ledger: Ledger, *, everything: bool = False) -> dict[Addressee, list[News]]:
    """Return what there is to tell, by setter in the order of their names, those unknown at the end.

    Parameters
    ----------
    ledger : Ledger
        An open ledger.
    everything : bool
        Whether to tell what was told before, too.
    """
    found: dict[tuple[bool, str], tuple[Addressee, list[News]]] = {}
    told = ", ".join(f"'{state}'" for state in _TOLD)
    rows = ledger.submissions(
        f"submission, origin, state, {_SETTER}, reasons",
        f"WHERE state IN ({told}) AND {COUNTED} ORDER BY place, address",
    )
    for number, origin, state, setter, reasons in rows:
        news = _news(ledger, number, state, setter, reasons)
        if everything or news.before is None or news.before[0] != news.what:
            to = Addressee(setter) if setter else Addressee(None, _source(origin))
            key = (not setter, same_setter(setter or to.source))
            found.setdefault(key, (to, []))[1].append(news)
    return dict(value for _, value in sorted(found.items()))


@dataclass(frozen=True, slots=True)
class Broken:
    """A broken puzzle of which a letter tells.

    Parameters
    ----------
    number : int
        By which the ledger knows it.
    maker : str
        The key of what made its verdict.
    sent : Submission
        The puzzle.
    looked_for : bool
        Whether repairs were looked for already, as by a run that was stopped.
    """

    number: int
    maker: str
    sent: Submission
    looked_for: bool


def broken_in(ledger: Ledger, number: int) -> Broken | None:
    """Return what the ledger knows of a broken puzzle; None of one that is not, or could not be read."""
    columns = "address, maker, line, form, sent, verdict"
    rows = ledger.rows(f"SELECT {columns} FROM submissions WHERE submission = ?", (number,))
    address, maker, line, form, sent, packed = next(rows)
    verdict = stored_verdict(packed)
    if sent is None or verdict is None or not verdict.is_broken:
        return None
    submission = Submission(address, unpacked_document(line, form, sent))
    return Broken(number, maker, submission, repairs_of(ledger, number, maker) is not None)


def entry_of(ledger: Ledger, news: News) -> Entry:
    """Return what a letter says of a submission."""
    rows = ledger.rows(
        "SELECT address, id, title, reasons, tier, tier_name, effort, maker, verdict"
        " FROM submissions WHERE submission = ?",
        (news.number,),
    )
    address, puzzle_id, title, told, tier, tier_name, effort, maker, packed = next(rows)
    verdict, file, reasons = stored_verdict(packed), file_called(address), json.loads(told)
    says = [*_apart(ledger, news), *(_said(reason["says"], address) for reason in reasons)]
    if news.part in ("accepted", "repeats") and tier is not None:
        says.append(wording.GRADED.format(tier=tier, name=tier_name, effort=effort))
    says += [news.copied] if news.copied else []
    says += [wording.ALSO.format(says=says) for says in _remarks(verdict, news.part)]
    return Entry(
        file,
        news.part,
        ", ".join(printable(text) for text in (title, puzzle_id) if text),
        tuple(says),
        (repairs_of(ledger, news.number, maker) or ()) if news.part == "rejected" else (),
        _grids(verdict, {reason["code"] for reason in reasons}),
    )


def _said(says: str, address: str) -> str:
    """Return a reason without the address, which is the editor's: what a fault is about is named above it.

    Examples
    --------
    >>> _said("late.zip!17.yaml:5: puzzle: found nothing", "late.zip!17.yaml")
    'Line 5, puzzle: found nothing'
    """
    field = says.removeprefix(f"{address}:")
    if field == says:
        return says
    line, _, rest = field.partition(": ")
    return wording.ON_LINE.format(line=line, says=rest) if line.isdecimal() else field.lstrip().capitalize()


def _news(ledger: Ledger, number: int, state: str, setter: str | None, reasons: str) -> News:
    codes = sorted({reason["code"] for reason in json.loads(reasons)})
    kind, copied = _repeat(ledger, number, setter) if state == "accepted" else ("", "")
    part = "repeats" if kind else state
    what = " ".join(filter(None, (part, kind, *codes)))
    return News(number, part, what, last_told(ledger, number), copied)


def _repeat(ledger: Ledger, number: int, setter: str | None) -> tuple[str, str]:
    """Return what an accepted puzzle repeats, in a word and in a sentence that names no other setter."""
    repeated = repeated_by(ledger, number)
    kind, name = "printed" if repeated.printed else "other" if repeated.copied else "", ""
    for address in () if repeated.printed else repeated.copied:
        columns = f"title, id, {_SETTER} FROM submissions WHERE address = ? AND {COUNTED}"
        title, puzzle_id, other = next(ledger.rows(f"SELECT {columns}", (address,)), (None, None, None))
        if setter and other and same_setter(setter) == same_setter(other):
            kind, name = "own", printable(title or puzzle_id or "")
            break
    return kind, wording.REPEATS[kind].format(name=name) if kind else ""


def _apart(ledger: Ledger, news: News) -> Iterator[str]:
    """Yield what sets a submission apart: that it was corrected, or told otherwise before."""
    if next(ledger.rows("SELECT 1 FROM submissions WHERE replaced_by = ? LIMIT 1", (news.number,)), None):
        yield wording.REPLACES
    if news.before is not None and news.before[0] != news.what:
        yield wording.CHANGED.format(day=news.before[1].isoformat())


def _remarks(verdict: Verdict | None, part: str) -> list[str]:
    """Return the remarks that a setter should read: on a puzzle that is not accepted, all of them."""
    found = () if verdict is None else verdict.remarks
    return [remark.says for remark in (found if part == "rejected" else worth_a_look(found))]


def _grids(verdict: Verdict | None, codes: set[str]) -> tuple[Rows, ...]:
    """Return the grids of which the reasons speak."""
    if verdict is None:
        return ()
    if "several-solutions" in codes:
        return verdict.solutions.examples
    right = verdict.solutions.grid
    return (right,) if "solution-differs" in codes and right is not None else ()


def _source(origin: bytes) -> str:
    """Return the archive or the folder in which a submission lay, by the file in which it was found.

    Examples
    --------
    >>> _source(b"post/late.zip"), _source(b"post/ebb.yaml"), _source(b"ebb.yaml")
    ('late.zip', 'post', '')
    """
    path = os.fsdecode(origin)
    return os.path.basename(path if path.lower().endswith(ARCHIVE_ENDINGS) else os.path.dirname(path))
