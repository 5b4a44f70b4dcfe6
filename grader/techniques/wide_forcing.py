"""Wide forcing: what three or four ways, or all combinations of a cage, lead to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grader.board.basis import Basis
from grader.board.board import Board
from grader.board.patterns import Fork
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.links import open_cages
from grader.reasoning.lines_of_forcing.branch import Branch, Origin
from grader.reasoning.lines_of_forcing.every_branch import EveryBranch
from grader.reasoning.lines_of_forcing.forks import LEVELS_AT_MOST, forks
from grader.reasoning.lines_of_forcing.tracing import TracedPremises
from verifier.puzzle.masks import bits, mask_of

__all__ = ["WAYS_AT_MOST", "WIDE_FORCING_CHAIN"]

_FEWEST_WAYS = 3
"""Forks of two ways are left to the forcing chain."""
WAYS_AT_MOST = 4
"""A person follows no more lines beside one another."""


@dataclass(frozen=True, slots=True)
class _Fork:
    """Ways of which one is right, each with its line.

    `focus`, `digits` and `pattern` are those of the step; `why` is why one of the ways is right.
    """

    lines: Sequence[Branch]
    focus: tuple[int, ...]
    digits: int
    pattern: Fork
    why: Basis


def find_wide_forcing_chains(board: Board) -> Iterator[Step]:
    """What follows from each of several candidates, places or combinations holds.

    Take each candidate of a cell in turn as right and go on by singles and cage arithmetic alone; or each
    place that a digit has in a house; or each open combination of a cage. What goes on every line goes. A
    line that ends in a contradiction falls out, since its way is wrong::

        the cage of 11 is 29, 38 or 47
        29: r1c5 is 3, so r6c5 is 9, so r6c8 is not 9
        38: r4c1 is 9, so r4c9 is not 9, so r6c9 is 9, so r6c8 is not 9
        47: r2c8 is 9, so r6c8 is not 9

    Parameters
    ----------
    board : Board
        Read, never changed; every fork is followed whatever is fresh, since a chain may touch any cell.

    Yields
    ------
    Step
        Cells first, then houses, then cages; one step for each candidate that goes. `focus` is the cell as
        often as it has ways, the places of a digit, or the empty cells of a cage; `length` is the number of
        levels of the longest line.

    Notes
    -----
    Sound in every solution: one of the ways is right, and each line follows from its way. No line branches,
    and none is longer than twelve levels.

    Examples
    --------
    Whichever digit r1c1 takes, one of three cells of row 1 is 4:

    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("123 . . 14 24 34")
    >>> for step in find_wide_forcing_chains(board):
    ...     if step.removes == ((1, 1 << 4),):
    ...         print(step.focus, step.looks, step.length)
    (0, 0, 0) (0, 3, 4, 5) 2
    """
    if board.contradicted:
        return
    every = EveryBranch.of_board(board)
    for fork in _forks(every):
        yield from _agreed(every.origin, fork)


def _forks(every: EveryBranch) -> Iterator[_Fork]:
    """Yield the forks of a board that may tell anything; ways with a candidate in common share its line."""
    origin = every.origin
    known: dict[tuple[int, int], Branch] = {}

    def line(way: tuple[int, int]) -> Branch:
        if way not in known:
            known[way] = Branch(origin, *way)
            known[way].run(LEVELS_AT_MOST)
        return known[way]

    found = list(forks(origin, _FEWEST_WAYS, WAYS_AT_MOST))
    for fork, tells in zip(found, every.tell([fork.ways for fork in found], LEVELS_AT_MOST), strict=True):
        if tells:
            yield _Fork([line(way) for way in fork.ways], fork.focus, fork.digits, fork.pattern, fork.why)
    for cage in open_cages(origin.board):
        if 1 < len(cage.combinations) <= WAYS_AT_MOST:
            lines = []
            for combination in cage.combinations:
                lines.append(Branch.of_combination(origin, cage.cage, combination))
                lines[-1].run(LEVELS_AT_MOST)
            digits = mask_of(digit for combination in cage.combinations for digit in bits(combination))
            pattern = Fork("cage", cage.cage)
            yield _Fork(lines, tuple(bits(cage.empty)), digits, pattern, cage.basis)


def _agreed(origin: Origin, fork: _Fork) -> Iterator[Step]:
    """Yield what all lines of a fork that do not fail agree on.

    A candidate from which a line starts that fails needs no other line: that is a contradiction chain.
    """
    going = [line for line in fork.lines if not line.contradicted]
    starts = {line.start for line in fork.lines}
    for digit, before in enumerate(origin.places):
        gone = before
        for line in going:
            gone &= ~line.places[digit]
        for cell in bits(gone):
            if (cell, digit) not in starts:
                yield _step(fork, cell, digit)


def _step(fork: _Fork, cell: int, digit: int) -> Step:
    premises = TracedPremises()
    premises.add(fork.why)
    length = 0
    for line in fork.lines:
        if line.contradicted:
            premises.add_contradiction(line)
            length = max(length, line.level)
        else:
            length = max(length, premises.add_removal(line, cell, digit))
    return premises.step(
        "wide-forcing-chain",
        cell,
        digit,
        focus=fork.focus,
        digits=fork.digits,
        length=length,
        pattern=fork.pattern,
    )


WIDE_FORCING_CHAIN = Technique("wide-forcing-chain", "wide forcing chain", find_wide_forcing_chains)
