"""How clues at the edge are put to clingo."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.rule import Rule

__all__ = ["EDGE_FACTS", "EDGE_FRAGMENTS"]


def _sandwich(number: int, clue: Sandwich, grid: Grid) -> Iterator[str]:
    largest = len(clue.cells)
    yield f"sandwich({number},{min(clue.total, grid.digits * largest)},{largest})."
    yield from (f"in_sandwich({number},{place},{cell})." for place, cell in enumerate(clue.cells))


def _skyscraper(number: int, clue: Skyscraper, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    yield f"skyscraper({number},{min(clue.count, len(clue.cells) + 1)})."
    yield from (f"in_view({number},{place},{cell})." for place, cell in enumerate(clue.cells))


def _little_killer(number: int, clue: LittleKiller, grid: Grid) -> Iterator[str]:
    yield f"diagonal({number},{min(clue.total, grid.digits * len(clue.cells) + 1)})."
    yield from (f"on_diagonal({number},{cell})." for cell in clue.cells)


EDGE_FACTS: Mapping[type[Rule], Callable[[int, Any, Grid], Iterator[str]]] = {
    Sandwich: _sandwich,
    Skyscraper: _skyscraper,
    LittleKiller: _little_killer,
}
"""The facts of one clue, by its class."""

EDGE_FRAGMENTS: Mapping[type[Rule], str] = {
    Sandwich: (
        # Its 1 and its largest digit stand once; what lies after one of them and before the other is inside.
        ":- sandwich(N,_,_), not 1 { holds(C,1) : in_sandwich(N,_,C) } 1.\n"
        ":- sandwich(N,_,K), not 1 { holds(C,K) : in_sandwich(N,_,C) } 1.\n"
        "crust(N,I) :- sandwich(N,_,_), in_sandwich(N,I,C), holds(C,1).\n"
        "crust(N,I) :- sandwich(N,_,K), in_sandwich(N,I,C), holds(C,K).\n"
        "filled(N,C) :- in_sandwich(N,I,C), crust(N,A), crust(N,B), A < I, I < B.\n"
        ":- sandwich(N,T,_), not T #sum { D,C : filled(N,C), holds(C,D) } T.\n"
    ),
    Skyscraper: (
        # Hidden is what has something as high before it.
        "hidden(N,I) :- in_view(N,I,C), in_view(N,J,B), J < I, holds(C,D), holds(B,E), E >= D.\n"
        ":- skyscraper(N,K), not K { in_view(N,I,C) : not hidden(N,I) } K.\n"
    ),
    LittleKiller: ":- diagonal(N,T), not T #sum { D,C : on_diagonal(N,C), holds(C,D) } T.\n",
}
"""What the facts of clues at the edge mean, by their class."""
