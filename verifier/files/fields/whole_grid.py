"""Reading the rules of the whole grid: ``no_repeats: [knight, king]``, ``not_consecutive: yes``."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import NamedTuple

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import shape_of, text_of, yes_in
from verifier.files.text.nodes import KeysNode, ListNode, Node
from verifier.puzzle.all_marked import KINDS_OF_MARKS, all_marked
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import BESIDE, apart
from verifier.puzzle.rules.chess_move import MOVES, ChessMove
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.rule import Rule

__all__ = ["WHOLE_GRID", "Stated", "read_whole_grid"]


class Stated(NamedTuple):
    """What is known of a puzzle when these keys are read: its grid, and the rules that its clues state."""

    grid: Grid
    clues: Sequence[Rule]


def _no_repeats(node: Node, stated: Stated, report: FaultReport) -> list[Rule]:
    if isinstance(node, KeysNode):
        report.add("pieces-shape", node.line, ChessMove.word, what=shape_of(node))
        return []
    pieces = _words(node, ChessMove.word, tuple(MOVES), "piece", report)
    return [ChessMove(piece, apart(stated.grid, MOVES[piece])) for piece in pieces]


def _words(node: Node, field: str, allowed: Collection[str], fault: str, report: FaultReport) -> list[str]:
    """Return the words of a list, each once, or the one word that stands in its place."""
    words: dict[str, None] = {}
    for item in node.items if isinstance(node, ListNode) else [node]:
        text = text_of(item, field, report)
        if text is not None and text not in allowed:
            report.add(fault, item.line, field, choices=allowed, word=text)
        elif text is not None:
            words[text] = None
    return list(words)


def _not_consecutive(node: Node, stated: Stated, report: FaultReport) -> list[Rule]:
    said = yes_in(node, NotConsecutive.word, report)
    return [NotConsecutive(apart(stated.grid, BESIDE))] if said else []


def _all_marked(node: Node, stated: Stated, report: FaultReport) -> list[Rule]:
    if isinstance(node, KeysNode):
        report.add("marks-shape", node.line, Unmarked.word, what=shape_of(node))
        return []
    kinds = _words(node, Unmarked.word, KINDS_OF_MARKS, "marks-kind", report)
    return [*all_marked(stated.grid, kinds, stated.clues)]


WHOLE_GRID: Mapping[str, Callable[[Node, Stated, FaultReport], list[Rule]]] = {
    ChessMove.word: _no_repeats,
    NotConsecutive.word: _not_consecutive,
    Unmarked.word: _all_marked,
}
"""Who reads each key."""


def read_whole_grid(
    fields: Mapping[str, Node], grid: Grid, clues: Sequence[Rule], report: FaultReport
) -> list[Rule]:
    """Return the rules of the whole grid that a file states, beside those of its clues."""
    stated = Stated(grid, clues)
    found = (read(fields[key], stated, report) for key, read in WHOLE_GRID.items() if key in fields)
    return [rule for rules in found for rule in rules]
