"""Cages drawn anew so that one solution is left: a cage split, two joined, one added.

The solutions that are known say which cuts are worth a proof: a cut cage tells two solutions apart where
its parts add up differently.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from verifier.diagnosis.repairs.changes import CageChange
from verifier.diagnosis.repairs.mends import Kind, Mend, proved
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.several.differences import swing_cells
from verifier.puzzle.cage_layout import bare_cells, cages_in_pieces, cages_side_by_side
from verifier.puzzle.grid import Filling
from verifier.puzzle.neighbours import connected, cuts
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import repeated

__all__ = ["added", "joined", "parted", "shared_marks", "split"]

_COMPARING = 0.000_001
"""Cost of looking at a few cells in one solution."""
_LARGEST_ADDED = 5
"""Cells of a cage that is added; setters draw few larger ones, and there are very many."""
_LARGEST_SPLIT = 9
"""A larger cage has too many ways to be cut."""
_LARGEST_PARTED = 14
_MOST_FREED = 500
"""Solutions without a cage that is wrong up to which its cuts are looked for."""
_MOST_SHARING = 3
"""Cages with one mark; of more pieces than this the totals would be anybody's guess."""


def split(puzzle: Puzzle, solutions: Sequence[Filling], budget: SearchBudget) -> Iterator[Mend]:
    """Yield each cut of a cage into two pieces that leaves exactly one solution."""
    swing = set(swing_cells(solutions))
    for cage in puzzle.cages:
        if len(swing.intersection(cage.cells)) > 1 and len(cage.cells) <= _LARGEST_SPLIT:
            yield from _cuts(puzzle, cage, solutions, budget)


def parted(puzzle: Puzzle, budget: SearchBudget) -> Iterator[Mend]:
    """Yield each cut of a cage with more cells than there are digits that leaves exactly one solution.

    Such a cage is two that got the same mark by mistake; their totals got added up.
    """
    for cage in puzzle.cages:
        if len(cage.cells) > puzzle.grid.digits:
            freed = budget.count(puzzle.changed([cage]), _MOST_FREED)
            fitting = [f for f in freed.solutions if sum(f[cell] for cell in cage.cells) == cage.total]
            if freed.complete and len(cage.cells) <= _LARGEST_PARTED:
                yield from _cuts(puzzle, cage, fitting, budget)


def shared_marks(puzzle: Puzzle, budget: SearchBudget) -> Iterator[Mend]:
    """Yield each repair that makes every piece of a cage a cage of its own, and leaves exactly one solution.

    One mark was used for several cages, and one entry gives their total: it belongs to one of the pieces,
    or it is that of all together. What the other pieces add up to is found.
    """
    for cage, pieces in cages_in_pieces(puzzle).items():
        if isinstance(cage, Cage) and len(pieces) <= _MOST_SHARING:
            for totals in _totals_of_pieces(puzzle, cage, pieces, budget):
                new = tuple(Cage(cells, total) for cells, total in zip(pieces, totals, strict=True))
                yield from proved(puzzle, Kind.SPLIT, [CageChange((cage,), new)], budget)


def _totals_of_pieces(
    puzzle: Puzzle, cage: Cage, pieces: Sequence[tuple[int, ...]], budget: SearchBudget
) -> Iterator[tuple[int, ...]]:
    """Yield totals of the pieces that may leave one solution: where one of them keeps its total first."""
    rest = puzzle.changed([cage])
    for kept in pieces:
        freed = budget.count(rest.changed(come=[Cage(kept, cage.total)]), _MOST_FREED)
        yield from _that_occur_once(pieces, freed.solutions) if freed.complete else ()
    freed = budget.count(rest, _MOST_FREED)
    if freed.complete:
        together = [f for f in freed.solutions if sum(f[cell] for cell in cage.cells) == cage.total]
        yield from _that_occur_once(pieces, together)


def _that_occur_once(
    pieces: Sequence[tuple[int, ...]], solutions: Sequence[Filling]
) -> list[tuple[int, ...]]:
    """Return the totals of the pieces, without a repeated digit, that exactly one of the solutions has."""
    fitting = [filling for filling in solutions if not any(repeated(cells, filling) for cells in pieces)]
    often = Counter(tuple(sum(filling[cell] for cell in cells) for cells in pieces) for filling in fitting)
    return sorted(totals for totals, times in often.items() if times == 1)


def _cuts(puzzle: Puzzle, cage: Cage, solutions: Sequence[Filling], budget: SearchBudget) -> Iterator[Mend]:
    """Yield each cut of one cage that leaves exactly one solution, as far as the solutions tell."""
    for piece in cuts(puzzle.grid, cage.cells):
        budget.spend(_COMPARING * len(solutions))
        rest = tuple(cell for cell in cage.cells if cell not in piece)
        fitting = [filling for filling in solutions if not repeated(rest, filling)]
        for total in _totals_of_one(piece, fitting):
            new = Cage(piece, total), Cage(rest, cage.total - total)
            yield from proved(puzzle, Kind.SPLIT, [CageChange((cage,), new)], budget)


def _totals_of_one(cells: tuple[int, ...], solutions: Sequence[Filling]) -> list[int]:
    """Return the totals, without a repeated digit, that exactly one of the solutions has in these cells."""
    return [total for (total,) in _that_occur_once([cells], solutions)]


def joined(puzzle: Puzzle, solutions: Sequence[Filling], budget: SearchBudget) -> Iterator[Mend]:
    """Yield each join of two neighbouring cages that leaves exactly one solution.

    Their digits are all different then, which can tell solutions apart; their totals no longer stand alone,
    which can let others in.
    """
    for one, other in cages_side_by_side(puzzle):
        cells = tuple(sorted((*one.cells, *other.cells)))
        budget.spend(_COMPARING * len(solutions))
        if sum(not repeated(cells, filling) for filling in solutions) == 1:
            new = (Cage(cells, one.total + other.total),)
            yield from proved(puzzle, Kind.JOIN, [CageChange((one, other), new)], budget)


def added(puzzle: Puzzle, solutions: Sequence[Filling], budget: SearchBudget) -> Iterator[Mend]:
    """Yield each cage over swing cells in no cage that leaves exactly one solution, small cages first.

    None where there are no cages: a classic does not become a killer by being mended.
    """
    if not puzzle.all_cages:
        return
    open_cells = set(bare_cells(puzzle)).difference(dict(puzzle.givens))
    bare = [cell for cell in swing_cells(solutions) if cell in open_cells]
    for size in range(2, _LARGEST_ADDED + 1):
        for cells in connected(puzzle.grid, bare, size):
            budget.spend(_COMPARING * len(solutions))
            for total in _totals_of_one(cells, solutions):
                yield from proved(puzzle, Kind.ADD, [CageChange((), (Cage(cells, total),))], budget)
