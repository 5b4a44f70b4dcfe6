"""``gridproof techniques``: the ladder, and what each technique is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Annotated

import typer

from verifier.cli import wording
from verifier.cli.telling.console import refuse, show
from verifier.cli.telling.folding import WIDTH, folded

__all__ = ["technique_called", "techniques"]


def techniques(
    name: Annotated[list[str] | None, typer.Argument(metavar="NAME", hidden=True)] = None,
) -> None:
    """Print the ladder, or one technique."""
    if not name:
        show("\n".join(_ladder()))
        return
    show(_described(technique_called(" ".join(name))))


def technique_called(words: str) -> str:
    """Return the id of the technique of that name, in whatever way it is written, or end the call."""
    from grader.ladder import LADDER

    asked = words.lower()
    ids = {
        word.lower(): each.id for each in LADDER for word in (each.id, each.id.replace("-", " "), each.name)
    }
    if asked not in ids:
        refuse(wording.unknown_technique(asked, _nearest(asked)))
    return ids[asked]


def _ladder() -> list[str]:
    from grader.grading.tiers import default_tiers
    from grader.ladder import LADDER

    tiers = default_tiers()
    width = max(len(technique.id) for technique in LADDER)
    return [
        f"{tier}  {tiers.names[tier]:<12}  {technique.id:<{width}}  {technique.summary}"
        for technique in LADDER
        for tier in [tiers.tier_of[technique.id]]
    ]


def _described(technique_id: str) -> str:
    """Return what the catalogue has of a technique."""
    from grader.grading.tiers import default_tiers
    from grader.ladder import TECHNIQUES

    technique, tiers = TECHNIQUES[technique_id], default_tiers()
    tier = tiers.tier_of[technique.id]
    parts = [
        f"{technique.name} ({technique.id}), tier {tier}: {tiers.names[tier]}",
        technique.definition,
        folded(f"Why it holds in every solution: {technique.reason}"),
    ]
    if technique.source:
        parts.append(folded(f"Where it comes from: {technique.source}"))
    example = technique.example
    if example is not None:
        rows = [("rests on", list(example.rests_on))] if example.rests_on else []
        if example.before:
            rows += [("before", _cells(example.before)), ("after", _cells(example.after))]
        parts.append(example.head)
        if rows:
            parts.append("\n".join(_set_in(f"    {label:<10}", words) for label, words in rows))
        parts.append(_set_in("    ", example.says.split(" "), " "))
    parts.append(folded(technique.occurrence.says))
    return "\n\n".join(parts)


def _cells(cells: Mapping[str, str]) -> list[str]:
    return [f"{cell} {digits}" for cell, digits in cells.items()]


def _set_in(start: str, words: Sequence[str], between: str = "  ") -> str:
    """Return words after a label, folded under the first; words with spaces inside stay whole."""
    lines = [start]
    for word in words:
        if len(lines[-1]) > len(start) and len(lines[-1]) + len(between) + len(word) > WIDTH:
            lines.append(" " * len(start))
        lines[-1] += (between if len(lines[-1]) > len(start) else "") + word
    return "\n".join(lines)


def _nearest(word: str) -> str | None:
    from grader.ladder import LADDER
    from verifier.files.faults import nearest

    names = {technique.name: technique.id for technique in LADDER}
    names |= {technique.id: technique.id for technique in LADDER}
    found = nearest(word, tuple(names))
    return names[found] if found else None
