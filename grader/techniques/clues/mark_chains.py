"""Chains of marks: cells linked by marks and lines over pairs, one to the next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache, reduce
from itertools import combinations
from operator import or_

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue
from grader.reasoning.clues.ways import ClueWays, Machine
from grader.reasoning.pairs import fits_of
from verifier.puzzle.masks import mask_of
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.not_consecutive import NotConsecutive

__all__ = ["MARK_CHAIN"]

_LONGEST = 5
"""So many cells a person follows from mark to mark."""
_SHORTEST = 3
"""So many where a link is a rule over all neighbours, which nothing on the grid shows."""
_OF_THE_GRID = (NotConsecutive, Unmarked)

_Kept = Mapping[int, int]


def find_mark_chains(board: Board) -> Iterator[Step]:
    """A chain of cells that are marked one with the next can be filled in only so many ways.

    Three to five cells, in which cells that see each other differ. Three in a row, each consecutive with the
    next, rise or fall by one each time::

        row 1    before  12 1234 45    after  2? 3? 4?

    Yields
    ------
    Step
        Shorter chains first; one for each, with what goes by none of its parts. `focus` is the chain.

    Notes
    -----
    Sound in every solution: all ways to fill the chain have been gone through, with every rule over two of
    its cells.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> from verifier.puzzle.rules.marks.consecutive import Consecutive
    >>> board = board_from_text("12 1234 45", clues=[Consecutive((0, 1)), Consecutive((1, 2))])
    >>> [[(cell, digits_of(gone)) for cell, gone in step.removes] for step in find_mark_chains(board)]
    [[(0, (1,)), (1, (1, 2, 4)), (2, (5,))]]
    """
    left: dict[tuple[int, ...], _Kept] = {}
    for chain in _chains(board.layout):
        fresh = mask_of(chain) & board.fresh
        if not fresh or all(board.placed >> cell & 1 for cell in chain):
            continue
        kept = left[chain] = _kept(board, chain)
        shorter = [_part(board, left, part) for part in (chain[1:], chain[:-1]) if len(part) > 2]
        removes = []
        for cell in chain:
            known = reduce(lambda mask, part: mask & part.get(cell, -1), shorter, board.candidates[cell])
            if kept[cell] and known & ~kept[cell]:
                removes.append((cell, board.candidates[cell] & ~kept[cell]))
        if removes:
            yield _step(board, chain, tuple(sorted(removes)))


@lru_cache(maxsize=8)
def _chains(layout: Layout) -> tuple[tuple[int, ...], ...]:
    """Return the chains of three cells and more, each from one end, shorter ones first."""
    kinds = {pair: {type(layout.rules[fit.rule]) for fit in fits} for pair, fits in fits_of(layout).items()}
    drawn = [pair for pair, some in kinds.items() if some - {*_OF_THE_GRID, ChessMove}]
    said = [pair for pair, some in kinds.items() if some - {ChessMove}]
    return (*_linked(said, _SHORTEST, _SHORTEST), *_linked(drawn, _SHORTEST + 1, _LONGEST))


def _linked(pairs: Sequence[tuple[int, int]], shortest: int, longest: int) -> list[tuple[int, ...]]:
    """Return the chains of linked cells of some lengths, each from one end, shorter ones first."""
    linked: dict[int, list[int]] = {}
    for one, other in pairs:
        linked.setdefault(one, []).append(other)
    chains: list[tuple[int, ...]] = [(cell,) for cell in sorted(linked)]
    found: list[tuple[int, ...]] = []
    for _ in range(longest - 1):
        chains = [
            (*chain, cell) for chain in chains for cell in sorted(linked[chain[-1]]) if cell not in chain
        ]
        found += [chain for chain in chains if len(chain) >= shortest and chain[0] < chain[-1]]
    return found


def _part(board: Board, left: dict[tuple[int, ...], _Kept], part: tuple[int, ...]) -> _Kept:
    """Return what is left of a part of a chain, which is known from one of its ends."""
    chain = part if part[0] < part[-1] else part[::-1]
    if chain not in left:
        left[chain] = _kept(board, chain)
    return left[chain]


def _kept(board: Board, chain: tuple[int, ...]) -> _Kept:
    machine = Machine(chain, (), lambda state, place, digit: state, lambda state: True)  # noqa: ARG005
    return ClueWays(board.layout, machine, board.candidates).kept


def _step(board: Board, chain: tuple[int, ...], removes: tuple[tuple[int, int], ...]) -> Step:
    layout, fits = board.layout, fits_of(board.layout)
    marks = {fit.rule for pair in combinations(chain, 2) for fit in fits.get(pair, ())}
    links = {rule for one, other in combinations(chain, 2) for rule in _link(layout, one, other)}
    return Step(
        "mark-chain",
        removes=removes,
        rules=tuple(sorted(marks | links)),
        looks=tuple(sorted(chain)),
        focus=chain,
        digits=reduce(or_, (gone for _, gone in removes)),
        pattern=Clue(layout, min(marks), board.candidates).says("along-marks", cells=chain),
    )


def _link(layout: Layout, one: int, other: int) -> tuple[int, ...]:
    return layout.link(one, other) if layout.sees[one] >> other & 1 else ()


MARK_CHAIN = Technique("mark-chain", "chain of marks", find_mark_chains)
