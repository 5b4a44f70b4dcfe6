"""Chains, told: what is right in turn if the first node is wrong."""

from __future__ import annotations

from collections.abc import Sequence

from grader.board.layout import Layout
from grader.words.phrases import cells_in_words
from grader.words.wording import line_words

__all__ = ["chain_in_words"]


def chain_in_words(chain: Sequence[tuple[tuple[int, ...], int]], layout: Layout) -> str:
    """Return a chain as one says it.

    Parameters
    ----------
    chain : sequence of (tuple of int, int)
        The nodes in order, as in `Step.chain`.
    layout : Layout
        The puzzle's layout.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> layout = board_from_text("").layout
    >>> print(chain_in_words([((0,), 1), ((0,), 2), ((4,), 2), ((40, 49), 2)], layout))
    if r1c1 is not 1, then it is 2, so r5c5 or r6c5 is 2. Either way,
    """
    (first, wrong), (second, _), *_ = chain
    right = [
        line_words.STANDS.format(cells=cells_in_words(cells, layout, "or"), digit=digit)
        for cells, digit in chain[1::2]
    ]
    if len(first) == 1 and first == second:
        right[0] = line_words.IT_IS.format(digit=chain[1][1])
    template = line_words.CHAIN if len(first) == 1 else line_words.CHAIN_OF_GROUP
    cells = cells_in_words(first, layout, "or")
    return template.format(cells=cells, digit=wrong, right=", so ".join(right))
