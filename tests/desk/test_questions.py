"""What the desk is asked, answered part by part."""

from __future__ import annotations

from tests.desk.opening import SMALL
from verifier.desk.answers.questions import repairs, standing, tuned
from verifier.files.reading import read_text
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.wish import Wish
from verifier.verdict.style.style import PLAIN, HouseStyle

STYLE = HouseStyle("Harbour Page", kinds=("classic",))


def puzzle_in(text: str) -> Puzzle:
    (entry,) = read_text(text.encode(), "a")
    assert entry.puzzle is not None, entry.faults
    return entry.puzzle


def test_a_sound_puzzle_is_found_proved_and_graded() -> None:
    beats = list(standing(puzzle_in(SMALL), PLAIN))
    assert [(beat.name, beat.facts.get("standing")) for beat in beats] == [
        ("found", "one"),
        ("proved", "one"),
        ("graded", None),
    ]
    assert beats[-1].facts["tier"] == "1"


def test_what_is_against_the_style_of_the_house_is_told_of_a_broken_one_too() -> None:
    broken = puzzle_in(SMALL.replace("a: 3", "a: 4"))
    assert standing_against(broken)


def standing_against(puzzle: Puzzle) -> list[str]:
    return next(beat.facts["against"] for beat in standing(puzzle, STYLE) if beat.name == "graded")


def test_repairs_come_one_by_one_and_then_their_order() -> None:
    *offers, last = repairs(puzzle_in(SMALL.replace("a: 3", "a: 4")), 7)
    assert {beat.name for beat in offers} == {"offer"}
    assert [beat.facts["offer"] for beat in offers] == list(range(7, 7 + len(offers)))
    assert set(last.facts["order"]) <= {beat.facts["offer"] for beat in offers}


def test_changes_towards_a_wish_come_as_they_are_found_each_with_its_picture() -> None:
    *parts, last = tuned(puzzle_in(SMALL), Wish(tiers=(2,)), 0)
    offers = [beat for beat in parts if beat.name == "offer"]
    assert offers
    assert all("<svg" in beat.facts["picture"] and beat.puzzles for beat in offers)
    assert parts.index(offers[0]) < len(parts) - 1  # and not all at the end
    assert set(last.facts["order"]) <= {beat.facts["offer"] for beat in offers}
