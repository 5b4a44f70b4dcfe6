"""Help for somebody who is stuck, in words: as much of it as is wanted."""

from __future__ import annotations

from grader.words.narrate import tell, what_to_do, where_to_look
from verifier.walkthrough import wording
from verifier.walkthrough.helping import Help
from verifier.walkthrough.strength import Strength

__all__ = ["doubts", "help_in_words"]


def help_in_words(given: Help, strength: Strength) -> list[str]:
    """Say what is wrong, or what the next step is."""
    if given.wrong or given.lost:
        return wording.mistakes(given.puzzle, given.wrong, given.lost)
    said = doubts(given)
    if given.taken is None:
        return said
    step, board = given.taken.step, given.taken.board
    said.append(where_to_look(step, board.layout))
    if strength is not Strength.WHERE:
        said.append(what_to_do(step, board.layout, board))
    if strength is Strength.WHY:
        said.append(tell(step, board.layout, board))
    return said


def doubts(given: Help) -> list[str]:
    """Say what keeps entries from being judged, and why there is no next step where nothing is wrong."""
    if given.wrong or given.lost:
        return []
    doubt = wording.cannot_compare(given.puzzle, given.tally)
    nothing = wording.nothing_next(given.tally, full=given.full, cut=given.cut) if given.taken is None else ""
    return [line for line in (doubt, nothing) if line]
