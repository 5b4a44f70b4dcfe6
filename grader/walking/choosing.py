"""What may be done on a board, and which of it a person does next: the simplest, and of that the nearest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from grader.board.board import Board
from grader.board.guard import look_at_clock
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.grading.effort import default_effort
from grader.grading.replay import Replay
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from grader.walking.load import load_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import mask_of

__all__ = ["LEFT_OVER_AT_MOST", "Finds", "nearest", "placing", "rungs_needed", "rungs_of", "simplest_steps"]


LEFT_OVER_AT_MOST = 4
"""A house with more innies and outies than this, known or not, is not added up at a glance."""


def simplest_steps(board: Board, ladder: Sequence[Technique] = LADDER) -> list[Step]:
    """Return every step of the simplest technique that yields anything, each effect once."""
    return Finds(board.layout, ladder).simplest(board)


def placing(ladder: Sequence[Technique]) -> tuple[Technique, ...]:
    """Return those techniques of a ladder that write digits in."""
    table = default_effort()
    return tuple(
        technique
        for technique in ladder
        if technique.id in table.shown or technique.id in table.ease or technique.id in table.at_sight
    )


def rungs_needed(board: Board, ladder: Sequence[Technique] = LADDER) -> tuple[Technique, ...]:
    """Return a ladder up to the hardest technique that is needed from here on by who goes round by round.

    Whole, where it needs trial, or leads to no end.
    """
    finds = Finds(board.layout, [technique for technique in ladder if Trait.TRIAL not in technique.traits])
    ranks = {technique.id: rank for rank, technique in enumerate(ladder)}
    hardest = 0
    while not board.solved and 0 not in board.candidates:
        steps = finds.simplest(board)
        if not steps:
            return tuple(ladder)
        hardest = max(hardest, ranks[steps[0].technique])
        board = board.after(steps)
        finds.note(board.fresh)
    return tuple(ladder[: hardest + 1])


def rungs_of(played: Replay, ladder: Sequence[Technique] = LADDER) -> tuple[Technique, ...]:
    """Return a ladder up to the hardest technique of a replay, as `rungs_needed` does."""
    if played.filling is None or not played.by_logic:
        return tuple(ladder)
    used = {each.technique for each in played.rounds}
    hardest = max((rank for rank, technique in enumerate(ladder) if technique.id in used), default=0)
    return tuple(ladder[: hardest + 1])


class Finds:
    """What each technique has found and nobody has used yet. Working memory: it changes as the walk goes on.

    A step stays on the list as long as nothing changes in any cell that it speaks of. Where something
    does, it is dropped, and its technique looks again at all of them and at the cells that changed.

    Trial is dear, and what it has found holds whatever else goes: it stays on the list as long as it has
    something to remove, and nothing is tried anew before the list is empty.
    """

    def __init__(self, layout: Layout, ladder: Sequence[Technique]) -> None:
        self._ladder = ladder
        self._unseen = [layout.all_cells] * len(ladder)
        self._found: list[dict[object, Step]] = [{} for _ in ladder]

    def simplest(self, board: Board) -> list[Step]:
        """Return the steps of the simplest technique that yields anything."""
        waiting: list[Step] = []
        turn = ""
        for rank, technique in enumerate(self._ladder):
            look_at_clock()
            self._ask(rank, board)
            found = list(self._found[rank].values())
            if technique.waits_for:
                turn = technique.waits_for
                waiting = [step for step in found if _many_left_over(step)]
                found = [step for step in found if not _many_left_over(step)]
            elif technique.id == turn:
                found, waiting = found + waiting, []
            if found:
                return found
        return waiting

    def readings(self, step: Step, board: Board) -> Iterator[Step]:
        """Yield the steps of techniques of no higher tier that write in at least the same digits."""
        tiers = default_tiers().tier_of
        for rank, technique in enumerate(self._ladder):
            if tiers[technique.id] <= tiers[step.technique]:
                self._ask(rank, board)
                for other in self._found[rank].values():
                    if set(step.places) <= set(other.places):
                        yield other

    def asked(self, technique: Technique, board: Board) -> list[Step]:
        """Return what one technique finds."""
        rank = self._ladder.index(technique)
        self._ask(rank, board)
        return list(self._found[rank].values())

    def of(self, technique: str) -> list[Step]:
        """Return what is on the list of a technique."""
        rank = next(rank for rank, one in enumerate(self._ladder) if one.id == technique)
        return list(self._found[rank].values())

    def _ask(self, rank: int, board: Board) -> None:
        """Let a technique look at what it has not seen yet."""
        found = self._found[rank]
        if self._unseen[rank] and not (found and Trait.TRIAL in self._ladder[rank].traits):
            for step in self._ladder[rank].find(board.looking_at(self._unseen[rank])):
                look_at_clock()
                known = found.setdefault(step.effect, step)
                if known is not step and load_of(step, board) < load_of(known, board):
                    found[step.effect] = step
            self._unseen[rank] = 0

    def note(self, changed: int) -> None:
        """Take down that something changed in these cells."""
        for rank, found in enumerate(self._found):
            tried = Trait.TRIAL in self._ladder[rank].traits
            stale = [s for s in found.values() if (s.acted_on if tried else s.cells) & changed]
            self._unseen[rank] |= changed
            for step in stale:
                self._unseen[rank] |= step.cells  # what is left of it may be seen from another house
                del found[step.effect]


def _many_left_over(step: Step) -> bool:
    return any(len(derived.linear.weights) > LEFT_OVER_AT_MOST for derived in step.sums)


def nearest(steps: Iterable[Step], board: Board, last: Step | None) -> Step:
    """Return the step that a person takes who has just taken `last`; None for nothing yet."""
    layout, grid = board.layout, board.layout.grid

    def order(step: Step) -> tuple[object, ...]:
        rests = bool(mask_of((*step.looks, *step.focus)) & board.fresh)
        far = 0 if last is None else _distance(step, last, grid)
        on_goes = last is not None and _pattern(step, layout) == _pattern(last, layout)
        return step.length, not on_goes, not rests, far, load_of(step, board), step.effect

    return min(steps, key=order)


def _pattern(step: Step, layout: Layout) -> tuple[object, ...]:
    return step.technique, step.focus, layout.cages_among(step.rules)[:1]


def _distance(one: Step, other: Step, grid: Grid) -> int:
    """Return how many rows and columns lie between the patterns of two steps."""
    return min(
        abs(a // grid.columns - b // grid.columns) + abs(a % grid.columns - b % grid.columns)
        for a in one.focus
        for b in other.focus
    )
