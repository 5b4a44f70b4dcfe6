"""The desk in a real browser: drawn by pointer and by keys, judged, mended, undone, kept in its file."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, WebSocketRoute, expect

from tests.desk.opening import (
    SMALL,
    Opened,
    choose,
    drag,
    fresh,
    looking_at,
    opened,
    standing,
    version,
    written,
)
from tests.pages.viewing import overflowing, overlapping

EMPTY = "puzzle: classic\ngrid: 4x4\n"


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    with opened(tmp_path_factory.mktemp("desk") / "a.yaml", SMALL) as there:
        yield there


@pytest.fixture
def page(browser: Browser, desk: Opened) -> Iterator[Page]:
    """A page that looks at the small killer, whatever stood there before."""
    with looking_at(browser, desk.address) as seen:
        yield fresh(seen, desk, SMALL, "one")


def test_it_is_judged_in_three_beats(page: Page) -> None:
    page.wait_for_selector("#standing:not([data-tier=''])", state="attached")
    assert page.inner_text("#standing-title") == "Exactly one solution"
    assert [item.get_attribute("data-done") for item in page.query_selector_all("#beats li")] == ["yes"] * 3


CAGES = {
    ("r1c1", "r1c2"): "3",
    ("r1c3", "r1c4", "r2c4"): "9",
    ("r2c1", "r3c1"): "5",
    ("r2c2", "r2c3"): "5",
    ("r3c2", "r3c3"): "5",
    ("r3c4", "r4c4", "r4c3"): "6",
    ("r4c1", "r4c2"): "7",
}


def test_a_killer_is_drawn_by_pointer(page: Page, desk: Opened) -> None:
    fresh(page, desk, EMPTY, "several")
    page.click("[data-pen=cage]")
    for cells, total in CAGES.items():
        drag(page, *cells)
        expect(page.locator("#total")).to_be_focused()
        page.keyboard.type(total)
        page.keyboard.press("Enter")
        expect(page.locator(f"[aria-label='{cells[0]}, cage of {total}']")).to_have_count(1)
    standing(page, "one")
    written(page, version(page) - 1)
    assert {cage.total for cage in desk.puzzle.cages} == {3, 5, 6, 7, 9}


def test_and_by_keys_alone(page: Page, desk: Opened) -> None:
    fresh(page, desk, EMPTY, "several")
    page.focus("#cells")
    page.keyboard.press("c")
    for cells, total in CAGES.items():
        choose(page, *cells)
        page.keyboard.press("Enter")
        expect(page.locator("#total")).to_be_focused()
        page.keyboard.type(total)
        page.keyboard.press("Enter")
    standing(page, "one")


def test_a_repair_is_taken_undone_and_there_after_a_reload(page: Page, desk: Opened) -> None:
    fresh(page, desk, SMALL.replace("a: 3", "a: 4"), "none")
    page.click("[data-offer='0']")
    standing(page, "one")
    page.reload()
    standing(page, "one")
    page.click("#undo")
    standing(page, "none")
    page.click("#redo")
    standing(page, "one")


def test_changes_towards_a_tier_are_offered_and_taken(page: Page) -> None:
    page.click("#tune")  # one tier up
    expect(page.locator("[data-offer]").first).to_be_visible()
    assert page.locator("#offers svg").count()
    page.locator("[data-offer]").first.click()
    standing(page, "one")
    page.wait_for_selector("[data-tier='2']", state="attached")


def test_other_wishes_than_a_tier_are_looked_for(page: Page) -> None:
    page.wait_for_selector("#towards:not([hidden])")
    page.select_option("#tiers", "")
    page.click("#tune")
    expect(page.locator("#notice")).to_contain_text("Say first")
    page.click("#towards summary")
    page.fill("#towards [name=cages]", "6")
    page.click("#tune")
    expect(page.locator("#now-says")).to_contain_text("at most six cages")
    page.locator("[data-offer]").first.click()
    standing(page, "one")
    expect(page.locator("#cells")).to_be_visible()


def test_cells_are_chosen_one_by_one_by_touch_and_all_of_them_by_keys(
    page: Page, browser: Browser, desk: Opened
) -> None:
    with looking_at(browser, desk.address, has_touch=True) as other:
        other.tap("#one-by-one")
        for cell in ("r1c1", "r4c4"):
            box = other.locator(f"[aria-label^='{cell}']").bounding_box()
            assert box
            other.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
        expect(other.locator("[aria-selected=true]")).to_have_count(2)
        other.tap("#pad >> text=1")
        expect(page.locator("[aria-label*='given 1']")).to_have_count(2)
    page.focus("#cells")
    page.keyboard.press("Control+a")
    page.keyboard.press("Delete")
    expect(page.locator("[aria-label*='given']")).to_have_count(0)


def test_the_file_is_changed_as_text(page: Page) -> None:
    page.click("#as-text > summary")
    expect(page.locator("#text")).to_have_value(re.compile("puzzle: killer"))
    page.fill("#text", SMALL.replace("a: 3", "a: 4"))
    page.click("#text-form button")
    standing(page, "none")


def test_what_does_no_work_is_told(page: Page) -> None:
    page.click("text=What does no work?")
    expect(page.locator("#now-says")).not_to_contain_text("Looking")
    expect(page.locator("#now-says")).to_contain_text(".")


def test_without_an_archive_the_page_says_how_to_name_one(page: Page) -> None:
    page.click("#repeats")
    expect(page.locator("#notice")).to_contain_text("--printed")


def test_several_solutions_are_shown_where_they_differ(page: Page, desk: Opened) -> None:
    fresh(page, desk, EMPTY, "several")
    assert page.query_selector_all("#picture .under use[href='#swing']")


def test_both_changed_and_neither_is_lost(page: Page, desk: Opened) -> None:
    page.click("[data-pen=given]")
    drag(page, "r1c1")
    page.keyboard.press("1")
    expect(page.locator("#file-says")).not_to_contain_text("outside")  # of the time before
    outside = EMPTY + "title: from outside\n"
    desk.file.write_text(outside)
    expect(page.locator("#file-says")).to_contain_text("outside")
    kept = [path for path in desk.file.parent.glob("a.outside*.yaml") if path.read_text() == outside]
    assert kept or desk.file.read_text() == outside
    if kept:
        assert desk.puzzle.givens == ((0, 1),)


def test_what_cannot_be_read_outside_is_told_and_the_page_keeps_what_it_has(page: Page, desk: Opened) -> None:
    desk.file.write_text("puzzle: kiler\ngrid: 4x4\n")
    expect(page.locator("#file-says")).to_contain_text("cannot be read")
    standing(page, "one")


def test_two_pages_see_the_same(page: Page, browser: Browser, desk: Opened) -> None:
    with looking_at(browser, desk.address) as other:
        drag(page, "r1c1")
        page.keyboard.press("2")
        standing(other, "none")
        other.click("#undo")
        standing(page, "one")


def test_a_line_that_breaks_is_taken_up_again(page: Page) -> None:
    lines: list[WebSocketRoute] = []

    def through(line: WebSocketRoute) -> None:
        line.connect_to_server()
        lines.append(line)

    page.route_web_socket("**/live", through)
    page.reload()
    standing(page, "one")
    lines[-1].close()
    expect(page.locator("#notice")).to_contain_text("does not answer")
    page.click("[data-pen=given]")
    drag(page, "r1c1")
    page.keyboard.press("2")  # it goes there when the desk answers again
    standing(page, "none")
    assert len(lines) == 2


LONG = "puzzle: classic\ngrid: 25x25\ndiagonals: yes\nno_repeats: [knight, king]\nnot_consecutive: yes\n"


def test_a_puzzle_that_takes_long_holds_nothing_up(page: Page, desk: Opened) -> None:
    desk.file.write_text(LONG)
    expect(page.locator("#cells [role=gridcell]")).to_have_count(625)
    before = version(page)
    drag(page, "r2c2")
    page.keyboard.press("7")
    written(page, before)
    fresh(page, desk, SMALL, "one")


@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize("colours", ["light", "dark"])
def test_everybody_can_read_it_and_nothing_overlaps(page: Page, width: int, colours: str) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    page.emulate_media(color_scheme=colours)  # type: ignore[arg-type]
    for part in page.query_selector_all("summary"):
        part.click()
    page.wait_for_timeout(500)  # colours change softly
    assert Axe().run(page).response["violations"] == []
    assert overflowing(page) == []
    assert overlapping(page) == []


def test_without_a_file_one_is_begun(browser: Browser, tmp_path: Path) -> None:
    with opened(tmp_path / "new.yaml") as desk:
        assert not desk.file.exists()
        with looking_at(browser, desk.address) as page:
            drag(page, "r5c5")
            page.keyboard.press("5")
            written(page, 1)
        assert desk.puzzle.givens == ((40, 5),)
