"""In which ways two puzzles are the same, and what they look like in each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

__all__ = ["Guise", "Likeness"]


class Guise(Enum):
    """In what way two puzzles are the same, the closest first; each is the name of a field of `Likeness`."""

    SAME = "content"
    """The same puzzle, whatever its credits."""
    TURNED = "turned"
    """The same but for turning, mirroring and complementing."""
    DISGUISED = "structure"
    """The same in any disguise: lines reordered and digits renamed as well."""
    SOLUTION = "filling"
    """The same solution, as it stands or in any disguise, under other cages or givens."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """What a puzzle looks like: for each `Guise` a key that is equal for puzzles that are the same in it.

    A key is None where it was not looked for, or, for the solution, where there is not exactly one.
    """

    content: str
    turned: str
    structure: str | None = None
    filling: str | None = None

    @property
    def keys(self) -> dict[Guise, str]:
        """The keys that there are, those of the closest guise first."""
        return {guise: key for guise in Guise if (key := getattr(self, guise.value)) is not None}

    def guise_of(self, other: Likeness) -> Guise | None:
        """Return the closest guise in which another puzzle is the same."""
        return next((guise for guise, key in self.keys.items() if other.keys.get(guise) == key), None)
