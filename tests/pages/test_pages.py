"""Pages as files: what is in them, that nothing in a puzzle's file can act, that they load nothing."""

from __future__ import annotations

import base64
import hashlib
import html
import json
import re
from collections.abc import Callable
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grader.walking.walk import walk
from grader.words.narrate import tell
from tests.pages.made import box_of, help_page_of, verdict_of, verdict_page_of, walk_of, walk_page_of
from tests.pages.scenes import puzzle_named
from tests.strategies import credits
from verifier.pages.box_page import BoxLine, Whole, box_page
from verifier.pages.styling import as_data
from verifier.pages.verdict_page import verdict_page
from verifier.pages.walkthrough import walk_page
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, make_puzzle
from verifier.verdict.verdict import Reason, Remark, VerdictState

PAGES: dict[str, Callable[[], str]] = {
    "walk": lambda: walk_page_of("ridge"),
    "walk of a classic": lambda: walk_page_of("classic"),
    "walk with markup": lambda: walk_page_of("markup"),
    "accepted": lambda: verdict_page_of("ridge"),
    "several": lambda: verdict_page_of("several"),
    "verdict with markup": lambda: verdict_page_of("markup"),
    "help": lambda: help_page_of("ridge"),
    "box": box_of,
}

every_page = pytest.mark.parametrize("name", list(PAGES))


