"""The page as a stage: the walk by arrow keys, the grid of an audience, and papers to take."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from tests.desk.opening import SMALL, Opened, looking_at, opened, standing
from tests.pages.viewing import overflowing, overlapping

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


def test_what_can_be_pressed_goes_while_nothing_moves_and_comes_back(page: Page) -> None:
    keys = page.locator("#stage .quiet")
    expect(keys).to_have_css("opacity", "0")
    page.mouse.move(300, 300)
    page.mouse.move(310, 300)
    expect(keys).to_have_css("opacity", "1")


def test_the_walk_goes_by_touch_and_the_audience_types_on_the_pad(browser: Browser, desk: Opened) -> None:
    with looking_at(browser, desk.address, has_touch=True) as page:
        standing(page, "one")
        page.click("[data-pen=cage]")
        page.tap("#show")
        expect(page.locator(SAYS)).to_contain_text("steps from here to the solution")
        box = page.locator("#cells").bounding_box()
        assert box
        page.touchscreen.tap(box["x"] + box["width"] * 0.8, box["y"] + box["height"] / 2)
        expect(page.locator("#stage-count")).to_contain_text("Step 1 of")
        page.touchscreen.tap(box["x"] + box["width"] * 0.2, box["y"] + box["height"] / 2)
        expect(page.locator(SAYS)).to_contain_text("steps from here to the solution")
        page.tap("[data-stage=a]")
        page.tap("#pad >> text=2")
        expect(page.locator("#picture text.digit")).to_have_count(1)
        page.tap("[data-stage=Escape]")
        expect(page.locator("#pad")).to_be_hidden()  # the pen is as it was


def test_without_one_solution_it_is_shown_as_far_as_logic_goes(browser: Browser, tmp_path: Path) -> None:
    text = "puzzle: classic\ngrid: 4x4\ngivens: |\n  1 2 3 .\n  . . . .\n  . . . .\n  . . . .\n"
    with opened(tmp_path / "a.yaml", text) as desk, looking_at(browser, desk.address) as page:
        standing(page, "several")
        page.keyboard.press("F2")
        expect(page.locator(SAYS)).to_have_text("One step from here, as far as logic goes.")
        page.keyboard.press("End")
        expect(page.locator(SAYS)).to_contain_text("more than one solution")


@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize("colours", ["light", "dark"])
def test_everybody_can_read_the_stage(page: Page, width: int, colours: str) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    page.emulate_media(color_scheme=colours, reduced_motion="reduce")  # type: ignore[arg-type]
    page.keyboard.press("ArrowRight")
    expect(page.locator("#stage-count")).to_contain_text("Step 1 of")
    for key in ("", "m", "a"):
        if key:
            page.keyboard.press(key)
        page.mouse.move(5, 5 + len(key))
        expect(page.locator("#stage .quiet")).to_have_css("opacity", "1")
        assert Axe().run(page).response["violations"] == []
        assert overflowing(page) == []
        assert overlapping(page) == []


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
