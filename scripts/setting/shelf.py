"""What the corpus is made of: files, the puzzles in them, and the verdict that each puzzle must get."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

from scripts.setting.files import as_line, as_list, as_map, as_run_list, as_run_map
from verifier.puzzle.neighbours import in_one_piece
from verifier.puzzle.puzzle import Puzzle

__all__ = ["ACCEPTED", "REJECTED", "UNREADABLE", "Item", "ShelfFile", "single", "stream"]

ACCEPTED, REJECTED, UNREADABLE = "accepted", "rejected", "unreadable"

_FORMS: Mapping[str, Callable[[Puzzle], str]] = {
    "map": as_map,
    "map, totals in a row": partial(as_map, totals="in a row"),
    "map, totals left out": partial(as_map, totals="left out"),
    "list": as_list,
    "line": as_line,
    "run map": as_run_map,
    "run list": as_run_list,
}


@dataclass(frozen=True, slots=True)
class Item:
    """One puzzle, and what must come of it. All of it is known from the way the puzzle was made.

    Parameters
    ----------
    text : str or bytes
        The puzzle as its file holds it.
    made : str
        How it was made: for a broken puzzle, the fault that was put in.
    verdict : str
        ``accepted``, ``rejected`` or ``unreadable``.
    codes : tuple of str
        Codes of the reasons, or of the faults of an unreadable file.
    solutions : int or None
        0, 1, or 2 for "at least two"; None for an unreadable file.
    puzzle : Puzzle or None
        The puzzle itself, for the builder's own count; None for an unreadable file.
    """

    text: str | bytes
    made: str
    verdict: str = ACCEPTED
    codes: tuple[str, ...] = ()
    solutions: int | None = 1
    puzzle: Puzzle | None = None

    @property
    def remarks(self) -> list[str]:
        """Codes of the remarks that it earns where no house style rejects it for the same: plain to see."""
        if self.puzzle is None:
            return []
        grid, cages = self.puzzle.grid, [cage.cells for cage in self.puzzle.cages]
        earned = {
            "cage-in-pieces": not all(in_one_piece(grid, cells) for cells in cages),
            "one-bare-cell": sum(map(len, cages)) == grid.cell_count - 1,
            "one-cell-cage": any(len(cells) == 1 for cells in cages),
        }
        return [code for code, is_earned in earned.items() if is_earned]


@dataclass(frozen=True, slots=True)
class ShelfFile:
    """One file of the corpus.

    Parameters
    ----------
    name : str
        Its path below ``corpus/``.
    items : tuple of Item
        One, or several in a stream.
    between : str
        What stands between the puzzles of a stream.
    """

    name: str
    items: tuple[Item, ...]
    between: str = ""

    @property
    def data(self) -> bytes:
        """The bytes of the file."""
        texts = [item.text if isinstance(item.text, bytes) else item.text.encode() for item in self.items]
        return self.between.encode().join(texts)

    @property
    def addresses(self) -> list[str]:
        """The address of each puzzle, with a number where the file holds several."""
        if len(self.items) == 1:
            return [self.name]
        return [f"{self.name}#{number}" for number in range(1, len(self.items) + 1)]


def single(
    name: str,
    puzzle: Puzzle,
    made: str,
    *,
    form: str = "map",
    verdict: str = ACCEPTED,
    codes: tuple[str, ...] = (),
    solutions: int = 1,
) -> ShelfFile:
    """Return a file with one puzzle in it, written in one of the forms."""
    return ShelfFile(name, (Item(_FORMS[form](puzzle), made, verdict, codes, solutions, puzzle),))


def stream(name: str, between: str, *items: Item) -> ShelfFile:
    """Return a file with several puzzles in it."""
    return ShelfFile(name, items, between)
