"""Try the laws of techniques on many more boards than the suite does, with fresh seeds.

    python -m scripts.study_laws                            20 seeds, 400 boards each: an hour on two cores
    python -m scripts.study_laws --first 21 --seconds 600   other seeds, ten minutes of them

To be run before each release of the ladder; what it finds becomes a test. The laws are those of
``tests/grader/laws.py``: each holds of every technique on any board, whatever the puzzle. One that is broken
is shown at once, with its seed, the steps, and the board as a test writes it; the same seed draws the same
boards. The tables at the end say how many boards and steps were tried. Exit 1: a law was broken.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass, field
from typing import Annotated

import typer
from hypothesis import HealthCheck, Phase, given, seed, settings
from rich.console import Console
from rich.progress import track
from rich.table import Table

from grader.board.board import Board
from grader.board.steps import Step
from grader.ladder import LADDER
from tests.grader.laws import BOARDS, LAWS, Case, broken, cases
from verifier.puzzle.masks import digits_of

__all__ = ["Tally", "main", "shown", "tried"]

_NOTHING_FAILS = "a_technique_and_the_solver_come_to_an_end"
"""What is taken for granted of every board, and told like a law where it does not hold."""


@dataclass
class Tally:
    """What was tried, and what did not hold."""

    boards: int = 0
    found: Counter[str] = field(default_factory=Counter)
    broken: Counter[str] = field(default_factory=Counter)
    reports: list[str] = field(default_factory=list)

    def add(self, other: Tally) -> None:
        """Add what was tried elsewhere."""
        self.boards += other.boards
        self.found += other.found
        self.broken += other.broken
        self.reports += other.reports

    def look(self, name: str, case: Case) -> None:
        """Try all laws on one board."""
        self.boards += 1
        try:
            self.found.update({technique: len(steps) for technique, steps in case.found.items()})
            found = {law: _listed(steps) for law, steps in broken(case).items()}
        except Exception as error:  # the other boards are worth trying all the same
            found = {_NOTHING_FAILS: repr(error)}
        for law, steps in found.items():
            self.broken[law] += 1
            self.reports.append(f"{name}: not so that {_in_words(law)}:\n{steps}\n{shown(case.board)}")


def main(
    seeds: Annotated[int, typer.Option(min=1, help="How many seeds.")] = 20,
    first: Annotated[int, typer.Option(help="The first of them.")] = 1,
    boards: Annotated[
        int, typer.Option(min=1, help="Boards of each seed, in portions of the suite's.")
    ] = 400,
    seconds: Annotated[
        int | None, typer.Option(min=1, help="Stop after so long, between two boards.")
    ] = None,
    jobs: Annotated[int, typer.Option(min=1, help="Processes.")] = 2,
) -> None:
    """Print the tables."""
    started = time.time()
    until = started + seconds if seconds else float("inf")
    # Of every seed something first: a study that is cut short has tried them all.
    portions = [
        f"{number}.{part}" for part in range(-(-boards // BOARDS)) for number in range(first, first + seeds)
    ]
    console, total = Console(width=110), Tally()
    for tally in _tallies(portions, min(boards, BOARDS), until, jobs):
        for report in tally.reports:
            console.print(report, highlight=False)
        total.add(tally)
    for table in _tables(total):
        console.print(table)
    console.print(
        f"{total.boards:,} boards, {sum(total.found.values()):,} steps in {time.time() - started:.0f} s; "
        f"laws broken: {sum(total.broken.values())}"
    )
    raise typer.Exit(int(bool(total.broken)))


def _tallies(portions: list[str], boards: int, until: float, jobs: int) -> Iterator[Tally]:
    """Yield what each portion comes to; where a person stops the study, what there is by then."""
    with ProcessPoolExecutor(jobs) as pool:
        waiting = [pool.submit(tried, portion, boards, until) for portion in portions]
        try:
            for done in track(as_completed(waiting), total=len(waiting), transient=True):
                yield done.result()
        except KeyboardInterrupt:
            pool.shutdown(cancel_futures=True)


def tried(portion: str, boards: int, until: float) -> Tally:
    """Try the laws on the boards that a seed draws.

    Parameters
    ----------
    portion : str
        The seed.
    boards : int
        How many.
    until : float
        Seconds since the epoch; boards that come later are left out.
    """
    tally = Tally()

    @seed(portion)
    @settings(
        max_examples=boards,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(cases())
    def look(case: Case) -> None:
        if time.time() < until:
            tally.look(f"seed {portion}, board {tally.boards + 1}", case)

    if time.time() < until:  # to draw a board takes time too
        look()
    return tally


def shown(board: Board) -> str:
    r"""Return a board as a test makes it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> print(shown(board_from_text("12 12 3 4\n34 3? 1 2", [Cage((0, 1), 3)], 4)))
    board_from_text('12 12 3 4\n34 3? 1 2\n1234 1234 24 13\n1234 1234 24 13', [Cage((0, 1), 3)], 4)
    """
    size = board.layout.grid.columns
    words = ["".join(map(str, digits_of(mask))) for mask in board.candidates]
    for cell, word in enumerate(words):
        if len(word) == 1 and not board.placed >> cell & 1:
            words[cell] += "?"
    rows = "\n".join(" ".join(words[start : start + size]) for start in range(0, len(words), size))
    drawn = [board.layout.cage(number) for number in board.layout.cage_numbers]
    cages = ", ".join(f"Cage({cage.cells}, {cage.total})" for cage in drawn)
    return f"board_from_text({rows!r}, [{cages}], {size})"


def _listed(steps: list[Step]) -> str:
    return "\n".join(map(repr, steps))


def _in_words(law: str) -> str:
    return law.replace("_", " ")


def _tables(total: Tally) -> Iterator[Table]:
    laws = Table("law", "boards", "broken", title="Laws")
    for law in (*(law.__name__ for law in LAWS), _NOTHING_FAILS):
        laws.add_row(_in_words(law), f"{total.boards:,}", str(total.broken[law]))
    yield laws
    techniques = Table("technique", "steps", title="Steps found")
    for technique in LADDER:
        techniques.add_row(technique.name, f"{total.found[technique.id]:,}")
    yield techniques


if __name__ == "__main__":
    typer.run(main)
