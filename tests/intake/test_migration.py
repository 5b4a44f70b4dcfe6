"""A ledger of the version before: all that was in it is there, and a copy of it is kept."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tests.intake.boxes import MIXED, SOUND, UNREADABLE
from tests.intake.test_run import Desk
from verifier.intake.ledger.judging_reason import JudgingReason
from verifier.intake.ledger.ledger import LedgerError, existing_ledger, new_or_existing_ledger

DUMP = Path(__file__).parent / "ledger-3.sql"
"""Made by the program of then over the box below, with a folder of one printed puzzle."""

BOX = dict(zip(("low-tide", "ebb", "flood", "again"), MIXED, strict=True))
BOX |= {"nameless": SOUND, "broken": UNREADABLE}


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    """Return a desk with a ledger of version 3 and the box over which it was made."""
    monkeypatch.chdir(tmp_path)
    desk = Desk(Path())
    desk.box.mkdir()
    for name, data in BOX.items():
        (desk.box / f"{name}.yaml").write_bytes(data)
    with closing(sqlite3.connect(desk.ledger)) as base:
        base.executescript(DUMP.read_text())
    return desk


def records(desk: Desk) -> dict[str, Any]:
    found = map(json.loads, desk.export().splitlines())
    return {one["address"]: one for one in found if one["state"] != "printed"}


def version_of(path: Path) -> int:
    with closing(sqlite3.connect(path)) as base:
        ((version,),) = base.execute("PRAGMA user_version")
    return int(version)


def test_reading_it_brings_it_up_and_nothing_is_lost(desk: Desk) -> None:
    found = records(desk)
    states = {Path(address).stem: one["state"] for address, one in found.items()}
    assert states == {
        "low-tide": "accepted",
        "ebb": "rejected",
        "flood": "rejected",
        "again": "accepted",
        "nameless": "accepted",
        "broken": "unreadable",
    }
    assert found["box/low-tide.yaml"]["repeats"] == ["may/old.yaml", "box/again.yaml"]
    assert found["box/nameless.yaml"]["file"] == "nameless.yaml.yaml"
    assert (version_of(desk.ledger), version_of(Path("ledger.db.version-3"))) == (4, 3)


def test_the_copy_is_the_ledger_as_it_was(desk: Desk) -> None:
    with closing(sqlite3.connect(desk.ledger)) as base:
        before = list(base.iterdump())
    existing_ledger(desk.ledger).close()
    with closing(sqlite3.connect("ledger.db.version-3")) as base:
        assert list(base.iterdump()) == before


def test_the_same_box_is_known_again_and_so_is_one_that_was_moved(desk: Desk) -> None:
    first = desk.run()
    assert set(first.judged) <= {JudgingReason.MADE_ANEW}  # where this program is a newer one
    assert len(records(desk)) == len(BOX)
    desk.box.rename("post")
    desk.box = Path("post")
    assert set(desk.run().judged) <= {JudgingReason.MOVED}  # what cannot be read names its place
    assert set(records(desk)) == {f"post/{name}.yaml" for name in BOX}


def test_a_run_that_breaks_off_in_it_leaves_it_as_it_was(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patched:
        patched.setattr("verifier.intake.ledger.migration._MOVE", "INSERT INTO nowhere VALUES (1);")
        with pytest.raises(LedgerError):
            existing_ledger(desk.ledger)
    assert version_of(desk.ledger) == 3
    assert len(records(desk)) == len(BOX)


def test_it_is_not_touched_while_another_run_has_it(desk: Desk) -> None:
    with closing(sqlite3.connect("ledger.db.lock")) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(LedgerError, match="another run is using it"):
            new_or_existing_ledger(desk.ledger)
    assert version_of(desk.ledger) == 3


@pytest.mark.parametrize(
    ("version", "says"),
    [(5, "newer version of gridproof (5, not 4). Nothing in it was touched."), (2, "Begin a new ledger.")],
)
def test_a_version_that_is_not_known_is_refused_in_a_sentence(desk: Desk, version: int, says: str) -> None:
    with closing(sqlite3.connect(desk.ledger)) as base:
        base.execute(f"PRAGMA user_version = {version}")
    with pytest.raises(LedgerError) as caught:
        existing_ledger(desk.ledger)
    assert says in str(caught.value)
