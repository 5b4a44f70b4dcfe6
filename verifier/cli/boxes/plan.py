"""``gridproof plan``: the week's page from what is accepted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.boxes.settings import box_settings_or_refuse
from verifier.cli.telling.console import refuse, refusing_to_write, say, show
from verifier.cli.telling.exits import Exit
from verifier.puzzle.printable import filled

if TYPE_CHECKING:
    from verifier.intake.ledger.ledger import Ledger
    from verifier.intake.plan.slots import Page

__all__ = ["plan"]


def _day(word: str) -> date:
    try:
        return date.fromisoformat(word)
    except ValueError:
        raise typer.BadParameter(filled(wording.NO_SUCH_DAY, word=word)) from None


def _option(name: str, metavar: str, parser: Callable[[str], date] | None = None) -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(
        f"--{name}",
        metavar=metavar,
        help=wording.PLAN_OPTIONS[name],
        parser=parser,
    )
    return option


def plan(
    ledger: Annotated[Path | None, _option("ledger", "FILE")] = None,
    slots: Annotated[Path | None, _option("slots", "FILE")] = None,
    out: Annotated[Path | None, _option("out", "DIR")] = None,
    first: Annotated[date | None, _option("first", "DATE", _day)] = None,
    take: Annotated[bool, typer.Option("--take", help=wording.PLAN_OPTIONS["take"])] = False,
    release: Annotated[bool, typer.Option("--release", help=wording.PLAN_OPTIONS["release"])] = False,
    printed_on: Annotated[date | None, _option("printed-on", "DATE", _day)] = None,
) -> None:
    """Plan a page, take it, take it back, or enter that it was printed."""
    from verifier.intake.errors import IntakeError
    from verifier.intake.ledger.ledger import existing_ledger, new_or_existing_ledger

    named = box_settings_or_refuse()
    ledger, slots = ledger or named.ledger, slots or named.slots
    if ledger is None:
        refuse(wording.NEEDS_LEDGER)
    if sum((take, release, printed_on is not None)) > 1:
        refuse(wording.ONE_THING_WITH_A_PLAN)
    page = None if slots is None else _page_or_refuse(slots, first)
    if page is None and printed_on is None:
        refuse(wording.NEEDS_SLOTS)
    if page is not None and page.first is None and (take or release):
        refuse(wording.NEEDS_A_DAY)
    try:
        existing_ledger(ledger).close()  # one that is not there is not made
        opened = new_or_existing_ledger if take or release or printed_on else existing_ledger
        with opened(ledger) as book, refusing_to_write():
            raise typer.Exit(_carry_out(book, page, out, take=take, release=release, printed_on=printed_on))
    except IntakeError as error:
        refuse(str(error))


def _page_or_refuse(path: Path, first: date | None) -> Page:
    from verifier.intake.plan.slots_reading import read_slots

    page, faults = read_slots(path)
    if page is None:
        refuse("\n".join([wording.SLOTS_UNREADABLE, *map(str, faults)]))
    return page if first is None else replace(page, first=first)


def _carry_out(
    ledger: Ledger, page: Page | None, out: Path | None, *, take: bool, release: bool, printed_on: date | None
) -> Exit:
    from verifier.intake.plan import plan as plans
    from verifier.intake.plan.showing import plan_told, write_plan

    if printed_on is not None:
        say(filled(wording.MARKED_PRINTED, number=plans.print_until(ledger, printed_on), day=printed_on))
        return Exit.ACCEPTED
    assert page is not None
    if release:
        say(filled(wording.RELEASED, number=plans.release_page(ledger, page)))
        return Exit.ACCEPTED
    plan = plans.plan_page(ledger, page)
    if take:
        taken = plans.take(ledger, plan)
        plan = plans.plan_page(ledger, page)
    for line in plan_told(ledger, plan):
        show(line)
    if take:
        say(filled(wording.TAKEN, number=taken))
    if out is not None:
        for path in write_plan(ledger, plan, out):
            say(filled(wording.PAGE_WRITTEN, path=str(path)))
    return Exit.REJECTED if plan.empty else Exit.ACCEPTED
