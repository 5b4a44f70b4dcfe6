"""Drawing every other rule: as the file would state it, read by the reader of files with all its checks."""

from __future__ import annotations

from typing import Any

from verifier.desk import wording
from verifier.desk.drafting.draft_text import draft_in
from verifier.desk.drafting.restating import restated
from verifier.desk.drafting.unfinished import without_unfit_boxes
from verifier.desk.pens import PENS_OF_RULES, WHOLE_GRID_KEYS
from verifier.desk.wishes import PageWish, RefusedError
from verifier.files.fields.houses import EXTRA_HOUSE
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House

__all__ = ["RULE_EDITS"]

_MOST_FILE = 40_000
"""Characters of a whole file that the page sends."""

_MOST_TEXT = 4000
"""Characters of a map of boxes or houses, of the largest grid."""


def add_rule(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - it states itself
    """Put in a mark, a line or a clue at the edge."""
    pen = PENS_OF_RULES.get(wish.text("rule", 40))
    if pen is None:
        raise RefusedError(wording.NO_SUCH_RULE)
    record = pen.record(puzzle.grid, wish)

    def state(keys: dict[str, Any]) -> None:
        keys["clues"] = [*keys.get("clues", ()), record]

    return restated(puzzle, state)


def set_key(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - it states itself
    """Say what goes for the whole grid: boxes, diagonals, chess moves, marks that are all there."""
    key = wish.text("key", 40)
    if key not in WHOLE_GRID_KEYS:
        raise RefusedError(wording.NO_SUCH_RULE)
    value: object = wish.words("words") if "words" in wish else wish.text("text", _MOST_TEXT)

    def state(keys: dict[str, Any]) -> None:
        keys.pop(key, None)
        if value:
            keys[key] = value

    return restated(without_unfit_boxes(puzzle) if key == "boxes" else puzzle, state)


def take_out(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing comes
    """Take out the rule with a number."""
    number = wish.number("rule", 0, len(puzzle.rules) - 1)
    rule = puzzle.rules[number]
    if type(rule) in (House, Given):
        raise RefusedError(wording.NO_SUCH_RULE)
    return puzzle.changed([rule])


def add_house(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - it states itself
    """Make a further house of some cells, as many as there are digits."""
    cells = wish.cells(puzzle.grid)
    further = [house.cells for house in puzzle.houses if house.kind == EXTRA_HOUSE]
    number_of = {cell: number for number, house in enumerate(further) for cell in house}
    if any(cell in number_of for cell in cells):
        raise RefusedError(wording.HOUSES_OVERLAP)
    number_of.update(dict.fromkeys(cells, len(further)))
    marks = tuple(f"h{number_of[cell]}" if cell in number_of else "." for cell in _all_cells(puzzle))

    def state(keys: dict[str, Any]) -> None:
        keys["extra_houses"] = "\n".join(" ".join(row) for row in puzzle.grid.rows_of(marks))

    return restated(puzzle, state)


def take_text(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - it states itself
    """Take over a whole puzzle as a file states it."""
    read, faults = draft_in(wish.text("text", _MOST_FILE).encode(), puzzle.credits.id)
    if read is None:
        raise RefusedError(str(faults[0]) if faults else wording.ONE_PUZZLE_ALONE)
    return read


RULE_EDITS = {
    "rule": add_rule,
    "key": set_key,
    "take_out": take_out,
    "house": add_house,
    "text": take_text,
}


def _all_cells(puzzle: Puzzle) -> tuple[int, ...]:
    return tuple(range(puzzle.grid.cell_count))
