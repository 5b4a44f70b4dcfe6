"""Files made to do harm: nothing is raised, nothing is built, and little is kept."""

from __future__ import annotations

import json
import tracemalloc

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from tests.puzzle.broken import BROKEN, CAGES, CREDITS, HEAD, TOTALS
from tests.rules.test_reading_clues import SAME_AS_WRITTEN
from tests.strategies import mutations
from verifier.counting.count import count_solutions
from verifier.files.fields.clues import CLUES
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.reading import ReadEntry, read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.checking.arithmetic import arithmetic_checks

KILLER = (HEAD + CREDITS + CAGES + TOTALS).encode()
LIST = (HEAD + "cages:\n- {total: 3, cells: [r1c1, r1c2]}\n- {total: 7, cells: [r2c1, r2c2]}\n").encode()
CLUED = (
    b"puzzle: classic\ngrid: 4x4\nall_marked: [ratio, pair_sum]\nclues:\n- {ratio: 2, cells: r1c1 r1c2}\n"
    b"- {arrow: r1c1 r2c1, cells: [r3c1, r3c2]}\n- {skyscraper: 2, line: row 1, from: left}\n"
)
LINES = json.dumps({"puzzle": "classic", "grid": "4x4", "givens": "1...\n....\n....\n...."}).encode() + b"\n"


def assert_sound(entries: list[ReadEntry]) -> None:
    assert entries
    for entry in entries:
        assert (entry.puzzle is None) == bool(entry.faults)
        assert entry.puzzle is None or entry.puzzle.credits.id
        for fault in entry.faults:
            assert fault.file == entry.address
            assert all((fault.code, fault.field, fault.found, fault.allowed, fault.cure))
            assert str(fault).isprintable()


@given(st.binary(max_size=200), st.sampled_from(["box.yaml", "box.jsonl", "box.txt"]))
@example(b"\xef\xbb\xbf", "box.yaml")
@example(b"--- ---", "box.yaml")
@example(b"\xe2\x80\xa8\n", "box.yaml")  # a line separator: a blank for YAML alone
@example(b'{"', "box.jsonl")
def test_any_bytes_give_entries(data: bytes, name: str) -> None:
    assert_sound(list(read_text(data, name)))


@given(mutations([KILLER, LIST, CLUED, KILLER + b"---\n" + LIST]))
def test_a_puzzle_that_was_mangled_gives_entries(data: bytes) -> None:
    assert_sound(list(read_text(data, "box.yaml")))


@given(mutations([LINES * 3]))
def test_json_lines_that_were_mangled_give_entries(data: bytes) -> None:
    assert_sound(list(read_text(data, "box.jsonl")))


WORDS = st.sampled_from([0, 1, 2, -1, "1 4", "row 1", "column 4", "row 5", "left", "top", "", None, "x" * 99])
NAMES = [f"r{row}c{column}" for row in range(1, 6) for column in range(1, 5)]
CELLS = st.lists(st.sampled_from(NAMES), max_size=5)
GOOD = st.sampled_from([yaml.safe_load(text) for text in SAME_AS_WRITTEN])
VALUES = st.one_of(WORDS, CELLS, CELLS.map(" ".join), st.lists(WORDS, max_size=4), st.just({"a": [1]}))


@st.composite
def clues(draw: st.DrawFn) -> dict[str, object]:
    """A clue of any kind with values of any kind, most of its keys those that it should have."""
    kind = draw(st.sampled_from(sorted(CLUES)))
    keys = [kind, *CLUES[kind].others, *draw(st.lists(st.sampled_from(["cells", "line", "odd"]), max_size=1))]
    return {key: draw(VALUES) for key in keys}


@given(
    st.lists(st.one_of(clues(), GOOD), max_size=3),
    st.lists(st.sampled_from(["ratio", "consecutive", "x"]), max_size=2),
)
def test_any_clues_give_entries_and_what_can_be_read_can_be_judged(
    records: list[dict[str, object]], marked: list[str]
) -> None:
    record = {"puzzle": "classic", "grid": "4x4", "clues": records, "all_marked": marked}
    (entry,) = read_text(json.dumps(record).encode(), "box.jsonl")
    assert_sound([entry])
    if entry.puzzle is not None:
        (again,) = read_text(write_puzzle(entry.puzzle).encode(), "box.yaml")
        assert again.puzzle == entry.puzzle
        arithmetic_checks(entry.puzzle)
        assert count_solutions(entry.puzzle).refused is None


