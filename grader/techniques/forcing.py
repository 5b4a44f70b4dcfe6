"""Forcing: what both of two ways lead to, and what leads to a contradiction."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.lines_of_forcing.branch import Branch, Origin
from grader.reasoning.lines_of_forcing.every_branch import EveryBranch
from grader.reasoning.lines_of_forcing.forks import LEVELS_AT_MOST, Ways
from grader.reasoning.lines_of_forcing.tracing import TracedPremises
from verifier.puzzle.masks import bits

__all__ = [
    "CONTRADICTION_CHAIN",
    "FORCING_CHAIN",
    "SHORT",
    "SHORT_CONTRADICTION_CHAIN",
    "SHORT_FORCING_CHAIN",
]

SHORT = 3
"""The levels of singles and cage arithmetic that a person sees ahead without writing anything down."""
_Candidate = tuple[int, int]


def find_short_forcing_chains(board: Board) -> Iterator[Step]:
    """A forcing chain of at most three levels.

    As the forcing chain, but no further than a person sees without a pencil::

        r1c1 is 1 or 2; r1c5 is 3 if it is 1, r2c2 is 3 if it is 2: r1c2 sees both, so it is not 3

    Parameters
    ----------
    board : Board
        Read, never changed; every fork is followed whatever is fresh.

    Yields
    ------
    Step
        Cells first, then houses; one step for each candidate that goes. `length` is the number of levels.

    Notes
    -----
    Sound in every solution, as the forcing chain.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("12 . . . 13" + chr(10) + ". 23")
    >>> [step.length for step in find_short_forcing_chains(board)][:5]
    [2, 2, 2, 2, 2]
    """
    return _forcing_chains(board, "short-forcing-chain", SHORT)


def find_forcing_chains(board: Board) -> Iterator[Step]:
    """What follows from both candidates of a cell, or from both places of a digit, holds.

    Take one of the two as right and go on by singles and cage arithmetic alone; then the other. What goes
    on both lines goes. A line that ends in a contradiction makes the other one right::

        r1c1 is 3 or 7
        3: r1c5 is 4, so r6c5 is 9, so r6c8 is not 9
        7: r4c1 is 9, so r4c9 is not 9, so r6c9 is 9, so r6c8 is not 9

    Parameters
    ----------
    board : Board
        Read, never changed; every fork is followed whatever is fresh, since a chain may touch any cell.

    Yields
    ------
    Step
        Cells first, then houses; one step for each candidate that goes. `length` is the number of levels.

    Notes
    -----
    Sound in every solution: one of the two ways is right, and each line follows from its way. No line
    branches and none is longer than twelve levels.

    Examples
    --------
    If r1c1 is 1, r1c5 is 3; if it is 2, r2c2 is 3. Both ways no cell that sees these two is 3:

    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("12 . . . 13" + chr(10) + ". 23")
    >>> steps = list(find_forcing_chains(board))
    >>> [board.layout.grid.cell_name(step.removes[0][0]) for step in steps if step.length == 2]
    ['r1c2', 'r1c3', 'r2c4', 'r2c5', 'r2c6']
    """
    return _forcing_chains(board, "forcing-chain", LEVELS_AT_MOST)


def _forcing_chains(board: Board, technique: str, reach: int) -> Iterator[Step]:
    if board.contradicted:
        return
    every = EveryBranch.of_board(board)
    pairs = every.pairs
    branches: dict[_Candidate, Branch] = {}
    for fork, tells in zip(pairs, every.tell([fork.ways for fork in pairs], reach), strict=True):
        if tells:
            for way in fork.ways:
                if way not in branches:
                    branches[way] = Branch(every.origin, *way)
                    branches[way].run(reach)
            yield from _conclusions(technique, every.origin, fork, branches)


def find_short_contradiction_chains(board: Board) -> Iterator[Step]:
    """A contradiction chain of at most three levels.

    As the contradiction chain, but no further than a person sees without a pencil::

        r1c1 is 3: then the cage of 5 beside it, r1c2 and r1c3, has no combination left

    Parameters
    ----------
    board : Board
        Read, never changed; every candidate is followed whatever is fresh.

    Yields
    ------
    Step
        In reading order. `length` is the number of levels.

    Notes
    -----
    Sound in every solution, as the contradiction chain.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("123 . .", [Cage((1, 2), 5)])
    >>> step = next(find_short_contradiction_chains(board))
    >>> step.removes, step.length, board.layout.cages_among(step.rules)
    (((1, 32),), 1, (27,))
    """
    return _contradiction_chains(board, "short-contradiction-chain", SHORT)


def find_contradiction_chains(board: Board) -> Iterator[Step]:
    """A candidate goes if a short line that starts with it leads to a contradiction.

    The candidate is one of three or more: one of two is left to the forcing chain, which comes first and
    follows it just as far. Take the candidate as right and go on by singles and cage arithmetic alone. If a
    cell, a house or a cage is left with nothing, the candidate goes::

        r1c1 is 3: so r1c5 is 4, so r6c5 is 9, so the cage of 12 below it has no combination left

    Parameters
    ----------
    board : Board
        Read, never changed; every candidate is followed whatever is fresh.

    Yields
    ------
    Step
        In reading order. `length` is the number of levels.

    Notes
    -----
    Sound in every solution: what leads to a contradiction stands in none. No line branches and none is longer
    than twelve levels.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("12 12 123 . . . . . .")
    >>> steps = list(find_contradiction_chains(board))
    >>> [(board.layout.grid.cell_name(cell), list(bits(gone))) for cell, gone in steps[0].removes]
    [('r1c3', [1])]
    """
    return _contradiction_chains(board, "contradiction-chain", LEVELS_AT_MOST)


def _contradiction_chains(board: Board, technique: str, reach: int) -> Iterator[Step]:
    if board.contradicted:
        return
    every = EveryBranch.of_board(board)
    followed = {way for fork in every.pairs for way in fork.ways}
    for cell, digit in every.failing(reach):
        if not board.placed >> cell & 1 and (cell, digit) not in followed:
            branch = Branch(every.origin, cell, digit)
            branch.run(reach)
            yield _refuted(technique, branch)


def _conclusions(
    technique: str, origin: Origin, fork: Ways, branches: dict[_Candidate, Branch]
) -> Iterator[Step]:
    """Yield what the two branches of a fork agree on so far."""
    pair = [branches[way] for way in fork.ways]
    for branch in pair:
        if branch.contradicted:
            yield _refuted(technique, branch)
    if pair[0].contradicted or pair[1].contradicted:
        return
    for digit, before in enumerate(origin.places):
        for cell in bits(before & ~(pair[0].places[digit] | pair[1].places[digit])):
            premises = TracedPremises()
            premises.add(fork.why)
            length = max(premises.add_removal(branch, cell, digit) for branch in pair)
            yield premises.step(
                technique,
                cell,
                digit,
                focus=fork.focus,
                digits=fork.digits,
                length=length,
                pattern=fork.pattern,
            )


def _refuted(technique: str, branch: Branch) -> Step:
    """Return the step that removes the candidate a contradicted branch started from."""
    premises = TracedPremises()
    premises.add_contradiction(branch)
    cell, digit = branch.start
    return premises.step(technique, cell, digit, focus=(cell,), digits=1 << digit, length=branch.level)


SHORT_FORCING_CHAIN = Technique("short-forcing-chain", "short forcing chain", find_short_forcing_chains)
SHORT_CONTRADICTION_CHAIN = Technique(
    "short-contradiction-chain", "short contradiction chain", find_short_contradiction_chains
)
FORCING_CHAIN = Technique("forcing-chain", "forcing chain", find_forcing_chains, source="Own derivation.")
CONTRADICTION_CHAIN = Technique("contradiction-chain", "contradiction chain", find_contradiction_chains)
