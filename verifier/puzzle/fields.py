"""From nodes to fields: which keys a puzzle or a cage may have, and the text behind them."""

from __future__ import annotations

import re
from collections.abc import Mapping

from verifier.puzzle.faults import FaultReport
from verifier.puzzle.nodes import KeysNode, Node, TextNode

__all__ = ["read_credit", "read_keys", "read_total", "shape_of", "text_of", "whole_number"]

_FIGURES = re.compile(r"[0-9]{1,6}\Z")
_MOST_FIGURES = 6
"""No grid needs a number of more figures."""

_HALF_CHARACTER = re.compile("[\ud800-\udfff]")


def read_keys(node: KeysNode, allowed: tuple[str, ...], where: str, report: FaultReport) -> dict[str, Node]:
    """Return the values of a node by key; keys that are unknown or stand twice are faults.

    A key without any value counts as absent.

    Parameters
    ----------
    node : KeysNode
        A puzzle, or a cage of a list.
    allowed : tuple of str
        The keys it may have.
    where : str
        What a message calls the node.
    report : FaultReport
        Takes the faults.
    """
    fields: dict[str, Node] = {}
    first: dict[str, int] = {}
    for key, value in node.pairs:
        if not isinstance(key, TextNode):
            report.add("key-shape", key.line, where, what=shape_of(key))
        elif key.text not in allowed:
            names = ", ".join(allowed)
            report.add("unknown-key", key.line, where, choices=allowed, word=key.text, allowed=names)
        elif key.text in first:
            report.add("repeated-key", key.line, where, word=key.text, first=first[key.text])
        else:
            first[key.text] = key.line
            if not (isinstance(value, TextNode) and value.absent):
                fields[key.text] = value
    return fields


def text_of(node: Node, field: str, report: FaultReport) -> str | None:
    """Return the text of a node; None, with a fault, where it is a list or has keys."""
    if isinstance(node, TextNode):
        return node.text
    report.add("not-text", node.line, field, what=shape_of(node))
    return None


def read_credit(fields: Mapping[str, Node], key: str, most: int, report: FaultReport) -> str | None:
    """Return an id, a title or a setter's name: any text of at most `most` characters."""
    node = fields.get(key)
    text = None if node is None else text_of(node, key, report)
    if node is None or text is None:
        return None
    if len(text) > most:
        report.add("too-long", node.line, key, length=len(text), most=most)
    half = _HALF_CHARACTER.search(text)
    if half:
        report.add("bad-character", node.line, key, number=ord(half[0]))
    return text


def read_total(node: Node, field: str, report: FaultReport) -> int | None:
    """Return a total; None, with a fault, for what is no whole number."""
    if isinstance(node, TextNode) and node.absent:
        report.add("total-missing", node.line, field)
        return None
    text = text_of(node, field, report)
    total = None if text is None else whole_number(text)
    if text is not None and total is None:
        report.add("total", node.line, field, word=text, most=_MOST_FIGURES)
    return total


def whole_number(text: str) -> int | None:
    """Return the number written in at most six figures; None for anything else.

    Examples
    --------
    >>> whole_number("015"), whole_number("-3"), whole_number("1e5"), whole_number("9" * 5000)
    (15, None, None, None)
    """
    return int(text) if _FIGURES.match(text) else None


def shape_of(node: Node) -> str:
    """Return what a message calls a node that stands where it should not."""
    if isinstance(node, TextNode):
        return "text" if node.text else "nothing"
    return "keys with values" if isinstance(node, KeysNode) else "a list"
