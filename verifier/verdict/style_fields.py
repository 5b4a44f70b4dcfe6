"""The values of a house style: words, numbers, yes or no, and lists of them, each fault with its place."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from verifier.puzzle.faults import Fault, nearest
from verifier.puzzle.fields import shape_of, whole_number
from verifier.puzzle.nodes import ListNode, Node, TextNode
from verifier.puzzle.printable import listed, printable
from verifier.verdict import wording

__all__ = ["StyleFaults", "choice", "number", "several_of", "yes_or_no"]

T = TypeVar("T")

Reader = Callable[[Node, str, "StyleFaults"], T | None]
"""Reads a value behind a field; None, with a fault, for what cannot stand there."""

_LONGEST_WORD = 60


@dataclass(slots=True)
class StyleFaults:
    """Gathers the faults of a house style while it is read.

    Parameters
    ----------
    file : str
        What messages call the file.
    kept : list of Fault
        Those so far.
    """

    file: str
    kept: list[Fault] = field(default_factory=list)

    def add(self, line: int | None, field: str, found: str, allowed: str, cure: str) -> None:
        """Note a fault; `found` may be any text from the file."""
        safe = printable(found, _LONGEST_WORD)
        self.kept.append(Fault("style", self.file, line, field, safe, allowed, cure))


def choice(allowed: Collection[str]) -> Reader[str]:
    """Return the reader of one of some words."""

    def read(node: Node, field: str, faults: StyleFaults) -> str | None:
        if isinstance(node, TextNode) and node.text in allowed:
            return node.text
        meant = nearest(node.text, allowed) if isinstance(node, TextNode) else None
        cure = wording.did_you_mean(meant) if meant else wording.write_allowed()
        faults.add(node.line, field, _found(node), listed(allowed, "or", most=len(allowed)), cure)
        return None

    return read


def number(least: int, most: int) -> Reader[int]:
    """Return the reader of a whole number."""

    def read(node: Node, field: str, faults: StyleFaults) -> int | None:
        value = whole_number(node.text) if isinstance(node, TextNode) else None
        if value is not None and least <= value <= most:
            return value
        faults.add(node.line, field, _found(node), wording.numbers_from(least, most), wording.write_number())
        return None

    return read


def yes_or_no(node: Node, field: str, faults: StyleFaults) -> bool | None:
    """Read ``yes`` or ``no`` (``true`` or ``false``)."""
    words: Mapping[str, bool] = {"yes": True, "true": True, "no": False, "false": False}
    text = node.text.lower() if isinstance(node, TextNode) else ""
    if text not in words:
        faults.add(node.line, field, _found(node), "yes or no", wording.write_allowed())
    return words.get(text)


def several_of(one: Reader[T]) -> Reader[tuple[T, ...]]:
    """Return the reader of a list, or of a lone value as a list of one."""

    def read(node: Node, field: str, faults: StyleFaults) -> tuple[T, ...] | None:
        items = node.items if isinstance(node, ListNode) else [node]
        values = [one(item, field, faults) for item in items]
        return tuple(dict.fromkeys(value for value in values if value is not None))

    return read


def _found(node: Node) -> str:
    return f"'{node.text}'" if isinstance(node, TextNode) and node.text else shape_of(node)
