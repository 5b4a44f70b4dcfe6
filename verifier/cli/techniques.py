"""``gridproof techniques``: the ladder, and what each technique is."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.telling.console import refuse, show

if TYPE_CHECKING:
    from grader.board.technique import Technique
    from grader.words.catalogue import Entry, Example

__all__ = ["techniques"]

_WIDTH = 100
"""Characters of a line."""


def techniques(
    name: Annotated[list[str] | None, typer.Argument(metavar="NAME", hidden=True)] = None,
) -> None:
    """Print the ladder, or one technique."""
    from grader.words.catalogue import catalogue

    entries = catalogue()
    if not name:
        show("\n".join(_ladder(entries)))
        return
    asked = " ".join(name).lower()
    found = next((entry for entry in entries if asked in _names(entry.technique)), None)
    if found is None:
        refuse(wording.unknown_technique(asked, _nearest(asked, entries)))
    show(_described(found))


def _names(technique: Technique) -> tuple[str, ...]:
    return technique.id, technique.name.lower(), technique.id.replace("-", " ")


def _ladder(entries: Sequence[Entry]) -> list[str]:
    width = max(len(entry.technique.id) for entry in entries)
    return [
        f"{entry.tier}  {entry.tier_name:<12}  {entry.technique.id:<{width}}  {entry.summary}"
        for entry in entries
    ]


def _described(entry: Entry) -> str:
    """Return what the catalogue has of a technique."""
    technique = entry.technique
    parts = [
        f"{technique.name} ({technique.id}), tier {entry.tier}: {entry.tier_name}",
        entry.definition,
        _folded(f"Why it holds in every solution: {entry.reason}"),
    ]
    if entry.source:
        parts.append(_folded(f"Where it comes from: {entry.source}"))
    if entry.example is not None:
        parts += [entry.example_head, *_example(entry.example)]
    parts.append(_folded(entry.how_often))
    return "\n\n".join(parts)


def _example(example: Example) -> list[str]:
    rows = [("rests on", list(example.rests_on))] if example.rests_on else []
    if example.before:
        rows += [("before", _cells(example.before)), ("after", _cells(example.after))]
    lines = [_set_in(f"    {label:<10}", words) for label, words in rows]
    told = _set_in("    ", example.says.split(" "), " ")
    return ["\n".join(lines), told] if lines else [told]


def _cells(cells: Mapping[str, str]) -> list[str]:
    return [f"{cell} {digits}" for cell, digits in cells.items()]


def _folded(text: str) -> str:
    return textwrap.fill(" ".join(text.split()), _WIDTH)


def _set_in(start: str, words: Sequence[str], between: str = "  ") -> str:
    """Return words after a label, folded under the first; words with spaces inside stay whole."""
    lines = [start]
    for word in words:
        if len(lines[-1]) > len(start) and len(lines[-1]) + len(between) + len(word) > _WIDTH:
            lines.append(" " * len(start))
        lines[-1] += (between if len(lines[-1]) > len(start) else "") + word
    return "\n".join(lines)


def _nearest(word: str, entries: Sequence[Entry]) -> str | None:
    from verifier.files.faults import nearest

    names = {entry.technique.name: entry.technique.id for entry in entries}
    names |= {entry.technique.id: entry.technique.id for entry in entries}
    found = nearest(word, tuple(names))
    return names[found] if found else None
