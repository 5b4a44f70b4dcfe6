"""The page as a stage: the walk by arrow keys, the grid of an audience, and papers to take."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.desk.opening import SMALL, Opened, looking_at, opened, standing

SAYS = "#stage-says"


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    with opened(tmp_path_factory.mktemp("desk") / "a.yaml", SMALL) as there:
        yield there


@pytest.fixture
def page(browser: Browser, desk: Opened) -> Iterator[Page]:
    """The stage, at the beginning of the walk."""
    with looking_at(browser, desk.address) as seen:
        standing(seen, "one")
        seen.keyboard.press("F2")
        expect(seen.locator(SAYS)).to_contain_text("steps from here to the solution")
        yield seen


def test_the_walk_goes_by_arrow_keys(page: Page) -> None:
    page.keyboard.press("ArrowRight")
    expect(page.locator("#stage-count")).to_contain_text("Step 1 of")
    assert page.locator("#picture .under > *").count() + page.locator("#picture .bands > *").count()
    page.keyboard.press("End")
    expect(page.locator(SAYS)).to_have_text("That is the solution.")
    assert page.locator("#picture text.digit").count() == 16


def test_as_much_of_a_step_is_told_as_is_wanted(page: Page) -> None:
    page.keyboard.press("ArrowRight")
    expect(page.locator("#stage-count")).to_contain_text("Step 1 of")
    why = page.inner_text(SAYS)
    page.keyboard.press("w")
    expect(page.locator(SAYS)).to_contain_text(re.compile("Look at|Add up"))
    assert page.locator("#picture .bands > *").count() == 0
    page.keyboard.press("w")
    page.keyboard.press("w")
    expect(page.locator(SAYS)).to_have_text(why)


def test_marks_come_and_go(page: Page) -> None:
    page.keyboard.press("ArrowRight")
    page.keyboard.press("m")
    expect(page.locator("#picture text.mark")).not_to_have_count(0)


def test_the_grid_of_an_audience_is_judged_and_helped_on(page: Page) -> None:
    page.keyboard.press("a")
    expect(page.locator("#stage-count")).to_contain_text("audience")
    page.keyboard.press("2")
    expect(page.locator("#picture text.digit")).to_have_count(1)
    page.keyboard.press("n")
    expect(page.locator(SAYS)).to_contain_text("r1c1")
    page.keyboard.press("1")
    page.keyboard.press("n")
    expect(page.locator(SAYS)).to_contain_text("is")


def test_escape_leaves_the_stage(page: Page) -> None:
    page.keyboard.press("Escape")
    expect(page.locator("#stage")).to_be_hidden()
    expect(page.locator("#standing")).to_be_visible()


@pytest.mark.parametrize(
    ("name", "begins"),
    [
        ("walk.html", b"<!doctype html>"),
        ("walk.md", b"#"),
        ("sheet.pdf", b"%PDF"),
        ("puzzle.yaml", b"format: 1"),
    ],
)
def test_it_can_be_taken_as_a_page_a_text_or_a_sheet(
    page: Page, desk: Opened, name: str, begins: bytes
) -> None:
    assert page.request.get(desk.address + name).body().startswith(begins)


def test_the_page_that_is_taken_works_under_its_own_policy(page: Page, desk: Opened) -> None:
    with page.context.new_page() as other:
        said: list[str] = []
        other.on("console", lambda message: said.append(message.text))
        other.goto(f"{desk.address}walk.html")
        other.keyboard.press("ArrowRight")
        expect(other.locator("#count")).to_contain_text("1")
        assert said == []
