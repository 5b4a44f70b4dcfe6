"""The search towards a wish: puzzles one change away, then those near the nearest of them, and so on.

Candidates are looked at in batches of one size, and what is seen is taken in their order: so what is found
does not depend on how many processes look, as long as the time lasts.
"""

from __future__ import annotations

import random
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, islice, repeat, zip_longest
from operator import length_hint
from typing import NamedTuple

from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.answers import Ending, JudgingTask, Tuning, TuningAnswer, answer_to, walked
from verifier.tuning.neighbours.moves import Move, moved_on, moves, solution_after
from verifier.tuning.search.aim import aim_from
from verifier.tuning.search.crew import Crew
from verifier.tuning.search.leads import help_of
from verifier.tuning.search.looking import LookingTask, look_at
from verifier.tuning.search.other_solutions import OtherSolutions
from verifier.tuning.wish import Wish, asks_of_layout, gaps, layout_gaps, wish_in_style
from verifier.verdict.judge import DEFAULT_SETTINGS

__all__ = ["NotSoundError", "Progress", "SearchLimits", "tune"]

_AT_FIRST, _BATCH = 4, 16
"""Candidates that are looked at before what was seen is weighed; few at first: many wishes are soon met."""
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
_WIDER = (1, 4, 16, 64)
"""So many times more of all that are tried where less came to nothing."""
_KEPT = 400
"""Puzzles that do not meet the wish, and such with several solutions: the nearest of them are remembered."""
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
    lean : int
        Which way it goes from here, see `lean_of`; the way from the puzzle that it was made of, where it has
        several solutions. So are its leads.
    leads : mapping of int to float
        See `Look`.
    others : int
        How many other solutions of it are known.
    """

    changes: Move
    puzzle: Puzzle
    nearness: tuple[float, ...] = ()
    lean: int = 0
    leads: Mapping[int, float] = field(default_factory=dict)
    others: int = 0


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
        self._about_layout = asks_of_layout(wish, before.puzzle)
        self._chance = random.Random(limits.seed)
        self._known = {before.puzzle.content}
        self._refuted = OtherSolutions(before.puzzle)
        self._answers: list[TuningAnswer] = []
        self._misses: list[_Node] = []
        self._broken: defaultdict[int, list[_Node]] = defaultdict(list)
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
        start = _Node((), self._before.puzzle, lean=self._aim.lean)
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
                beam += self._broken[changes][: wider * _BROKEN]
        return Ending.ALL_TRIED

    def _looked_through(self, listed: Sequence[_Node], changes: int) -> Ending | None:
        """Look at candidates, batch by batch; return why the search ends with them, if it does."""
        left = iter(listed)
        for number, size in enumerate(chain((_AT_FIRST, _BATCH - _AT_FIRST), repeat(_BATCH))):
            batch = list(islice(left, size))
            if not batch:
                break
            listed_yet = len(batch) + length_hint(left)
            self._heard(Progress(changes, self._tried, listed_yet, len(self._answers)))
            self._take(batch)
            if self._cut:
                return Ending.TIME
            if number and len(self._answers) >= _ENOUGH:
                break
        return Ending.ENOUGH if self._answers else None

    def _listed(self, beam: Sequence[_Node], most: int) -> list[_Node]:
        """Return the puzzles to be looked at next: the most promising ones of each node, turn about."""
        each = [list(islice(self._promising(node), most)) for node in beam]
        return [node for turn in zip_longest(*each) for node in turn if node is not None]

    def _promising(self, node: _Node) -> Iterator[_Node]:
        """Yield all new puzzles one move on that may have one solution, the most promising first."""
        solution = solution_after(node.changes, self._solution)
        for move in self._ranked(node, solution):
            after = moved_on(node.puzzle, move, solution)
            if after is None or after.content in self._known:
                continue
            self._known.add(after.content)
            if self._refuted.refute(after):
                self._tried += 1
            else:
                yield _Node((*node.changes, *move), after, lean=node.lean, leads=node.leads)

    def _ranked(self, node: _Node, solution: Filling) -> list[Move]:
        """Return all moves from a node, the most promising first."""
        ranked = []
        for move in moves(node.puzzle, solution, self._most_givens, self._wish.symmetry):
            if time.time() > self._until:  # a puzzle with many clues has thousands of moves
                self._cut = True
                break
            if len(node.changes) + len(move) <= self._limits.changes:
                helps = help_of(move, node.leads, node.puzzle.grid.digits)
                rank = node.lean * helps or abs(helps), self._chance.random()
                ranked.append((self._layout_after(node.puzzle, move, solution), *rank, move))
        ranked.sort(key=lambda each: each[:-1])
        return [move for *_, move in ranked]

    def _layout_after(self, puzzle: Puzzle, move: Move, solution: Filling) -> float:
        """Return how far a move leaves a puzzle from what is wished of its layout."""
        if not self._about_layout:
            return 0.0
        after = moved_on(puzzle, move, solution)
        return sum(gap.far for gap in layout_gaps(self._wish, after)) if after is not None else 0.0

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
                self._refuted.add(node.puzzle, look.others)
                self._broken[len(node.changes)].append(replace(node, others=len(look.others)))
            else:
                nearness = self._aim.nearness(node.puzzle, look)
                lean = self._aim.lean_from(node.puzzle, look)
                self._misses.append(replace(node, nearness=nearness, lean=lean, leads=look.leads))
        self._misses = sorted(self._misses, key=lambda node: node.nearness)[:_KEPT]
        for changes, broken in self._broken.items():
            self._broken[changes] = sorted(broken, key=lambda node: node.others)[:_KEPT]
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
