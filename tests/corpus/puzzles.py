"""Puzzles of the corpus, for tests that need a whole one."""

from __future__ import annotations

from scripts.check_corpus import CORPUS
from verifier.files.reading import read_address
from verifier.puzzle.puzzle import Puzzle

__all__ = ["puzzle_at"]


def puzzle_at(address: str) -> Puzzle:
    """Return the puzzle of a file in the corpus, such as ``killers/low-tide.yaml``."""
    (entry,) = read_address(str(CORPUS / address))
    assert entry.puzzle is not None, address
    return entry.puzzle
