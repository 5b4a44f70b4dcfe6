"""Reading the rules of the whole grid: ``no_repeats: [knight, king]``, ``not_consecutive: yes``."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import shape_of, text_of
from verifier.files.text.nodes import KeysNode, ListNode, Node
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import apart
from verifier.puzzle.rules.chess_move import MOVES, ChessMove
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.rule import Rule

__all__ = ["WHOLE_GRID", "read_whole_grid", "yes_in"]

_NEIGHBOURS = ((0, 1), (1, 0))


def _no_repeats(node: Node, grid: Grid, report: FaultReport) -> list[Rule]:
    field = ChessMove.word
    if isinstance(node, KeysNode):
        report.add("pieces-shape", node.line, field, what=shape_of(node))
        return []
    pieces: dict[str, None] = {}
    for item in node.items if isinstance(node, ListNode) else [node]:
        text = text_of(item, field, report)
        if text is not None and text not in MOVES:
            report.add("piece", item.line, field, choices=tuple(MOVES), word=text)
        elif text is not None:
            pieces[text] = None
    return [ChessMove(piece, apart(grid, MOVES[piece])) for piece in pieces]


def _not_consecutive(node: Node, grid: Grid, report: FaultReport) -> list[Rule]:
    said = yes_in(node, NotConsecutive.word, report)
    return [NotConsecutive(apart(grid, _NEIGHBOURS))] if said else []


WHOLE_GRID: Mapping[str, Callable[[Node, Grid, FaultReport], list[Rule]]] = {
    ChessMove.word: _no_repeats,
    NotConsecutive.word: _not_consecutive,
}
"""Who reads each key."""


def read_whole_grid(fields: Mapping[str, Node], grid: Grid, report: FaultReport) -> list[Rule]:
    """Return the rules of the whole grid that a file states."""
    found = (read(fields[key], grid, report) for key, read in WHOLE_GRID.items() if key in fields)
    return [rule for rules in found for rule in rules]


def yes_in(node: Node, field: str, report: FaultReport) -> bool:
    """Whether a node says yes; anything but yes and no is a fault."""
    text = text_of(node, field, report)
    if text is not None and text not in ("yes", "no"):
        report.add("yes-or-no", node.line, field, choices=("yes", "no"), word=text)
    return text == "yes"
