"""Files that are whole or not there at all."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.cli.command import environment
from verifier.intake.papers.files import CannotWriteError, remove, write_whole

KILLED = """
import os, pathlib, signal
from verifier.intake.papers.files import write_whole

def pieces():
    yield "half"
    os.kill(os.getpid(), signal.SIGKILL)

write_whole(pathlib.Path("list.txt"), pieces())
"""


def killed_in(folder: Path) -> None:
    subprocess.run([sys.executable, "-c", KILLED], cwd=folder, env=environment(), check=False)


def test_a_kill_leaves_what_was_there_before(tmp_path: Path) -> None:
    (tmp_path / "list.txt").write_text("whole")
    killed_in(tmp_path)
    assert (tmp_path / "list.txt").read_text() == "whole"


@pytest.mark.parametrize("then", [lambda path: write_whole(path, "new"), remove], ids=["written", "removed"])
def test_what_a_kill_left_half_done_goes_with_the_next_try(
    tmp_path: Path, then: Callable[[Path], None]
) -> None:
    killed_in(tmp_path)
    assert len(list(tmp_path.iterdir())) == 1
    then(tmp_path / "list.txt")
    assert [path.name for path in tmp_path.iterdir() if path.name != "list.txt"] == []


def test_a_piece_that_cannot_be_had_leaves_nothing(tmp_path: Path) -> None:
    def pieces() -> Iterator[str]:
        yield "half"
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        write_whole(tmp_path / "list.txt", pieces())
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_cannot_be_written_to_is_named(tmp_path: Path) -> None:
    with pytest.raises(CannotWriteError) as caught:
        write_whole(tmp_path / "no" / "list.txt", "text")
    assert caught.value.where == str(tmp_path / "no" / "list.txt")
    assert caught.value.why == "No such file or directory"


def test_a_link_stays_and_what_it_leads_to_is_written(tmp_path: Path) -> None:
    (tmp_path / "shelf").mkdir()
    (tmp_path / "list.txt").symlink_to(tmp_path / "shelf" / "list.txt")
    write_whole(tmp_path / "list.txt", "text")
    assert (tmp_path / "list.txt").is_symlink()
    assert (tmp_path / "shelf" / "list.txt").read_text() == "text"


def test_a_pipe_stays_a_pipe(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with subprocess.Popen(["cat", pipe], stdout=subprocess.PIPE) as reader:
        write_whole(pipe, ["te", "xt"])
        assert reader.communicate()[0] == b"text"
    assert pipe.is_fifo()