def codes(data: bytes, limits: Limits = DEFAULT_LIMITS) -> list[str]:
    return [fault.code for entry in read_text(data, "box.yaml", limits) for fault in entry.faults]


def test_an_alias_bomb_is_refused_unopened() -> None:
    bomb = "a0: &a0 [x, x]\n" + "".join(f"a{n}: &a{n} [{f'*a{n - 1}, ' * 9}]\n" for n in range(1, 40))
    assert set(codes(bomb.encode())) == {"alias", "more-faults"}


@pytest.mark.parametrize("opening", ["[", "{a: ", "- ", "? ", "[{", "[a, ", "- ? "])
@pytest.mark.parametrize("times", [50, 5_000, 200_000])
def test_deep_nesting_is_refused(opening: str, times: int) -> None:
    assert codes((opening * times).encode()) == ["too-deep"]


def test_deep_indentation_is_refused() -> None:
    assert codes("".join(f"{' ' * n}a:\n" for n in range(1000)).encode()) == ["too-deep"]


@pytest.mark.parametrize("opening", ["[", '{"a":'])
def test_deep_nesting_in_json_is_refused(opening: str) -> None:
    (entry,) = read_text(opening.encode() * 100_000, "box.jsonl")
    assert [fault.code for fault in entry.faults] == ["too-deep"]


def test_brackets_in_text_are_no_nesting() -> None:
    line = json.dumps({"puzzle": "classic", "grid": "4x4", "title": '[[{{\\"[' * 50}).encode()
    (entry,) = read_text(line, "box.jsonl")
    assert entry.faults == ()


def test_a_puzzle_of_exactly_the_limit_is_read_and_one_more_byte_is_refused() -> None:
    limits = Limits(puzzle_bytes=len(KILLER))
    assert codes(KILLER, limits) == []
    assert codes(KILLER + b"\n", limits) == ["too-big"]


def test_the_limit_is_for_each_puzzle_not_for_the_file() -> None:
    assert codes((KILLER + b"---\n") * 20, Limits(puzzle_bytes=len(KILLER) + 4)) == []


def test_the_usual_limit_is_one_mebibyte() -> None:
    assert codes(KILLER.ljust((1 << 20) - 1) + b"\n") == []
    assert codes(KILLER.ljust(1 << 20) + b"\n") == ["too-big"]


@pytest.mark.parametrize("blanks", [" ", "\t", "\n", " \n", "\r\n"])
@pytest.mark.parametrize("name", ["box.yaml", "box.txt", "box.jsonl"])
def test_blanks_without_end_hide_nothing_that_follows(blanks: str, name: str) -> None:
    line = json.dumps({"puzzle": "classic", "grid": "4x4"})
    (entry,) = read_text((blanks * (3 << 20) + line).encode(), name)
    read = [] if "\n" in blanks else ["too-big"]  # a line that long is told, whatever it is made of
    assert [fault.code for fault in entry.faults] == read


@pytest.mark.parametrize("name", ["box.yaml", "box.txt", "box.jsonl"])
def test_blanks_alone_are_an_empty_file(name: str) -> None:
    for blanks in (" " * (3 << 20), "\n" * (3 << 20)):
        (entry,) = read_text(blanks.encode(), name)
        assert [fault.code for fault in entry.faults] == ["empty"]


