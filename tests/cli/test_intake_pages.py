"""``gridproof intake --html``: the list of a box, and the page of each verdict, from the ledger."""

from __future__ import annotations

import html
import io
import re
import shutil
import signal
import sqlite3
import subprocess
import time
import zlib
from collections.abc import Mapping
from contextlib import closing
from pathlib import Path
from urllib.parse import unquote

import pytest

from tests.cli.command import Finished, called, environment, gridproof, words
from tests.intake.boxes import MIXED, SOUND, mixed_box
from verifier.files.reading import read_submission
from verifier.intake.ledger.entries import enter, record
from verifier.intake.ledger.ledger import new_or_existing_ledger
from verifier.intake.ledger.makers import makers_of
from verifier.intake.papers.verdict_files import VerdictFiles
from verifier.intake.papers.verdict_pages import VerdictPages
from verifier.intake.sources.sources import Box, find_sources
from verifier.intake.workers.task import RunSettings, judge_entry
from verifier.pages.styling import mark_of
from verifier.verdict.style.style import PLAIN


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    mixed_box(tmp_path / "box", copies=1)
    return tmp_path


def intake(folder: Path, *more: object) -> Finished:
    return called("intake", *more, "--ledger", "l.db", "--html", "box.html", folder=folder)


def links(folder: Path) -> list[str]:
    """Where the list leads to."""
    found = re.findall(r'<a href="([^"]*)"', (folder / "box.html").read_text(encoding="utf-8"))
    return [unquote(html.unescape(link)) for link in found]


def pages(folder: Path) -> Mapping[str, bytes]:
    """Every page that was written, with what is in it."""
    found = (path for path in folder.rglob("*.html"))
    return {str(path.relative_to(folder)): path.read_bytes() for path in found}


def test_the_list_of_a_box_leads_to_the_page_of_every_verdict(folder: Path) -> None:
    finished = gridproof(
        "intake", "box", "--ledger", "l.db", "--jobs", 1, "--html", "box.html", folder=folder
    )
    assert finished.code == 2
    assert finished.err.endswith("The page is in box.html.\n")
    text = (folder / "box.html").read_text(encoding="utf-8")
    assert "11 puzzles: 4 accepted, 5 rejected, 2 unreadable." in text
    assert text.count("data-place") == 11
    assert len(links(folder)) == len(set(links(folder))) == 9
    assert set(pages(folder)) == {"box.html", *links(folder)}


def test_the_report_writes_the_same_pages_when_the_box_itself_is_gone(folder: Path) -> None:
    intake(folder, "box")
    before = pages(folder)
    shutil.rmtree(folder / "box")
    shutil.rmtree(folder / "box-verdicts")
    finished = gridproof("intake", "--report", "--ledger", "l.db", "--html", "box.html", folder=folder)
    assert finished.code == 0
    assert pages(folder) == before


def test_a_verdict_of_an_earlier_format_is_listed_without_a_page(folder: Path) -> None:
    intake(folder, "box")
    with closing(sqlite3.connect(folder / "l.db")) as ledger, ledger:
        for address, packed in ledger.execute("SELECT address, verdict FROM submissions").fetchall():
            if packed is not None:
                earlier = zlib.compress(zlib.decompress(packed).replace(b"format: 2", b"format: 1", 1))
                ledger.execute("UPDATE submissions SET verdict = ? WHERE address = ?", (earlier, address))
    assert intake(folder, "--report").code == 0
    assert links(folder) == []
    text = html.unescape((folder / "box.html").read_text(encoding="utf-8"))
    assert text.count("judged by an earlier version of gridproof") == 9


def test_a_run_that_was_killed_and_goes_on_ends_with_the_pages_of_one_that_was_not(tmp_path: Path) -> None:
    (tmp_path / "box").mkdir()
    for number in range(60):
        data = MIXED[number % len(MIXED)].replace(b"\nid: ", b"\nid: %d-" % number)
        (tmp_path / "box" / f"k{number}.yaml").write_bytes(data)
    call = ["intake", tmp_path / "box", "--ledger", "l.db", "--jobs", 1, "--html", "box.html"]
    whole, cut = tmp_path / "whole", tmp_path / "cut"
    for place in (whole, cut):
        place.mkdir()
    gridproof(*call, folder=whole)
    process = subprocess.Popen(words(*call), cwd=cut, env=environment(), stderr=subprocess.DEVNULL)
    while process.poll() is None and not decided(cut / "l.db"):
        time.sleep(0.05)
    process.send_signal(signal.SIGKILL)
    process.wait()
    assert "box.html" not in pages(cut)
    gridproof(*call, folder=cut)
    assert len(pages(cut)) == 61
    assert pages(cut) == pages(whole)


