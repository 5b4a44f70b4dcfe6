"""What comes in week by week: drawn puzzles, repeats in disguise, slips and their corrections, late files."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random

from scripts.setting.classics import draw_classic
from scripts.setting.disguises import disguised
from scripts.setting.killers import Draft, draw_killer
from scripts.slips.slip import SLIPS
from verifier.files.writing import write_puzzle
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Credits, Puzzle

__all__ = ["Post", "Sent"]

_SETTERS = 24
_REPEATS, _SLIPS, _CORRECTIONS, _UNREADABLE, _LATE = 4, 5, 3, 2, 3
"""Of each kind in a box."""

_MOST_LATE = 3  # weeks


@dataclass(frozen=True)
class Sent:
    """One submission, and what is known of it since it was made so.

    Parameters
    ----------
    puzzle : Puzzle
        With its credits.
    family : int
        The same for all that repeat one another.
    sound : bool
        Whether it has exactly one solution.
    meant : Puzzle or None
        What a slip was meant to be.
    """

    puzzle: Puzzle
    family: int
    sound: bool = True
    meant: Puzzle | None = None

    @property
    def id(self) -> str:
        """Its id, which no other family has."""
        return self.puzzle.credits.id


class Post:
    """Writes one box a week, and knows what each submission must come to.

    Attributes
    ----------
    sent : dict of str to Sent
        By id, the latest of each; what cannot be read is not among them.
    unreadable : int
        How many files could not be read.
    """

    def __init__(self, folder: Path, seed: int, per_week: int) -> None:
        self._folder, self._rng, self._per_week = folder, Random(seed), per_week
        self._drawn = 0
        self._late: list[tuple[int, Sent]] = []
        self._slips: list[Sent] = []
        self.sent: dict[str, Sent] = {}
        self.unreadable = 0

    def come_in(self, week: int) -> int:
        """Write the box of a week, and return how many submissions are in it."""
        box = self._folder / f"week-{week:02}"
        box.mkdir(parents=True)
        late = [sent for due, sent in self._late if due == week]
        self._late = [(due, sent) for due, sent in self._late if due > week]
        corrections = [self._corrected(slip) for slip in self._slips[:_CORRECTIONS]] if week > 1 else []
        self._slips = self._slips[len(corrections) :]
        others = [*corrections, *self._repeats(), *self._broken()]
        self._late += [(week + self._rng.randint(1, _MOST_LATE), self._new()) for _ in range(_LATE)]
        new = [self._new() for _ in range(self._per_week - len(others) - len(late) - _UNREADABLE)]
        in_time = [*others, *new]
        for sent in in_time:
            name = f"{sent.id}-again" if sent in corrections else sent.id
            (box / f"{name}.yaml").write_text(write_puzzle(sent.puzzle))
        if late:
            with zipfile.ZipFile(box / "late.zip", "w") as archive:
                for sent in late:
                    archive.writestr(zipfile.ZipInfo(f"{sent.id}.yaml"), write_puzzle(sent.puzzle))
        for number in range(_UNREADABLE):
            (box / f"torn-{number}.yaml").write_text(
                f"puzle: killer\nsetter: {self._setter()}\ntitle: {week}\n"
            )
        self.unreadable += _UNREADABLE
        self.sent |= {sent.id: sent for sent in (*in_time, *late)}
        return len(in_time) + len(late) + _UNREADABLE

    def _setter(self, but: str | None = None) -> str:
        names = (f"Setter {number:02}" for number in range(_SETTERS))
        return self._rng.choice([name for name in names if name != but])

    def _credited(self, puzzle: Puzzle, name: str, setter: str) -> Puzzle:
        return replace(puzzle, credits=Credits(name, f"Title {name}", setter))

    def _new(self) -> Sent:
        self._drawn += 1
        puzzle, _ = self._draw()
        return Sent(self._credited(puzzle, f"p{self._drawn:04}", self._setter()), self._drawn)

    def _draw(self) -> tuple[Puzzle, Filling]:
        kind, seed = self._rng.random(), self._drawn
        if kind < 0.35:
            return draw_killer(Grid.square(6), Draft(seed, {2: 2, 3: 2, 4: 1}))
        if kind < 0.55:
            return draw_killer(Grid.square(9), Draft(seed, {2: 3, 3: 2}, givens=6))
        if kind < 0.75:
            return draw_classic(Grid.square(6), seed, 10)
        return draw_classic(Grid.square(9), seed, 30, tries=5)

    def _repeats(self) -> Iterator[Sent]:
        """Send puzzles in disguise that others sent before."""
        known = [sent for sent in self.sent.values() if sent.sound]
        for sent in self._rng.sample(known, min(_REPEATS, len(known))):
            self._drawn += 1
            setter = self._setter(but=sent.puzzle.credits.setter)
            copy = self._credited(disguised(sent.puzzle, self._rng), f"r{self._drawn:04}", setter)
            yield Sent(copy, sent.family)

    def _broken(self) -> Iterator[Sent]:
        """Send killers with one total that is wrong: they cover the grid, so they have no solution."""
        for _ in range(_SLIPS):
            self._drawn += 1
            meant, solution = draw_killer(Grid.square(6), Draft(self._drawn, {2: 2, 3: 2, 4: 1}))
            name, setter = f"s{self._drawn:04}", self._setter()
            slip = SLIPS["total"](meant, solution, self._rng).puzzle
            sent = Sent(
                self._credited(slip, name, setter), self._drawn, False, self._credited(meant, name, setter)
            )
            self._slips.append(sent)
            yield sent

    def _corrected(self, slip: Sent) -> Sent:
        assert slip.meant is not None
        return Sent(slip.meant, slip.family)
