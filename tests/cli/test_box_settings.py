"""One settings file names all that a box needs: what it does, what overrides it, what may be wrong in it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.cli.command import Finished, called
from tests.intake.boxes import MIXED, mixed_box
from verifier.files.records import KEYS as PUZZLE_KEYS
from verifier.intake.plan.slots_reading import PAGE_KEYS
from verifier.intake.settings import BOX_SETTINGS_KEYS
from verifier.verdict.style.reading import STYLE_KEYS

STYLE = "name: By Lamplight\ntiers: [5]\n"
SLOTS = "slots:\n- {name: Monday, tier: 1}\n"
SETTINGS = """\
# What 'gridproof intake' needs, in the folder in which it is called.
post: [., late.zip]
archive: may
style: style.yaml
slots: week.yaml
out: out
ledger: spring.db
"""


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    """Return a folder with settings, a style and slots among the puzzles themselves."""
    mixed_box(tmp_path / "box", copies=1)
    (tmp_path / "may").mkdir()
    (tmp_path / "may" / "old.yaml").write_bytes(MIXED[0])
    (tmp_path / "box" / "late.zip").rename(tmp_path / "late.zip")
    for name, text in (("style.yaml", STYLE), ("week.yaml", SLOTS), ("intake.yaml", SETTINGS)):
        (tmp_path / name).write_text(text)
    return tmp_path


def intake(folder: Path, *more: object) -> Finished:
    return called("intake", *more, folder=folder)


def test_without_options_it_does_the_whole_thing_and_says_where_the_page_is(desk: Path) -> None:
    finished = intake(desk)
    assert finished.code == 2
    assert finished.out.startswith("12 submissions\n  rejected           10\n  unreadable          2\n")
    assert "three files passed over with settings and no puzzle" in finished.err
    assert finished.err.endswith("The page is in out/box.html.\n")
    assert {"box.html", "duplicates.txt", "for-setters", "low-tide.yaml"} <= set(os.listdir(desk / "out"))


def test_the_report_and_what_is_forgotten_need_no_options_either(desk: Path) -> None:
    intake(desk)
    assert intake(desk, "--report").out.startswith("12 submissions\n")
    assert intake(desk, "--forget", "late.zip").err == "Forgotten: two submissions.\n"
    assert intake(desk, "--report").out.startswith("10 submissions\n")


def test_options_override_it(desk: Path) -> None:
    (desk / "mild.yaml").write_text("name: Mild\n")
    finished = intake(desk, "box", "--style", "mild.yaml", "--ledger", "other.db", "--out", "other")
    assert "  accepted            4\n" in finished.out
    assert (desk / "other" / "box.html").is_file()
    assert not (desk / "spring.db").exists()


def test_a_second_run_reads_none_of_its_own_papers(desk: Path) -> None:
    first = intake(desk)
    assert intake(desk).out == first.out


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        ("post: [a\n", "intake.yaml:"),
        ("- post\n", "intake.yaml:1: the text: found a list; allowed: keys such as 'post' and 'ledger'"),
        ("pots: box\n", "intake.yaml:1: the settings of the box: found 'pots'; allowed: "),
        ("post: box\nledger: [a, b]\n", "intake.yaml:2: ledger: found a list; allowed: a name"),
        ('post: "a\\0b"\nledger: l.db\n', "intake.yaml:1: post: found"),
        ("post: nowhere\nledger: l.db\n", "nowhere"),
        ("post: box\nledger: l.db\narchive: style.yaml\n", "style.yaml"),
        ("post: box\n", "--ledger"),
        ("format: 2\npost: box\nledger: l.db\n", "intake.yaml:1: format: found '2'; allowed: a whole"),
        ("a: &a [*a, *a]\n", "intake.yaml:"),
        ("[" * 5000, "intake.yaml:"),
        ("#" * (2 << 20), "intake.yaml: the file: found more than 1,048,576 bytes"),
        ("\x00\x01", "intake.yaml:"),
    ],
    ids=range(13),
)
def test_faults_in_it_are_told_and_nothing_is_done(desk: Path, settings: str, says: str) -> None:
    (desk / "intake.yaml").write_text(settings)
    before = set(os.listdir(desk))
    finished = intake(desk)
    assert finished.code == 2
    assert says in finished.err
    assert "Traceback" not in finished.err
    assert set(os.listdir(desk)) == before


def test_a_folder_or_a_pipe_of_its_name_is_no_settings(tmp_path: Path) -> None:
    (tmp_path / "intake.yaml").mkdir()
    assert "--ledger" in intake(tmp_path).err
    (tmp_path / "intake.yaml").rmdir()
    os.mkfifo(tmp_path / "intake.yaml")
    assert "--ledger" in intake(tmp_path).err


def test_settings_are_known_by_what_stands_in_them_wherever_they_lie(desk: Path) -> None:
    (desk / "intake.yaml").unlink()
    (desk / "box" / "old").mkdir()
    for name, text in (("a", STYLE), ("b", SLOTS), ("c", SETTINGS)):
        (desk / "box" / "old" / f"{name}.yaml").write_text(text)
    finished = intake(desk, "box", "--ledger", "l.db")
    assert "three files passed over with settings and no puzzle" in finished.err
    assert finished.out.startswith("9 submissions\n")


def test_no_key_of_settings_is_one_of_a_puzzle() -> None:
    """A puzzle must never be taken for settings, and lost."""
    keys = {*PAGE_KEYS, *BOX_SETTINGS_KEYS, *STYLE_KEYS} - {"format"}
    assert not keys & set(PUZZLE_KEYS)


def test_the_report_takes_a_style_and_says_where_verdicts_are_of_another(desk: Path) -> None:
    intake(desk)
    (desk / "mild.yaml").write_text("name: Mild\n")
    same, other = intake(desk, "--report"), intake(desk, "--report", "--style", "mild.yaml")
    assert same.err == ""
    assert other.err.startswith("This ledger has ten verdicts made under another house style")
    assert other.out == same.out
