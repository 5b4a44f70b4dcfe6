"""A walk as a page tells it: chapters, passages and steps, each step with its sentence and its picture."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby
from types import MappingProxyType

from grader.board.board import Board
from grader.board.steps import WalkStep
from grader.grading.tiers import TierTable
from grader.ladder import LADDER
from grader.walking.walk import Walk
from grader.words.narrate import tell
from verifier.puzzle.masks import bits

__all__ = [
    "NO_NOTES",
    "Passage",
    "Scene",
    "Stretch",
    "chapters_told",
    "marks_on",
    "stretches_of",
    "technique_names",
    "written_on",
]

NO_NOTES: Mapping[int, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Scene:
    """One step as it is told.

    Parameters
    ----------
    number : int
        Counted from 1.
    says : str
        Its sentence.
    technique : str
        The name of its technique.
    tier : int
        The tier that it belongs to.
    taken : WalkStep
        The step, and the board on which it is taken.
    """

    number: int
    says: str
    technique: str
    tier: int
    taken: WalkStep


@dataclass(frozen=True, slots=True)
class Passage:
    """Steps that are told in one breath.

    Parameters
    ----------
    numbers : str
        Their numbers as people write them: ``7``, or ``7-9``.
    text : str
        One sentence or a few.
    narrow : str
        Why people get stuck at the first of them; empty for most.
    note : str
        What is said after it; empty for most.
    scenes : tuple of Scene
        Never empty.
    """

    numbers: str
    text: str
    narrow: str
    note: str
    scenes: tuple[Scene, ...]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Steps of one technique that follow one another.

    No round: in a round of the replay, which grades the puzzle, all steps of a technique are taken at once.

    Parameters
    ----------
    scenes : tuple of Scene
        Never empty.
    """

    scenes: tuple[Scene, ...]

    @property
    def technique(self) -> str:
        """The name of the technique."""
        return self.scenes[0].technique

    @property
    def tier(self) -> int:
        """The tier that it belongs to."""
        return self.scenes[0].tier

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
    passages : tuple of Passage
        Never empty.
    """

    name: str
    title: str
    lead: str
    passages: tuple[Passage, ...]

    @property
    def first(self) -> int:
        """The number of its first step."""
        return self.scenes[0].number

    @property
    def scenes(self) -> tuple[Scene, ...]:
        """Its steps."""
        return tuple(scene for passage in self.passages for scene in passage.scenes)


def chapters_told(
    walked: Walk,
    tiers: TierTable,
    story_name: str = "",
    narrow: Mapping[int, str] = NO_NOTES,
    notes: Mapping[int, str] = NO_NOTES,
    voice: Callable[[str], str] = str,
) -> tuple[Chapter, ...]:
    """Tell a walk in chapters and passages; with a `story_name` in one chapter of that name.

    Parameters
    ----------
    walked : Walk
        The walk.
    tiers : TierTable
        The tiers to speak of.
    story_name : str, optional
        The name of its one chapter.
    narrow : mapping of int to str, optional
        What is said before a step at which people get stuck, by its number.
    notes : mapping of int to str, optional
        What is said after a step, by its number.
    voice : callable, optional
        How each text is said, such as `verifier.walkthrough.spoken.spoken`.

    Examples
    --------
    >>> from grader.grading.tiers import default_tiers
    >>> from grader.walking.walk import walk
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> walked = walk(make_puzzle("classic", Grid.square(4), givens=givens))
    >>> chapter, = chapters_told(walked, default_tiers())
    >>> chapter.passages[0].numbers, [scene.technique for scene in chapter.passages[0].scenes]
    ('1-2', ['last cell of a house', 'last cell of a house'])
    """
    names = technique_names()
    scenes = [
        Scene(
            number,
            voice(tell(taken.step, walked.layout, taken.board)),
            names[taken.step.technique],
            tiers.tier_of[taken.step.technique],
            taken,
        )
        for number, taken in enumerate(walked.steps, start=1)
    ]
    stages = [stage.name for stage in walked.stages] if not story_name else ["story"]
    return tuple(
        Chapter(
            stage,
            voice(part.title),
            voice(part.lead),
            tuple(
                Passage(
                    one.numbers,
                    voice(one.text),
                    narrow.get(one.first, ""),
                    " ".join(notes[number] for number in range(one.first, one.last + 1) if number in notes),
                    tuple(scenes[one.first - 1 : one.last]),
                )
                for one in part.paragraphs
            ),
        )
        for stage, part in zip(stages, walked.parts(story_name), strict=bool(walked.steps))
    )


def stretches_of(scenes: Iterable[Scene]) -> Iterator[Stretch]:
    """Yield the stretches into which scenes fall."""
    for _, group in groupby(scenes, lambda scene: scene.technique):
        yield Stretch(tuple(group))


def technique_names() -> Mapping[str, str]:
    """Return the name of each technique by its id."""
    return {technique.id: technique.name for technique in LADDER}


def written_on(board: Board) -> dict[int, int]:
    """Return the digits that stand on a board, by cell."""
    return {cell: board.candidates[cell].bit_length() - 1 for cell in bits(board.placed)}


def marks_on(board: Board, cells: int) -> dict[int, int]:
    """Return the open digits of those empty cells of a board that are in the mask `cells`."""
    return {cell: board.candidates[cell] for cell in bits(cells & ~board.placed)}
