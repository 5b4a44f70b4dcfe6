"""The plan of a page for people: as text, as a page to look at, and as a sheet to print."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from verifier.intake.ledger.entries import unpacked_verdict
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.stored import stored_puzzle, stored_verdict
from verifier.intake.papers.files import made_folder, write_whole
from verifier.intake.papers.report import worth_a_look
from verifier.intake.plan import wording
from verifier.intake.plan.plan import Plan, last_page
from verifier.intake.plan.slots import Candidate
from verifier.pages.plan_page import PlanLine, plan_page
from verifier.puzzle.printable import counted, in_figures, printable
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.reading import remarks_in

__all__ = ["plan_told", "write_plan"]

_PAGE, _SHEET = "plan.html", "sheet.pdf"
_PER_SHEET = 4


def plan_told(ledger: Ledger, plan: Plan) -> Iterator[str]:
    """Yield the lines of a plan."""
    for line in _lines(ledger, plan):
        yield " ".join(filter(None, (line.slot, line.day)))
        if line.puzzle is not None:
            yield f"  {_called(line.puzzle)}"
        yield from (f"  {says}" for says in line.says)
    for heading, told in _notes(plan).items():
        if told:
            yield ""
            yield heading
            yield from (f"  - {says}" for says in told)


def write_plan(ledger: Ledger, plan: Plan, folder: Path) -> list[Path]:
    """Write the page and the sheet of a plan, and return where they are.

    The sheet has the puzzles, and the solutions of the page before.

    Raises
    ------
    CannotWriteError
        If they cannot be written.
    """
    title = plan.page.name or wording.PLAN
    text = plan_page(title, _summary(plan), list(_lines(ledger, plan)), _notes(plan))
    write_whole(made_folder(folder) / _PAGE, text)
    sheet = _sheet(ledger, plan, title)
    if sheet is None:
        return [folder / _PAGE]
    write_whole(folder / _SHEET, sheet)
    return [folder / _PAGE, folder / _SHEET]


def _lines(ledger: Ledger, plan: Plan) -> Iterator[PlanLine]:
    page = plan.page
    for at, (slot, day, puzzle) in enumerate(zip(page.slots, page.days, plan.puzzles, strict=True)):
        shown = "" if day is None else day.isoformat()
        asked = wording.asked_in_words(slot)
        if puzzle is None:
            says = (wording.STAYS_EMPTY.format(asked=asked), plan.empty[at])
            yield PlanLine(slot.name, shown, asked, None, says)
        else:
            told = _told(ledger, puzzle, plan.taken[at])
            yield PlanLine(slot.name, shown, asked, _read(ledger, puzzle.key), tuple(told))


def _told(ledger: Ledger, puzzle: Candidate, taken: str | None) -> Iterator[str]:
    row = "SELECT tier_name, verdict, address FROM submissions WHERE submission = ?"
    name, packed, address = next(ledger.rows(row, (int(puzzle.key),)))
    yield wording.HARD.format(
        kind=puzzle.kind, grid=puzzle.grid, tier=puzzle.tier, name=name, effort=puzzle.effort
    )
    yield address
    if taken is not None:
        yield wording.TAKEN[taken]
    for remark in worth_a_look(remarks_in(unpacked_verdict(packed))):
        yield wording.LOOK.format(says=remark.says)


def _summary(plan: Plan) -> str:
    filled = sum(puzzle is not None for puzzle in plan.puzzles)
    stock = counted(len(plan.stock.puzzles), "puzzle")
    return wording.FILLED.format(
        filled=in_figures(filled).capitalize(), slots=counted(len(plan.puzzles), "slot"), stock=stock
    )


def _notes(plan: Plan) -> Mapping[str, tuple[str, ...]]:
    return {
        wording.WISHES: plan.wishes,
        wording.ASK: plan.asked_for,
        wording.LEFT_OUT: plan.stock.left_out,
    }


def _called(puzzle: Puzzle) -> str:
    names = puzzle.credits
    title = ", ".join(printable(text) for text in (names.title, names.id) if text)
    return f"{title}, by {printable(names.setter)}" if names.setter else title


def _read(ledger: Ledger, key: str | int) -> Puzzle:
    puzzle = stored_puzzle(ledger, int(key))
    assert puzzle is not None, "what was accepted can be read"
    return puzzle


def _sheet(ledger: Ledger, plan: Plan, title: str) -> bytes | None:
    """Return the sheet as PDF; None where there is nothing on it."""
    from verifier.pages.sheets.pdf import pdf_of
    from verifier.pages.sheets.sheet import SheetPuzzle, lay_out
    from verifier.pages.wording import sheet_author

    row = "SELECT tier_name, verdict FROM submissions WHERE submission = ?"
    printed = []
    for puzzle in filter(None, plan.puzzles):
        ((name, _),) = ledger.rows(row, (int(puzzle.key),))
        printed.append(SheetPuzzle(_read(ledger, puzzle.key), f"tier {puzzle.tier}, {name}"))
    solved = []
    for one in last_page(ledger, plan.page):
        ((_, packed),) = ledger.rows(row, (one.submission,))
        verdict = stored_verdict(packed)
        solution = None if verdict is None else verdict.solutions.filling
        solved.append(SheetPuzzle(_read(ledger, one.submission), solution=solution))
    leaves = lay_out(printed, per_page=_PER_SHEET, solved=solved)
    if not leaves:
        return None
    return pdf_of(leaves, title, sheet_author([one.puzzle for one in printed]))
