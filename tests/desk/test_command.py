"""How the desk is opened, and what is said where it cannot be."""

from __future__ import annotations

import importlib.util
import socket
from pathlib import Path

import pytest

from tests.cli.command import called
from tests.desk.opening import SMALL, opened


def test_the_address_is_the_first_line(tmp_path: Path) -> None:
    with opened(tmp_path / "a.yaml", SMALL) as desk:
        assert desk.address.startswith(f"http://127.0.0.1:{desk.port}/")
        assert len(desk.address.rstrip("/").rpartition("/")[2]) >= 32


def test_without_its_packages_it_says_how_to_get_them(monkeypatch: pytest.MonkeyPatch) -> None:
    found = importlib.util.find_spec
    lacking = lambda name, *more: None if name == "uvicorn" else found(name, *more)  # noqa: E731
    monkeypatch.setattr(importlib.util, "find_spec", lacking)
    finished = called("desk", "a.yaml")
    assert (finished.code, finished.out) == (2, "")
    assert finished.err.count("\n") == 1
    assert "pip install 'gridproof[desk]'" in finished.err


def test_a_file_that_cannot_be_read_is_told_with_its_faults(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("puzzle: kiler\ngrid: 4x4\n")
    finished = called("desk", tmp_path / "a.yaml", "--no-browser")
    assert finished.code == 2
    assert "Did you mean 'killer'?" in finished.err
    assert finished.err.endswith("was not opened. Put right what is named above, then start again.\n")


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("folder.yaml", "is a folder. Name the file of the puzzle; it need not be there yet."),
        ("none/a.yaml", "Make the folder first, or name another."),
        ("two.yaml", "The desk opens one: copy that into a file of its own."),
    ],
)
def test_a_file_that_is_no_file_of_one_puzzle_is_told(tmp_path: Path, name: str, says: str) -> None:
    (tmp_path / "folder.yaml").mkdir()
    (tmp_path / "two.yaml").write_text(f"{SMALL}---\n{SMALL}")
    finished = called("desk", tmp_path / name, "--no-browser")
    assert (finished.code, finished.out) == (2, "")
    assert says in finished.err


def test_a_port_that_is_taken_is_told(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(SMALL)
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        finished = called("desk", tmp_path / "a.yaml", "--port", other.getsockname()[1])
    assert finished.code == 2
    assert "cannot listen on port" in finished.err
