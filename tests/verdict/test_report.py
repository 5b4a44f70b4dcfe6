"""The written verdict: its schema, its keys and their order, and the very words people read."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from hypothesis import given

from grader.grading.replay import Outcome
from tests.evidence.stand_ins import NONE, ONE, OTHER, SOLUTION, TWO, judged, replay_ending, saying
from tests.snapshots import assert_snapshot
from tests.strategies import credits
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.tally import Stop
from verifier.verdict.judge import Settings, identity_of, judge, lost
from verifier.verdict.reading import AnotherFormatError, read_verdict
from verifier.verdict.report import as_record, verdict_schema, write_verdict
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.verdict import Minutes, Remark, Verdict

SNAPSHOTS = Path(__file__).parent / "snapshots"

IMPOSSIBLE = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 9)], credits=Credits("impossible"))
FULL = make_puzzle("classic", Grid.square(4), givens=dict(enumerate(SOLUTION)), credits=Credits("full"))

HARDER = make_puzzle(
    "killer",
    Grid.square(4),
    cages=[Cage((6, 7, 10), 7), Cage((13, 14), 5), Cage((1, 4, 5), 9), Cage((8, 9, 12), 7)],
    credits=Credits("harder"),
)

STRICT = HouseStyle("Harbour Page", kinds=("classic",), credits=("title",), tiers=(6,))

VERDICTS = {
    "accepted": judge(ONE),
    "accepted-full-from-the-start": judge(FULL),
    "rejected-several": judge(TWO),
    "rejected-several-counted-out": judge(TWO, settings=Settings(limit=10)),
    "rejected-none": judge(NONE),
    "rejected-arithmetic": judge(IMPOSSIBLE),
    "rejected-house-style": judge(ONE, STRICT),
    "rejected-beyond-tiers": judge(HARDER, HouseStyle("Harbour Page", tiers=(1,), stop_beyond_tiers=True)),
    "rejected-solution-differs": judge(replace(ONE, solution=OTHER)),
    "undecided-work": judged(ONE, count=saying(stop=Stop.BUDGET)),
    "undecided-clock": judged(ONE, count=saying(SOLUTION, stop=Stop.CLOCK)),
    "undecided-not-graded": judged(ONE, replay=replay_ending(Outcome.CLOCK)),
    "undecided-disagreement": judged(ONE, count=saying()),
    "undecided-worker-lost": lost(identity_of(ONE)),
}
"""A verdict of every kind."""

ACCEPTED = as_record(VERDICTS["accepted"])

every_kind = pytest.mark.parametrize("verdict", VERDICTS.values(), ids=VERDICTS)


def schema_validator() -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator(verdict_schema())


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(verdict_schema())


@every_kind
def test_every_kind_of_verdict_obeys_the_schema(verdict: Verdict) -> None:
    schema_validator().validate(yaml.safe_load(write_verdict(verdict)))


@every_kind
def test_what_is_written_reads_back_as_the_record(verdict: Verdict) -> None:
    assert yaml.safe_load(write_verdict(verdict)) == as_record(verdict)


@every_kind
def test_a_verdict_reads_back_as_it_was(verdict: Verdict) -> None:
    assert read_verdict(write_verdict(verdict)) == verdict


def test_remarks_and_minutes_read_back_and_obey_the_schema() -> None:
    accepted = VERDICTS["accepted"]
    assert accepted.difficulty is not None
    verdict = replace(
        accepted,
        difficulty=replace(accepted.difficulty, minutes=Minutes(9, 5, 19)),
        remarks=(Remark("bare-cell", "No cage holds r1c2.", ("r1c2",)), Remark("look", "Have a look.")),
    )
    written = write_verdict(verdict)
    assert read_verdict(written) == verdict
    schema_validator().validate(yaml.safe_load(written))


def test_a_verdict_of_another_format_is_not_read() -> None:
    written = write_verdict(VERDICTS["accepted"]).replace("format: 2", "format: 1")
    with pytest.raises(AnotherFormatError, match="format 1, not 2"):
        read_verdict(written)


@given(credits())
def test_credits_read_back_whatever_is_in_them(credits: Credits) -> None:
    verdict = lost(identity_of(replace(ONE, credits=credits)))
    assert read_verdict(write_verdict(verdict)) == verdict


@pytest.mark.parametrize(
    "change",
    [
        {"verdict": "fine"},
        {"verdict": "accepted", "reasons": [{"code": "x", "says": "y"}]},
        {"solutions": {"count": 2, "complete": True, "grid": None, "examples": [], "swing_cells": []}},
        {"witnesses": [{"name": "cp-sat", "says": 1}]},
        {"witnesses": [{"name": "somebody", "says": 1}, {"name": "replay", "says": 1}]},
        {"difficulty": None},
        {"provisional": True},
        {"timing": 3},
        {"format": 1},
        {"difficulty": {**ACCEPTED["difficulty"], "effort": 15.2}},
        {"difficulty": {**ACCEPTED["difficulty"], "tier": None}},
    ],
)
def test_the_schema_refuses_a_false_accepted_verdict(change: dict[str, Any]) -> None:
    assert not schema_validator().is_valid(ACCEPTED | change)


@pytest.mark.parametrize(
    ("kind", "rules"),
    [
        ("accepted", ["cage"]),
        ("accepted-full-from-the-start", ["given"]),
        ("undecided-worker-lost", ["cage"]),
    ],
)
def test_a_verdict_names_the_kinds_of_rules(kind: str, rules: list[str]) -> None:
    assert as_record(VERDICTS[kind])["rules"] == rules


@every_kind
def test_the_keys_stand_in_the_order_of_the_design(verdict: Verdict) -> None:
    keys = list(yaml.safe_load(write_verdict(verdict)))
    design = [
        "format",
        "verdict",
        "provisional",
        "reasons",
        "puzzle",
        "solutions",
        "witnesses",
        "difficulty",
        "remarks",
        "rules",
        "checks",
        "made_by",
    ]
    assert [key for key in design if key in keys] == keys
    assert set(design) - set(keys) <= {"provisional"}


@every_kind
def test_the_wording_is_that_of_the_snapshot(verdict: Verdict, request: pytest.FixtureRequest) -> None:
    text = re.sub(r"(gridproof|ladder|ortools|clingo): .*", r"\1: (version)", write_verdict(verdict))
    assert_snapshot(SNAPSHOTS / f"{request.node.callspec.id}.yaml", text)


def test_the_same_puzzle_gives_the_same_bytes() -> None:
    assert write_verdict(judge(ONE)) == write_verdict(judge(ONE))


def test_the_rows_of_a_grid_stand_on_a_line_each() -> None:
    assert "  grid:\n  - [1, 2, 3, 4]\n  - [3, 4, 1, 2]\n" in write_verdict(VERDICTS["accepted"])


@pytest.mark.parametrize("title", ["no", "1", "2024-01-01", "a: b", "'", "\x1b[31m", "- x", "Straße 光", "~"])
def test_credits_are_text_whatever_they_look_like(title: str) -> None:
    named = replace(ONE, credits=Credits("no", title, "null"))
    puzzle = yaml.safe_load(write_verdict(judge(named)))["puzzle"]
    assert (puzzle["id"], puzzle["title"], puzzle["setter"]) == ("no", title, "null")


def test_nothing_a_terminal_would_act_on_is_written_as_it_is() -> None:
    named = replace(ONE, credits=Credits("x", "\x1b[2J\u202e"))
    assert not set("\x1b\u202e") & set(write_verdict(judge(named)))


def test_a_verdict_says_what_it_was_made_by() -> None:
    made = as_record(VERDICTS["rejected-house-style"])["made_by"]
    assert made["house_style"] == {"name": "Harbour Page", "content": STRICT.content}
    assert made["ortools"].startswith("9.15")
