"""The catalogue: complete, up to date, and its examples are real steps."""

from __future__ import annotations

import re

import pytest

from grader.ladder import LADDER
from grader.words.catalogue import Entry, catalogue
from scripts.build_catalogue import EXAMPLES, PAGE, built_examples, built_page

ENTRIES = catalogue()


def test_the_examples_are_those_that_the_script_builds() -> None:
    """If not: ``python -m scripts.build_catalogue``."""
    assert EXAMPLES.read_text(encoding="utf-8") == built_examples()


def test_the_page_is_the_one_that_the_script_builds() -> None:
    """If not: ``python -m scripts.build_catalogue``."""
    assert PAGE.read_text(encoding="utf-8") == built_page()


def test_every_technique_has_an_entry_in_the_order_of_the_ladder() -> None:
    assert [entry.technique for entry in ENTRIES] == list(LADDER)


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.technique.id)
def test_an_entry_has_a_definition_a_picture_a_reason_a_source_and_an_example(entry: Entry) -> None:
    assert "\n    " in entry.definition
    assert re.fullmatch(r"[A-Z].*\.", entry.reason)
    assert re.fullmatch(r"[A-Z].*\.", entry.source)
    assert entry.example is not None
    assert entry.example.says.endswith(".")


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.technique.id)
def test_what_changes_in_an_example_gets_less(entry: Entry) -> None:
    assert entry.example is not None
    for cell, left in entry.example.after.items():
        before = entry.example.before[cell]
        known = entry.technique.id in ("naked-single", "last-cell-of-house")
        assert left == before if known else set(left) < set(before)


def test_a_technique_that_is_the_hardest_of_a_puzzle_occurs_there() -> None:
    for entry in ENTRIES:
        assert len(entry.occurrence.hardest) <= entry.occurrence.puzzles <= entry.occurrence.steps


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.technique.id)
def test_what_is_said_of_a_technique_is_for_people(entry: Entry) -> None:
    text = "\n".join([entry.definition, entry.reason, entry.source])
    names_of_code = r"`|\b(?:find|grader|verifier)[._]\w+|\b[A-Z]+_[A-Z_]+|\*\w"
    assert not re.findall(names_of_code, text)
    assert not entry.summary.startswith("Find")  # a person reads it, nobody calls it
    assert [text.count(bracket) for bracket in "(["] == [text.count(bracket) for bracket in ")]"]
    assert not re.findall(r"colou?r", text)  # nothing is coloured


def test_the_ladder_is_said_in_a_sentence_a_technique() -> None:
    assert len({entry.summary for entry in ENTRIES}) == len(ENTRIES)
    assert all(re.fullmatch(r"[A-Z][^.]*\.", entry.summary) for entry in ENTRIES)
