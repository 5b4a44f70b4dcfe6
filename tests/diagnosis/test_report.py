"""What an editor reads: every message, word for word, and the YAML for programs."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from tests.diagnosis.puzzles import drawn, sound, with_several
from tests.snapshots import assert_snapshot
from verifier.diagnosis import wording
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.findings import Diagnosis, Finding
from verifier.diagnosis.idle import idle_findings
from verifier.diagnosis.repairs.changes import CageChange, CellMove, changed, given_change, total_change
from verifier.diagnosis.repairs.mends import Kind, Mend
from verifier.diagnosis.repairs.proof import Proof
from verifier.diagnosis.report import as_record, in_words, write_diagnosis
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.without.imbalances import imbalances
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

SNAPSHOTS = Path(__file__).parent / "snapshots"
FOUR, NINE = Grid.square(4), Grid.square(9)
A, B = Cage((0, 1), 12), Cage((9, 10, 18), 21)

NO_WORDS_OF_SOLVERS = re.compile(
    r"cp-?sat|clingo|solver|constraint|assumption|core|infeasible|model|boolean|literal|clause|enumerat|mus\b",
    re.IGNORECASE,
)


def off_by_one(number: int) -> Puzzle:
    puzzle, _ = sound(12)[number]
    cage = puzzle.cages[number]
    return changed(puzzle, [total_change(cage, cage.total + 1)])


def claimed_elsewhere() -> Puzzle:
    return replace(sound(12)[0][0], solution=sound(12)[1][1])


CASES: dict[str, Callable[[], Puzzle]] = {
    "sound": lambda: sound(12)[0][0],
    "other-solution": claimed_elsewhere,
    "total-off": lambda: off_by_one(1),
    "total-off-elsewhere": lambda: off_by_one(4),
    "givens-clash": lambda: make_puzzle("classic", FOUR, givens={0: 1, 3: 1, 5: 2, 6: 1, 9: 3, 15: 4}),
    "impossible-cage": lambda: make_puzzle(
        "killer", FOUR, cages=[Cage((0, 1), 9), Cage((3, 7), 6), Cage((9, 13), 4), Cage((14, 15), 3)]
    ),
    "two-solutions": lambda: next(puzzle for puzzle, number in with_several(40, 1000) if number == 2),
    "four-solutions": lambda: next(puzzle for puzzle, number in with_several(40, 1000) if number == 4),
    "too-many-to-count": lambda: make_puzzle("classic", Grid.square(6), givens={0: 1, 8: 2, 16: 3}),
}


@pytest.mark.parametrize("name", CASES)
def test_what_is_said_of_a_puzzle(name: str) -> None:
    text = in_words(diagnose(CASES[name](), seconds=4))
    assert_snapshot(SNAPSHOTS / f"{name}.txt", text)


@pytest.mark.parametrize("name", CASES)
def test_nothing_is_said_in_the_words_of_solvers(name: str) -> None:
    assert NO_WORDS_OF_SOLVERS.findall((SNAPSHOTS / f"{name}.txt").read_text(encoding="utf-8")) == []


def test_what_is_said_of_idle_parts() -> None:
    said = [finding.says for finding in idle_findings(sound(12)[2][0], SearchBudget())]
    assert_snapshot(SNAPSHOTS / "idle.txt", "\n".join(said) + "\n")


def test_what_is_said_of_arithmetic() -> None:
    """Every shape of it: too much and too little, inside and outside, one house, several and the grid."""
    boxes = [Cage((0, 1, 4, 5), 10), Cage((2, 3, 6, 7), 10), Cage((8, 9, 12, 13), 10)]
    puzzles = {
        "exact": [Cage((0, 1), 3), Cage((2, 3), 6)],
        "box": [*boxes, Cage((10, 11, 14, 15), 9)],
        "grid": [
            Cage((0, 1, 2), 6),
            Cage((3, 7, 11), 9),
            Cage((12, 13, 14), 6),
            Cage((15,), 4),
            Cage((4, 8), 6),
            Cage((5, 6), 5),
            Cage((9, 10), 3),
        ],
        "innies": [Cage((0, 1), 4), Cage((2, 6), 4), Cage((3,), 1)],
        "nothing inside": [Cage((0, 1), 7), Cage((3, 2), 7)],
        "outies": [Cage((0, 1), 4), Cage((2, 3, 7), 12)],
        "nothing outside": [Cage((0, 1), 3), Cage((2, 3, 7), 6)],
        "too large": [Cage((0, 1, 2, 3, 4), 12)],
        "too much": [Cage((0, 1), 8)],
    }
    lines = []
    for name, cages in puzzles.items():
        found = imbalances(make_puzzle("killer", FOUR, cages=cages))
        lines += [f"{name}: {wording.imbalance(FOUR, one)}" for one in found[:2]]
    assert_snapshot(SNAPSHOTS / "arithmetic.txt", "\n".join(lines) + "\n")


REPAIRS: list[tuple[Kind, tuple[object, ...]]] = [
    (Kind.TOTAL, (total_change(A, 21),)),
    (Kind.EXCHANGE, (total_change(A, 21), total_change(B, 12))),
    (Kind.GIVEN, (given_change(4, 3, 5),)),
    (Kind.LESS, (given_change(4, 3, None),)),
    (Kind.CELL, (CellMove(1, A, B),)),
    (Kind.CELL, (CellMove(2, None, A),)),
    (Kind.CELL, (CellMove(1, A, None),)),
    (Kind.PAIR, (total_change(A, 13), given_change(4, None, 5))),
    (Kind.EXTRA, (given_change(4, None, 5),)),
    (Kind.EXTRA, (given_change(4, None, 5), given_change(40, None, 1), given_change(80, None, 9))),
    (Kind.SPLIT, (CageChange((B,), (Cage((9,), 5), Cage((10, 18), 16))),)),
    (Kind.JOIN, (CageChange((A, B), (Cage((0, 1, 9, 10, 18), 33),)),)),
    (Kind.ADD, (CageChange((), (Cage((30, 31), 11),)),)),
]


def repair(kind: Kind, changes: tuple[object, ...], *, keeps_claim: bool = False) -> Mend:
    proof = Proof((), 3, "hill", "replay", by_trial=False)
    return Mend(kind, changes, proof, keeps_claim)  # type: ignore[arg-type]


def test_what_is_said_of_each_repair() -> None:
    said = [wording.mend(NINE, repair(kind, changes)) for kind, changes in REPAIRS]
    said.append(wording.mend(NINE, repair(*REPAIRS[0], keeps_claim=True)))
    assert_snapshot(SNAPSHOTS / "repairs.txt", "\n".join(said) + "\n")


def test_a_repair_names_every_given_however_many() -> None:
    many = tuple(given_change(cell, None, 1 + cell % 9) for cell in range(30))
    said = wording.mend(NINE, repair(Kind.EXTRA, many))
    assert all(f"in {NINE.cell_name(cell)}" in said for cell in range(30))


def test_repairs_as_yaml() -> None:
    """The keys that programs rely on: rank, says, changes with what, from and to, solutions, tier."""
    mends = tuple(repair(kind, changes) for kind, changes in REPAIRS)
    puzzle = make_puzzle("killer", NINE, cages=[A, B])
    text = write_diagnosis(Diagnosis(puzzle, _COUNT, (), mends))
    assert_snapshot(SNAPSHOTS / "repairs.yaml", text)
    first = yaml.safe_load(text)["repairs"][0]
    assert first["rank"] == first["solutions"] == 1
    assert first["changes"] == [{"what": "total", "cage": ["r1c1", "r1c2"], "from": 12, "to": 21}]


@pytest.mark.parametrize("name", ["total-off", "two-solutions", "givens-clash"])
def test_a_diagnosis_as_yaml_reads_back_as_it_was(name: str) -> None:
    found = diagnose(CASES[name](), seconds=4)
    assert yaml.safe_load(write_diagnosis(found)) == as_record(found)
    assert_snapshot(SNAPSHOTS / f"{name}.yaml", write_diagnosis(found))


def test_a_long_chain_is_told_from_its_middle() -> None:
    steps = [f"Step {number}." for number in range(1, 31)]
    found = Diagnosis(drawn(FOUR, 1)[0], _COUNT, (_HEAD, Finding("conflict", "Why.", {"steps": steps})), ())
    text = in_words(found)
    assert "(5 steps before these)" in text or "(five steps before these)" in text
    assert "Step 5." not in text
    assert "   30. Step 30.\n" in text


_HEAD = Finding("no-solution", wording.NO_SOLUTION)
_COUNT = diagnose(sound(12)[0][0]).count
