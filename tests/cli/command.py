"""Running ``gridproof`` from the folder of the test puzzles: as people do, or faster, in this process."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from contextlib import chdir, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from unittest.mock import patch

from verifier.cli.app import run

__all__ = ["HERE", "PUZZLES", "Finished", "called", "environment", "gridproof", "words"]

HERE = Path(__file__).parent
PUZZLES = HERE / "puzzles"


@dataclass(frozen=True)
class Finished:
    """What a command came to."""

    code: int
    out: str
    err: str


def called(*arguments: object, typed: bytes = b"", folder: Path = PUZZLES) -> Finished:
    """Run the command in this process: the same code from the first word to the exit code."""
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8", write_through=True) for _ in range(2))
    stdin = io.TextIOWrapper(io.BytesIO(typed))
    with chdir(folder), redirect_stdout(out), redirect_stderr(err), patch.object(sys, "stdin", stdin):
        code = run([str(argument) for argument in arguments])
    return Finished(code, *(stream.buffer.getvalue().decode() for stream in (out, err)))


def words(*arguments: object) -> list[str]:
    """Return the command line that runs the checkout's ``gridproof`` in a process of its own."""
    return [sys.executable, "-c", "from verifier.cli import main; main()", *map(str, arguments)]


def environment() -> dict[str, str]:
    """Return an environment in which the checkout is found and nothing depends on the terminal."""
    return {**os.environ, "PYTHONPATH": str(HERE.parents[1]), "PYTHONUTF8": "1", "COLUMNS": "100"}


def gridproof(*arguments: object, typed: bytes = b"", folder: Path = PUZZLES) -> Finished:
    """Run the command in a process of its own, to its end."""
    done = subprocess.run(
        words(*arguments), input=typed, capture_output=True, cwd=folder, env=environment(), timeout=600
    )
    return Finished(done.returncode, done.stdout.decode(), done.stderr.decode())
