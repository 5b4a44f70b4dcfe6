"""Settings files: keys and values in YAML, read with every fault at once.

A house style is one, and so are the slots of a week. The readers of values - words, numbers, days, yes or
no, and lists of them - are shared; each kind of file says which keys it has.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from datetime import date
from io import BytesIO
from pathlib import Path
from typing import Any, TypeVar

from verifier.files.documents import Form, documents
from verifier.files.faults import FaultReport, nearest
from verifier.files.fields.fields import read_keys, shape_of, whole_number
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.text.nodes import KeysNode, ListNode, Node, TextNode, compose_json, compose_yaml, decode
from verifier.puzzle.printable import listed, printable

__all__ = [
    "Reader",
    "check_order",
    "choice",
    "day",
    "decimal",
    "found_at",
    "grid_size",
    "name_of",
    "number",
    "root_of",
    "settings_in",
    "several_of",
    "values_of",
    "yes_or_no",
]

T = TypeVar("T")

Reader = Callable[[Node, str, FaultReport], T | None]
"""Reads a value behind a field; None, with a fault, for what cannot stand there."""

_LONGEST_WORD = 60
_DECIMAL = re.compile(r"[0-9]{1,4}(\.[0-9]{1,4})?\Z", re.ASCII)
_SIZE = re.compile(r"[1-9][0-9]?x[1-9][0-9]?\Z", re.ASCII)
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}\Z", re.ASCII)


def settings_in(path: Path, report: FaultReport, limits: Limits = DEFAULT_LIMITS) -> bytes | None:
    """Return the bytes of a settings file; None, with a fault, where it cannot be read."""
    try:
        with path.open("rb") as file:
            return file.read(limits.puzzle_bytes + 1)
    except OSError as error:
        report.add("cannot-open", None, "the file", reason=(error.strerror or str(error)).lower())
        return None


def root_of(data: bytes, report: FaultReport, limits: Limits = DEFAULT_LIMITS) -> Node | None:
    """Return the root of the first document of a settings file; an empty text for a file without any."""
    if len(data) > limits.puzzle_bytes:
        report.add("too-big", None, "the file", most=limits.puzzle_bytes)
        return None
    first = next(documents(BytesIO(data), report.file, limits.puzzle_bytes), None)
    if first is None or first.form is Form.BARE:
        return TextNode("", 1)
    text = decode(first.data, first.line, report)
    compose = compose_json if first.form is Form.JSON else compose_yaml
    return None if text is None else compose(text, first.line, limits, report)


def values_of(
    node: KeysNode, readers: Mapping[str, Reader[Any]], where: str, report: FaultReport, place: str = ""
) -> tuple[dict[str, Any], dict[str, Node]]:
    """Return the values of some keys as they are read, and the nodes they were read from.

    Parameters
    ----------
    node : KeysNode
        What has the keys.
    readers : mapping of str to Reader
        The keys that may stand there.
    where : str
        What a message calls the node.
    report : FaultReport
        Takes the faults.
    place : str, optional
        Stands before a key where a message names it, such as ``slots.2.``.
    """
    fields = read_keys(node, tuple(readers), where, report)
    read = {key: readers[key](value, f"{place}{key}", report) for key, value in fields.items()}
    return {key: value for key, value in read.items() if value is not None}, fields


def check_order(
    values: Mapping[str, Any],
    nodes: Mapping[str, Node],
    least: str,
    most: str,
    report: FaultReport,
    place: str = "",
) -> None:
    """Report a range whose end is below its beginning; `place` as in `values_of`."""
    if values.get(least) is not None and values.get(most) is not None and values[least] > values[most]:
        report.add(
            "order", nodes[most].line, f"{place}{most}", most=values[most], least=values[least], key=least
        )


def choice(allowed: Collection[str]) -> Reader[str]:
    """Return the reader of one of some words."""

    def read(node: Node, field: str, report: FaultReport) -> str | None:
        if isinstance(node, TextNode) and node.text in allowed:
            return node.text
        meant = nearest(node.text, allowed) if isinstance(node, TextNode) else None
        told = listed(allowed, "or", most=len(allowed))
        report.add("word", node.line, field, meant, what=found_at(node), allowed=told)
        return None

    return read


def number(least: int, most: int) -> Reader[int]:
    """Return the reader of a whole number."""

    def read(node: Node, field: str, report: FaultReport) -> int | None:
        value = whole_number(node.text) if isinstance(node, TextNode) else None
        if value is not None and least <= value <= most:
            return value
        report.add("number", node.line, field, what=found_at(node), least=least, most=most)
        return None

    return read


def decimal(node: Node, field: str, report: FaultReport) -> float | None:
    """Read a number such as 2.5."""
    if isinstance(node, TextNode) and _DECIMAL.match(node.text):
        return float(node.text)
    report.add("decimal", node.line, field, what=found_at(node))
    return None


def grid_size(node: Node, field: str, report: FaultReport) -> str | None:
    """Read the size of a grid, such as 9x9 or 12x20."""
    if isinstance(node, TextNode) and _SIZE.match(node.text):
        return node.text
    report.add("size", node.line, field, what=found_at(node))
    return None


def day(node: Node, field: str, report: FaultReport) -> date | None:
    """Read a day such as 2026-03-30."""
    if isinstance(node, TextNode) and _DAY.match(node.text):
        try:
            return date.fromisoformat(node.text)
        except ValueError:  # the 31st of April
            pass
    report.add("day", node.line, field, what=found_at(node))
    return None


def yes_or_no(node: Node, field: str, report: FaultReport) -> bool | None:
    """Read ``yes`` or ``no`` (``true`` or ``false``)."""
    words: Mapping[str, bool] = {"yes": True, "true": True, "no": False, "false": False}
    text = node.text.lower() if isinstance(node, TextNode) else ""
    if text not in words:
        report.add("word", node.line, field, what=found_at(node), allowed="yes or no")
    return words.get(text)


def several_of(one: Reader[T]) -> Reader[tuple[T, ...]]:
    """Return the reader of a list, or of a lone value as a list of one."""

    def read(node: Node, field: str, report: FaultReport) -> tuple[T, ...] | None:
        items = node.items if isinstance(node, ListNode) else [node]
        values = [one(item, field, report) for item in items]
        return tuple(dict.fromkeys(value for value in values if value is not None))

    return read


def name_of(most: int) -> Reader[str]:
    """Return the reader of a name of so many characters."""

    def read(node: Node, field: str, report: FaultReport) -> str | None:
        if isinstance(node, TextNode) and node.text.isprintable() and 0 < len(node.text) <= most:
            return node.text
        report.add("name", node.line, field, what=found_at(node), most=most)
        return None

    return read


def found_at(node: Node) -> str:
    """Return what a message says was found."""
    if isinstance(node, TextNode) and node.text:
        return f"'{printable(node.text, _LONGEST_WORD)}'"
    return shape_of(node)
