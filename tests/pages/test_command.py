"""``walk --html``, ``check --html`` and ``sheet``: what they write, and what they say."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from tests.cli.command import called, gridproof
from tests.pages.scenes import PUZZLES
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.judge import Settings, identity_of, lost
from verifier.verdict.verdict import Verdict


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with the puzzles of these tests."""
    return Path(shutil.copytree(PUZZLES, tmp_path / "puzzles"))


def written(folder: Path) -> list[str]:
    """What is in a folder besides the puzzles."""
    files = (path for path in folder.rglob("*") if path.is_file() and path.suffix != ".yaml")
    return sorted(str(path.relative_to(folder)) for path in files)


def test_walk_writes_a_page_and_says_where(folder: Path) -> None:
    finished = gridproof("walk", "pocket.yaml", "--html", "walk.html", folder=folder)
    assert (finished.code, finished.out, finished.err) == (0, "", "The page is in walk.html.\n")
    assert "Thimble" in (folder / "walk.html").read_text(encoding="utf-8")


def test_walk_writes_a_page_beside_yaml(folder: Path) -> None:
    finished = called("walk", "pocket.yaml", "--yaml", "--html", "walk.html", folder=folder)
    assert finished.out.startswith("--- # pocket.yaml\n")
    assert written(folder) == ["walk.html"]


def test_walk_numbers_the_pages_of_several_puzzles(folder: Path) -> None:
    both = (folder / "pocket.yaml").read_text() + "---\n" + (folder / "several.yaml").read_text()
    (folder / "both.yaml").write_text(both)
    assert called("walk", "both.yaml", "--html", "walk.html", folder=folder).code == 1
    assert written(folder) == ["walk-2.html", "walk.html"]
    assert "more than one solution" in (folder / "walk-2.html").read_text(encoding="utf-8")


def test_walk_tells_the_story_of_one_cell(folder: Path) -> None:
    called("walk", "pocket.yaml", "--from", "r2c2", "--html", "cell.html", folder=folder)
    assert "How r2c2 comes about" in (folder / "cell.html").read_text(encoding="utf-8")


def test_a_page_says_cells_in_full_on_demand(folder: Path) -> None:
    called("walk", "pocket.yaml", "--spoken", "--html", "spoken.html", folder=folder)
    page = (folder / "spoken.html").read_text(encoding="utf-8")
    assert not re.search(r"\br[0-9]c[0-9]\b", page)
    assert re.search(r"row [0-9], column [0-9]", page)


def test_walk_writes_a_short_page(folder: Path) -> None:
    assert called("walk", "ridge.yaml", "--short", "--html", "short.html", folder=folder).code == 0
    page = (folder / "short.html").read_text(encoding="utf-8")
    assert "<h3>In short</h3>" in page
    assert 3 <= page.count('<span class="note">The idea') <= 8


def test_check_writes_the_page_of_one_puzzle(folder: Path) -> None:
    finished = called("check", "pocket.yaml", "--html", "verdict.html", folder=folder)
    assert finished.code == 0
    assert finished.out == ""  # the page holds it
    page = (folder / "verdict.html").read_text(encoding="utf-8")
    assert "exactly one solution: by a solver, and by working it through as a person does." in page
    assert not re.search("cp-sat|replay|clingo", page)
    assert written(folder) == ["verdict.html"]


def test_check_shows_repairs_of_one_broken_puzzle(folder: Path) -> None:
    assert called("check", "several.yaml", "--html", "verdict.html", folder=folder).code == 1
    assert "<figcaption>Before</figcaption>" in (folder / "verdict.html").read_text(encoding="utf-8")


def test_check_writes_a_list_that_leads_to_the_page_of_each_puzzle(folder: Path) -> None:
    (folder / "torn.yaml").write_text("puzzle: killer\ngrid: 9y9\n")
    names = ["pocket.yaml", "several.yaml", "markup.yaml", "torn.yaml"]
    assert called("check", "--table", *names, "--html", "box.html", folder=folder).code == 2
    pages = ["pocket-01.html", "several.html"]
    assert {f"box-verdicts/{page}" for page in pages} < set(written(folder))
    box = (folder / "box.html").read_text(encoding="utf-8")
    assert all(f'href="box-verdicts/{page}"' in box for page in pages)
    assert "torn.yaml" in box


