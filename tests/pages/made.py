"""Pages to look at, each made once."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from grader.grading.replay import replay
from grader.walking.walk import Walk, walk
from tests.pages.scenes import puzzle_named
from verifier.diagnosis.diagnose import diagnose
from verifier.files.so_far import SoFar
from verifier.pages.box_page import BoxLine, box_page
from verifier.pages.help_page import help_page
from verifier.pages.plan_page import PlanLine, plan_page
from verifier.pages.report_page import ReportTable, report_page
from verifier.pages.verdict_page import verdict_page
from verifier.pages.walkthrough import walk_page
from verifier.tuning.answers import Tuning
from verifier.tuning.comparing import compare
from verifier.tuning.search.beam import SearchLimits, tune
from verifier.tuning.search.crew import Crew
from verifier.tuning.tuning_page import comparison_page, tuning_page
from verifier.tuning.wish import Wish
from verifier.verdict.judge import judge
from verifier.verdict.verdict import Verdict
from verifier.walkthrough.helping import help_from

__all__ = [
    "BOX",
    "box_of",
    "comparison_page_of",
    "help_page_of",
    "plan_of",
    "report_of",
    "tuned",
    "tuning_page_of",
    "verdict_of",
    "verdict_page_of",
    "walk_of",
    "walk_page_of",
]

BOX = ("classic", "ridge", "several", "pocket", "markup")
"""The puzzles of the box page."""


@cache
def walk_of(name: str) -> Walk:
    """The walk of a puzzle, with the steps that matter."""
    return walk(puzzle_named(name)).shortened()


@cache
def walk_page_of(name: str) -> str:
    """The walkthrough page of a puzzle."""
    return walk_page(puzzle_named(name), walk_of(name), head=["Said before."], foot=["Said after."])


@cache
def help_page_of(name: str) -> str:
    """The page for somebody who is stuck early in a puzzle, with two digits that are wrong."""
    puzzle, walked = puzzle_named(name), walk_of(name)
    assert walked.filling is not None
    placed = [cell for taken in walked.steps for cell, _ in taken.step.places]
    entries = {cell: walked.filling[cell] for cell in placed[: len(placed) // 3]}
    for cell in list(entries)[1:3]:
        entries[cell] = entries[cell] % puzzle.grid.digits + 1
    return help_page(help_from(puzzle, SoFar(tuple(sorted(entries.items()))), drop_wrong=True))


@cache
def verdict_of(name: str) -> Verdict:
    """The verdict on a puzzle."""
    return judge(puzzle_named(name))


@cache
def verdict_page_of(name: str) -> str:
    """The verdict page of a puzzle: with its replay if it is sound, else with a diagnosis."""
    puzzle, verdict = puzzle_named(name), verdict_of(name)
    if verdict.difficulty is not None:
        return verdict_page(puzzle, verdict, played=replay(puzzle))
    return verdict_page(puzzle, verdict, diagnosis=diagnose(puzzle, seconds=2, clock=600))


@cache
def tuned(name: str, low: int, high: int) -> Tuning:
    """What one change towards an effort comes to."""
    with Crew(1) as crew:
        return tune(puzzle_named(name), Wish(effort=(low, high)), crew, SearchLimits(changes=1, seconds=600))


@cache
def tuning_page_of(name: str, low: int, high: int) -> str:
    """The page of the ways to an effort."""
    return tuning_page(tuned(name, low, high), more=2)


@cache
def comparison_page_of(name: str, low: int, high: int) -> str:
    """The page that holds a puzzle against the first way to an effort."""
    first = tuned(name, low, high).answers[0]
    return comparison_page(compare(puzzle_named(name), first.puzzle), (f"{name}.yaml", "long/path/" * 8))


@cache
def plan_of() -> str:
    """The plan of a page with a slot that stays empty."""
    empty = ("This slot stays empty.", "None is in stock.")
    lines = [
        PlanLine("Monday", "2026-03-30", "killer, tier 4", puzzle_named("ridge"), ("Tier 4, ridge.",)),
        PlanLine("Tuesday", "2026-03-31", "classic", puzzle_named("classic"), ("long/path/" * 8,)),
        PlanLine("Wednesday", "", "puzzle of any kind", puzzle_named("markup"), ()),
        PlanLine("Sunday", "2026-04-05", "killer of 9x9", None, empty),
    ]
    notes = {"To look at": ("Tuesday takes less effort.",), "Ask for": ("killer, tier 5",), "Left out": ()}
    return plan_page("By <Lamplight>", "Three of four slots filled.", lines, notes)


@cache
def report_of() -> str:
    """The report of a box, as long as it gets."""
    queue = [("a proved repair", f"Low tide {n} (post/week-12/{n}.yaml)", "x y " * 30) for n in range(12)]
    figures = ("sent", "accepted", "commonest fault", "tiers")
    setters = [(f"Wren Alder {n}", 17, "88%", "several solutions", "3 of tier 1") for n in range(10)]
    tables = [
        ReportTable("Sent back for", ("reason", "submissions"), [("several solutions", n) for n in range(8)]),
        ReportTable("Accepted, by tier", ("tier", "accepted"), [(f"{n} ridge", n) for n in range(1, 8)]),
        ReportTable("By setter", ("setter", *figures), setters),
        ReportTable("Over time", ("came on", *figures), setters[:8]),
        ReportTable("Empty", ("none",), []),
    ]
    numbers = [("accepted", "193"), ("rejected", "130"), ("accepted repeats", "33"), ("to look at", "1,041")]
    return report_page("Spring & <post>", "347 submissions.", numbers, queue, "And 1,029 more.", tables)


@cache
def box_of() -> str:
    """The box page of a few puzzles, one of which could not be read."""
    lines = [
        BoxLine(f"{name}.yaml", puzzle_named(name), verdict_of(name), href=f"{name}.html") for name in BOX
    ]
    lines[1] = replace(lines[1], repeats=("may/old <one>.yaml (printed before)", f"{BOX[0]}.yaml"))
    return box_page(
        [*lines, BoxLine("torn.yaml", says="torn.yaml:3: <grid>: found '9y9'")], "Spring & <post>"
    )
