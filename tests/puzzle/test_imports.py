"""This package knows nothing of solving, and loads nothing that does."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import verifier.puzzle

MODULES = sorted(
    path.stem for path in Path(verifier.puzzle.__file__).parent.glob("*.py") if path.stem != "__init__"
)


def test_reading_and_writing_load_no_solver() -> None:
    imports = "\n".join(f"import verifier.puzzle.{module}" for module in MODULES)
    program = f"{imports}\nimport sys\nprint(*{{name.partition('.')[0] for name in sys.modules}})"
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert {"ortools", "clingo", "networkx", "grader"} & set(run.stdout.split()) == set()
