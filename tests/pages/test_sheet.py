"""Print sheets: what is where on paper, and what reference readers find in the files."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.pages.scenes import puzzle_named
from tests.pages.tools import run_tool
from tests.strategies import GRIDS
from verifier.pages.sheets.lettering import lacking, outline, shortened, width
from verifier.pages.sheets.pdf import pdf_of
from verifier.pages.sheets.sheet import A4, LETTER, MOST_ON_A_PAGE, Leaf, Paper, SheetPuzzle, lay_out
from verifier.pages.sheets.svg import svg_of
from verifier.pages.wording import sheet_author, sheet_title
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle

MM_PER_POINT = 25.4 / 72
SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # ISO 216; ANSI/ASME Y14.1


def printed(name: str) -> SheetPuzzle:
    puzzle = puzzle_named(name)
    return SheetPuzzle(puzzle, "tier 4, ridge", puzzle.solution or (1,) * puzzle.grid.cell_count)


def pdf_file(folder: Path, leaves: tuple[Leaf, ...]) -> Path:
    file = folder / "sheet.pdf"
    file.write_bytes(pdf_of(leaves, "A sheet"))
    return file


def edges_of(leaf: Leaf) -> list[tuple[float, float, float, float]]:
    """Where the grids of a page are: left, top, right and bottom of each widest closed line."""
    widest = max(stroke.width for stroke in leaf.strokes)
    frames = [stroke.points for stroke in leaf.strokes if stroke.width == widest and len(stroke.points) == 5]
    return [(points[0][0], points[0][1], points[2][0], points[2][1]) for points in frames]


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_a_pdf_has_the_pages_and_the_size_asked_for(tmp_path: Path, paper: Paper) -> None:
    leaves = lay_out([printed("ridge"), printed("classic"), printed("pocket")], paper=paper, per_page=2)
    told = run_tool("pdfinfo", pdf_file(tmp_path, leaves))
    assert re.search(r"Pages: +3\n", told)
    size = re.search(r"Page size: +([\d.]+) x ([\d.]+) pts", told)
    assert size is not None
    assert [float(points) * MM_PER_POINT for points in size.groups()] == pytest.approx(
        SIZES[paper.name], abs=0.05
    )


def test_a_pdf_has_title_setter_tier_and_every_number_as_text(tmp_path: Path) -> None:
    one = printed("ridge")
    file = pdf_file(tmp_path, lay_out([one]))
    first, second = (run_tool("pdftotext", "-f", page, "-l", page, file, "-") for page in (1, 2))
    assert "Storm cone" in first
    assert "Killer 9x9, set by Jory · tier 4, ridge" in first
    numbers = [int(word) for word in first.split() if word.isdigit()]
    expected = [cage.total for cage in one.puzzle.cages] + [digit for _, digit in one.puzzle.givens]
    assert sorted(numbers) == sorted(expected)
    assert "1/2" in first.replace(" ", "")  # the number of the page
    assert "Solutions" in second
    digits = [int(word) for word in second.split() if word.isdigit()]
    assert sorted(digits) == sorted(one.solution or ())


def test_all_fonts_of_a_pdf_are_embedded(tmp_path: Path) -> None:
    lines = run_tool("pdffonts", pdf_file(tmp_path, lay_out([printed("ridge")]))).splitlines()[2:]
    assert [line.split()[0].split("+")[1] for line in lines] == ["NotoSans-Regular", "NotoSans-Bold"]
    assert {line.split()[-5] for line in lines} == {"yes"}  # the column "emb"


def test_a_pdf_holds_no_picture_only_vectors(tmp_path: Path) -> None:
    told = run_tool("pdfimages", "-list", pdf_file(tmp_path, lay_out([printed("ridge")])))
    assert len(told.splitlines()) == 2  # the head of an empty list


def test_a_grid_measures_on_paper_what_the_sheet_says(tmp_path: Path) -> None:
    file = pdf_file(tmp_path, lay_out([printed("ridge")], solutions=False))
    run_tool("pdftoppm", "-r", 254, "-gray", file, tmp_path / "page")  # ten pixels a mm
    (picture,) = tmp_path.glob("page*.pgm")
    head, data = re.match(rb"P5\s+(\d+) (\d+)\s+255\s", picture.read_bytes()), picture.read_bytes()
    assert head is not None
    wide, high = int(head[1]), int(head[2])
    assert (wide, high) == (2101, 2971)  # rounded up
    row = data[head.end() + 1000 * wide : head.end() + 1001 * wide]  # 100 mm from the top
    dark = [column for column, shade in enumerate(row) if shade < 60]
    assert (dark[-1] - dark[0]) / 10 == pytest.approx(9 * 18 + 3.6 * 18 / 60, abs=0.3)  # cells of 18 mm


def test_the_same_sheet_is_the_same_bytes() -> None:
    leaves = lay_out([printed("ridge")])
    assert pdf_of(leaves, "A sheet") == pdf_of(leaves, "A sheet")


@settings(max_examples=60)
@given(
    st.lists(st.sampled_from(GRIDS), min_size=1, max_size=8),
    st.integers(1, MOST_ON_A_PAGE),
    st.sampled_from([A4, LETTER]),
    st.booleans(),
)
def test_puzzles_stay_on_the_paper_and_off_each_other(
    grids: list[object], per_page: int, paper: Paper, marks: bool
) -> None:
    puzzles = [SheetPuzzle(make_puzzle("classic", grid)) for grid in grids]  # type: ignore[arg-type]
    for leaf in lay_out(puzzles, paper=paper, per_page=per_page, cut_marks=marks):
        points = [point for stroke in leaf.strokes for point in stroke.points]
        points += [(words.place[0] + width(words.text, words.size), words.place[1]) for words in leaf.words]
        assert all(5 < x < paper.width - 5 and 5 < y < paper.height - 5 for x, y in points)
    one = lay_out([SheetPuzzle(make_puzzle("classic", GRIDS[2]))] * per_page, paper=paper, per_page=per_page)
    frames = edges_of(one[0])
    assert len(frames) == per_page
    for (l1, t1, r1, b1), (l2, t2, r2, b2) in combinations(frames, 2):
        assert min(r1, r2) + 10 < max(l1, l2) or min(b1, b2) + 10 < max(t1, t2)


@pytest.mark.parametrize(("count", "per_page", "pages"), [(1, 1, 2), (6, 6, 2), (7, 6, 3), (13, 4, 6)])
def test_there_are_as_many_pages_as_needed(count: int, per_page: int, pages: int) -> None:
    assert len(lay_out([printed("pocket")] * count, per_page=per_page)) == pages


def test_a_puzzle_without_a_proved_solution_has_none_printed() -> None:
    assert len(lay_out([SheetPuzzle(puzzle_named("several"))])) == 1


def test_cut_marks_stay_clear_of_the_puzzle() -> None:
    with_marks, without = (lay_out([printed("ridge")], cut_marks=marks)[0] for marks in (True, False))
    marks = set(with_marks.strokes) - set(without.strokes)
    ((left, top, right, bottom),) = edges_of(without)
    assert len(marks) == 8
    for mark in marks:
        assert all(not (left - 1 < x < right + 1 and top - 13 < y < bottom + 1) for x, y in mark.points)


def test_an_svg_sheet_is_in_mm_and_its_letters_are_outlines() -> None:
    text = svg_of(lay_out([printed("ridge")])[0], "A sheet")
    svg = ElementTree.fromstring(text)
    assert (svg.get("width"), svg.get("height"), svg.get("viewBox")) == ("210mm", "297mm", "0 0 210 297")
    assert {element.tag.split("}")[1] for element in svg.iter()} == {
        "svg",
        "title",
        "metadata",
        "RDF",
        "Description",
        "desc",
        "rect",
        "g",
        "path",
    }
    assert "Storm cone" in (svg.findtext("{http://www.w3.org/2000/svg}desc") or "")


def puzzle_by(title: str | None, setter: str | None) -> Puzzle:
    return make_puzzle("classic", GRIDS[2], credits=Credits("harbour-1", title, setter))


@pytest.mark.parametrize(
    ("credits", "title", "author"),
    [
        ([("Low tide", "Wren")], "Low tide", "Wren"),
        ([("Low tide", "Wren"), ("Ebb", "Wren")], "Low tide and Ebb", "Wren"),
        (
            [("Low tide", "Wren"), ("Ebb", "Tamsin"), ("Low tide", None)],
            "Low tide and Ebb",
            "Wren and Tamsin",
        ),
        ([(None, None)], "harbour-1", ""),
        ([(str(number), None) for number in range(9)], "0, 1, 2, 3 and 5 more", ""),
        ([("two\nlines", "\u202eevil")], "two lines", "\ufffdevil"),
    ],
)
def test_a_sheet_is_named_after_its_puzzles_and_their_setters(
    credits: list[tuple[str | None, str | None]], title: str, author: str, tmp_path: Path
) -> None:
    puzzles = [puzzle_by(*one) for one in credits]
    assert (sheet_title(puzzles), sheet_author(puzzles)) == (title, author)
    (tmp_path / "sheet.pdf").write_bytes(pdf_of(lay_out([SheetPuzzle(puzzles[0])]), title, author))
    told = run_tool("pdfinfo", tmp_path / "sheet.pdf")
    assert f"Title:           {title}\n" in told
    assert re.search(r"Author: *(.*)\n", told + "Author:\n")[1] == author  # type: ignore[index]
    assert "anonymous" not in told
    assert "unspecified" not in told


def test_an_svg_says_who_set_its_puzzles() -> None:
    svg = ElementTree.fromstring(svg_of(lay_out([printed("ridge")])[0], "Storm & cone", "Jory"))
    terms = "{http://purl.org/dc/elements/1.1/}"
    assert svg.findtext(f".//{terms}title") == "Storm & cone"
    assert svg.findtext(f".//{terms}creator") == "Jory"
    assert svg.findtext("{http://www.w3.org/2000/svg}title") == "Storm & cone"


def test_a_title_with_markup_is_printed_as_it_is(tmp_path: Path) -> None:
    one = printed("markup")
    assert "<script>alert" in run_tool("pdftotext", pdf_file(tmp_path, lay_out([one])), "-")
    ElementTree.fromstring(svg_of(lay_out([one])[0], "<b>"))


def test_a_title_that_is_too_long_gives_way_to_an_ellipsis() -> None:
    puzzle = make_puzzle("classic", GRIDS[2], credits=Credits("x", "long " * 60))
    (leaf, *_) = lay_out([SheetPuzzle(puzzle)], per_page=6)
    (title,) = [words.text for words in leaf.words if words.text.startswith("long")]
    assert title.endswith("…")


@given(st.text(max_size=30), st.floats(1, 200))
def test_a_shortened_text_is_never_too_wide(text: str, most: float) -> None:
    short = shortened(text, 10, most)
    assert width(short, 10) <= most or short == "…"
    assert short == text or short.endswith("…")


@given(st.characters(max_codepoint=0x24F, exclude_categories=["Cc", "Cf"]))
def test_the_font_has_the_latin_letters(letter: str) -> None:
    assert lacking(letter) == ""
    assert letter.isspace() or outline(letter, 10, (0, 0)) or letter == "\u00ad"
