"""A diagnosis ends where its budget ends: on a busy machine the clock behind it must not end it earlier."""

from __future__ import annotations

import pytest


@pytest.fixture(autouse=True)
def _patience(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("verifier.diagnosis.search_budget._CLOCK_FACTOR", 1000.0)
