"""Remarks on a puzzle: what rejects nothing, but wants a look before it goes to print.

Each remark is found in the puzzle alone. It is left out where the house style asks for the same thing: there
the puzzle is rejected for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from verifier.files.fields.lookalikes import alike, outline
from verifier.puzzle.cage_layout import cages_in_pieces, lone_bare_cell
from verifier.puzzle.neighbours import beside, pieces
from verifier.puzzle.printable import counted, filled, listed, printable
from verifier.puzzle.puzzle import KAKURO, Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.run_layout import cage_at, parts
from verifier.puzzle.totals import possible_totals
from verifier.verdict.remark_wording import REMARKS
from verifier.verdict.style.style import PLAIN, HouseStyle
from verifier.verdict.verdict import Remark

__all__ = ["MARKS_ALIKE", "remarks_on"]

IN_PIECES, BARE_CELL, ONE_CELL, NO_TOTAL, HOUSE_IN_PIECES, PARTS_APART, MARKS_ALIKE = (
    "cage-in-pieces",
    "one-bare-cell",
    "one-cell-cage",
    "one-cage-without-total",
    "house-in-pieces",
    "parts-apart",
    "marks-alike",
)
"""The codes, in the order in which remarks are made."""

_ENOUGH_TOTALS = 3  # where fewer cages have a total, one without is no exception
_DRAWN_HOUSES = ("box", "extra house")  # those that a file draws as a map
_LONGEST_MARK = 20  # characters of a mark in a sentence


def remarks_on(puzzle: Puzzle, style: HouseStyle = PLAIN) -> Iterator[Remark]:
    """Yield the remarks on a puzzle.

    Parameters
    ----------
    puzzle : Puzzle
        Sound or broken: nothing is solved.
    style : HouseStyle, optional
        The publisher's rules.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1, 10), 9)])
    >>> remark, = remarks_on(puzzle)
    >>> remark.code, remark.cells
    ('cage-in-pieces', ('r1c1', 'r1c2', 'r3c3'))
    >>> list(remarks_on(puzzle, HouseStyle("Harbour Page", cages_in_one_piece=True)))
    []
    """
    if not style.cages_in_one_piece:
        yield from _in_pieces(puzzle)
    if not style.cages_cover_the_grid:
        yield from _bare_cell(puzzle)
    if (style.smallest_cage or 1) == 1:
        yield from _one_cell(puzzle)
    yield from _total_forgotten(puzzle)
    yield from _houses_in_pieces(puzzle)
    if puzzle.kind == KAKURO:
        yield from _parts_apart(puzzle)
    yield from _marks_alike(puzzle)


def _in_pieces(puzzle: Puzzle) -> Iterator[Remark]:
    name = puzzle.grid.cell_name
    for cage, fallen in cages_in_pieces(puzzle).items():
        facts = {
            "mark": printable(puzzle.marks[cage.cells[0]], _LONGEST_MARK) if puzzle.marks else "",
            "pieces": listed(" ".join(map(name, piece)) for piece in fallen),
            "total": str(cage.figure),
            "cage": cage.called(puzzle.grid).capitalize(),
            "cages": counted(len(fallen), "cage"),
        }
        how = "mark" if puzzle.marks else "list" if isinstance(cage, Cage) else "other"
        yield _remark(IN_PIECES, puzzle, cage.cells, REMARKS[f"{IN_PIECES}:{how}"].format_map(facts))


def _bare_cell(puzzle: Puzzle) -> Iterator[Remark]:
    bare = lone_bare_cell(puzzle)
    if bare is not None:
        says = REMARKS[BARE_CELL].format(cell=puzzle.grid.cell_name(bare))
        yield _remark(BARE_CELL, puzzle, [bare], says)


def _one_cell(puzzle: Puzzle) -> Iterator[Remark]:
    cages = [cage for cage in puzzle.cages if len(cage.cells) == 1]
    if cages:
        cells = [cage.cells[0] for cage in cages]
        told = listed(cage_at(puzzle.grid, cage) for cage in cages)
        how = "one" if len(cages) == 1 else "several"
        yield _remark(ONE_CELL, puzzle, cells, REMARKS[f"{ONE_CELL}:{how}"].format(cages=told))


def _parts_apart(puzzle: Puzzle) -> Iterator[Remark]:
    """Yield a remark where no run leads from one part of a kakuro to another."""
    found = parts(puzzle)
    if len(found) > 1:
        first = [puzzle.grid.cell_name(part.cells[0]) for part in found]
        largest = max(found, key=lambda part: len(part.cells))
        cells = sorted(cell for part in found if part is not largest for cell in part.cells)
        says = filled(REMARKS[PARTS_APART], parts=len(found), first=first)
        yield _remark(PARTS_APART, puzzle, cells, says)


def _houses_in_pieces(puzzle: Puzzle) -> Iterator[Remark]:
    """Yield a remark on each box and extra house whose cells do not hang together."""
    name = puzzle.grid.cell_name
    for house in puzzle.houses:
        found = pieces(puzzle.grid, house.cells) if house.kind in _DRAWN_HOUSES else []
        if len(found) > 1:
            told = [" ".join(map(name, piece)) for piece in found]
            says = filled(REMARKS[HOUSE_IN_PIECES], house=house.name.capitalize(), pieces=told)
            yield _remark(HOUSE_IN_PIECES, puzzle, house.cells, says)


def _total_forgotten(puzzle: Puzzle) -> Iterator[Remark]:
    """Yield a remark where all cages but one have a total, and there are enough of them to make it odd."""
    bare = rules_of(puzzle.rules, Different)
    if puzzle.kind != KAKURO and len(bare) == 1 and len(puzzle.cages_with_total) >= _ENOUGH_TOTALS:
        cells = bare[0].cells
        covered = sorted(cell for cage in puzzle.all_cages for cell in cage.cells) == list(puzzle.grid.cells)
        left = len(puzzle.grid.cells) // puzzle.grid.digits * puzzle.grid.house_total - sum(
            cage.total for cage in puzzle.cages_with_total
        )
        offered = covered and left in possible_totals(len(cells), tuple(puzzle.grid.all_digits))
        how = f"{NO_TOTAL}:{'rest' if offered else 'open'}"
        says = REMARKS[how].format(cells=puzzle.grid.cell_names(cells), left=left)
        yield _remark(NO_TOTAL, puzzle, cells, says)


def _marks_alike(puzzle: Puzzle) -> Iterator[Remark]:
    """Yield a remark on each two marks of a map that look alike and stand side by side somewhere."""
    marks = set(puzzle.marks)
    if len({outline(mark) for mark in marks}) == len(marks):
        return  # no two of them look alike, wherever they stand
    touching: dict[tuple[str, str], set[int]] = {}
    for cell, mark in enumerate(puzzle.marks):
        for near in beside(puzzle.grid, cell):
            if near > cell and alike(mark, puzzle.marks[near]):
                one, other = sorted((mark, puzzle.marks[near]))
                touching.setdefault((one, other), set()).update((cell, near))
    for pair, met in touching.items():
        cells = sorted(met)
        one, other = (printable(mark, _LONGEST_MARK) for mark in pair)
        facts = {"one": one, "other": other, "cells": puzzle.grid.cell_names(cells)}
        yield _remark(MARKS_ALIKE, puzzle, cells, REMARKS[MARKS_ALIKE].format_map(facts))


def _remark(code: str, puzzle: Puzzle, cells: Sequence[int], says: str) -> Remark:
    return Remark(code, says, tuple(puzzle.grid.cell_name(cell) for cell in cells))
