"""The values of a house style: words, numbers, yes or no, and lists of them, each fault with its place."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from verifier.files.faults import Fault, nearest
from verifier.files.fields.fields import shape_of, whole_number
from verifier.files.text.nodes import ListNode, Node, TextNode
from verifier.puzzle.printable import listed, printable
from verifier.verdict import wording

__all__ = ["Reader", "StyleFaults", "choice", "found_at", "name_of", "number", "several_of", "yes_or_no"]

T = TypeVar("T")

Reader = Callable[[Node, str, "StyleFaults"], T | None]
"""Reads a value behind a field; None, with a fault, for what cannot stand there."""

_LONGEST_FACT = 1000  # of a word from the file, `found_at` keeps less
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

    def add(
        self, code: str, line: int | None, field: str, instead: str | None = None, **facts: object
    ) -> None:
        """Note a fault.

        Parameters
        ----------
        code : str
            A key of `verifier.verdict.wording.STYLE_FAULTS`.
        line : int or None
            Line of the file.
        field : str
            The rule concerned.
        instead : str, optional
            What was probably meant; replaces the usual cure.
        facts : object
            What the wording names in braces; any text from the file.
        """
        safe = {name: printable(f, _LONGEST_FACT) if isinstance(f, str) else f for name, f in facts.items()}
        found, allowed, cure = (part.format_map(safe) for part in wording.STYLE_FAULTS[code])
        if instead is not None:
            cure = wording.did_you_mean(instead)
        self.kept.append(Fault(f"style-{code}", self.file, line, printable(field), found, allowed, cure))


def choice(allowed: Collection[str]) -> Reader[str]:
    """Return the reader of one of some words."""

    def read(node: Node, field: str, faults: StyleFaults) -> str | None:
        if isinstance(node, TextNode) and node.text in allowed:
            return node.text
        meant = nearest(node.text, allowed) if isinstance(node, TextNode) else None
        told = listed(allowed, "or", most=len(allowed))
        faults.add("word", node.line, field, meant, word=found_at(node), allowed=told)
        return None

    return read


def number(least: int, most: int) -> Reader[int]:
    """Return the reader of a whole number."""

    def read(node: Node, field: str, faults: StyleFaults) -> int | None:
        value = whole_number(node.text) if isinstance(node, TextNode) else None
        if value is not None and least <= value <= most:
            return value
        faults.add("number", node.line, field, word=found_at(node), least=least, most=most)
        return None

    return read


def yes_or_no(node: Node, field: str, faults: StyleFaults) -> bool | None:
    """Read ``yes`` or ``no`` (``true`` or ``false``)."""
    words: Mapping[str, bool] = {"yes": True, "true": True, "no": False, "false": False}
    text = node.text.lower() if isinstance(node, TextNode) else ""
    if text not in words:
        faults.add("word", node.line, field, word=found_at(node), allowed="yes or no")
    return words.get(text)


def several_of(one: Reader[T]) -> Reader[tuple[T, ...]]:
    """Return the reader of a list, or of a lone value as a list of one."""

    def read(node: Node, field: str, faults: StyleFaults) -> tuple[T, ...] | None:
        items = node.items if isinstance(node, ListNode) else [node]
        values = [one(item, field, faults) for item in items]
        return tuple(dict.fromkeys(value for value in values if value is not None))

    return read


def name_of(most: int) -> Reader[str]:
    """Return the reader of a name of so many characters."""

    def read(node: Node, field: str, faults: StyleFaults) -> str | None:
        if isinstance(node, TextNode) and node.text.isprintable() and 0 < len(node.text) <= most:
            return node.text
        faults.add("name", node.line, field, word=found_at(node), most=most)
        return None

    return read


def found_at(node: Node) -> str:
    """Return what a message says was found."""
    if isinstance(node, TextNode) and node.text:
        return f"'{printable(node.text, _LONGEST_WORD)}'"
    return shape_of(node)
