"""The questions that a process of its own answers: what a puzzle is, what would mend it, how it goes.

Each is a function that yields what is to be told, as it comes. Importing this module loads the solvers: the
process from which the others are forked has them at hand then.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from queue import SimpleQueue
from typing import Any, TypeVar

from grader.walking.walk import Walk
from verifier.desk import wording
from verifier.desk.answers.papers import PAPERS
from verifier.desk.answers.repeats import Archive, archive_at, repeats_in
from verifier.desk.drafting.unfinished import as_judged, judged_without
from verifier.desk.picturing import change_pictured, chart_of, swings_pictured
from verifier.desk.stage import help_shown
from verifier.diagnosis import wording as diagnosis_wording
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.findings import Diagnosis, Finding
from verifier.diagnosis.repairs.changes import Change, changed
from verifier.diagnosis.repairs.mends import Mend
from verifier.evidence.establish import Evidence, ask_witnesses, weigh
from verifier.evidence.statements import Statement
from verifier.evidence.witnesses import load_solvers
from verifier.evidence.wording import proved_by
from verifier.files.so_far import SoFar
from verifier.intake.errors import IntakeError
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.checking.run_checks import RUN_TOTAL
from verifier.puzzle.grid import Filling
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.answers import Tuning
from verifier.tuning.portrait import in_short
from verifier.tuning.search.beam import Progress, SearchLimits, tune
from verifier.tuning.search.crew import Crew
from verifier.tuning.tuning_text import as_sentence, changes_in_words, what_came_of_it, what_stands_in_the_way
from verifier.tuning.wish import Wish
from verifier.verdict.hardness import graded
from verifier.verdict.remarks import remarks_on
from verifier.verdict.style.checks import style_checks
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.verdict import Difficulty
from verifier.walkthrough.helping import help_from
from verifier.walkthrough.strength import Strength
from verifier.walkthrough.wording import effort_in_words
from verifier.walkthrough.work import work_through

__all__ = ["QUESTIONS", "Beat"]

load_solvers()

_Said = TypeVar("_Said")
_Result = TypeVar("_Result")

_SECONDS_FOR_REPAIRS = 20.0
_SECONDS_FOR_TUNING = 30.0


@dataclass(frozen=True, slots=True)
class Beat:
    """A part of an answer.

    Parameters
    ----------
    name : str
        Which part.
    facts : mapping of str to plain values
        For the page.
    fillings : tuple of filling
        Solutions that were found.
    puzzles : tuple of Puzzle
        What the puzzle would become, one for each change that is offered.
    walked : Walk or None
        The puzzle worked through.
    paper : bytes
        Something to print or to keep.
    archive : Archive or None
        What puzzles were compared with.
    """

    name: str
    facts: Mapping[str, Any]
    fillings: tuple[Filling, ...] = ()
    puzzles: tuple[Puzzle, ...] = field(default=(), repr=False)
    walked: Walk | None = field(default=None, repr=False)
    paper: bytes = field(default=b"", repr=False)
    archive: Archive | None = field(default=None, repr=False)


def standing(puzzle: Puzzle, style: HouseStyle) -> Iterator[Beat]:
    """Yield what a puzzle is in three beats: found, proved, graded; what is not finished is left out."""
    without, puzzle = judged_without(puzzle), as_judged(puzzle)
    failed = [check.says for check in arithmetic_checks(puzzle) if not check.passed]
    if failed:
        yield Beat("found", {"standing": "none", "says": failed, "without": without})
        yield Beat("proved", {"standing": "none", "by": wording.BY_ARITHMETIC})
        yield from _not_graded(puzzle, style)
        return
    said: list[Statement] = []
    for statement in ask_witnesses(puzzle):
        if not said:
            yield _found(puzzle, statement, without)
        said.append(statement)
    evidence = weigh(puzzle, said)
    yield _proved(evidence)
    if evidence.sound:
        yield _graded(puzzle, evidence, style)
    else:
        yield from _not_graded(puzzle, style)


def _found(puzzle: Puzzle, first: Statement, without: list[str]) -> Beat:
    standing = {0: "none", 1: "one"}.get(first.count, "several")
    if not first.complete and first.count < 2:
        standing = "unknown"
    swings = first.swing_cells if first.count > 1 else ()
    name = puzzle.grid.cell_name
    one, other = first.solutions if standing == "several" else ((), ())
    facts = {
        "standing": standing,
        "says": [],
        "without": without,
        "swings": [[name(cell), one[cell], other[cell]] for cell in swings],
        "under": swings_pictured(puzzle, swings),
    }
    return Beat("found", facts, first.solutions)


def _proved(evidence: Evidence) -> Beat:
    count = {0: "none", 1: "one"}.get(evidence.count or 0, "several")
    by = wording.BY_TWO_GRIDS if count == "several" else proved_by(each.name for each in evidence.witnesses)
    facts = {
        "standing": count if evidence.decided else "unknown",
        "by": by if evidence.decided else "",
        "says": [check.says for check in evidence.checks if not check.passed and check.code != RUN_TOTAL],
    }
    return Beat("proved", facts, evidence.solutions)


def _graded(puzzle: Puzzle, evidence: Evidence, style: HouseStyle) -> Beat:
    grade = graded(evidence.replay, style)
    difficulty = grade.difficulty if grade else None
    against = _against(style, puzzle, difficulty)
    remarks = [remark.says for remark in remarks_on(puzzle, style)]
    facts: dict[str, Any] = {"against": against, "remarks": remarks, "tier": "", "says": ""}
    if grade is not None and difficulty is not None:
        facts |= _difficulty(puzzle, difficulty) | {"says": grade.says}
        facts["chart"] = chart_of(evidence, style)
        facts["tiers"] = list(style.tiers_to_grade_with().names.values())
    return Beat("graded", facts)


def _not_graded(puzzle: Puzzle, style: HouseStyle) -> Iterator[Beat]:
    """Yield what the house has against a broken puzzle, if anything."""
    if against := _against(style, puzzle, None):
        yield Beat("graded", {"against": against, "remarks": [], "tier": "", "says": ""})


def _against(style: HouseStyle, puzzle: Puzzle, difficulty: Difficulty | None) -> list[str]:
    return [check.says for check in style_checks(style, puzzle, difficulty) if not check.passed]


def _difficulty(puzzle: Puzzle, difficulty: Difficulty) -> dict[str, Any]:
    minutes = difficulty.minutes
    bounds = None if minutes is None else (minutes.middle, minutes.least, minutes.most)
    effort = difficulty.effort
    return {
        "tier": "" if difficulty.tier is None else str(difficulty.tier),
        "name": difficulty.name or "",
        "effort": "" if effort is None else effort_in_words(effort, puzzle.kind, bounds),
        "break_in": difficulty.break_in.says if difficulty.break_in else "",
        "round": difficulty.break_in.round if difficulty.break_in else None,
    }


def repairs(puzzle: Puzzle, first: int) -> Iterator[Beat]:
    """Yield what is wrong and what would put it right, as it is found; at last all of it, in order.

    Offers are numbered from `first` on.
    """
    findings: list[str] = []
    mends: dict[tuple[Change, ...], int] = {}

    def search(heard: Callable[[Finding | Mend], None]) -> Diagnosis:
        return diagnose(puzzle, _SECONDS_FOR_REPAIRS, clock=_SECONDS_FOR_REPAIRS, heard=heard)

    for said in _as_it_comes(search):
        if isinstance(said, Finding):
            findings.append(said.says)
        elif isinstance(said, Diagnosis):
            order = [mends[mend.changes] for mend in said.mends if mend.changes in mends]
            yield Beat("repairs", {"findings": [finding.says for finding in said.findings], "order": order})
        elif said.changes not in mends:
            number = mends.setdefault(said.changes, first + len(mends))
            says = diagnosis_wording.mend(puzzle.grid, said)
            yield _offer(puzzle, said.changes, says, number, findings)


def _as_it_comes(
    ask: Callable[[Callable[[_Said], None]], _Result],
) -> Iterator[_Said | _Result]:
    """Yield what a search tells while it goes on, then what it returns."""
    heard: SimpleQueue[_Said | _Result | None] = SimpleQueue()

    def search() -> None:
        try:
            heard.put(ask(heard.put))
        finally:  # or who waits would wait for ever
            heard.put(None)

    threading.Thread(target=search, daemon=True).start()
    while (said := heard.get()) is not None:
        yield said


def tuned(puzzle: Puzzle, wish: Wish, first: int) -> Iterator[Beat]:
    """Yield changes towards a wish as they are found, each proved to keep the solution; then what came of it.

    Offers are numbered from `first` on.
    """
    offers: dict[tuple[Change, ...], int] = {}

    def search(heard: Callable[[Progress], None]) -> Tuning:
        return tune(puzzle, wish, Crew(1), SearchLimits(seconds=_SECONDS_FOR_TUNING), heard)

    for said in _as_it_comes(search):
        answers = said.answers if isinstance(said, Tuning) else (said.newest,) if said.newest else ()
        for answer in answers:
            if answer.changes not in offers:
                number = offers.setdefault(answer.changes, first + len(offers))
                changes = changes_in_words(puzzle.grid, answer.changes)
                says = f"{changes} {as_sentence(in_short(answer.verdict.difficulty))}"
                yield _offer(puzzle, answer.changes, says, number, ())
        if isinstance(said, Tuning):
            findings = [*what_came_of_it(said), *(what_stands_in_the_way(said, None) if said.nearest else ())]
            order = [offers[answer.changes] for answer in said.answers]
            yield Beat("tuned", {"findings": findings, "order": order})
        else:
            says = filled(wording.LOOKED_AT, tried=said.tried, found=said.found)
            yield Beat("looking", {"says": says})


def _offer(
    puzzle: Puzzle, changes: Sequence[Change], says: str, number: int, findings: Sequence[str]
) -> Beat:
    facts = {
        "offer": number,
        "findings": list(findings),
        "says": says,
        "picture": change_pictured(puzzle, changes),
    }
    return Beat("offer", facts, puzzles=(changed(puzzle, changes),))


def idle(puzzle: Puzzle) -> Iterator[Beat]:
    """Yield what a sound puzzle can do without."""
    found = diagnose(puzzle, _SECONDS_FOR_REPAIRS, clock=_SECONDS_FOR_REPAIRS, idle=True)
    yield Beat(
        "idle", {"findings": [finding.says for finding in found.findings[1:]] or [wording.NOTHING_IDLE]}
    )


def repeats(
    puzzle: Puzzle, place: Path, own: Path, known: Archive | None, solution: Filling | None
) -> Iterator[Beat]:
    """Yield which puzzles of a folder or a ledger a puzzle repeats."""
    try:
        archive = archive_at(place, known)
    except (IntakeError, OSError) as error:
        yield Beat("repeats", {"findings": [filled(wording.NOT_COMPARED, why=str(error))]})
        return
    findings = list(repeats_in(archive, place, own, puzzle, solution))
    yield Beat("repeats", {"findings": findings}, archive=archive)


def walk(puzzle: Puzzle) -> Iterator[Beat]:
    """Yield the walk through a puzzle."""
    told = work_through(puzzle)
    yield Beat("walk", {"count": len(told.told.steps)}, walked=told.told)


def next_digit(puzzle: Puzzle, so_far: SoFar, strength: Strength) -> Iterator[Beat]:
    """Yield what is wrong in the grid of an audience, or else the way to the next digit."""
    yield Beat("next", help_shown(help_from(puzzle, so_far), strength))


def paper(puzzle: Puzzle, style: HouseStyle, kind: str) -> Iterator[Beat]:
    """Yield something to print or to keep; one of `verifier.desk.answers.papers.PAPERS`."""
    yield Beat("paper", {}, paper=PAPERS[kind].write(puzzle, style))


Question = Callable[..., Iterator[Beat]]

QUESTIONS: Mapping[str, Question] = {
    "standing": standing,
    "repairs": repairs,
    "tuned": tuned,
    "idle": idle,
    "repeats": repeats,
    "walk": walk,
    "next": next_digit,
    "paper": paper,
}
