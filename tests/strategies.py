"""Hypothesis strategies that several parts of the tests share."""

from __future__ import annotations

from hypothesis import strategies as st

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["credits", "fillings", "killers", "line_orders", "mutations", "puzzles"]


@st.composite
def line_orders(draw: st.DrawFn, lines: int, band: int) -> list[int]:
    """An order of the rows (or columns) of a grid that keeps the lines of a band together."""
    bands = draw(st.permutations(range(lines // band)))
    return [band * b + line for b in bands for line in draw(st.permutations(range(band)))]


@st.composite
def fillings(draw: st.DrawFn, grid: Grid) -> Filling:
    """A full grid without a fault: a plain pattern with its rows, columns and digits shuffled."""
    height, width, size = grid.box_rows, grid.box_columns, grid.digits
    rows = draw(line_orders(size, height))
    columns = draw(line_orders(size, width))
    digits = draw(st.permutations(range(1, size + 1)))
    return tuple(digits[(width * (r % height) + r // height + c) % size] for r in rows for c in columns)


@st.composite
def killers(draw: st.DrawFn, grid: Grid, most_cells: int = 4) -> Puzzle:
    """A killer grown over a filling; one total may be off by one, so that any count is possible."""
    filling = draw(fillings(grid))
    joins = draw(st.lists(_JOINS, min_size=grid.cell_count, max_size=grid.cell_count))
    cages: list[list[int]] = []
    for cell, join in enumerate(joins):
        beside = {"left": cell - 1, "up": cell - grid.columns}.get(join)
        joined = [cage for cage in cages if beside in cage and _room(filling, cage, cell, most_cells)]
        if joined:
            joined[0].append(cell)
        elif join != "none":
            cages.append([cell])
    totals = [sum(filling[cell] for cell in cage) for cage in cages]
    if cages:
        totals[draw(st.integers(0, len(cages) - 1))] += draw(st.sampled_from([0, 0, 0, 1, -1]))
    return make_puzzle("killer", grid, cages=[Cage(tuple(c), t) for c, t in zip(cages, totals, strict=True)])


_JOINS = st.sampled_from(["left", "up", "new", "none"])


def _room(filling: Filling, cage: list[int], cell: int, most_cells: int) -> bool:
    return len(cage) < most_cells and all(filling[c] != filling[cell] for c in cage)


GRIDS = [
    *(Grid.square(size) for size in (4, 6, 9, 12, 16, 25)),
    Grid.square(6, (3, 2)),
    Grid.square(12, (4, 3)),
]
"""Every grid a file may have."""


def credits() -> st.SearchStrategy[Credits]:
    """Any credits that a file can hold: all of Unicode but halves of characters."""
    text = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)
    words = st.sampled_from(
        ["no", "~", "null", "1", "2024-01-01", "a: b", "#5", "- x", "", " ", "'", '"', "|"]
    )
    some = words | text
    return st.builds(Credits, id=some.filter(bool), title=st.none() | some, setter=st.none() | some)


@st.composite
def puzzles(draw: st.DrawFn) -> Puzzle:
    """A puzzle of any size and kind that can be written down; it need not have a solution."""
    grid = draw(st.sampled_from(GRIDS))
    random = draw(st.randoms(use_true_random=True))  # a digit a draw would be slow on the large grids
    kind = draw(st.sampled_from(["classic", "killer"]))
    share = draw(st.sampled_from([0.0, 0.1, 0.5, 1.0]))  # of the cells in a cage, and of those given
    some = [cell for cell in range(grid.cell_count) if random.random() < share]
    cages: dict[int, list[int]] = {}
    for cell in some if kind == "killer" else []:
        cages.setdefault(random.randrange(1 + len(some) // 2), []).append(cell)
    if kind == "killer" and not cages:
        cages[0] = [0]
    filling = tuple(random.randint(1, grid.digits) for _ in range(grid.cell_count))
    return make_puzzle(
        kind,
        grid,
        cages=[Cage(tuple(cells), random.randint(0, 999)) for cells in cages.values()],
        givens={cell: filling[cell] for cell in range(grid.cell_count) if random.random() < share},
        credits=draw(credits()),
        solution=draw(st.sampled_from([None, filling])),
    )


_YAML_SIGNS = [b"{", b"}", b"[", b"]", b"&a ", b"*a", b"!x ", b'"', b"'", b"\t", b"\0", b"\xff", b"---\n"]
_YAML_SIGNS += [b"...\n", b"|", b">", b": ", b"- ", b"? ", b"#", b"%", b"\n", b"\r", b"\\", b"<<: "]
_YAML_SIGNS += ["\u2028".encode(), "\x85".encode(), "\ufeff".encode()]


@st.composite
def mutations(draw: st.DrawFn, texts: list[bytes]) -> bytes:
    """One of `texts` after a few accidents: signs put in, bytes lost, changed or repeated."""
    data = draw(st.sampled_from(texts))
    for _ in range(draw(st.integers(1, 5))):
        start = draw(st.integers(0, len(data)))
        end = min(len(data), start + draw(st.integers(0, 20)))
        new = draw(st.sampled_from(_YAML_SIGNS) | st.binary(max_size=3) | st.just(data[start:end] * 2))
        data = data[:start] + new + data[end:]
    return data
