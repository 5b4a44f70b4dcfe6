"""A publisher's house style: which sound puzzles it takes."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, dataclass, fields
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from grader.grading.tiers import TierTable

__all__ = ["NO_RULES", "PLAIN", "HouseStyle"]

_CONTENT_VERSION = 1


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """What a publisher accepts. Every rule may be left out; None or empty asks for nothing.

    Parameters
    ----------
    name : str
        What the publisher calls it.
    kinds, grids : tuple of str
        Kinds of puzzle, and sizes (``9x9``), that are accepted.
    rules, rules_not_accepted : tuple of str
        What a puzzle may have beyond a classic or a killer, by the words of the puzzle file, and what it may
        not; ``none`` among the first stands for nothing.
    tiers : tuple of int
        Tiers that are accepted, 1 to 7.
    stop_beyond_tiers : bool
        Whether a puzzle beyond the highest of `tiers` is worked through no further than that.
    techniques_not_accepted : tuple of str
        Ids of techniques that no accepted puzzle may need.
    smallest_cage, largest_cage : int or None
        Cells of a cage.
    cages_in_one_piece : bool
        Whether the cells of a cage must hang together, edge to edge.
    cages_cover_the_grid : bool
        Whether each cell must be in a cage.
    fewest_givens, most_givens : int or None
        Number of givens.
    symmetry : tuple of str
        The cells of the givens must have at least one of these symmetries.
    credits : tuple of str
        What must be stated: ``title``, ``setter``.
    repeats : str
        ``refuse`` to take no puzzle that was printed before, or that repeats another of the box. A verdict
        does not speak of that: it does not depend on the rest of the box.
    tier_names : tuple of (int, str)
        The publisher's own names for some tiers.
    tier_table : TierTable or None
        The publisher's own table of tiers; the grader's when None.

    Examples
    --------
    >>> PLAIN.content == HouseStyle("another name").content
    True
    >>> PLAIN.content == HouseStyle("plain", tiers=(1, 2)).content
    False
    >>> PLAIN.content == HouseStyle("plain", repeats="refuse").content
    True
    """

    name: str
    kinds: tuple[str, ...] = ()
    grids: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    rules_not_accepted: tuple[str, ...] = ()
    tiers: tuple[int, ...] = ()
    stop_beyond_tiers: bool = False
    techniques_not_accepted: tuple[str, ...] = ()
    smallest_cage: int | None = None
    largest_cage: int | None = None
    cages_in_one_piece: bool = False
    cages_cover_the_grid: bool = False
    fewest_givens: int | None = None
    most_givens: int | None = None
    symmetry: tuple[str, ...] = ()
    credits: tuple[str, ...] = ()
    repeats: str = "accept"
    tier_names: tuple[tuple[int, str], ...] = ()
    tier_table: TierTable | None = None

    @property
    def content(self) -> str:
        """A versioned hash of the rules on which a verdict depends: not of the name, nor of repeats."""
        plain = {rule.name: rule.default for rule in fields(self)}
        # A rule that comes to the program later must change no hash of a style that does not use it.
        rules = {k: value for k, value in asdict(self).items() if k not in _UNJUDGED and value != plain[k]}
        text = json.dumps(rules, sort_keys=True)
        return f"{_CONTENT_VERSION}:{hashlib.sha256(text.encode()).hexdigest()[:32]}"

    def tiers_to_grade_with(self) -> TierTable:
        """Return the table of tiers, with the publisher's names."""
        from grader.grading.tiers import default_tiers

        table = self.tier_table or default_tiers()
        return table.renamed(dict(self.tier_names)) if self.tier_names else table

    @property
    def highest_tier(self) -> int | None:
        """The tier beyond which no puzzle is worked through; None where all are worked through to the end.

        Examples
        --------
        >>> HouseStyle("Harbour Page", tiers=(3, 1), stop_beyond_tiers=True).highest_tier
        3
        """
        return max(self.tiers) if self.stop_beyond_tiers and self.tiers else None

    def techniques_to_grade_with(self) -> frozenset[str] | None:
        """Return the ids of the techniques up to the highest tier; None where all may be used."""
        if self.highest_tier is None:
            return None
        tier_of = self.tiers_to_grade_with().tier_of
        return frozenset(name for name, tier in tier_of.items() if tier <= self.highest_tier)


NO_RULES = "none"
"""The word for no rules beyond those of a classic or a killer."""

_UNJUDGED = ("name", "repeats")
"""What no verdict depends on."""

PLAIN = HouseStyle("plain")
"""Takes every sound puzzle."""
