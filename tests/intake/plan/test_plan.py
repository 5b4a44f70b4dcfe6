"""The plan of a page from a ledger: what is in stock, taking, giving back, printing."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from scripts.setting.classics import draw_classic
from tests.evidence.stand_ins import ONE, TWO
from tests.intake.letters.test_letters import TURNED, put
from tests.intake.test_run import Desk
from verifier.intake.ledger.ledger import existing_ledger, new_or_existing_ledger
from verifier.intake.ledger.placements import placements
from verifier.intake.plan.plan import Plan, plan_page, print_until, release_page, stock_of, take
from verifier.intake.plan.showing import plan_told, write_plan
from verifier.intake.plan.slots import Page, Slot
from verifier.intake.workers.task import RunSettings
from verifier.puzzle.grid import Grid
from verifier.verdict.style.style import HouseStyle

MONDAY = date(2026, 3, 30)
PAGE = Page((Slot("Monday"), Slot("Tuesday")), "By Lamplight", MONDAY)

OTHERS = [draw_classic(Grid.square(6), seed, 14)[0] for seed in (1, 2)]
"""Sound classics that are not alike."""


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1774828800")
    Path("box").mkdir()
    return Desk(Path())


def planned(desk: Desk, page: Page = PAGE, *, taken: bool = False) -> Plan:
    with new_or_existing_ledger(desk.ledger) as ledger:
        plan = plan_page(ledger, page)
        if taken:
            take(ledger, plan)
            plan = plan_page(ledger, page)
        return plan


def names(plan: Plan) -> list[str | None]:
    return [None if one is None else one.id for one in plan.puzzles]


def test_what_is_accepted_and_repeats_nothing_is_in_stock(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb")
    put(desk, "b.yaml", TURNED.puzzle(ONE), "Tamsin", "Flood")
    put(desk, "c.yaml", TWO, "Ivo", "Neap")
    put(desk, "d.yaml", OTHERS[0], "Ivo", "Swell")
    desk.run()
    with existing_ledger(desk.ledger) as ledger:
        stock = stock_of(ledger)
    assert [one.id for one in stock.puzzles] == ["a", "d"]
    assert stock.left_out == ("one puzzle that came before, here or in print",)


def test_what_repeats_a_printed_puzzle_is_not_in_stock(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb")
    Path("printed").mkdir()
    (Path("printed") / "old.yaml").write_bytes((desk.box / "a.yaml").read_bytes())
    desk.run(printed=Path("printed"))
    assert names(planned(desk)) == [None, None]


def test_taking_a_page_keeps_it_and_later_plans_know_it(desk: Desk) -> None:
    for number, puzzle in enumerate((ONE, *OTHERS)):
        put(desk, f"{number}.yaml", puzzle, f"Setter {number}", "Title")
    desk.run()
    plan = planned(desk, taken=True)
    assert plan.taken == ("scheduled", "scheduled")
    assert names(planned(desk)) == names(plan)
    later = planned(desk, replace(PAGE, first=date(2026, 4, 6)))
    assert len(set(names(plan)) | set(names(later)) - {None}) == 3
    assert names(later).count(None) == 1


def test_what_was_taken_can_be_given_back_until_it_is_printed(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb")
    desk.run()
    planned(desk, taken=True)
    with new_or_existing_ledger(desk.ledger) as ledger:
        assert release_page(ledger, PAGE) == 1
        assert list(placements(ledger)) == []
        take(ledger, plan_page(ledger, PAGE))
        assert print_until(ledger, date(2026, 3, 29)) == 0
        assert print_until(ledger, date(2026, 4, 1)) == 1
        assert release_page(ledger, PAGE) == 0
        assert plan_page(ledger, PAGE).taken == ("printed", None)


def test_a_copy_of_what_was_printed_is_a_repeat_in_later_runs(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb")
    desk.run()
    planned(desk, taken=True)
    with new_or_existing_ledger(desk.ledger) as ledger:
        print_until(ledger, MONDAY)
    put(desk, "z.yaml", TURNED.puzzle(ONE), "Tamsin", "Flood")
    desk.run()
    assert names(planned(desk, replace(PAGE, first=date(2026, 4, 6)))) == [None, None]


def test_a_run_without_the_file_forgets_nothing_that_is_scheduled(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb")
    desk.run()
    planned(desk, taken=True)
    (desk.box / "a.yaml").unlink()
    put(desk, "b.yaml", OTHERS[0], "Ivo", "Swell")
    desk.run()
    assert names(planned(desk))[0] == "a"


def test_what_is_scheduled_and_accepted_no_more_is_told(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb")
    desk.run()
    planned(desk, taken=True)
    desk.run(RunSettings(HouseStyle("By Lamplight", grids=("9x9",))))
    assert (
        planned(desk)
        .wishes[0]
        .startswith("What is scheduled for Monday is no longer accepted: it is rejected.")
    )


def test_a_correction_with_another_solution_waits_for_a_person(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb", name="tide-7")
    desk.run()
    put(desk, "a.yaml", OTHERS[0], "Wren", "Ebb", name="tide-7")
    desk.run()
    plan = planned(desk)
    assert names(plan) == [None, None]
    assert "two puzzles of which it must be said which one counts" in plan.stock.left_out[0]


def test_page_and_sheet_have_the_puzzles_and_the_solutions_of_the_page_before(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb")
    desk.run()
    planned(desk, taken=True)
    put(desk, "b.yaml", OTHERS[0], "Ivo", "<Swell>")
    desk.run()
    page = replace(PAGE, first=date(2026, 4, 6))
    with existing_ledger(desk.ledger) as ledger:
        plan = plan_page(ledger, page)
        told = "\n".join(plan_told(ledger, plan))
        html, sheet = write_plan(ledger, plan, Path("week"))
        again = [path.read_bytes() for path in write_plan(ledger, plan, Path("week"))]
    assert "Monday 2026-04-06\n  <Swell>, b, by Ivo\n  classic 6x6, tier" in told
    assert "This slot stays empty: it asks for a puzzle of any kind." in told
    assert "&lt;Swell&gt;" in html.read_text()
    assert [html.read_bytes(), sheet.read_bytes()] == again
    assert sheet.read_bytes().startswith(b"%PDF")
    assert sheet.read_bytes().count(b"/Type /Page\n") == 2  # the puzzle; the solution of the page before


def test_with_nothing_to_print_there_is_no_sheet(desk: Desk) -> None:
    put(desk, "a.yaml", TWO, "Wren", "Ebb")
    desk.run()
    with existing_ledger(desk.ledger) as ledger:
        assert [path.name for path in write_plan(ledger, plan_page(ledger, PAGE), Path("week"))] == [
            "plan.html"
        ]
