"""What makes a file unreadable: one `Fault` for each thing that an editor has to put right."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from verifier.puzzle.printable import counted, printable
from verifier.puzzle.wording import FAULTS, Wording

__all__ = ["Fault", "FaultReport", "nearest"]

_LONGEST = {"word": 60, "allowed": 1000}
"""Characters of a word from the file that a message repeats, and of what may stand there."""

_LONGEST_FACT = 300

_LONGEST_SLIP = 40
"""No key or word is longer; looking for the nearest to a very long one would take its time."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing in a file that cannot be read, where it is, and how to put it right.

    Parameters
    ----------
    code : str
        Which fault it is; never changes its meaning.
    file : str
        Address of the puzzle: the file, and ``#3`` for the third puzzle of several.
    line : int or None
        Line of the file, counted from 1; None where the fault has no line.
    field : str
        The key, the row or the cage concerned.
    found, allowed, cure : str
        What stands there, what may stand there, and what to do about it.

    Examples
    --------
    >>> print(Fault("kind", "k018.yaml", 5, "puzzle", "'kiler'", "classic, killer", "Did you mean 'killer'?"))
    k018.yaml:5: puzzle: found 'kiler'; allowed: classic, killer. Did you mean 'killer'?
    """

    code: str
    file: str
    line: int | None
    field: str
    found: str
    allowed: str
    cure: str

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        return f"{place}: {self.field}: found {self.found}; allowed: {self.allowed}. {self.cure}"


class FaultReport:
    """Gathers the faults of one puzzle while it is read, so that all are reported at once.

    Parameters
    ----------
    file : str
        Address of the puzzle.
    most : int
        How many faults to keep; the others are counted. A file made of nothing but faults must not
        cost more than a file without any.
    wordings : mapping of str to Wording, optional
        What to say of each fault; that of a puzzle file when absent.

    Examples
    --------
    >>> report = FaultReport("box.yaml#3", most=1)
    >>> report.add("kind", 5, "puzzle", word="kiler", choices=("classic", "killer"))
    >>> report.add("cell-twice", 9, "cage 2", cell="r1c1")
    >>> first, rest = report.faults()
    >>> print(first)
    box.yaml#3:5: puzzle: found 'kiler'; allowed: classic, killer, kakuro. Did you mean 'killer'?
    >>> rest.found
    'one fault more'
    """

    def __init__(self, file: str, most: int, wordings: Mapping[str, Wording] = FAULTS) -> None:
        self.file = file
        self._wordings = wordings
        self.count = 0
        self._most = most
        self._kept: list[Fault] = []

    def add(
        self,
        code: str,
        line: int | None,
        field: str,
        instead: str | None = None,
        choices: Collection[str] = (),
        hint: str = "",
        **facts: object,
    ) -> None:
        """Note a fault.

        Parameters
        ----------
        code : str
            A key of the wordings.
        line : int or None
            Line of the file.
        field : str
            The key, row or cage concerned.
        instead : str, optional
            What was probably meant, as it stands in the file; replaces the usual cure.
        choices : collection of str, optional
            The words of which the fact ``word`` may be a misspelt one; the nearest is what was meant.
        hint : str, optional
            A sentence that helps with this one fault; stands before the cure.
        facts : object
            What the wording names in braces. Text from the file is passed as it is, as ``word``.
        """
        self.count += 1
        if self.count > self._most:
            return
        wording = self._wordings[code]
        safe = {name: _safe(name, fact) for name, fact in facts.items()}
        meant = _safe("word", instead) or nearest(str(facts.get("word")), choices)
        cure = f"Did you mean '{meant}'?" if meant else wording.cure.format_map(safe)
        cure = f"{hint} {cure}".lstrip()
        self._kept.append(
            Fault(
                code,
                self.file,
                line,
                printable(field),
                wording.found.format_map(safe),
                wording.allowed.format_map(safe),
                cure,
            )
        )

    def faults(self) -> tuple[Fault, ...]:
        """Return the faults kept, by line, and a last one that counts the rest."""
        ordered = sorted(self._kept, key=lambda fault: fault.line or 0)
        if self.count > self._most:
            rest = FaultReport(self.file, 1)
            rest.add("more-faults", None, "the rest", faults=counted(self.count - self._most, "fault"))
            ordered += rest.faults()
        return tuple(ordered)


def nearest(word: str, allowed: Collection[str]) -> str | None:
    """Return the allowed word that `word` was probably meant to be, or None.

    Examples
    --------
    >>> nearest("Kiler", ("classic", "killer")), nearest("sudoku", ("classic", "killer"))
    ('killer', None)
    """
    if len(word) > _LONGEST_SLIP:
        return None
    return next(iter(get_close_matches(word.lower(), allowed, 1)), None)


def _safe(name: str, fact: object) -> object:
    if not isinstance(fact, str):
        return fact
    return printable(fact, _LONGEST.get(name, _LONGEST_FACT))
