"""Run the tests that matter on a mutant, in a copy of the project."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from scripts.mutants.making import Mutant
from scripts.mutants.packages import ROOT

__all__ = ["copy_of_the_project", "noticed"]

_PARTS = ("verifier", "grader", "tests", "scripts", "corpus", "README.md", "DEVELOPERS.md", "pyproject.toml")


@contextmanager
def copy_of_the_project() -> Iterator[Path]:
    """Give a copy of the project, as it stands, to change things in; it is deleted afterwards."""
    with TemporaryDirectory(prefix="mutants-") as name:
        for part in _PARTS:
            if (ROOT / part).is_dir():
                shutil.copytree(ROOT / part, Path(name, part), ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(ROOT / part, Path(name, part))
        yield Path(name)


def noticed(copy: Path, mutant: Mutant | None, tests: Sequence[str], seconds: float) -> bool:
    """Whether a test fails, or does not end, with a mutant in the place of its module.

    Parameters
    ----------
    copy : Path
        A copy of the project; it is left as it was.
    mutant : Mutant or None
        None to run the tests on the copy as it is.
    tests : sequence of str
        What pytest is asked to run, in this order.
    seconds : float
        Longer than this is taken for a run without end.
    """
    module = copy / mutant.module if mutant else None
    before = module.read_text(encoding="utf-8") if module else ""
    if module and mutant:
        _write(module, mutant.text)
    try:
        return _fails(copy, tests, seconds)
    finally:
        if module:
            _write(module, before)


def _write(module: Path, text: str) -> None:
    """Write a module; what Python has compiled of it would pass for the new one if the sizes are equal."""
    for compiled in module.parent.glob(f"__pycache__/{module.stem}.*"):
        compiled.unlink()
    module.write_text(text, encoding="utf-8")


def _fails(copy: Path, tests: Sequence[str], seconds: float) -> bool:
    words = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    reference = os.environ.get("GRIDPROOF_REFERENCE")
    settings = {"PYTHONPATH": str(copy), "CI": ""}
    if reference:
        settings["GRIDPROOF_REFERENCE"] = str(Path(reference).resolve())
    run = subprocess.Popen(
        words,
        cwd=copy,
        env={**os.environ, **settings},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        return run.wait(seconds) != 0
    except subprocess.TimeoutExpired:
        return True
    finally:
        if run.poll() is None:
            os.killpg(run.pid, signal.SIGKILL)  # whatever the tests have started, too
            run.wait()
