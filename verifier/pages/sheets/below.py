"""What is said below a puzzle on paper: the rules that its picture does not show, and what its signs mean."""

from __future__ import annotations

from dataclasses import dataclass

from verifier.pages.rule_key import signs_in_words
from verifier.pages.sheets.lettering import width
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.spoken_rules import rules_to_say

__all__ = ["NOTHING_BELOW", "Below", "said_below"]

_SIZES = (3.2, 2.8, 2.4, 2.1)
"""Sizes of type, in mm: the largest at which the text leaves the grid its room, or the smallest."""

_LINE = 1.375
"""From one line to the next, in sizes of type."""

_SHARE = 0.2
"""How much of the height of a slot the text may take before it is set smaller."""


@dataclass(frozen=True, slots=True)
class Below:
    """A text below a puzzle: its lines, and the size of its type in mm."""

    lines: tuple[str, ...] = ()
    size: float = _SIZES[0]

    @property
    def leading(self) -> float:
        """From one line to the next, in mm."""
        return _LINE * self.size

    @property
    def height(self) -> float:
        """Of the whole text, in mm."""
        return len(self.lines) * self.leading

    @property
    def width(self) -> float:
        """Of its longest line, in mm."""
        return max((width(line, self.size) for line in self.lines), default=0.0)


NOTHING_BELOW = Below()


def said_below(puzzle: Puzzle, wide: float, high: float) -> Below:
    """Return what is said below a puzzle, in lines of a width, none of it cut short.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    wide, high : float
        Of its slot, in mm.
    """
    said = filter(None, (rules_to_say(puzzle), *signs_in_words(puzzle)))
    text = " ".join(f"{one[0].upper()}{one[1:]}." for one in said)
    tried = (Below(_wrapped(text, size, wide), size) for size in _SIZES)
    return next(below for below in tried if below.height <= _SHARE * high or below.size == _SIZES[-1])


def _wrapped(text: str, size: float, most: float) -> tuple[str, ...]:
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, size) <= most:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
