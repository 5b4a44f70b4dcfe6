"""Files that look wrong and are right, each beside a fault that it nearly has."""

from __future__ import annotations

import pytest

from tests.puzzle.broken import CAGES, HEAD, TOTALS
from verifier.files.reading import read_text
from verifier.puzzle.puzzle import Credits, Puzzle

KILLER = HEAD + "id: pier\n" + CAGES + TOTALS


def read_one(text: str | bytes) -> Puzzle:
    data = text.encode() if isinstance(text, str) else text
    (entry,) = read_text(data, "box.yaml")
    assert entry.faults == ()
    assert entry.puzzle is not None
    return entry.puzzle


@pytest.mark.parametrize(
    "cages",
    [
        pytest.param("cages: |\n  aabb\n  ccdd\n  eeff\n  gghh\n", id="rows without spaces"),
        pytest.param("cages: |\n  a  a  b  b\n  c c d d  \n    e e f f\n  g\tg h h\n", id="uneven spaces"),
        pytest.param(
            "cages: |\n\n  a a b b\n  c c d d\n\n  e e f f\n  g g h h\n\n", id="empty lines between bands"
        ),
        pytest.param("cages:\n  a a b b\n  c c d d\n  e e f f\n  g g h h\n", id="the bar forgotten"),
        pytest.param(
            "cages: >\n  a a b b\n  c c d d\n  e e f f\n  g g h h\n", id="the wrong sign for the bar"
        ),
        pytest.param("cages: |-\n  a a b b\n  c c d d\n  e e f f\n  g g h h\n", id="the bar with a sign"),
        pytest.param('cages: "aabb\\nccdd\\neeff\\ngghh"\n', id="in quotes"),
        pytest.param("? cages\n: |\n  aabb\n  ccdd\n  eeff\n  gghh\n", id="the long form of a key"),
    ],
)
def test_a_map_may_be_drawn_in_other_ways(cages: str) -> None:
    assert read_one(KILLER.replace(CAGES, cages)) == read_one(KILLER)


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("\ufeff" + KILLER, id="a mark of UTF-8 at the start"),
        pytest.param(KILLER.replace("\n", "\r\n"), id="line ends of another system"),
        pytest.param("# a comment\n\n" + KILLER + "\n# the end\n", id="comments"),
        pytest.param("---\n" + KILLER + "...\n", id="markers"),
        pytest.param("format: 1\n" + KILLER, id="the format given"),
        pytest.param(KILLER.replace("grid", "'grid'").replace("4x4", '"4x4"'), id="quotes"),
        pytest.param(KILLER + "title:\nsetter:\ngivens:\n", id="keys without values"),
        pytest.param(KILLER + "givens: |\n  ....\n  0000\n  . 0 . 0\n  ....\n", id="no givens in the grid"),
        pytest.param(KILLER.replace("a: 3", "a: 003"), id="zeros before a total"),
        pytest.param(KILLER.replace("{a: 3, ", "{'a': \"3\", "), id="a total in quotes"),
        pytest.param(KILLER.replace("h: 3}", "h: 3,}"), id="a comma at the end"),
        pytest.param(KILLER.replace("h: 3}", "h:3}"), id="no space after the colon of a total"),
        pytest.param(KILLER.replace(TOTALS, "totals: [3, 7, 7, 3, 3, 7, 7, 3]\n"), id="totals in a row"),
        pytest.param(
            KILLER.replace(TOTALS, "totals:\n- 3\n" + "- 7\n- 7\n- 3\n- 3\n" + "- 7\n- 7\n- 3\n"),
            id="totals in a column",
        ),
        pytest.param(KILLER.rstrip("\n"), id="no line end"),
        pytest.param(KILLER + "boxes: 2x2\n", id="the usual boxes given"),
    ],
)
def test_other_ways_of_writing_the_same_file(text: str) -> None:
    assert read_one(text) == read_one(KILLER)


@pytest.mark.parametrize(
    "title", ["no", "on", "1", "0x1F", "1e5", "2024-01-01", "12:30:00", "null", "~", "true", "<<"]
)
def test_every_title_is_text(title: str) -> None:
    assert read_one(KILLER + f"title: {title}\n").credits.title == title


def test_marks_that_yaml_knows_by_other_names_are_marks() -> None:
    words = ["no", "on", "1", "~", "null", "0x1", "1e5", "2024-01-01"]
    cages = "cages: |\n" + "".join(
        f"  {a} {a} {b} {b}\n" for a, b in zip(words[::2], words[1::2], strict=True)
    )
    totals = (
        "totals: {"
        + ", ".join(f"{word}: {total}" for word, total in zip(words, "37733773", strict=True))
        + "}\n"
    )
    assert read_one(HEAD + "id: pier\n" + cages + totals) == read_one(KILLER)


def test_marks_may_be_longer_than_one_character() -> None:
    cages = CAGES.replace("a a b b", "a1 a1 b22 b22").replace("c c d d", "c c D:D D:D")
    totals = TOTALS.replace("a: 3, b: 7", "a1: 3, b22: 7").replace("d: 3", '"D:D": 3')
    assert read_one(HEAD + "id: pier\n" + cages + totals) == read_one(KILLER)


def test_a_mark_may_be_a_sign() -> None:
    text = KILLER.replace("a a b b", "# # 0 0").replace("a: 3, b: 7", '"#": 3, 0: 7')
    assert read_one(text) == read_one(KILLER)


def test_a_cage_may_lie_in_pieces() -> None:
    text = HEAD + "cages: |\n  a . . .\n  ....\n  ....\n  . . . a\ntotals: {a: 3}\n"
    assert read_one(text).cages[0].cells == (0, 15)


def test_a_total_that_no_cage_can_make_is_no_fault_of_the_file() -> None:
    assert read_one(KILLER.replace("a: 3", "a: 999999")).cages[0].total == 999_999


def test_a_classic_needs_no_givens() -> None:
    assert read_one("puzzle: classic\ngrid: 4x4\n").givens == ()


def test_text_with_signs_needs_no_quotes_where_yaml_needs_none() -> None:
    assert (
        read_one(KILLER + "title: Salt & Sand! *new* [no] #5 {a}, 3-4\n").credits.title
        == "Salt & Sand! *new* [no]"
    )


def test_an_unusual_space_divides_marks_as_well() -> None:
    assert read_one(KILLER.replace("a a b b", "a\u00a0a\u3000b b")) == read_one(KILLER)


@pytest.mark.parametrize(
    ("line", "title"),
    [
        ("title: Tide: low", "Tide: low"),
        ("title: Tide:", "Tide:"),
        ("title:  It's low: so low  # at six", "It's low: so low"),
        ("title: Ebb: flood: slack\r", "Ebb: flood: slack"),
        ("title: Café: noir", "Café: noir"),
        ("title: a:b", "a:b"),
    ],
)
def test_a_colon_in_a_title_is_part_of_the_title(line: str, title: str) -> None:
    assert read_one(f"# é\n{line}\n{KILLER}").credits.title == title


def test_every_credit_may_hold_a_colon() -> None:
    text = KILLER.replace("id: pier", "id: pier: 1") + "title: Tide: low\nsetter: Odile: and Jory\n"
    assert read_one(text).credits == Credits("pier: 1", "Tide: low", "Odile: and Jory")
