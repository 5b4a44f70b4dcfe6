"""Who may read the reference data: only tests that bear the mark, so that all others run anywhere."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import COLLECTED
from tests.reference import VARIABLE, NoReferenceError, load

ROOT = Path(__file__).resolve().parents[1]

try:
    WHILE_COLLECTED = len(load("killer"))
except NoReferenceError:
    WHILE_COLLECTED = 0


def test_nothing_is_read_while_tests_are_collected() -> None:
    assert WHILE_COLLECTED == 0


def test_a_test_without_the_mark_is_told_that_there_is_no_reference_data() -> None:
    with pytest.raises(NoReferenceError, match=f"^{VARIABLE} is not set\\. Let it name the folder"):
        load("killer")


@pytest.mark.reference
def test_a_test_with_the_mark_reads_it() -> None:
    assert load("killer")


def test_a_folder_that_is_not_there_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(VARIABLE, "no/such/folder")
    with pytest.raises(NoReferenceError, match="names 'no/such/folder', which is no folder"):
        load("killer")


@pytest.mark.parametrize("script", ["fit_effort", "study_counts"])
def test_a_study_without_the_reference_data_ends_with_a_sentence(script: str) -> None:
    words = [sys.executable, "-m", f"scripts.{script}"]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert f"{VARIABLE} is not set" in done.stderr
    assert "Traceback" not in done.stderr


def test_more_than_nine_tests_in_ten_run_without_the_reference_data(request: pytest.FixtureRequest) -> None:
    # README.md and DEVELOPERS.md say so. The whole suite is looked at, or nothing.
    collected = request.config.stash[COLLECTED]
    if not {item.path for item in collected} >= set((ROOT / "tests").rglob("test_*.py")):
        pytest.skip("only a part of the tests was collected")
    marked = sum(item.get_closest_marker("reference") is not None for item in collected)
    assert 0 < marked < len(collected) / 10