def decided(ledger: Path) -> int:
    """How many verdicts are in a ledger at which a run is writing."""
    if not ledger.is_file():
        return 0
    base = sqlite3.connect(f"file:{ledger}?mode=ro", uri=True)
    try:
        (number,) = base.execute("SELECT count(*) FROM submissions WHERE verdict IS NOT NULL").fetchone()
    finally:
        base.close()
    return int(number)


def test_a_list_of_a_part_counts_the_whole_and_says_where_the_rest_is(folder: Path) -> None:
    intake(folder, "box", "--pages", 3)
    text = (folder / "box.html").read_text(encoding="utf-8")
    assert text.count("data-place") == 3
    assert len(pages(folder)) == 1 + len(links(folder)) <= 4
    assert "Listed are the first 3 of 11, in the order of their addresses." in text
    assert "11 puzzles: 4 accepted, 5 rejected, 2 unreadable." in text


def test_the_list_can_be_of_one_verdict_alone(folder: Path) -> None:
    intake(folder, "box")
    intake(folder, "--report", "--list", "accepted")
    assert re.findall(r'data-state="(\w+)"', (folder / "box.html").read_text()) == ["accepted"] * 4
    assert set(pages(folder)) == {"box.html", *links(folder)}  # those of the others are gone


def test_a_page_that_stands_is_left_alone_and_a_damaged_one_is_made_again(folder: Path) -> None:
    intake(folder, "box")
    before = pages(folder)
    one, other = (folder / link for link in links(folder)[:2])
    written = one.stat().st_mtime_ns
    other.write_bytes(other.read_bytes()[:-20])
    intake(folder, "box")
    assert one.stat().st_mtime_ns == written
    assert pages(folder) == before


def test_pages_that_stand_are_made_again_when_a_template_changed(tmp_path: Path) -> None:
    (tmp_path / "box.yaml").write_bytes(MIXED[0])
    with new_or_existing_ledger(tmp_path / "l.db") as ledger:
        ledger.begin_run(["box.yaml"], makers_of(RunSettings()))
        for sent in Box(find_sources([str(tmp_path / "box.yaml")]), io.BytesIO()):
            number = enter(ledger, sent)
            record(ledger, number, judge_entry(read_submission(sent)))
            VerdictFiles(None, ledger).settle(number)
        pages = VerdictPages(tmp_path / "box.html", PLAIN)
        pages.write_ledger(ledger, 10)
        (page,) = (tmp_path / "box-verdicts").iterdir()
        before = page.read_text()
        with pytest.MonkeyPatch.context() as patched:
            patched.setattr("verifier.intake.papers.verdict_pages.templates_mark", lambda: "others")
            pages.write_ledger(ledger, 10)
    assert mark_of(page.read_text()) not in (None, mark_of(before))


def test_a_puzzle_that_is_put_right_gets_a_new_page(folder: Path) -> None:
    intake(folder, "box")
    (folder / "box" / "k1-1.yaml").write_bytes(MIXED[0].replace(b"low-tide", b"ebb"))
    intake(folder, "box")
    assert "Accepted" in (folder / "box-verdicts" / "ebb.html").read_text()


def test_files_of_somebody_else_in_the_folder_of_the_pages_stay(folder: Path) -> None:
    (folder / "box-verdicts").mkdir()
    mine = folder / "box-verdicts" / "mine.html"
    mine.write_text("<html>mine</html>")
    intake(folder, "box")
    assert mine.read_text() == "<html>mine</html>"


def test_the_pages_speak_of_the_tiers_of_the_house_style(folder: Path) -> None:
    (folder / "style.yaml").write_text("name: By Lamplight\ntier_names: {1: a match}\n")
    intake(folder, "box", "--style", "style.yaml")
    before = pages(folder)
    assert b"1, a match" in before["box.html"]
    intake(folder, "--report", "--style", "style.yaml")
    assert pages(folder) == before


def test_the_page_must_be_a_page_so_that_no_puzzle_is_overwritten(folder: Path) -> None:
    stream = folder / "box" / "stream.yaml"
    before = stream.read_bytes()
    finished = called("intake", "box", "--ledger", "l.db", "--html", "box/stream.yaml", folder=folder)
    assert finished.code == 2
    assert finished.err == (
        "gridproof: --html: found 'box/stream.yaml'; allowed: a file that ends in .html or .htm.\n"
    )
    assert stream.read_bytes() == before


def test_a_page_that_cannot_be_written_costs_no_verdict(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_bytes(SOUND)
    call = ["intake", "a.yaml", "--ledger", "l.db", "--html", "a.yaml/page.html"]
    finished = called(*call, folder=tmp_path)
    assert finished.code == 2
    assert "gridproof: cannot write to a.yaml/page" in finished.err
    assert finished.err.endswith("Free the place, or give another one with --html.\n")
    assert called("intake", "--report", "--ledger", "l.db", folder=tmp_path).out.startswith("1 submission\n")
