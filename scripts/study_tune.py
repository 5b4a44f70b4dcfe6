"""Tune puzzles of the reference data towards three wishes, against random changes in the same run.

    python -m scripts.study_tune                                     an hour on one core
    python -m scripts.study_tune --killers 8 --classics 3 --others 3 --seconds 30

Each puzzle is wished a tier easier, a tier or more harder, and without its hardest technique (where that is
no single); a killer without more givens, any other with two more. A wish counts as met when the first puzzle
is found that has its full verdict. The plain way makes one to three random changes at a time and judges what
comes of them until one fits. Every puzzle that the search offers is counted again by the plain search of the
corpus builder, which shares nothing with the program, or by clingo where that takes too long. Some searches
are made with one process and with two, and must answer alike.

All seconds are processor time of one process, so that it does not matter what else the machine does: two free
cores give twice as many in the same time.
Exit 1: a puzzle that was offered is not what was said of it, or two processes answer otherwise than one.
"""

from __future__ import annotations

import time
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from statistics import median
from typing import Annotated

import typer
from rich.console import Console
from rich.table import Table

from grader.ladder import LADDER
from scripts.setting.plain import Exhausted, find_solutions
from tests.reference import load, puzzle_of
from verifier.puzzle.puzzle import Puzzle
from verifier.recount.recount import recount_solutions
from verifier.tuning.answers import JudgingTask, TuningAnswer, answer_to
from verifier.tuning.neighbours.moves import Move, moved_on, moves
from verifier.tuning.search.beam import Progress, SearchLimits, tune
from verifier.tuning.search.crew import Crew
from verifier.tuning.wish import Wish
from verifier.verdict.judge import judge
from verifier.verdict.verdict import Verdict

__all__ = ["main"]

_PLAIN_SECONDS = 10.0
"""Both ways are held against each other by what they find in this time."""
_SOON = 1.0
_FOREVER = 86_400.0
_MORE_GIVENS = 2
_STEP = 5
_TRIES = 2_000
"""What the plain search may take for one puzzle; where that is not enough, clingo counts."""
_LAST = 6
"""The highest tier without trial."""
_SINGLES = frozenset(technique.id for technique in LADDER if "single" in technique.id)
_TIERS = {"killer": (3, 5), "classic": (3, 5), "other rules": (2, 5)}


@dataclass(frozen=True)
class Case:
    """A puzzle and a wish."""

    sort: str
    name: str
    puzzle: Puzzle
    verdict: Verdict
    wish: Wish


@dataclass(frozen=True)
class Outcome:
    """How long both ways took, None where they found nothing; and what the recount says of the answers."""

    case: Case
    seconds: float | None
    plain_seconds: float | None
    offered: int
    unsound: int
    unsettled: int


def main(
    killers: Annotated[int, typer.Option(help="Killers of tiers 3 to 5.")] = 30,
    classics: Annotated[int, typer.Option(help="Classics of tiers 3 to 5.")] = 10,
    others: Annotated[int, typer.Option(help="Puzzles with other rules, of tiers 2 to 5.")] = 10,
    seconds: Annotated[float, typer.Option(help="What the search may take for a wish.")] = 60.0,
    alike: Annotated[int, typer.Option(help="Puzzles of each sort searched with one and two processes.")] = 3,
) -> None:
    """Measure, and print a table."""
    wanted = {"killer": killers, "classic": classics, "other rules": others}
    cases = [case for sort, number in wanted.items() for case in _cases(sort, number)]
    console, outcomes = Console(width=140), list[Outcome]()
    with Crew(1) as crew:
        for case in cases:
            outcomes.append(_outcome(case, seconds, crew))
            console.print(_line(outcomes[-1]))
    console.print(_table(outcomes))
    down = [[case for case in cases if (case.sort, case.name) == (sort, "down")][:alike] for sort in wanted]
    same = [_searched_alike(case) for some in down for case in some]
    console.print(f"{sum(same)} of {len(same)} searches answer alike with one and with two processes")
    raise typer.Exit(not all(same) or any(outcome.unsound for outcome in outcomes))


def _records(sort: str) -> Iterator[Puzzle]:
    files = {"killer": "generated", "classic": "classic_human", "other rules": "variants"}
    records = [record for record in load(files[sort]) if record["solutions"] == 1 and not record.get("hard")]
    step = _STEP if sort == "other rules" else 1  # so that of each rule there is one, not all of the first
    for record in (record for start in range(step) for record in records[start::step]):
        yield puzzle_of(record)


