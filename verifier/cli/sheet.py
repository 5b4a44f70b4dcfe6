"""``gridproof sheet``: puzzles on paper, as PDF or SVG."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.house_style import read_style_or_refuse
from verifier.cli.numbers import MOST_SECONDS, whole_number
from verifier.cli.telling.console import refuse, refusing_to_write, say
from verifier.cli.telling.exits import CODES, Exit, worst
from verifier.cli.telling.puzzles import puzzles_in
from verifier.puzzle.printable import filled, printable

if TYPE_CHECKING:
    from verifier.pages.sheets.sheet import Leaf, SheetPuzzle
    from verifier.puzzle.puzzle import Puzzle
    from verifier.verdict.style.style import HouseStyle

__all__ = ["sheet"]

_MOST_ON_A_PAGE = 6
_PAPERS = ("a4", "letter")
_ENDINGS = (".pdf", ".svg")


def sheet(
    files: Annotated[list[str], typer.Argument(metavar="FILE", hidden=True)],
    out: Annotated[Path, typer.Option("--out", metavar="FILE", help=wording.OPTIONS["sheet-out"])],
    per_page: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["per-page"], parser=whole_number(1, _MOST_ON_A_PAGE)),
    ] = 1,
    paper: Annotated[str, typer.Option(metavar="SIZE", help=wording.OPTIONS["paper"])] = "a4",
    solutions: Annotated[
        bool, typer.Option("--solutions/--no-solutions", help=wording.OPTIONS["solutions"])
    ] = True,
    cut_marks: Annotated[bool, typer.Option("--cut-marks", help=wording.OPTIONS["cut-marks"])] = False,
    broken: Annotated[bool, typer.Option("--broken", help=wording.OPTIONS["broken"])] = False,
    style: Annotated[
        Path | None, typer.Option("--style", metavar="FILE", help=wording.OPTIONS["style"])
    ] = None,
    seconds: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["seconds"], parser=whole_number(1, MOST_SECONDS)),
    ] = 300,
) -> None:
    """Lay the puzzles of the files out on paper, the sound ones alone unless asked otherwise."""
    if out.suffix.lower() not in _ENDINGS:
        refuse(filled(wording.WRONG_ENDING, option="--out", path=str(out), endings=_ENDINGS))
    if paper.lower() not in _PAPERS:
        refuse(filled(wording.NO_SUCH_PAPER, paper=paper, papers=_PAPERS))
    codes: set[Exit] = set()
    printed = list(_judged(files, read_style_or_refuse(style), codes, seconds, broken=broken))
    if printed:
        from verifier.pages.sheets.sheet import A4, LETTER, lay_out

        leaves = lay_out(
            printed,
            paper=LETTER if paper.lower() == "letter" else A4,
            per_page=per_page,
            solutions=solutions,
            cut_marks=cut_marks,
        )
        _tell_what_is_lacking(printed)
        _write(out, leaves, [one.puzzle for one in printed])
    raise typer.Exit(worst(codes) if codes else Exit.UNREADABLE)


def _judged(
    files: Sequence[str], style: HouseStyle, codes: set[Exit], seconds: int, *, broken: bool
) -> Iterator[SheetPuzzle]:
    """Yield what is to be printed; what is not is told at once."""
    from verifier.pages.sheets.sheet import SheetPuzzle
    from verifier.verdict.judge import Settings, judge

    for address, puzzle in puzzles_in(files, codes):
        verdict = judge(puzzle, style, Settings(seconds=seconds))
        code = CODES[verdict.state.value]
        codes.add(code)
        if code is not Exit.ACCEPTED:
            say(wording.not_accepted(address, verdict.state.value, printed=broken))
        if broken or code is Exit.ACCEPTED:
            hard = verdict.difficulty
            tier = f"tier {hard.tier}, {hard.name}" if hard is not None and hard.tier is not None else ""
            yield SheetPuzzle(puzzle, tier, verdict.solutions.filling)


def _tell_what_is_lacking(printed: Sequence[SheetPuzzle]) -> None:
    from verifier.pages.sheets.lettering import lacking

    for one in printed:
        credits = one.puzzle.credits
        letters = lacking(printable(f"{credits.title or credits.id}{credits.setter or ''}", None))
        if letters:
            say(filled(wording.LETTERS_LACKING, puzzle=credits.id, letters=letters))


def _write(out: Path, leaves: Sequence[Leaf], puzzles: Sequence[Puzzle]) -> None:
    from verifier.intake.papers.files import numbered, write_whole
    from verifier.pages.wording import page_title, sheet_author, sheet_title

    title, author = sheet_title(puzzles), sheet_author(puzzles)
    with refusing_to_write():
        if out.suffix.lower() == ".pdf":
            from verifier.pages.sheets.pdf import pdf_of

            write_whole(out, pdf_of(leaves, title, author))
            say(filled(wording.SHEET_WRITTEN, path=str(out), pages=len(leaves)))
            return
        from verifier.pages.sheets.svg import svg_of

        for number, leaf in enumerate(leaves, start=1):
            path = numbered(out, number)
            write_whole(path, svg_of(leaf, page_title(title, number, len(leaves)), author))
            say(filled(wording.SHEET_WRITTEN, path=str(path), pages=1))
