"""What no choice of a page can do better than: by effort and by break-in alone, whatever else is asked."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import networkx as nx

from verifier.intake.plan.slots import Candidate

__all__ = ["least_falls", "least_repeated"]

_Options = Sequence[Sequence[Candidate]]
"""For each slot what may stand there; slots for which there is nothing count for nothing."""


def least_falls(options: _Options) -> int:
    """Return how often effort falls from slot to slot at the least.

    A slot takes as little effort as it can without a fall; where it can take none, it begins anew from below.

    Examples
    --------
    >>> a, b = (Candidate("1", *"abcde", 1, effort, None, "a", None) for effort in (90, 120))
    >>> least_falls([[a], [b], [], [a, b], [a]])
    1
    """
    fallen, level = 0, 0
    for efforts in (sorted(puzzle.effort for puzzle in fitting) for fitting in options if fitting):
        higher = next((effort for effort in efforts if effort >= level), None)
        fallen += higher is None
        level = efforts[0] if higher is None else higher
    return fallen


def least_repeated(options: _Options) -> int:
    """Return how many puzzles give way as one before them does, at the least, if every slot is filled.

    Slots and techniques are matched: as many slots as can be get a technique of their own. One that can have
    a puzzle without a technique repeats nothing.

    Examples
    --------
    >>> a, b = (Candidate("1", *"abcde", 1, 9, way, "a", None) for way in ("hidden-single", "x-wing"))
    >>> least_repeated([[a], [a], [a, b], []])
    1
    """
    graph: nx.Graph[Any] = nx.Graph()
    filled = [(at, fitting) for at, fitting in enumerate(options) if fitting]
    graph.add_nodes_from(at for at, _ in filled)
    for at, fitting in filled:
        graph.add_edges_from((at, puzzle.break_in or f"none {at}") for puzzle in fitting)
    matched = nx.bipartite.maximum_matching(graph, top_nodes=[at for at, _ in filled])
    return len(filled) - len(matched) // 2
