"""Drawing every other rule: as the file would state it, read by the reader of files with all its checks."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import yaml

from verifier.desk import wording
from verifier.desk.pens import PENS_OF_RULES, WHOLE_GRID_KEYS
from verifier.desk.wishes import PageWish, RefusedError
from verifier.files.faults import FaultReport
from verifier.files.fields.houses import EXTRA_HOUSE
from verifier.files.limits import DEFAULT_LIMITS
from verifier.files.reading import read_text
from verifier.files.records import read_record
from verifier.files.text.nodes import compose_json
from verifier.files.writing import write_puzzle
from verifier.puzzle.grid import Filling
from verifier.puzzle.printable import filled
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

    return _restated(puzzle, state)


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

    return _restated(puzzle, state)


def take_out(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - nothing comes
    """Take out the rule with a number."""
    number = wish.number("rule", 0, len(puzzle.rules) - 1)
    rule = puzzle.rules[number]
    if type(rule) in (House, Given):
        raise RefusedError(wording.NO_SUCH_RULE)
    return puzzle.changed([rule])


def exchange(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - boxes alone
    """Exchange two cells between their boxes, which keep their sizes."""
    one, other = _two(wish.cells(puzzle.grid))
    boxes = [house for house in puzzle.houses if house.kind == "box"]
    mine, theirs = ([box for box in boxes if cell in box.cells] for cell in (one, other))
    if not mine or not theirs or mine == theirs:
        raise RefusedError(wording.TWO_BOXES)
    number_of = {cell: number for number, box in enumerate(boxes) for cell in box.cells}
    number_of[one], number_of[other] = number_of[other], number_of[one]
    drawn = [" ".join(f"b{number_of[c]}" for c in row) for row in puzzle.grid.rows_of(_all_cells(puzzle))]

    def state(keys: dict[str, Any]) -> None:
        keys["boxes"] = "\n".join(drawn)

    return _restated(puzzle, state)


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

    return _restated(puzzle, state)


def take_text(puzzle: Puzzle, wish: PageWish, known: Filling | None) -> Puzzle:  # noqa: ARG001 - it states itself
    """Take over a whole puzzle as a file states it."""
    entries = list(read_text(wish.text("text", _MOST_FILE).encode(), puzzle.credits.id))
    read = entries[0].puzzle if len(entries) == 1 else None
    if read is None:
        faults = [fault for entry in entries for fault in entry.faults]
        raise RefusedError(str(faults[0]) if faults else wording.ONE_PUZZLE_ALONE)
    return read


RULE_EDITS = {
    "rule": add_rule,
    "key": set_key,
    "take_out": take_out,
    "exchange": exchange,
    "house": add_house,
    "text": take_text,
}


def _two(cells: tuple[int, ...]) -> tuple[int, int]:
    if len(cells) != 2:
        raise RefusedError(wording.TWO_BOXES)
    return cells[0], cells[1]


def _all_cells(puzzle: Puzzle) -> tuple[int, ...]:
    return tuple(range(puzzle.grid.cell_count))


def _restated(puzzle: Puzzle, state: Callable[[dict[str, Any]], None]) -> Puzzle:
    """Return the puzzle that a file would be, were it stated otherwise.

    Raises
    ------
    RefusedError
        With what the reader says against it.
    """
    keys: dict[str, Any] = yaml.load(write_puzzle(puzzle), Loader=yaml.CBaseLoader)
    state(keys)
    report = FaultReport("", DEFAULT_LIMITS.faults)
    node = compose_json(json.dumps(_plain(keys)), 1, DEFAULT_LIMITS, report)
    read = None if node is None else read_record(node, puzzle.credits.id, DEFAULT_LIMITS, report)
    if read is None:
        fault = report.faults()[0]
        raise RefusedError(filled(wording.NOT_SO, found=fault.found, allowed=fault.allowed, cure=fault.cure))
    return replace(read, credits=puzzle.credits)


def _plain(keys: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in keys.items() if value not in (None, "", [])}
