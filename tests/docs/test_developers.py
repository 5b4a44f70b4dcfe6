"""The steps for those who carry on: numbered, and naming only what there is."""

from __future__ import annotations

import re
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.marks.greater import Greater

ROOT = Path(__file__).resolve().parents[2]
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
TITLES = ["Adding a technique", "Adding a rule"]
MADE_UP = {"verifier/puzzle/rules/NAME.py"}


def steps(title: str) -> list[str]:
    """The numbered steps of a chapter, each in one line."""
    chapter = GUIDE.partition(f"## {title}\n")[2].partition("\n## ")[0]
    found = re.findall(r"^(\d+)\. (.*?)(?=^\d+\. |^\S|\Z)", chapter, re.MULTILINE | re.DOTALL)
    assert [int(number) for number, _ in found] == list(range(1, len(found) + 1))
    return [" ".join(text.split()) for _, text in found]


def tables(title: str) -> list[tuple[str, str]]:
    """Each table that the steps name, with its module."""
    return [
        pair for step in steps(title) for pair in re.findall(r"`([A-Z]+)` (?:of|in) `([\w/]+\.py)`", step)
    ]


def table(name: str, module: str) -> Any:
    return getattr(import_module(module.removesuffix(".py").replace("/", ".")), name)


@pytest.mark.parametrize("title", TITLES)
def test_every_file_and_folder_that_a_step_names_is_there(title: str) -> None:
    named = {
        path
        for step in steps(title)
        for path in re.findall(r"`((?:verifier|grader|tests|scripts)/[\w/.]*)`", step)
    }
    assert len(named) >= 5
    assert [path for path in named - MADE_UP if not (ROOT / path).exists()] == []


@pytest.mark.parametrize("title", TITLES)
def test_every_command_that_a_step_names_is_there(title: str) -> None:
    named = {module for step in steps(title) for module in re.findall(r"python -m (scripts\.\w+)", step)}
    assert [module for module in named if not (ROOT / f"{module.replace('.', '/')}.py").exists()] == []


def test_a_rule_over_pairs_or_another_stands_in_every_table_that_a_step_names() -> None:
    named = tables("Adding a rule")
    assert len(named) >= 9
    known = {Greater, Greater.word, Arrow, Arrow.word}
    assert [pair for pair in named if not known & set(table(*pair))] == []


def test_a_technique_stands_in_the_table_that_a_step_names() -> None:
    assert ("LADDER", "grader/ladder.py") in tables("Adding a technique")
    assert "sign-bounds" in {technique.id for technique in table("LADDER", "grader/ladder.py")}
