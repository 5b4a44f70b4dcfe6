"""The verdict on a puzzle, as a value: the same facts, in the same order, as the YAML people read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from verifier.evidence.statements import WitnessSays
from verifier.puzzle.checking.arithmetic import Check
from verifier.puzzle.checking.run_checks import RUN_TOTAL
from verifier.puzzle.grid import Filling

__all__ = [
    "BreakInRecord",
    "Difficulty",
    "Identity",
    "MadeBy",
    "Minutes",
    "Reason",
    "Remark",
    "Rows",
    "Solutions",
    "Verdict",
    "VerdictState",
]

Rows = tuple[tuple[int, ...], ...]
"""A full grid, row by row; 0 in a blocked cell."""

WITNESSES_NEEDED = 2
"""How many witnesses must say "one" before a puzzle can be accepted."""


class VerdictState(Enum):
    """The verdict in one word."""

    ACCEPTED = "accepted"
    """Proved to have exactly one solution, and nothing in the house style speaks against it."""
    REJECTED = "rejected"
    """Proved to be broken, or against the house style; the reasons say what."""
    UNDECIDED = "undecided"
    """Not proved either way: a limit was reached, or the witnesses disagree."""


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a puzzle is not accepted.

    Parameters
    ----------
    code : str
        For programs, such as ``several-solutions``.
    says : str
        For people: what is wrong, where, and what to do about it.
    """

    code: str
    says: str


@dataclass(frozen=True, slots=True)
class Remark:
    """What rejects nothing, but wants a look before the puzzle goes to print.

    Parameters
    ----------
    code : str
        For programs, such as ``cage-in-pieces``.
    says : str
        For people: what it is, where, and what may have been meant.
    cells : tuple of str
        The cells it is about, in reading order; empty where it is about none in particular.
    """

    code: str
    says: str
    cells: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Identity:
    """Which puzzle the verdict is about.

    Parameters
    ----------
    id, title, setter : str or None
        The credits, as the file gives them.
    kind : str
        ``classic``, ``killer`` or ``kakuro``.
    grid : str
        Rows by columns, such as ``9x9``.
    content : str
        Versioned hash of the puzzle itself, see `verifier.puzzle.puzzle.Puzzle.content`.
    rules : tuple of str
        The kinds of rules in it beside houses, see `verifier.puzzle.puzzle.Puzzle.kinds_of_rules`.
    """

    id: str
    title: str | None
    setter: str | None
    kind: str
    grid: str
    content: str
    rules: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Solutions:
    """How many solutions there are, and what they look like.

    Parameters
    ----------
    count : int or None
        The number found; None where the witnesses disagree about it.
    complete : bool
        Whether `count` is all there are; if not, there are at least so many.
    grid : rows or None
        The solution, when there is exactly one.
    examples : tuple of rows
        Two that differ, when there are several.
    swing_cells : tuple of str
        The cells that differ between the solutions found, in reading order.
    """

    count: int | None
    complete: bool
    grid: Rows | None = None
    examples: tuple[Rows, ...] = ()
    swing_cells: tuple[str, ...] = ()

    @property
    def filling(self) -> Filling | None:
        """The solution cell by cell, when there is exactly one."""
        return None if self.grid is None else tuple(digit for row in self.grid for digit in row)


@dataclass(frozen=True, slots=True)
class BreakInRecord:
    """The first step of the hardest technique: where the puzzle gives way.

    Parameters
    ----------
    round : int
        Its round, counted from 1.
    technique : str
        The id of the technique.
    says : str
        The step as one sentence.
    places : mapping of str to int
        Digits written in, by cell.
    removes : mapping of str to tuple of int
        Candidates that go, by cell.
    """

    round: int
    technique: str
    says: str
    places: Mapping[str, int]
    removes: Mapping[str, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Minutes:
    """How long people are expected to take, as in `grader.grading.minutes.Minutes`.

    Parameters
    ----------
    middle : int
        The middle solver.
    least, most : int
        What four in five of such puzzles lie between.
    """

    middle: int
    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Difficulty:
    """How hard the puzzle is, and why; see `grader.grading.grade.Grade`.

    Parameters
    ----------
    tier, name, hardest, effort, rounds, steps, by_technique, solved_by_logic
        As in the grade. Where the replay stopped, the first four and the last are None: nobody knows.
    break_in : BreakInRecord or None
        The first step of the hardest technique.
    minutes : Minutes or None
        None where nothing is known that they could be estimated from.
    beyond : int or None
        The tier at which the replay stopped, where the house style ends the ladder there.
    """

    tier: int | None
    name: str | None
    hardest: str | None
    effort: int | None
    rounds: int
    steps: int
    by_technique: Mapping[str, int]
    break_in: BreakInRecord | None
    solved_by_logic: bool | None
    minutes: Minutes | None = None
    beyond: int | None = None


@dataclass(frozen=True, slots=True)
class MadeBy:
    """What made the verdict. A later run judges again when any of it has changed.

    Parameters
    ----------
    gridproof, ladder, ortools, clingo : str
        Versions.
    style_name, style_content : str
        The house style's name, and a versioned hash of its rules.
    """

    gridproof: str
    ladder: str
    style_name: str
    style_content: str
    ortools: str
    clingo: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """Everything that is known about one puzzle.

    Parameters
    ----------
    state : VerdictState
        Accepted, rejected or undecided.
    reasons : tuple of Reason
        Empty exactly when the puzzle is accepted.
    puzzle : Identity
        Which puzzle it is about.
    solutions : Solutions
        How many there are.
    witnesses : tuple of WitnessSays
        Who says so.
    difficulty : Difficulty or None
        None when the puzzle is not sound, or the replay did not reach its end.
    checks : tuple of Check
        Every check that was made, pass or fail, in words.
    made_by : MadeBy
        Versions and hashes.
    remarks : tuple of Remark
        What rejects nothing, but wants a look.
    provisional : bool
        Whether a wall clock or a memory limit cut the work short, so that a later run may get further.

    Raises
    ------
    ValueError
        If an accepted verdict rests on anything but one solution vouched for by two witnesses, or if the
        reasons do not fit the state. That is a bug of ours; it must never reach an editor.
    """

    state: VerdictState
    reasons: tuple[Reason, ...]
    puzzle: Identity
    solutions: Solutions
    witnesses: tuple[WitnessSays, ...]
    difficulty: Difficulty | None
    checks: tuple[Check, ...]
    made_by: MadeBy
    remarks: tuple[Remark, ...] = ()
    provisional: bool = False

    @property
    def is_broken(self) -> bool:
        """Whether there is not exactly one solution, or a total is missing: a repair can be looked for."""
        found = self.solutions
        whole = all(reason.code != RUN_TOTAL for reason in self.reasons)
        return self.state is VerdictState.REJECTED and not (whole and found.complete and found.count == 1)

    def __post_init__(self) -> None:
        accepted = self.state is VerdictState.ACCEPTED
        if accepted is bool(self.reasons):
            raise ValueError(f"verdict {self.state.value} with {len(self.reasons)} reasons")
        if accepted and not self._one_is_proved():
            raise ValueError(f"accepted on {self.solutions.count} solutions and {self.witnesses}")

    def _one_is_proved(self) -> bool:
        one = self.solutions.count == 1 and self.solutions.complete and self.solutions.grid is not None
        vouching = {witness.name for witness in self.witnesses if witness.says == 1}
        return one and len(vouching) >= WITNESSES_NEEDED and not self.provisional
