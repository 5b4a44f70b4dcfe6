"""The arithmetic of a puzzle: each check, what it says, and that a failure proves there is no solution."""

from __future__ import annotations

from itertools import combinations, permutations
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.reference import facts, load, puzzle_of
from tests.snapshots import assert_snapshot
from verifier.puzzle.breaches import solves
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.totals import possible_totals

SNAPSHOTS = Path(__file__).parent / "snapshots"

SMALL, USUAL = Grid.square(4), Grid.square(9)
PAIR, TRIPLE = (0, 1), (0, 1, 2)


def killer(*cages: tuple[int, tuple[int, ...] | range], givens: dict[int, int] | None = None) -> Puzzle:
    return make_puzzle(
        "killer", USUAL, cages=[Cage(tuple(c), total) for total, c in cages], givens=givens or {}
    )


def classic(givens: dict[int, int]) -> Puzzle:
    return make_puzzle("classic", USUAL, givens=givens)


def failed(puzzle: Puzzle) -> list[str]:
    return [check.code for check in arithmetic_checks(puzzle) if not check.passed]


def rows_of(*totals: int) -> list[tuple[int, range]]:
    return [(total, range(9 * row, 9 * row + 9)) for row, total in enumerate(totals)]


BROKEN = {
    "a cage with more cells than digits": killer((45, range(10))),
    "a total too small": killer((5, TRIPLE)),
    "a total too large": killer((25, TRIPLE)),
    "a total of one cell": killer((10, (40,))),
    "a total of nothing": killer((0, PAIR)),
    "a total of a whole house": killer((44, (0, 1, 2, 9, 10, 11, 18, 19, 20))),
    "the whole grid, one too few": killer(*rows_of(45, 45, 45, 45, 45, 45, 45, 45, 44)),
    "the whole grid, 1000 too many": killer(*rows_of(45, 45, 45, 1045, 45, 45, 45, 45, 45)),
    "a row of cages": killer((20, range(4)), (26, range(4, 9))),
    "a column of cages": killer((30, range(0, 36, 9)), (14, range(36, 81, 9))),
    "a box of cages": killer((9, (60, 61)), (14, (62, 71)), (18, (69, 70)), (5, (78, 79)), (9, (80,))),
    "two givens the same in a row": classic({0: 5, 4: 5}),
    "two givens the same in a row and a box": classic({0: 5, 2: 5}),
    "three givens the same in a column": classic({0: 5, 27: 5, 54: 5}),
    "two givens the same in a cage": killer((16, (0, 10, 20, 30)), givens={0: 5, 30: 5}),
    "givens that make another total": killer((9, PAIR), givens={0: 5, 1: 3}),
    "a given that is another total": killer((4, (0,)), givens={0: 5}),
    "givens that exceed the total": killer((9, TRIPLE), givens={0: 5, 1: 4}),
    "a given that would have to stand twice": killer((10, PAIR), givens={0: 5}),
    "a given that leaves too much": killer((22, TRIPLE), givens={1: 4}),
}
"""One puzzle for each way to be impossible; the messages stand in `snapshots/arithmetic.txt`."""

SOUND = {
    "a cage with as many cells as digits": killer((45, range(9))),
    "a house that is one cage": killer((45, range(0, 81, 9))),
    "a given that is a whole cage": killer((4, (0,)), givens={0: 4}),
    "the smallest total": killer((6, TRIPLE)),
    "the largest total": killer((24, TRIPLE)),
    "the whole grid": killer(*rows_of(*[45] * 9)),
    "a row of cages": killer((20, range(4)), (25, range(4, 9))),
    "a row not quite covered": killer((20, range(4)), (16, range(4, 8))),
    "a row covered by a cage that leaves it": killer((20, range(4)), (26, range(4, 10))),
    "givens the same in other houses": classic({0: 5, 12: 5, 24: 5}),
    "givens the same in a cage and its neighbour": killer((9, PAIR), (9, (9, 10)), givens={0: 5, 12: 5}),
    "givens that make the total": killer((8, PAIR), givens={0: 5, 1: 3}),
    "a given that leaves just enough": killer((21, TRIPLE), givens={1: 4}),
}
"""Near misses: each differs little from one above."""


@pytest.mark.parametrize("name", SOUND)
def test_a_near_miss_passes(name: str) -> None:
    assert failed(SOUND[name]) == []


@pytest.mark.parametrize("name", BROKEN)
def test_an_impossible_puzzle_fails(name: str) -> None:
    assert failed(BROKEN[name]) != []


def test_every_sentence_reads_as_agreed() -> None:
    assert_snapshot(SNAPSHOTS / "arithmetic.txt", "\n".join(map(page, [*BROKEN.items(), *SOUND.items()])))


def page(named: tuple[str, Puzzle]) -> str:
    name, puzzle = named
    lines = [f"{'pass' if check.passed else 'FAIL'} {check.says}\n" for check in arithmetic_checks(puzzle)]
    return f"== {name}\n\n{''.join(lines)}"


def test_each_kind_of_check_is_listed_once_when_it_passes() -> None:
    puzzle = killer((20, range(4)), (25, range(4, 9)), *rows_of(*[45] * 9)[1:], givens={0: 5})
    assert [check.code for check in arithmetic_checks(puzzle)] == [
        "cage-size",
        "cage-total",
        "full-sum",
        "house-sum",
        "givens-in-houses",
        "givens-in-cages",
    ]


