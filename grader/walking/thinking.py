"""A person's order: digits at hand first, and what is removed only when a digit needs it.

Two boards are kept. The *told* one has what has been said. The *known* one also has what was seen and not
yet said: removals that may turn out to be of use or not. What comes next is

1. a digit at hand on the told board: the easiest, then one that rests on the last step, then the nearest;
2. else a digit on the known board, with those of the removals not yet told that it rests on;
3. else one looks further: every step of the easiest technique that removes anything goes to the known board.

Of the digits that come out on the known board the one with the lightest argument is told (see
`grader.walking.thinning`, and `grader.walking.load` for what is light). What else was seen is kept in mind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from grader.board.board import Board
from grader.board.guard import look_at_clock
from grader.board.steps import Step, WalkStep
from grader.board.technique import Technique, Trait
from grader.grading.tiers import default_tiers
from grader.ladder import TECHNIQUES
from grader.walking.choosing import Finds, nearest, placing
from grader.walking.load import load_of, load_of_all
from grader.walking.thinning import Goal, Work, in_order, retold, sliced, still_open, thinned

__all__ = ["Thinking", "lightest"]

DIGITS_AT_MOST = 12
"""Of so many digits that come out a person sees which is the nearest."""
THINNED_AT_MOST = 4
"""For so many of these the argument is thought through."""
ASKS = 400
"""How often, for one argument, a technique is asked again what is left of its step without another step."""
READ_UP_TO = 5
"""Steps of higher tiers are written down as they were found: no other reading is looked for."""


class Thinking:
    """What has been told of a puzzle and what is known. Working memory: it changes with every argument.

    Parameters
    ----------
    board : Board
        From where.
    ladder : sequence of Technique
        What may be used.

    Attributes
    ----------
    told, known : Board
        What has been told, and what is known beside it.
    found : list of WalkStep
        Every step that was found, also those that are never told, in the order found.
    """

    def __init__(self, board: Board, ladder: Sequence[Technique]) -> None:
        self.told = self.known = board
        self.found: list[WalkStep] = []
        self._ladder = ladder
        self._placing = placing(ladder)
        self._at_hand = Finds(board.layout, self._placing)
        self._coming_out = Finds(board.layout, self._placing)
        self._further = Finds(board.layout, [one for one in ladder if one not in self._placing])
        self._untold: list[WalkStep] = []
        self._last: Step | None = None
        self._last_found: Step | None = None

    def next_argument(self) -> tuple[WalkStep, ...]:
        """Return the steps to the next digit, or to a contradiction, the last of which gets there.

        None at all where no technique leads to one.
        """
        at_hand = [step for step in self._at_hand.simplest(self.told) if step.places]
        if at_hand:
            return self._tell([self._as_read(nearest(at_hand, self.told, self._last))])
        while not (ends := list(self._ends())):
            if not self._look_further():
                return ()
        return self._tell(self._lightest_of(ends))

    def rest(self) -> tuple[WalkStep, ...]:
        """Return the removals that are known and were never told; they lead to nothing more."""
        return self._tell(list(_applied(self.told, self._untold)))

    def _as_read(self, step: Step) -> WalkStep:
        """Return a digit at hand in its lightest reading, with the number of those of its technique."""
        readings = self._at_hand.readings(step, self.told)
        read = min(readings, key=lambda one: load_of(one, self.told))
        return WalkStep(read, self.told, len(self._at_hand.of(read.technique)))

    def _ends(self) -> Iterator[tuple[WalkStep, Goal]]:
        """Yield the digits that come out on the known board, easiest first; or else a contradiction."""
        if 0 in self.known.candidates:
            cell = self.known.candidates.index(0)
            yield self._untold[-1], Goal(cell, self.told.candidates[cell])
            return
        seen: set[int] = set()
        for technique in self._placing:
            found = [step for step in self._coming_out.asked(technique, self.known) if step.places]
            for step in found:
                cell = step.places[0][0]
                if cell not in seen and len(seen) < DIGITS_AT_MOST:
                    seen.add(cell)
                    yield WalkStep(step, self.known, len(found)), Goal(cell)

    def _look_further(self) -> bool:
        """Take all steps of the easiest technique that removes anything to the known board."""
        # A technique that writes digits in removes some only where the board cannot be.
        finds = self._coming_out if self._coming_out.simplest(self.known) else self._further
        left = finds.simplest(self.known)
        if not left:
            return False
        width, technique = len(left), left[0].technique
        while left and 0 not in self.known.candidates:
            look_at_clock()
            step = nearest(left, self.known, self._last_found)
            self._untold.append(WalkStep(step, self.known, width))
            self._know(self._untold[-1])
            if Trait.TRIAL in TECHNIQUES[technique].traits:
                break  # it is dear, and whatever is simpler comes first again
            left = [one for one in finds.of(technique) if one in left]
        return True

    def _lightest_of(self, ends: Sequence[tuple[WalkStep, Goal]]) -> Sequence[WalkStep]:
        plans = []
        for end, goal in ends:
            steps = self._untold if goal.gone else [*self._untold, end]
            kept = sliced(self.told, steps, goal)
            plans.append((load_of_all(kept), goal, kept))
        best: tuple[WalkStep, ...] = ()
        for _, goal, kept in sorted(plans, key=lambda plan: plan[:2])[:THINNED_AT_MOST]:
            # A technique may find less on another board than the others need; as found first, they all hold.
            thin = thinned(self.told, kept, goal, Work(ASKS)) or retold(self.told, kept, goal, Work(0))
            assert thin is not None, "what is sliced keeps all that it needs"
            if not best or load_of_all(thin) < load_of_all(best):
                best, best_goal = thin, goal
        best = in_order(self.told, best, best_goal, Work(ASKS))
        return self._cut_short(best, best_goal)

    def _cut_short(self, steps: Sequence[WalkStep], goal: Goal) -> Sequence[WalkStep]:
        """Return an argument up to the first digit that comes out, each step in its lightest reading."""
        told: list[WalkStep] = []
        further: Sequence[WalkStep] = steps
        while further:
            taken = self._read(further, goal)
            told.append(taken)
            board = taken.board.after([taken.step])
            further = retold(board, further[1:], goal, Work(ASKS)) or ()
            if len(further) > 1 and (digit := self._first_digit(board)) is not None:
                first = Goal(digit.step.places[0][0])
                shorter = thinned(self.told, [*told, digit], first, Work(ASKS))
                return self._cut_short(shorter, first) if shorter else steps
        return told

    def _read(self, steps: Sequence[WalkStep], goal: Goal) -> WalkStep:
        """Return the first step of an argument in its lightest reading from which the others follow."""
        taken, *others = steps
        read = lightest(taken.step, taken.board, self._ladder)
        follows = not others or retold(taken.board.after([read]), others, goal, Work(ASKS)) is not None
        return replace(taken, step=read if follows else taken.step)

    def _first_digit(self, board: Board) -> WalkStep | None:
        """Return the easiest digit that comes out where something has just changed."""
        for technique in self._placing:
            found = [step for step in technique.find(board) if step.places]
            if found:
                return WalkStep(nearest(found, board, None), board, len(found))
        return None

    def _tell(self, steps: Sequence[WalkStep]) -> tuple[WalkStep, ...]:
        for taken in steps:
            self._last = taken.step
            self.told = self.told.after([taken.step])
            self._at_hand.note(self.told.fresh)
            self._know(taken)
        self._untold = [taken for taken in self._untold if still_open(taken.step, self.told)]
        return tuple(steps)

    def _know(self, taken: WalkStep) -> None:
        """Take a step to the known board, if it does anything there."""
        for new in _applied(self.known, [taken]):
            self.found.append(new)
            self._last_found = new.step
            self.known = self.known.after([new.step])
            self._coming_out.note(self.known.fresh)
            self._further.note(self.known.fresh)


def _applied(board: Board, steps: Sequence[WalkStep]) -> Iterator[WalkStep]:
    """Yield steps that hold on a board, one after the other, with what is left of each."""
    for taken in steps:
        step = still_open(taken.step, board)
        if step is not None:
            yield replace(taken, step=step, board=board)
            board = board.after([step])


def lightest(step: Step, board: Board, ladder: Sequence[Technique]) -> Step:
    """Return the step of least load that does at least the same, by a technique of no higher tier."""
    tiers = default_tiers().tier_of
    tier = tiers[step.technique]
    if tier > READ_UP_TO or step.length:
        return step
    near = board.looking_at(step.acted_on)
    readings = [step]
    for technique in ladder:
        if tiers[technique.id] <= tier:
            readings += [other for other in technique.find(near) if _covers(other, step)]
    return min(readings, key=lambda one: load_of(one, board))


def _covers(one: Step, other: Step) -> bool:
    """Whether one step does all that another does."""
    removes = dict(one.removes)
    return set(other.places) <= set(one.places) and all(
        removes.get(cell, 0) & gone == gone for cell, gone in other.removes
    )
