"""What walkthroughs and the help for the next step say around the steps themselves."""

from __future__ import annotations

from collections.abc import Sequence

from grader.board.board import Board
from grader.grading.grade import Grade
from grader.grading.replay import Outcome
from grader.ladder import TECHNIQUES
from grader.walking.walk import Walk
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.masks import digits_of
from verifier.puzzle.printable import counted, listed, printable
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.spoken_rules import rules_to_say
from verifier.puzzle.tally import Tally

__all__ = [
    "audit_in_words",
    "beyond_the_ladder",
    "cannot_compare",
    "come_first",
    "effort_in_words",
    "end_of_story",
    "ending",
    "follows",
    "from_so_far",
    "grade_in_words",
    "left_out",
    "nothing_next",
    "solutions_in_words",
    "story_of",
    "title",
    "trial_in_words",
]


def title(puzzle: Puzzle) -> str:
    """Return what the puzzle is called, by whom it is, and what it is."""
    credits = puzzle.credits
    name = printable(credits.title or credits.id)
    by = f" by {printable(credits.setter)}" if credits.setter else ""
    further = rules_to_say(puzzle)
    return f"{name}{by} ({puzzle.kind}, {puzzle.grid.name}{': ' if further else ''}{further})"


def solutions_in_words(puzzle: Puzzle, tally: Tally) -> str:
    """Say how many solutions there are, and what that means for the walk; empty for one."""
    if tally.count > 1:
        cells = listed((puzzle.grid.cell_name(cell) for cell in tally.swing_cells), most=6)
        return (
            f"This puzzle has more than one solution (two of them differ in {cells}), so no walk can reach an"
            " end. What follows holds in all of them."
        )
    if not tally.complete:
        return "It could not be settled within the limits how many solutions this puzzle has."
    if tally.count:
        return ""
    reasons = [check.says for check in arithmetic_checks(puzzle) if not check.passed]
    return " ".join(["This puzzle has no solution.", *reasons, "What follows leads to the contradiction."])


def grade_in_words(grade: Grade) -> str:
    """Say how hard the puzzle is, and why."""
    hardest = f"; the hardest step: {TECHNIQUES[grade.hardest].name}" if grade.hardest else ""
    lift = f"; {grade.why_lifted}" if grade.lift else ""
    return f"Tier {grade.tier}, {grade.name}{hardest}{lift}."


def effort_in_words(effort: int, kind: str, minutes: tuple[int, int, int] | None) -> str:
    """Say how much work is to be expected.

    Parameters
    ----------
    effort : int
        The effort.
    kind : str
        What kind of puzzle it is.
    minutes : tuple of int or None
        Those of the middle solver, and between which four in five lie.

    Examples
    --------
    >>> effort_in_words(240, "classic", (14, 11, 21)).partition(": 14")[2]
    ' minutes for the middle solver, 11 to 21 for four such puzzles in five.'
    """
    said = f"Effort {effort} (a middling published classic: 100)"
    if minutes is not None:
        middle, least, most = minutes
        between = f", {least} to {most} for four such puzzles in five" if least < most else ""
        said += f": {counted(middle, 'minute')} for the middle solver{between}"
    # People have been timed at classics alone.
    return f"{said}." if kind == "classic" else f"{said}. For a {kind} this is an estimate."


def trial_in_words(steps: int) -> str:
    """Say that the ladder does not do without trial."""
    are = "is" if steps == 1 else "are"
    return (
        f"It cannot be solved without trial: {counted(steps, 'step')} told below {are} found by supposing a"
        " digit and seeing it fail."
    )


def beyond_the_ladder() -> str:
    """Say that a puzzle with one solution needs more than the ladder has."""
    return (
        "It has exactly one solution, but cannot be solved without trial, and with so much of it that nobody"
        " would follow. What follows is as far as the techniques go."
    )


def left_out(told: int, all_steps: int) -> str:
    """Say how much of the walk is told; empty when it is all of it."""
    if told >= all_steps:
        return ""
    return f"Told are {told} of {all_steps} steps; nothing rests on the others. (--full tells them too.)"


