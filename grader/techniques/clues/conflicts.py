"""Digits with which a clue could be filled, but not beside the houses and clues around it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from grader.board.basis import Basis, joined
from grader.board.board import Board
from grader.board.patterns import ClueSaid, DeadEnd
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.assignments import differing
from grader.reasoning.clues.dead_ends import dead_ends
from grader.reasoning.clues.narrow import few_ways, filled_clues
from verifier.puzzle.masks import bits, mask_of

__all__ = ["CLUE_CONFLICTS"]


def find_clue_conflicts(board: Board) -> Iterator[Step]:
    """A digit goes from a clue if each way to fill the clue with it leaves something around it nothing.

    A cell of which nothing is left, a house without a place for a digit, another clue that cannot be filled.
    Up to eight ways with the digit, of up to seven other empty cells. On a renban of r1c1 to r1c3, with 5 in
    r1c1 the rest is 6-7, and nothing would be left for r1c4::

        row 1    before  45 36 57 67    after  4 36 5 67

    Yields
    ------
    Step
        In the order of the clues, of their cells and of the digits; one for each. `focus` is the cell.

    Notes
    -----
    Sound in every solution: the clue is filled in one of its ways, and no cell is empty, no house without any
    of its digits, no clue broken.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.lines.renban import Renban
    >>> board = board_from_text("45 36 57 67", clues=[Renban((0, 1, 2))])
    >>> [(step.focus, list(bits(step.digits))) for step in find_clue_conflicts(board)]
    [((0,), [5]), ((2,), [7])]
    """
    layout, candidates = board.layout, board.candidates
    for clue, _ in filled_clues(layout):
        open_in = {cell: candidates[cell] for cell in layout.rules[clue].cells}
        for cell, mask in open_in.items() if all(open_in.values()) else ():
            for digit in bits(mask) if mask & (mask - 1) else ():
                yield from _with(board, clue, {**open_in, cell: 1 << digit}, (cell, digit))


def _with(board: Board, clue: int, supposed: Mapping[int, int], gone: tuple[int, int]) -> Iterator[Step]:
    """Yield that a digit goes from a cell, if all ways to fill the clue with it fail."""
    cells, ways = few_ways(board.layout, clue, supposed)
    known = {cell: mask.bit_length() - 1 for cell, mask in supposed.items() if cell not in cells}
    ends = _ends(board, [{**known, **dict(zip(cells, way, strict=True))} for way in ways])
    if ends:
        told = tuple(dict.fromkeys(end for end, _ in ends))
        yield _step(board, clue, gone, ends, ClueSaid(clue, "ways-fail", cells=cells, ways=ways, ends=told))


def _ends(board: Board, filled: Sequence[dict[int, int]]) -> tuple[tuple[DeadEnd, Basis], ...]:
    """Return where each of some ways fails, the same for all where that can be; nothing if one does not."""
    found: list[dict[DeadEnd, Basis]] = []
    for way in filled:
        ends: dict[DeadEnd, Basis] = {}
        for end, why in dead_ends(board, way):
            if end not in ends or why.size < ends[end].size:
                ends[end] = why
        if not ends:
            return ()
        found.append(ends)
    common = [end for end in found[0] if all(end in ends for ends in found)] if found else []
    if common:
        one = min(common, key=lambda end: joined(ends[end] for ends in found).size)
        return tuple((one, ends[one]) for ends in found)
    return tuple(min(ends.items(), key=lambda item: item[1].size) for ends in found)


def _step(
    board: Board, clue: int, gone: tuple[int, int], ends: Sequence[tuple[DeadEnd, Basis]], said: ClueSaid
) -> Step:
    layout, (cell, digit) = board.layout, gone
    own = Basis(mask_of((clue, *differing(layout, layout.rules[clue].cells))), layout.masks[clue])
    basis = joined((own, *(why for _, why in ends)))
    return Step(
        "clue-conflicts",
        removes=((cell, 1 << digit),),
        rules=tuple(bits(basis.rules)),
        looks=tuple(bits(basis.looks)),
        focus=(cell,),
        digits=1 << digit,
        pattern=said,
    )


CLUE_CONFLICTS = Technique("clue-conflicts", "conflicts around a clue", find_clue_conflicts)
