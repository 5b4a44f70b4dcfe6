"""From nodes to fields: which keys a puzzle or a cage may have, and the text behind them."""

from __future__ import annotations

import re
from collections.abc import Container, Mapping

from verifier.files.faults import FaultReport
from verifier.files.fields.lookalikes import misread
from verifier.files.text.nodes import KeysNode, Node, TextNode
from verifier.puzzle.printable import listed
from verifier.puzzle.wording import HINTS

__all__ = [
    "MOST_FIGURES",
    "looks_like",
    "read_credit",
    "read_keys",
    "report_total",
    "shape_of",
    "text_of",
    "total_in",
    "twice_on",
    "whole_number",
    "yes_in",
]

_FIGURES = re.compile(r"[0-9]{1,6}\Z")
MOST_FIGURES = 6
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
            report.add(
                "repeated-key", key.line, where, word=key.text, lines=twice_on(first[key.text], key.line)
            )
        else:
            first[key.text] = key.line
            if not (isinstance(value, TextNode) and value.absent):
                fields[key.text] = value
    return fields


def twice_on(first: int, again: int) -> str:
    """Return where something stands twice.

    Examples
    --------
    >>> twice_on(4, 16), twice_on(4, 4)
    ('on line 4 and on line 16', 'on line 4')
    """
    return f"on line {first}" if again == first else f"on line {first} and on line {again}"


def text_of(node: Node, field: str, report: FaultReport) -> str | None:
    """Return the text of a node; None, with a fault, where it is a list or has keys."""
    if isinstance(node, TextNode):
        return node.text
    report.add("not-text", node.line, field, what=shape_of(node))
    return None


def yes_in(node: Node, field: str, report: FaultReport) -> bool:
    """Whether a node says yes; anything but yes and no is a fault."""
    text = text_of(node, field, report)
    if text is not None and text not in ("yes", "no"):
        report.add("yes-or-no", node.line, field, choices=("yes", "no"), word=text)
    return text == "yes"


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


def total_in(node: Node | None) -> int | None:
    """Return the total that a node holds; None where it holds none, or anything else."""
    return whole_number(node.text) if isinstance(node, TextNode) else None


def report_total(node: Node, field: str, hint: str, report: FaultReport) -> None:
    """Report a node that holds no total, with a sentence that helps, if there is one."""
    if isinstance(node, TextNode) and node.absent:
        report.add("total-missing", node.line, field, hint=hint)
        return
    text = text_of(node, field, report)
    if text is not None:
        hint = looks_like(text) or hint
        report.add("total", node.line, field, hint=hint, word=text, most=MOST_FIGURES)


def looks_like(word: str, allowed: Container[int] | None = None) -> str:
    """Return a sentence on the number that a word with letters in it looks like; empty for any other word.

    Parameters
    ----------
    word : str
        What stands where a number should.
    allowed : container of int, optional
        The numbers that may stand there; any when absent.

    Examples
    --------
    >>> looks_like("l3"), looks_like("l3", range(1, 10))
    ('It looks like 13: the letter l for the digit 1.', '')
    """
    found = misread(word)
    if found is None or (allowed is not None and int(found.meant) not in allowed):
        return ""
    letters = listed(HINTS["letter"].format(letter=letter, figure=figure) for letter, figure in found.letters)
    return HINTS["looks-like"].format(meant=found.meant, letters=letters)


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
