"""What gridproof wrote is known again wherever it lies, and nothing else is taken for it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.command import called
from tests.intake.boxes import MIXED, SOUND, addresses, found_in, mixed_box, zip_of
from verifier.intake.sources.sources import Box, find_sources


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    """Return a folder with three puzzles, and with everything that gridproof writes."""
    post = mixed_box(tmp_path / "post", copies=1)
    here = tmp_path / "here"
    here.mkdir()
    for number, data in enumerate(MIXED[:3]):
        (here / f"{number}.yaml").write_bytes(data)
    called("intake", post, "--out", "verdicts", "--ledger", "l.db", folder=here)
    report = ("intake", "--report", "--ledger", "l.db")
    called(*report, "--csv", "table.csv", "--jsonl", "lines.jsonl", "--html", "list.html", folder=here)
    called("check", post, "--out", "checked", folder=here)
    (here / "stream.yaml").write_text(called("check", post, folder=here).out)
    return here


def test_everything_that_gridproof_writes_is_passed_over(desk: Path) -> None:
    written = [path for path in desk.rglob("*") if path.suffix in (".yaml", ".txt", ".csv", ".jsonl")]
    assert {"duplicates.txt", "unreadable.txt", "Wren-Alder.txt"} <= {path.name for path in written}
    box = Box(find_sources([str(desk)]), (desk / "l.db").open("rb"))
    assert [one.address for one in box] == [f"{desk}/{number}.yaml" for number in range(3)]
    assert box.own == len(written) - 3


def test_it_is_passed_over_in_an_archive_too(desk: Path) -> None:
    paths = sorted(path for path in desk.rglob("*.*") if path.is_file())
    files = {str(path.relative_to(desk)): path.read_bytes() for path in paths}
    (desk.parent / "week.zip").write_bytes(zip_of(files))
    assert addresses(desk.parent / "week.zip") == [f"week.zip!{number}.yaml" for number in range(3)]


def test_commands_judge_the_puzzles_alone_and_say_so(desk: Path) -> None:
    for _ in range(2):
        done = called("check", ".", "--out", "again", folder=desk)
        assert done.code == 1
        assert len(list((desk / "again").iterdir())) == 3
    assert "files passed over that gridproof itself wrote" in done.err
    done = called("intake", ".", "--ledger", "new.db", folder=desk)
    assert (done.code, done.out.splitlines()[0]) == (1, "3 submissions")
    assert "files passed over that gridproof itself wrote" in done.err


@pytest.mark.parametrize("name", ["verdicts/ebb.yaml", "verdicts/duplicates.txt", "list.html", "table.csv"])
def test_a_file_of_ours_that_is_named_is_told(desk: Path, name: str) -> None:
    done = called("check", name, folder=desk)
    assert done.code == 2
    assert f"{name}: the file: found a verdict, letter, list, table or page that gridproof wrote" in done.err


def test_a_puzzle_between_verdicts_is_read(desk: Path) -> None:
    stream = desk / "stream.yaml"
    stream.write_bytes(stream.read_bytes() + b"---\n" + SOUND)
    assert addresses(stream) == ["stream.yaml"]


TITLE = '"address":"state":"reasons":"digest": These puzzles cannot be printed as they are.'


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.yaml", "verdict: accepted\n"),
        ("a.yaml", "format: 1\nverdict: rejected by Wren\n"),
        ("a.jsonl", json.dumps({"puzzle": "classic", "grid": "4x4", "title": TITLE})),
        ("a.yaml", f"# {TITLE}\npuzzle: classic\ngrid: 4x4\n"),
        ("a.csv", "address,state,reasons,digest,puzzle\n,,,,1...............\n"),
        ("a.csv", "address,state\n"),
        ("a.html", "<!doctype html>\n<title>gridproof</title>\n"),
    ],
)
def test_what_somebody_else_wrote_is_read(tmp_path: Path, name: str, text: str) -> None:
    (tmp_path / name).write_text(text)
    assert len(found_in(tmp_path / name)) == 1
