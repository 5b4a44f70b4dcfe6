"""The ladder as a registry: ids, names, tiers, words and documentation of every technique."""

from __future__ import annotations

import inspect
import re

import pytest

from grader.board.technique import Technique
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER, RETIRED
from grader.words.wording import EVIDENCE

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
    assert sections == ["Parameters", "Yields", "Notes", "Examples"]
    assert "::\n" in page, "a picture in text"
    assert ">>> " in page, "an example that runs"


@every_technique
def test_a_technique_says_why_it_is_sound_and_where_it_is_from(technique: Technique) -> None:
    page = " ".join((inspect.getdoc(technique.find) or "").split())
    notes = page.partition(" Notes ----- ")[2].partition(" Examples -------- ")[0]
    assert "Sound in every solution" in notes
    sources = r"common practice, no source|own derivation|as `find_|\b(19|20)\d\d\b"
    assert re.search(sources, notes, re.IGNORECASE)


@every_technique
def test_a_technique_has_a_sentence(technique: Technique) -> None:
    assert EVIDENCE[technique.id]


def test_tiers_never_decrease_up_the_ladder() -> None:
    tiers = [default_tiers().tier_of[technique.id] for technique in LADDER]
    assert tiers == sorted(tiers)
