"""How lines are put to clingo."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise
from typing import Any

from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.lines.arrow import TENS, Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.rule import Rule

__all__ = ["LINE_FACTS", "LINE_FRAGMENTS"]


def _thermometer(number: int, line: Thermometer, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    yield from (f"rises({low},{high})." for low, high in pairwise(line.cells))


def _whisper(number: int, line: Whisper, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    least = min(line.least, grid.digits)  # no digits differ by as much
    yield from (f"whispers({one},{other},{least})." for one, other in pairwise(line.cells))


def _palindrome(number: int, line: Palindrome, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    last = len(line.cells) - 1
    yield from (f"on_palindrome({number},{place},{cell})." for place, cell in enumerate(line.cells))
    yield f"palindrome({number},{last})."


def _renban(number: int, line: Renban, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    yield f"renban({number},{len(line.cells)})."
    yield from (f"on_renban({number},{cell})." for cell in line.cells)


def _between(number: int, line: Between, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    one, *inner, other = line.cells
    yield f"between({number},{one},{other})."
    yield from (f"inside({number},{cell})." for cell in inner)


def _arrow(number: int, arrow: Arrow, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    yield f"arrow({number})."
    yield from (f"on_arrow({number},{cell},-1)." for cell in arrow.line)
    worth = 1
    for cell in reversed(arrow.circle):
        yield f"on_arrow({number},{cell},{worth})."
        worth *= TENS


def _region_sum(number: int, line: RegionSum, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    for place, part in enumerate(line.parts):
        yield f"part({number},{place})."
        yield from (f"in_part({number},{place},{cell})." for cell in part)


LINE_FACTS: Mapping[type[Rule], Callable[[int, Any, Grid], Iterator[str]]] = {
    Thermometer: _thermometer,
    Whisper: _whisper,
    Palindrome: _palindrome,
    Renban: _renban,
    Between: _between,
    Arrow: _arrow,
    RegionSum: _region_sum,
}
"""The facts of one line, by its class."""

LINE_FRAGMENTS: Mapping[type[Rule], str] = {
    Thermometer: ":- rises(A,B), holds(A,D), holds(B,E), D >= E.\n",
    Whisper: ":- whispers(A,B,X), holds(A,D), holds(B,E), |D-E| < X.\n",
    Palindrome: (
        ":- palindrome(N,L), on_palindrome(N,I,A), on_palindrome(N,L-I,B), holds(A,D), not holds(B,D).\n"
    ),
    Renban: (
        # Any two cells differ, and by less than the line is long.
        ":- renban(N,_), on_renban(N,A), on_renban(N,B), A < B, holds(A,D), holds(B,D).\n"
        ":- renban(N,L), on_renban(N,A), on_renban(N,B), holds(A,D), holds(B,E), E-D >= L.\n"
    ),
    Between: (
        ":- between(N,A,B), inside(N,C), holds(C,F), holds(A,D), holds(B,E), F <= D, F <= E.\n"
        ":- between(N,A,B), inside(N,C), holds(C,F), holds(A,D), holds(B,E), F >= D, F >= E.\n"
    ),
    Arrow: ":- arrow(N), not 0 #sum { W*D,C : on_arrow(N,C,W), holds(C,D) } 0.\n",
    RegionSum: (
        ":- part(N,P), part(N,P+1), not 0 #sum {"
        " D,C : in_part(N,P,C), holds(C,D); -D,C : in_part(N,P+1,C), holds(C,D) } 0.\n"
    ),
}
"""What the facts of lines mean, by their class."""
