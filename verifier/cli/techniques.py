"""``gridproof techniques``: the ladder, and what each technique is."""

from __future__ import annotations

import inspect
import re
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.console import refuse, show

if TYPE_CHECKING:
    from grader.technique import Technique

__all__ = ["techniques"]

_SECTION = re.compile(r"^(\w[\w ]*)\n-+\n", re.MULTILINE)


def techniques(
    name: Annotated[list[str] | None, typer.Argument(metavar="NAME", hidden=True)] = None,
) -> None:
    """Print the ladder, or one technique."""
    from grader.ladder import LADDER

    if not name:
        show("\n".join(_ladder(LADDER)))
        return
    asked = " ".join(name).lower()
    found = next((t for t in LADDER if asked in (t.id, t.name.lower(), t.id.replace("-", " "))), None)
    if found is None:
        refuse(wording.unknown_technique(asked, _nearest(asked, LADDER)))
    show(_described(found))


def _ladder(ladder: tuple[Technique, ...]) -> list[str]:
    from grader.tiers import default_tiers

    table = default_tiers()
    width = max(len(technique.id) for technique in ladder)
    lines = []
    for technique in ladder:
        tier = table.tier_of[technique.id]
        lines.append(f"{tier}  {table.names[tier]:<12}  {technique.id:<{width}}  {_summary(technique)}")
    return lines


def _described(technique: Technique) -> str:
    """Return a technique as its docstring tells it: definition and picture, why it holds, its source."""
    from grader.tiers import default_tiers

    table = default_tiers()
    tier = table.tier_of[technique.id]
    head = f"{technique.name} ({technique.id}), tier {tier}: {table.names[tier]}"
    parts = _sections(inspect.getdoc(technique.find) or "")
    told = [parts[""]] + [f"{title}: {parts[key]}" for key, title in _TOLD.items() if key in parts]
    return "\n\n".join([head, *told])


_TOLD = {"Notes": "Why it holds", "References": "Source"}


def _sections(doc: str) -> dict[str, str]:
    """Return the sections of a numpydoc text by title, the opening under the empty title."""
    pieces = _SECTION.split(doc)
    titled = dict(zip(pieces[1::2], pieces[2::2], strict=True))
    return {key: _plain(text) for key, text in {"": pieces[0], **titled}.items()}


def _plain(text: str) -> str:
    """Take the signs of reStructuredText out of a text."""
    text = re.sub(r"\.\. \[\d+\] ", "", text)
    return re.sub(r"`+", "", text.replace("::\n", ":\n")).strip()


def _summary(technique: Technique) -> str:
    return _plain((inspect.getdoc(technique.find) or "").partition("\n\n")[0]).replace("\n", " ")


def _nearest(word: str, ladder: tuple[Technique, ...]) -> str | None:
    from verifier.puzzle.faults import nearest

    names = {technique.name: technique.id for technique in ladder} | {t.id: t.id for t in ladder}
    found = nearest(word, tuple(names))
    return names[found] if found else None
