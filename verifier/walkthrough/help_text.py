"""Help for somebody who is stuck, in words: as much of it as is wanted."""

from __future__ import annotations

from collections.abc import Iterator

from grader.ladder import TECHNIQUES
from grader.words.narrate import tell, what_to_do, where_to_look
from verifier.puzzle.printable import counted, listed
from verifier.walkthrough import wording
from verifier.walkthrough.helping import Help
from verifier.walkthrough.strength import Strength
from verifier.walkthrough.wrong.mistakes_in_words import mistakes_told, slip_in_words, where_mistaken

__all__ = ["doubts", "help_in_words", "mistakes_in_words", "way_in_words", "what_is_right"]


def help_in_words(given: Help, strength: Strength) -> list[str]:
    """Say what is wrong, or what the way to the next digit is."""
    said = list(mistakes_in_words(given, strength))
    if given.mistakes and not given.goes_on:
        return [*said, wording.GO_ON[min(len(given.mistakes), 2)]]
    if given.dropped and given.steps:
        said.append(wording.GOES_ON[min(len(given.mistakes), 2)])
    return [*said, *doubts(given), *way_in_words(given, strength)]


def mistakes_in_words(given: Help, strength: Strength) -> Iterator[str]:
    """Yield what is wrong, and how much is right."""
    if not given.mistakes:
        return
    if given.slip is not None:
        yield slip_in_words(given.slip)
        return
    if strength is Strength.WHERE:
        yield where_mistaken(given.puzzle, given.mistakes)
    else:
        yield from mistakes_told(given.puzzle, given.mistakes, reasons=strength is Strength.WHY)
    yield from what_is_right(given)


def what_is_right(given: Help) -> Iterator[str]:
    """Yield how many of the other digits are right, where something is wrong and any of them are."""
    if given.mistakes and given.still_right:
        digits = counted(given.still_right, "digit")
        yield wording.OTHER_RIGHT if given.still_right == 1 else wording.OTHERS_RIGHT.format(digits=digits)


def doubts(given: Help) -> list[str]:
    """Say what keeps entries from being judged, and why there is no next step where nothing stops it."""
    doubt = wording.cannot_compare(given.puzzle, given.tally)
    if given.mistakes and not given.goes_on:
        return [doubt] if doubt else []
    nothing = "" if given.steps else wording.nothing_next(given.tally, full=given.full, cut=given.cut)
    return [line for line in (doubt, nothing) if line]


def way_in_words(given: Help, strength: Strength) -> Iterator[str]:
    """Yield the way to the next digit: where it begins, what it comes to, and its steps."""
    if not given.steps:
        return
    *before, last = given.steps
    layout, first = given.board.layout, given.steps[0]
    where = where_to_look(first.step, layout)
    if before:
        where += " " + wording.STEPS_TO_A_DIGIT.format(steps=counted(len(given.steps), "step"))
    yield where
    if strength is Strength.WHERE:
        return
    what = what_to_do(last.step, layout, last.board)
    if before:
        names = dict.fromkeys(TECHNIQUES[taken.step.technique].name for taken in before)
        techniques = listed(names)
        what = wording.ARGUMENT.format(
            techniques=techniques[:1].upper() + techniques[1:], last=what[:1].lower() + what[1:]
        )
    yield what
    if strength is Strength.WHY:
        told = [tell(taken.step, layout, taken.board) for taken in given.steps]
        yield from (f"{number}. {says}" if before else says for number, says in enumerate(told, start=1))
