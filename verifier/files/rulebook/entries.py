"""The entries of the rulebook, one a rule: the texts stand in ``entries.yaml``, the files in ``examples``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import yaml

__all__ = ["RuleEntry", "rulebook"]


@dataclass(frozen=True, slots=True)
class RuleEntry:
    """What the rulebook has of one rule.

    Parameters
    ----------
    name : str
        The key by which a file names the rule.
    group : str
        The rules it stands among, such as ``lines``.
    says : str
        The rule in one line.
    definition : str
        The rule in full.
    written : str
        How a file states it, in YAML.
    allowed : str
        What the file may say, and what it may not.
    picture : str
        A drawing in text; empty where there is nothing to draw.
    also : tuple of str
        Other words for which somebody may look.
    """

    name: str
    group: str
    says: str
    definition: str
    written: str
    allowed: str
    picture: str = ""
    also: tuple[str, ...] = ()

    @property
    def example(self) -> str:
        """A whole puzzle file with this rule, sound as it stands."""
        return _read("examples", f"{self.name}.yaml")


@cache
def rulebook() -> tuple[RuleEntry, ...]:
    """Return all entries, group by group.

    Examples
    --------
    >>> [entry.name for entry in rulebook() if entry.group == "at the edge"]
    ['sandwich', 'skyscraper', 'little_killer']
    """
    groups = yaml.safe_load(_read("entries.yaml"))
    return tuple(
        RuleEntry(group=group, **{**entry, "also": tuple(entry.get("also", ()))})
        for group, entries in groups.items()
        for entry in entries
    )


def _read(*path: str) -> str:
    return files(__package__).joinpath(*path).read_text(encoding="utf-8")
