"""Keys: equal for disguises, never for near twins, and right where an independent test decides."""

from __future__ import annotations

from dataclasses import replace

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.diagnosis.near_twins import twins
from tests.diagnosis.puzzles import drawn
from tests.reference import load, puzzle_of, solution_of
from tests.strategies import fillings, killers
from tests.symmetries import rearrangements
from verifier.likeness import labelling
from verifier.likeness.filling import filling_key
from verifier.likeness.labelling import ColouredGraph, canonical_image
from verifier.likeness.structure import structure_key
from verifier.likeness.turned import complement, turned_images, turned_key
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House

NINE = Grid.square(9)

# The labelling, against networkx's search for an isomorphism: a general-purpose library


@st.composite
def coloured_graphs(draw: st.DrawFn) -> ColouredGraph:
    size = draw(st.integers(1, 8))
    colours = draw(st.lists(st.integers(0, 1), min_size=size, max_size=size))
    pairs = [(one, other) for one in range(size) for other in range(one)]
    chosen = draw(st.lists(st.booleans(), min_size=len(pairs), max_size=len(pairs)))
    return ColouredGraph.of(colours, [pair for pair, taken in zip(pairs, chosen, strict=True) if taken])


@given(coloured_graphs(), st.data())
def test_a_graph_with_other_numbers_has_the_same_image(graph: ColouredGraph, data: st.DataObject) -> None:
    order = data.draw(st.permutations(range(len(graph.colours))))
    colours = [0] * len(order)
    for corner, colour in enumerate(graph.colours):
        colours[order[corner]] = colour
    edges = [(order[a], order[b]) for a, near in enumerate(graph.around) for b in near if a < b]
    assert canonical_image(ColouredGraph.of(colours, edges)) == canonical_image(graph)


@settings(max_examples=200)
@given(coloured_graphs(), coloured_graphs())
def test_two_graphs_have_the_same_image_only_if_they_are_the_same(
    one: ColouredGraph, other: ColouredGraph
) -> None:
    alike = sorted(one.colours) == sorted(other.colours) and canonical_image(one) == canonical_image(other)
    assert alike == _isomorphic(_drawn(one), _drawn(other))


def test_graphs_that_look_alike_from_every_corner_are_told_apart() -> None:
    """Two triangles and a ring of six: every corner has two neighbours, so colours alone say nothing."""
    triangles = ColouredGraph.of([0] * 6, [(0, 1), (1, 2), (2, 0), (3, 4), (4, 5), (5, 3)])
    ring = ColouredGraph.of([0] * 6, [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 0)])
    assert canonical_image(triangles) != canonical_image(ring)


def _drawn(graph: ColouredGraph) -> nx.Graph[object]:
    drawing: nx.Graph[object] = nx.Graph()
    for corner, colour in enumerate(graph.colours):
        drawing.add_node(corner, colour=colour)
    drawing.add_edges_from((a, b) for a, near in enumerate(graph.around) for b in near)
    return drawing


def _isomorphic(one: nx.Graph[object], other: nx.Graph[object]) -> bool:
    return bool(nx.vf2pp_is_isomorphic(one, other, node_label="colour"))


# Disguises of killers and classics


@settings(max_examples=60)
@given(st.data())
def test_a_killer_in_disguise_has_the_same_structure_key(data: st.DataObject) -> None:
    grid = Grid.square(data.draw(st.sampled_from([4, 6, 9])))
    puzzle = data.draw(killers(grid))
    disguised = data.draw(rearrangements(puzzle)).puzzle(puzzle)
    assert structure_key(disguised) == structure_key(puzzle)


@settings(max_examples=60)
@given(st.data())
def test_a_classic_in_disguise_has_the_same_structure_key(data: st.DataObject) -> None:
    grid = Grid.square(data.draw(st.sampled_from([4, 6, 9])))
    puzzle = data.draw(classics(grid))
    disguised = data.draw(rearrangements(puzzle)).puzzle(puzzle)
    assert structure_key(disguised) == structure_key(puzzle)


@st.composite
def classics(draw: st.DrawFn, grid: Grid) -> Puzzle:
    filling = draw(fillings(grid))
    shown = draw(st.lists(st.booleans(), min_size=grid.cell_count, max_size=grid.cell_count))
    return make_puzzle("classic", grid, givens={c: filling[c] for c, seen in enumerate(shown) if seen})


@settings(max_examples=40)
@given(st.data())
def test_near_twins_have_other_keys(data: st.DataObject) -> None:
    """One total, one given, or one border of a cage changed, in a killer with a cage for every cell."""
    puzzle, filling = drawn(NINE, data.draw(st.integers(0, 10_000)))
    puzzle = puzzle.having(Given, [Given(0, filling[0]), Given(40, filling[40])])
    for twin in twins(puzzle):
        assert structure_key(twin) != structure_key(puzzle)
        assert turned_key(twin) != turned_key(puzzle)


@settings(max_examples=60)
@given(st.data())
def test_keys_of_small_killers_are_equal_only_if_an_isomorphism_is_found(data: st.DataObject) -> None:
    one = data.draw(killers(Grid.square(4)))
    for other in twins(one):
        same = any(
            _isomorphic(_puzzle_drawn(one), _puzzle_drawn(form)) for form in (other, complement(other))
        )
        assert (structure_key(one) == structure_key(other)) == same


