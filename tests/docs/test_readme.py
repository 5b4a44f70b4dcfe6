"""The README tells the truth: its files are those of the corpus, its commands print what it shows."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from grader.grading.tiers import default_tiers
from verifier.files.fields.clues import CLUES
from verifier.files.reading import read_text
from verifier.files.records import KEYS
from verifier.intake.settings import read_box_settings
from verifier.puzzle.grid import USUAL_BOXES

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
SESSIONS = re.findall(r"^```console\n\$ (.+?)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
CLUE_ROWS = re.findall(r"^\| (`- \{.+?\}`.*?) \|", README, re.MULTILINE)
YAML_BLOCKS = re.findall(r"^```yaml\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)

GRIDPROOF = [sys.executable, "-c", "from verifier.cli import main; main()"]
COMMANDS = {"scripts/check": [*GRIDPROOF, "check", "--table"], ".venv/bin/gridproof": GRIDPROOF}


def printed(command: str) -> str:
    """What a command of the README prints: its result, then what it says beside it."""
    program, *words = shlex.split(command)
    run = subprocess.run([*COMMANDS[program], *words], capture_output=True, text=True, cwd=ROOT, check=False)
    return run.stdout + run.stderr


@pytest.mark.parametrize(("command", "shown"), SESSIONS, ids=[command for command, _ in SESSIONS])
def test_a_command_prints_what_the_readme_shows(command: str, shown: str) -> None:
    """A line of three dots stands for any lines."""
    pattern = re.escape(shown).replace(re.escape("...\n"), "(?:.*\n)*?")
    output = printed(command)
    assert re.fullmatch(pattern, output), output


@pytest.mark.parametrize(
    "name",
    [
        "corpus/killers/coopers-yard.yaml",
        "corpus/kakuro/wicket-gate.yaml",
        "corpus/house-style.yaml",
    ],
)
def test_an_example_file_is_the_one_of_the_corpus(name: str) -> None:
    assert (ROOT / name).read_text(encoding="utf-8") in YAML_BLOCKS


def test_the_table_of_tiers_is_that_of_the_grader() -> None:
    rows = re.findall(r"^\| (\d) \| ([a-z ]+) \|", README, re.MULTILINE)
    assert {int(tier): name for tier, name in rows} == default_tiers().names


def test_every_key_of_a_puzzle_file_and_every_size_is_explained() -> None:
    explained = re.findall(r"\*\*([a-z_]+)\*\*", README)
    assert set(KEYS) - set(explained) <= {"format", "boxes"}
    assert all(f"`{size}x{size}`" in README for size in USUAL_BOXES)


def test_the_table_of_clues_shows_each_rule_that_is_written_as_one() -> None:
    shown = {word for row in CLUE_ROWS for word in re.findall(r"`- \{(\w+):", row)}
    assert shown == set(CLUES)


@pytest.mark.parametrize("row", CLUE_ROWS)
def test_a_clue_is_read_as_the_table_shows_it(row: str) -> None:
    for clue, rule in re.findall(r"`(- \{(\w+):.+?\})`", row):
        (entry,) = read_text(f"puzzle: classic\ngrid: 9x9\nclues:\n  {clue}\n".encode(), "shown.yaml")
        assert entry.faults == ()
        assert entry.puzzle is not None
        assert rule in {stated.word for stated in entry.puzzle.rules}


def test_the_settings_of_a_box_are_shown_as_they_are_read(tmp_path: Path) -> None:
    (shown,) = (block for block in YAML_BLOCKS if "\nledger: " in block)
    path = tmp_path / "intake.yaml"
    path.write_text(shown)
    settings, faults = read_box_settings(path)
    assert faults == ()
    assert settings is not None
    assert (settings.post, settings.archive) == (("post/",), ("printed/",))
