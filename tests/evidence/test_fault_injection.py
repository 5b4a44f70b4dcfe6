"""Whatever single fault a witness has, no puzzle is accepted that does not have exactly one solution.

The faults are put into the real witnesses: a house that one of them does not know, a combination that is
missing from its table, an answer that is a lie. The numbers of solutions are known from the way our puzzles
were made, and from the reference data, which two solvers agree on.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from types import ModuleType
from typing import Any

import pytest

import grader.reasoning.combinations as GRADING  # noqa: N812 - the tables, as constants of these tests
import verifier.counting.combinations as COUNTING  # noqa: N812
from tests.corpus.puzzles import puzzle_at
from tests.evidence.stand_ins import NONE, ONE, SOLUTION, TWO, judged, saying
from tests.reference import load, puzzle_of
from verifier.counting.count import count_solutions
from verifier.evidence.witnesses import Witnesses
from verifier.puzzle.grid import Filling
from verifier.puzzle.masks import mask_of
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.house import House
from verifier.puzzle.tally import Stop
from verifier.verdict.judge import judge
from verifier.verdict.verdict import Verdict, VerdictState

_OF_EACH_KIND = 4


@dataclass(frozen=True)
class Case:
    """A puzzle whose number of solutions is known: 0, 1, or 2 for two or more."""

    puzzle: Puzzle
    count: int


def ours() -> list[Case]:
    """Small killers, and killers and a classic of the corpus, of every kind."""
    sound = ("killers/low-tide.yaml", "killers/lee-shore.yaml", "classics/ballast.yaml")
    several = ("sent-back/forked-channel.yaml", "sent-back/either-oar.yaml")
    return [
        *(Case(ONE, 1), Case(TWO, 2), Case(NONE, 0)),
        *(Case(puzzle_at(address), 1) for address in sound),
        *(Case(puzzle_at(address), 2) for address in several),
        Case(puzzle_at("sent-back/wrong-net.yaml"), 0),
    ]


def recorded() -> list[Case]:
    """Killers and classics of the reference data, of every kind."""
    known, records = [], load("generated")
    for count in (1, "2+", 0):
        chosen = [record for record in records if record["solutions"] == count][:_OF_EACH_KIND]
        known += [Case(puzzle_of(record), 2 if count == "2+" else record["solutions"]) for record in chosen]
    known += [Case(puzzle_of(record), 1) for record in load("classic_17")[:2]]
    return known + [Case(puzzle_of(record), 2) for record in load("classic_multi_derived")[:1]]


Cases = Callable[[], list[Case]]
OF_BOTH = pytest.mark.parametrize("cases", [ours, pytest.param(recorded, marks=pytest.mark.reference)])


def assert_not_wrong(verdict: Verdict, count: int) -> None:
    """Assert that a verdict is right or undecided; above all, that nothing is accepted wrongly."""
    assert verdict.state is not VerdictState.ACCEPTED or count == 1
    if verdict.state is VerdictState.REJECTED:
        assert count != 1
    if verdict.state is not VerdictState.UNDECIDED:
        assert verdict.solutions.count == count


Faulty = Callable[[tuple[House, ...]], tuple[House, ...]]


def with_houses(faulty: Faulty, witness: Callable[..., Any]) -> Callable[..., Any]:
    """Return a witness that has other houses in mind."""

    def mistaken(puzzle: Puzzle, *others: Any) -> Any:
        return witness(puzzle.having(House, faulty(puzzle.houses)), *others)

    return mistaken


def without_row_1(houses: tuple[House, ...]) -> tuple[House, ...]:
    """One row alone changes nothing: the columns and the other rows imply it. It must do no harm, either."""
    return houses[1:]


def without_boxes(houses: tuple[House, ...]) -> tuple[House, ...]:
    return tuple(house for house in houses if house.kind != "box")


def with_a_wrong_cell(houses: tuple[House, ...]) -> tuple[House, ...]:
    """Row 1 ends with the first cell of row 2."""
    wrong = replace(houses[0], cells=(*houses[0].cells[:-1], houses[1].cells[0]))
    return (wrong, *houses[1:])


@OF_BOTH
@pytest.mark.parametrize("witness", ["count", "replay", "recount"])
@pytest.mark.parametrize("faulty", [without_row_1, without_boxes, with_a_wrong_cell])
def test_faulty_houses_on_either_side_never_make_a_wrong_verdict(
    witness: str, faulty: Faulty, cases: Cases
) -> None:
    for case in cases():
        verdict = judged(case.puzzle, **{witness: with_houses(faulty, getattr(Witnesses.real(), witness))})
        assert_not_wrong(verdict, case.count)


@OF_BOTH
@pytest.mark.parametrize(("witness", "faulty"), [("count", without_boxes), ("replay", with_a_wrong_cell)])
def test_the_faulty_houses_are_noticed(witness: str, faulty: Faulty, cases: Cases) -> None:
    """The test above would pass without looking if no verdict changed."""
    mistaken = {witness: with_houses(faulty, getattr(Witnesses.real(), witness))}
    verdicts = [judged(case.puzzle, **mistaken) for case in cases() if case.count == 1]
    assert any(verdict.state is not VerdictState.ACCEPTED for verdict in verdicts)


@pytest.mark.parametrize("witness", ["count", "recount"])
@pytest.mark.parametrize("solutions", [(), (SOLUTION,), (SOLUTION, SOLUTION[::-1])])
@pytest.mark.parametrize("stop", list(Stop))
def test_a_lying_witness_never_makes_a_wrong_verdict(
    witness: str, solutions: tuple[Filling, ...], stop: Stop
) -> None:
    for puzzle, count in ((ONE, 1), (TWO, 2), (NONE, 0)):
        assert_not_wrong(judged(puzzle, **{witness: saying(*solutions, stop=stop)}), count)


@OF_BOTH
def test_a_count_that_loses_a_solution_is_found_out(cases: Cases) -> None:
    """The lie that matters: one true solution, and the claim that there is no other."""
    for case in cases():
        if case.count == 2:
            shown, _ = count_solutions(case.puzzle).solutions
            verdict = judged(case.puzzle, count=saying(shown))
            assert [reason.code for reason in verdict.reasons] == ["witnesses-disagree"]


@OF_BOTH
def test_a_count_that_loses_the_only_solution_is_found_out(cases: Cases) -> None:
    for case in cases():
        if case.count == 1:
            verdict = judged(case.puzzle, count=saying())
            assert [reason.code for reason in verdict.reasons] == ["witnesses-disagree"]


@contextmanager
def combination_lost(table: ModuleType, lost: tuple[int, ...]) -> Iterator[None]:
    """Take a combination out of the table of one side, wherever that side uses it."""
    real, entry = table.combinations_of, lost if table is COUNTING else mask_of(lost)

    def without(total: int, size: int, digits: int) -> tuple[Any, ...]:
        return tuple(combination for combination in real(total, size, digits) if combination != entry)

    package = table.__name__.partition(".combinations")[0]
    modules = [module for name, module in list(sys.modules.items()) if name.startswith(package)]
    with pytest.MonkeyPatch.context() as patch:
        for module in modules:
            if getattr(module, "combinations_of", None) is real:
                patch.setattr(module, "combinations_of", without)
        _forget(modules)
        yield
    _forget(modules)


def _forget(modules: list[ModuleType]) -> None:
    """Empty the caches of modules: what they hold was worked out from the table as it was."""
    for module in modules:
        for thing in list(vars(module).values()):
            if hasattr(thing, "cache_clear"):
                thing.cache_clear()


def combinations_to_lose(puzzle: Puzzle, most: int = 2) -> list[tuple[int, ...]]:
    """Return what a few cages hold in one solution and, if they can, not in the other one."""
    solutions = count_solutions(puzzle).solutions
    cages = [cage for cage in puzzle.cages if 2 <= len(cage.cells) <= 5]
    held = [[tuple(sorted(filling[c] for c in cage.cells)) for cage in cages] for filling in solutions]
    if not held:
        tables = (COUNTING.combinations_of(c.total, len(c.cells), puzzle.grid.digits) for c in cages)
        return [combination for table in tables for combination in table][:most]
    pairs = sorted(zip(held[0], held[-1], strict=True), key=lambda pair: pair[0] == pair[1])
    return [one for one, _ in pairs[:most]]


@OF_BOTH
@pytest.mark.parametrize("table", [COUNTING, GRADING])
def test_a_combination_missing_on_either_side_never_makes_a_wrong_verdict(
    table: ModuleType, cases: Cases
) -> None:
    for case in cases():
        for lost in combinations_to_lose(case.puzzle):
            with combination_lost(table, lost):
                verdict = judge(case.puzzle)
            assert_not_wrong(verdict, case.count)


@OF_BOTH
def test_a_combination_missing_from_the_count_would_make_two_solutions_one(cases: Cases) -> None:
    """The danger is real: the count alone says "one" for a puzzle with two, and only the others see it."""
    deceived = []
    for case in cases():
        if case.count == 2 and case.puzzle.cages:
            with combination_lost(COUNTING, combinations_to_lose(case.puzzle)[0]):
                deceived.append(count_solutions(case.puzzle).count < 2)
    assert any(deceived)


@OF_BOTH
def test_a_combination_missing_from_the_grader_is_noticed(cases: Cases) -> None:
    reasons = []
    for case in cases():
        if case.count == 1 and case.puzzle.cages:
            with combination_lost(GRADING, combinations_to_lose(case.puzzle)[0]):
                reasons += [reason.code for reason in judge(case.puzzle).reasons]
    assert "witnesses-disagree" in reasons
