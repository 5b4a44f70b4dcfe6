"""A kakuro drawn on the page, by pointer and by keys: blocked cells, runs that follow, totals."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.desk.opening import Opened, choose, drag, fresh, looking_at, opened, standing, version, written

SQUARE = "puzzle: kakuro\ngrid: 3x3\ncells: |\n  # # #\n  # . .\n  # . .\n"
"""Two runs across and two down, without totals."""

ONE = {"r2c1": "3", "r3c1": "4", "r1c2": "4", "r1c3": "3"}
"""By the blocked cell before each run, totals of the one solution 1 2 / 3 1."""


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    with opened(tmp_path_factory.mktemp("desk") / "a.yaml", "puzzle: classic\ngrid: 4x4\n") as there:
        yield there


@pytest.fixture
def page(browser: Browser, desk: Opened) -> Iterator[Page]:
    with looking_at(browser, desk.address) as seen:
        yield fresh(seen, desk, SQUARE, "several")


def test_one_is_begun(page: Page) -> None:
    page.click("#drawn > summary")
    page.select_option("#size", "kakuro")
    page.fill("#rows", "4")
    page.fill("#columns", "5")
    page.click("#new [type=submit]")
    expect(page.locator("#cells [role=gridcell]")).to_have_count(20)
    expect(page.locator("[aria-label$=blocked]")).to_have_count(8)
    expect(page.locator("#standing-says")).to_contain_text("without the totals of seven runs still to come")


def test_cells_are_blocked_and_opened_by_pointer_and_runs_follow(page: Page, desk: Opened) -> None:
    page.click("[data-pen=block]")
    before = version(page)
    drag(page, "r3c3")
    expect(page.locator("[aria-label='r3c3, blocked']")).to_have_count(1)
    written(page, before)
    assert [run.cells for run in desk.puzzle.all_cages] == [(4, 5), (4, 7)]
    drag(page, "r3c3")
    expect(page.locator("[aria-label^='r3c3, run, total to come']")).to_have_count(1)


def test_and_by_keys(page: Page) -> None:
    page.focus("#cells")
    page.keyboard.press("b")
    choose(page, "r3c3")
    page.keyboard.press("Enter")
    expect(page.locator("[aria-label='r3c3, blocked']")).to_have_count(1)
    page.keyboard.press("Delete")
    expect(page.locator("[aria-label^='r3c3, run']")).to_have_count(1)


def test_totals_are_typed_by_pointer(page: Page) -> None:
    page.click("[data-pen=total]")
    for cell, total in ONE.items():
        drag(page, cell)
        page.keyboard.type(total)
        page.keyboard.press("Enter")
        expect(page.locator("#cells")).to_be_focused()
    standing(page, "one")


def test_and_by_keys_alone(page: Page, desk: Opened) -> None:
    before = version(page)
    page.focus("#cells")
    page.keyboard.press("t")
    choose(page, "r2c2")  # in a run across and in one down
    page.keyboard.press("Enter")
    for total in ("3", "4"):
        page.keyboard.type(total)
        page.keyboard.press("Enter")
    for cell in ("r3c1", "r1c3"):
        choose(page, cell)
        page.keyboard.type(ONE[cell])
        page.keyboard.press("Enter")
    standing(page, "one")
    written(page, before + 3)
    assert sorted(cage.total for cage in desk.puzzle.cages) == [3, 3, 4, 4]


def test_totals_follow_from_the_solution_that_is_meant(page: Page) -> None:
    page.click("text=Take one of them as the solution that is meant")
    page.click("[data-pen=total]")
    page.click("#runs-form [data-do=add_up]")
    expect(page.locator("[aria-label*='total to come']")).to_have_count(0)
    expect(page.locator(".without")).to_have_count(0)


def test_what_only_a_boxed_grid_has_is_not_there(page: Page) -> None:
    for pen in ("cage", "grow", "box", "rule"):
        expect(page.locator(f"[data-pen={pen}]")).to_be_hidden()
