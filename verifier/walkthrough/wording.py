"""What walkthroughs and the help for the next step say around the steps themselves."""

from __future__ import annotations

from collections.abc import Sequence

from grader.board.board import Board, digits_of
from grader.grading.grade import Grade
from grader.grading.replay import Outcome
from grader.ladder import TECHNIQUES
from grader.walking.walk import Walk
from verifier.puzzle.arithmetic import arithmetic_checks
from verifier.puzzle.printable import counted, listed, printable
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally

__all__ = [
    "audit_in_words",
    "beyond_the_ladder",
    "cannot_compare",
    "effort_in_words",
    "end_of_story",
    "ending",
    "grade_in_words",
    "left_out",
    "lost_marks",
    "mistakes",
    "nothing_next",
    "solutions_in_words",
    "story_of",
    "title",
    "trial_in_words",
    "wrong_entry",
]


def title(puzzle: Puzzle) -> str:
    """Return what the puzzle is called, by whom it is, and what it is."""
    credits = puzzle.credits
    name = printable(credits.title or credits.id)
    by = f" by {printable(credits.setter)}" if credits.setter else ""
    return f"{name}{by} ({puzzle.kind}, {puzzle.grid.name})"


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


def effort_in_words(effort: int, kind: str) -> str:
    """Say how much work is to be expected.

    Examples
    --------
    >>> effort_in_words(240, "classic")
    'Effort 240 (a middling published classic: 100).'
    """
    # People have been timed at classics alone.
    estimate = "" if kind == "classic" else f"; for a {kind} this is an estimate"
    return f"Effort {effort} (a middling published classic: 100){estimate}."


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
    if told == all_steps:
        return ""
    return f"Told are {told} of {all_steps} steps; nothing rests on the others. (--full tells them too.)"


def ending(outcome: Outcome, board: Board) -> str:
    """Say how a walk ends that does not reach the solution; empty for one that does."""
    empty = counted(board.layout.grid.cell_count - board.placed.bit_count(), "cell")
    if outcome is Outcome.CONTRADICTION:
        return f"Here it ends: {_contradiction(board)}. So there is no solution."
    if outcome is Outcome.STUCK:
        return f"Here it ends: no technique of the ladder goes further, and {empty} are empty."
    return f"Here the time ran out, with {empty} empty." if outcome is Outcome.CLOCK else ""


def _contradiction(board: Board) -> str:
    layout = board.layout
    if 0 in board.candidates:
        return f"nothing is left for {layout.grid.cell_name(list(board.candidates).index(0))}"
    for house in layout.houses:
        for digit in layout.grid.all_digits:
            if not any(board.candidates[cell] >> digit & 1 for cell in house.cells):
                return f"{house.name} has no place for {digit}"
    for index, mask in layout.cage_masks:
        cage = layout.cage(index)
        made = sum(board.candidates[cell].bit_length() - 1 for cell in cage.cells)
        if not mask & ~board.placed and made != cage.total:
            first = layout.grid.cell_name(cage.cells[0])
            return f"the cage of {cage.total} at {first} is full and makes {made}"
    for number in range(layout.cage_numbers.stop, len(layout.rules)):
        rule = layout.rules[number]
        if not layout.masks[number] & ~board.placed and not rule.holds(board.filling):
            return f"{rule.called(layout.grid)} is broken"
    return "the digits repeat in a house"


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


def end_of_story(puzzle: Puzzle, told: Walk, cell: int) -> str:
    """Say what is known of a cell at the end of its story."""
    name, given = puzzle.grid.cell_name(cell), dict(puzzle.givens).get(cell)
    if given is not None:
        return f"{name} is given: {given}."
    if not told.steps:
        return f"Nothing is found out about {name}."
    last = told.steps[-1]
    board = last.board.after([last.step])
    left = digits_of(board.candidates[cell])
    if board.placed >> cell & 1:
        return f"So {name} is {left[0]}."
    return f"No more is found out about {name}: {listed(map(str, left))} are still open there."


def mistakes(puzzle: Puzzle, wrong: Sequence[tuple[int, int]], lost: Sequence[int]) -> list[str]:
    """Say which entries and which pencil marks cannot be right; the right digits are not given away."""
    said = [wrong_entry(puzzle, cell, digit) for cell, digit in wrong]
    return [*said, lost_marks(puzzle, lost)] if lost else said


def wrong_entry(puzzle: Puzzle, cell: int, digit: int) -> str:
    """Say that a digit cannot be right."""
    name, given = puzzle.grid.cell_name(cell), dict(puzzle.givens).get(cell)
    return f"{name} cannot be {digit}." if given is None else f"{name} is given as {given}, not {digit}."


def lost_marks(puzzle: Puzzle, cells: Sequence[int]) -> str:
    """Say that pencil marks lack the right digit."""
    named = listed(puzzle.grid.cell_name(cell) for cell in cells)
    return f"The right digit is missing from the pencil marks in {named}."


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
