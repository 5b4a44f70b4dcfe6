"""Set a killer on the desk over twenty rounds of trial and error, and count what that takes.

    python -m scripts.study_rounds
    python -m scripts.study_rounds --rounds 5

The setter that is played takes a killer and makes it harder: in each round two neighbouring cages are joined,
with one stroke and a key, and the page says what that came to. Where there is not one solution, the first
repair is taken, or the round undone where none is offered soon. Counted are gestures (a stroke over cells, a
key, a click), values typed by hand, and seconds of waiting. With an editor and commands, twenty rounds took
40 commands, 84 edits by hand and 161 seconds.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Annotated

import typer
from playwright.sync_api import Page, TimeoutError, sync_playwright

from tests.desk.opening import looking_at, opened, version, written
from tests.pages.tools import CHROMIUM_FLAGS, chromium
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle

__all__ = ["main"]

START = Path(__file__).resolve().parents[1] / "corpus" / "killers" / "coopers-yard.yaml"
_PATIENCE = 4000
"""Milliseconds for which a setter waits for a repair."""

_LARGEST = 7
"""Cells of a cage that the setter wants at most."""


@dataclass
class Taken:
    """What it took."""

    gestures: int = 0
    typed: int = 0
    waited: float = 0.0


def main(rounds: Annotated[int, typer.Option(help="How many rounds.")] = 20) -> None:
    """Play the rounds, and print what each came to."""
    rng, taken = Random(18), Taken()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=CHROMIUM_FLAGS)
        text = START.read_text(encoding="utf-8")
        with opened(Path(folder) / "rounds.yaml", text) as desk, looking_at(browser, desk.address) as page:
            _judged(page, 0, Taken())
            for number in range(1, rounds + 1):
                print(f"{number:2} {_round(page, desk.puzzle, rng, taken)}")
        browser.close()
    print(
        f"{rounds} rounds: {taken.gestures} gestures, {taken.typed} values typed, "
        f"{taken.waited:.1f} seconds of waiting"
    )


def _round(page: Page, puzzle: Puzzle, rng: Random, taken: Taken) -> str:
    """Join two cages, and go on as the page advises; return what came of it."""
    before = version(page)
    _stroke(page, rng.choice(sorted(_pairs(puzzle))))
    page.keyboard.press("j")
    taken.gestures += 2
    said = _judged(page, before, taken)
    if said != "one":
        before = version(page)
        way = _way_out(page, taken)
        taken.gestures += 1
        said = f"{said}, {way}: {_judged(page, before, taken)}"
    written(page, before)
    return f"two cages joined: {said}, tier {page.get_attribute('#standing', 'data-tier') or 'none'}"


def _way_out(page: Page, taken: Taken) -> str:
    """Take the first repair, or undo where there is none soon."""
    started = time.monotonic()
    try:
        page.wait_for_selector("[data-offer]", timeout=_PATIENCE)
        page.locator("[data-offer]").first.click()
        return "a repair taken"
    except TimeoutError:
        page.click("#undo")
        return "undone"
    finally:
        taken.waited += time.monotonic() - started


def _pairs(puzzle: Puzzle) -> Iterator[tuple[int, int]]:
    """Yield pairs of neighbouring cells in two cages that are small enough to be joined."""
    cage_of = {cell: cage for cage in puzzle.cages for cell in cage.cells}
    for cell, cage in cage_of.items():
        for other in beside(puzzle.grid, cell):
            joined = cage_of.get(other, cage)
            if joined is not cage and len(cage.cells) + len(joined.cells) <= _LARGEST:
                yield cell, other


def _stroke(page: Page, cells: tuple[int, int]) -> None:
    """Draw over two cells with the pen for givens, which only chooses them."""
    boxes = [page.locator(f"#cell-{cell}").bounding_box() for cell in cells]
    places = [(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2) for box in boxes if box]
    page.mouse.move(*places[0])
    page.mouse.down()
    page.mouse.move(*places[1], steps=4)
    page.mouse.up()


def _judged(page: Page, before: int, taken: Taken) -> str:
    """Wait until what is there now is proved, and graded if it is sound; return its standing."""
    started = time.monotonic()
    now = f"#standing[data-proved=yes]:not([data-version='{before}'])"
    page.wait_for_selector(now, state="attached")
    said = page.get_attribute("#standing", "data-standing") or ""
    if said == "one":
        page.wait_for_selector(f"{now}:not([data-tier=''])", state="attached")
    taken.waited += time.monotonic() - started
    return said


if __name__ == "__main__":
    typer.run(main)
