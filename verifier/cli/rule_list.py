"""``gridproof rules``: the rules of the puzzle file, and what each is."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from textwrap import indent
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.telling.console import refuse, show
from verifier.cli.telling.folding import folded
from verifier.puzzle.printable import filled

if TYPE_CHECKING:
    from verifier.files.rulebook.entries import RuleEntry

__all__ = ["rules"]


def rules(
    name: Annotated[list[str] | None, typer.Argument(metavar="NAME", hidden=True)] = None,
    example: Annotated[bool, typer.Option("--example", help=wording.OPTIONS["example"])] = False,
) -> None:
    """Print the list of rules, one rule, or a file with it."""
    if not name:
        if example:
            refuse(wording.EXAMPLE_OF_WHAT)
        show("\n".join(_list()))
        return
    entry = _called(" ".join(name))
    show(entry.example.rstrip("\n") if example else "\n\n".join(_described(entry)))


def _called(words: str) -> RuleEntry:
    """Return the entry of that name, in whatever way it is written, or end the call."""
    from verifier.files.faults import nearest
    from verifier.files.rulebook.entries import rulebook

    by_word = {_plain(word): entry for entry in rulebook() for word in (entry.name, *entry.also)}
    asked = _plain(words)
    if asked not in by_word:
        meant = nearest(asked, tuple(by_word))
        refuse(wording.unknown_rule(words, by_word[meant].name if meant else None))
    return by_word[asked]


def _plain(words: str) -> str:
    return words.lower().replace("_", " ").replace("-", " ").replace("'", "")


def _list() -> Iterator[str]:
    from verifier.files.rulebook.entries import rulebook

    width = max(len(entry.name) for entry in rulebook())
    for group, entries in groupby(rulebook(), lambda entry: entry.group):
        yield group.capitalize()
        yield from (f"  {entry.name:<{width}}  {entry.says}" for entry in entries)
        yield ""
    yield filled(wording.RULES_HINT, name=rulebook()[-1].name)


def _described(entry: RuleEntry) -> Iterator[str]:
    yield filled(wording.RULE_HEAD, name=entry.name, group=entry.group)
    yield folded(entry.definition)
    if entry.picture:
        yield _set_in(entry.picture)
    yield wording.RULE_IN_A_FILE
    yield _set_in(entry.written)
    yield folded(filled(wording.RULE_ALLOWED, allowed=entry.allowed))
    yield filled(wording.RULE_TO_START, name=entry.name)


def _set_in(text: str) -> str:
    return indent(text.rstrip("\n"), "    ")
