"""Every rule of the program is drawn on the page, and stands in the file as the rulebook has it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.desk.opening import Opened, looking_at, opened, version, written
from verifier.desk.pens import PENS_OF_RULES, WHOLE_GRID_KEYS
from verifier.files.rulebook.entries import rulebook
from verifier.puzzle.grid import Grid

GRID = Grid.square(6)
EMPTY = "puzzle: classic\ngrid: 6x6\n"

DRAWN: Mapping[str, tuple[list[str], dict[str, str]]] = {
    "greater": (["r1c1", "r1c2"], {}),
    "consecutive": (["r1c1", "r1c2"], {}),
    "ratio": (["r1c1", "r1c2"], {"value": "2"}),
    "difference": (["r1c1", "r1c2"], {"value": "3"}),
    "pair_sum": (["r1c1", "r1c2"], {"value": "5"}),
    "even": (["r1c1"], {}),
    "odd": (["r1c1", "r3c3"], {}),
    "quadruple": (["r1c1", "r1c2", "r2c1", "r2c2"], {"value": "1 4"}),
    "thermometer": (["r1c1", "r2c2", "r3c2"], {}),
    "arrow": (["r1c1", "r1c2", "r1c3"], {}),
    "palindrome": (["r1c1", "r2c2", "r3c2"], {}),
    "renban": (["r1c1", "r2c2", "r3c2"], {}),
    "whisper": (["r1c1", "r2c2", "r3c2"], {"value": "3"}),
    "between": (["r1c1", "r2c2", "r3c2"], {}),
    "region_sum": (["r1c3", "r1c4", "r1c5"], {}),
    "sandwich": ([], {"line": "row 2", "value": "5"}),
    "skyscraper": ([], {"line": "column 2", "side": "top", "value": "3"}),
    "little_killer": (["r1c4", "r2c5", "r3c6"], {"value": "9"}),
}
"""For each rule the cells that are chosen, and what is typed."""


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    with opened(tmp_path_factory.mktemp("desk") / "a.yaml", EMPTY) as there:
        yield there


@pytest.fixture(scope="module")
def page(browser: Browser, desk: Opened) -> Iterator[Page]:
    with looking_at(browser, desk.address) as seen:
        yield seen


def test_there_is_a_pen_for_every_rule() -> None:
    cages = {"cages", "cage", "kakuro", "cells", "runs", "repeats", "given", "givens", "puzzle"}
    in_the_book = {entry.name for entry in rulebook()} - cages
    assert in_the_book - set(PENS_OF_RULES) - set(WHOLE_GRID_KEYS) == set()
    assert set(DRAWN) == set(PENS_OF_RULES)


def choose(page: Page, cells: list[str]) -> None:
    """Choose cells in an order, by keys."""
    page.focus("#cells")
    page.keyboard.press("Escape")
    at = (
        int(value) for value in (page.get_attribute("#cells", "aria-activedescendant") or "").split("-")[1:]
    )
    row, column = divmod(next(at), GRID.columns)
    for cell in cells:
        down, across = int(cell[1]) - 1 - row, int(cell[3]) - 1 - column
        for _ in range(abs(down)):
            page.keyboard.press("ArrowDown" if down > 0 else "ArrowUp")
        for _ in range(abs(across)):
            page.keyboard.press("ArrowRight" if across > 0 else "ArrowLeft")
        page.keyboard.press(" ")
        row, column = row + down, column + across


@pytest.mark.parametrize("word", list(DRAWN))
def test_a_rule_is_drawn_and_taken_out(page: Page, desk: Opened, word: str) -> None:
    cells, fields = DRAWN[word]
    page.click("[data-pen=rule]")
    page.select_option("#rule", word)
    choose(page, cells) if cells else None
    fill(page, fields)
    before = version(page)
    page.click("#rule-form [type=submit]")
    written(page, before)
    (rule,) = [rule for rule in desk.puzzle.rules if rule.word == word]
    if cells:
        assert set(rule.cells) == {GRID.cell_at(cell) for cell in cells}
    before = version(page)
    page.click("#undo")
    written(page, before)
    assert word not in desk.puzzle.kinds_of_rules


def fill(page: Page, fields: Mapping[str, Any]) -> None:
    for field, value in fields.items():
        if field == "value":
            page.fill("#value", value)
        else:
            page.select_option("#edge-line" if field == "line" else f"#{field}", value)


def test_what_goes_for_the_whole_grid_is_chosen(page: Page, desk: Opened) -> None:
    page.click("#drawn > summary")
    before = version(page)
    page.select_option("[data-key=diagonals]", "falling")
    for box in page.query_selector_all("#whole-grid input"):
        box.check()
        written(page, before)
        before = version(page)
    assert {"no_repeats", "not_consecutive", "all_marked"} <= set(desk.puzzle.kinds_of_rules)
    assert len([house for house in desk.puzzle.houses if "diagonal" in house.kind]) == 1
