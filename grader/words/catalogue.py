"""The catalogue of techniques: what each is, why it holds, an example, how often it occurs in the corpus.

Definitions, pictures and reasons are those of the docstrings; the worked examples and the counts are shipped
in ``techniques/examples.yaml``, which ``scripts/build_catalogue.py`` writes.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import yaml

from grader.board.technique import Technique
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from grader.words import wording
from grader.words.phrases import list_in_words

__all__ = ["Entry", "Example", "Occurrence", "catalogue", "entry_of", "sections_of"]

_SECTION = re.compile(r"^(\w[\w ]*)\n-+\n", re.MULTILINE)
_SOURCE = re.compile(r"(?:Common practice, no source|Own derivation)[^.]*\.(?: |$)")
"""A sentence that says where a technique comes from."""
_SOUND = re.compile(r"^Sound in every solution[:,] ")

_NAMED_AT_MOST = 5
"""So many puzzles are named."""


@dataclass(frozen=True, slots=True)
class Example:
    """One step of a real solve.

    Parameters
    ----------
    puzzle : str
        The puzzle of the corpus it is from; empty for the board of the picture.
    rests_on : tuple of str
        The houses and cages it rests on, as people name them.
    before, after : mapping of str to str
        What is open in the cells that matter, and in those that change, after the step.
    says : str
        Its sentence.
    """

    puzzle: str
    rests_on: tuple[str, ...]
    before: Mapping[str, str]
    after: Mapping[str, str]
    says: str


@dataclass(frozen=True, slots=True)
class Occurrence:
    """How often a technique occurs in the corpus, when its puzzles are replayed in rounds.

    Parameters
    ----------
    puzzles, steps : int
        In how many puzzles, and how many steps in all.
    hardest : tuple of str
        The puzzles of which it is the hardest technique.
    """

    puzzles: int = 0
    steps: int = 0
    hardest: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Entry:
    """One technique as the catalogue has it.

    Parameters
    ----------
    technique : Technique
        The technique.
    tier : int
        Its tier in the table that ships with the grader.
    tier_name : str
        The tier's name.
    definition : str
        What it is, with its picture set in by four spaces.
    reason : str
        Why it holds in every solution, in whole sentences.
    source : str
        Where it comes from: a reference, common practice, or our own derivation.
    example : Example or None
        None only until the catalogue is built.
    occurrence : Occurrence
        How often it occurs.
    corpus : int
        How many puzzles the corpus has that were replayed.
    """

    technique: Technique
    tier: int
    tier_name: str
    definition: str
    reason: str
    source: str
    example: Example | None
    occurrence: Occurrence
    corpus: int

    @property
    def summary(self) -> str:
        """The definition in one sentence."""
        return self.definition.partition("\n\n")[0].replace("\n", " ")

    @property
    def how_often(self) -> str:
        """How often it occurs in the corpus, in words."""
        found = self.occurrence
        if not found.puzzles:
            return wording.OCCURS_NOWHERE.format(corpus=self.corpus)
        steps = f"{found.steps:,} {'step' if found.steps == 1 else 'steps'}"
        said = [wording.OCCURS.format(steps=steps, puzzles=found.puzzles, corpus=self.corpus)]
        if found.hardest:
            said.append(wording.HARDEST_OF.format(puzzles=_some(found.hardest)))
        return " ".join(said)

    @property
    def example_head(self) -> str:
        """The line over the worked example; empty without one."""
        if self.example is None:
            return ""
        template = wording.EXAMPLE_FROM if self.example.puzzle else wording.EXAMPLE_ON_PICTURE
        return template.format(puzzle=self.example.puzzle)


def _some(puzzles: Sequence[str]) -> str:
    """Name a few puzzles; of many, only the first."""
    more = len(puzzles) - _NAMED_AT_MOST
    named = [*puzzles[:_NAMED_AT_MOST], *([f"{more} more"] if more > 0 else [])]
    return list_in_words(named)


def catalogue() -> tuple[Entry, ...]:
    """Return an entry for each technique, in the order of the ladder."""
    return tuple(map(entry_of, LADDER))


def entry_of(technique: Technique) -> Entry:
    """Return the entry of one technique.

    Examples
    --------
    >>> from grader.techniques.singles import LAST_CELL_OF_HOUSE
    >>> entry = entry_of(LAST_CELL_OF_HOUSE)
    >>> for text in (entry.summary, entry.reason, entry.source):
    ...     print(text)
    A house with one empty cell left has there the digit that is missing.
    A house holds each digit once.
    Common practice, no source.
    """
    table = default_tiers()
    sections = sections_of(technique)
    notes = " ".join(sections.get("Notes", "").split())
    said = [source.strip() for source in _SOURCE.findall(notes)]
    references = sections.get("References", "")
    tier = table.tier_of[technique.id]
    shipped = _shipped()
    record = shipped["techniques"].get(technique.id, {})
    return Entry(
        technique,
        tier,
        table.names[tier],
        sections[""],
        _sentence(_SOUND.sub("", _SOURCE.sub("", notes))),
        " ".join([*said, *([references] if references else [])]),
        _example(record.get("example")),
        Occurrence(record.get("puzzles", 0), record.get("steps", 0), tuple(record.get("hardest", ()))),
        shipped["puzzles"],
    )


def _sentence(text: str) -> str:
    return text[0].upper() + text[1:].rstrip()


def sections_of(technique: Technique) -> dict[str, str]:
    """Return the sections of a technique's docstring by title, the opening under the empty title."""
    pieces = _SECTION.split(inspect.getdoc(technique.find) or "")
    titled = dict(zip(pieces[1::2], pieces[2::2], strict=True))
    return {key: _plain(text) for key, text in {"": pieces[0], **titled}.items()}


def _plain(text: str) -> str:
    """Take the signs of reStructuredText out of a text."""
    text = re.sub(r"\.\. \[\d+\] ", "", text)
    return re.sub(r"`+", "", text.replace("::\n", ":\n")).strip()


def _example(record: Mapping[str, Any] | None) -> Example | None:
    if record is None:
        return None
    rests_on: Sequence[str] = record["rests_on"]
    return Example(record["puzzle"], tuple(rests_on), record["before"], record["after"], record["says"])


@cache
def _shipped() -> dict[str, Any]:
    """Return the examples and counts that ship with the grader."""
    text = files("grader.techniques").joinpath("examples.yaml").read_text(encoding="utf-8")
    loaded: dict[str, Any] = yaml.load(text, yaml.CSafeLoader)
    return loaded
