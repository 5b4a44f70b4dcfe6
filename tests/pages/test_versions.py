"""Pages that show a puzzle before and after a change, in a real browser."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.pages.made import comparison_page_of, tuned, tuning_page_of
from tests.pages.viewing import viewing
from verifier.tuning.answers import TuningAnswer

WISHES = {"pocket": (15, 60), "cells": (27, 60)}
IN_VAIN = ("cells", 0, 8)


@pytest.mark.parametrize("name", WISHES)
def test_each_way_shows_the_puzzle_before_and_after_and_points_at_what_is_changed(
    browser: Browser, tmp_path: Path, name: str
) -> None:
    found = tuned(name, *WISHES[name])
    with viewing(browser, tuning_page_of(name, *WISHES[name]), tmp_path) as view:
        for number, answer in enumerate(found.answers):
            way = view.page.locator("section").nth(number)
            assert way.locator("h2").inner_text() == f"Way {number + 1}"
            assert way.locator("figcaption").all_inner_texts() == ["Before", "After"]
            for puzzle, picture in zip((found.before, answer), way.locator("figure").all(), strict=True):
                digits = picture.locator(".total, .run").all_text_contents()
                assert sorted(digits) == sorted(totals_of(puzzle))
                pointed = picture.locator(".under use").count()
                assert pointed == len({cell for change in answer.changes for cell in change.seen_at})


def totals_of(answer: TuningAnswer) -> list[str]:
    return [str(cage.total) for cage in answer.puzzle.cages]


def test_a_wish_in_vain_shows_what_comes_nearest(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, tuning_page_of(*IN_VAIN), tmp_path) as view:
        assert view.page.locator("h2").all_inner_texts() == ["This comes nearest"]
        assert view.page.locator("figure").count() == 2
        assert "But its effort is" in view.page.inner_text("section")


def test_of_two_versions_what_differs_stands_in_bold(browser: Browser, tmp_path: Path) -> None:
    with viewing(browser, comparison_page_of("pocket", 15, 60), tmp_path) as view:
        rows = view.page.locator("tbody tr:not(:has(.over))").all()
        for row in rows:
            about, one, other = row.locator("th, td").all()
            weight = about.evaluate("cell => getComputedStyle(cell).fontWeight")
            assert (weight == "700") == (one.inner_text() != other.inner_text()), about.inner_text()
        assert len(rows) > 12