@pytest.mark.parametrize("command", [["walk", "pocket.yaml"], ["check", "--table", "pocket.yaml"]])
def test_a_page_that_cannot_be_written_is_said_plainly(folder: Path, command: list[str]) -> None:
    finished = called(*command, "--html", "nowhere/page.html", folder=folder)
    assert finished.code == 2
    assert finished.err.endswith(
        "gridproof: cannot write to nowhere/page.html: No such file or directory. Free the place, or give "
        "another one with --html.\n"
    )


def test_sheet_prints_accepted_puzzles_alone(folder: Path) -> None:
    finished = gridproof("sheet", "pocket.yaml", "several.yaml", "--out", "sheet.pdf", folder=folder)
    assert finished.code == 1
    assert finished.out == ""
    assert finished.err.splitlines() == [
        "several.yaml is rejected. It is not printed; 'gridproof check' says why.",
        "sheet.pdf: two pages.",
    ]
    assert (folder / "sheet.pdf").read_bytes().startswith(b"%PDF")


def test_sheet_prints_broken_puzzles_when_asked_to(folder: Path) -> None:
    finished = called("sheet", "several.yaml", "--broken", "--out", "sheet.pdf", folder=folder)
    assert finished.code == 1
    assert finished.err.splitlines() == [
        "several.yaml is rejected. It is printed all the same, as asked; 'gridproof check' says why.",
        "sheet.pdf: one page.",
    ]


def test_sheet_writes_one_svg_file_a_page(folder: Path) -> None:
    assert called("sheet", "pocket.yaml", "--out", "sheet.svg", folder=folder).code == 0
    assert written(folder) == ["sheet-2.svg", "sheet.svg"]
    called("sheet", "pocket.yaml", "--no-solutions", "--out", "alone.svg", folder=folder)
    assert "alone.svg" in written(folder)
    assert "alone-2.svg" not in written(folder)


def test_sheet_says_which_letters_its_font_lacks(folder: Path) -> None:
    text = (folder / "pocket.yaml").read_text().replace("Thimble", "潮汐")
    (folder / "tide.yaml").write_text(text, encoding="utf-8")
    finished = called("sheet", "tide.yaml", "--out", "sheet.pdf", folder=folder)
    assert "pocket-01: the font has no 潮 or 汐: boxes stand in their place." in finished.err


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["--out", "sheet.png"], "--out: found 'sheet.png'; allowed: a file that ends in .pdf or .svg."),
        (["--out", "s.pdf", "--paper", "legal"], "--paper: found 'legal'; allowed: a4 or letter."),
        (["--out", "s.pdf", "--per-page", "7"], "found '7'; allowed: a whole number from 1 to 6."),
        (["--out", "no/s.pdf"], "cannot write to no/s.pdf: No such file or directory."),
    ],
)
def test_sheet_says_what_is_wrong_with_a_call(folder: Path, arguments: list[str], says: str) -> None:
    finished = called("sheet", "pocket.yaml", *arguments, folder=folder)
    assert finished.code == 2
    assert says in finished.err
    assert written(folder) == []


def test_sheet_names_its_files_after_the_puzzles(folder: Path) -> None:
    for ending in ("pdf", "svg"):
        finished = called("sheet", "pocket.yaml", "ridge.yaml", "--out", f"x.{ending}", folder=folder)
        assert finished.code == 0, finished.err
    assert "<title>Thimble and Storm cone, page 2 of 3</title>" in (folder / "x-2.svg").read_text()
    assert b"anonymous" not in (folder / "x.pdf").read_bytes()


def test_sheet_gives_a_puzzle_as_much_time_as_asked(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    heard: list[float] = []

    def lost_in_time(puzzle: Puzzle, _style: object, settings: Settings) -> Verdict:
        heard.append(settings.seconds)
        return lost(identity_of(puzzle))

    monkeypatch.setattr("verifier.verdict.judge.judge", lost_in_time)
    finished = called("sheet", "pocket.yaml", "--out", "x.pdf", "--seconds", 7, folder=folder)
    assert (finished.code, heard) == (3, [7])
    assert "pocket.yaml is undecided. It is not printed; 'gridproof check' says why." in finished.err
