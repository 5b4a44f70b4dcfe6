"""Archives: what is in them is found, and nothing that a stranger packed does any harm."""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Callable
from itertools import islice
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.intake.boxes import (
    MIXED,
    SOUND,
    addresses,
    bomb,
    fault_codes,
    found_in,
    tar_of,
    zip_bomb,
    zip_of,
    zip_of_empties,
)
from verifier.files.reading import read_submission
from verifier.intake.limits import Bounds
from verifier.intake.sources.sources import Box, find_sources

PACKERS: dict[str, Callable[..., bytes]] = {
    "box.zip": zip_of,
    "box.tar": tar_of,
    "box.tar.gz": lambda files, **more: tar_of(files, "gz", **more),
    "box.tar.xz": lambda files, **more: tar_of(files, "xz", **more),
}
anyhow = pytest.mark.parametrize("name", list(PACKERS))


def packed(folder: Path, name: str, files: dict[str, bytes], **more: list[str]) -> Path:
    path = folder / name
    path.write_bytes(PACKERS[name](files, **more))
    return path


@anyhow
def test_each_puzzle_has_an_address_in_the_archive(tmp_path: Path, name: str) -> None:
    files = {"late/17.yaml": b"---\n".join(MIXED[:3]), "one.yaml": SOUND, "read me.md": b"hello"}
    assert addresses(packed(tmp_path, name, files)) == [
        f"{name}!late/17.yaml#1",
        f"{name}!late/17.yaml#2",
        f"{name}!late/17.yaml#3",
        f"{name}!one.yaml",
    ]


@anyhow
def test_what_is_unpacked_is_what_was_packed(tmp_path: Path, name: str) -> None:
    (found,) = found_in(packed(tmp_path, name, {"one.yaml": SOUND}))
    assert found.document is not None
    assert found.document.data == SOUND
    assert read_submission(found).puzzle is not None


@anyhow
def test_an_address_names_one_puzzle_of_an_archive(tmp_path: Path, name: str) -> None:
    path = packed(tmp_path, name, {"a.yaml": b"---\n".join(MIXED), "b.yaml": SOUND})
    (found,) = found_in(Path(f"{path}!a.yaml#2"))
    assert found.document is not None
    assert b"ebb" in found.document.data


def test_a_name_that_is_not_in_the_archive_is_told(tmp_path: Path) -> None:
    path = packed(tmp_path, "box.zip", {"a.yaml": SOUND})
    assert fault_codes(Path(f"{path}!b.yaml")) == ["no-such-member"]


@anyhow
@pytest.mark.parametrize(
    "evil", ["../../escape.yaml", "/etc/escape.yaml", "C:\\escape.yaml", "a/../../b.yaml"]
)
def test_names_that_lead_out_are_only_names(tmp_path: Path, name: str, evil: str) -> None:
    before = sorted(tmp_path.parent.rglob("*"))
    (found,) = found_in(packed(tmp_path, name, {evil: SOUND}))
    assert found.address.endswith(f"{name}!{evil}")
    assert read_submission(found).puzzle is not None
    assert sorted(tmp_path.parent.rglob("*")) == sorted([*before, tmp_path / name])


@anyhow
def test_names_cannot_command_the_terminal(tmp_path: Path, name: str) -> None:
    (found,) = found_in(packed(tmp_path, name, {"red\x1b[31m\x07\n\u202e.yaml": SOUND}))
    assert found.address.removeprefix(str(tmp_path)).isprintable()


@anyhow
def test_an_archive_in_an_archive_is_not_opened(tmp_path: Path, name: str) -> None:
    inner = zip_of({"a.yaml": SOUND})
    path = packed(tmp_path, name, {"inner.zip": inner, "inner.tar.gz": inner, "sound.yaml": SOUND})
    assert fault_codes(path) == ["member-archive", "member-archive"]
    assert len(found_in(path)) == 3


def test_links_are_not_followed(tmp_path: Path) -> None:
    (tmp_path / "a.zip").write_bytes(zip_of({"l.yaml": b"/etc/hostname", "s.yaml": SOUND}, links=["l.yaml"]))
    (tmp_path / "b.tar").write_bytes(tar_of({"s.yaml": SOUND}, links=["l.yaml"]))
    assert fault_codes(tmp_path) == ["member-link", "member-link"]


def test_the_insides_of_a_folder_made_by_a_system_are_passed_over(tmp_path: Path) -> None:
    files = {"__MACOSX/._a.yaml": b"\0\1", ".hidden/a.yaml": SOUND, "a.yaml": SOUND}
    assert addresses(packed(tmp_path, "box.zip", files)) == ["box.zip!a.yaml"]


@anyhow
def test_an_archive_without_puzzles_is_told(tmp_path: Path, name: str) -> None:
    assert fault_codes(packed(tmp_path, name, {"notes.md": b""})) == ["archive-empty"]


def test_ten_gigabytes_of_nothing_in_a_tar_are_not_unpacked(tmp_path: Path) -> None:
    (tmp_path / "box.tar.xz").write_bytes(bomb(10 << 30))
    assert fault_codes(tmp_path, Bounds(ratio=20, free_bytes=16 << 20)) == ["archive-bomb"]


def test_ten_gigabytes_of_nothing_in_a_zip_are_not_unpacked(tmp_path: Path) -> None:
    path = tmp_path / "box.zip"
    path.write_bytes(zip_bomb(10 << 30))
    bounds = Bounds(ratio=2, free_bytes=1 << 20)
    assert fault_codes(path, bounds) == ["archive-bomb"]


