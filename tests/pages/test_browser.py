"""Pages in a real browser: stepping through a walk, sifting a box; nothing overlaps, and all can read it."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from collections.abc import Callable
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from grader.walking.walk import Walk
from grader.words.narrate import tell
from tests.pages.made import (
    box_of,
    comparison_page_of,
    help_page_of,
    plan_of,
    report_of,
    tuning_page_of,
    verdict_page_of,
    walk_of,
    walk_page_of,
)
from tests.pages.scenes import puzzle_named
from tests.pages.tools import run_tool
from tests.pages.viewing import (
    as_written,
    overflowing,
    overlapping,
    pointed,
    pointed_at_each_step,
    shown_digits,
    viewing,
)
from verifier.pages.drawing.highlight import highlight_of
from verifier.pages.drawing.svg import Picture, picture_body
from verifier.pages.rule_key import rules_in_words
from verifier.pages.telling import marks_on

PAGES: dict[str, Callable[[], str]] = {
    "walk": lambda: walk_page_of("ridge"),
    "large walk": lambda: walk_page_of("large"),
    "clues": lambda: walk_page_of("clues"),
    "accepted": lambda: verdict_page_of("ridge"),
    "several": lambda: verdict_page_of("several"),
    "help": lambda: help_page_of("ridge"),
    "box": box_of,
    "plan": plan_of,
    "report": report_of,
    "tune": lambda: tuning_page_of("pocket", 15, 60),
    "tune kakuro": lambda: tuning_page_of("cells", 27, 60),
    "tune in vain": lambda: tuning_page_of("cells", 0, 8),
    "compare": lambda: comparison_page_of("pocket", 15, 60),
}
_SMALL = [name for name in PAGES if name != "large walk"]
every_page = pytest.mark.parametrize("name", list(PAGES))


def drawn(name: str, number: int) -> set[str]:
    """What the picture of a step points at when it is drawn without a browser."""
    puzzle, taken = puzzle_named(name), walk_of(name).steps[number - 1]
    marks = marks_on(taken.board, taken.step.cells)
    picture = Picture(puzzle, marks=marks, highlight=highlight_of(taken.step, puzzle))
    body = ElementTree.fromstring(f"<svg>{picture_body(picture)}</svg>")
    layers = [layer for layer in body if layer.get("class") in ("under", "bands", "marks", "over")]
    return {as_written(ElementTree.tostring(part, encoding="unicode")) for layer in layers for part in layer}


def told(page: Page) -> str:
    return page.inner_text("#says")


def sentence(name: str, number: int) -> str:
    walked = walk_of(name)
    taken = walked.steps[number - 1]
    return tell(taken.step, walked.layout, taken.board)


def first_of_the_passage(walked: Walk, number: int) -> int:
    """The first step of those that are told together with a step."""
    told = [paragraph for part in walked.parts() for paragraph in part.paragraphs]
    return next(paragraph.first for paragraph in told if paragraph.last >= number)


def passages(name: str) -> int:
    """How many paragraphs tell the walk of a puzzle."""
    return sum(len(part.paragraphs) for part in walk_of(name).parts())


def test_keys_and_buttons_go_forward_and_back(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        page, count = view.page, len(walk_of("ridge").steps)
        assert told(page) == "The puzzle as it was set."
        ways: list[tuple[Callable[[], None], int]] = [
            (lambda: page.keyboard.press("ArrowRight"), 1),
            (lambda: page.click("[data-go=forward]"), 2),
            (lambda: page.keyboard.press("ArrowRight"), 3),
            (lambda: page.click("[data-go=back]"), 2),
            (lambda: page.keyboard.press("ArrowLeft"), 1),
            (lambda: page.keyboard.press("End"), count),
            (lambda: page.click("[data-go=forward]", force=True), count),  # nothing lies beyond the end
            (lambda: page.keyboard.press("Home"), 0),
            (lambda: page.click("[data-go=back]", force=True), 0),
            (lambda: page.click("[data-go=last]"), count),
            (lambda: page.click("li:has(#step7) a"), first_of_the_passage(walk_of("ridge"), 7)),
        ]
        for go, number in ways:
            go()
            assert page.inner_text("#count").startswith(f"Step {number} of {count}" if number else "Start")
            assert told(page) == (sentence("ridge", number) if number else "The puzzle as it was set.")


def test_beside_the_numbers_of_a_passage_its_words_have_the_room(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        for item in view.page.locator("#steps li").all():
            row, words = item.bounding_box(), item.locator(".sentence").bounding_box()
            assert row is not None
            assert words is not None
            assert words["width"] > row["width"] * 0.7


def test_the_button_jumps_to_the_break_in(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        view.page.click("[data-go=break]")
        first = view.page.inner_text("h3:text-is('The break-in') ~ ol li")
        assert view.page.inner_text("[aria-current=step]") == first


@pytest.mark.parametrize("name", ["ridge", "classic"])
def test_at_each_step_the_grid_points_at_what_the_step_says(
    browser: Browser, tmp_path: Path, name: str
) -> None:
    count = len(walk_of(name).steps)
    with viewing(browser, walk_page_of(name), tmp_path) as view:
        seen = pointed_at_each_step(view.page, count)
    assert [number for number in range(1, count + 1) if seen[number - 1] != drawn(name, number)] == []


@pytest.mark.parametrize("name", ["ridge", "classic", "pocket", "large"])
def test_the_last_step_shows_the_solution(browser: Browser, tmp_path: Path, name: str) -> None:
    puzzle, walked = puzzle_named(name), walk_of(name)
    assert walked.filling is not None
    with viewing(browser, walk_page_of(name), tmp_path) as view:
        view.page.keyboard.press("End")
        assert shown_digits(view.page, puzzle.grid.columns) == dict(enumerate(walked.filling))
    if puzzle.solution is not None:
        assert walked.filling == puzzle.solution


def test_going_back_undoes_what_going_forward_did(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        seen = []
        for _ in range(5):
            seen.append((pointed(view.page), shown_digits(view.page, 9)))
            view.page.keyboard.press("ArrowRight")
        for before in reversed(seen):
            view.page.keyboard.press("ArrowLeft")
            assert (pointed(view.page), shown_digits(view.page, 9)) == before


def test_all_marks_are_shown_when_asked_for(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        view.page.check("#all-marks")
        view.page.keyboard.press("ArrowRight")
        board = walk_of("ridge").steps[0].board
        placed = [cell for cell, _ in walk_of("ridge").steps[0].step.places]
        shown = view.page.locator("#board .mark").count()
        empty = [cell for cell in range(81) if not board.placed >> cell & 1 and cell not in placed]
        assert shown == sum(board.candidates[cell].bit_count() for cell in empty)


def test_a_swipe_across_the_grid_goes_on_and_one_down_does_not(browser: Browser, tmp_path: Path) -> None:
    swipe = """([across, down]) => {
      const board = document.getElementById("board");
      const touch = (x, y) => new Touch({identifier: 1, target: board, clientX: x, clientY: y});
      const send = (kind, x, y) => board.dispatchEvent(new TouchEvent(kind, {
        touches: kind === "touchend" ? [] : [touch(x, y)], changedTouches: [touch(x, y)]}));
      send("touchstart", 200, 200);
      send("touchend", 200 + across, 200 + down);
    }"""
    with viewing(browser, walk_page_of("ridge"), tmp_path, width=360, has_touch=True) as view:
        for way, number in (([-90, 5], 1), ([-90, 5], 2), ([10, -150], 2), ([90, -5], 1)):
            view.page.evaluate(swipe, way)
            assert view.page.inner_text("#count").startswith(f"Step {number} ")


def test_a_click_on_the_chart_goes_to_the_step_there(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        chart = view.page.locator("#chart svg")
        box = chart.bounding_box()
        assert box is not None
        chart.click(position={"x": box["width"] - 2, "y": 20})
        assert view.page.inner_text("#count").startswith(f"Step {len(walk_of('ridge').steps)} ")


def test_the_address_leads_to_a_step(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        view.page.evaluate("location.hash = '#s60'")
        view.page.wait_for_function("document.getElementById('count').textContent.startsWith('Step 60 ')")
        assert view.page.evaluate("scrollY") == 0  # the grid stays in sight


def test_on_a_desk_the_words_of_a_step_are_seen_together_with_the_grid(
    browser: Browser, tmp_path: Path
) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        view.page.click("[data-go=break]")
        words = view.page.locator("#says").bounding_box()
        assert words is not None
        assert words["y"] + words["height"] <= 900  # the height of the window


@pytest.mark.parametrize("width", [360, 1440])
def test_a_large_grid_moves_in_its_frame_to_the_digit_that_is_written_in(
    browser: Browser, tmp_path: Path, width: int
) -> None:
    placing = [n for n, taken in enumerate(walk_of("large").steps, start=1) if taken.step.places]
    with viewing(browser, walk_page_of("large"), tmp_path, width=width) as view:
        frame = view.page.locator("#board").bounding_box()
        assert frame is not None
        for number in placing[:: len(placing) // 8]:
            view.page.evaluate(f"location.hash = '#s{number}'")
            view.page.wait_for_function(
                f"document.querySelector('#count').textContent.startsWith('Step {number} ')"
            )
            digit = view.page.locator("#board .placed").bounding_box()
            assert digit is not None
            assert frame["x"] <= digit["x"] <= frame["x"] + frame["width"] - digit["width"]
            assert frame["y"] <= digit["y"] <= frame["y"] + frame["height"] - digit["height"]


def test_the_grid_in_words_follows(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        view.page.click("summary")
        view.page.keyboard.press("End")
        rows = view.page.eval_on_selector_all(
            "#words tr", "rows => rows.map(row => [...row.cells].map(cell => cell.textContent))"
        )
        filling = walk_of("ridge").filling
        assert filling is not None
        assert [digit for row in rows[1:] for digit in row[1:]] == [str(digit) for digit in filling]
        assert (rows[0][1], rows[1][0]) == ("c1", "r1")


def test_the_grid_in_words_names_the_clues(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("clues"), tmp_path) as view:
        view.page.click("summary")
        told = view.page.inner_text(".words .rules").split("\n")
    assert told == rules_in_words(puzzle_named("clues"))
    assert "The thermometer from r1c1 to r3c2: r1c1, r2c1, r3c2" in told


def test_without_scripts_the_walk_is_a_list_of_steps_with_pictures(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path, java_script_enabled=False) as view:
        page = view.page
        assert page.locator("li .sentence:visible").count() == passages("ridge")
        assert page.locator("button:visible").count() == 0
        assert page.locator(".handout svg:visible").count() == 2  # the break-in and the solution
        assert page.locator("#board svg:visible").count() == 1


def test_on_paper_the_walk_is_a_handout(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, walk_page_of("ridge"), tmp_path) as view:
        view.page.emulate_media(media="print")
        assert view.page.locator(".handout svg:visible").count() == 3
        assert view.page.locator("button:visible, #board:visible").count() == 0
        assert view.page.locator("li .sentence:visible").count() == passages("ridge")


@pytest.mark.parametrize("made", [plan_of, report_of])
def test_plan_and_report_fit_a_sheet_of_paper(
    browser: Browser, tmp_path: Path, made: Callable[[], str]
) -> None:
    with viewing(browser, made(), tmp_path) as view:
        view.page.pdf(path=tmp_path / "printed.pdf", prefer_css_page_size=True)
    assert "Pages:           1\n" in run_tool("pdfinfo", tmp_path / "printed.pdf")


def test_a_title_with_markup_runs_nothing(browser: Browser, tmp_path: Path) -> None:
    title = puzzle_named("markup").credits.title or "none"
    for page in (walk_page_of("markup"), verdict_page_of("markup"), box_of()):
        with viewing(browser, page, tmp_path) as view:
            view.page.on("dialog", lambda dialog: view.errors.append(dialog.message))
            assert title in view.page.inner_text("body")


def test_the_policy_stops_what_is_not_of_the_page(browser: Browser, tmp_path: Path) -> None:
    page = walk_page_of("pocket").replace("</main>", "<script>document.title = 'taken over'</script></main>")
    with viewing(browser, page, tmp_path) as view:
        assert view.page.title() == "Thimble: walkthrough"
        assert any("Content Security Policy" in error for error in view.errors)
        view.errors.clear()


@pytest.mark.parametrize("width", [360, 768, 1440])
@every_page
def test_nothing_overlaps_or_overflows(browser: Browser, tmp_path: Path, name: str, width: int) -> None:
    with viewing(browser, PAGES[name](), tmp_path, width=width) as view:
        for key in ("Home", "End"):
            view.page.keyboard.press(key)
            assert overflowing(view.page) == []
            assert overlapping(view.page) == []


@pytest.mark.parametrize(
    ("name", "scheme"),
    [("large walk", "light"), *((name, scheme) for name in _SMALL for scheme in ("light", "dark"))],
)
def test_axe_finds_no_fault(browser: Browser, tmp_path: Path, name: str, scheme: str) -> None:
    with viewing(browser, PAGES[name](), tmp_path, color_scheme=scheme, bypass_csp=True) as view:
        for _ in range(3 if "walk" in name else 1):
            view.page.keyboard.press("ArrowRight")
        found = Axe().run(view.page)
        assert found.violations_count == 0, found.generate_report()


def states(page: Page) -> list[str]:
    """The verdicts of the lines that are shown, in order."""
    return page.eval_on_selector_all(  # type: ignore[no-any-return]
        "#box tbody tr", "rows => rows.filter(row => !row.hidden).map(row => row.dataset.state)"
    )


def test_a_box_is_sifted_by_verdict_tier_and_reason(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, box_of(), tmp_path) as view:
        page = view.page
        page.select_option("[name=state]", "rejected")
        assert states(page) == ["rejected"]
        assert page.inner_text("#shown") == "1 of 6 shown"
        page.select_option("[name=state]", "")
        page.select_option("[name=reasons]", "several-solutions")
        assert states(page) == ["rejected"]
        page.select_option("[name=tier]", "1")
        assert states(page) == []


def test_a_box_is_searched_for_words_anywhere_in_a_line(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, box_of(), tmp_path) as view:
        page = view.page
        lines = page.locator("#box tbody tr")
        for words, number in (("OLD printed", 1), ("torn 9y9", 1), ("no such words", 0), ("", 6)):
            page.fill("[name=words]", words)
            assert page.inner_text("#shown") == f"{number} of 6 shown"
            assert sum(line.is_visible() for line in lines.all()) == number
        page.press("[name=words]", "Enter")  # nothing is sent, and the page stays
        assert page.inner_text("#shown") == "6 of 6 shown"


def test_a_box_is_sifted_by_setter_and_by_what_repeats(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, box_of(), tmp_path) as view:
        page = view.page
        page.select_option("[name=repeats]", "yes")
        assert page.inner_text("#shown") == "1 of 6 shown"
        page.select_option("[name=repeats]", "")
        setters = page.eval_on_selector_all("[name=setter] option", "all => all.map(one => one.value)")
        assert setters[0] == ""
        assert len(setters) > 1
        page.select_option("[name=setter]", setters[1])
        shown = page.eval_on_selector_all(
            "#box tbody tr", "rows => rows.filter(row => !row.hidden).map(row => row.dataset.setter)"
        )
        assert set(shown) == {setters[1]}


def test_a_box_is_sorted_up_and_down_and_what_has_no_tier_comes_last(
    browser: Browser, tmp_path: Path
) -> None:
    with viewing(browser, box_of(), tmp_path) as view:
        column = "rows => rows.map(row => row.dataset.tier)"
        up: list[str] = []
        down: list[str] = []
        for found in (up, down):
            view.page.click("th[data-sort=tier] button")
            found += view.page.eval_on_selector_all("#box tbody tr", column)
        assert up == sorted(up, key=lambda tier: (tier == "", tier))
        assert down == [*sorted((tier for tier in up if tier), reverse=True), "", ""]
        assert view.page.get_attribute("th[data-sort=tier]", "aria-sort") == "descending"