def test_a_marker_after_blanks_on_its_line_is_none() -> None:
    (entry,) = read_text(b"\n" + b" " * (3 << 20) + b"---\n", "box.yaml")
    assert [fault.code for fault in entry.faults] == ["too-big"]


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(
            HEAD + f"cages: |\n  {'a ' * 500_000}\ntotals: {{a: 3}}\n", id="a row of half a million marks"
        ),
        pytest.param(HEAD + "cages: |\n" + "  a\n" * 200_000 + "totals: {a: 3}\n", id="as many rows"),
        pytest.param(HEAD + "cages:\n" + "- {total: 3, cells: [r1c1]}\n" * 30_000, id="very many cages"),
        pytest.param(HEAD + "cages:\n" + "- {total: 3, cels: [r1c1]}\n" * 30_000, id="as many slips"),
        pytest.param(
            HEAD + f"cages:\n- {{total: 3, cells: [{'r1c1, ' * 100_000}]}}\n", id="one cell, very often"
        ),
        pytest.param(HEAD + f"cages:\n- {{total: 3, cells: [r{'9' * 900_000}c1]}}\n", id="a very far row"),
        pytest.param(HEAD + f"cages:\n- {{total: {'9' * 900_000}, cells: [r1c1]}}\n", id="a huge total"),
        pytest.param(f"format: {'9' * 900_000}\n", id="a huge format"),
        pytest.param(f"grid: {'9' * 400_000}x{'9' * 400_000}\n", id="a huge grid"),
        pytest.param("".join(f"k{n}: 1\n" for n in range(80_000)), id="very many keys"),
        pytest.param(f"? {'k' * 900_000}\n: 1\n", id="a very long key"),
        pytest.param(f"puzzle: {'k' * 900_000}\n", id="a very long kind"),
        pytest.param("a" * 900_000, id="a very long bare line"),
        pytest.param(HEAD + CAGES + "totals: {" + "a: 3, " * 100_000 + "}\n", id="one total, very often"),
        pytest.param('"' + "\\" * 900_000, id="very many backslashes"),
        pytest.param(" " * 900_000 + "\t", id="very many spaces"),
        pytest.param("{" + '"} ' * 300_000, id="what might be a line of JSON"),
    ],
)
def test_a_file_of_great_length_gives_few_faults(data: str) -> None:
    entries = list(read_text(data.encode(), "box.yaml"))
    assert_sound(entries)
    assert [entry.puzzle for entry in entries] == [None]
    assert sum(len(str(fault)) for entry in entries for fault in entry.faults) < 15_000


def test_no_tag_builds_anything(tmp_path_factory: pytest.TempPathFactory) -> None:
    victim = tmp_path_factory.mktemp("victim") / "built"
    assert codes(f"!!python/object/apply:pathlib.Path.touch [{victim}]\n".encode()) == ["tag"]
    assert not victim.exists()


@pytest.mark.parametrize("text", [b"[" * 50_000, b"[" + b"[], " * 10_000, b"- {a: [b]}\n" * 4_000])
def test_a_file_is_read_in_memory_that_its_length_bounds(text: bytes) -> None:
    tracemalloc.start()
    list(read_text(text, "box.yaml"))
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 120 * len(text)


def test_every_broken_file_survives_every_cut() -> None:
    for texts in BROKEN.values():
        for text in texts:
            data = text.encode() if isinstance(text, str) else text
            if len(data) < 400:
                for end in range(0, len(data), 7):
                    assert_sound(list(read_text(data[:end], "box.yaml")))


def test_a_file_of_another_program_is_one_fault_however_it_goes_on() -> None:
    for head in (b"%PDF-1.7\n", b"PK\x03\x04", b"\xff\xfe", rb"{\rtf1"):
        assert codes(head + b"\n---\nputting to sea\n" * 1000) == ["other-file"]


def test_titles_with_colons_are_mended_no_more_often_than_there_are_credits() -> None:
    assert codes(b"title: a: b\n" * 50_000) == ["not-yaml"]


def test_very_many_marks_without_totals_cost_little_beside_very_many_totals() -> None:
    marks = "\n".join("  " + " ".join(f"m{row}x{column}" for column in range(50)) for row in range(50))
    totals = ", ".join(f"t{number}: 1" for number in range(60_000))
    text = f"puzzle: killer\ngrid: 25x25\ncages: |\n{marks}\ntotals: {{{totals}}}\n"
    assert codes(text.encode())[-1] == "more-faults"


def test_what_was_probably_meant_holds_nothing_a_terminal_would_act_on() -> None:
    text = HEAD + CAGES.replace("h h", "\u202el \u202el") + TOTALS.replace("h: 3", '"\\u202EI": 3')
    (fault, *_) = (fault for entry in read_text(text.encode(), "box.yaml") for fault in entry.faults)
    assert "Did you mean '�I'?" in fault.cure
    assert str(fault).isprintable()