def test_what_stands_before_a_bomb_is_judged(tmp_path: Path) -> None:
    path = packed(tmp_path, "box.zip", {"a.yaml": SOUND, "bomb.yaml": bytes(20_000_000), "c.yaml": SOUND})
    assert fault_codes(path, Bounds(free_bytes=1 << 20)) == ["archive-bomb"]
    assert found_in(path, Bounds(free_bytes=1 << 20))[0].document is not None


def test_one_file_of_an_archive_may_be_named_a_thousand_times(tmp_path: Path) -> None:
    """Files that overlap in the archive make a bomb without any unusual ratio in a single one."""
    path = tmp_path / "box.zip"
    path.write_bytes(overlapping(SOUND * 2000, 200))
    assert fault_codes(path, Bounds(free_bytes=1 << 20, ratio=20))[-1] == "archive-bomb"


def overlapping(data: bytes, times: int) -> bytes:
    """Return a zip archive whose directory names the same bytes again and again."""
    whole = zip_of({"a.yaml": data})
    start = whole.index(b"PK\1\2")
    end = whole.index(b"PK\5\6")
    directory = whole[start:end] * times
    tail = struct.pack("<4s4H2LH", b"PK\5\6", 0, 0, times, times, len(directory), start, 0)
    return whole[:start] + directory + tail


def test_an_archive_may_have_only_so_many_files(tmp_path: Path) -> None:
    files = {f"{number}.yaml": b"" for number in range(50)}
    for name in ("box.zip", "box.tar"):
        path = packed(tmp_path, name, files)
        assert fault_codes(path, Bounds(members=20))[-1] == "archive-too-many"
        assert fault_codes(path) == ["empty"] * 50


def test_a_million_empty_files_are_more_than_is_taken_unless_asked_for(tmp_path: Path) -> None:
    path = tmp_path / "box.zip"
    path.write_bytes(zip_of_empties(1_000_000))
    assert fault_codes(path) == ["archive-too-many"]
    found = iter(Box(find_sources([str(path)]), io.BytesIO(), bounds=Bounds(members=1_000_000)))
    assert [one.faults[0].code for one in islice(found, 1000)] == ["empty"] * 1000


def test_a_header_of_a_tar_cannot_fill_the_memory(tmp_path: Path) -> None:
    """The extended header of POSIX.1-2001 (pax) may be of any size; the standard library reads it whole."""
    path = tmp_path / "box.tar.xz"
    path.write_bytes(tar_of({"x" * 3_000_000 + "/a.yaml": SOUND}, "xz"))
    assert fault_codes(path) == ["archive-broken"]


@anyhow
def test_an_archive_that_breaks_off_is_told(tmp_path: Path, name: str) -> None:
    whole = PACKERS[name]({f"{n}.yaml": SOUND + bytes(str(n), "ascii") * 5000 for n in range(6)})
    for share in (0.3, 0.5, 0.7):  # the last tenth of a tar is padding
        (tmp_path / name).write_bytes(whole[: int(len(whole) * share)])
        assert {"archive-broken", "member-broken"} & set(fault_codes(tmp_path / name))


def test_a_tar_that_ends_between_two_files_is_told(tmp_path: Path) -> None:
    path = tmp_path / "box.tar"
    path.write_bytes(tar_of({"a.yaml": b"a" * 512, "b.yaml": b"b" * 512})[:1024])
    assert fault_codes(path) == ["archive-broken"]


def test_a_file_whose_checksum_is_wrong_is_told_and_the_next_one_is_read(tmp_path: Path) -> None:
    whole = bytearray(zip_of({"a.yaml": SOUND, "b.yaml": SOUND}))
    whole[whole.index(b"PK\1\2") + 16] ^= 1  # its checksum in the directory
    (tmp_path / "box.zip").write_bytes(whole)
    assert [one.document is None for one in found_in(tmp_path / "box.zip")] == [True, False]
    assert fault_codes(tmp_path / "box.zip") == ["member-broken"]


def test_a_file_that_is_locked_or_packed_otherwise_is_told(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "box.zip", "w", zipfile.ZIP_BZIP2) as archive:
        archive.writestr("a.yaml", SOUND)
    assert fault_codes(tmp_path / "box.zip") == ["member-method"]
    locked = bytearray(zip_of({"a.yaml": SOUND}))
    locked[locked.index(b"PK\1\2") + 8] |= 1
    (tmp_path / "box.zip").write_bytes(locked)
    assert fault_codes(tmp_path / "box.zip") == ["member-locked"]


def test_an_archive_after_a_program_that_unpacks_it_is_read(tmp_path: Path) -> None:
    (tmp_path / "box.zip").write_bytes(b"MZ" + bytes(1000) + zip_of({"a.yaml": SOUND}))
    assert addresses(tmp_path / "box.zip") == ["box.zip!a.yaml"]


def test_an_archive_of_64_bits_is_read(tmp_path: Path) -> None:
    path = tmp_path / "box.zip"
    with zipfile.ZipFile(path, "w") as archive, archive.open("a.yaml", "w", force_zip64=True) as member:
        member.write(SOUND)
    assert fault_codes(path) == []


@anyhow
@given(data=st.data())
def test_any_damage_is_told_or_harmless(
    tmp_path_factory: pytest.TempPathFactory, name: str, data: st.DataObject
) -> None:
    whole = bytearray(PACKERS[name]({"a.yaml": SOUND, "late/b.yaml": b"---\n".join(MIXED)}))
    for _ in range(data.draw(st.integers(1, 4))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    path = tmp_path_factory.mktemp("damaged") / name
    path.write_bytes(whole)
    assert found_in(path)  # never nothing, never an exception
