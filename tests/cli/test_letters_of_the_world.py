"""Names outside ASCII, where the language settings of a machine know ASCII alone: nothing ends for that."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from tests.cli.command import PUZZLES, Finished, environment, gridproof, words

ASCII_ALONE = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}

BOX = """\
puzzle: classic
id: {name}-1
title: Ebbe und Flut für {name}
setter: {name}
grid: 4x4
"""
SETTERS = ("Zoë Ångström", "Ивета", "汐里", "مها")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a box: of each setter a sound puzzle, and one with several solutions."""
    (tmp_path / "box").mkdir()
    givens = (PUZZLES / "sound.yaml").read_text().partition("grid: 4x4\n")[2]
    broken = givens.replace("1 2 3 .", ". 2 3 .").replace(". 3 . .", ". . . .")
    for number, name in enumerate(SETTERS):
        text = f"{BOX.format(name=name)}{givens}---\n{BOX.format(name=name).replace('-1', '-2')}{broken}"
        (tmp_path / "box" / f"{number}.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "box" / f"{SETTERS[0]}.yaml").write_text(f"{BOX.format(name='Wren')}{givens}")
    return tmp_path


def in_ascii(*arguments: object, folder: Path) -> Finished:
    """Run the command where Python takes file names and the terminal for ASCII."""
    env = {**environment(), **ASCII_ALONE}
    done = subprocess.run(words(*arguments), capture_output=True, cwd=folder, env=env, timeout=600)
    return Finished(done.returncode, done.stdout.decode(), done.stderr.decode())


def files_below(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder, but for ledgers and what names them: the mark and the report."""
    paths = (path for path in folder.rglob("[!.]*") if path.is_file() and ".db" not in path.name)
    paths = (path for path in paths if path.name != "report.html")
    return {str(path.relative_to(folder)): path.read_bytes() for path in paths}


def test_a_box_leaves_the_same_verdicts_and_letters(folder: Path) -> None:
    numbers = [f"box/{number}.yaml" for number in range(len(SETTERS))]
    outputs = []
    for run, name in ((gridproof, "utf8"), (in_ascii, "ascii")):
        finished = run("intake", *numbers, "--ledger", f"{name}.db", "--out", name, folder=folder)
        assert finished.code == 1, finished.err
        assert finished.out == "" or "8 submissions" in finished.out
        outputs.append(files_below(folder / name))
    assert outputs[0] == outputs[1]
    assert f"{SETTERS[1]}.txt" in {Path(name).name for name in outputs[0] if name.startswith("for-setters/")}


def test_a_later_run_in_other_settings_finds_its_files_again(folder: Path) -> None:
    for run in (gridproof, in_ascii, gridproof):
        finished = run("intake", "box", "--ledger", "l.db", "--out", "v", "--html", "b.html", folder=folder)
        assert finished.code == 1, finished.err
        left = files_below(folder / "v") | files_below(folder / "b-verdicts")
        assert len([name for name in left if name.endswith((".yaml", ".html"))]) == 18


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        ("check box --out v", 1),
        ("check box --table --html b.html", 1),
        (f"check box/{SETTERS[0].replace(' ', '_')}.yaml --out {SETTERS[1]} --html {SETTERS[1]}.html", 2),
        ("check box/1.yaml#1", 0),
        ("walk box/1.yaml#1", 0),
        ("mend box/2.yaml#2 --yaml", 1),
        (f"sheet box --out {SETTERS[2]}.pdf", 1),
        (f"sheet box --out {SETTERS[2]}.svg", 1),
        (f"intake box --ledger {SETTERS[3]}.db --out {SETTERS[3]} --html {SETTERS[1]}.html", 1),
    ],
)
def test_no_name_ends_a_command(arguments: str, code: int, folder: Path) -> None:
    finished = in_ascii(*arguments.split(" "), folder=folder)
    assert finished.code == code, finished.err
    assert "mistake of its own" not in finished.err


def test_what_goes_into_a_file_is_utf8(folder: Path) -> None:
    assert SETTERS[1] in in_ascii("walk", "box/1.yaml#1", folder=folder).out
