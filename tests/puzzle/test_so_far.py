"""Part-filled grids: entries, pencil marks, and every fault that they can have."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings

from tests.snapshots import assert_snapshot
from tests.strategies import mutations
from verifier.files.faults import Fault
from verifier.files.limits import Limits
from verifier.files.so_far import SoFar, read_so_far
from verifier.puzzle.grid import Grid

FOUR = Grid.square(4)
NINE = Grid.square(9)
ROWS = "  . . . .\n" * 3
Reading = Callable[..., tuple[SoFar | None, list[str]]]
SNAPSHOTS = Path(__file__).parent / "snapshots"


@pytest.fixture
def read(tmp_path: Path) -> Reading:
    """Read a grid from its text; whatever the folder, messages call the file ``so-far.yaml``."""

    def reading(text: str | bytes, grid: Grid = FOUR) -> tuple[SoFar | None, list[str]]:
        path = tmp_path / "so-far.yaml"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        found, faults = read_so_far(path, grid)
        return found, [str(fault).replace(str(path), "so-far.yaml") for fault in faults]

    return reading


def test_entries_and_pencil_marks_are_told_apart(read: Reading) -> None:
    found, _ = read("givens: |\n  1 {2,3} . 4\n" + ROWS)
    assert found == SoFar(((0, 1), (3, 4)), ((1, (2, 3)),))


@pytest.mark.parametrize(
    "row",
    [
        "1 {3,2} . 4",
        "1 {2, 3} . 4",
        "1 { 3 ,2 }  .  4",
        "1{2,3}.4",
        "1 {2,3,3} 0 4",
        "1 {23} . 4",
        "1{32}04",
        "1 {2 3} . 4",
    ],
)
def test_marks_may_be_written_in_any_order_and_with_or_without_spaces(row: str, read: Reading) -> None:
    found, _ = read(f"givens: |\n  {row}\n{ROWS}")
    assert found == SoFar(((0, 1), (3, 4)), ((1, (2, 3)),))


def test_a_single_mark_is_no_entry(read: Reading) -> None:
    found, _ = read("givens: |\n  {1} . . .\n" + ROWS)
    assert found == SoFar((), ((0, (1,)),))


def test_digits_above_nine_stand_alone_or_in_marks(read: Reading) -> None:
    rows = "  16 {10,12}" + " ." * 14 + "\n" + ("  " + ". " * 16 + "\n") * 15
    found, _ = read(f"givens: |\n{rows}", Grid.square(16))
    assert found == SoFar(((0, 16),), ((1, (10, 12)),))


def test_the_puzzle_file_itself_with_more_digits_will_do(read: Reading) -> None:
    head = "puzzle: killer\nid: x\ngrid: 4x4\ncages: |\n" + "  a a b b\n" * 4 + "totals: {a: 1, b: 2}\n"
    found, _ = read(f"{head}givens: |\n  1 . . .\n{ROWS}")
    assert found == SoFar(((0, 1),))


def test_a_bare_line_and_a_line_of_json_will_do(read: Reading) -> None:
    assert read("1" + "." * 80, NINE)[0] == SoFar(((0, 1),))
    assert read('{"givens": "1 {2,3} . .\\n. . . .\\n. . . .\\n. . . ."}')[0] == SoFar(
        ((0, 1),), ((1, (2, 3)),)
    )


@pytest.mark.parametrize(
    "text",
    [
        "1 {2,3} . 4\n" + ROWS,
        "\n  # after breakfast\n1 {23} . 4\n\n.... \n# the rest\n....\n....\n",
        "1{2,3}.4\r\n....\r\n....\r\n....\r\n",
        b"\xef\xbb\xbf1{23}.4\n....\n....\n....",
        "1 {2,3} . 4 " + ". " * 12,
    ],
)
def test_the_rows_may_stand_alone(text: str | bytes, read: Reading) -> None:
    assert read(text) == (SoFar(((0, 1), (3, 4)), ((1, (2, 3)),)), [])


def test_long_rows_without_a_gap_are_one_grid(read: Reading) -> None:
    row = "".join(["{123456789}"] * 9) + "\n"
    found, faults = read(row * 9, NINE)
    assert faults == []
    assert found is not None
    assert [digits for _, digits in found.marks] == [tuple(range(1, 10))] * 81


def test_all_cells_in_a_line_of_any_size(read: Reading) -> None:
    assert read("1..4............") == (SoFar(((0, 1), (3, 4))), [])


def test_two_lines_of_all_cells_are_two_grids(read: Reading) -> None:
    found, faults = read(("1" + "." * 80 + "\n") * 2, NINE)
    assert found is None
    assert "found more than one" in faults[0]


def test_in_a_puzzle_file_without_givens_nothing_is_entered(read: Reading) -> None:
    text = "puzzle: killer\ngrid: 4x4\ncages: |\n" + "  a a b b\n" * 4 + "totals: {a: 1, b: 2}\n"
    assert read(text) == (SoFar(()), [])


def test_marks_of_a_large_grid_need_their_commas(read: Reading) -> None:
    rows = "  16 {12}" + " ." * 14 + "\n" + ("  " + ". " * 16 + "\n") * 15
    found, _ = read(f"givens: |\n{rows}", Grid.square(16))
    assert found == SoFar(((0, 16),), ((1, (12,)),))


def test_a_stream_is_read_in_place_of_the_file() -> None:
    stream = io.BytesIO(b"1 . . x\n. . . .\n. . . .\n. . . .\n")
    found, faults = read_so_far(Path("standard input"), FOUR, typed=stream)
    assert found is None
    assert str(faults[0]).startswith("standard input:1: givens, r1c4: found 'x'; allowed: a digit")


FAULTS = {
    "marks": [
        "{1,5} . . .",
        "{0} . . .",
        "{} . . .",
        "{1;2} . . .",
        "x . . .",
        "5 . . .",
        "{15} . . .",
        "{1,2 . . .",
    ],
    "row-length": ["1 {2,3} .", "{1, 2, 3, 4 . . ."],
}


def test_every_message_reads_as_agreed(read: Reading, tmp_path: Path) -> None:
    pages = [
        said for rows in FAULTS.values() for row in rows for said in read(f"givens: |\n  {row}\n{ROWS}")[1]
    ]
    for text in (
        "",
        "title: x\n",
        "- 1\n",
        "givens: |\n  1\n---\ngivens: |\n  1\n",
        "givens: [1]\n",
        "gvens: 1\n",
        "1 . . .\n. . .\n. . . .\n",
        "1 . . . .",
        "# nothing\n",
        "1 . . .\n. 7 . .\n. . . .\n. . . {5}\n",
    ):
        pages += read(text)[1]
    _, faults = read_so_far(tmp_path / "missing.yaml", FOUR)
    pages += [str(fault).replace(str(tmp_path), "") for fault in faults]
    assert_snapshot(SNAPSHOTS / "so-far.txt", "\n".join(pages) + "\n")


@pytest.mark.parametrize(("code", "row"), [(code, row) for code, rows in FAULTS.items() for row in rows])
def test_the_example_of_a_fault_has_that_fault(code: str, row: str, tmp_path: Path) -> None:
    path = tmp_path / "so-far.yaml"
    path.write_text(f"givens: |\n  {row}\n{ROWS}")
    found, faults = read_so_far(path, FOUR)
    assert found is None
    assert code in [fault.code for fault in faults]


def test_a_file_that_is_too_big_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "so-far.yaml"
    path.write_text("givens: |\n" + ROWS * 100)
    _, faults = read_so_far(path, FOUR, Limits(puzzle_bytes=100))
    assert [fault.code for fault in faults] == ["too-big"]


@settings(max_examples=100, deadline=None)
@given(
    data=mutations(
        [
            b"givens: |\n  1 {2,3} . 4\n  . . . .\n  . . . .\n  . . . .\n",
            b"1 {23} . 4\n....\n. . . .\n. . . .\n",
        ]
    )
)
def test_whatever_a_file_holds_there_is_a_grid_or_a_fault(
    tmp_path_factory: pytest.TempPathFactory, data: bytes
) -> None:
    path = tmp_path_factory.mktemp("grids") / "so-far.yaml"
    path.write_bytes(data)
    found, faults = read_so_far(path, FOUR)
    assert (found is None) is bool(faults)
    assert all(isinstance(fault, Fault) for fault in faults)
