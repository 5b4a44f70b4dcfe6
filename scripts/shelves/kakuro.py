"""Kakuros of six sizes, and two that cannot be printed, each for a reason of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from scripts.setting.broken import Broken
from scripts.setting.kakuro import draw_kakuro, total_left_out, totals_apart
from scripts.setting.shelf import REJECTED, ShelfFile, single
from scripts.shelves.sound import slug, titled
from verifier.puzzle.puzzle import Puzzle

__all__ = ["kakuro_files"]


class Drawn(NamedTuple):
    """A line of the table below: rows and columns, how much is filled, the longest run, and the seed."""

    title: str
    setter: str
    rows: int
    columns: int
    seed: int
    share: float = 0.6
    longest: int = 6
    form: str = "run map"
    broken: Callable[[Puzzle, int], Broken] | None = None


PUZZLES = (
    Drawn("Wicket gate", "Juno", 5, 5, 8, longest=4),
    Drawn("Hatch and ladder", "Wren", 6, 6, 3, 0.64, 5),
    Drawn("Glazed loggia", "Odile", 8, 8, 18, 0.62, form="run list"),
    Drawn("Pigeon loft", "Ivo", 10, 10, 9, 0.62),
    Drawn("Long gallery", "Marigold", 9, 13, 1, 0.62, 7),
    Drawn("Lit windows", "Tamsin", 12, 20, 1),
    Drawn("Drop too much", "Otis", 6, 6, 2, 0.64, 5, broken=totals_apart),
    Drawn("Blank lintel", "Jory", 8, 8, 4, broken=total_left_out),
)


def kakuro_files() -> Iterator[ShelfFile]:
    """Yield the folder ``kakuro``."""
    for number, line in enumerate(PUZZLES, start=1):
        puzzle, filling = draw_kakuro(line.rows, line.columns, line.seed, line.share, line.longest)
        name, id = f"kakuro/{slug(line.title)}.yaml", f"kakuro-{number}"
        if line.broken:
            broken = line.broken(puzzle, line.seed)
            sent = titled(broken.puzzle, id, line.title, line.setter)
            yield single(
                name,
                sent,
                broken.made,
                form=line.form,
                verdict=REJECTED,
                codes=broken.codes,
                solutions=broken.solutions,
            )
        else:
            sent = titled(puzzle, id, line.title, line.setter, filling if line.form == "run list" else None)
            yield single(name, sent, "drawn with one solution", form=line.form)
