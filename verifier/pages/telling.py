"""A walk as a page tells it: chapters, stretches and steps, each step with its sentence and its picture."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from grader.board.board import Board, bits
from grader.board.steps import WalkStep
from grader.grading.tiers import TierTable
from grader.ladder import LADDER
from grader.walking.walk import Walk
from grader.words.narrate import tell

__all__ = ["Scene", "Stretch", "chapters_told", "marks_on", "technique_names", "written_on"]


@dataclass(frozen=True, slots=True)
class Scene:
    """One step as it is told.

    Parameters
    ----------
    number : int
        Counted from 1.
    says : str
        Its sentence.
    taken : WalkStep
        The step, and the board on which it is taken.
    """

    number: int
    says: str
    taken: WalkStep


@dataclass(frozen=True, slots=True)
class Stretch:
    """Steps of one technique that follow one another.

    No round: in a round of the replay, which grades the puzzle, all steps of a technique are taken at once.

    Parameters
    ----------
    technique : str
        Its name.
    tier : int
        The tier that it belongs to.
    scenes : tuple of Scene
        Never empty.
    """

    technique: str
    tier: int
    scenes: tuple[Scene, ...]

    @property
    def first(self) -> int:
        """The number of its first step."""
        return self.scenes[0].number

    @property
    def last(self) -> int:
        """The number of its last step."""
        return self.scenes[-1].number

    @property
    def width(self) -> int:
        """How many places were open at its narrowest step."""
        return min(scene.taken.width for scene in self.scenes)


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter of the walk.

    Parameters
    ----------
    name : str
        One of `grader.walking.stages.STAGES`.
    title, lead : str
        Its heading, and a sentence before its first step, which may be empty.
    stretches : tuple of Stretch
        Never empty.
    """

    name: str
    title: str
    lead: str
    stretches: tuple[Stretch, ...]

    @property
    def first(self) -> int:
        """The number of its first step."""
        return self.stretches[0].first


def chapters_told(walked: Walk, tiers: TierTable, story_name: str | None = None) -> tuple[Chapter, ...]:
    """Tell a walk in chapters and stretches; with a `story_name` in one chapter of that name.

    Examples
    --------
    >>> from grader.grading.tiers import default_tiers
    >>> from grader.walking.walk import walk
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> walked = walk(make_puzzle("classic", Grid.square(4), givens=givens))
    >>> chapter, = chapters_told(walked, default_tiers())
    >>> [(told.technique, told.first, told.last) for told in chapter.stretches][:2]
    [('last cell of a house', 1, 2), ('hidden single in a box', 3, 3)]
    """
    if story_name is not None:
        stretches = tuple(_stretches(walked.steps, 1, tiers))
        return (Chapter("story", story_name, "", stretches),) if stretches else ()
    return tuple(
        Chapter(stage.name, part.title, part.lead, tuple(_stretches(stage.steps, stage.first, tiers)))
        for stage, part in zip(walked.stages, walked.parts(), strict=True)
    )


def _stretches(steps: Sequence[WalkStep], first: int, tiers: TierTable) -> Iterator[Stretch]:
    names = technique_names()
    scenes = [
        Scene(number, tell(taken.step, taken.board.layout, taken.board), taken)
        for number, taken in enumerate(steps, start=first)
    ]
    for technique, group in groupby(scenes, lambda scene: scene.taken.step.technique):
        yield Stretch(names[technique], tiers.tier_of[technique], tuple(group))


def technique_names() -> Mapping[str, str]:
    """Return the name of each technique by its id."""
    return {technique.id: technique.name for technique in LADDER}


def written_on(board: Board) -> dict[int, int]:
    """Return the digits that stand on a board, by cell."""
    return {cell: board.candidates[cell].bit_length() - 1 for cell in bits(board.placed)}


def marks_on(board: Board, cells: int) -> dict[int, int]:
    """Return the open digits of those empty cells of a board that are in the mask `cells`."""
    return {cell: board.candidates[cell] for cell in bits(cells & ~board.placed)}
