"""Desks as people open them: the command in a process of its own, and pages that look on."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Page, expect

from tests.cli.command import environment, words
from verifier.files.reading import read_file
from verifier.puzzle.puzzle import Puzzle

__all__ = [
    "PATIENCE",
    "SMALL",
    "Opened",
    "choose",
    "drag",
    "fresh",
    "go_to",
    "looking_at",
    "opened",
    "standing",
    "version",
    "written",
]

PATIENCE = 60_000
"""Milliseconds to wait for what comes sooner, on a machine with other things to do."""

expect.set_options(timeout=PATIENCE)

SMALL = """\
puzzle: killer
grid: 4x4
cages: |
  a a b b
  c d d b
  c e e f
  g g f f
totals: {a: 3, b: 9, c: 5, d: 5, e: 5, f: 6, g: 7}
"""
"""A killer of 4x4 with one solution: 1 2 3 4, 3 4 1 2 ..."""


@dataclass
class Opened:
    """A desk that is open."""

    address: str
    file: Path
    process: subprocess.Popen[str]

    @property
    def port(self) -> int:
        """Where it listens."""
        return urlsplit(self.address).port or 0

    @property
    def puzzle(self) -> Puzzle:
        """What stands in the file."""
        (entry,) = read_file(self.file)
        assert entry.puzzle is not None, entry.faults
        return entry.puzzle


@contextmanager
def opened(file: Path, text: str | None = None, *more: str) -> Iterator[Opened]:
    """Open a desk, and end it."""
    if text is not None:
        file.write_text(text, encoding="utf-8")
    process = subprocess.Popen(
        words("desk", file, "--no-browser", *more), stdout=subprocess.PIPE, text=True, env=environment()
    )
    assert process.stdout is not None
    try:
        yield Opened(process.stdout.readline().strip(), file, process)
    finally:
        process.terminate()
        process.wait(10)
        process.stdout.close()


@dataclass
class Seen:
    """A page that looks at a desk, and what went wrong on it."""

    page: Page
    errors: list[str] = field(default_factory=list)


@contextmanager
def looking_at(browser: Browser, address: str, **settings: Any) -> Iterator[Page]:
    """Open the page of a desk; at the end nothing may have failed on it."""
    context = browser.new_context(viewport={"width": 1280, "height": 1000}, **settings)
    context.set_default_timeout(PATIENCE)
    seen = Seen(context.new_page())
    seen.page.on("pageerror", lambda error: seen.errors.append(str(error)))
    seen.page.on("console", lambda said: seen.errors.append(said.text) if said.type == "error" else None)
    try:
        seen.page.goto(address)
        seen.page.wait_for_selector("#picture svg")
        yield seen.page
    finally:
        context.close()
    assert seen.errors == []


def standing(page: Page, wanted: str) -> None:
    """Wait until the page says what the puzzle is, and that it is proved."""
    page.wait_for_selector(f"[data-standing={wanted}][data-proved=yes]", state="attached")


def version(page: Page) -> int:
    """Which version of the puzzle the page shows."""
    return int(page.get_attribute("#standing", "data-version") or 0)


def written(page: Page, beyond: int) -> None:
    """Wait until a version later than that stands in the file."""
    says = page.locator("#file-says")
    for _ in range(PATIENCE // 50):
        if int(says.get_attribute("data-written") or 0) > beyond:
            return
        page.wait_for_timeout(50)
    raise AssertionError(says.inner_text())


def fresh(page: Page, desk: Opened, text: str, wanted: str) -> Page:
    """Have the file changed from outside, and wait until the page shows that."""
    written(page, 0)
    title = f"{version(page)}."
    desk.file.write_text(f"{text}title: {title}\n")
    expect(page.locator("#title")).to_have_value(title)
    standing(page, wanted)
    return page


def drag(page: Page, *cells: str) -> None:
    """Draw over cells with the pointer."""
    boxes = [page.locator(f"[aria-label^='{cell}']").first.bounding_box() for cell in cells]
    places = [(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2) for box in boxes if box]
    page.mouse.move(*places[0])
    page.mouse.down()
    for place in places[1:]:
        page.mouse.move(*place, steps=4)
    page.mouse.up()


def go_to(page: Page, cell: str) -> None:
    """Go to a cell with the arrow keys."""
    at = page.get_attribute(f"#{page.get_attribute('#cells', 'aria-activedescendant')}", "aria-label") or ""
    (row, column), (to_row, to_column) = _place(at), _place(cell)
    for key, steps in (
        ("ArrowDown", to_row - row),
        ("ArrowUp", row - to_row),
        ("ArrowRight", to_column - column),
        ("ArrowLeft", column - to_column),
    ):
        for _ in range(steps):
            page.keyboard.press(key)


def choose(page: Page, *cells: str) -> None:
    """Choose cells that touch one after the other, with Shift and the arrow keys."""
    page.keyboard.press("Escape")
    go_to(page, cells[0])
    for before, cell in pairwise(cells):
        (row, column), (to_row, to_column) = _place(before), _place(cell)
        if row != to_row:
            page.keyboard.press(f"Shift+Arrow{'Down' if to_row > row else 'Up'}")
        else:
            page.keyboard.press(f"Shift+Arrow{'Right' if to_column > column else 'Left'}")


def _place(cell: str) -> tuple[int, int]:
    row, column = cell.split(",")[0].lstrip("r").split("c")
    return int(row), int(column)
