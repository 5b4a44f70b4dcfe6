"""How marks are put to clingo."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule

__all__ = ["MARK_FACTS", "MARK_FRAGMENTS"]

_OUT_OF_REACH = 1000
"""What no two digits make; the solver's whole numbers end at 32 bits."""


def _greater(number: int, sign: Greater, grid: Grid) -> Iterator[str]:  # noqa: ARG001 - as for all rules
    more, less = sign.cells
    yield f"greater({more},{less})."


def _consecutive(number: int, mark: Consecutive, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    one, other = mark.cells
    yield f"consecutive({one},{other})."


def _ratio(number: int, mark: Ratio, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    one, other = mark.cells
    yield f"ratio({one},{other},{min(mark.ratio, _OUT_OF_REACH)})."


def _difference(number: int, mark: Difference, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    one, other = mark.cells
    yield f"difference({one},{other},{min(mark.difference, _OUT_OF_REACH)})."


def _pair_sum(number: int, mark: PairSum, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    one, other = mark.cells
    yield f"pair_sum({one},{other},{min(mark.total, _OUT_OF_REACH)})."


def _even(number: int, mark: Even, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    yield from (f"even({cell})." for cell in mark.cells)


def _odd(number: int, mark: Odd, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    yield from (f"odd({cell})." for cell in mark.cells)


def _quadruple(number: int, mark: Quadruple, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    yield from (f"in_quadruple({number},{cell})." for cell in mark.cells)
    yield from (
        f"quadruple({number},{digit},{mark.digits.count(digit)})." for digit in dict.fromkeys(mark.digits)
    )


def _unmarked(number: int, rule: Unmarked, grid: Grid) -> Iterator[str]:  # noqa: ARG001
    values = "".join(f"barred_{rule.kind}({min(value, _OUT_OF_REACH)})." for value in rule.values)
    yield values
    yield from (f"without_{rule.kind}({one},{other})." for one, other in rule.pairs)


MARK_FACTS: Mapping[type[Rule], Callable[[int, Any, Grid], Iterator[str]]] = {
    Greater: _greater,
    Consecutive: _consecutive,
    Ratio: _ratio,
    Difference: _difference,
    PairSum: _pair_sum,
    Even: _even,
    Odd: _odd,
    Quadruple: _quadruple,
    Unmarked: _unmarked,
}
"""The facts of one mark, by its class."""

MARK_FRAGMENTS: Mapping[type[Rule], str] = {
    Greater: ":- greater(M,L), holds(M,D), holds(L,E), D <= E.\n",
    Consecutive: ":- consecutive(A,B), holds(A,D), holds(B,E), |D-E| != 1.\n",
    Ratio: ":- ratio(A,B,R), holds(A,D), holds(B,E), D != R*E, E != R*D.\n",
    Difference: ":- difference(A,B,X), holds(A,D), holds(B,E), |D-E| != X.\n",
    PairSum: ":- pair_sum(A,B,T), holds(A,D), holds(B,E), D+E != T.\n",
    Even: r":- even(C), holds(C,D), D\2 != 0." "\n",
    Odd: r":- odd(C), holds(C,D), D\2 == 0." "\n",
    Quadruple: ":- quadruple(N,D,T), not T { holds(C,D) : in_quadruple(N,C) }.\n",
    Unmarked: (
        ":- without_consecutive(A,B), holds(A,D), holds(B,E), |D-E| == 1.\n"
        ":- without_ratio(A,B), barred_ratio(R), holds(A,D), holds(B,R*D).\n"
        ":- without_ratio(A,B), barred_ratio(R), holds(B,D), holds(A,R*D).\n"
        ":- without_pair_sum(A,B), barred_pair_sum(T), holds(A,D), holds(B,T-D).\n"
    ),
}
"""What the facts of marks mean, by their class."""
