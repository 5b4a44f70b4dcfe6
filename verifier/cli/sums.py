"""``gridproof sums``: the combinations of a total."""

from __future__ import annotations

from typing import Annotated

import typer

from verifier.cli import wording
from verifier.cli.numbers import LARGEST_GRID, digits_in, whole_number
from verifier.cli.telling.console import refuse, say, show
from verifier.cli.telling.exits import Exit
from verifier.puzzle.printable import filled

__all__ = ["sums"]

_USUAL_DIGITS = 9

_LARGEST_TOTAL = LARGEST_GRID * (LARGEST_GRID + 1) // 2


def sums(
    total: Annotated[
        int,
        typer.Argument(metavar="TOTAL", hidden=True, parser=whole_number(1, _LARGEST_TOTAL)),
    ],
    size: Annotated[
        int,
        typer.Argument(metavar="SIZE", hidden=True, parser=whole_number(1, LARGEST_GRID)),
    ],
    held: Annotated[str, typer.Option("--with", metavar="DIGITS", help=wording.OPTIONS["with"])] = "",
    barred: Annotated[str, typer.Option("--without", metavar="DIGITS", help=wording.OPTIONS["without"])] = "",
    digits: Annotated[
        int,
        typer.Option(
            "--digits", metavar="N", help=wording.OPTIONS["digits"], parser=whole_number(1, LARGEST_GRID)
        ),
    ] = _USUAL_DIGITS,
) -> None:
    """Print the combinations of a total, one a line."""
    from verifier.counting.combinations import combinations_of

    if size > digits:
        refuse(filled(wording.TOO_MANY_CELLS, size=size, digits=digits))
    must, never = (digits_in(word, digits) if word else () for word in (held, barred))
    if set(must) & set(never):
        refuse(filled(wording.BOTH_WITH_AND_WITHOUT, digits=sorted(set(must) & set(never))))
    possible = list(combinations_of(total, size, digits))
    chosen = [c for c in possible if set(must) <= set(c) and not set(never) & set(c)]
    for combination in chosen:
        show(" ".join(map(str, combination)))
    if not chosen:
        least, most = size * (size + 1) // 2, size * (2 * digits - size + 1) // 2
        none = wording.none_left(total, size, must, never)
        say(none if possible else wording.no_combination(total, size, digits, least, most))
        raise typer.Exit(Exit.REJECTED)
