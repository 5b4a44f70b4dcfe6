"""Help for part-filled grids as YAML: what is wrong and why, and the way to the next digit."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from verifier.files.text.lines import OneLine, Pairs, yaml_of
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House
from verifier.walkthrough.helping import Help
from verifier.walkthrough.record import step_as_record
from verifier.walkthrough.wrong.mistakes import Mistake
from verifier.walkthrough.wrong.mistakes_in_words import mistake_in_words, slip_in_words
from verifier.walkthrough.wrong.refuting import Disproof

__all__ = ["help_as_record", "help_as_yaml"]


def help_as_yaml(given: Help) -> str:
    """Return what there is to say about a part-filled grid as one YAML document, without a document mark."""
    return yaml_of(help_as_record(given))


def help_as_record(given: Help) -> dict[str, Any]:
    """Return what is wrong in a part-filled grid, and the way to the next digit, as dictionaries and lists.

    Where the digit of what is wrong is null, pencil marks lack the right one, which is not given away.
    What a wrong digit's ``because`` cites rules it out, together with the digits under ``candidates``; it is
    null where nothing need be cited or nothing was found. ``slip`` stands only where one explains most of
    what is wrong.
    """
    slip = given.slip and {"slip": {"way": given.slip.way.value, "says": slip_in_words(given.slip)}}
    return {
        "wrong": [_wrong(each, given.puzzle, given.mistakes) for each in given.mistakes],
        **(slip or {}),
        "steps": [step_as_record(taken, n=n, breath=n) for n, taken in enumerate(given.steps, start=1)],
    }


def _wrong(mistake: Mistake, puzzle: Puzzle, mistakes: Iterable[Mistake]) -> dict[str, Any]:
    return {
        "cell": puzzle.grid.cell_name(mistake.cell),
        "digit": mistake.digit,
        "because": None if mistake.why is None else _because(mistake.why, puzzle),
        "says": mistake_in_words(puzzle, mistake, tuple(mistakes)),
    }


def _because(why: Disproof, puzzle: Puzzle) -> dict[str, Any]:
    grid = puzzle.grid
    others = [rule for rule in why.rules if not isinstance(rule, (House, Cage))]
    return {
        "houses": OneLine([rule.name for rule in why.rules if isinstance(rule, House)]),
        "cages": [Pairs(rule.record(grid)) for rule in why.rules if isinstance(rule, Cage)],
        "sums": [],
        "rules": [Pairs(rule.record(grid)) for rule in others],
        "candidates": Pairs({grid.cell_name(cell): [digit] for cell, digit in why.beside}),
        "excluded": [],
    }