def _cases(sort: str, number: int) -> Iterator[Case]:
    low, high = _TIERS[sort]
    for puzzle in _records(sort):
        if not number:
            return
        verdict = judge(puzzle)
        difficulty = verdict.difficulty
        if difficulty is None or difficulty.tier is None or not low <= difficulty.tier <= high:
            continue
        number -= 1
        most = len(puzzle.givens) + (0 if sort == "killer" else _MORE_GIVENS)
        tier, hardest = difficulty.tier, difficulty.hardest
        wishes = {
            "down": Wish(tiers=(tier - 1,), most_givens=most),
            "up": Wish(tiers=tuple(range(tier + 1, _LAST + 1)), most_givens=most),
        }
        if hardest is not None and hardest not in _SINGLES:
            wishes["without"] = Wish(without=(hardest,), most_givens=most)
        yield from (Case(sort, name, puzzle, verdict, wish) for name, wish in wishes.items())


def _outcome(case: Case, seconds: float, crew: Crew) -> Outcome:
    started, first = time.process_time(), list[float]()

    def heard(progress: Progress) -> None:
        taken = time.process_time() - started
        if progress.found and not first:
            first.append(taken)
        if progress.listed and (first or taken > seconds):  # all of a batch is judged
            raise KeyboardInterrupt  # ends the search, and leaves what was found

    found = tune(case.puzzle, case.wish, crew, SearchLimits(3, _FOREVER), heard)
    settled = [_fits(answer, case) for answer in found.answers]
    return Outcome(
        case,
        first[0] if first else None,
        _plain_way(case),
        len(settled),
        settled.count(False),
        settled.count(None),
    )


def _searched_alike(case: Case) -> bool:
    found = []
    for jobs in (1, 2):
        with Crew(jobs) as crew:
            found.append(tune(case.puzzle, case.wish, crew, SearchLimits(1, _FOREVER)))
    return found[0] == found[1]


def _fits(answer: TuningAnswer, case: Case) -> bool | None:
    """Whether an answer has the solution of the puzzle and no other; None where that takes too long."""
    solution = case.verdict.solutions.filling
    try:
        found = [filling for filling, _ in zip(find_solutions(answer.puzzle, _TRIES), range(2), strict=False)]
    except Exhausted:
        tally = recount_solutions(answer.puzzle)
        if not tally.complete:
            return None
        found = list(tally.solutions)
    fewer = case.wish.most_givens is None or len(answer.puzzle.givens) <= case.wish.most_givens
    return found == [solution] and fewer


def _plain_way(case: Case) -> float | None:
    """Return after how many seconds random changes made a puzzle that fits, if they did."""
    started, chance = time.process_time(), Random(case.puzzle.credits.id)
    taken = 0.0
    while taken < _PLAIN_SECONDS:
        task = JudgingTask(*_at_random(case, chance), case.wish, time.time() + _FOREVER)
        fits, taken = answer_to(task).fits, time.process_time() - started
        if fits:
            return taken
    return None


def _at_random(case: Case, chance: Random) -> tuple[Move, Puzzle]:
    solution, most = case.verdict.solutions.filling, case.wish.most_givens
    assert solution is not None
    assert most is not None
    changes: Move = ()
    puzzle = case.puzzle
    for _ in range(chance.randint(1, 3)):
        move = chance.choice(list(moves(puzzle, solution, most)))
        after = moved_on(puzzle, move, solution)
        if after is not None:
            changes, puzzle = (*changes, *move), after
    return changes, puzzle


def _line(outcome: Outcome) -> str:
    ours, plain = (
        "not met" if taken is None else f"{taken:.1f} s" for taken in (outcome.seconds, outcome.plain_seconds)
    )
    unsound = f", {outcome.unsound} UNSOUND" if outcome.unsound else ""
    return f"{outcome.case.puzzle.credits.id}, {outcome.case.name}: {ours}, the plain way {plain}{unsound}"


def _table(outcomes: list[Outcome]) -> Table:
    lines: defaultdict[tuple[str, str], list[Outcome]] = defaultdict(list)
    for outcome in outcomes:
        lines[outcome.case.sort, outcome.case.name].append(outcome)
    caption = "a puzzle is unsettled where counting it again took too long"
    table = Table("puzzles", "wish", title="Towards a wish", caption=caption)
    for name in ("cases", "met", "median", "plain median", "met in 1 s", "plain", "met in 10 s", "plain"):
        table.add_column(name, justify="right")
    for name in ("offered", "unsound", "unsettled"):
        table.add_column(name, justify="right")
    for (sort, name), some in lines.items():
        ours, plain = [o.seconds for o in some], [o.plain_seconds for o in some]
        ways = [[taken for taken in way if taken is not None] for way in (ours, plain)]
        table.add_row(
            *(sort, name, str(len(some)), str(len(ways[0]))),
            *(f"{median(way):.1f}" if way else "-" for way in ways),
            *(str(sum(each <= most for each in way)) for most in (_SOON, _PLAIN_SECONDS) for way in ways),
            *(str(sum(getattr(o, key) for o in some)) for key in ("offered", "unsound", "unsettled")),
        )
    return table


if __name__ == "__main__":
    typer.run(main)
