"""Do walkthroughs give their reasons? By the structure of `walk --yaml`, whatever the words.

    python -m scripts.study_reasons                 200 walkthroughs: some minutes
    python -m scripts.study_reasons --walks 20

A step that speaks of one cage or of one sum must show why each digit that goes cannot stand, and why each
placed digit does: the other cells would make too much or too little, or each combination that it would take
is excluded, by cells that are named. A sum with unknown cells on both sides must be needed: where an easier
technique, on one cage or on a sum with all unknown cells on one side, does the same, it is not.

Printed are the steps looked at, and those that fail, by technique. Exit 1: a step fails.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, product
from math import prod
from pathlib import Path
from typing import Annotated, Any, NamedTuple

import typer
from rich.progress import track

from grader.board.board import Board, opening_board
from grader.board.steps import Step
from grader.ladder import LADDER, TECHNIQUES
from tests.reference import load, puzzle_of
from verifier.files.reading import read_file
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.puzzle import Puzzle
from verifier.walkthrough.record import as_record
from verifier.walkthrough.work import work_through

__all__ = ["needless", "unreasoned"]

ROOT = Path(__file__).resolve().parents[1]
PLAIN = {
    "last-cell-of-cage",
    "last-cells-of-cage",
    "rest-of-house",
    "rule-of-45",
    "rule-of-45-2-houses",
    "rule-of-45-3-4-houses",
    "single-combination",
    "cage-combinations",
    "derived-sum-2",
    "derived-sum-3-4",
}
"""The techniques on one cage, or on a sum with all unknown cells on one side."""
LISTING = PLAIN - {"last-cell-of-cage", "rest-of-house"} | {
    "cage-arrangements",
    "few-arrangements",
    "only-cell-in-cage",
    "only-cell-by-combinations",
    "sum-bounds",
}
"""The techniques whose steps rest on what a few cells can make together, and on nothing else."""
WAYS_AT_MOST = 4
"""So many ways to fill a few cells are gone through one by one."""
LISTED_AT_MOST = 20_000
"""So many fillings of a few cells are tried; more are not judged."""


_Fallen = set[tuple[tuple[tuple[int, int], ...], tuple[int, ...]]]
"""Combinations that are excluded, each after the candidate that is supposed for it, if any."""


class _Group(NamedTuple):
    """Cells without a digit that make a total, and what is open in them as far as a step cites it."""

    cells: tuple[int, ...]
    total: int
    open: Mapping[int, Sequence[int]]
    board: Board

    def fillings(self, cell: int, digit: int) -> Iterator[tuple[int, ...]]:
        """Yield all ways to fill the other cells if the digit stands in the cell."""
        others = [other for other in self.cells if other != cell]
        sees = self.board.layout.sees
        for filling in product(*(self.open[other] for other in others)):
            there = dict(zip((*others, cell), (*filling, digit), strict=True))
            if all(there[a] != there[b] for a, b in combinations(there, 2) if sees[a] >> b & 1):
                yield filling


def unreasoned(step: Mapping[str, Any], board: Board) -> list[str]:
    """Return the candidates that a step rules out without a reason: ``7 in r2c7``.

    Parameters
    ----------
    step : mapping
        A step of ``walk --yaml``.
    board : Board
        The board on which it is taken.
    """
    group = _group(step["because"], board)
    if group is None or step["technique"] not in LISTING:
        return []
    cell_of = {board.layout.grid.cell_name(cell): cell for cell in board.layout.grid.cells}
    gone = [(cell_of[name], digit) for name, digits in step["removes"].items() for digit in digits]
    excluded = {
        (
            tuple((cell_of[name], digit) for name, digit in each.get("with", {}).items()),
            tuple(each["combination"]),
        )
        for each in step["because"]["excluded"]
        if each["by"]
    }
    hidden = [(cell, digit) for cell, digit in gone if not _reasoned(group, cell, digit, excluded)]
    for name, digit in step["places"].items():
        cell = cell_of[name]
        others = bits(board.candidates[cell] & ~(1 << digit))
        if not (
            _few_ways(group, excluded)
            or all(_reasoned(group, cell, other, excluded) for other in others)
            or (_only_cell(group, cell, digit) and _reasoned(group, None, digit, excluded))
        ):
            hidden.append((cell, digit))
    return [f"{digit} in {board.layout.grid.cell_name(cell)}" for cell, digit in hidden]


def _few_ways(group: _Group, excluded: _Fallen) -> bool:
    """Whether a person goes through all ways to fill the cells, of the combinations that are left."""
    first, ways = group.cells[0], 0
    for digit in group.open[first]:
        for filling in group.fillings(first, digit):
            ways += sum(filling) + digit == group.total
    left = [each for each in _combinations(group, ()) if ((), each) not in excluded]
    return ways <= WAYS_AT_MOST and len(left) <= WAYS_AT_MOST


def _only_cell(group: _Group, cell: int, digit: int) -> bool:
    """Whether no other cell of the group can take a digit."""
    return all(digit not in group.open[other] for other in group.cells if other != cell)


def _group(because: Mapping[str, Any], board: Board) -> _Group | None:
    """Return the cells without a digit of the one cage or sum that a step speaks of."""
    if len(because["cages"]) + len(because["sums"]) != 1 or because["rules"]:
        return None
    cell_of = {board.layout.grid.cell_name(cell): cell for cell in board.layout.grid.cells}
    if because["cages"]:
        weights = {cell_of[name]: 1 for name in because["cages"][0]["cells"]}
        total = because["cages"][0]["total"]
    else:
        weights = {cell_of[name]: weight for name, weight in because["sums"][0]["cells"].items()}
        total = because["sums"][0]["total"]
    digit = {cell: board.candidates[cell].bit_length() - 1 for cell in weights if board.placed >> cell & 1}
    left = tuple(cell for cell in weights if cell not in digit)
    total -= sum(weights[cell] * known for cell, known in digit.items())
    if len(left) < 2 or len({weights[cell] for cell in left}) > 1:
        return None
    used = mask_of(digit.values()) if because["cages"] else 0
    everything = tuple(bits(board.layout.all_digits & ~used))
    cited = {cell_of[name]: digits for name, digits in because["candidates"].items()}
    return _Group(left, abs(total), {cell: cited.get(cell, everything) for cell in left}, board)


def _reasoned(group: _Group, cell: int | None, digit: int, excluded: _Fallen) -> bool:
    """Whether it is shown why a digit cannot stand in a cell of the group; elsewhere, why it is in it."""
    if cell is None or cell not in group.cells:  # the group must hold the digit: what it makes without it
        without = {each: [d for d in group.open[each] if d != digit] for each in group.cells}
        bare = group._replace(open=without)
        first = group.cells[0]
        made = [sum(rest) + digit for digit in without[first] for rest in bare.fillings(first, digit)]
        if not made or min(made) > group.total or max(made) < group.total:
            return True
        return all(((), combination) in excluded for combination in _combinations(bare, ()))
    if prod(len(group.open[other]) for other in group.cells if other != cell) > LISTED_AT_MOST:
        return True
    made = [sum(filling) + digit for filling in group.fillings(cell, digit)]
    if not made or min(made) > group.total or max(made) < group.total:
        return True
    if len(group.cells) == 2 and group.total not in made:
        return True  # the other cell has no partner for it, which shows
    listed = set(_combinations(group, ((cell, digit),)))
    return all(
        (((cell, digit),), rest) in excluded or ((), tuple(sorted((*rest, digit)))) in excluded
        for rest in listed
    )


def _combinations(group: _Group, supposed: Sequence[tuple[int, int]]) -> Iterator[tuple[int, ...]]:
    """Yield the combinations of different digits that the cells could hold by their total alone."""
    size = len(group.cells) - len(supposed)
    total = group.total - sum(digit for _, digit in supposed)
    digits = sorted({digit for cell in group.cells for digit in group.open[cell]} - {d for _, d in supposed})
    return (chosen for chosen in combinations(digits, size) if sum(chosen) == total)


def needless(step: Mapping[str, Any], board: Board) -> bool:
    """Whether a step speaks of a difference, with unknown cells on both sides, where it need not."""
    names = board.layout.grid.cell_name
    for told in step["because"]["sums"]:
        unknown = {
            weight
            for cell in board.layout.grid.cells
            for name, weight in told["cells"].items()
            if name == names(cell) and not board.placed >> cell & 1
        }
        if len(unknown) > 1:
            wanted = {(name, digit) for name, digits in step["removes"].items() for digit in digits}
            everywhere = board.looking_at(board.layout.all_cells)
            return any(
                wanted <= {(names(cell), digit) for cell, gone in found.removes for digit in bits(gone)}
                for technique in LADDER
                if technique.id in PLAIN
                for found in technique.find(everywhere)
            )
    return False


def _puzzles() -> Iterator[Puzzle]:
    """Yield the killers of the corpus, then those of the reference data, then classics."""
    for path in sorted((ROOT / "corpus" / "killers").glob("*.yaml")):
        yield from (entry.puzzle for entry in read_file(path) if entry.puzzle is not None)
    for name in ("killer", "killer_derived", "classic_human"):
        yield from (puzzle_of(record) for record in load(f"{name}.jsonl"))


def main(walks: Annotated[int, typer.Option(help="How many walkthroughs.")] = 200) -> None:
    """Print what was found."""
    steps, silent, twisted = Counter[str](), Counter[str](), Counter[str]()
    puzzles = [puzzle for _, puzzle in zip(range(walks), _puzzles(), strict=False)]
    for puzzle in track(puzzles, "Walking"):
        board = opening_board(puzzle)
        for step in as_record(work_through(puzzle))["steps"]:
            steps[step["technique"]] += 1
            silent[step["technique"]] += bool(unreasoned(step, board))
            twisted[step["technique"]] += needless(step, board)
            board = board.after([_as_step(step, board)])
    for name in [*TECHNIQUES, ""]:
        counts = [each[name] if name else each.total() for each in (steps, silent, twisted)]
        if not name or any(counts[1:]):
            print(f"{name or 'all'}: {counts[0]} steps, {counts[1]} without a reason, {counts[2]} needless")
    raise typer.Exit(int(bool(silent.total() or twisted.total())))


def _as_step(step: Mapping[str, Any], board: Board) -> Step:
    """Return what a step of the record does."""
    cell_of = {board.layout.grid.cell_name(cell): cell for cell in board.layout.grid.cells}
    return Step(
        step["technique"],
        places=tuple((cell_of[name], digit) for name, digit in step["places"].items()),
        removes=tuple((cell_of[name], mask_of(digits)) for name, digits in step["removes"].items()),
    )


if __name__ == "__main__":
    typer.run(main)
