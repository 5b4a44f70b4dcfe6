"""The search towards a wish: puzzles one change away, then those near the nearest of them, and so on.

Candidates are looked at in batches of one size, and what is seen is taken in their order: so what is found
does not depend on how many processes look, as long as the time lasts.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import zip_longest
from typing import NamedTuple

from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.answers import Ending, JudgingTask, Tuning, TuningAnswer, answer_to, walked
from verifier.tuning.neighbours.moves import Move, moved_on, moves, solution_after
from verifier.tuning.search.aim import aim_from
from verifier.tuning.search.crew import Crew
from verifier.tuning.search.leads import help_of
from verifier.tuning.search.looking import LookingTask, look_at
from verifier.tuning.wish import Wish, gaps, layout_gaps, wish_in_style
from verifier.verdict.judge import DEFAULT_SETTINGS

__all__ = ["NotSoundError", "Progress", "SearchLimits", "tune"]

_BATCH = 16
"""Candidates that are looked at before what was seen is weighed."""
_ENOUGH = 6
"""Puzzles that are offered."""
_NEAREST, _JUDGED = 3, 6
"""Puzzles that are told of where none meets the wish, and those that are judged to find them."""
_BEAM = 6
"""The nearest puzzles from which the search goes on."""
_BROKEN = 6
"""Puzzles with other solutions from which it goes on as well: one change more may rule these out."""
_FIRST, _A_NODE = 48, 8
"""Moves that are tried from the puzzle as it was set, and from each of these: the most promising ones."""
_WIDER = (1, 6, 36)
"""So many times more of all that are tried where less came to nothing."""
_MISSES_KEPT = 400
"""Puzzles that do not meet the wish, of which the nearest are remembered."""
_SECONDS_FOR_WALKS = 300.0
"""More than it takes to walk through the puzzles that are offered."""
_SECONDS_FOR_NEAREST = 10.0
"""What judging the nearest may take once the time is up."""


class NotSoundError(ValueError):
    """The puzzle is not proved to have exactly one solution, so there is nothing to keep."""

    def __init__(self, before: TuningAnswer) -> None:
        super().__init__("the puzzle has not exactly one solution")
        self.before = before


class SearchLimits(NamedTuple):
    """How far a search goes.

    Parameters
    ----------
    changes : int
        At most so many changes.
    seconds : float
        What it may take, after the verdict on the puzzle as it stands.
    seed : int
        Settles the order of candidates between which nothing else does.
    """

    changes: int = 2
    seconds: float = 60.0
    seed: int = 0


class Progress(NamedTuple):
    """How far a search is: at so many changes, candidates looked at, how many are next, puzzles found.

    Where a puzzle was found just now, it is the newest.
    """

    changes: int
    tried: int
    listed: int
    found: int
    newest: TuningAnswer | None = None


def tune(
    puzzle: Puzzle,
    wish: Wish,
    crew: Crew,
    limits: SearchLimits = SearchLimits(),  # noqa: B008 - a frozen value
    heard: Callable[[Progress], None] = lambda _: None,
) -> Tuning:
    """Look for changes that make a puzzle what its setter wishes, and keep its solution.

    Parameters
    ----------
    puzzle : Puzzle
        With exactly one solution.
    wish : Wish
        What it should be.
    crew : Crew
        Who looks and judges.
    limits : SearchLimits, optional
        How far to go.
    heard : callable, optional
        Is told now and then how far the search is.

    Returns
    -------
    Tuning
        Every answer has its ordinary verdict. Ctrl-C ends the search, and what was found stands.

    Raises
    ------
    NotSoundError
        If the puzzle has not one solution.
    """
    wish = wish_in_style(wish)
    before = answer_to(JudgingTask((), puzzle, wish, time.time() + DEFAULT_SETTINGS.seconds))
    solution = before.verdict.solutions.filling
    if solution is None:
        raise NotSoundError(before)
    return _Search(before, solution, wish, crew, limits, heard).tuning()


@dataclass(frozen=True, slots=True)
class _Node:
    """A puzzle some changes away.

    Parameters
    ----------
    changes, puzzle
        As in `Answer`.
    nearness : tuple of float
        See `Aim.nearness`.
    leads : mapping of int to float
        See `Look`; those of the puzzle that it was made of, where it has several solutions.
    other : Filling or None
        Another solution that it has, and no puzzle made of it may have.
    """

    changes: Move
    puzzle: Puzzle
    nearness: tuple[float, ...] = ()
    leads: Mapping[int, float] = field(default_factory=dict)
    other: Filling | None = None


def _far(answer: TuningAnswer) -> float:
    return sum(gap.far for gap in answer.gaps)


class _Search:
    """A search as it stands.

    Parameters
    ----------
    before : TuningAnswer
        The puzzle as it was set.
    solution : Filling
        Its solution.
    wish, crew, limits, heard
        As in `tune`; its seconds begin now.
    """

    def __init__(
        self,
        before: TuningAnswer,
        solution: Filling,
        wish: Wish,
        crew: Crew,
        limits: SearchLimits,
        heard: Callable[[Progress], None],
    ) -> None:
        self._before, self._solution, self._wish = before, solution, wish
        self._crew, self._limits, self._heard = crew, limits, heard
        self._until = time.time() + limits.seconds
        self._aim = aim_from(before, wish)
        self._most_givens = len(before.puzzle.givens) if wish.most_givens is None else wish.most_givens
        self._chance = random.Random(limits.seed)
        self._known = {before.puzzle.content}
        self._answers: list[TuningAnswer] = []
        self._misses: list[_Node] = []
        self._broken: list[_Node] = []
        self._tried = self._kept = 0
        self._cut = False

    def tuning(self) -> Tuning:
        """Search, and return what it came to."""
        nearest: tuple[TuningAnswer, ...] = ()
        try:
            ending = Ending.ALREADY if self._before.fits else self._searched()
            if not self._answers and ending is not Ending.ALREADY:
                nearest = tuple(sorted(self._judged_nearest(), key=_far)[:_NEAREST])
        except KeyboardInterrupt:
            ending = Ending.STOPPED
        except TimeoutError:
            ending = Ending.TIME
        best = [self._before, *sorted(self._answers, key=self._rank)[:_ENOUGH]]
        if ending is not Ending.STOPPED:
            best = list(self._crew.said(walked, best, time.time() + _SECONDS_FOR_WALKS))
        before, *answers = best
        return Tuning(self._wish, before, tuple(answers), nearest, self._tried, self._kept, ending)

    def _rank(self, answer: TuningAnswer) -> tuple[float, ...]:
        """Return what settles the order of answers: changes, remarks, how far the effort moved."""
        difficulty = answer.verdict.difficulty
        effort = (difficulty and difficulty.effort) or 0
        return len(answer.changes), len(answer.verdict.remarks), abs(effort - self._aim.effort)

    def _searched(self) -> Ending:
        start = _Node((), self._before.puzzle)
        start = replace(start, leads=look_at(self._looking_at(start)).leads)
        for wider in _WIDER:
            beam = [start]
            for changes in range(1, self._limits.changes + 1):
                most = wider * (_FIRST if changes == 1 else _A_NODE)
                listed = self._listed(beam, most)
                ending = Ending.TIME if self._cut else self._looked_through(listed, changes)
                if ending is not None:
                    return ending
                beam = [node for node in self._misses if len(node.changes) <= changes][: wider * _BEAM]
                beam += [node for node in self._broken if len(node.changes) == changes][: wider * _BROKEN]
        return Ending.ALL_TRIED

    def _looked_through(self, listed: Sequence[_Node], changes: int) -> Ending | None:
        """Look at candidates, batch by batch; return why the search ends with them, if it does."""
        for start in range(0, len(listed), _BATCH):
            self._heard(Progress(changes, self._tried, len(listed) - start, len(self._answers)))
            self._take(listed[start : start + _BATCH])
            if self._cut:
                return Ending.TIME
            if len(self._answers) >= _ENOUGH:
                break
        return Ending.ENOUGH if self._answers else None

    def _listed(self, beam: Sequence[_Node], most: int) -> list[_Node]:
        """Return the puzzles to be looked at next: the most promising ones of each node, turn about."""
        each = [self._promising(node)[:most] for node in beam]
        turns = (node for turn in zip_longest(*each) for node in turn if node is not None)
        fresh = []
        for node in turns:
            if node.puzzle.content not in self._known:
                self._known.add(node.puzzle.content)
                fresh.append(node)
        return fresh

    def _promising(self, node: _Node) -> list[_Node]:
        """Return all puzzles one move on from a node, the most promising first."""
        ranked = []
        solution = solution_after(node.changes, self._solution)
        for move in moves(node.puzzle, solution, self._most_givens, self._wish.symmetry):
            if time.time() > self._until:  # a puzzle with many clues has thousands of moves
                self._cut = True
                break
            changes = (*node.changes, *move)
            after = moved_on(node.puzzle, move, solution)
            if after is None or len(changes) > self._limits.changes:
                continue
            if node.other is None or not solves(after, node.other):
                far = sum(gap.far for gap in layout_gaps(self._wish, after))
                helps = help_of(move, node.leads, after.grid.digits)
                rank = far, self._aim.lean * helps or abs(helps), self._chance.random()
                ranked.append((rank, _Node(changes, after, leads=node.leads)))
        ranked.sort(key=lambda pair: pair[0])
        return [found for _, found in ranked]

    def _take(self, batch: Sequence[_Node]) -> None:
        """Look at candidates; judge those that seem to fit, and keep the others in order."""
        tasks = [self._looking_at(node) for node in batch]
        fitting = []
        for node, look in zip(batch, self._crew.said(look_at, tasks, self._until), strict=True):
            self._cut = self._cut or look.cut
            if self._cut:
                continue
            self._tried += 1
            self._kept += look.unique
            if look.unique and not gaps(self._wish, node.puzzle, look.grade):
                fitting.append(node)
            elif not look.unique:
                self._broken.append(replace(node, other=look.other))
            else:
                nearness = self._aim.nearness(node.puzzle, look)
                self._misses.append(replace(node, nearness=nearness, leads=look.leads))
        self._misses = sorted(self._misses, key=lambda node: node.nearness)[:_MISSES_KEPT]
        to_judge = [JudgingTask(node.changes, node.puzzle, self._wish, self._until) for node in fitting]
        for answer in self._crew.said(answer_to, to_judge, self._until):
            if answer.fits and self._keeps(answer):
                self._answers.append(answer)
                self._heard(Progress(len(answer.changes), self._tried, 0, len(self._answers), answer))

    def _looking_at(self, node: _Node) -> LookingTask:
        solution = solution_after(node.changes, self._solution)
        return LookingTask(node.puzzle, solution, self._aim.ceiling, self._until)

    def _keeps(self, answer: TuningAnswer) -> bool:
        return answer.verdict.solutions.filling == solution_after(answer.changes, self._solution)

    def _judged_nearest(self) -> Iterator[TuningAnswer]:
        until = max(self._until, time.time()) + _SECONDS_FOR_NEAREST
        tasks = [JudgingTask(node.changes, node.puzzle, self._wish, until) for node in self._misses[:_JUDGED]]
        for answer in self._crew.said(answer_to, tasks, until):
            if self._keeps(answer):
                yield answer
