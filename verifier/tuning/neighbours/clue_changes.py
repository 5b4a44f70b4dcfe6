"""A mark, line or clue at the edge more, less, longer, shorter or elsewhere; numbers follow the solution."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from verifier.diagnosis.repairs.changes import Change, RuleChange
from verifier.diagnosis.repairs.near_readings import near
from verifier.diagnosis.repairs.readings import fitted
from verifier.files.fields.clues import CLUES
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule
from verifier.tuning.neighbours.new_clues import new_clues
from verifier.tuning.neighbours.redrawn_clues import redrawn

__all__ = ["clue_changes"]

_OF_SOME_NUMBERS: frozenset[type[Rule]] = frozenset({Ratio, PairSum, Whisper})
"""Clues that a setter draws for one number or a few: another one would be another kind of puzzle."""


def clue_changes(puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    """Yield each change of one clue that the solution allows.

    Kinds of clues that the puzzle does not have do not come in.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.lines.thermometer import Thermometer
    >>> grid, solution = Grid.square(4), (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> puzzle = make_puzzle("classic", grid, clues=[Thermometer((0, 1, 2))])
    >>> for change in list(clue_changes(puzzle, solution))[:3]:
    ...     print(change.says(grid))
    Take out the thermometer from r1c1 to r1c3.
    Take r1c3 off the thermometer from r1c1 to r1c3.
    Add r1c4 to the thermometer from r1c1 to r1c3.
    """
    clues = [rule for rule in puzzle.rules if rule.word in CLUES]
    numbers = {(type(clue), clue.figure) for clue in clues}
    yield from (RuleChange(clue, None) for clue in clues)
    for clue in clues:
        drawn = chain(near(clue, puzzle), redrawn(clue, puzzle, solution))
        for new in dict.fromkeys(_read(other, solution) for other in drawn):
            if new is not None and new not in puzzle.rules and _usual(new, numbers):
                yield RuleChange(clue, new)
    for new in dict.fromkeys(_read(other, solution) for other in new_clues(puzzle, clues, solution)):
        if new is not None and new not in puzzle.rules and _usual(new, numbers):
            yield RuleChange(None, new)


def _read(clue: Rule, solution: Filling) -> Rule | None:
    """Return a clue as it reads in the solution; None where it cannot stand there."""
    read = clue if clue.holds(solution) else fitted(clue, solution)
    return read if read is not None and read.holds(solution) else None


def _usual(clue: Rule, numbers: set[tuple[type[Rule], int]]) -> bool:
    return type(clue) not in _OF_SOME_NUMBERS or (type(clue), clue.figure) in numbers
