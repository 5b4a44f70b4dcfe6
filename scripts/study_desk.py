"""Measure the desk through its page: how soon a change is judged, and what memory many changes take.

    python -m scripts.study_desk                     300 changes of five settings, 5,000 for memory
    python -m scripts.study_desk --changes 50 --many 500

The clock runs in the page, from the key that makes a change to the moment the page shows its standing.
Goals, on two cores that have nothing else to do: found in 150 ms for 95 of 100 changes to a killer of 9x9,
graded in 400 ms up to tier 5. Exit 1: a change was never judged, or memory grows with the changes.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from random import Random
from statistics import median
from typing import Annotated

import psutil
import typer
from playwright.sync_api import Page, sync_playwright

from tests.desk.opening import Opened, looking_at, opened, standing, version
from tests.pages.tools import CHROMIUM_FLAGS, chromium
from verifier.evidence.establish import count
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["main"]

CORPUS = Path(__file__).resolve().parents[1] / "corpus" / "killers"
SETTINGS = ["coopers-yard", "low-tide", "deep-keel", "spring-tide", "harbour-steps"]
"""Killers of several tiers."""

WATCH = """() => {
  const section = document.getElementById("standing");
  window.taken = [];
  let pressed = 0;
  document.addEventListener("keydown", () => { pressed = performance.now(); }, true);
  new MutationObserver(() => {
    const {version, standing, tier} = section.dataset, now = performance.now();
    let last = window.taken[window.taken.length - 1];
    if (!last || last.version !== version) window.taken.push(last = {version, from: pressed});
    if (standing !== "unknown" && last.found === undefined) last.found = now - last.from;
    if (tier && last.graded === undefined) Object.assign(last, {graded: now - last.from, tier: Number(tier)});
  }).observe(section, {attributes: true});
}"""

_GROWTH = 1.3
"""What memory may grow by from the first tenth of the changes on."""


def main(
    changes: Annotated[int, typer.Option(help="Changes that are timed, over all settings.")] = 300,
    many: Annotated[int, typer.Option(help="Changes for memory.")] = 5000,
) -> None:
    """Open desks, change their puzzles, and print how long it took."""
    rng = Random(20261129)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=CHROMIUM_FLAGS)
        taken = []
        for name in SETTINGS:
            text = (CORPUS / f"{name}.yaml").read_text(encoding="utf-8")
            with (
                opened(Path(folder) / f"{name}.yaml", text) as desk,
                looking_at(browser, desk.address) as page,
            ):
                taken += _timed(page, changes // len(SETTINGS), solution_of(desk.puzzle), rng)
        lost = _tell(taken)
        text = (CORPUS / f"{SETTINGS[0]}.yaml").read_text(encoding="utf-8")
        with opened(Path(folder) / "many.yaml", text) as desk, looking_at(browser, desk.address) as page:
            grows = _memory(desk, page, many, rng)
        browser.close()
    raise typer.Exit(int(lost or grows))


def solution_of(puzzle: Puzzle) -> Filling:
    """Return the solution of a killer of the corpus."""
    return count(puzzle).solutions[0]


def _timed(page: Page, changes: int, solution: Filling, rng: Random) -> list[dict[str, float]]:
    """Change a puzzle as a setter would, one change after the other, and return what the page took down."""
    standing(page, "one")
    page.evaluate(WATCH)
    page.focus("#cells")
    for _ in range(changes):
        before = version(page)
        _change(page, solution, rng)
        page.wait_for_selector(f"#standing[data-proved=yes]:not([data-version='{before}'])", state="attached")
        page.wait_for_timeout(rng.randrange(200, 600))  # a hand goes on before everything is graded, or after
    taken: list[dict[str, float]] = page.evaluate("window.taken")
    return taken


def _change(page: Page, solution: Filling, rng: Random) -> None:
    """Go to a cell, and write a given there, right two times in three, or undo."""
    for key in rng.choices(["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight"], k=3):
        page.keyboard.press(key)
    before = version(page)
    while version(page) == before:  # what changes nothing is no change
        if rng.random() < 0.5 and page.get_attribute("#undo", "aria-disabled") == "false":
            page.keyboard.press("Control+z")
        else:
            at = int((page.get_attribute("#cells", "aria-activedescendant") or "-0").split("-")[1])
            page.keyboard.press(str(solution[at] if rng.random() < 0.67 else rng.randrange(1, 10)))
        page.wait_for_timeout(30)


def _tell(taken: Sequence[dict[str, float]]) -> bool:
    """Print the figures; return whether a change was never judged."""
    found = [each["found"] for each in taken if "found" in each]
    graded = [each["graded"] for each in taken if each.get("tier", 9) <= 5]
    print(f"{len(taken)} changes; found: {_spread(found)}")
    print(f"{len(graded)} graded up to tier 5: {_spread(graded)}")
    return len(found) < len(taken)


def _spread(times: Sequence[float]) -> str:
    if not times:
        return "none"
    ordered = sorted(times)
    return (
        f"median {median(ordered):.0f} ms, 95 of 100 within {ordered[int(0.95 * (len(ordered) - 1))]:.0f} ms"
    )


def _memory(desk: Opened, page: Page, changes: int, rng: Random) -> bool:
    """Print what memory the server takes as changes add up; return whether it grows without end."""
    standing(page, "one")
    page.focus("#cells")
    figures = []
    for number in range(changes):
        page.keyboard.press(str(number % 9 + 1))
        page.keyboard.press(rng.choice(["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight"]))
        if number % (changes // 10) == 0:
            figures.append(sum(_resident(desk)) / (1 << 20))
    figures.append(sum(_resident(desk)) / (1 << 20))
    print(
        f"memory of server and helpers over {changes} changes, MiB: {', '.join(f'{f:.0f}' for f in figures)}"
    )
    return figures[-1] > _GROWTH * figures[1]


def _resident(desk: Opened) -> Iterator[int]:
    server = psutil.Process(desk.process.pid)
    for process in (server, *server.children()):  # not those that come and go
        yield process.memory_info().rss


if __name__ == "__main__":
    typer.run(main)