def come_first(digits: int) -> str:
    """Say how many digits come before the first key step.

    Examples
    --------
    >>> come_first(9), come_first(1), come_first(0)
    ('Nine digits that everybody sees come first.', 'One digit that everybody sees comes first.', '')
    """
    come = "comes" if digits == 1 else "come"
    said = f"{counted(digits, 'digit')} that everybody sees {come} first."
    return said[:1].upper() + said[1:] if digits else ""


def follows(digits: int, *, last: bool) -> str:
    """Say how many digits follow from a key step.

    Examples
    --------
    >>> follows(3, last=False), follows(30, last=True), follows(0, last=False)
    ('Three digits follow.', 'The last 30 digits follow.', '')
    """
    if not digits:
        return ""
    follow = "follows" if digits == 1 else "follow"
    which = counted(digits, "digit")
    if last:
        return f"The last {'digit' if digits == 1 else which} {follow}."
    return f"{which[:1].upper()}{which[1:]} {follow}."


def ending(outcome: Outcome, board: Board, contradiction: str) -> str:
    """Say how a walk ends that does not reach the solution; empty for one that does."""
    empty = counted(board.layout.grid.cell_count - board.placed.bit_count(), "cell")
    if outcome is Outcome.CONTRADICTION:
        return f"Here it ends: {contradiction}. So there is no solution."
    if outcome is Outcome.STUCK:
        return f"Here it ends: no technique of the ladder goes further, and {empty} are empty."
    return f"Here the time ran out, with {empty} empty." if outcome is Outcome.CLOCK else ""


def audit_in_words(failed: Sequence[int], steps: int) -> str:
    """Say whether every step stands."""
    if failed:
        which = listed(map(str, failed))
        return f"Audit: of {counted(steps, 'step')}, not proved from what they cite: {which}."
    each = "the one step follows" if steps == 1 else f"each of {steps} steps follows"
    return f"Audit: {each} from what it cites and from nothing else."


def story_of(cell: str) -> str:
    """Head the story of one cell."""
    return f"How {cell} comes about"


def from_so_far(start: Board) -> str:
    """Say from where a walk goes on."""
    cells = start.layout.grid.cells
    filled = sum(start.placed >> cell & 1 for cell in cells)
    return f"The walk goes on from a grid with {filled} of {len(cells)} digits."


def end_of_story(puzzle: Puzzle, told: Walk, cell: int, start: Board | None) -> str:
    """Say what is known of a cell at the end of its story."""
    name, given = puzzle.grid.cell_name(cell), dict(puzzle.givens).get(cell)
    if given is not None:
        return f"{name} is given: {given}."
    if start is not None and start.placed >> cell & 1:
        return f"{name} is {digits_of(start.candidates[cell])[0]} already."
    if not told.steps:
        return f"Nothing is found out about {name}."
    last = told.steps[-1]
    board = last.board.after([last.step])
    left = digits_of(board.candidates[cell])
    if board.placed >> cell & 1:
        return f"So {name} is {left[0]}."
    return f"No more is found out about {name}: {listed(map(str, left))} are still open there."


CAGE_AT = "the cage of {cage}"
NOTHING_LEFT = "nothing is left for {cell}"
NO_PLACE = "{house} has no place for {digit}"
FULL_CAGE = "the cage of {cage} is full and makes {made}"
BROKEN = "{rule} is broken"
REPEATED = "the digits repeat in a house"

