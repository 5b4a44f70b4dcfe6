"""Arguments: steps that lead to one digit, or show that something cannot be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import WalkStep
from grader.board.technique import Technique
from grader.walking.load import load_of_all
from grader.walking.search import way_to
from grader.walking.thinning import Goal, Work, in_order, retold, sliced, thinned
from verifier.puzzle.masks import bits

__all__ = ["Argument", "argument_for", "slice_of", "story_of"]

ASKS = 3000
"""How often, for the argument of a cell, techniques are asked again what is left of their steps."""


@dataclass(frozen=True, slots=True)
class Argument:
    """Steps that follow one another, the last of which is what they are for.

    Parameters
    ----------
    steps : tuple of WalkStep
        Never empty.
    """

    steps: tuple[WalkStep, ...]

    @property
    def end(self) -> Board:
        """The board that it leads to."""
        return _end(self.steps)

    @property
    def contradicts(self) -> bool:
        """Whether it ends with a cell that has nothing left: the board it starts from cannot be."""
        return 0 in self.end.candidates

    @property
    def load(self) -> int:
        """What it asks of a person."""
        return load_of_all(self.steps)

    @property
    def rules(self) -> tuple[int, ...]:
        """All rules that it rests on, by their numbers in the layout.

        Those that its steps cite, those that their sums are derived from, and for each digit that is closed
        where they look, since it stands in a cell in sight, the house or cage in which both cells are. More
        than it needs: a digit may be closed for several reasons.
        """
        layout = self.end.layout
        cited: set[int] = set()
        for taken in self.steps:
            cited.update(taken.step.rules)
            for derived in taken.step.sums:
                cited.update(derived.rules)
            for cell in taken.step.looks:
                if not taken.board.placed >> cell & 1:
                    cited.update(_sights(cell, taken.board, layout))
        return tuple(sorted(cited))


def _sights(cell: int, board: Board, layout: Layout) -> set[int]:
    """Return the rules by which digits that stand in sight are closed in a cell."""
    seen: dict[int, tuple[int, ...]] = {}
    for peer in bits(layout.sees[cell] & board.placed):
        digit = board.candidates[peer].bit_length() - 1
        if not board.candidates[cell] >> digit & 1:
            seen.setdefault(digit, layout.link(cell, peer))
    return {rule for link in seen.values() for rule in link}


def argument_for(board: Board, cell: int, ladder: Sequence[Technique]) -> tuple[WalkStep, ...]:
    """Return a short argument for the digit of a cell, or to a contradiction; empty if none is found."""
    way = way_to(board, cell, ladder)
    return () if way is None else _short(board, *way)


def story_of(cell: int, told: Sequence[WalkStep], ladder: Sequence[Technique]) -> tuple[WalkStep, ...]:
    """Return a short argument for a cell, from the board on which a walk starts.

    Parameters
    ----------
    cell : int
        The cell.
    told : sequence of WalkStep
        The walk: no technique is harder than its hardest up to the cell's digit. Where it never
        gets there, the argument is for all that it removes from the cell.
    ladder : sequence of Technique
        What may be used.
    """
    if not told:
        return ()
    board = told[0].board
    before, goal = _up_to(cell, told)
    if not before:
        return ()
    found = [_short(board, sliced(board, before, goal), goal)]
    if not goal.gone:
        hardest = max(_rank(taken.step.technique, ladder) for taken in before)
        found.append(argument_for(board, cell, ladder[: hardest + 1]))
    # Where the puzzle has no solution, another digit may be shown as well, or nothing at all be left.
    end = _end(before).candidates[cell]
    return min(
        (steps for steps in found if steps and (goal.gone or _end(steps).candidates[cell] == end)),
        key=load_of_all,
        default=slice_of(cell, told),
    )


def slice_of(cell: int, told: Sequence[WalkStep]) -> tuple[WalkStep, ...]:
    """Return the steps of a walk that a cell may rest on: too many, but no technique is asked again."""
    before, goal = _up_to(cell, told) if told else ((), Goal(cell))
    if not before:
        return ()
    board = told[0].board
    return tuple(retold(board, sliced(board, before, goal), goal, Work(0)) or ())


def _up_to(cell: int, told: Sequence[WalkStep]) -> tuple[Sequence[WalkStep], Goal]:
    """Return a walk up to the digit of a cell; the whole walk, where all it does is close some there."""
    for number, taken in enumerate(told):
        if any(at == cell for at, _ in taken.step.places):
            return told[: number + 1], Goal(cell)
    gone = told[0].board.candidates[cell] & ~_end(told).candidates[cell]
    return (told, Goal(cell, gone)) if gone else ((), Goal(cell))


def _end(steps: Sequence[WalkStep]) -> Board:
    return steps[-1].board.after([steps[-1].step])


def _short(board: Board, steps: Sequence[WalkStep], goal: Goal) -> tuple[WalkStep, ...]:
    work = Work(ASKS)
    found = thinned(board, steps, goal, work)
    if found is None:
        return tuple(retold(board, steps, goal, Work(0)) or ())
    return in_order(board, found, goal, Work(ASKS))


def _rank(technique: str, ladder: Sequence[Technique]) -> int:
    return next(rank for rank, one in enumerate(ladder) if one.id == technique)
