"""Worked examples of the techniques, and how often each occurs in the corpus.

Both are shipped in ``techniques/examples.yaml``, which ``scripts/build_catalogue.py`` writes.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import yaml

from grader.words.wording import catalogue_words
from verifier.puzzle.printable import listed

__all__ = ["Example", "Occurrence", "examples", "occurrences"]

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

    @property
    def head(self) -> str:
        """The line over it."""
        template = catalogue_words.EXAMPLE_FROM if self.puzzle else catalogue_words.EXAMPLE_ON_PICTURE
        return template.format(puzzle=self.puzzle)


@dataclass(frozen=True, slots=True)
class Occurrence:
    """How often a technique occurs in the corpus, when its puzzles are replayed in rounds.

    Parameters
    ----------
    corpus : int
        How many puzzles were replayed.
    puzzles, steps : int
        In how many of them, and how many steps in all.
    hardest : tuple of str
        The puzzles of which it is the hardest technique.
    """

    corpus: int
    puzzles: int = 0
    steps: int = 0
    hardest: tuple[str, ...] = ()

    @property
    def says(self) -> str:
        """The same in words; of many puzzles only the first are named."""
        if not self.puzzles:
            return catalogue_words.OCCURS_NOWHERE.format(corpus=self.corpus)
        steps = f"{self.steps:,} {'step' if self.steps == 1 else 'steps'}"
        said = [catalogue_words.OCCURS.format(steps=steps, puzzles=self.puzzles, corpus=self.corpus)]
        if self.hardest:
            more = len(self.hardest) - _NAMED_AT_MOST
            named = [*self.hardest[:_NAMED_AT_MOST], *([f"{more} more"] if more > 0 else [])]
            said.append(catalogue_words.HARDEST_OF.format(puzzles=listed(named, most=len(named))))
        return " ".join(said)


@cache
def examples() -> Mapping[str, Example]:
    """Return the worked example of each technique that has one, by its id."""
    return {
        technique: Example(**{**record["example"], "rests_on": tuple(record["example"]["rests_on"])})
        for technique, record in _shipped()["techniques"].items()
        if record.get("example")
    }


@cache
def occurrences() -> Mapping[str, Occurrence]:
    """Return how often each technique occurs, by its id."""
    corpus = _shipped()["puzzles"]
    found = {
        technique: Occurrence(corpus, record["puzzles"], record["steps"], tuple(record["hardest"]))
        for technique, record in _shipped()["techniques"].items()
    }
    return defaultdict(lambda: Occurrence(corpus), found)


@cache
def _shipped() -> dict[str, Any]:
    text = files("grader.techniques").joinpath("examples.yaml").read_text(encoding="utf-8")
    loaded: dict[str, Any] = yaml.load(text, yaml.CSafeLoader)
    return loaded
