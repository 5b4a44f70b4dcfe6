"""How letters to setters are written, as the command line has it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from verifier.cli import wording
from verifier.cli.telling.console import refuse
from verifier.puzzle.printable import filled
from verifier.verdict.style.style import PLAIN, HouseStyle

if TYPE_CHECKING:
    from verifier.intake.letters.writing import LetterSettings

__all__ = ["letters_or_refuse"]

_WHICH = ("new", "all")


def letters_or_refuse(
    which: str | None, template: Path | None, repairs: int, style: HouseStyle
) -> LetterSettings:
    """Return how letters are written; a word or a template with faults ends the call."""
    from verifier.intake.letters.template import plain_template, read_template
    from verifier.intake.letters.writing import LetterSettings

    if which not in (None, *_WHICH):
        refuse(filled(wording.NO_SUCH_LETTERS, word=str(which), words=_WHICH))
    frame = plain_template()
    if template is not None:
        own, faults = read_template(template)
        if own is None:
            refuse("\n".join([wording.TEMPLATE_UNREADABLE, *map(str, faults)]))
        frame = own
    house = "" if style is PLAIN else style.name
    return LetterSettings(frame, which == "all", repairs, house)
