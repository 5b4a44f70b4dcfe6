"""Any bytes at all: an error with its place, the right exit code, never a traceback."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.cli.command import PUZZLES, Finished, called, gridproof

SOUND = (PUZZLES / "box.yaml").read_bytes().partition(b"---")[0]

CODES = {"accepted": 0, "rejected": 1, "undecided": 3, "unreadable": 2}

PLACE = re.compile(r"stdin(#[0-9]+)?(:[0-9]+)?: [^:]+: found ")


def assert_answered(finished: Finished) -> None:
    """Assert that a run said what it made of its input, and ended with the code for it."""
    assert "Traceback" not in finished.out + finished.err
    words = [line.split("  ")[1:] for line in finished.out.splitlines()[1:]]
    found = {cell.strip() for line in words for cell in line} & set(CODES)
    assert found
    assert finished.code == max((CODES[word] for word in found), key=[0, 1, 3, 2].index)
    if "unreadable" in found:
        assert PLACE.search(finished.err)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=300))
def test_random_bytes_are_answered(data: bytes) -> None:
    assert_answered(called("check", "-", "--table", typed=data))


@st.composite
def mutated(draw: st.DrawFn) -> bytes:
    """A sound puzzle with a few pieces cut out, doubled or overwritten."""
    data = SOUND
    for _ in range(draw(st.integers(1, 3))):
        start = draw(st.integers(0, len(data)))
        end = min(len(data), start + draw(st.integers(0, 12)))
        piece = draw(
            st.one_of(st.binary(max_size=4), st.sampled_from([b"", data[start:end] * 2, b"\n---\n"]))
        )
        data = data[:start] + piece + data[end:]
    return data


@settings(max_examples=120, deadline=None)
@given(mutated())
def test_mutated_puzzles_are_answered(data: bytes) -> None:
    assert_answered(called("check", "-", "--table", typed=data))


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\x00",
        b"\xff\xfe" + b"a\x00" * 50,
        b"puzzle: &a [*a]",
        b"[" * 100_000,
        b"{a: " * 10_000,
        b'{"puzzle": ' * 10_000,
        b"puzzle: killer\ngrid: 999999999x999999999\n",
        b"puzzle: classic\ngrid: 9x9\ngivens: |\n" + b"  1\n" * 100_000,
        b"puzzle: !!python/object/apply:os.system [ls]\n",
        SOUND.replace(b"a: 3", b"a: " + b"9" * 5000),
        b"a" * 3_000_000,
    ],
    ids=lambda data: repr(data[:24]),
)
def test_the_command_answers_hostile_files(data: bytes, tmp_path: Path) -> None:
    (tmp_path / "stdin").write_bytes(data)
    assert_answered(called("check", "stdin", "--table", folder=tmp_path))


def test_a_process_of_its_own_answers_too() -> None:
    assert_answered(gridproof("check", "-", "--table", typed=SOUND.replace(b"grid", b"\xffgrid")))
