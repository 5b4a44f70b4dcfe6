"""Puzzles with signs between neighbours: three sound ones, and two with a sign turned round."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from scripts.setting.shelf import REJECTED, ShelfFile, single
from scripts.setting.signs import draw_signs, turned_sign
from scripts.shelves.sound import NINE, slug, titled

__all__ = ["sign_files"]


class Drawn(NamedTuple):
    """A line of the table below: how many of all borders bear a sign, and the seed."""

    title: str
    setter: str
    share: float
    seed: int
    turned: bool = False


PUZZLES = (
    Drawn("Tide marks", "Ivo", 0.8, 5),
    Drawn("Gangplank", "Wren", 0.6, 3),
    Drawn("Rope ladder", "Juno", 0.6, 1),
    Drawn("Flag upside down", "Otis", 0.8, 2, turned=True),
    Drawn("Boots on backwards", "Marigold", 0.6, 3, turned=True),
)


def sign_files() -> Iterator[ShelfFile]:
    """Yield the folder ``signs``."""
    for number, line in enumerate(PUZZLES, start=1):
        puzzle, filling = draw_signs(NINE, line.seed, line.share)
        name = f"signs/{slug(line.title)}.yaml"
        if line.turned:
            broken = turned_sign(puzzle, line.seed)
            sent = titled(broken.puzzle, f"sign-{number}", line.title, line.setter)
            yield single(name, sent, broken.made, verdict=REJECTED, codes=broken.codes, solutions=0)
        else:
            sent = titled(puzzle, f"sign-{number}", line.title, line.setter, filling)
            yield single(name, sent, "drawn with one solution")
