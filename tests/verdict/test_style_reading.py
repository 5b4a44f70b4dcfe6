"""Reading a house style: what may stand in the file, and what is said when something else does."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grader.grading.tiers import default_tiers
from verifier.verdict.style.reading import read_style, read_style_text
from verifier.verdict.style.style import PLAIN, HouseStyle

FULL = """\
format: 1
name: Harbour Page
kinds: [killer]
grids: [9x9, 6x6]
rules: [diagonals, thermometer]
rules_not_accepted: [sandwich]
tiers: [1, 2, 3]
techniques_not_accepted: [trial]
smallest_cage: 2
largest_cage: 5
cages_in_one_piece: yes
cages_cover_the_grid: no
fewest_givens: 0
most_givens: 4
symmetry: half-turn
credits: [title, setter]
tier_names: {1: slack water, 2: ebb}
"""


def style_in(text: str) -> HouseStyle:
    style, faults = read_style_text(text.encode(), "style.yaml")
    assert not faults
    assert style is not None
    return style


def told(text: str) -> list[str]:
    """Return the faults of a style without the file's name."""
    style, faults = read_style_text(text.encode(), "style.yaml")
    assert style is None
    assert faults
    return [str(fault).removeprefix("style.yaml:") for fault in faults]


def test_every_rule_is_read() -> None:
    assert style_in(FULL) == HouseStyle(
        name="Harbour Page",
        kinds=("killer",),
        grids=("9x9", "6x6"),
        rules=("diagonals", "thermometer"),
        rules_not_accepted=("sandwich",),
        tiers=(1, 2, 3),
        techniques_not_accepted=("trial",),
        smallest_cage=2,
        largest_cage=5,
        cages_in_one_piece=True,
        fewest_givens=0,
        most_givens=4,
        symmetry=("half-turn",),
        credits=("title", "setter"),
        tier_names=((1, "slack water"), (2, "ebb")),
    )


def test_every_rule_can_be_left_out() -> None:
    assert style_in("name: anything goes").content == PLAIN.content


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("kind: [killer]", "2: the house style: found 'kind'; allowed: format, name, kinds, grids, "),
        (
            "kinds: [kiler]",
            "2: kinds: found 'kiler'; allowed: classic, killer or kakuro. Did you mean 'killer'?",
        ),
        (
            "tiers: [easy]",
            "2: tiers: found 'easy'; allowed: a whole number from 1 to 20. Write the number in ",
        ),
        ("largest_cage: five", "2: largest_cage: found 'five'; allowed: a whole number from 1 to 25. Write "),
        ("cages_in_one_piece: maybe", "2: cages_in_one_piece: found 'maybe'; allowed: yes or no. Write one "),
        (
            "symmetry: halfturn",
            "2: symmetry: found 'halfturn'; allowed: half-turn, quarter-turn, left-right, ",
        ),
        (
            "credits: {title: x}",
            "2: credits: found keys with values; allowed: title or setter. Write one of ",
        ),
        ("techniques_not_accepted: [naked-par]", "2: techniques_not_accepted: found 'naked-par'; allowed: "),
        (
            "stop_beyond_tiers: yes",
            "2: stop_beyond_tiers: found yes, but no tiers; allowed: yes beside tiers. Add the ",
        ),
        (
            "fewest_givens: 9\nmost_givens: 3",
            "3: most_givens: found 3; allowed: at least 9, the 'fewest_givens'",
        ),
        ("name: again", "2: the house style: found 'name' twice, on line 1 and on line 2; allowed: "),
        (
            "tier_names: {first: x}",
            "2: tier_names: found 'first'; allowed: numbers of tiers, each once. Write a ",
        ),
        (
            "tier_names: [a]",
            "2: tier_names: found a list; allowed: numbers of tiers, each once. Write a line",
        ),
    ],
)
def test_a_fault_says_where_it_is_what_is_allowed_and_what_to_do(line: str, message: str) -> None:
    (fault,) = told(f"name: Harbour Page\n{line}\n")
    assert fault.startswith(message)


