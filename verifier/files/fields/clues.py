"""Reading marks, lines and clues: ``- {greater: r1c1 r1c2}``, one reader a rule in the table `CLUES`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from verifier.files.clues.clue import ClueText
from verifier.files.clues.edge_clues import read_little_killer, read_sandwich, read_skyscraper
from verifier.files.clues.line_clues import (
    read_arrow,
    read_between,
    read_palindrome,
    read_region_sum,
    read_renban,
    read_thermometer,
    read_whisper,
)
from verifier.files.clues.mark_clues import (
    read_consecutive,
    read_difference,
    read_even,
    read_greater,
    read_odd,
    read_pair_sum,
    read_quadruple,
    read_ratio,
)
from verifier.files.faults import FaultReport
from verifier.files.fields.fields import read_keys, shape_of
from verifier.files.text.nodes import KeysNode, ListNode, Node, TextNode
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule

__all__ = ["CLUES", "ClueKind", "read_clues"]

_MOST_A_CELL = 4
"""Clues that a grid takes for each of its cells: many more than there is room for."""


class ClueKind(NamedTuple):
    """How clues of a kind are read.

    Parameters
    ----------
    read : callable
        Takes what the file says, and tells every fault.
    others : tuple of str
        The keys that a clue of this kind has beside its name; none may be missing.
    """

    read: Callable[[ClueText], Rule | None]
    others: tuple[str, ...] = ()


CLUES: Mapping[str, ClueKind] = {
    Greater.word: ClueKind(read_greater),
    Consecutive.word: ClueKind(read_consecutive),
    Ratio.word: ClueKind(read_ratio, ("cells",)),
    Difference.word: ClueKind(read_difference, ("cells",)),
    PairSum.word: ClueKind(read_pair_sum, ("cells",)),
    Even.word: ClueKind(read_even),
    Odd.word: ClueKind(read_odd),
    Thermometer.word: ClueKind(read_thermometer),
    Arrow.word: ClueKind(read_arrow, ("cells",)),
    Palindrome.word: ClueKind(read_palindrome),
    Renban.word: ClueKind(read_renban),
    Whisper.word: ClueKind(read_whisper, ("cells",)),
    Between.word: ClueKind(read_between),
    RegionSum.word: ClueKind(read_region_sum),
    Sandwich.word: ClueKind(read_sandwich, ("line",)),
    Skyscraper.word: ClueKind(read_skyscraper, ("line", "from")),
    LittleKiller.word: ClueKind(read_little_killer, ("cells",)),
    Quadruple.word: ClueKind(read_quadruple, ("cells",)),
}
"""The kinds of clues, by the word that names them: the `word` of the rule."""


def read_clues(node: Node, grid: Grid, houses: tuple[House, ...], report: FaultReport) -> list[Rule]:
    """Return the rules that the clues of a file state, in its order."""
    if not isinstance(node, ListNode):
        report.add("clues-shape", node.line, "clues", what=shape_of(node))
        return []
    most = _MOST_A_CELL * grid.cell_count
    if len(node.items) > most:
        report.add("clues-many", node.line, "clues", found=len(node.items), most=most)
        return []
    found: dict[Rule, int] = {}
    for number, item in enumerate(node.items, start=1):
        rule = _read_clue(item, f"clue {number}", grid, houses, report)
        if rule is None:
            continue
        first = found.setdefault(rule, number)
        if first != number:
            report.add("clue-twice", item.line, f"clue {number}", first=first)
    return list(found)


def _read_clue(
    item: Node, where: str, grid: Grid, houses: tuple[House, ...], report: FaultReport
) -> Rule | None:
    pairs = item.pairs if isinstance(item, KeysNode) else []
    keys = [key.text for key, _ in pairs if isinstance(key, TextNode)]
    if not isinstance(item, KeysNode) or not keys:
        what = "nothing" if item == KeysNode([], item.line) else shape_of(item)
        report.add("clue-shape", item.line, where, what=what)
        return None
    named = next((key for key in keys if key in CLUES), None)
    if named is None:
        kinds, word = tuple(CLUES), _name_among(keys)
        report.add("clue-name", item.line, where, choices=kinds, word=word, allowed=", ".join(kinds))
        return None
    clue, before = CLUES[named], report.count
    fields = read_keys(item, (named, *clue.others), where, report)
    for key in (named, *clue.others):
        if key not in fields and report.count == before:
            report.add("clue-part", item.line, where, key=key)
    return clue.read(ClueText(fields, where, grid, houses, report)) if report.count == before else None


def _name_among(keys: list[str]) -> str:
    """Return the key that should have been the name of a clue: the first that is none of its other parts."""
    parts = {key for clue in CLUES.values() for key in clue.others}
    return next((key for key in keys if key not in parts), keys[0])
