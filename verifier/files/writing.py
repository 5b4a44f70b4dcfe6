"""Writing puzzle files: YAML, format 1, laid out for people to read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import yaml

from verifier.files.fields.cage_map import NO_CAGE
from verifier.files.fields.clues import CLUES
from verifier.files.fields.houses import DIAGONALS, EXTRA_HOUSE
from verifier.files.fields.lookalikes import DISTINCT_LETTERS
from verifier.files.fields.maps import BLOCKED, draw_map
from verifier.files.fields.sizes import NO_BOXES
from verifier.files.fields.whole_grid import WHOLE_GRID
from verifier.files.kakuro_writing import givens_map, kakuro_lines
from verifier.files.records import FORMAT
from verifier.puzzle.grid import USUAL_BOXES, Grid
from verifier.puzzle.puzzle import KAKURO, Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.rule import Rule

__all__ = ["write_puzzle"]

_WIDTH = 100
"""Characters of a line of totals; the rows of a map may be longer."""

_LONGEST_ESCAPE = len(r"\U0001F600")


def write_puzzle(puzzle: Puzzle) -> str:
    """Write a puzzle as a file that reads back equal.

    Parameters
    ----------
    puzzle : Puzzle
        Its cages must not overlap, nor its extra houses. A kakuro is drawn as a map where that can say
        it, else its runs are listed.

    Returns
    -------
    str
        YAML, format 1. Credits that are None, and an empty id, are left out.

    Raises
    ------
    ValueError
        When cages overlap: a map cannot show them, and no killer has them. When the puzzle has what no key of
        the file says: other houses than those of the grid, rules of another kind, blocked cells.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> print(write_puzzle(make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1, 4), 6)])))
    format: 1
    puzzle: killer
    grid: 4x4
    cages: |
      a a . .
      a . . .
      . . . .
      . . . .
    totals: {a: 6}
    <BLANKLINE>
    """
    if puzzle.kind == KAKURO:
        return "".join((*_head(puzzle), *kakuro_lines(puzzle), *_solution(puzzle)))
    known = {House.word, Given.word, *WHOLE_GRID, *CLUES}
    others = sorted({rule.word for rule in puzzle.rules if rule.word not in known and not rule.is_cage})
    if others:
        raise ValueError(f"no file can say these rules yet: {', '.join(others)}")
    if puzzle.all_cages and puzzle.kind == "classic":
        raise ValueError("no file can say cages in a classic")
    grid = puzzle.grid
    if grid.blocked or grid.rows != grid.columns or grid.rows != grid.digits:
        raise ValueError(f"no file can say a grid of {grid.name} with blocked cells or such digits yet")
    if puzzle.houses != _sayable_houses(puzzle):
        raise ValueError("no file can say houses of this kind")
    extra = [cell for house in puzzle.houses if house.kind == EXTRA_HOUSE for cell in house.cells]
    if len(set(extra)) < len(extra):
        raise ValueError("no file can say extra houses that overlap")
    if any(arrow.circle != tuple(sorted(arrow.circle)) for arrow in rules_of(puzzle.rules, Arrow)):
        raise ValueError("no file can say an arrow whose tens stand to the right of its units or below them")
    return "".join((*_head(puzzle), *_lines(puzzle), *_solution(puzzle)))


def _sayable_houses(puzzle: Puzzle) -> tuple[House, ...]:
    """Return those of a puzzle's houses that a file can say, as reading it would order them."""
    grid, houses = puzzle.grid, puzzle.houses
    boxes = () if grid.box_rows else [house for house in houses if house.kind == "box"]
    diagonals = [house for house in grid.diagonals if house in houses]
    extra = [house for house in houses if house.kind == EXTRA_HOUSE]
    full = (house for house in (*boxes, *diagonals, *extra) if len(house.cells) == grid.digits)
    return (*grid.houses, *full)


def _head(puzzle: Puzzle) -> Iterator[str]:
    yield f"format: {FORMAT}\npuzzle: {puzzle.kind}\n"
    for key in ("id", "title", "setter"):
        text = getattr(puzzle.credits, key)
        if text is not None and (key, text) != ("id", ""):
            yield f"{key}: {_scalar(text)}\n"
    yield f"grid: {puzzle.grid.name}\n"


def _lines(puzzle: Puzzle) -> Iterator[str]:
    grid = puzzle.grid
    yield from _houses(puzzle)
    if len(puzzle.all_cages) > len(puzzle.cages):
        yield from _cage_list(puzzle.all_cages, grid)
    elif puzzle.cages:
        marks = _marks(len(puzzle.cages))
        yield _cage_map(puzzle.cages, marks, grid)
        yield _totals(puzzle.cages, marks)
    yield from _clues(puzzle)
    if puzzle.givens:
        yield givens_map(puzzle)


