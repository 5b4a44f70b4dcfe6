"""Texts that people read, kept beside the tests and compared as a whole.

To accept new wording: ``UPDATE_SNAPSHOTS=1 python -m pytest tests``, then read the difference in review.
"""

from __future__ import annotations

import os
from pathlib import Path

__all__ = ["assert_snapshot"]


def assert_snapshot(path: Path, text: str) -> None:
    """Assert that `text` is what the file at `path` holds; write it there first when asked to."""
    if os.environ.get("UPDATE_SNAPSHOTS"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    assert text == path.read_text(encoding="utf-8")
