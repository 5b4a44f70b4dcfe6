"""The corpus holds what it promises, and can be built again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from itertools import islice

import pytest

from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from scripts.build_corpus import CORPUS
from scripts.check_corpus import expected_entries
from scripts.setting.shelf import ShelfFile
from scripts.shelves.boxes import box_files
from scripts.shelves.ladder import ladder_files
from scripts.shelves.sound import sound_files
from scripts.shelves.style import style_files
from scripts.shelves.unreadable import unreadable_files
from verifier.files.reading import read_file
from verifier.puzzle.grid import USUAL_BOXES, Grid
from verifier.puzzle.wording import FAULTS, PASSED
from verifier.verdict.style.checks import STYLE_CODES

EXPECTED = expected_entries()

NOT_IN_A_FILE = {"cannot-open", "no-such-number"}
"""Faults of a call, not of a file."""

TOO_LARGE_FOR_A_CORPUS = {"too-big"}

OF_A_PART_FILLED_GRID = {"marks", "several-grids"}
"""Faults of what a solver has written in so far, which is no puzzle of its own."""

NEVER_THE_HARDEST = {
    "remote-pairs": "Two cells of a house with the same two candidates are, after naked pairs, the only "
    "places of both there. So a chain of such cells is a chain of strong links for either digit, and one "
    "cluster comes first: always in a classic. In a killer a cage of four cells or more could tie two "
    "cells that share no house; none of over 9,000 drawn puzzles came to that.",
}
"""Techniques of the ladder without a puzzle of their own, and why."""


def codes(key: str) -> set[str]:
    return {code for entry in EXPECTED.values() for code in entry.get(key, ())}


def test_every_file_is_listed_and_every_address_is_there() -> None:
    files = {
        p.relative_to(CORPUS).as_posix() for p in CORPUS.rglob("*") if p.is_file() and p.parent != CORPUS
    }
    assert files == {address.partition("#")[0] for address in EXPECTED}


def test_there_are_many_of_each_verdict() -> None:
    verdicts = Counter(entry["verdict"] for entry in EXPECTED.values())
    assert verdicts["accepted"] >= 40
    assert verdicts["rejected"] >= 24


def test_every_fault_of_a_file_has_one() -> None:
    elsewhere = NOT_IN_A_FILE | TOO_LARGE_FOR_A_CORPUS | OF_A_PART_FILLED_GRID
    assert codes("faults") == FAULTS.keys() - elsewhere


def test_every_arithmetic_fault_has_a_puzzle() -> None:
    assert codes("reasons") >= PASSED.keys()


def test_every_rule_of_a_house_style_has_a_puzzle_that_breaks_it() -> None:
    assert codes("reasons") >= set(STYLE_CODES)


def test_there_are_killers_of_every_tier() -> None:
    tiers = {e["recorded"]["tier"] for address, e in EXPECTED.items() if address.startswith("killers/")}
    assert tiers == set(default_tiers().names)


def test_every_technique_is_the_hardest_of_a_puzzle_except_those_that_cannot_be() -> None:
    hardest = {entry["recorded"]["hardest"] for entry in EXPECTED.values() if "recorded" in entry}
    assert {technique.id for technique in LADDER} - hardest == NEVER_THE_HARDEST.keys()


def test_every_size_of_grid_is_there() -> None:
    files = (file for folder in ("killers", "small", "large") for file in (CORPUS / folder).iterdir())
    grids = {entry.puzzle.grid for file in files for entry in read_file(file) if entry.puzzle}
    usual = {Grid.square(size) for size in USUAL_BOXES}
    assert grids == usual | {Grid.square(6, (3, 2)), Grid.square(12, (4, 3))}


@pytest.mark.parametrize("shelf", [sound_files, ladder_files, style_files, box_files, unreadable_files])
def test_the_same_seeds_give_the_same_bytes(shelf: Callable[[], Iterator[ShelfFile]]) -> None:
    for file in islice(shelf(), 8):
        assert (CORPUS / file.name).read_bytes() == file.data
