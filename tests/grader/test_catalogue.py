"""The catalogue: complete, up to date, and its examples are real steps."""

from __future__ import annotations

import re

import pytest

from grader.board.technique import Technique
from grader.ladder import LADDER
from scripts.build_catalogue import EXAMPLES, PAGE, built_examples, built_page

every_technique = pytest.mark.parametrize("technique", LADDER, ids=lambda technique: technique.id)


def test_the_examples_are_those_that_the_script_builds() -> None:
    """If not: ``python -m scripts.build_catalogue``."""
    assert EXAMPLES.read_text(encoding="utf-8") == built_examples()


def test_the_page_is_the_one_that_the_script_builds() -> None:
    """If not: ``python -m scripts.build_catalogue``."""
    assert PAGE.read_text(encoding="utf-8") == built_page()


@every_technique
def test_a_technique_has_a_definition_a_picture_a_reason_and_an_example(technique: Technique) -> None:
    assert "\n    " in technique.definition
    assert re.fullmatch(r"[A-Z].*\.", technique.reason)
    assert technique.example is not None
    assert technique.example.says.endswith(".")


@every_technique
def test_a_source_is_told_only_where_there_is_one(technique: Technique) -> None:
    assert re.fullmatch(r"([A-Z].*\.)?", technique.source)
    assert "no source" not in technique.source + technique.reason + technique.definition


@every_technique
def test_what_changes_in_an_example_gets_less(technique: Technique) -> None:
    assert technique.example is not None
    for cell, left in technique.example.after.items():
        before = technique.example.before[cell]
        known = technique.id in ("naked-single", "last-cell-of-house")
        assert left == before if known else set(left) < set(before)


def test_a_technique_that_is_the_hardest_of_a_puzzle_occurs_there() -> None:
    for found in (technique.occurrence for technique in LADDER):
        assert len(found.hardest) <= found.puzzles <= found.steps


@every_technique
def test_what_is_said_of_a_technique_is_for_people(technique: Technique) -> None:
    text = "\n".join([technique.definition, technique.reason, technique.source])
    names_of_code = r"`|\b(?:find|grader|verifier)[._]\w+|\b[A-Z]+_[A-Z_]+|\*\w"
    assert not re.findall(names_of_code, text)
    assert not technique.summary.startswith("Find")  # a person reads it, nobody calls it
    assert [text.count(bracket) for bracket in "(["] == [text.count(bracket) for bracket in ")]"]
    assert not re.findall(r"colou?r", text)  # nothing is coloured


def test_the_ladder_is_said_in_a_sentence_a_technique() -> None:
    assert len({technique.summary for technique in LADDER}) == len(LADDER)
    assert all(re.fullmatch(r"[A-Z][^.]*\.", technique.summary) for technique in LADDER)
