"""The desk is lost while somebody draws, and started anew: the old page says what to do, nothing is lost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.desk.opening import PATIENCE, SMALL, Opened, drag, opened, standing, version, written


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A browser that may well meet errors."""
    with browser.new_context() as context:
        context.set_default_timeout(PATIENCE)
        yield context


def page_of(context: BrowserContext, desk: Opened) -> Page:
    page = context.new_page()
    page.goto(desk.address)
    page.wait_for_selector("#picture svg")
    return page


def draw(page: Page, digit: str) -> None:
    """Write a given into r1c1."""
    drag(page, "r1c1")
    page.keyboard.press(digit)


def lose(desk: Opened, page: Page) -> None:
    desk.process.kill()
    desk.process.wait()
    expect(page.locator("#notice")).to_contain_text(f"start it again: gridproof desk {desk.file.name}")


def test_the_old_page_says_where_to_go_and_the_new_one_gives_back(
    context: BrowserContext, tmp_path: Path
) -> None:
    file = tmp_path / "a.yaml"
    with opened(file, SMALL) as desk:
        old = page_of(context, desk)
        standing(old, "one")
        lose(desk, old)
    draw(old, "2")
    with old.expect_download() as saved:
        old.click("text=Save what is here as a file")
    assert saved.value.suggested_filename == "a.yaml"
    assert "puzzle: killer" in Path(saved.value.path()).read_text()
    with opened(file) as desk:
        expect(old.locator("#notice")).to_contain_text("started anew")
        answer = old.request.get(old.url)
        assert (answer.status, "go to the page that it opened" in answer.text()) == (403, True)
        page = page_of(context, desk)
        expect(page.locator("#notice")).to_contain_text("still kept in this browser")
        page.click("text=Take it over")
        standing(page, "none")
        written(page, 1)
        assert desk.puzzle.givens == ((0, 2),)
        expect(page.locator("#notice")).to_be_hidden()
        page.click("#undo")
        standing(page, "one")


def test_what_stands_in_the_file_is_not_kept_and_the_rest_is_forgotten_when_that_is_wanted(
    context: BrowserContext, tmp_path: Path
) -> None:
    file = tmp_path / "a.yaml"
    with opened(file, SMALL) as desk:
        old = page_of(context, desk)
        before = version(old)
        draw(old, "1")
        written(old, before)
        assert old.evaluate("localStorage.length") == 0
        lose(desk, old)
    draw(old, "2")
    old.close()
    with opened(file) as desk:
        page = page_of(context, desk)
        page.click("text=Forget it")
        assert page.evaluate("localStorage.length") == 0
        page.reload()
        standing(page, "one")
        expect(page.locator("#notice")).to_be_hidden()
