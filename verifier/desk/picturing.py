"""What the page shows of a puzzle: its picture, drawn as on every page, and what a screen reader says."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from grader.grading.tiers import TierTable
from verifier.desk.drafting.unfinished import boxes_of, total_of, unfit_boxes
from verifier.diagnosis.repairs.changes import Change, changed
from verifier.evidence.establish import Evidence
from verifier.pages.drawing.figure import frame_of
from verifier.pages.drawing.highlight import Highlight
from verifier.pages.drawing.look import CELL
from verifier.pages.drawing.svg import Picture, drawing, pointed_at
from verifier.pages.styling import definitions, grid_style
from verifier.pages.verdict_page import chart_of_rounds
from verifier.pages.wording import grid_label
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.verdict.style.style import HouseStyle

__all__ = ["change_pictured", "chart_of", "puzzle_shown", "swings_pictured"]


def puzzle_shown(puzzle: Puzzle) -> dict[str, Any]:
    """Return all that the page needs to show a puzzle and to draw in it."""
    grid, frame = puzzle.grid, frame_of(puzzle)
    return {
        "svg": drawing(Picture(puzzle), grid_label(puzzle, len(puzzle.givens))),
        "style": grid_style(puzzle),
        "signs": definitions(puzzle),
        "rows": grid.rows,
        "columns": grid.columns,
        "digits": grid.digits,
        "blocked": list(grid.blocked),
        "frame": [frame.left, frame.top, frame.width, frame.height, CELL],
        "cells": _cells_said(puzzle),
        "givens": puzzle.givens,
        "cages": [[list(cage.cells), total_of(cage)] for cage in puzzle.all_cages],
        "unfit": [[box.cells[0], len(box.cells)] for box in unfit_boxes(puzzle)],
        "kakuro": puzzle.kind == KAKURO,
        "rules": [
            [number, rule.called(grid), list(rule.cells)]
            for number, rule in enumerate(puzzle.rules)
            if type(rule) not in (House, Given) and not rule.is_cage
        ],
        "grid": _whole_grid(puzzle),
        "title": puzzle.credits.title or "",
        "setter": puzzle.credits.setter or "",
        "puzzle": puzzle.kind,
        "meant": puzzle.solution is not None,
    }


def _cells_said(puzzle: Puzzle) -> list[str]:
    """Return what each cell is called and what stands in it."""
    grid, word = puzzle.grid, "run" if puzzle.kind == KAKURO else "cage"
    said = [[grid.cell_name(cell)] for cell in range(grid.cell_count)]
    for cell in grid.blocked:
        said[cell].append("blocked")
    for cell, digit in puzzle.givens:
        said[cell].append(f"given {digit}")
    for cage in puzzle.all_cages:
        total = f"{word} of {total_of(cage)}" if total_of(cage) is not None else f"{word}, total to come"
        for cell in cage.cells:
            said[cell].append(total)
    for box in () if grid.box_rows else boxes_of(puzzle):
        for cell in box.cells:
            said[cell].append(box.name)
    return [", ".join(parts) for parts in said]


def _whole_grid(puzzle: Puzzle) -> dict[str, Any]:
    """Return what is said of the grid as a whole, by the keys of the file."""
    grid = puzzle.grid
    said: dict[str, Any] = {"no_repeats": [], "all_marked": [], "not_consecutive": False}
    for rule in puzzle.rules:
        if rule.word in said:
            value = rule.record(grid)[rule.word]
            said[rule.word] = [*said[rule.word], value] if isinstance(said[rule.word], list) else True
    said["diagonals"] = [house in puzzle.houses for house in grid.diagonals]
    return said


def swings_pictured(puzzle: Puzzle, cells: Sequence[int]) -> str:
    """Return the layer of a picture that marks the cells in which solutions differ."""
    return pointed_at(Picture(puzzle, highlight=Highlight(swings=tuple(cells))))["under"]


def change_pictured(puzzle: Puzzle, changes: Sequence[Change]) -> str:
    """Return the picture of a puzzle as it would be, with what is changed marked."""
    marked = tuple(sorted({cell for change in changes for cell in change.seen_at}))
    says = "; ".join(change.says(puzzle.grid) for change in changes)
    return drawing(Picture(changed(puzzle, changes), highlight=Highlight(focus=marked)), says)


def chart_of(evidence: Evidence, style: HouseStyle) -> str:
    """Return the strip of rounds of a solve; nothing where there is none."""
    tiers: TierTable = style.tiers_to_grade_with()
    return "" if evidence.replay is None else chart_of_rounds(evidence.replay, tiers)
