"""What the plan says of slots that stay empty, of wishes, and of what to ask for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tests.intake.plan.test_choice import puzzle
from verifier.intake.plan.choice import choose
from verifier.intake.plan.reasons import to_ask_for, why_empty, wishes_left
from verifier.intake.plan.slots import Candidate, Degree, Page, Slot

SUNDAY = Slot("Sunday", ("killer",), ("9x9",), (4, 5), least_effort=200, most_effort=300)


def reason(stock: Sequence[Candidate], page: Page | None = None) -> str:
    page = page or Page((SUNDAY,))
    puzzles = choose(page, stock).puzzles
    return why_empty(page, stock, puzzles, puzzles.index(None))


def test_kind_and_size_come_first() -> None:
    assert reason([puzzle("a", kind="classic")]) == "There is no killer of 9x9 in stock."


def test_then_the_tier() -> None:
    stock = [puzzle("a"), puzzle("b", tier=2), puzzle("c", tier=2)]
    assert reason(stock) == (
        "In stock there are three of that kind and size, but none of tier 4 or 5: "
        "one of tier 1 and two of tier 2."
    )


def test_then_the_effort() -> None:
    stock = [puzzle("a", tier=4, effort=100), puzzle("b", tier=5, effort=340)]
    assert reason(stock) == (
        "In stock there are two of that kind and tier, but none with effort 200 to 300; the nearest has 340."
    )


def test_then_what_bars_each_that_fits() -> None:
    fits = {"tier": 4, "effort": 250}
    page = Page((Slot("Saturday"), SUNDAY))
    flood = puzzle("flood", title="Flood", setter="Wren", **fits)
    stock = [
        puzzle("ebb", title="Ebb", setter="wren", **fits),
        puzzle("tide", title="Tide", alike="flood", **fits),
        puzzle("swell", title="Swell", solution="flood", **fits),
        puzzle("nameless", setter=None, title="Nameless", **fits),
        puzzle("wave", title="Wave", setter="Wren", **fits),
    ]
    puzzles = choose(page, stock, {0: flood}).puzzles
    assert why_empty(page, stock, puzzles, 1) == (
        "What fits cannot stand there: 'Ebb' is by wren, who has Saturday; 'Tide' repeats the puzzle in "
        "Saturday; 'Swell' has the same solution as the puzzle in Saturday; 'Nameless' does not say its "
        "setter; one puzzle more for reasons like these."
    )
    assert to_ask_for(page, stock, puzzles)[0] == (
        "killer of 9x9, tier 4 or 5, effort 200 to 300, for Sunday, which is empty"
    )


def test_where_a_setter_alone_is_in_the_way_somebody_else_is_asked() -> None:
    page = Page((Slot("Saturday"), SUNDAY))
    taken = puzzle("flood", setter="Wren")
    stock = [puzzle("ebb", setter="Wren", tier=4, effort=250)]
    puzzles = choose(page, stock, {0: taken}).puzzles
    assert to_ask_for(page, stock, puzzles)[0] == (
        "killer of 9x9, tier 4 or 5, effort 200 to 300, by somebody else than Wren, for Sunday, which is "
        "empty"
    )


def test_rules_that_must_hold_bar_too() -> None:
    must = Page((Slot("Saturday", tiers=(4,)), Slot("Sunday", tiers=(1,))), rising=Degree.MUST)
    stock = [puzzle("flood", tier=4, effort=250), puzzle("ebb", tier=1, effort=80)]
    assert "takes an effort of 80, which would not rise" in reason(stock, must)
    same = Page((Slot("Saturday"), Slot("Sunday")), varied=Degree.MUST)
    stock = [puzzle("flood", break_in="x-wing"), puzzle("ebb", break_in="x-wing")]
    assert "'Ebb' gives way as the puzzle in Saturday does" in reason(stock, same)


def test_wishes_that_could_not_be_met_are_told() -> None:
    page = Page((Slot("Saturday", tiers=(4,)), Slot("Sunday", tiers=(1,))))
    stock = [
        puzzle("flood", tier=4, effort=250, break_in="x"),
        puzzle("ebb", tier=1, effort=80, break_in="x"),
    ]
    puzzles = choose(page, stock).puzzles
    assert wishes_left(page, puzzles) == [
        "Sunday takes less effort (80) than Saturday (250).",
        "The puzzles in Saturday and Sunday give way by the same technique, x.",
    ]
    assert wishes_left(replace(page, rising=Degree.NO, varied=Degree.NO), puzzles) == []


def test_what_runs_out_is_asked_for_before_it_is_lacking() -> None:
    page = Page((Slot("Saturday", tiers=(1,)), Slot("Sunday", tiers=(2,))))
    stock = [puzzle("a"), puzzle("b", tier=2), puzzle("c", tier=2)]
    puzzles = choose(page, stock).puzzles
    assert to_ask_for(page, stock, puzzles) == [
        "puzzle, tier 1: for Saturday, nothing is left for the next page"
    ]
