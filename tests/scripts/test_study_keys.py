"""The study of keys, on few puzzles."""

from __future__ import annotations

import pytest
import typer

from scripts import study_keys
from verifier.puzzle.puzzle import Puzzle


@pytest.mark.parametrize("classics", [False, True], ids=["killers", "classics"])
def test_the_study_finds_every_disguise_and_no_twin(
    classics: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(typer.Exit) as ended:
        study_keys.main(count=3, classics=classics)
    assert ended.value.exit_code == 0
    assert "3 of 3 disguises have the key of their original; 0 near twins have it" in capsys.readouterr().out


def test_the_study_fails_where_a_key_says_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    def same_for_all(_: Puzzle) -> str:
        return "structure 1:0"

    monkeypatch.setattr(study_keys, "structure_key", same_for_all)
    with pytest.raises(typer.Exit) as ended:
        study_keys.main(count=2)
    assert ended.value.exit_code == 1
