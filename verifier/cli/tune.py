"""``gridproof tune``: changes that make a sound puzzle what its setter wishes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.house_style import read_style_or_refuse
from verifier.cli.numbers import range_in, whole_number
from verifier.cli.techniques import technique_called
from verifier.cli.telling.console import page_ending_or_refuse, refuse, refusing_to_write, say, show
from verifier.cli.telling.exits import CODES, Exit
from verifier.cli.telling.progress import living
from verifier.cli.telling.puzzles import the_puzzle_in
from verifier.puzzle.printable import filled

if TYPE_CHECKING:
    from verifier.puzzle.puzzle import Puzzle
    from verifier.tuning.answers import Tuning
    from verifier.tuning.search.beam import Progress, SearchLimits
    from verifier.tuning.wish import Wish
    from verifier.verdict.style.style import HouseStyle

__all__ = ["tune"]

_HELP = wording.TUNE_OPTIONS
_MOST_TIERS, _MOST_RULES, _MOST_CHANGES = 20, 625, 3
_SMALL = 36
"""Cells of a grid up to which starting processes would take longer than the search."""
_MOST_SECONDS, _MOST_SEED, _MOST_JOBS = 86_400, 999_999_999, 1024


def tune(
    file: Annotated[str, typer.Argument(metavar="FILE", hidden=True)],
    tier: Annotated[
        int | None, typer.Option(metavar="N", help=_HELP["tier"], parser=whole_number(1, _MOST_TIERS))
    ] = None,
    effort: Annotated[str | None, typer.Option(metavar="LOW-HIGH", help=_HELP["effort"])] = None,
    without: Annotated[
        list[str] | None, typer.Option("--without", metavar="TECHNIQUE", help=_HELP["without"])
    ] = None,
    having: Annotated[
        list[str] | None, typer.Option("--with", metavar="TECHNIQUE", help=_HELP["having"])
    ] = None,
    break_in: Annotated[str | None, typer.Option(metavar="WHEN", help=_HELP["break-in"])] = None,
    givens: Annotated[
        int | None, typer.Option(metavar="N", help=_HELP["givens"], parser=whole_number(0, _MOST_RULES))
    ] = None,
    cages: Annotated[
        int | None, typer.Option(metavar="N", help=_HELP["cages"], parser=whole_number(0, _MOST_RULES))
    ] = None,
    symmetry: Annotated[str | None, typer.Option(metavar="KIND", help=_HELP["symmetry"])] = None,
    style: Annotated[Path | None, typer.Option("--style", metavar="FILE", help=_HELP["style"])] = None,
    changes: Annotated[
        int, typer.Option(metavar="N", help=_HELP["changes"], parser=whole_number(1, _MOST_CHANGES))
    ] = 3,
    seconds: Annotated[
        int, typer.Option(metavar="N", help=_HELP["seconds"], parser=whole_number(1, _MOST_SECONDS))
    ] = 60,
    seed: Annotated[
        int, typer.Option(metavar="N", help=_HELP["seed"], parser=whole_number(0, _MOST_SEED))
    ] = 0,
    jobs: Annotated[
        int | None, typer.Option(metavar="N", help=_HELP["jobs"], parser=whole_number(1, _MOST_JOBS))
    ] = None,
    as_yaml: Annotated[bool, typer.Option("--yaml", help=_HELP["yaml"])] = False,
    html: Annotated[Path | None, typer.Option("--html", metavar="FILE", help=_HELP["html"])] = None,
    out: Annotated[Path | None, typer.Option("--out", metavar="DIR", help=_HELP["out"])] = None,
) -> None:
    """Look for changes towards a wish, and tell what was found."""
    from verifier.intake.papers.files import write_whole
    from verifier.intake.workers.judging import cores
    from verifier.tuning.search.beam import SearchLimits
    from verifier.tuning.tuning_page import tuning_page
    from verifier.tuning.tuning_record import write_tuning
    from verifier.tuning.tuning_text import tuning_in_words
    from verifier.tuning.wish import Wish

    page_ending_or_refuse(html)
    house_style = read_style_or_refuse(style)
    wish = Wish(
        tiers=() if tier is None else (_tier(tier, house_style),),
        effort=None if effort is None else range_in(effort),
        without=tuple(map(technique_called, without or ())),
        having=tuple(map(technique_called, having or ())),
        break_in=None if break_in is None else _third(break_in),
        most_givens=givens,
        most_cages=cages,
        symmetry=None if symmetry is None else _symmetry(symmetry),
        style=house_style,
    )
    _sensible_or_refuse(wish)
    puzzle = the_puzzle_in(file)
    found = _searched(puzzle, wish, SearchLimits(changes, seconds, seed), jobs or cores())
    more = None if changes == _MOST_CHANGES else changes + 1
    if out is not None and found.answers:
        _write(found, out)
    if html is not None:
        with refusing_to_write("--html"):
            write_whole(html, tuning_page(found, more=more))
        say(filled(wording.PAGE_WRITTEN, path=str(html)))
    if as_yaml:
        show(write_tuning(found).rstrip())
    elif html is None:
        show(tuning_in_words(found, more=more).rstrip())
    raise typer.Exit(_code(found))


def _tier(tier: int, style: HouseStyle) -> int:
    last = style.tiers_to_grade_with().last
    if tier > last:
        refuse(filled(wording.NO_SUCH_TIER, tier=tier, last=last))
    if style.tiers and tier not in style.tiers:
        refuse(filled(wording.TIER_NOT_TAKEN, tier=tier, name=style.name, tiers=style.tiers))
    return tier


def _symmetry(word: str) -> str:
    from verifier.verdict.style.symmetry import SYMMETRIES

    return _one_of(tuple(SYMMETRIES), word, wording.NO_SUCH_SYMMETRY)


def _third(word: str) -> str:
    from verifier.tuning.wish import THIRDS

    return _one_of(tuple(THIRDS), word, wording.NO_SUCH_THIRD)


def _one_of(names: tuple[str, ...], word: str, refusal: str) -> str:
    """Return a word that is one of some names, or end the call."""
    from verifier.files.faults import nearest

    if word not in names:
        meant = nearest(word, names)
        hint = filled(wording.MEANT, word=meant) if meant else ""
        refuse(filled(refusal, word=word, names=names, meant=hint))
    return word


def _sensible_or_refuse(wish: Wish) -> None:
    from verifier.tuning.wish import Wish

    if wish == Wish():
        refuse(wording.NO_WISH)
    both = [technique for technique in wish.having if technique in wish.without]
    if both:
        refuse(filled(wording.WITH_AND_WITHOUT, technique=both[0]))


def _searched(puzzle: Puzzle, wish: Wish, limits: SearchLimits, jobs: int) -> Tuning:
    """Search, and show how far that is; end the call where there is nothing to keep."""
    from verifier.intake.workers.ctrl_c import ctrl_c_held_back
    from verifier.tuning.search.beam import NotSoundError, tune
    from verifier.tuning.search.crew import Crew
    from verifier.tuning.wording import NOT_ONE_SOLUTION

    with ctrl_c_held_back():
        crew = Crew(jobs if puzzle.grid.cell_count > _SMALL else 1)
    with crew, living() as line:

        def heard(progress: Progress) -> None:
            line(filled(wording.TUNING, **progress._asdict()))

        try:
            return tune(puzzle, wish, crew, limits, heard)
        except NotSoundError as error:
            say(f"gridproof: {NOT_ONE_SOLUTION}")
            raise typer.Exit(CODES[error.before.verdict.state.value]) from None


def _write(found: Tuning, folder: Path) -> None:
    """Write each puzzle that was found, with an id of its own."""
    from verifier.files.writing import write_puzzle
    from verifier.intake.papers.files import made_folder, write_whole
    from verifier.intake.papers.naming import FileNames

    names = FileNames()
    with refusing_to_write():
        made_folder(folder)
        for rank, answer in enumerate(found.answers, start=1):
            credits = answer.puzzle.credits
            own = replace(credits, id=f"{credits.id or 'puzzle'}-{rank}")
            text = write_puzzle(replace(answer.puzzle, credits=own))
            write_whole(folder / names.name_for(own.id, str(rank)), text)
    say(filled(wording.WRITTEN, count=len(found.answers), out=str(folder)))


def _code(found: Tuning) -> Exit:
    from verifier.tuning.answers import Ending

    if found.ending is Ending.STOPPED:
        return Exit.INTERRUPTED
    if found.answers or found.ending is Ending.ALREADY:
        return Exit.ACCEPTED
    return Exit.UNDECIDED if found.ending is Ending.TIME else Exit.REJECTED
