"""Whatever stands in a text from a file, nothing that is shown acts on a terminal or deceives an eye."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest
import yaml

from tests.cli.command import PUZZLES, called
from tests.pages.tools import run_tool

EVIL = {
    "escape": "\x1b[31m",
    "bell": "\x07",
    "delete": "\x7f",
    "C1 control": "\x9b31m",
    "carriage return": "\r",
    "right to left override": "\u202e",
    "isolate": "\u2066",
    "Arabic letter mark": "\u061c",
    "no width": "\u200b",
    "byte order mark": "\ufeff",
    "line separator": "\u2028",
    "tag": "\U000e0041",
}
TEXT = "".join(EVIL.values()) + "tide"
QUOTED = '"' + "".join(f"\\U{ord(letter):08x}" for letter in TEXT) + '"'

SOUND = (PUZZLES / "sound.yaml").read_text().split("setter: ")[1].partition("\n")[2]
SEVERAL = SOUND.replace("1 2 3 .", ". 2 3 .").replace(". 3 . .", ". . . .")

NAME = "p\x1b[31m\u202e"
"""Of files: what a file system takes of it."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a box in which every text is evil."""
    box = tmp_path / "box"
    box.mkdir()
    for name, puzzle in (("sound", SOUND), ("several", SEVERAL), ("again", SOUND)):
        text = f"puzzle: classic\ntitle: {QUOTED}\nsetter: {QUOTED}\nid: {QUOTED}\n{puzzle}"
        (box / f"{name}{NAME}.yaml").write_text(text)
    (box / f"unreadable{NAME}.yaml").write_text(f"puzzle: {QUOTED}\n{QUOTED}: 1\n")
    with zipfile.ZipFile(box / f"z{NAME}.zip", "w") as archive:
        archive.writestr(f"member{NAME}.yaml", text)
        archive.writestr(f"unread{NAME}.yaml", "puzle: 1\n")
    return tmp_path


def assert_harmless(text: str, *, where: str = "") -> None:
    unseen = {character for character in text if not character.isprintable() and character != "\n"}
    assert unseen == set(), where


COMMANDS = [
    "check box",
    "check box --table",
    "check box --printed box --table",
    "check box --table --html {evil}.html",
    "check {sound} --html page.html",
    "check {several} --html page.html",
    "check box --table --style {sound}",
    "check {evil} {sound}#9",
    "walk {sound}",
    "walk {several}",
    "walk {sound} --markdown",
    "walk {sound} --yaml",
    "walk {sound} --html page.html",
    "walk {sound} --from {evil}",
    "next {sound} --so-far {sound}",
    "next {sound} --so-far {unreadable}",
    "next box --so-far {sound}",
    "mend {several}",
    "mend {several} --yaml",
    "mend {unreadable}",
    "tune {sound} --tier 1 --changes 1 --html page.html --out ways --jobs 1",
    "tune {sound} --tier 1 --changes 1 --yaml --jobs 1",
    "tune {sound} --without {evil}",
    "tune {sound} --symmetry {evil}",
    "compare {sound} {several}",
    "compare {sound} {several} --yaml --html page.html",
    "sheet box --out page.svg",
    "sheet box --out page.pdf --broken",
    "sheet box --out {evil}.txt",
    "sheet box --out page.pdf --paper {evil}",
    "sums {evil} 3",
    "sums 10 3 --with {evil}",
    "techniques {evil}",
    "rules {evil}",
    "{evil}",
    "check --{evil}",
]


@pytest.mark.parametrize("command", COMMANDS)
def test_no_command_shows_what_could_not_be_seen(command: str, folder: Path) -> None:
    before = set(folder.rglob("*"))
    finished = called(*filled_in(command), folder=folder)
    assert finished.code in {0, 1, 2, 3}
    assert finished.out + finished.err
    assert_harmless(finished.out)
    assert_harmless(finished.err)
    for path in set(folder.rglob("*")) - before:
        if path.is_file():
            assert_harmless(as_text(path), where=path.name)


def filled_in(command: str) -> list[str]:
    names = {name: f"box/{name}{NAME}.yaml" for name in ("sound", "several", "unreadable")}
    return [word.format(**names, evil=NAME) for word in command.split(" ")]


def as_text(path: Path) -> str:
    if path.suffix == ".pdf":
        return (run_tool("pdftotext", path, "-") + run_tool("pdfinfo", path)).replace("\f", "")
    text = path.read_text(encoding="utf-8")
    return text.removeprefix("\ufeff") if path.suffix == ".csv" else text  # a mark for spreadsheets


def test_no_paper_of_the_intake_shows_what_could_not_be_seen(folder: Path) -> None:
    run = ["intake", "box", "--ledger", "l.db", "--out", "v", "--printed", "box", "--html", "page.html"]
    report = ["intake", "--report", "--ledger", "l.db"]
    lists = [["--list", state] for state in ("accepted", "rejected", "unreadable")]
    exports = [["--csv", "t.csv", "--jsonl", "t.jsonl"], ["--csv", "-"], ["--jsonl", "-"]]
    for words in (run, *([*report, *more] for more in (*lists, *exports, []))):
        finished = called(*words, folder=folder)
        assert finished.code in {0, 1, 2}
        assert_harmless(finished.out, where=f"{words}")
        assert_harmless(finished.err, where=f"{words}")
    papers = [path for path in folder.rglob("*") if path.suffix in {".txt", ".csv", ".jsonl", ".html"}]
    assert len(papers) >= 8
    for path in [*papers, *(folder / "v").rglob("*.yaml")]:
        assert_harmless(as_text(path), where=path.name)


@pytest.mark.parametrize("letter", EVIL.values(), ids=EVIL)
def test_each_of_them_is_seen_in_a_table(letter: str, tmp_path: Path) -> None:
    quoted = "".join(f"\\U{ord(one):08x}" for one in letter)
    (tmp_path / "p.yaml").write_text(f'puzzle: classic\nid: "low{quoted}tide"\n{SOUND}')
    shown = called("check", "p.yaml", "--table", folder=tmp_path).out
    assert "low\ufffd" in shown
    assert_harmless(shown)


@pytest.mark.parametrize("command", ["check {sound}", "walk {sound} --yaml"])
def test_yaml_keeps_all_of_a_text(command: str, folder: Path) -> None:
    (record,) = yaml.safe_load_all(called(*filled_in(command), folder=folder).out)
    assert record["puzzle"]["title"] == TEXT