def _solution(puzzle: Puzzle) -> Iterator[str]:
    grid = puzzle.grid
    if puzzle.solution is not None:
        solution = puzzle.solution
        yield draw_map("solution", grid, lambda cell: str(solution[cell] or BLOCKED))


def _houses(puzzle: Puzzle) -> Iterator[str]:
    grid, houses = puzzle.grid, puzzle.houses
    boxes = [house for house in houses if house.kind == "box"]
    if not boxes:
        yield f"boxes: {NO_BOXES}\n"
    elif not grid.box_rows:
        yield _house_map("boxes", boxes, grid)
    elif (grid.box_rows, grid.box_columns) != USUAL_BOXES.get(grid.digits):
        yield f"boxes: {grid.boxes_name}\n"
    drawn = tuple(number for number, house in enumerate(grid.diagonals) if house in houses)
    if drawn:
        yield f"diagonals: {next(word for word, numbers in DIAGONALS.items() if numbers == drawn)}\n"
    extra = [house for house in houses if house.kind == EXTRA_HOUSE]
    if extra:
        yield _house_map("extra_houses", extra, grid)
    for key in WHOLE_GRID:
        said = [rule.record(grid)[key] for rule in puzzle.rules if rule.word == key]
        if said:
            yield f"{key}: {said[0]}\n" if len(said) == 1 else f"{key}: [{', '.join(said)}]\n"


def _house_map(key: str, houses: Sequence[House], grid: Grid) -> str:
    mark_of = {
        cell: mark for mark, house in zip(_marks(len(houses)), houses, strict=True) for cell in house.cells
    }
    return draw_map(key, grid, lambda cell: mark_of.get(cell, NO_CAGE))


def _scalar(text: str) -> str:
    """Return text as YAML writes it on one line, in quotes where it must be."""
    written = yaml.dump(
        [text],  # as an item, because YAML ends a document that is a text alone with a line "..."
        Dumper=yaml.CSafeDumper,
        default_style=None if text.isprintable() else '"',
        default_flow_style=False,
        allow_unicode=True,
        width=80 + _LONGEST_ESCAPE * len(text),  # else a long text goes on in a second line
    )
    return str(written).removeprefix("- ").removesuffix("\n")


def _marks(number: int) -> list[str]:
    """Return as many marks, none like another: letters, and for a great many cages letters with a number."""
    letters = DISTINCT_LETTERS
    if number <= len(letters):
        return list(letters[:number])
    return [f"{letters[n % len(letters)]}{n // len(letters) + 1}" for n in range(number)]


def _cage_map(cages: tuple[Cage, ...], marks: list[str], grid: Grid) -> str:
    mark_of: dict[int, str] = {}
    for mark, cage in zip(marks, cages, strict=True):
        if any(cell in mark_of for cell in cage.cells):
            raise ValueError(f"cages overlap in {grid.cell_names(c for c in cage.cells if c in mark_of)}")
        mark_of.update(dict.fromkeys(cage.cells, mark))
    return draw_map("cages", grid, lambda cell: mark_of.get(cell, NO_CAGE))


def _cage_list(cages: tuple[Rule, ...], grid: Grid) -> Iterator[str]:
    """Yield cages of which some have no total or may repeat digits: a map says neither."""
    cells = [cell for cage in cages for cell in cage.cells]
    if len(set(cells)) < len(cells):
        raise ValueError(f"cages overlap in {grid.cell_names(c for c in set(cells) if cells.count(c) > 1)}")
    yield "cages:\n"
    for cage in cages:
        parts = {key: value for key, value in cage.record(grid).items() if key != "cells"}
        facts = "".join(f"{key}: {value}, " for key, value in parts.items())
        yield f"  - {{{facts}cells: [{', '.join(map(grid.cell_name, cage.cells))}]}}\n"


def _totals(cages: tuple[Cage, ...], marks: list[str]) -> str:
    lines = ["totals: {"]
    for mark, cage in zip(marks, cages, strict=True):
        entry = f"{mark}: {cage.total}, "
        if len(lines[-1]) + len(entry) > _WIDTH:
            lines.append("  ")
        lines[-1] += entry
    return "\n".join(line.rstrip() for line in lines).removesuffix(",") + "}\n"


def _clues(puzzle: Puzzle) -> Iterator[str]:
    clues = [rule.record(puzzle.grid) for rule in puzzle.rules if rule.word in CLUES]
    yield "clues:\n" if clues else ""
    for clue in clues:
        parts = ", ".join(f"{key}: {value}" for key, value in clue.items())
        yield f"  - {{{parts}}}\n"