@pytest.mark.parametrize("text", ["", "just words", "- a\n- list", "# nothing"])
def test_a_file_without_rules_is_no_house_style(text: str) -> None:
    assert "keys with a colon, such as 'name: Harbour Page'" in told(text)[0]


def test_a_house_style_needs_a_name() -> None:
    assert told("kinds: [killer]") == [
        "1: name: found nothing; allowed: the name of the house style. Add a line such as "
        "'name: Harbour Page'."
    ]


def test_all_faults_are_told_at_once_in_the_order_of_the_file() -> None:
    faults = told("name: Harbour Page\nkinds: [a]\ntires: [1]\ngrids: [9]\n")
    assert [fault.partition(":")[0] for fault in faults] == ["2", "3", "4"]


def test_a_tag_or_an_alias_is_refused() -> None:
    assert "tag in YAML" in told("name: !!python/object:os.system x")[0]
    assert "alias" in told("name: &a x\nkinds: *a")[0]


def test_a_file_that_cannot_be_opened_is_a_fault(tmp_path: Path) -> None:
    style, (fault,) = read_style(tmp_path / "nowhere.yaml")
    assert style is None
    assert "no such file" in fault.found


def test_a_house_style_is_read_from_a_file(tmp_path: Path) -> None:
    path = tmp_path / "style.yaml"
    path.write_text(FULL)
    assert read_style(path) == (style_in(FULL), ())


def shipped_table() -> str:
    """Return the table that ships with the grader, as part of a house style."""
    text = files("grader.grading").joinpath("tiers.yaml").read_text(encoding="utf-8")
    return "name: Harbour Page\ntier_table:\n" + "".join(f"  {line}\n" for line in text.splitlines())


def test_the_table_that_ships_with_the_grader_can_stand_in_a_house_style() -> None:
    assert style_in(shipped_table()).tier_table == default_tiers()


def test_another_table_is_another_content() -> None:
    other = shipped_table().replace("name: doorstep", "name: pier")
    assert style_in(other).content != style_in(shipped_table()).content


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("[trial]", "[]", "found no tier for trial; allowed: each technique of the ladder in one tier."),
        ("w-wing, ", "", "found no tier for w-wing; allowed: each technique of the ladder in one tier."),
        ("x-wing", "x-wings", "found 'x-wings'; allowed: "),
        ("  7:", "  9:", "allowed: tiers numbered 1, 2, 3 and so on. Correct the numbers of the tiers."),
        ("steps_per_cell: 2.0", "steps_per_cell: many", "found 'many'; allowed: a number such as 2.5."),
        ("lift:", "lifts:", "found 'lifts'; allowed: name, tiers or lift. Did you mean 'lift'?"),
        ("name: lane", "title: lane", "found 'title'; allowed: name or techniques."),
    ],
)
def test_a_table_of_tiers_with_a_fault_is_refused(old: str, new: str, message: str) -> None:
    assert old in shipped_table()
    assert any(message in fault for fault in told(shipped_table().replace(old, new)))


def test_tiers_may_not_go_down_along_the_ladder() -> None:
    table = shipped_table().replace("naked-single, ", "").replace("[trial]", "[trial, naked-single]")
    assert any("allowed: tiers that never go down along the ladder." in fault for fault in told(table))


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200))
def test_no_bytes_break_the_reader(data: bytes) -> None:
    style, faults = read_style_text(data, "style.yaml")
    assert (style is None) == bool(faults)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(FULL) - 1), st.text(max_size=3))
def test_no_slip_of_the_pen_breaks_the_reader(place: int, slip: str) -> None:
    text = FULL[:place] + slip + FULL[place + 1 :]
    style, faults = read_style_text(text.encode("utf-8", "surrogatepass"), "style.yaml")
    assert (style is None) == bool(faults)
