"""``gridproof plan`` from the command line: planning, taking, and what is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from scripts.build_corpus import CORPUS
from tests.cli.command import Finished, called, gridproof

SLOTS = """\
name: By Lamplight
slots:
  - {name: Monday, grid: 6x6}
  - {name: Sunday, kind: killer, grid: 9x9, tier: 7}
"""


@pytest.fixture(scope="module")
def box(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a ledger of a few small puzzles."""
    folder = tmp_path_factory.mktemp("desk")
    (folder / "post").mkdir()
    for name in ("two-islands", "bare-bones"):
        (folder / "post" / f"{name}.yaml").write_bytes((CORPUS / "small" / f"{name}.yaml").read_bytes())
    assert called("intake", "post", "--ledger", "l.db", "--jobs", 1, folder=folder).code == 0
    (folder / "week.yaml").write_text(SLOTS)
    return folder


def plan(folder: Path, *words: object) -> Finished:
    return called("plan", "--ledger", "l.db", "--slots", "week.yaml", *words, folder=folder)


def test_a_page_is_planned_told_and_written(box: Path) -> None:
    done = plan(box, "--out", "week")
    assert done.code == 1  # a slot stays empty
    lines = done.out.splitlines()
    assert lines[0] == "Monday"
    assert "  This slot stays empty: it asks for a killer of 9x9, tier 7." in lines
    assert "  There is no killer of 9x9 in stock." in lines
    assert "Ask setters for" in lines
    assert sorted(path.name for path in (box / "week").iterdir()) == ["plan.html", "sheet.pdf"]


def test_a_page_is_taken_given_back_and_printed(box: Path) -> None:
    first = ("--first", "2026-03-30")
    assert "one puzzle scheduled; --release takes that back" in plan(box, *first, "--take").err
    assert "  Scheduled for this day." in plan(box, *first).out.splitlines()
    assert plan(box, *first, "--release").err == "one puzzle back in stock\n"
    plan(box, *first, "--take")
    done = called("plan", "--ledger", "l.db", "--printed-on", "2026-04-05", folder=box)
    assert (done.code, done.err) == (0, "one puzzle scheduled until 2026-04-05 now printed\n")
    assert "  Printed on this day." in plan(box, *first).out.splitlines()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--slots", "week.yaml"], "name the file of the ledger"),
        (["--ledger", "none.db", "--slots", "week.yaml"], "the ledger none.db: there is no such file"),
        (["--ledger", "l.db"], "name the slots of the page with --slots"),
        (
            ["--ledger", "l.db", "--slots", "none.yaml"],
            "none.yaml: the file: found no such file",
        ),
        (["--ledger", "l.db", "--slots", "week.yaml", "--take"], "say for which day"),
        (
            ["--ledger", "l.db", "--slots", "week.yaml", "--first", "soon"],
            "found 'soon'; allowed: a day",
        ),
        (["--ledger", "l.db", "--slots", "week.yaml", "--take", "--release"], "give one of them"),
        (["--ledger", "post/bare-bones.yaml", "--slots", "week.yaml"], "it is not a ledger of gridproof"),
        (["--ledger", "l.db", "--slots", "week.yaml", "--out", "l.db"], "cannot write to"),
    ],
)
def test_what_cannot_be_done_is_told(box: Path, words: list[str], told: str) -> None:
    done = called("plan", *words, folder=box)
    assert done.code == 2
    assert told in done.err
    assert not (box / "none.db").exists()


def test_slots_with_faults_are_told_with_their_places(box: Path) -> None:
    (box / "torn.yaml").write_text("slots:\n- {kind: kiler}\n")
    done = gridproof("plan", "--ledger", "l.db", "--slots", "torn.yaml", folder=box)
    assert done.code == 2
    assert done.err == (
        "gridproof: The slots could not be read, so nothing was planned:\n"
        "torn.yaml:2: slots.1.kind: found 'kiler'; allowed: classic, killer or kakuro. "
        "Did you mean 'killer'?\n"
    )
