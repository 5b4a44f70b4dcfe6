"""What stands in a letter, as text and as Markdown."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from tests.snapshots import assert_snapshot
from verifier.intake.letters.body import Entry, body_of, file_called

SNAPSHOTS = Path(__file__).parent / "snapshots"
ONE = ((1, 2, 3, 4), (3, 4, 1, 2), (2, 1, 4, 3), (4, 3, 2, 1))
OTHER = ((2, 1, 3, 4), (3, 4, 1, 2), (1, 2, 4, 3), (4, 3, 2, 1))

ENTRIES = [
    Entry("17.yaml, puzzle 2", "unreadable", says=("Line 5, puzzle: found 'kiler'; allowed: killer.",)),
    Entry("ebb.yaml", "accepted", "Ebb, tide-7", ("Tier 2, lane; effort 90.",)),
    Entry(
        "flood.yaml",
        "rejected",
        "Flood, tide-8",
        ("The puzzle has at least 2 solutions. The solutions found differ in r1c1, r1c2, r3c1 and r3c2.",),
        ("Add a given: 1 in r1c1. That leaves exactly one solution; tier 1, doorstep.",),
        (ONE, OTHER),
    ),
    Entry(
        "neap.yaml",
        "rejected",
        "Neap, tide-9",
        ("The puzzle has no solution.",),
        ("Change the total of the cage r1c1 and r1c2 from 4 to 3.", "Add a given: 1 in r1c1."),
    ),
    Entry("again.yaml", "repeats", "Again", ("The same puzzle came to us from somebody else.",)),
]


@pytest.mark.parametrize(("markdown", "ending"), [(False, "txt"), (True, "md")])
def test_a_letter_has_its_parts_in_order(markdown: bool, ending: str) -> None:
    assert_snapshot(SNAPSHOTS / f"body.{ending}", body_of(ENTRIES, markdown=markdown) + "\n")


def test_parts_are_left_out_where_there_is_nothing_to_tell() -> None:
    body = body_of(ENTRIES[1:2])
    assert re.findall(r"\n\n(.+)\n--", body) == ["Accepted"]


def test_a_puzzle_that_came_in_several_files_is_told_once() -> None:
    body = body_of([ENTRIES[2], replace(ENTRIES[2], file="late.yaml"), ENTRIES[3]])
    assert body.count("has at least 2 solutions") == 1
    assert "- Flood, tide-8 (in flood.yaml and late.yaml)" in body


def test_the_parts_are_headings_and_the_entries_a_list_in_markdown() -> None:
    page = MarkdownIt().render(body_of(ENTRIES, markdown=True))
    assert re.findall("<h2>(.*?)</h2>", page) == [
        "Accepted",
        "Accepted, but we have them already",
        "Not accepted",
        "Could not be read",
    ]
    assert len(re.findall("^<li>", page, re.MULTILINE)) == len(ENTRIES) + len(ENTRIES[3].repairs)
    assert "<pre><code>1 2 3 4     2*1*3 4" in page


SIGNS = "*_`[]()<>#+-.!|~\\&1 a\n"


@example("123) a")
@given(st.text(alphabet=SIGNS, min_size=1, max_size=30).map(str.strip).filter(bool))
def test_no_sign_in_a_name_means_anything_in_markdown(name: str) -> None:
    """Held against a reader of CommonMark."""
    name = name.replace("\n", " ")
    body = body_of([Entry("a.yaml", "accepted", "A", (name,))], markdown=True)
    shown = re.findall("<p>(.*?)</p>", MarkdownIt().render(body), re.DOTALL)
    assert " ".join(unescape(shown[-1]).split()) == " ".join(name.split())


@pytest.mark.parametrize(
    ("address", "file"),
    [
        ("post/ebb.yaml", "ebb.yaml"),
        ("late.tar.gz!week/../17.yaml", "17.yaml"),
        ("late.zip!a.zip!b.yaml#12", "b.yaml, puzzle 12"),
        ("late.zip!win\\dows.yaml", "dows.yaml"),
        ("-#3", "-, puzzle 3"),
        ("post/", "post"),
    ],
)
def test_a_file_is_called_what_its_sender_calls_it(address: str, file: str) -> None:
    assert file_called(address) == file
