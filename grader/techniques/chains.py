"""Chains over several digits: XY-chains and alternating inference chains."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.alternation import shortest_chains
from grader.reasoning.chains.link_graph import LinkGraph
from grader.reasoning.chains.links import bivalue_links, every_link, open_cages
from grader.reasoning.chains.wide_graph import WideLinkGraph

__all__ = ["ALTERNATING_INFERENCE_CHAIN", "XY_CHAIN"]


def find_xy_chains(board: Board) -> Iterator[Step]:
    """A chain of cells with two candidates each: the cell at one of its ends is the digit.

    Each cell sees the next and shares a candidate with it, and takes its other one if the cell before takes
    the shared one. If the first cell is not the digit that the chain starts with, the last cell is; so the
    digit goes from each cell that sees both::

        row 1    12  .  .  . 23  .  .  .  *      if r1c1 is not 1, it is 2, so r1c5 is 3, so r5c5 is 4,
        ...                                      so r5c9 is 1: one of the ends is 1
        row 5     *  .  .  . 34  .  .  . 14

    Yields
    ------
    Step
        The shortest chains, one for each effect; none longer than `LINKS_AT_MOST` links, that is six cells.
        `focus` is the cells at the ends, `chain` the candidates in order.

    Notes
    -----
    Sound in every solution: each cell takes one of its two candidates. With two cells the chain is a naked
    pair, with three an XY-wing.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... 12 . . . 23
    ... .
    ... .
    ... .
    ... . . . . 34 . . . 14'''
    >>> step, = find_xy_chains(board_from_text(text))
    >>> [(cells[0], digit) for cells, digit in step.chain]
    [(0, 1), (0, 2), (4, 2), (4, 3), (40, 3), (40, 4), (44, 4), (44, 1)]
    >>> step.removes == ((8, 1 << 1), (36, 1 << 1)), step.length
    (True, 7)
    """
    graph = LinkGraph(board.layout, board.places(), bivalue_links(board))
    return (chain.step("xy-chain") for chain in shortest_chains(graph))


def find_alternating_chains(board: Board) -> Iterator[Step]:
    """A chain of strong and weak links in turn: one of its ends is right.

    Strong links (one of the two is right) and weak links (one of the two is wrong) take turns. If the first
    node of the chain is wrong, the last is right; so what has a weak link to both goes::

        row 1    12  .  .  .  2  .  .  .  *      if r1c1 is not 1, it is 2, so r1c5 is not, so r5c5 is 2,
        ...                   -                  so it is not 1, so r5c9 is 1: the 1 goes from r1c9
        row 5     -  -  -  - 12  -  -  -  1      no other 1 in row 5, no other 2 in column 5

    A node is a candidate, or a grouped candidate: a digit in one of the cells that a house shares with
    another, or with a cage. Strong links: a cell with two candidates; a digit with two places in a house, or
    in a cage whose open combinations all have it; a digit of the one and a digit of the other combination of
    a cage with two. Weak links: a digit in cells that see each other; two candidates of a cell; two digits of
    a cage that no open combination has together.

    Parameters
    ----------
    board : Board
        Read, never changed; every chain is followed whatever is fresh.

    Yields
    ------
    Step
        The shortest chains, one for each effect; none longer than `LINKS_AT_MOST` links of
        `grader.reasoning.chains.alternation`. `focus` is the cells at the ends, `chain` the nodes in order.

    Notes
    -----
    Sound in every solution: each link holds, so one of the ends is right. A loop shows as the chains that it
    makes when it is cut at each of its weak links.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> no_1, no_2 = "23456789", "13456789"
    >>> rows = ["12 . . . ."] + [f". . . . {no_2}"] * 3
    >>> rows += [" ".join([no_1] * 4 + ["."] + [no_1] * 3 + ["."])] + [f". . . . {no_2}"] * 4
    >>> step, = find_alternating_chains(board_from_text(chr(10).join(rows)))
    >>> [(cells[0], digit) for cells, digit in step.chain]
    [(0, 1), (0, 2), (4, 2), (40, 2), (40, 1), (44, 1)]
    >>> step.removes == ((8, 1 << 1),), step.length
    (True, 5)
    """
    cages = open_cages(board)
    graph = WideLinkGraph(board, every_link(board, board.places(), cages), cages)
    return (chain.step("alternating-inference-chain") for chain in shortest_chains(graph))


XY_CHAIN = Technique("xy-chain", "XY-chain", find_xy_chains)
ALTERNATING_INFERENCE_CHAIN = Technique(
    "alternating-inference-chain",
    "alternating inference chain",
    find_alternating_chains,
    source=(
        "The links of a cage with two combinations are our own derivation, from this: "
        "the cage has all digits of the one combination or all of the other."
    ),
)