def test_checks_that_do_not_apply_are_not_listed() -> None:
    assert arithmetic_checks(classic({})) == ()
    assert [check.code for check in arithmetic_checks(killer((9, PAIR)))] == ["cage-size", "cage-total"]


def test_every_failure_of_a_puzzle_is_listed() -> None:
    puzzle = killer((18, PAIR), (2, (9, 10)), (9, (18, 19)), givens={18: 9, 30: 4, 35: 4})
    assert failed(puzzle) == ["cage-total", "cage-total", "givens-in-houses", "givens-in-cages"]


def test_the_full_sum_is_that_of_the_grid() -> None:
    for size in (4, 6, 9, 12, 16, 25):
        grid = Grid.square(size)
        cages = [Cage(house.cells, grid.house_total) for house in grid.houses[:size]]
        said = [
            c.says
            for c in arithmetic_checks(make_puzzle("killer", grid, cages=cages))
            if c.code == "full-sum"
        ]
        total = size * size * (size + 1) // 2
        assert said == [f"The cages cover the whole grid and add up to {total}, as they must."]


# What the outside world says


@pytest.mark.parametrize(("houses", "total"), [(1, 45), (2, 90), (3, 135)])
def test_houses_add_up_as_in_practice(houses: int, total: int) -> None:
    """Common practice, no source: a house adds up to 45, two to 90, three to 135."""
    assert houses * USUAL.house_total == total


@pytest.mark.reference
def test_totals_of_cages_are_the_published_ones() -> None:
    """Source: `facts.yaml`, subsets_1_to_9 (a brute force; over all sizes row n = 9 of OEIS A053632)."""
    for size, counts in facts()["subsets_1_to_9"]["count_by_size_and_sum"].items():
        assert possible_totals(size, tuple(USUAL.all_digits)) == set(counts)
        passing = [total for total in range(60) if failed(killer((total, range(size)))) == []]
        assert [passing[0], passing[-1]] == facts()["subsets_1_to_9"]["range_of_sums_by_size"][size]


@pytest.mark.reference
@pytest.mark.parametrize(
    "name", ["killer", "killer_derived", "killer16", "generated", "classic_17", "classic_misc"]
)
def test_no_published_puzzle_with_a_solution_fails(name: str) -> None:
    """Source: the counts and solutions recorded in the reference data."""
    records = [record for record in load(name) if record["kind"] != "kakuro"][:200]
    refused = [record["id"] for record in records if record["solutions"] != 0 and failed(puzzle_of(record))]
    assert refused == []


@pytest.mark.reference
def test_some_published_puzzles_without_a_solution_fail() -> None:
    """Source: killer_derived.jsonl, killers with a shifted total; generated.jsonl, those that have none."""
    records = [record for name in ("killer_derived", "generated") for record in load(name)]
    assert sum(1 for record in records if failed(puzzle_of(record))) >= 7


def grids_4x4() -> list[Filling]:
    rows = list(permutations(range(1, 5)))
    blank = make_puzzle("classic", SMALL)
    halves = [(a, b) for a in rows for b in rows if len({*a[:2], *b[:2]}) == 4 and len({*a[2:], *b[2:]}) == 4]
    grids = [(*a, *b, *c, *d) for a, b in halves for c, d in halves if not _meet(a, c) and not _meet(b, d)]
    return [grid for grid in grids if solves(blank, grid)]


def _meet(a: tuple[int, ...], b: tuple[int, ...]) -> bool:
    return any(x == y for x, y in zip(a, b, strict=True))


GRIDS = grids_4x4()


def test_there_are_288_grids_4x4() -> None:
    """Source: OEIS A107739, a(2) = 288."""
    assert len(GRIDS) == 288


cells = st.integers(0, 15)
small_cages = st.lists(st.tuples(st.sets(cells, min_size=1, max_size=5), st.integers(1, 16)), max_size=6)


@given(small_cages, st.dictionaries(cells, st.integers(1, 4), max_size=5))
def test_a_failure_proves_that_no_grid_solves_the_puzzle(
    drawn: list[tuple[set[int], int]], givens: dict[int, int]
) -> None:
    taken: set[int] = set()
    cages = []
    for cage, total in drawn:
        if not taken & cage:
            cages.append(Cage(tuple(cage), total))
            taken |= cage
    puzzle = make_puzzle("killer", SMALL, cages=cages, givens=givens)
    assume(failed(puzzle))
    assert not any(solves(puzzle, grid) for grid in GRIDS)


def test_the_check_of_givens_in_a_cage_is_exact() -> None:
    """It fails just where no digit completes the cage: every cage of two or three cells with one left."""
    for size in (2, 3):
        for total in range(3, 25):
            for digits in combinations(range(1, 10), size - 1):
                left = total - sum(digits)
                puzzle = killer(
                    (total, range(0, 27 * size, 27)), givens={27 * i: d for i, d in enumerate(digits)}
                )
                possible = 1 <= left <= 9 and left not in digits
                in_range = "cage-total" not in failed(puzzle)
                assert ("givens-in-cages" in failed(puzzle)) == (in_range and not possible)
