"""The shape of the project: layers, what importing costs, what may stand where."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "verifier",
    "grader",
    "tests",
    "corpus",
    "scripts",
}
MADE_BY_TOOLS = re.compile(r"build|dist|__pycache__|.*\.egg-info")
MACHINE_PATH = re.compile(r"/(?:home|root|Users|tmp|opt|mnt|srv|var)/\w|[A-Z]:\\Users")


def files_of_the_project() -> list[Path]:
    """Every file but those that tools make, in folders that are part of the project."""
    folders = [ROOT / name for name in sorted(TOP_LEVEL | {".ci"})]
    found = [path for folder in folders for path in ([folder] if folder.is_file() else folder.rglob("*"))]
    return [path for path in found if path.is_file() and not MADE_BY_TOOLS.fullmatch(path.parent.name)]


def modules_after(program: str) -> set[str]:
    """The packages that are loaded after a program has run in a fresh Python."""
    code = f"{program}\nimport sys\nprint(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    return set(run.stdout.split())


def test_imports_point_down() -> None:
    """The contracts stand in pyproject.toml."""
    linter = Path(sys.executable).with_name("lint-imports")
    run = subprocess.run([linter, "--no-cache"], capture_output=True, text=True, cwd=ROOT, check=False)
    assert run.returncode == 0, run.stdout


@pytest.mark.parametrize("package", ["verifier", "grader"])
def test_importing_a_package_loads_nothing_else(package: str) -> None:
    theirs = {name for name in modules_after(f"import {package}") if name.startswith(("verifier", "grader"))}
    assert theirs == {package}


@pytest.mark.parametrize("package", ["verifier", "grader", "verifier.cli"])
def test_importing_a_package_loads_no_solver(package: str) -> None:
    assert modules_after(f"import {package}").isdisjoint({"ortools", "clingo", "networkx", "yaml", "typer"})


def test_the_replay_loads_no_solver() -> None:
    assert modules_after("import grader.grading.replay, grader.grading.grade").isdisjoint(
        {"ortools", "clingo"}
    )


def test_the_witnesses_load_neither_each_other_nor_the_replay() -> None:
    count = modules_after("import verifier.counting.count")
    recount = modules_after("import verifier.recount.recount")
    assert count.isdisjoint({"clingo", "verifier.recount", "grader"})
    assert recount.isdisjoint({"ortools", "verifier.counting", "grader"})


@pytest.mark.parametrize("package", ["verifier", "grader"])
def test_the_face_of_a_package_imports_nothing(package: str) -> None:
    tree = ast.parse((ROOT / package / "__init__.py").read_text(encoding="utf-8"))
    assert not [node for node in ast.walk(tree) if isinstance(node, ast.Import | ast.ImportFrom)]


def test_the_top_level_holds_only_what_it_may() -> None:
    visible = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert {name for name in visible - TOP_LEVEL if not MADE_BY_TOOLS.fullmatch(name)} == set()


def test_no_file_names_a_place_on_somebodys_machine() -> None:
    named = [
        f"{path.relative_to(ROOT)}: {match[0]}"
        for path in files_of_the_project()
        if path != Path(__file__)
        if (match := MACHINE_PATH.search(path.read_text(encoding="utf-8", errors="replace")))
    ]
    assert named == []
