"""The desk itself: a puzzle with its history, its file, the questions under way, and the pages that look on.

Everything here happens in one thread, that of the server's loop; answers come in through the loop.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from grader.walking.walk import Walk
from verifier.desk import wording
from verifier.desk.answers.repeats import Archive
from verifier.desk.answers.towards import wish_towards
from verifier.desk.benches import Benches
from verifier.desk.drafting.edits import edited
from verifier.desk.drafting.unfinished import as_judged
from verifier.desk.filing import Filing
from verifier.desk.history import History
from verifier.desk.keeping import KeptFile
from verifier.desk.picturing import puzzle_shown
from verifier.desk.stage import grid_shown, so_far_in, step_shown, strength_in
from verifier.desk.wishes import PageWish, RefusedError
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.style.style import HouseStyle

__all__ = ["Desk", "Page"]

Page = Callable[[dict[str, Any]], None]
"""Tells one page something."""

_PAUSE = 0.4
"""Seconds without a change after which the file is written, and repairs are looked for."""

_LOOK_EVERY = 0.1
"""Seconds between two looks at the file."""

_SHOWING = ("walk", "next")
_OFFERING = ("repairs", "tuned", "looking", "idle", "repeats")


class Desk:
    """One puzzle on the desk.

    Parameters
    ----------
    file : KeptFile
        Where it is kept.
    first : Puzzle
        What there is to begin with.
    style : HouseStyle
        What the house wants of a puzzle.
    benches : Benches
        Where questions are answered.
    printed : Path, optional
        A folder or a ledger with the puzzles that it is compared with.
    """

    def __init__(
        self,
        file: KeptFile,
        first: Puzzle,
        style: HouseStyle,
        benches: Benches,
        printed: Path | None = None,
    ) -> None:
        self._filing, self._style, self._printed = Filing(file), style, printed
        self._archive: Archive | None = None
        self._benches = benches
        self._history = History(first)
        self._version = 0
        self._last_solution: Filling | None = None
        self._examples: tuple[Filling, ...] = ()
        self._offers: tuple[Puzzle, ...] = ()
        self._told: dict[str, dict[str, Any]] = {}
        self._pages: set[Page] = set()
        self._pause: asyncio.TimerHandle | None = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self._walked: Walk | None = None
        self._wishes: dict[str, Callable[[PageWish, Page], None]] = {
            "undo": lambda *_: self._step(self._history.back),
            "redo": lambda *_: self._step(self._history.on),
            "take": lambda wish, _: self._take(wish),
            "mean": lambda wish, _: self._mean(wish),
            "idle": lambda *_: self._look_for_idle(),
            "repeats": lambda *_: self._compare(),
            "tune": lambda wish, _: self._tune(wish),
            "walk": lambda _, page: self._walk(page),
            "step": self._show_step,
            "grid": self._show_grid,
            "next": lambda wish, _: self._help(wish),
        }

    @property
    def puzzle(self) -> Puzzle:
        """The puzzle as it is."""
        return self._history.now

    async def watch(self) -> None:
        """Begin: ask what the puzzle is, and follow the file until cancelled."""
        self._loop = asyncio.get_running_loop()
        self._filing.file.look()
        self._look_anew()
        while True:
            await asyncio.sleep(_LOOK_EVERY)
            self._take_over(self._filing.look(self.puzzle))

    def join(self, page: Page) -> None:
        """Tell a page all there is, and everything that comes."""
        self._pages.add(page)
        for told in self._told.values():
            page(told)

    def leave(self, page: Page) -> None:
        """Tell a page nothing more."""
        self._pages.discard(page)

    @property
    def watched_by(self) -> int:
        """How many pages look on."""
        return len(self._pages)

    def do(self, wish: PageWish, page: Page) -> None:
        """Do what a page wants.

        Raises
        ------
        RefusedError
            If it cannot be done; nothing has changed then.
        """
        own = self._wishes.get(wish.name)
        if own is not None:
            own(wish, page)
        else:
            self._become(edited(self.puzzle, wish, self._known()))

    @property
    def style(self) -> HouseStyle:
        """What the house wants of a puzzle."""
        return self._style

    def close(self) -> None:
        """Write what has not been written, and end every question."""
        self._benches.close()
        self._keep()

    @property
    def _is_sound(self) -> bool:
        """Whether it is proved to have one solution."""
        return bool(self._told.get("proved", {}).get("standing") == "one")

    @property
    def _is_whole(self) -> bool:
        """Whether nothing of it was left out when it was judged, so that changes can be offered."""
        return as_judged(self.puzzle) == self.puzzle

    def _known(self) -> Filling | None:
        """Return the solution by which totals are added up: the one that is meant, or the last one proved."""
        meant, last = self.puzzle.solution, self._last_solution
        if meant is None and last is not None and len(last) == self.puzzle.grid.cell_count:
            return last if solves(self.puzzle, last) else None
        return meant

    def _take(self, wish: PageWish) -> None:
        """Make one of the changes that are offered."""
        if not self._offers or wish.number("version") != self._version:
            raise RefusedError(wording.OFFER_GONE)
        self._become(self._offers[wish.number("offer", 0, len(self._offers) - 1)])

    def _mean(self, wish: PageWish) -> None:
        """Take one of the solutions that were found as the one that is meant."""
        if not self._examples:
            raise RefusedError(wording.NO_SOLUTION_TO_ADD_UP)
        meant = self._examples[wish.number("example", 0, len(self._examples) - 1)]
        self._become(replace(self.puzzle, solution=meant))

    def _walk(self, page: Page) -> None:
        """Look for the walk, unless it is there already."""
        if self._walked is None:
            self._ask("walk")
        else:
            page(self._told["walk"])

    def _show_step(self, wish: PageWish, page: Page) -> None:
        if self._walked is None:
            raise RefusedError(wording.NO_WALK_YET)
        number = wish.number("step", 0, len(self._walked.steps) + 1)
        marks, strength = wish.yes("marks"), strength_in(wish)
        shown = step_shown(self.puzzle, self._walked, number, strength, marks=marks)
        page({"kind": "step", "version": self._version, **shown})

    def _show_grid(self, wish: PageWish, page: Page) -> None:
        shown = grid_shown(self.puzzle, so_far_in(self.puzzle, wish))
        page({"kind": "step", "version": self._version, **shown})

    def _help(self, wish: PageWish) -> None:
        self._ask("next", so_far_in(self.puzzle, wish), strength_in(wish))

    def _step(self, step: Callable[[], bool]) -> None:
        if step():
            self._changed()

    def _become(self, puzzle: Puzzle) -> None:
        if self._history.add(puzzle):
            self._changed()

    def _changed(self) -> None:
        self._filing.changed()
        self._look_anew()
        if self._pause is not None:
            self._pause.cancel()
        self._pause = asyncio.get_running_loop().call_later(_PAUSE, self._keep)

    def _look_anew(self) -> None:
        """Show the puzzle as it is, and ask what it is."""
        self._version += 1
        self._examples = self._offers = ()
        self._walked, self._told = None, {}
        self._benches.drop()
        self._benches.judging.ask("standing", (self.puzzle, self._style), *self._listening(self._judged))
        self._show()  # while that is under way

    def _show(self) -> None:
        puzzle = self.puzzle
        try:
            text = self._filing.file.text_of(puzzle)
        except ValueError:  # no file can say it
            text = None
        self._tell("puzzle", {**puzzle_shown(puzzle), "text": text})
        self._tell_file()

    def _tell_file(self) -> None:
        history = self._history
        told = {**self._filing.told, "undo": history.can_go_back, "redo": history.can_go_on}
        if not told.items() <= self._told.get("file", {}).items():
            self._tell("file", told)

    def _tell(self, kind: str, facts: dict[str, Any]) -> None:
        self._told.pop(kind, None)  # a new page is told everything in this order
        told = self._told[kind] = {"kind": kind, "version": self._version, **facts}
        for page in tuple(self._pages):
            page(told)

    def _listening(self, hear: Callable[[Any], None]) -> tuple[Callable[[object], None], Callable[[], None]]:
        """Return what a bench calls with each part of an answer to this version, and at its end."""
        version, loop = self._version, asyncio.get_running_loop()

        def come_in(part: Any) -> None:
            if version == self._version:
                hear(part)

        def later(part: object) -> None:
            loop.call_soon_threadsafe(come_in, part)

        return later, lambda: later(None)

    def _judged(self, beat: Any) -> None:
        if beat is None:
            if "found" not in self._told:  # the process was ended: it took too much, or failed
                self._tell("found", {"standing": "unknown", "says": [wording.NO_ANSWER], "without": []})
            return
        if beat.name == "found":
            self._examples = beat.fillings
            standing, without = beat.facts["standing"], beat.facts["without"]
            if standing == "none" or (standing == "several" and not without):  # else it is still being drawn
                asyncio.get_running_loop().call_later(_PAUSE, self._repair, self._version)
        if beat.name == "proved" and beat.facts["standing"] == "one":
            self._last_solution = beat.fillings[0]
        self._tell(beat.name, beat.facts)

    def _repair(self, version: int) -> None:
        if version == self._version and self._is_whole:
            self._ask_for_offers("repairs")

    def _tune(self, wish: PageWish) -> None:
        """Look for changes towards what is wished."""
        if not self._is_sound or not self._is_whole:
            raise RefusedError(wording.NOTHING_TO_TUNE)
        self._ask_for_offers("tuned", wish_towards(wish, self._style))

    def _ask_for_offers(self, question: str, *arguments: object) -> None:
        """Ask for changes to offer, in the place of those offered so far; no two of them have one number."""
        self._clear_offers()
        self._ask(question, *arguments, len(self._offers))

    def _clear_offers(self) -> None:
        for told in [told for told in self._told if told.startswith("offer ") or told in _OFFERING]:
            del self._told[told]

    def _look_for_idle(self) -> None:
        """Look for what does no work."""
        self._clear_offers()
        self._ask("idle")

    def _compare(self) -> None:
        """Look for puzzles that this one repeats."""
        if self._printed is None:
            raise RefusedError(wording.NO_ARCHIVE)
        self._clear_offers()
        solution = self._last_solution if self._is_sound else None
        self._ask("repeats", self._printed, self._filing.file.path, self._archive, solution)

    def _ask(self, question: str, *arguments: object) -> None:
        """Ask something that is told to every page."""
        self._tell(question, {"waiting": True, "says": wording.LOOKING.get(question, "")})
        bench = self._benches.showing if question in _SHOWING else self._benches.advising
        bench.ask(question, (as_judged(self.puzzle), *arguments), *self._listening(self._helped))

    def _helped(self, beat: Any) -> None:
        if beat is None:
            return
        self._offers += beat.puzzles
        self._walked = beat.walked or self._walked
        self._archive = beat.archive or self._archive
        kind = (
            beat.name if beat.name != "offer" else f"offer {beat.facts['offer']}"
        )  # each is told a new page
        self._tell(kind, beat.facts)

    def _keep(self) -> None:
        """Write the file, and take over what something else has made of it."""
        self._take_over(self._filing.keep(self.puzzle))

    def _take_over(self, outside: Puzzle | None) -> None:
        if outside is not None:
            self._last_solution = None
            if self._history.add(outside):
                self._look_anew()
        if self._loop is not None and not self._loop.is_closed():
            self._tell_file()
