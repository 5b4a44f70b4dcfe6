"""The choice of a page against all choices that there are, on small cases."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from verifier.intake.plan import choice
from verifier.intake.plan.bounds import least_falls, least_repeated
from verifier.intake.plan.choice import choose, falls, repeated_break_ins
from verifier.intake.plan.slots import Candidate, Degree, Page, Slot
from verifier.intake.setters import same_setter

EASY = Candidate("ebb", "ebb", "Ebb", "Wren", "killer", "9x9", 1, 80, "hidden-single", "ebb", "s1")


def puzzle(key: str, **changes: object) -> Candidate:
    """A puzzle that is like no other, but for what is said of it."""
    own = {"key": key, "id": key, "setter": key, "alike": key, "solution": key, "break_in": key}
    return replace(EASY, **{**own, **changes})  # type: ignore[arg-type]


def chosen(page: Page, stock: Sequence[Candidate], taken: dict[int, Candidate] | None = None) -> list[str]:
    return [one.key if one else "-" for one in choose(page, stock, taken).puzzles]


WEEK = Page((Slot("Monday"), Slot("Tuesday")))


def test_of_two_that_fit_the_first_of_the_stock_stands_first() -> None:
    assert chosen(WEEK, [puzzle("a"), puzzle("b"), puzzle("c")]) == ["a", "b"]


def test_no_setter_has_two_puzzles_however_the_name_is_written() -> None:
    stock = [puzzle("a", setter="Wren Alder"), puzzle("b", setter=" wren  ALDER"), puzzle("c")]
    assert chosen(WEEK, stock) == ["a", "c"]
    assert chosen(replace(WEEK, per_setter=2), stock) == ["a", "b"]


def test_no_two_repeat_one_another_or_have_the_same_solution() -> None:
    assert chosen(WEEK, [puzzle("a"), puzzle("b", alike="a"), puzzle("c")]) == ["a", "c"]
    assert chosen(WEEK, [puzzle("a"), puzzle("b", solution="a"), puzzle("c")]) == ["a", "c"]


def test_solutions_that_were_not_looked_for_are_not_taken_for_the_same() -> None:
    assert chosen(WEEK, [puzzle("a", solution=None), puzzle("b", solution=None)]) == ["a", "b"]


@pytest.mark.parametrize("lacking", ["title", "setter"])
def test_a_puzzle_without_its_credits_is_not_printed(lacking: str) -> None:
    stock = [puzzle("a", **{lacking: None}), puzzle("b"), puzzle("c")]
    assert chosen(WEEK, stock) == ["b", "c"]
    assert chosen(replace(WEEK, credits=()), stock) == ["a", "b"]


def test_effort_rises_through_the_week_where_it_can() -> None:
    hard, easy = puzzle("hard", effort=200), puzzle("easy", effort=100)
    assert chosen(WEEK, [hard, easy]) == ["easy", "hard"]
    fixed = Page((Slot("Monday", tiers=(4,)), Slot("Tuesday", tiers=(1,))))
    stock = [replace(hard, tier=4), easy]
    assert chosen(fixed, stock) == ["hard", "easy"]  # a slot is filled rather than left empty
    assert chosen(replace(fixed, rising=Degree.MUST), stock) == ["hard", "-"]
    assert chosen(replace(WEEK, rising=Degree.NO), [hard, easy]) == ["hard", "easy"]


def test_break_ins_are_varied_where_they_can_be() -> None:
    stock = [puzzle("a", break_in="x"), puzzle("b", break_in="x"), puzzle("c", break_in="y")]
    assert chosen(WEEK, stock) == ["a", "c"]
    assert chosen(WEEK, stock[:2]) == ["a", "b"]
    assert chosen(replace(WEEK, varied=Degree.MUST), stock[:2]) == ["a", "-"]
    assert chosen(replace(WEEK, varied=Degree.NO), stock) == ["a", "b"]


def test_a_puzzle_that_fits_one_slot_alone_is_kept_for_it() -> None:
    page = Page((Slot("Monday"), Slot("Tuesday", kinds=("killer",))))
    assert chosen(page, [puzzle("a"), puzzle("b", kind="classic")]) == ["b", "a"]


def test_what_stands_in_a_slot_already_stays_there_and_counts() -> None:
    taken = {1: puzzle("old", setter="Wren", effort=10)}
    assert chosen(WEEK, [puzzle("a", setter="Wren"), puzzle("b")], taken) == ["b", "old"]
    both = {0: puzzle("x", setter="Wren"), 1: puzzle("y", setter="Wren")}
    assert chosen(WEEK, [], both) == ["x", "y"]  # the rules were others when they were taken


def test_with_nothing_in_stock_every_slot_stays_empty() -> None:
    assert chosen(WEEK, []) == ["-", "-"]


GRIDS, KINDS = ("9x9", "6x6"), ("killer", "classic")
few = st.integers(1, 3)
names = st.sampled_from("ab")


@st.composite
def candidates(draw: st.DrawFn, number: int) -> Candidate:
    return puzzle(
        str(number),
        title=draw(st.sampled_from([None, "T", "T"])),
        setter=draw(st.sampled_from(["a", "b", "c", None])),
        kind=draw(st.sampled_from(KINDS)),
        tier=draw(few),
        effort=draw(st.integers(0, 4)),
        break_in=draw(names),
        alike=draw(st.sampled_from([str(number), "same"])),
        solution=draw(st.sampled_from([str(number), "same", None])),
    )


slots = st.builds(
    Slot,
    name=st.just("slot"),
    kinds=st.sampled_from([(), ("killer",), KINDS]),
    tiers=st.sampled_from([(), (1,), (2, 3)]),
    least_effort=st.sampled_from([None, 2]),
    most_effort=st.sampled_from([None, 3]),
)
pages = st.builds(
    Page,
    slots=st.lists(slots, min_size=1, max_size=3).map(tuple),
    per_setter=st.integers(1, 2),
    credits=st.sampled_from([(), ("title",), ("title", "setter")]),
    rising=st.sampled_from(Degree),
    varied=st.sampled_from(Degree),
)
stocks = st.integers(0, 5).flatmap(lambda number: st.tuples(*map(candidates, range(number))))


def allowed(page: Page, puzzles: Sequence[Candidate | None]) -> bool:
    """Whether a choice keeps to the rules, each said once more in plain words."""
    printed = [one for one in puzzles if one is not None]
    setters = [same_setter(one.setter) for one in printed if one.setter]
    solutions = [one.solution for one in printed if one.solution]
    return (
        all(slot.takes(one) for slot, one in zip(page.slots, puzzles, strict=True) if one is not None)
        and all(getattr(one, name) for one in printed for name in page.credits)
        and len({one.key for one in printed}) == len(printed)
        and len({one.alike for one in printed}) == len(printed)
        and len(set(solutions)) == len(solutions)
        and all(setters.count(name) <= page.per_setter for name in setters)
        and not (page.rising is Degree.MUST and falls(puzzles))
        and not (page.varied is Degree.MUST and repeated_break_ins(puzzles))
    )


def cost(page: Page, stock: Sequence[Candidate], puzzles: Sequence[Candidate | None]) -> tuple[int, ...]:
    """What is compared: the less, the better, the first figure first."""
    again = sum(len(places) - 1 for places in repeated_break_ins(puzzles).values())
    places = [len(stock) if one is None else stock.index(one) for one in puzzles]
    return (
        puzzles.count(None),
        len(falls(puzzles)) if page.rising is Degree.WISH else 0,
        again if page.varied is Degree.WISH else 0,
        *places,
    )


def every_choice(page: Page, stock: Sequence[Candidate]) -> Iterator[tuple[Candidate | None, ...]]:
    return product([None, *stock], repeat=len(page.slots))


@settings(max_examples=60, deadline=None)
@given(pages, stocks)
def test_no_other_choice_is_better(page: Page, stock: tuple[Candidate, ...]) -> None:
    found = choose(page, stock)
    best = min(
        (one for one in every_choice(page, stock) if allowed(page, one)),
        key=lambda one: cost(page, stock, one),
    )
    assert found.puzzles == best
    assert found.best


@settings(max_examples=60, deadline=None)
@given(pages, stocks)
def test_where_not_all_of_the_stock_is_tried_no_more_slots_are_empty_nor_wishes_left(
    page: Page, stock: tuple[Candidate, ...]
) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(choice, "_TRIED", -2 * len(page.slots) + 1)  # one a slot, and one a break-in
        found = choose(page, stock).puzzles
    best = min(cost(page, stock, one)[:3] for one in every_choice(page, stock) if allowed(page, one))
    assert allowed(page, found)
    assert cost(page, stock, found)[:3] == best


@settings(max_examples=60, deadline=None)
@given(pages, stocks)
def test_no_choice_that_fills_all_it_can_goes_below_the_bounds(
    page: Page, stock: tuple[Candidate, ...]
) -> None:
    fits = [[one for one in stock if slot.takes(one)] for slot in page.slots]
    for puzzles in every_choice(page, stock):
        full = all(one is not None or not fitting for one, fitting in zip(puzzles, fits, strict=True))
        if full and allowed(page, puzzles):
            assert len(falls(puzzles)) >= least_falls(fits)
            again = sum(len(places) - 1 for places in repeated_break_ins(puzzles).values())
            assert again >= least_repeated(fits)