CANNOT_BE = "{cell} cannot be {digit}"
GIVEN_AS = "{cell} is given as {given}, not {digit}."
LOST_MARKS = "The right digit is missing from the pencil marks in {cells}."
TWICE = "{digit} stands twice in {rule}: {cells}. {wrong}"
WRONG_ONE = "{cell} is the wrong one."
BOTH_WRONG = "Neither of them is right."
ONE_OF_THEM = "One of them must be wrong."
SINGLE_CAGE = "it is a cage of its own, of {total}"
CAGE_OVER = "{cage} would make {made} already, with {cells} still empty"
CAGE_NEEDS = "{cage} would need {rest} in {cells}, and {why}"
NEEDS_MORE = "{cells} make at least {least}"
NEEDS_LESS = "{cells} make at most {most}"
NEEDS_LARGER = "no digit is that large"
NEEDS_USED = "{rest} stands in the cage already"
NEEDS_OTHERS = "no digits are left that make it"
SUPPOSED = "Say it is {digit}."
THEN = "Then {contradiction}."
TAKEN = "That is the {digit} of {rule}."
THEN_NO_COMBINATION = "{cage} has no combination left"
BY_THESE = "Beside the other digits, {rules} leave it no place."
BY_MANY = "It takes many houses and cages together to see that: leave the cell open for now."
BY_THIS = "Beside the other digits, {rules} leaves it no place."
ALSO_WRONG = "Not right either: {entries}."
WRONG_IN = "Something is wrong in {places}."

SLIPS = {
    "up": ("Is the grid shifted by a row?", "one row further down"),
    "down": ("Is the grid shifted by a row?", "one row further up"),
    "left": ("Is the grid shifted by a column?", "one column further to the right"),
    "right": ("Is the grid shifted by a column?", "one column further to the left"),
    "clockwise": ("Is the grid turned?", "when it is turned to the left by a quarter"),
    "anticlockwise": ("Is the grid turned?", "when it is turned to the right by a quarter"),
    "half turn": ("Is the grid upside down?", "when it is turned by a half"),
    "transposed": ("Are rows and columns exchanged?", "when rows are read as columns"),
    "mirrored": ("Is the grid mirrored?", "when left and right are exchanged"),
}
"""What is asked where one slip explains many wrong digits, and how they would be right."""
SLIP = (
    "{asked} {wrong} digits are wrong where they stand, but {right} are right {how}. Correct that, and ask"
    " again."
)

OTHERS_RIGHT = "The other {digits} that were entered are right."
OTHER_RIGHT = "The other digit that was entered is right."
GO_ON = {1: "(--drop-wrong goes on without it.)", 2: "(--drop-wrong goes on without them.)"}
GOES_ON = {1: "Without it, this is next:", 2: "Without them, this is next:"}
"""For one mistake, and for more."""

ONE_WAY = "People get stuck here: there is one way on."
NO_DIGIT = "People get stuck here: no digit is at hand."
NO_DIGIT_ONE_WAY = "People get stuck here: no digit is at hand, and there is one way on."
"""These stand before a step."""

IN_SHORT = "In short"
IDEA = "The idea: {summary}"
SAME_IDEA = "The idea is that of step {number}."

STEPS_TO_A_DIGIT = "The next digit takes {steps}, and this is where they begin."
ARGUMENT = "{techniques}, then {last}"


def nothing_next(tally: Tally, *, full: bool, cut: bool) -> str:
    """Say why there is no next step."""
    if tally.complete and not tally.count:
        return "This puzzle has no solution, so there is no next step."
    if cut:
        return "The time ran out before a next step was found. Allow more with --seconds."
    if not full:
        return "No technique of the ladder finds a next step from here."
    if tally.complete and tally.count == 1:
        return "The grid is full, and every digit is right."
    return "The grid is full."


def cannot_compare(puzzle: Puzzle, tally: Tally) -> str:
    """Say that entries cannot be held against the solution; empty where they can."""
    if tally.count > 1:
        cells = listed((puzzle.grid.cell_name(cell) for cell in tally.swing_cells), most=6)
        return (
            f"This puzzle has more than one solution (two of them differ in {cells}), so nobody can say which"
            " entries are right."
        )
    if not tally.complete:
        return "It could not be settled how many solutions this puzzle has, so the entries were not checked."
    return ""


ROW, COLUMN = "row", "column"
"""Cells said in full are in one of each."""