def _puzzle_drawn(puzzle: Puzzle) -> nx.Graph[object]:
    drawing: nx.Graph[object] = nx.Graph()
    for cell in range(puzzle.grid.cell_count):
        drawing.add_node(cell, colour=("cell", dict(puzzle.givens).get(cell)))
    parts: list[House | Cage] = [*puzzle.houses, *puzzle.cages]
    for part in parts:
        kind = ("cage", part.total) if isinstance(part, Cage) else ("house", part.kind == "box")
        drawing.add_node(part, colour=kind)
        drawing.add_edges_from((part, cell) for cell in part.cells)
    return drawing


@pytest.mark.reference
def test_every_recorded_puzzle_has_a_key_of_its_own_but_known_repeats() -> None:
    """`README.md` of the reference data: grid 41 of `classic_pe96.jsonl` repeats grid 9."""
    records = load("classic_pe96")
    keys: dict[str, list[str]] = {}
    for record in records:
        keys.setdefault(structure_key(puzzle_of(record)), []).append(record["id"])
    repeated = [ids for ids in keys.values() if len(ids) > 1]
    assert [[record_id[-2:] for record_id in ids] for ids in repeated] == [["09", "41"]]


def test_credits_and_the_claimed_solution_make_no_difference() -> None:
    puzzle, filling = drawn(NINE, 1)
    other = replace(puzzle, credits=Credits("other", "Other"), solution=filling)
    assert (structure_key(puzzle), turned_key(puzzle)) == (structure_key(other), turned_key(other))


# Turned over


@settings(max_examples=40)
@given(st.data())
def test_a_turned_killer_and_its_complement_have_the_same_turned_key(data: st.DataObject) -> None:
    puzzle = data.draw(killers(Grid.square(6)))
    for grid, places in turned_images(puzzle.grid):
        cages = [Cage(tuple(places[c] for c in cage.cells), cage.total) for cage in puzzle.cages]
        turned = make_puzzle("killer", grid, cages=cages)
        assert turned_key(turned) == turned_key(complement(turned)) == turned_key(puzzle)


def test_a_grid_has_eight_turns_and_mirrors() -> None:
    assert len({places for _, places in turned_images(NINE)}) == 8


def test_shuffled_rows_keep_the_structure_but_not_the_turned_key() -> None:
    puzzle, _ = drawn(NINE, 3)
    order = [1, 0, 2, *range(3, 9)]
    cages = [Cage(tuple(order[c // 9] * 9 + c % 9 for c in cage.cells), cage.total) for cage in puzzle.cages]
    shuffled = make_puzzle("killer", NINE, cages=cages)
    assert structure_key(shuffled) == structure_key(puzzle)
    assert turned_key(shuffled) != turned_key(puzzle)


def test_a_complement_twice_is_the_puzzle() -> None:
    puzzle = drawn(NINE, 5)[0].having(Given, [Given(3, 2)])
    assert complement(complement(puzzle)) == puzzle


# Full grids


def bare(grid: Grid) -> Puzzle:
    return make_puzzle("classic", grid)


@settings(max_examples=40)
@given(st.data())
def test_a_full_grid_in_disguise_has_the_same_key(data: st.DataObject) -> None:
    grid = Grid.square(data.draw(st.sampled_from([4, 6, 9])))
    filling = data.draw(fillings(grid))
    puzzle = make_puzzle("classic", grid, givens=enumerate(filling))
    form = data.draw(rearrangements(puzzle))
    assert filling_key(bare(form.grid), form.filling(filling)) == filling_key(puzzle, filling)


@settings(max_examples=10)
@given(st.data())
def test_a_regular_full_grid_in_disguise_has_the_same_key_remembered_or_not(data: st.DataObject) -> None:
    regular = [(3 * (row % 3) + row // 3 + column) % 9 + 1 for row in range(9) for column in range(9)]
    form = data.draw(rearrangements(make_puzzle("classic", NINE, givens=enumerate(regular))))
    key = filling_key(bare(NINE), tuple(regular))
    if data.draw(st.booleans()):
        labelling._searched.cache_clear()
    assert filling_key(bare(NINE), form.filling(tuple(regular))) == key


def test_the_full_4x4_grids_fall_into_two_classes() -> None:
    """288 grids, 2 classes: `inequivalent_4x4` of `facts.yaml`, with its source."""
    from verifier.counting.count import count_solutions

    grid = Grid.square(4)
    fillings_4x4 = count_solutions(make_puzzle("classic", grid), 1000).solutions
    assert len(fillings_4x4) == 288
    assert len({filling_key(bare(grid), filling) for filling in fillings_4x4}) == 2


@pytest.mark.reference
def test_different_solutions_have_different_keys() -> None:
    solutions = [solution_of(record) for record in load("classic_human")[:60]]
    keys = {filling_key(bare(NINE), filling) for filling in solutions if filling is not None}
    assert len(keys) == len(solutions)
