"""What a technique is: a name, a function from a board to steps, and all that is said of it."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import Flag, auto

from grader.board.board import Board
from grader.board.examples import Example, Occurrence, examples, occurrences
from grader.board.steps import Step

__all__ = ["Technique", "Trait"]

_SECTION = re.compile(r"^(\w[\w ]*)\n-+\n", re.MULTILINE)


class Trait(Flag):
    """What walks and their words must know of a technique."""

    ARITHMETIC = auto()
    """It does nothing but add up and subtract, so it may stand in the opening of a walk."""
    FOLLOWS_ITS_DIGITS = auto()
    """It needs nothing of the cells it looks at but that the digits of its pattern are closed there."""
    EASY_DIGIT = auto()
    """It places a digit so easily that ten in a row are told in one breath."""
    MERGED = auto()
    """Its steps with the same pattern and other digits are told together."""
    TRIAL = auto()
    """It supposes a digit and goes on whichever way it can; what needs it is not solved by logic."""


_PLAIN = Trait(0)


@dataclass(frozen=True, slots=True)
class Technique:
    """One way of reasoning.

    What it is, with a picture, and why it holds are said in the docstring of `find`, in words for people.

    Parameters
    ----------
    id : str
        Its name in files and verdicts, such as ``naked-pair``; never given to another technique.
    name : str
        Its name as people say it, such as ``naked pair``.
    find : callable
        A pure function: a board in, every step that the technique allows on it out. It may pass over
        houses, cages and sums without a fresh cell (see `Board`).
    traits : Trait, optional
        What sets it apart from others.
    source : str, optional
        Where it comes from, in whole sentences; empty for common practice that has no source.
    waits_for : str, optional
        The id of the technique whose turn in a walk a sum waits for that is not added up at a glance.

    Examples
    --------
    >>> from grader.techniques.singles import LAST_CELL_OF_HOUSE
    >>> print(LAST_CELL_OF_HOUSE.summary)
    A house with one empty cell left has there the digit that is missing.
    >>> print(LAST_CELL_OF_HOUSE.reason)
    A house holds each digit once.
    """

    id: str
    name: str
    find: Callable[[Board], Iterable[Step]]
    traits: Trait = _PLAIN
    source: str = ""
    waits_for: str = ""

    @property
    def summary(self) -> str:
        """What a person does, or sees, in one sentence."""
        return self.definition.partition("\n\n")[0].replace("\n", " ")

    @property
    def definition(self) -> str:
        """What it is, with its picture set in by four spaces."""
        text = re.sub(r"\.\. \[\d+\] ", "", _SECTION.split(self._page)[0])
        return re.sub(r"`+", "", text.replace("::\n", ":\n")).strip()

    @property
    def reason(self) -> str:
        """Why it holds in every solution, in whole sentences."""
        _, *pieces = _SECTION.split(self._page)
        notes = " ".join(dict(zip(pieces[::2], pieces[1::2], strict=True)).get("Notes", "").split())
        reason = re.sub(r"`+", "", re.sub(r"^Sound in every solution[:,] ", "", notes))
        return reason[:1].upper() + reason[1:]

    @property
    def example(self) -> Example | None:
        """One step of a real solve; None only until the catalogue is built."""
        return examples().get(self.id)

    @property
    def occurrence(self) -> Occurrence:
        """How often it occurs in the corpus."""
        return occurrences()[self.id]

    @property
    def _page(self) -> str:
        return inspect.getdoc(self.find) or ""
