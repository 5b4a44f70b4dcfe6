"""What the puzzle was before: undo and redo without end."""

from __future__ import annotations

from verifier.puzzle.puzzle import Puzzle

__all__ = ["History"]


class History:
    """The states of a puzzle, one after the other. They share their rules, so that many of them take little.

    Parameters
    ----------
    first : Puzzle
        What there is to begin with.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> empty, other = (make_puzzle("classic", Grid.square(4), givens=given) for given in ({}, {0: 1}))
    >>> history = History(empty)
    >>> history.add(other), history.back(), history.now == empty, history.can_go_on
    (True, True, True, True)
    """

    def __init__(self, first: Puzzle) -> None:
        self._states = [first]
        self._at = 0

    @property
    def now(self) -> Puzzle:
        """The puzzle as it is."""
        return self._states[self._at]

    @property
    def can_go_back(self) -> bool:
        """Whether there is anything to undo."""
        return self._at > 0

    @property
    def can_go_on(self) -> bool:
        """Whether anything was undone and nothing changed since."""
        return self._at < len(self._states) - 1

    def add(self, puzzle: Puzzle) -> bool:
        """Add a state, in the place of what was undone; return whether it is another than that before."""
        if puzzle == self.now:
            return False
        self._states[self._at + 1 :] = [puzzle]
        self._at += 1
        return True

    def back(self) -> bool:
        """Go back by one state; return whether there was one."""
        if not self.can_go_back:
            return False
        self._at -= 1
        return True

    def on(self) -> bool:
        """Take back the last step back; return whether there was one."""
        if not self.can_go_on:
            return False
        self._at += 1
        return True
