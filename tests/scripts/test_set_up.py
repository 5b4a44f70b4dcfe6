"""Setting up says in plain words what is missing on the machine."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
pytestmark = pytest.mark.skipif(shutil.which("bash") is None, reason="no bash on this machine")


def check_with(tools: Path) -> subprocess.CompletedProcess[str]:
    """`scripts/check` where only the commands in one folder can be found."""
    for name in ("bash", "cat", "dirname"):
        os.symlink(str(shutil.which(name)), tools / name)
    return subprocess.run(
        [str(tools / "bash"), str(ROOT / "scripts" / "check")],
        env={"PATH": str(tools), "HOME": str(tools)},
        capture_output=True,
        text=True,
        check=False,
    )


def test_without_any_python(tmp_path: Path) -> None:
    run = check_with(tmp_path)
    assert run.returncode == 2
    assert "no Python 3.11 or newer" in run.stderr


def test_with_a_python_that_is_too_old(tmp_path: Path) -> None:
    (tmp_path / "python3").write_text(
        f"#!{shutil.which('bash')}\nexit 1  # as when it finds that it is too old\n"
    )
    (tmp_path / "python3").chmod(0o755)
    run = check_with(tmp_path)
    assert run.returncode == 2
    assert "apt install python3" in run.stderr
