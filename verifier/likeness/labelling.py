"""A canonical labelling of a coloured graph: the same for every graph that differs in its numbering alone.

The corners are sorted by what can be seen of them without a number: their colour, then the colours of those
around them, again and again until nothing new is told apart (`_refined`). Where corners are still alike, each
of a largest class of them is singled out in turn and the sorting goes on; of all the numberings to which
that leads, the one with the least image is canonical. Three things keep the tree small: a corner of a large
class tells most others apart, a branch whose sortings compare greater than the best is dropped, and corners
that a known symmetry takes to one another are tried once.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

__all__ = ["ColouredGraph", "Image", "canonical_image"]

_Colours = tuple[int, ...]
"""A colour for each corner; the place of its class in the order of the classes."""
_Trace = tuple[tuple[tuple[int, int], ...], ...]
"""What sortings look like without the numbers of corners: every kind of corner, and how many there are."""
Image = tuple[tuple[int, ...], ...]
"""For each corner in canonical order, its neighbours in canonical order."""

_REMEMBERED = 64
"""Searches; a graph of 9x9 cells takes some ten kilobytes."""


@dataclass(frozen=True, slots=True)
class ColouredGraph:
    """A graph without direction whose corners have colours.

    Parameters
    ----------
    colours : tuple of int
        A colour for each corner, ``0..``; which number stands for what must not depend on the numbering
        of the corners.
    around : tuple of tuple of int
        For each corner, its neighbours.
    """

    colours: tuple[int, ...]
    around: tuple[tuple[int, ...], ...]

    @classmethod
    def of(cls, colours: Sequence[int], edges: Iterable[tuple[int, int]]) -> ColouredGraph:
        """Build a graph from its edges."""
        around: list[list[int]] = [[] for _ in colours]
        for one, other in edges:
            around[one].append(other)
            around[other].append(one)
        return cls(tuple(colours), tuple(map(tuple, around)))


def canonical_image(graph: ColouredGraph) -> Image:
    """Return the graph in its canonical numbering.

    Returns
    -------
    Image
        Equal for two graphs with the same colours if and only if they differ in their numbering alone:
        together with the number of corners of each colour it is the graph itself.

    Notes
    -----
    Every step is written down without the numbers of corners, so the tree of the search is the same for
    every numbering; its least leaf is a numbering of the graph, so equal images mean equal graphs. A
    symmetry found between two leaves takes the one subtree to the other, so only one of them is needed.
    Individualisation, refinement and pruning by symmetries are the usual scheme for this task; the code
    is our own.

    The more alike its corners, the longer the search takes, and a box may hold thousands of puzzles drawn
    over one regular full grid, shuffled. So a graph is numbered as the first leaf has it before it is
    searched: of graphs with many symmetries that numbering is mostly the same, and searches are remembered.

    Examples
    --------
    >>> path = ColouredGraph.of([0, 0, 0], [(0, 1), (1, 2)])
    >>> same = ColouredGraph.of([0, 0, 0], [(2, 0), (0, 1)])
    >>> star = ColouredGraph.of([0, 0, 1], [(0, 1), (1, 2)])
    >>> canonical_image(path) == canonical_image(same), canonical_image(path) == canonical_image(star)
    (True, False)
    """
    colours, _ = _refined(graph, _dense(graph.colours))
    if not _largest_class(colours):
        return _image(graph, colours)[1]
    while alike := _largest_class(colours):
        colours, _ = _refined(graph, _singled_out(colours, alike[0]))
    order, image = _image(graph, colours)
    return _searched(ColouredGraph(tuple(graph.colours[corner] for corner in order), image))


@lru_cache(maxsize=_REMEMBERED)
def _searched(graph: ColouredGraph) -> Image:
    search = _Search(graph)
    search.run()
    assert search.best is not None
    return search.best.image


@dataclass(frozen=True, slots=True)
class _Leaf:
    """A numbering of the corners: its image, what led there, and the corner at each place."""

    path: tuple[int, ...]
    traces: tuple[_Trace, ...]
    image: Image
    order: tuple[int, ...]


class _Search:
    """The tree of numberings, searched depth first. Working memory of one labelling."""

    def __init__(self, graph: ColouredGraph) -> None:
        self._graph = graph
        self.best: _Leaf | None = None
        self._symmetries: list[tuple[int, ...]] = []

    def run(self) -> None:
        """Search the whole tree."""
        colours, trace = _refined(self._graph, _dense(self._graph.colours))
        self._visit(colours, (), (trace,))

    def _visit(self, colours: _Colours, path: tuple[int, ...], traces: tuple[_Trace, ...]) -> int:
        """Search below a node; return the depth to go back to, because all below it is known by then."""
        depth = len(path)
        cell = _largest_class(colours)
        if not cell:
            return self._leaf(colours, path, traces)
        tried: list[int] = []
        for corner in cell:
            if tried and self._known(corner, tried, path):
                continue
            tried.append(corner)
            finer, trace = _refined(self._graph, _singled_out(colours, corner))
            longer = (*traces, trace)
            if self.best is not None and longer > self.best.traces[: len(longer)]:
                continue
            back = self._visit(finer, (*path, corner), longer)
            if back < depth:
                return back
        return depth

    def _leaf(self, colours: _Colours, path: tuple[int, ...], traces: tuple[_Trace, ...]) -> int:
        """Compare a numbering with the best; where both are the same, a symmetry is found."""
        order, image = _image(self._graph, colours)
        best = self.best
        if best is None or (traces, image) < (best.traces, best.image):
            self.best = _Leaf(path, traces, image, order)
        elif (traces, image) == (best.traces, best.image):
            symmetry = [0] * len(order)
            for one, other in zip(best.order, order, strict=True):
                symmetry[one] = other
            self._symmetries.append(tuple(symmetry))
            return next(n for n, (one, other) in enumerate(zip(path, best.path, strict=True)) if one != other)
        return len(path)

    def _known(self, corner: int, tried: Sequence[int], path: tuple[int, ...]) -> bool:
        """Whether symmetries that leave the path alone take a corner that was tried to this one."""
        usable = [s for s in self._symmetries if all(s[fixed] == fixed for fixed in path)]
        reached, fresh = set(tried), list(tried)
        while fresh:
            here = fresh.pop()
            for symmetry in usable:
                if symmetry[here] not in reached:
                    reached.add(symmetry[here])
                    fresh.append(symmetry[here])
        return corner in reached


def _refined(graph: ColouredGraph, colours: _Colours) -> tuple[_Colours, _Trace]:
    """Return the colours that neighbours tell apart, and what the sortings on the way look like.

    What is around a corner is one number with a place for each colour, in which stands how many neighbours
    have that colour; its own colour stands before them all.
    """
    trace = []
    classes = max(colours) + 1
    width = max(map(len, graph.around)).bit_length()
    while True:
        weights = [1 << width * colour for colour in colours]
        top = 1 << width * classes
        seen = [
            colour * top + sum([weights[near] for near in around])
            for colour, around in zip(colours, graph.around, strict=True)
        ]
        often = Counter(seen)
        kinds = sorted(often)
        trace.append(tuple([(kind, often[kind]) for kind in kinds]))
        if len(kinds) == classes:
            return colours, tuple(trace)
        place = {kind: number for number, kind in enumerate(kinds)}
        colours = tuple([place[kind] for kind in seen])
        classes = len(kinds)


def _image(graph: ColouredGraph, colours: _Colours) -> tuple[tuple[int, ...], Image]:
    """Return which corner has which place, and the graph so numbered, where no two colours are alike."""
    order = tuple(sorted(range(len(colours)), key=colours.__getitem__))
    return order, tuple([tuple(sorted([colours[near] for near in graph.around[c]])) for c in order])


def _dense(colours: Sequence[int]) -> _Colours:
    place = {colour: number for number, colour in enumerate(sorted(set(colours)))}
    return tuple(place[colour] for colour in colours)


def _largest_class(colours: _Colours) -> list[int]:
    """Return the corners of the largest class, the of the least colour of several; none when all differ."""
    members: dict[int, list[int]] = {}
    for corner, colour in enumerate(colours):
        members.setdefault(colour, []).append(corner)
    _, first = min((-len(alike), colour) for colour, alike in members.items())
    return members[first] if len(members[first]) > 1 else []


def _singled_out(colours: _Colours, corner: int) -> _Colours:
    """Return colours in which one corner has a class of its own, before the rest of its old class."""
    mine = colours[corner]
    return tuple(
        [
            colour + (colour > mine or (colour == mine and other != corner))
            for other, colour in enumerate(colours)
        ]
    )
