"""``gridproof compare``: two versions of a puzzle side by side."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from verifier.cli import wording
from verifier.cli.telling.console import page_ending_or_refuse, refuse, refusing_to_write, say, show
from verifier.cli.telling.exits import CODES, worst
from verifier.cli.telling.puzzles import the_puzzle_in
from verifier.puzzle.printable import filled

__all__ = ["compare"]


def compare(
    first: Annotated[str, typer.Argument(metavar="FILE", hidden=True)],
    second: Annotated[str, typer.Argument(metavar="FILE", hidden=True)],
    as_yaml: Annotated[bool, typer.Option("--yaml", help=wording.COMPARE_OPTIONS["yaml"])] = False,
    html: Annotated[
        Path | None, typer.Option("--html", metavar="FILE", help=wording.COMPARE_OPTIONS["html"])
    ] = None,
) -> None:
    """Judge both, and show what they are like and what was changed."""
    from verifier.intake.papers.files import write_whole
    from verifier.intake.sources.sources import STANDARD_INPUT
    from verifier.tuning.comparing import compare as compared
    from verifier.tuning.comparison_report import comparison_in_words, write_comparison
    from verifier.tuning.tuning_page import comparison_page

    page_ending_or_refuse(html)
    if first == second == STANDARD_INPUT:
        refuse(wording.BOTH_FROM_STANDARD_INPUT)
    found = compared(the_puzzle_in(first), the_puzzle_in(second))
    names = (first, second)
    if html is not None:
        with refusing_to_write("--html"):
            write_whole(html, comparison_page(found, names))
        say(filled(wording.PAGE_WRITTEN, path=str(html)))
    if as_yaml:
        show(write_comparison(found).rstrip())
    elif html is None:
        show(comparison_in_words(found, names).rstrip())
    raise typer.Exit(worst({CODES[each.verdict.state.value] for each in (found.first, found.second)}))
