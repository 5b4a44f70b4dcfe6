"""What the words of a command line name."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from verifier.intake.sources.sources import Found, find_sources, read_sources

PUZZLE = b"puzzle: classic\ngrid: 4x4\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("b.yaml", "a/k10.yaml", "a/k2.yaml", "a/notes.md", ".git/c.yaml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(PUZZLE)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def addresses(found: Found, typed: bytes = b"") -> list[str]:
    return [entry.address for entry in read_sources(found, io.BytesIO(typed))]


@pytest.mark.usefixtures("folder")
def test_a_folder_gives_its_files_in_order_of_name() -> None:
    found = find_sources(["."])
    assert addresses(found) == ["a/k2.yaml", "a/k10.yaml", "b.yaml"]
    assert found.passed_over == 1


@pytest.mark.usefixtures("folder")
def test_the_order_of_the_words_makes_no_difference() -> None:
    assert list(find_sources(["b.yaml", "a"]).addresses) == list(find_sources(["a", "b.yaml"]).addresses)


@pytest.mark.usefixtures("folder")
def test_a_file_reached_by_two_ways_is_read_once() -> None:
    assert addresses(find_sources(["a", "a/k2.yaml", "./a/../a/k2.yaml"])) == ["a/k2.yaml", "a/k10.yaml"]


@pytest.mark.usefixtures("folder")
def test_a_file_that_is_named_is_read_whatever_its_ending() -> None:
    assert addresses(find_sources(["a/notes.md"])) == ["a/notes.md"]


@pytest.mark.usefixtures("folder")
def test_a_folder_can_be_left_out() -> None:
    assert addresses(find_sources(["."], leave_out=Path("a"))) == ["b.yaml"]


def test_a_link_that_leads_back_is_not_followed(folder: Path) -> None:
    (folder / "a" / "loop").symlink_to(folder, target_is_directory=True)
    assert len(find_sources(["."]).addresses) == 3


@pytest.mark.usefixtures("folder")
def test_standard_input_comes_last_and_is_read_once() -> None:
    assert addresses(find_sources(["-", "b.yaml", "-"]), PUZZLE) == ["b.yaml", "stdin"]


def test_a_file_may_really_be_called_with_a_number(folder: Path) -> None:
    (folder / "box#2").write_bytes(PUZZLE)
    assert addresses(find_sources(["box#2"])) == ["box#2"]


def test_the_third_puzzle_of_a_file(folder: Path) -> None:
    (folder / "box.yaml").write_bytes(b"---\n".join([PUZZLE] * 4))
    assert addresses(find_sources(["box.yaml#3"])) == ["box.yaml#3"]


def test_a_folder_without_files_is_an_entry_with_a_fault(tmp_path: Path) -> None:
    (entry,) = read_sources(find_sources([str(tmp_path)]), io.BytesIO())
    assert entry.puzzle is None
    assert [fault.code for fault in entry.faults] == ["empty-folder"]


def test_a_file_that_is_not_there_is_an_entry_with_a_fault() -> None:
    (entry,) = read_sources(find_sources(["nowhere.yaml"]), io.BytesIO())
    assert [fault.code for fault in entry.faults] == ["cannot-open"]
