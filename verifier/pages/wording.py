"""Everything that pages and sheets say to people, but for what the verdict and the steps say themselves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from verifier.evidence.wording import proved_by
from verifier.puzzle.printable import counted, listed, printable
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.spoken_rules import rules_to_say
from verifier.verdict.verdict import Verdict, VerdictState

__all__: list[str] = []

KEY: Mapping[str, str] = {
    "houses": "a house that the step uses",
    "sights": "a house in which cells see each other",
    "cages": "a cage or clue that the step uses",
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

KEY_OF_WRONG: Mapping[str, str] = {
    "swings": "a digit that cannot be right",
    "houses": "a house that rules it out",
    "cages": "a cage or clue that rules it out",
    "looks": "a digit that it is held against",
}
"""The same, in a picture of what is wrong in a part-filled grid."""

SIGNS: Mapping[str, str] = {
    "cage_without_total": "cage without a total: no digit stands in it twice",
    "cage_with_repeats": "cage with a solid outline: its digits add up to the total; they may repeat",
    "greater": "sign between two cells: it opens towards the greater digit",
    "consecutive": "open bar across a border: the two digits differ by one",
    "ratio": "number in a filled dot: one of the two digits is so many times the other",
    "difference": "number in an open dot: the two digits differ by so much",
    "pair_sum": "number in a box: the two digits add up to it",
    "even": "grey square: an even digit",
    "odd": "grey circle: an odd digit",
    "quadruple": "digits in a ring: each is in one of the four cells around it, one named twice in two",
    "thermometer": "tube: digits rise from its bulb",
    "arrow": "arrow: the digits on it add up to the number in its circle; they may repeat",
    "palindrome": "broad grey line: the digits are the same from either end",
    "renban": "line of dashes: different digits without a gap, in any order",
    "whisper": "double line: neighbours on it differ by at least {by}",
    "between": "line from one double ring to another: its digits lie between those in the rings",
    "region_sum": "line of small squares: its parts in the boxes that it runs through add up to the same",
    "sandwich": "number between bars: the digits between the 1 and the {largest} of the line add up to it",
    "skyscraper": "number in a pointed frame: from there, so many digits are greater than all before them",
    "little_killer": "number with an arrow: the digits of that diagonal add up to it; they may repeat",
}
"""What the sign of each rule looks like, and what it means, by the word of the rule."""

HOUSE_SIGNS: Mapping[str, str] = {
    "diagonal": "tinted band with a line: a diagonal, which holds every digit once",
    "extra house": "tinted cells with a dotted outline: an extra house, which holds every digit once",
}
"""The same, of houses beside rows, columns and boxes."""

TOTALS_INSIDE = (
    "number in the corner of a cell: the total of the run that begins there, on the left across, on the "
    "right down; thick lines part the runs"
)
"""The same, of totals that no blocked cell has room for."""

THE_NUMBER_ON_IT = "the number on it"
SIGNS_TITLE = "What the signs in the grid mean"
RULES_TITLE = "The puzzle in words"

SO_FAR = "The grid so far."
NEXT_DIGIT = "The way to the next digit"
AS_SET = "The puzzle as it was set."
BREAK_IN = "The break-in, step {step}: {says}"
REMARKS = "This rejects nothing, but look at it before the puzzle goes to print."
SOLUTION = "The solution"
SOLUTIONS = "Solutions"
EXAMPLE = "Solution {number} of those found"
BOLD_DIFFERS = "What differs stands in bold."
BEFORE, AFTER = "Before", "After"
ROUND = "In round {number}"
_CHART = (
    "{what}. Above the line: the tier of the technique, the taller the harder (1 to {{tiers}}). Below: at "
    "how many places one could have gone on; where it is thin, all hangs on one step."
)
CHART_WALK = _CHART.format(what="The walk from left to right, step by step")
CHART_ROUNDS = _CHART.format(what="The solve from left to right, round by round")


def name_of(puzzle: Puzzle) -> str:
    """Return what a puzzle is called on a page: its title, or its id."""
    return printable(puzzle.credits.title or puzzle.credits.id or "Untitled puzzle")


def kind_and_setter(puzzle: Puzzle) -> str:
    """Return what a puzzle is, and who set it."""
    setter = puzzle.credits.setter
    kind = f"{puzzle.kind} {puzzle.grid.name}".capitalize()
    return f"{kind}, set by {printable(setter)}" if setter else kind


def by_line(puzzle: Puzzle) -> str:
    """Return the line below the title: what it is, who set it, and which rules the picture does not show."""
    further = rules_to_say(puzzle)
    return kind_and_setter(puzzle) + (f": {further}" if further else "")


def sheet_title(puzzles: Iterable[Puzzle]) -> str:
    """Return what a sheet with these puzzles is called.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import Credits, make_puzzle
    >>> tide, ebb = (make_puzzle("classic", Grid.square(4), credits=Credits(name, setter="Wren"))
    ...              for name in ("tide", "ebb"))
    >>> sheet_title([tide]), sheet_title([tide, ebb, tide]), sheet_author([tide, ebb])
    ('tide', 'tide and ebb', 'Wren')
    """
    return listed(dict.fromkeys(map(name_of, puzzles)), most=_MOST_TITLES)


_MOST_TITLES = 4
"""Titles in that of a sheet; more do not fit into the head of a window."""


def sheet_author(puzzles: Iterable[Puzzle]) -> str:
    """Return who set the puzzles of a sheet; empty where no one says so."""
    return listed(dict.fromkeys(printable(one.credits.setter) for one in puzzles if one.credits.setter))


def page_title(title: str, number: int, pages: int) -> str:
    """Return what one page of a sheet is called that has a file of its own."""
    return title if pages == 1 else f"{title}, page {number} of {pages}"


def grid_label(puzzle: Puzzle, filled: int) -> str:
    """Say in place of a picture what is in it."""
    cages = f", {counted(len(puzzle.all_cages), 'cage')}" if puzzle.all_cages else ""
    clues = sum(rule.word in SIGNS for rule in set(puzzle.rules) - set(puzzle.all_cages))
    cages += f", {counted(clues, 'clue')}" if clues else ""
    return f"Grid {puzzle.grid.name}{cages}, {filled} of {len(puzzle.grid.cells)} cells filled"


def summary(verdict: Verdict) -> str:
    """Say in one sentence what was decided.

    A verdict is never made to sound better than it is: "proved" stands with "accepted" alone.
    """
    found = verdict.solutions
    if verdict.state is VerdictState.ACCEPTED:
        vouching = [witness.name for witness in verdict.witnesses if witness.says == 1]
        return f"Proved to have exactly one solution: {proved_by(vouching)}."
    if verdict.state is VerdictState.UNDECIDED:
        again = " A later run may get further." if verdict.provisional else ""
        return f"Not proved either way.{again}"
    if found.count == 0:
        return "There is no solution."
    if found.count == 1 and found.complete:
        return "There is exactly one solution, but something else speaks against the puzzle."
    if found.count is None:
        return "The witnesses disagree."
    return f"There {'are' if found.complete else 'are at least'} {counted(found.count, 'solution')}."


def bar_of_round(number: int, technique: str, tier: int, width: int) -> str:
    """Say what one bar of the chart of a solve stands for."""
    return f"Round {number}: {technique}, tier {tier}, {counted(width, 'place')} open"


def counts_in_words(counts: Mapping[str, int]) -> str:
    """Say how many puzzles came to which end.

    Examples
    --------
    >>> counts_in_words({"rejected": 1, "accepted": 2})
    '3 puzzles: 2 accepted, 1 rejected.'
    """
    total = sum(counts.values())
    told = ", ".join(f"{number:,} {state}" for state, number in sorted(counts.items()))
    return f"{total:,} puzzle{'' if total == 1 else 's'}{': ' if told else ''}{told}."


def code_in_words(code: str) -> str:
    """Return a reason's code as words.

    Examples
    --------
    >>> code_in_words("several-solutions")
    'several solutions'
    """
    return code.replace("-", " ")


def histogram_label(counts: Mapping[int, int], names: Mapping[int, str]) -> str:
    """Say in place of the histogram what it shows."""
    told = listed(f"{counts.get(tier, 0)} of tier {tier}, {name}" for tier, name in sorted(names.items()))
    return f"Accepted puzzles by tier: {told}"


def stretch_label(first: int, last: int, technique: str, tier: int, width: int) -> str:
    """Say what one bar of the chart of a walk stands for."""
    steps = f"Step {first}" if first == last else f"Steps {first} to {last}"
    return f"{steps}: {technique}, tier {tier}, {counted(width, 'place')} open"


def named(technique: str, tier: int) -> str:
    """Name the technique of a step.

    Examples
    --------
    >>> named("naked pair", 3)
    'naked pair, tier 3'
    """
    return f"{technique}, tier {tier}"


def chart_label(rounds: int, hardest: str, tier: int, narrow: int) -> str:
    """Say in place of the chart of a solve what it shows."""
    hung = f"; in {counted(narrow, 'round')} only one place was open" if narrow else ""
    return f"{counted(rounds, 'round').capitalize()}; the hardest technique is {hardest}, tier {tier}{hung}."


def walk_label(steps: int, hardest: str, tier: int, narrow: int) -> str:
    """Say in place of the chart of a walk what it shows."""
    hung = f"; at {counted(narrow, 'step')} only one place was open" if narrow else ""
    return f"{counted(steps, 'step').capitalize()}; the hardest technique is {hardest}, tier {tier}{hung}."
