"""Folders of any size, with whatever stands in them."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.intake.boxes import SOUND, addresses, fault_codes, found_in
from verifier.intake.sources.listing import Listing, Source
from verifier.intake.sources.order import order_key


def test_a_link_that_leads_out_of_the_box_is_not_followed(tmp_path: Path) -> None:
    """A box that a stranger packed must not bring what stands elsewhere into a letter to the stranger."""
    (tmp_path / "secret.txt").write_text("nobody's business")
    (tmp_path / "box").mkdir()
    (tmp_path / "box" / "a.txt").symlink_to(tmp_path / "secret.txt")
    assert fault_codes(tmp_path / "box") == ["link-out"]


def test_a_link_within_the_box_names_a_file_that_is_read_once(tmp_path: Path) -> None:
    (tmp_path / "real.yaml").write_bytes(SOUND)
    (tmp_path / "other.yaml").symlink_to(tmp_path / "real.yaml")
    assert len(found_in(tmp_path)) == 1
    assert fault_codes(tmp_path) == []


def test_links_in_circles_and_into_nothing_are_told_or_passed_over(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").symlink_to(tmp_path / "b.yaml")
    (tmp_path / "b.yaml").symlink_to(tmp_path / "a.yaml")
    (tmp_path / "gone.yaml").symlink_to(tmp_path / "nowhere.yaml")
    (tmp_path / "up.yaml").symlink_to(tmp_path, target_is_directory=True)
    assert set(fault_codes(tmp_path)) == {"cannot-open"}


def test_a_pipe_in_a_folder_does_not_keep_the_run_waiting(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.yaml")
    (tmp_path / "sound.yaml").write_bytes(SOUND)
    assert addresses(tmp_path / "sound.yaml") == ["sound.yaml"]
    assert len(found_in(tmp_path)) == 1


def test_names_of_files_cannot_command_the_terminal(tmp_path: Path) -> None:
    for name in ("red\x1b[31m.yaml", "two\nlines.yaml", "turned\u202e.yaml", os.fsdecode(b"\xff.yaml")):
        (tmp_path / name).write_bytes(SOUND)
    found = found_in(tmp_path)
    assert len(found) == 4
    assert all(one.address.removeprefix(str(tmp_path)).isprintable() and one.document for one in found)


def test_many_empty_files_are_each_told(tmp_path: Path) -> None:
    for number in range(2000):
        (tmp_path / f"{number}.yaml").touch()
    assert fault_codes(tmp_path) == ["empty"] * 2000


@pytest.mark.parametrize("depth", [400])
def test_a_very_deep_folder_is_searched_or_told(tmp_path: Path, depth: int) -> None:
    place = tmp_path
    try:
        for _ in range(depth):
            place = place / "inside"
            place.mkdir()
        (place / "sound.yaml").write_bytes(SOUND)
    except OSError:  # the system allows no such depth; what could be made is searched
        pass
    assert len(found_in(tmp_path)) == 1


@given(st.lists(st.text("ab/.#!0123456789", min_size=1, max_size=9), unique=True), st.randoms())
def test_a_listing_gives_each_file_once_in_order(names: list[str], shuffled: random.Random) -> None:
    paths = [f"/nowhere/{name}" for name in names]
    shuffled.shuffle(paths)
    listing = Listing()
    for path in paths * 2:
        listing.add(Source(path))
    listed = [one.path for one in listing]
    assert len(listed) == len(listing) == len({os.path.realpath(path) for path in paths})
    assert listed == sorted(listed, key=lambda path: (order_key(path), os.fsencode(path)))


@given(st.lists(st.integers(0, 10**30)))
def test_numbers_sort_as_numbers(numbers: list[int]) -> None:
    names = [f"k{number}.yaml" for number in numbers]
    assert sorted(names, key=order_key) == [f"k{number}.yaml" for number in sorted(numbers)]
