"""``gridproof tune`` and ``gridproof compare``."""

from __future__ import annotations

import signal
import subprocess
from pathlib import Path

import pytest
import yaml

from scripts.check_corpus import CORPUS
from tests.cli.command import HERE, called, environment, words
from tests.snapshots import assert_snapshot

LOAF = CORPUS / "small" / "half-a-loaf.yaml"
EASIER = ("tune", LOAF, "--tier", 3, "--changes", 1, "--seconds", 600, "--jobs", 1)


def test_the_ways_to_an_easier_puzzle_are_told() -> None:
    finished = called(*EASIER)
    assert (finished.code, finished.err) == (0, "")
    assert_snapshot(HERE / "snapshots" / "tune.txt", finished.out)


def test_each_puzzle_that_is_written_is_accepted_and_of_the_tier(tmp_path: Path) -> None:
    finished = called(*EASIER, "--out", tmp_path / "ways", "--yaml")
    record = yaml.safe_load(finished.out)
    assert record["met"]
    assert {answer["tier"] for answer in record["answers"]} == {3}
    checked = called("check", tmp_path / "ways")
    verdicts = list(yaml.safe_load_all(checked.out))
    assert checked.code == 0
    assert [verdict["difficulty"]["effort"] for verdict in verdicts] == [
        a["effort"] for a in record["answers"]
    ]
    assert len({str(verdict["solutions"]["grid"]) for verdict in verdicts}) == 1


def test_what_stands_in_the_way_is_told() -> None:
    finished = called("tune", LOAF, "--tier", 1, "--changes", 1, "--seconds", 600, "--jobs", 1)
    assert (finished.code, finished.err) == (1, "")
    assert_snapshot(HERE / "snapshots" / "tune-in-the-way.txt", finished.out)


def test_the_page_shows_before_and_after(tmp_path: Path) -> None:
    page = tmp_path / "ways.html"
    assert called(*EASIER, "--html", page).code == 0
    text = page.read_text(encoding="utf-8")
    assert text.count("<figcaption>Before</figcaption>") == text.count("<figcaption>After</figcaption>") == 6
    assert "Add a cage: r4c1 r5c1 = 9." in text


def test_a_puzzle_that_is_broken_is_told_to_be_mended() -> None:
    finished = called("tune", CORPUS / "sent-back" / "forked-channel.yaml", "--tier", 3, "--jobs", 1)
    assert (finished.code, finished.out) == (1, "")
    assert "gridproof mend" in finished.err


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ("", "Say what you wish for"),
        ("--tier 8", "this house has tiers 1 to 7"),
        ("--tier none", "found 'none'; allowed: a whole number from 1 to 20."),
        ("--effort 200-100", "the smaller first, such as 150-200"),
        ("--effort 1-", "two whole numbers"),
        ("--without sword-fish", "Did you mean 'swordfish'?"),
        ("--with x-wing --without x-wing", "'x-wing' is asked for both with and without"),
        ("--symmetry half-turns", "Did you mean 'half-turn'?"),
        ("--break-in lat", "Did you mean 'late'?"),
        ("--tier 3 --changes 4", "a whole number from 1 to 3"),
        ("--tier 3 --seconds 0", "a whole number from 1 to 86400"),
        ("--tier 3 --html puzzle.yaml", "a file that ends in .html or .htm"),
        ("--style no-such-file.yaml", "no-such-file.yaml"),
        (f"--tier 7 --style {CORPUS / 'house-style.yaml'}", "takes only tiers 1, 2, 3 and 4."),
    ],
)
def test_a_wish_that_makes_no_sense_is_refused(options: str, says: str) -> None:
    finished = called("tune", LOAF, *options.split())
    assert (finished.code, finished.out) == (2, "")
    assert says in finished.err


def test_ctrl_c_ends_the_search_and_tells_what_was_found() -> None:
    """The interrupt comes while it searches, with two processes at work."""
    puzzle = CORPUS / "killers" / "fog-signal.yaml"
    call = words("tune", puzzle, "--tier", "1", "--seconds", "600", "--jobs", "2")
    running = subprocess.Popen(call, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment())
    with pytest.raises(subprocess.TimeoutExpired):
        running.communicate(timeout=3)
    running.send_signal(signal.SIGINT)
    _, err = running.communicate(timeout=60)
    assert running.returncode == 130
    assert b"Traceback" not in err


def test_two_versions_stand_side_by_side(tmp_path: Path) -> None:
    called(*EASIER, "--out", tmp_path)
    (tmp_path / "pocket-03.yaml").write_bytes(LOAF.read_bytes())
    finished = called("compare", "pocket-03.yaml", "pocket-03-3.yaml", folder=tmp_path)
    assert (finished.code, finished.err) == (0, "")
    assert_snapshot(HERE / "snapshots" / "compare.txt", finished.out)
    record = yaml.safe_load(
        called("compare", "pocket-03.yaml", "pocket-03-3.yaml", "--yaml", folder=tmp_path).out
    )
    assert record["same_solution"]
    (change,) = record["changes"]
    assert change == {"what": "cages", "from": [], "to": [{"total": 9, "cells": ["r4c1", "r5c1"]}]}


def test_two_puzzles_on_other_grids_are_compared_without_changes(tmp_path: Path) -> None:
    page = tmp_path / "two.html"
    finished = called("compare", LOAF, CORPUS / "small" / "thimble.yaml", "--html", page, "--yaml")
    record = yaml.safe_load(finished.out)
    assert (record["changes"], record["same_solution"]) == (None, None)
    assert "Their grids differ" in page.read_text(encoding="utf-8")
