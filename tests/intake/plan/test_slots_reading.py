"""The file of slots: what may stand there, and every fault with its place."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from verifier.intake.plan.slots import Degree, Page, Slot
from verifier.intake.plan.slots_reading import MOST_SLOTS, read_slots, read_slots_text

WHOLE = """\
name: By Lamplight, week 14
first: 2026-03-30
days_apart: 2
per_setter: 2
credits: [title]
rising: must
varied: no
slots:
  - {name: Monday, kind: killer, grid: 9x9, tier: 1}
  - {kinds: [classic, killer], grids: [6x6, 9x9], tiers: [2, 3], least_effort: 100, most_effort: 200}
  - {}
"""


def faults_of(text: str) -> list[str]:
    page, faults = read_slots_text(text.encode(), "week.yaml")
    assert page is None
    return [str(fault) for fault in faults]


def test_everything_that_can_be_asked_for() -> None:
    page, faults = read_slots_text(WHOLE.encode(), "week.yaml")
    assert faults == ()
    assert page == Page(
        slots=(
            Slot("Monday", ("killer",), ("9x9",), (1,)),
            Slot("slot 2", ("classic", "killer"), ("6x6", "9x9"), (2, 3), 100, 200),
            Slot("slot 3"),
        ),
        name="By Lamplight, week 14",
        first=date(2026, 3, 30),
        days_apart=2,
        per_setter=2,
        credits=("title",),
        rising=Degree.MUST,
        varied=Degree.NO,
    )
    assert [str(day) for day in page.days] == ["2026-03-30", "2026-04-01", "2026-04-03"]


def test_what_is_left_out_is_what_most_pages_want() -> None:
    page, _ = read_slots_text(b"slots: [{}]", "week.yaml")
    assert page == Page((Slot("slot 1"),))
    assert (page.per_setter, page.credits, page.rising) == (1, ("title", "setter"), Degree.WISH)
    assert page.days == (None,)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "week.yaml:1: the text: found nothing; allowed: a list of slots. Write 'slots:' and below it"),
        ("- {}\n", "week.yaml:1: the text: found a list; allowed: a list of slots."),
        ("name: x\n", "week.yaml:1: slots: found nothing; allowed: a list of slots."),
        ("slots: []\n", "week.yaml:1: slots: found an empty list; allowed: a list of slots."),
        ("slots: 7\n", "week.yaml:1: slots: found text; allowed: a list of slots."),
        ("slots:\n- Monday\n", "week.yaml:2: slots.1: found text; allowed: keys and values."),
        (f"slots: [{'{},' * 40}]\n", f"week.yaml:1: slots: found 40 slots; allowed: at most {MOST_SLOTS}."),
        (
            "slots:\n- {}\n- {tier: easy}\n",
            "week.yaml:3: slots.2.tier: found 'easy'; allowed: a whole number from 1 to 20.",
        ),
        ("slots: [{teir: 1}]\n", "week.yaml:1: the slot slots.1: found 'teir'; allowed: name, kind"),
        (
            "slots:\n- least_effort: 200\n  most_effort: 100\n",
            "week.yaml:3: slots.1.most_effort: found 100; allowed: at least 200, the 'least_effort'.",
        ),
        (
            "slots: [{tier: 1, tiers: [2]}]\n",
            "week.yaml:1: slots.1.tiers: found 'tier' and this; allowed: one of the two.",
        ),
        (
            "first: 2026-04-31\nslots: [{}]\n",
            "week.yaml:1: first: found '2026-04-31'; allowed: a day such as 2026-03-30.",
        ),
        ("rising: maybe\nslots: [{}]\n", "week.yaml:1: rising: found 'maybe'; allowed: must, wish or no."),
        ("per_setter: 0\nslots: [{}]\n", "week.yaml:1: per_setter: found '0'; allowed: a whole number from"),
        (
            "slots: [{}]\nslots: [{}]\n",
            "week.yaml:2: the page: found 'slots' twice, on line 1 and on line 2;",
        ),
        ("slots: &a [*a]\n", "week.yaml:1: the text: found '&a', which is an alias or an anchor in YAML;"),
        ("[" * 100, "week.yaml:1: the text: found lists or keys more than 20 levels deep;"),
    ],
)
def test_a_fault_names_file_line_and_field(text: str, told: str) -> None:
    assert faults_of(text)[0].startswith(told)


def test_all_faults_are_told_at_once() -> None:
    told = faults_of("first: soon\nslots:\n- {kind: kiler}\n- {grid: 10}\n")
    assert [one.partition(": found")[0] for one in told] == [
        "week.yaml:1: first",
        "week.yaml:3: slots.1.kind",
        "week.yaml:4: slots.2.grid",
    ]


def test_a_file_that_is_not_there_or_too_long_is_told(tmp_path: Path) -> None:
    _, (fault,) = read_slots(tmp_path / "none.yaml")
    assert "found no such file or directory" in str(fault)
    assert "after --slots" in fault.cure
    (tmp_path / "long.yaml").write_bytes(b"#" * (2 << 20))
    _, (fault,) = read_slots(tmp_path / "long.yaml")
    assert fault.found == "more than 1,048,576 bytes"


@given(st.binary(max_size=200) | st.text(alphabet="slot:{}[]-#&*!'\"\n 123", max_size=80).map(str.encode))
def test_whatever_is_sent_there_is_a_page_or_a_fault(data: bytes) -> None:
    page, faults = read_slots_text(data, "week.yaml")
    assert (page is None) == bool(faults)
