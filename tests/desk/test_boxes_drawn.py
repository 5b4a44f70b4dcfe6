"""Boxes of any shape drawn on the page; until all have the right size, that is a state."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.desk.opening import Opened, choose, drag, fresh, looking_at, opened, standing, version, written
from verifier.desk.drafting.unfinished import boxes_of

EMPTY = "puzzle: classic\ngrid: 4x4\n"


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    with opened(tmp_path_factory.mktemp("desk") / "a.yaml", EMPTY) as there:
        yield there


@pytest.fixture
def page(browser: Browser, desk: Opened) -> Iterator[Page]:
    with looking_at(browser, desk.address) as seen:
        yield fresh(seen, desk, EMPTY, "several")


def boxes_in(desk: Opened) -> list[tuple[int, ...]]:
    return [box.cells for box in boxes_of(desk.puzzle)]


def test_cells_join_a_box_by_pointer(page: Page, desk: Opened) -> None:
    page.click("[data-pen=box]")
    drag(page, "r1c2", "r1c3")
    expect(page.locator(".without")).to_contain_text("box 1 has five cells; box 2 has three cells")
    expect(page.locator("[data-size='5']")).to_have_count(1)
    standing(page, "several")  # it is judged, without boxes
    drag(page, "r2c3", "r2c2")
    expect(page.locator(".without")).to_have_count(0)
    written(page, version(page) - 1)
    assert boxes_in(desk)[:2] == [(0, 1, 2, 4), (3, 5, 6, 7)]


def test_and_by_keys(page: Page) -> None:
    page.focus("#cells")
    page.keyboard.press("b")
    for cells in (("r1c2", "r1c3"), ("r2c3", "r2c2")):
        choose(page, *cells)
        page.keyboard.press("Enter")
    expect(page.locator("[aria-label='r2c2, box 2']")).to_have_count(1)


def test_boxes_are_begun_exchanged_and_taken_away(page: Page) -> None:
    page.click("[data-pen=box]")
    page.click("[data-boxes=none]")
    expect(page.locator("[aria-label='r1c1']")).to_have_count(1)
    drag(page, "r1c1")
    page.keyboard.press("n")
    expect(page.locator(".without")).to_contain_text("box 1 has one cell; in none: r1c2")
    drag(page, "r1c1", "r1c2")
    page.keyboard.press("Delete")
    expect(page.locator(".without")).to_have_count(0)
    page.click("[data-boxes='']")
    expect(page.locator("[aria-label='r1c1']")).to_have_count(1)  # the usual ones need no name
    choose(page, "r1c2", "r1c3")
    page.keyboard.press("x")
    expect(page.locator("[aria-label='r1c2, box 2']")).to_have_count(1)


def test_unfinished_boxes_are_there_after_a_reload_and_after_the_file_was_written(
    page: Page, browser: Browser, desk: Opened
) -> None:
    page.click("[data-pen=box]")
    drag(page, "r1c2", "r1c3")
    page.reload()
    expect(page.locator("[data-size='5']")).to_have_count(1)
    written(page, version(page) - 1)
    assert boxes_in(desk) == []
    text = desk.file.read_text()
    with opened(desk.file.with_name("b.yaml"), text) as other, looking_at(browser, other.address) as again:
        expect(again.locator("[data-size='5']")).to_have_count(1)