class Reader(HTMLParser):
    """What is in a page: its elements, and its text but for styles and scripts."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self._inside: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag in ("style", "script"):
            self._inside.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if self._inside and tag == self._inside[-1]:
            self._inside.pop()

    def handle_data(self, data: str) -> None:
        self.text += "" if self._inside else data


def policy_of(page: str) -> str:
    (policy,) = (
        facts["content"] or ""
        for tag, facts in Reader(page).elements
        if tag == "meta" and facts.get("http-equiv") == "Content-Security-Policy"
    )
    return policy


def hash_of(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


@every_page
def test_the_policy_allows_the_styles_and_scripts_of_the_page_and_nothing_else(name: str) -> None:
    page = PAGES[name]()
    styles = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    scripts = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    allowed = {
        "default-src 'none'",
        "style-src " + " ".join(map(hash_of, styles)),
        "script-src " + (" ".join(map(hash_of, scripts)) or "'none'"),
        "img-src data:",
        "base-uri 'none'",
        "form-action 'none'",
    }
    assert set(policy_of(page).split("; ")) == allowed


@every_page
def test_no_element_names_a_place_outside_the_page_or_acts_by_itself(name: str) -> None:
    for tag, facts in Reader(PAGES[name]()).elements:
        for key, value in facts.items():
            assert not key.startswith("on"), (tag, key)
            assert key != "style"  # the policy would not let it through
            if key in ("src", "href", "action", "xlink:href"):
                assert re.fullmatch(r"#[\w-]+|data:,|\w+\.html", value or ""), (tag, value)


@pytest.mark.parametrize("page", [walk_page_of, verdict_page_of])
def test_a_title_with_markup_shows_as_text(page: Callable[[str], str]) -> None:
    made, credits = Reader(page("markup")), puzzle_named("markup").credits
    assert credits.title is not None
    assert credits.title in made.text
    assert (credits.setter or "-") in made.text
    assert not [tag for tag, _ in made.elements if tag in ("img", "b")]


@settings(max_examples=30)
@given(credits())
def test_no_credits_can_break_out_of_a_page(credits: Credits) -> None:
    puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    plain = walk_page(puzzle, walk(puzzle))
    named = make_puzzle("classic", puzzle.grid, givens=puzzle.givens, credits=credits)
    page = walk_page(named, walk(named))
    assert [tag for tag, _ in Reader(page).elements] == [tag for tag, _ in Reader(plain).elements]
    assert policy_of(page) == policy_of(plain)


@given(st.text() | st.lists(st.text()))
def test_data_in_a_page_reads_back_and_cannot_end_the_script(value: object) -> None:
    data = as_data(value)
    assert not re.search("[<>&]", data)
    assert json.loads(data) == value


@pytest.mark.parametrize("name", ["ridge", "classic", "pocket"])
def test_every_sentence_of_the_walk_is_in_the_page(name: str) -> None:
    walked = walk_of(name)
    data = re.search(r'<script type="application/json"[^>]*>(.*?)</script>', walk_page_of(name))
    assert data is not None
    said = json.loads(data[1])["says"]
    assert said == [tell(taken.step, walked.layout, taken.board) for taken in walked.steps]
    text = " ".join(Reader(walk_page_of(name)).text.split())
    told = [paragraph.text for part in walked.parts() for paragraph in part.paragraphs]
    assert told
    assert [paragraph for paragraph in told if paragraph not in text] == []


def test_the_page_tells_a_walk_in_passages_and_has_a_heading_for_each_chapter_alone() -> None:
    elements = Reader(walk_page_of("ridge")).elements
    assert sum(tag in ("h3", "h4") for tag, _ in elements) == len(walk_of("ridge").stages)


def test_where_people_get_stuck_is_said_before_the_step() -> None:
    puzzle, walked = puzzle_named("ridge"), walk_of("ridge")
    alone = next(p for part in walked.parts() for p in part.paragraphs if p.first == p.last)
    text = " ".join(Reader(walk_page(puzzle, walked, narrow={alone.first: "Stuck."})).text.split())
    assert f"Stuck. {alone.text}" in text


def test_the_page_of_a_hard_killer_is_small() -> None:
    assert len(walk_page_of("killer").encode()) < 400_000


def test_a_walk_without_a_step_has_a_page() -> None:
    full = make_puzzle("classic", Grid.square(4), givens=dict(enumerate((1, 2, 3, 4, 3, 4, 1, 2) * 2)))
    assert "0 steps" in walk_page(full, walk(full))


def test_the_verdict_page_says_what_the_verdict_says() -> None:
    text = " ".join(Reader(verdict_page_of("several")).text.split())
    verdict = verdict_of("several")
    said = [*(reason.says for reason in verdict.reasons), *(check.says for check in verdict.checks)]
    assert [sentence for sentence in said if sentence not in text] == []
    assert "Proved to have" not in text


def test_the_verdict_page_says_the_effort_beside_what_a_middling_classic_has() -> None:
    hard = verdict_of("ridge").difficulty
    assert hard is not None
    assert hard.minutes is not None
    minutes = f"{hard.minutes.middle} minutes for the middle"
    said = f"Effort {hard.effort} (a middling published classic: 100): {minutes}"
    text = Reader(verdict_page_of("ridge")).text
    assert said in text
    assert "For a killer this is an estimate." in text


def test_remarks_stand_on_the_verdict_page_whatever_the_verdict() -> None:
    remark = Remark("bare-cell", "No cage holds r1c2: was it meant to be <bare>?", ("r1c2",))
    verdict = replace(verdict_of("ridge"), remarks=(remark,))
    assert remark.says in Reader(verdict_page(puzzle_named("ridge"), verdict)).text


def test_rounds_are_those_of_the_verdict_and_a_walk_has_none() -> None:
    hard = verdict_of("ridge").difficulty
    assert hard is not None
    strips = {
        name: re.search(r'aria-label="([^"]*)" class="strip"', PAGES[name]()) for name in ("walk", "accepted")
    }
    walked, judged = (strips[name][1] for name in ("walk", "accepted"))  # type: ignore[index]
    assert judged.startswith(f"{hard.rounds} rounds; ")
    assert walked.startswith(f"{len(walk_of('ridge').steps)} steps; ")
    assert "round" not in walked


def test_both_solutions_are_shown_with_the_cells_that_differ() -> None:
    page = verdict_page_of("several")
    assert page.count('href="#swing"') == 8 + 1  # four cells twice, and the key
    assert "r3c1 is 1 or 2" in Reader(page).text


def test_repairs_are_shown_before_and_after() -> None:
    page = verdict_page_of("several")
    assert page.count("<figcaption>Before</figcaption>") == page.count("<figcaption>After</figcaption>") > 0


def test_the_box_page_has_a_line_for_each_submission() -> None:
    made = Reader(box_of())
    lines = [facts for tag, facts in made.elements if tag == "tr" and "data-place" in facts]
    states = [facts["data-state"] for facts in lines]
    assert states == ["accepted", "accepted", "rejected", "accepted", "accepted", "unreadable"]
    assert "torn.yaml:3: <grid>: found '9y9'" in made.text
    assert "Spring & <post>" in made.text


def test_the_box_page_says_what_a_puzzle_repeats_where_one_does() -> None:
    made = Reader(box_of())
    assert "may/old <one>.yaml (printed before)" in made.text
    assert "Repeats" in made.text
    assert "Repeats" not in Reader(box_page([BoxLine("torn.yaml")], "Part")).text


def test_the_ledger_may_say_more_than_the_verdict() -> None:
    """What a house style refuses for the rest of the box stands in no verdict."""
    line = BoxLine("pocket.yaml", puzzle_named("pocket"), verdict_of("pocket"))
    refused = replace(line, state="rejected", reasons=(("style-repeats", "It was printed before."),))
    made = Reader(box_page([refused], "Part"))
    assert [facts["data-state"] for _, facts in made.elements if "data-place" in facts] == ["rejected"]
    assert "It was printed before." in made.text


def test_a_part_of_a_box_is_listed_with_the_counts_of_the_whole() -> None:
    whole = Whole({"accepted": 2345}, {1: 2000, 4: 345}, "Listed is the first one.")
    made = Reader(box_page([BoxLine("torn.yaml")], "Part", whole=whole))
    assert "2,345 puzzles: 2,345 accepted." in made.text
    assert "Listed is the first one." in made.text
    assert "2,000" in made.text
    assert sum("data-place" in facts for _, facts in made.elements) == 1


def test_a_rejected_puzzle_is_of_no_tier_on_the_page_of_a_box() -> None:
    accepted = verdict_of("pocket")
    rejected = replace(
        accepted, state=VerdictState.REJECTED, reasons=(Reason("title-missing", "It has no title."),)
    )
    lines = [BoxLine(f"{n}", puzzle_named("pocket"), one) for n, one in enumerate([accepted, rejected])]
    assert [box_page(part, "Part").count("1 of tier") for part in (lines, lines[1:])] == [1, 0]


def test_a_very_large_box_is_listed_without_pictures() -> None:
    line = BoxLine("pocket.yaml", puzzle_named("pocket"), verdict_of("pocket"))
    page = box_page([line] * 1001, "Large")
    assert "<use" not in page
    assert page.count("data-place") == 1001
    assert html.unescape(page).count("pocket.yaml") >= 1001
