"""`scripts/check` notices when a verdict is not the expected one."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from scripts import check_corpus
from scripts.check_corpus import differences, expected_entries, main
from verifier.verdict.style.style import PLAIN

SOUND: dict[str, Any] = {
    "verdict": "accepted",
    "solutions": 1,
    "recorded": {"tier": 3, "hardest": "naked-pair"},
}
BROKEN: dict[str, Any] = {"verdict": "rejected", "solutions": 0, "reasons": ["cage-total"]}


@pytest.fixture
def corpus(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A corpus of one empty classic, expected to have several solutions."""
    monkeypatch.setattr(check_corpus, "CORPUS", tmp_path)
    monkeypatch.setattr(check_corpus, "house_style", lambda _: PLAIN)
    (tmp_path / "classics").mkdir()
    (tmp_path / "classics" / "blank.yaml").write_text("puzzle: classic\ngrid: 4x4\n")
    expect(tmp_path, "{verdict: rejected, reasons: [several-solutions], solutions: 2}")
    return tmp_path


def expect(corpus: Path, *entries: str) -> None:
    lines = [
        f"classics/{name}.yaml: {entry}\n" for name, entry in zip(("blank", "lost"), entries, strict=False)
    ]
    (corpus / "expected.yaml").write_text("".join(lines))


def test_a_verdict_as_expected_differs_in_nothing() -> None:
    assert differences(SOUND | {"made": "by hand"}, SOUND) == []


@pytest.mark.parametrize(
    "found",
    [
        BROKEN | {"verdict": "accepted"},
        BROKEN | {"reasons": ["cage-size", "cage-total"]},
        BROKEN | {"solutions": None},
        BROKEN | {"remarks": ["one-cell-cage"]},
        BROKEN | {"recorded": {"tier": 1, "hardest": "naked-pair"}},
    ],
)
def test_any_other_verdict_differs(found: dict[str, Any]) -> None:
    assert len(differences(BROKEN, found)) == 1


def test_a_technique_that_moved_differs() -> None:
    moved = SOUND | {"recorded": {"tier": 3, "hardest": "hidden-pair"}}
    assert differences(SOUND, moved) == [f"recorded {SOUND['recorded']} expected, {moved['recorded']} found"]


@pytest.mark.usefixtures("corpus")
def test_all_as_expected_is_exit_0(capsys: pytest.CaptureFixture[str]) -> None:
    assert main() == 0
    assert "one puzzle, as expected" in capsys.readouterr().out


def test_another_verdict_is_exit_1(corpus: Path, capsys: pytest.CaptureFixture[str]) -> None:
    expect(corpus, "{verdict: accepted, solutions: 1}")
    assert main() == 1
    assert "1 NOT as expected" in capsys.readouterr().out


def test_a_puzzle_that_is_not_there_is_exit_1(corpus: Path) -> None:
    expect(corpus, "{verdict: rejected, reasons: [several-solutions], solutions: 2}", "{verdict: accepted}")
    assert main() == 1


def test_a_puzzle_that_nobody_expects_is_exit_1(corpus: Path) -> None:
    (corpus / "classics" / "stray.yaml").write_text("puzzle: classic\ngrid: 4x4\n")
    assert main() == 1


def test_a_corpus_without_entries_is_no_success(corpus: Path) -> None:
    (corpus / "expected.yaml").write_text("{}\n")
    (corpus / "classics" / "blank.yaml").unlink()
    assert main() == 1


def test_the_real_expectations_are_many() -> None:
    assert len(expected_entries()) > 100
