"""The ladder as a registry: ids, names, tiers, words and documentation of every technique."""

from __future__ import annotations

import inspect
import re

import pytest

from grader.board.technique import Technique, Trait
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER, RETIRED, TECHNIQUES
from grader.words.wording.evidence import EVIDENCE
from grader.words.wording.walk_words import RUN_CLAUSES

every_technique = pytest.mark.parametrize("technique", LADDER, ids=lambda technique: technique.id)


def test_ids_and_names_stand_for_one_technique_each() -> None:
    assert len({technique.id for technique in LADDER}) == len(LADDER)
    assert len({technique.name for technique in LADDER}) == len(LADDER)


def test_a_retired_id_is_not_given_again() -> None:
    assert not {technique.id for technique in LADDER} & set(RETIRED)


@every_technique
def test_an_id_is_words_joined_by_hyphens(technique: Technique) -> None:
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", technique.id)


@every_technique
def test_a_technique_is_documented_in_full(technique: Technique) -> None:
    page = inspect.getdoc(technique.find) or ""
    sections = re.findall(r"^(\w+)\n-+$", page, re.MULTILINE)
    assert [name for name in sections if name != "Parameters"] == ["Yields", "Notes", "Examples"]
    assert "::\n" in page, "a picture in text"
    assert ">>> " in page, "an example that runs"


@every_technique
def test_a_technique_says_why_it_is_sound(technique: Technique) -> None:
    page = " ".join((inspect.getdoc(technique.find) or "").split())
    notes = page.partition(" Notes ----- ")[2].partition(" Examples -------- ")[0]
    assert "Sound in every solution" in notes


@every_technique
def test_a_technique_has_a_sentence(technique: Technique) -> None:
    assert EVIDENCE[technique.id]


def test_a_technique_is_found_by_its_id() -> None:
    assert list(TECHNIQUES.items()) == [(technique.id, technique) for technique in LADDER]


def test_only_the_last_technique_is_trial() -> None:
    assert [Trait.TRIAL in technique.traits for technique in LADDER] == [*[False] * (len(LADDER) - 1), True]


@every_technique
def test_an_easy_digit_has_a_few_words_for_runs(technique: Technique) -> None:
    assert (technique.id in RUN_CLAUSES) == (Trait.EASY_DIGIT in technique.traits)


def test_a_sum_waits_for_a_later_technique() -> None:
    ranks = {technique.id: rank for rank, technique in enumerate(LADDER)}
    waiting = [technique for technique in LADDER if technique.waits_for]
    assert [technique.id for technique in waiting] == ["rule-of-45"]
    assert all(ranks[technique.id] < ranks[technique.waits_for] for technique in waiting)


def test_no_sentence_is_left_without_its_technique() -> None:
    assert list(EVIDENCE) == [technique.id for technique in LADDER]


def test_tiers_never_decrease_up_the_ladder() -> None:
    tiers = [default_tiers().tier_of[technique.id] for technique in LADDER]
    assert tiers == sorted(tiers)
