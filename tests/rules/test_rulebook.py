"""The rulebook: it has every rule that a file can state, and what it tells people to write is right."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from verifier.files.fields.clues import CLUES
from verifier.files.reading import read_file
from verifier.files.records import KEYS
from verifier.files.rulebook.entries import RuleEntry, rulebook
from verifier.verdict.judge import judge
from verifier.verdict.verdict import VerdictState

NO_RULES = {"format", "puzzle", "id", "title", "setter", "grid", "totals", "clues", "givens", "solution"}
"""The keys of a puzzle file that state no rule of their own."""

every_entry = pytest.mark.parametrize("entry", rulebook(), ids=lambda entry: entry.name)


def stated_in(text: str) -> set[str]:
    """The rules that a file states, by their keys."""
    record = yaml.safe_load(text)
    return set(record) - NO_RULES | {key for clue in record.get("clues", ()) for key in clue if key in CLUES}


def test_it_has_every_rule_that_a_file_can_state_and_each_once() -> None:
    names = [entry.name for entry in rulebook()]
    assert set(names) == set(KEYS) - NO_RULES | set(CLUES)
    assert len(set(names)) == len(names)


def test_no_word_leads_to_two_rules() -> None:
    words = [word for entry in rulebook() for word in (entry.name.replace("_", " "), *entry.also)]
    assert len(set(words)) == len(words)


@every_entry
def test_an_example_states_its_rule_and_is_sound(entry: RuleEntry, tmp_path: Path) -> None:
    (tmp_path / "example.yaml").write_text(entry.example, encoding="utf-8")
    (read,) = read_file(tmp_path / "example.yaml")
    assert read.faults == ()
    assert read.puzzle is not None
    assert entry.name in stated_in(entry.example)
    assert judge(read.puzzle).state is VerdictState.ACCEPTED


@every_entry
def test_an_entry_shows_how_its_rule_is_written(entry: RuleEntry) -> None:
    assert entry.name in stated_in(entry.written)


@every_entry
def test_a_line_of_an_entry_fits_a_terminal(entry: RuleEntry) -> None:
    lines = [*entry.written.split("\n"), *entry.picture.split("\n"), *entry.example.split("\n")]
    assert max(map(len, lines)) <= 96
    assert len(entry.name) + len(entry.says) <= 80
