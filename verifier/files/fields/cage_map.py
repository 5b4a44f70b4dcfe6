"""Reading cages drawn as a map of marks, with a total for each mark."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from verifier.files.faults import FaultReport
from verifier.files.fields.cage_drafts import Draft, Missed, rest_in_words, with_totals
from verifier.files.fields.fields import shape_of, total_in, twice_on
from verifier.files.fields.lookalikes import outline
from verifier.files.fields.maps import Mark, read_map
from verifier.files.text.nodes import KeysNode, ListNode, Node, TextNode
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.printable import counted, listed
from verifier.puzzle.rules.rule import Rule

__all__ = ["NO_CAGE", "DrawnCages", "read_cage_map"]

NO_CAGE = "."
"""The mark of a cell that is in no cage."""


class DrawnCages(NamedTuple):
    """The cages of a map, and its marks, one for each cell."""

    cages: list[Rule]
    marks: tuple[str, ...]


class _Total(NamedTuple):
    """What a file gives as the total of a mark."""

    node: Node
    line: int


def read_cage_map(
    node: Node, totals: Node | None, grid: Grid, solution: Filling | None, report: FaultReport
) -> DrawnCages:
    """Return the cages of a map, in the order of their first cells.

    Parameters
    ----------
    node : Node
        The map: the same mark, the same cage; ``.`` where there is none.
    totals : Node or None
        The total of each mark; or the totals alone, in the order of the cages.
    grid : Grid
        The cells there are.
    solution : Filling or None
        The solution that the file brings: totals that are left out follow from it.
    report : FaultReport
        Takes the faults.
    """
    drawn = read_map(node, "cages", grid, True, report)
    marks: dict[str, list[Mark]] = {}
    for mark in drawn:
        if mark.text != NO_CAGE:
            marks.setdefault(mark.text, []).append(mark)
    if totals is None and solution is None and marks:
        example = "totals: {a: 15, b: 7}"
        report.add("missing-key", node.line, "totals", allowed="a total for each mark", example=example)
        return DrawnCages([], ())
    whole = len({mark.row for mark in drawn}) >= grid.rows  # where a row is missing, so may be cages
    by_mark = {} if totals is None else _totals_by_mark(totals, marks, whole, grid, report)
    if by_mark is None:
        return DrawnCages([], ())
    drafts = list(_drafts(marks, by_mark, grid))
    return DrawnCages(with_totals(drafts, grid, solution, report), tuple(mark.text for mark in drawn))


def _totals_by_mark(
    node: Node, marks: Mapping[str, list[Mark]], whole: bool, grid: Grid, report: FaultReport
) -> dict[str, _Total] | None:
    if isinstance(node, ListNode):
        return _totals_in_order(node, marks, whole, grid, report)
    if not isinstance(node, KeysNode):
        report.add("totals-shape", node.line, "totals", what=shape_of(node))
        return None
    totals: dict[str, _Total] = {}
    for key, value in node.pairs:
        if not isinstance(key, TextNode):
            report.add("key-shape", key.line, "totals", what=shape_of(key))
            continue
        word, total = _divided(key, value, marks)
        if word in totals:
            lines = twice_on(totals[word].line, key.line)
            report.add("repeated-key", key.line, "totals", word=word, lines=lines)
            continue
        totals[word] = _Total(total, key.line)
        if whole and word not in marks:
            report.add("total-without-cells", key.line, "totals", word=word)
    return totals


def _totals_in_order(
    node: ListNode, marks: Mapping[str, list[Mark]], whole: bool, grid: Grid, report: FaultReport
) -> dict[str, _Total] | None:
    if len(node.items) == len(marks):
        return {word: _Total(item, item.line) for word, item in zip(marks, node.items, strict=True)}
    if whole:
        one_short = len(node.items) == len(marks) - 1
        cells = [mark.cell for places in marks.values() for mark in places if mark.cell is not None]
        hint = rest_in_words(cells, map(total_in, node.items), grid) if one_short else ""
        found, wanted = counted(len(node.items), "total"), counted(len(marks), "total")
        facts = {"found": found, "wanted": wanted, "marks": ", ".join(marks)}
        report.add("totals-count", node.line, "totals", None, (), hint, **facts)
    return None


def _divided(key: TextNode, value: Node, marks: Mapping[str, list[Mark]]) -> tuple[str, Node]:
    """Return mark and total; of ``a:15``, which YAML takes for a key without a value, the two parts."""
    if key.text not in marks and not key.style and isinstance(value, TextNode) and value.absent:
        word, _, total = key.text.partition(":")
        return (word, TextNode(total, key.line)) if word else (key.text, value)
    return key.text, value


def _drafts(marks: Mapping[str, list[Mark]], totals: Mapping[str, _Total], grid: Grid) -> Iterator[Draft]:
    strays = {_slip(word): word for word in totals if word not in marks}
    for word, places in marks.items():
        where = listed(dict.fromkeys(_place_name(place, grid) for place in places))
        facts = {"word": word, "places": where}
        yield Draft(
            tuple(mark.cell for mark in places if mark.cell is not None),
            totals[word].node if word in totals else None,
            f"totals, {word}",
            Missed("mark-without-total", places[0].line, "cages", facts, strays.get(_slip(word))),
        )


def _slip(mark: str) -> str:
    """Return what is the same for marks of which one is easily typed for another."""
    return outline(mark).casefold()


def _place_name(mark: Mark, grid: Grid) -> str:
    return f"row {mark.row}" if mark.cell is None else grid.cell_name(mark.cell)
