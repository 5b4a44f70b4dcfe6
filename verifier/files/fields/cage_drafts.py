"""Cages whose cells are known, and their totals: read, taken from a solution, left out, or missed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import report_total, total_in
from verifier.files.text.nodes import Node, TextNode
from verifier.puzzle.cage_layout import cage_of_sort
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.totals import possible_totals
from verifier.puzzle.wording import HINTS

__all__ = ["Draft", "Missed", "rest_in_words", "with_totals"]


class Missed(NamedTuple):
    """What to report where something is missing: the fault, its place, its facts, what was meant."""

    code: str
    line: int
    field: str
    facts: dict[str, str]
    instead: str | None = None

    def note(self, report: FaultReport, hint: str = "") -> None:
        """Note the fault."""
        report.add(self.code, self.line, self.field, self.instead, hint=hint, **self.facts)


class Draft(NamedTuple):
    """A cage as its file draws it.

    Parameters
    ----------
    cells : tuple of int
        Those that could be read.
    total : Node or None
        What the file gives as its total.
    field : str
        What a message calls that.
    missed : Missed or None
        What to report where it gives none; None where the cage may go without a total.
    repeats : bool
        Whether digits may repeat in it.
    """

    cells: tuple[int, ...]
    total: Node | None
    field: str
    missed: Missed | None
    repeats: bool = False


def with_totals(
    drafts: Sequence[Draft], grid: Grid, solution: Filling | None, report: FaultReport
) -> list[Rule]:
    """Return the cages with their totals, in the same order.

    Parameters
    ----------
    drafts : sequence of Draft
        The cages of the puzzle.
    grid : Grid
        The cells there are.
    solution : Filling or None
        The solution that the file brings: a total that is left out follows from it.
    report : FaultReport
        Takes the faults. Where the cages cover the grid, the only total that is missing is offered.
    """
    totals = [_total_of(draft, solution) for draft in drafts]
    pairs = list(zip(drafts, totals, strict=True))
    missed = [draft for draft, total in pairs if total is None and not _needs_none(draft)]
    for draft in missed:
        _report(draft, _rest(drafts, totals, grid), report)
    cages = [(draft, total) for draft, total in pairs if draft.cells and draft not in missed]
    return [cage_of_sort(draft.cells, total, repeats=draft.repeats) for draft, total in cages]


def _needs_none(draft: Draft) -> bool:
    return draft.total is None and draft.missed is None


def _total_of(draft: Draft, solution: Filling | None) -> int | None:
    if solution is not None and draft.missed and _left_out(draft.total):
        return sum(solution[cell] for cell in draft.cells)
    return total_in(draft.total)


def _left_out(total: Node | None) -> bool:
    return total is None or (isinstance(total, TextNode) and total.absent)


def _report(draft: Draft, hint: str, report: FaultReport) -> None:
    if draft.total is not None:
        report_total(draft.total, draft.field, hint, report)
    elif draft.missed is not None:
        draft.missed.note(report, hint)


def _rest(drafts: Sequence[Draft], totals: Sequence[int | None], grid: Grid) -> str:
    """Say what is left for the only cage without a total; empty where that is unclear."""
    missing = [draft for draft, total in zip(drafts, totals, strict=True) if total is None]
    if len(missing) > 1:
        return ""
    cells = [cell for draft in drafts for cell in draft.cells]
    known = [total for total in totals if total is not None]
    return rest_in_words(cells, known, grid, len(missing[0].cells))


def rest_in_words(
    cells: Sequence[int], totals: Iterable[int | None], grid: Grid, size: int | None = None
) -> str:
    """Say what is left of a covered grid for the one cage whose total is missing.

    Parameters
    ----------
    cells : sequence of int
        Of all cages, also that one.
    totals : iterable of int or None
        Of all cages but that one; None for one that could not be read.
    grid : Grid
        The grid.
    size : int, optional
        The number of its cells, where it is known which cage it is.

    Returns
    -------
    str
        Empty where cells are in no cage, or where no such cage can have what is left: then something else is
        wrong as well.

    Examples
    --------
    >>> rest_in_words(range(16), [3, 7, 9, 11], Grid.square(4), 4)
    'The cages cover the grid, so this total is 40 less the rest: 10.'
    """
    known = list(totals)
    if sorted(cells) != list(range(grid.cell_count)) or None in known:
        return ""
    whole = grid.rows * grid.house_total
    left = whole - sum(total for total in known if total is not None)
    some = range(1, grid.house_total + 1)
    if left not in (some if size is None else possible_totals(size, tuple(grid.all_digits))):
        return ""
    return HINTS["rest" if size else "rest-of-list"].format(whole=whole, left=left)
