"""A plain search that counts solutions, written for these tests alone: the emptiest choice first."""

from __future__ import annotations

from verifier.puzzle.puzzle import Puzzle

__all__ = ["count_plainly"]


def count_plainly(puzzle: Puzzle, limit: int) -> int:
    """Return the number of solutions, or `limit` when there are at least so many."""
    return _Search(puzzle).count(limit)


class _Search:
    """A grid that is filled in and emptied again, cell by cell."""

    def __init__(self, puzzle: Puzzle) -> None:
        self.digits = puzzle.grid.all_digits
        houses = [house.cells for house in puzzle.houses] + [cage.cells for cage in puzzle.cages]
        cells = range(puzzle.grid.cell_count)
        self.seen_by = [
            {c for group in houses if cell in group for c in group if c != cell} for cell in cells
        ]
        self.cages_of = [[cage for cage in puzzle.cages if cell in cage.cells] for cell in cells]
        self.givens = puzzle.givens
        self.filled: dict[int, int] = {}
        self.empty = set(cells)

    def count(self, limit: int) -> int:
        for cell, digit in self.givens:
            if digit not in self.open(cell):
                return 0
            self.filled[cell] = digit
            self.empty.remove(cell)
        return self.below(limit)

    def below(self, limit: int) -> int:
        if not self.empty:
            return 1
        choices, cell = min(((self.open(c), c) for c in self.empty), key=lambda one: (len(one[0]), one[1]))
        self.empty.remove(cell)
        found = 0
        for digit in choices:
            self.filled[cell] = digit
            found += self.below(limit - found)
            if found >= limit:
                break
        self.filled.pop(cell, None)
        self.empty.add(cell)
        return found

    def open(self, cell: int) -> list[int]:
        """The digits that no rule forbids, as far as can be told from the cells filled by now."""
        seen = {self.filled[c] for c in self.seen_by[cell] if c in self.filled}
        left = [digit for digit in self.digits if digit not in seen]
        for cage in self.cages_of[cell]:
            used = [self.filled[c] for c in cage.cells if c in self.filled]
            left = [d for d in left if self.fits(cage.total - sum(used) - d, [*used, d], len(cage.cells))]
        return left

    def fits(self, rest: int, used: list[int], size: int) -> bool:
        """Whether the cells of a cage that are still empty can make the rest of its total."""
        left = [d for d in self.digits if d not in used]
        free = size - len(used)
        return free <= len(left) and sum(left[:free]) <= rest <= sum(left[len(left) - free :])
