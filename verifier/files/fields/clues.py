"""Reading marks, lines and clues: ``- {greater: r1c1 r1c2}``, one reader a rule in the table `CLUES`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from verifier.files.faults import FaultReport
from verifier.files.fields.cells import read_cells_in_order
from verifier.files.fields.fields import read_keys, shape_of
from verifier.files.text.nodes import KeysNode, ListNode, Node, TextNode
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import beside
from verifier.puzzle.printable import counted
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.rule import Rule

__all__ = ["CLUES", "Clue", "read_clues"]


class Clue(NamedTuple):
    """How clues of a kind are read.

    Parameters
    ----------
    read : callable
        Takes the values of the clue by key, what messages call the clue, the grid, and the report.
    others : tuple of str
        The keys that a clue of this kind has beside its name; none may be missing.
    """

    read: Callable[[Mapping[str, Node], str, Grid, FaultReport], Rule | None]
    others: tuple[str, ...] = ()


def _two_neighbours(node: Node, where: str, grid: Grid, report: FaultReport) -> tuple[int, ...] | None:
    """Return two cells that have a border in common, in the order in which they are written."""
    cells = read_cells_in_order(node, where, grid, report)
    if cells is None:
        return None
    if len(cells) != 2:
        report.add("clue-cells", node.line, where, found=counted(len(cells), "cell"), wanted="two neighbours")
        return None
    if cells[1] not in beside(grid, cells[0]):
        one, other = map(grid.cell_name, cells)
        report.add("not-neighbours", node.line, where, one=one, other=other)
        return None
    return cells


def _greater(fields: Mapping[str, Node], where: str, grid: Grid, report: FaultReport) -> Greater | None:
    cells = _two_neighbours(fields[Greater.word], where, grid, report)
    return Greater(cells) if cells else None


CLUES: Mapping[str, Clue] = {
    Greater.word: Clue(_greater),
}
"""The kinds of clues, by the word that names them: the `word` of the rule."""


def read_clues(node: Node, grid: Grid, report: FaultReport) -> list[Rule]:
    """Return the rules that the clues of a file state, in its order."""
    if not isinstance(node, ListNode):
        report.add("clues-shape", node.line, "clues", what=shape_of(node))
        return []
    found: dict[Rule, int] = {}
    for number, item in enumerate(node.items, start=1):
        rule = _read_clue(item, f"clue {number}", grid, report)
        if rule is None:
            continue
        first = found.setdefault(rule, number)
        if first != number:
            report.add("clue-twice", item.line, f"clue {number}", first=first)
    return list(found)


def _read_clue(item: Node, where: str, grid: Grid, report: FaultReport) -> Rule | None:
    keys = (
        [key.text for key, _ in item.pairs if isinstance(key, TextNode)] if isinstance(item, KeysNode) else []
    )
    if not isinstance(item, KeysNode) or not keys:
        report.add(
            "clue-shape",
            item.line,
            where,
            what="nothing" if item == KeysNode([], item.line) else shape_of(item),
        )
        return None
    named = next((key for key in keys if key in CLUES), None)
    if named is None:
        kinds = tuple(CLUES)
        report.add("clue-name", item.line, where, choices=kinds, word=keys[0], allowed=", ".join(kinds))
        return None
    clue, before = CLUES[named], report.count
    fields = read_keys(item, (named, *clue.others), where, report)
    for key in (named, *clue.others):
        if key not in fields and report.count == before:
            report.add("clue-part", item.line, where, key=key)
    return clue.read(fields, where, grid, report) if report.count == before else None
