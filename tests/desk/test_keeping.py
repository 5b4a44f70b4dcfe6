"""The file of the desk: written whole, followed, put aside."""

from __future__ import annotations

import asyncio
import multiprocessing
import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from tests.desk.opening import SMALL
from verifier.desk.benches import Bench, Benches
from verifier.desk.desk import Desk
from verifier.desk.keeping import KeptFile, free_name
from verifier.desk.wishes import PageWish
from verifier.verdict.style.style import PLAIN


def test_what_it_wrote_itself_is_no_news(tmp_path: Path) -> None:
    kept = KeptFile(tmp_path / "a.yaml")
    puzzle, _ = kept.first()
    assert puzzle is not None
    kept.write(puzzle)
    assert kept.look() is None
    assert "\nid:" not in kept.path.read_text()  # the name of the file says it


def test_what_something_else_wrote_is(tmp_path: Path) -> None:
    kept = KeptFile(tmp_path / "a.yaml")
    kept.path.write_text(SMALL)
    outside = kept.look()
    assert outside is not None
    assert outside.puzzle is not None
    assert kept.look() is None


def test_several_puzzles_are_not_one(tmp_path: Path) -> None:
    kept = KeptFile(tmp_path / "a.yaml")
    kept.path.write_text(f"{SMALL}---\n{SMALL}")
    assert kept.first()[0] is None


def test_a_file_that_goes_is_noticed(tmp_path: Path) -> None:
    kept = KeptFile(tmp_path / "a.yaml")
    kept.path.write_text(SMALL)
    kept.look()
    kept.path.unlink()
    outside = kept.look()
    assert outside is not None
    assert outside.data is None


def test_a_pipe_in_its_place_is_not_read(tmp_path: Path) -> None:
    kept = KeptFile(tmp_path / "a.yaml")
    os.mkfifo(kept.path)
    assert kept.look() is None


def test_what_is_put_aside_takes_no_name_that_is_taken(tmp_path: Path) -> None:
    kept = KeptFile(tmp_path / "a.yaml")
    names = [kept.put_aside(text).name for text in (b"one", b"two")]
    assert names == ["a.outside.yaml", "a.outside-2.yaml"]


def test_a_new_puzzle_takes_a_name_that_is_free(tmp_path: Path) -> None:
    assert free_name(tmp_path).name == "puzzle.yaml"
    (tmp_path / "puzzle.yaml").touch()
    assert free_name(tmp_path).name == "puzzle-2.yaml"


class _NoBench(Bench):
    """Answers nothing."""

    def __init__(self) -> None:
        super().__init__(multiprocessing.get_context("spawn"))

    def ask(self, *_: object) -> None:
        pass


def test_what_came_from_outside_a_moment_before_it_is_written_is_not_lost(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text(SMALL)
    kept = KeptFile(path)
    first, _ = kept.first()
    assert first is not None
    outside = SMALL.replace("cages", "title: From outside\ncages", 1)

    async def draw_while_something_writes() -> None:
        desk = Desk(kept, first, PLAIN, Benches(*(_NoBench() for _ in Benches._fields)))
        desk.do(PageWish({"do": "given", "cells": [0], "digit": 1}), lambda _: None)
        path.write_text(outside)
        desk.close()

    with ThreadPoolExecutor(1) as thread:  # a browser of another test may have a loop in this one
        thread.submit(asyncio.run, draw_while_something_writes()).result()
    assert "givens" in path.read_text()
    assert (tmp_path / "a.outside.yaml").read_text() == outside
