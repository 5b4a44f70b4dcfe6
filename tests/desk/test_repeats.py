"""What the puzzle on the desk repeats: of a folder, and of a ledger."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, expect

from tests.cli.command import called
from tests.desk.opening import SMALL, looking_at, opened, standing
from verifier.desk.answers.questions import repeats
from verifier.desk.answers.repeats import archive_at, repeats_in
from verifier.files.reading import read_text
from verifier.puzzle.puzzle import Puzzle


def puzzle_in(text: str) -> Puzzle:
    (entry,) = read_text(text.encode(), "a")
    assert entry.puzzle is not None, entry.faults
    return entry.puzzle


def test_the_folder_is_read_once_and_again_when_it_changes(tmp_path: Path) -> None:
    (tmp_path / "june.yaml").write_text(SMALL)
    first = archive_at(tmp_path, None)
    assert archive_at(tmp_path, first) is first
    (tmp_path / "july.yaml").write_text("puzzle: classic\ngrid: 4x4\n")
    assert len(archive_at(tmp_path, first).printed) == 2


def test_the_own_file_is_no_repeat(tmp_path: Path) -> None:
    own = tmp_path / "june.yaml"
    own.write_text(SMALL)
    (said,) = repeats_in(archive_at(tmp_path, None), tmp_path, own, puzzle_in(SMALL), None)
    assert said.startswith("It repeats none of the one puzzle in")


def test_what_cannot_be_read_is_told(tmp_path: Path) -> None:
    (tmp_path / "june.yaml").write_text("puzzle: kiler\n")
    said = list(repeats_in(archive_at(tmp_path, None), tmp_path, Path("a"), puzzle_in(SMALL), None))
    assert said[-1] == f"Not compared with what could not be read: {tmp_path / 'june.yaml'}."


def test_a_repeat_is_found_from_the_page_and_markup_in_its_name_is_text(
    browser: Browser, tmp_path: Path
) -> None:
    folder = tmp_path / "printed"
    folder.mkdir()
    (folder / "<b>june.yaml").write_text(SMALL)
    with (
        opened(tmp_path / "a.yaml", SMALL, "--printed", str(folder)) as desk,
        looking_at(browser, desk.address) as page,
    ):
        standing(page, "one")
        page.click("#repeats")
        expect(page.locator("#now-says")).to_contain_text("<b>june.yaml: the same puzzle.")
        assert page.query_selector_all("#now-says b") == []


def test_a_ledger_knows_what_was_printed_and_what_was_sent(tmp_path: Path) -> None:
    (tmp_path / "box").mkdir()
    (tmp_path / "box" / "june.yaml").write_text(SMALL)
    ledger = tmp_path / "box.ledger"
    assert called("intake", tmp_path / "box", "--ledger", ledger, "--jobs", "1").code == 0
    (said,) = repeats_in(archive_at(ledger, None), ledger, Path("a"), puzzle_in(SMALL), None)
    assert said.endswith("june.yaml: the same puzzle.")


def test_what_is_no_ledger_is_told(tmp_path: Path) -> None:
    (tmp_path / "no.ledger").write_text("nothing")
    (beat,) = repeats(puzzle_in(SMALL), tmp_path / "no.ledger", Path("a"), None, None)
    assert beat.facts["findings"][0].startswith("Not compared:")


def test_a_place_that_is_not_there_is_told_at_once(tmp_path: Path) -> None:
    finished = called("desk", tmp_path / "a.yaml", "--printed", tmp_path / "nowhere")
    assert finished.code == 2
    assert "'--printed' needs a folder of printed puzzles, or a ledger" in finished.err
