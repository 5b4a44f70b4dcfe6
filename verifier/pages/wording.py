"""Everything that pages and sheets say to people, but for what the verdict and the steps say themselves."""

from __future__ import annotations

from collections.abc import Mapping

from verifier.puzzle.printable import counted, printable
from verifier.puzzle.puzzle import Puzzle

__all__: list[str] = []

KEY: Mapping[str, str] = {
    "houses": "a house that the step uses",
    "cages": "a cage that the step uses",
    "looks": "a cell that is looked at",
    "focus": "a cell of the pattern itself",
    "changed": "what is changed",
    "swings": "a cell that differs between the solutions",
    "signs": "a cell that is counted in (+) or taken off (\u2212)",
    "gone": "a digit that goes",
    "placed": "a digit that is written in",
    "nodes": "the digits of a chain, in turn: if the squares are wrong, the rings are right",
    "links": "a solid arrow leads from wrong to right, a broken one from right to wrong",
}
"""What each kind of sign in a picture stands for."""

AS_SET = "The puzzle as it was set."
BREAK_IN = "At the break-in, step {step}"
SOLUTION = "The solution"
CHART_WALK = (
    "The walk from left to right, step by step. Above the line: the tier of the technique, the taller the harder "
    "(1 to {tiers}). Below: at how many places one could have gone on; where it is thin, all hangs on one step."
)
CHART_ROUNDS = (
    "The solve from left to right, round by round. Above the line: the tier of the technique, the taller the "
    "harder (1 to {tiers}). Below: at how many places one could go on; where it is thin, all hangs on one step."
)

_ENDINGS: Mapping[str, str] = {
    "solved": "The walk ends with the solution.",
    "contradiction": "The walk ends in a contradiction: this puzzle has no solution.",
    "stuck": "The walk ends here: no technique of the ladder yields anything more.",
    "clock": "The walk was cut short: it took longer than allowed.",
}


def name_of(puzzle: Puzzle) -> str:
    """Return what a puzzle is called on a page: its title, or its id."""
    return printable(puzzle.credits.title or puzzle.credits.id or "Untitled puzzle")


def by_line(puzzle: Puzzle) -> str:
    """Return the line below the title: what it is, and who set it."""
    setter = puzzle.credits.setter
    kind = f"{puzzle.kind} {puzzle.grid.name}".capitalize()
    return f"{kind}, set by {printable(setter)}" if setter else kind


def ending(outcome: str) -> str:
    """Say where a walk ended."""
    return _ENDINGS[outcome]


def grid_label(puzzle: Puzzle, filled: int) -> str:
    """Say in place of a picture what is in it."""
    cages = f", {counted(len(puzzle.cages), 'cage')}" if puzzle.cages else ""
    return f"Grid {puzzle.grid.name}{cages}, {filled} of {puzzle.grid.cell_count} cells filled"


def round_label(first: int, last: int, technique: str, tier: int, width: int) -> str:
    """Say what one bar of the chart of a walk stands for."""
    steps = f"Step {first}" if first == last else f"Steps {first} to {last}"
    return f"{steps}: {technique}, tier {tier}, {counted(width, 'place')} open"


def chart_label(rounds: int, hardest: str, tier: int, narrow: int) -> str:
    """Say in place of a chart what it shows."""
    hung = f"; in {counted(narrow, 'round')} only one place was open" if narrow else ""
    return f"{counted(rounds, 'round').capitalize()}; the hardest technique is {hardest}, tier {tier}{hung}."
