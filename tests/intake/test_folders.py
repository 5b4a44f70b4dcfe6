"""Folders of any size, with whatever stands in them."""

from __future__ import annotations

import os
import random
import socket
import tracemalloc
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.intake.boxes import SOUND, addresses, fault_codes, found_in
from verifier.intake.limits import Bounds
from verifier.intake.sources.listing import Listing, Source
from verifier.intake.sources.order import order_key
from verifier.intake.sources.sources import find_sources


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


# What is no file


def test_a_folder_whose_name_ends_like_a_file_is_searched(tmp_path: Path) -> None:
    (tmp_path / "spring.yaml").mkdir()
    (tmp_path / "spring.yaml" / "a.yaml").write_bytes(SOUND)
    (tmp_path / "post.zip").mkdir()
    (tmp_path / "post.zip" / "b.yaml").write_bytes(SOUND)
    found = [one.address.removeprefix(f"{tmp_path}/") for one in found_in(tmp_path)]
    assert found == ["post.zip/b.yaml", "spring.yaml/a.yaml"]
    assert addresses(tmp_path / "spring.yaml") == ["spring.yaml/a.yaml"]


def test_pipes_and_sockets_are_counted_and_no_run_waits_for_them(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.yaml")
    os.mkfifo(tmp_path / "another")
    (tmp_path / "to-the-pipe.yaml").symlink_to("pipe.yaml")
    with closing(socket.socket(socket.AF_UNIX)) as listening:
        listening.bind(str(tmp_path / "s.yaml"))
        (tmp_path / "a.yaml").write_bytes(SOUND)
        found = find_sources([str(tmp_path)])
    assert [Path(source.path).name for source in found.addresses] == ["a.yaml"]
    assert (found.addresses.no_files, found.passed_over) == (4, 0)


def test_a_link_to_a_device_leads_out_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "zero.yaml").symlink_to("/dev/zero")
    assert fault_codes(tmp_path) == ["link-out"]


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/full"])
def test_a_device_that_is_named_is_not_read(device: str) -> None:
    assert fault_codes(Path(device)) == ["cannot-open"]


def test_a_huge_file_is_read_block_by_block(tmp_path: Path) -> None:
    """A hole of 8 GiB between two puzzles, which takes no room on the disk."""
    with (tmp_path / "huge.jsonl").open("wb") as file:
        file.write(b'{"puzzle": "classic"}\n')
        file.seek(8 << 30)
        file.write(b"\n")
    tracemalloc.start()
    codes = fault_codes(tmp_path, Bounds(seconds=0.2))
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert "file-slow" in codes
    assert most < 16 << 20
