"""The ledger as a file: whose it is, who may write to it, what is said when it cannot be used."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.evidence.stand_ins import ONE
from verifier.files.documents import Document, Form
from verifier.files.reading import ReadEntry, read_submission
from verifier.files.submissions import Submission
from verifier.files.writing import write_puzzle
from verifier.intake.ledger.entries import enter, look, record
from verifier.intake.ledger.ledger import Ledger, LedgerError, existing_ledger, new_or_existing_ledger
from verifier.intake.ledger.makers import WAITING, makers_of
from verifier.intake.ledger.schema import VERSION
from verifier.intake.ledger.stored import stored_in
from verifier.intake.workers.task import RunSettings, judge_entry

SENT = Submission("box.yaml#3", Document(Form.YAML, 7, b"puzzle: killer\n", 15))
_TEXT = write_puzzle(ONE).encode()
WHOLE = Submission("box.yaml#2", Document(Form.YAML, 1, _TEXT, len(_TEXT)))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "ledger.db"


def begun(path: Path) -> Ledger:
    ledger = new_or_existing_ledger(path)
    ledger.begin_run(["box"], makers_of(RunSettings()))
    return ledger


def code_of(open_it: Callable[[Path], Ledger], path: Path) -> str:
    with pytest.raises(LedgerError) as caught:
        open_it(path)
    return caught.value.code


def test_what_is_recorded_is_there_when_it_is_opened_again(path: Path) -> None:
    with begun(path) as ledger:
        record(ledger, enter(ledger, SENT), judge_entry(ReadEntry("box.yaml#3", ONE)))
        ledger.commit()
    with begun(path) as ledger:
        known = look(ledger, SENT)
    assert known is not None
    assert (known.state, known.line, known.digest) == ("accepted", 7, SENT.digest)


def test_what_was_not_committed_is_not(path: Path) -> None:
    with begun(path) as ledger:
        enter(ledger, SENT)
    with begun(path) as ledger:
        assert look(ledger, SENT) is None


def test_a_submission_that_is_entered_again_has_no_verdict(path: Path) -> None:
    with begun(path) as ledger:
        number = enter(ledger, SENT)
        record(ledger, number, judge_entry(ReadEntry("box.yaml#3", ONE)))
        assert enter(ledger, SENT, number) == number
        row = next(ledger.rows("SELECT state, verdict, tier, content, reasons FROM submissions"))
    assert row == (WAITING, None, None, None, "[]")


def test_a_puzzle_is_kept_as_it_was_sent_and_what_cannot_be_read_is_not(path: Path) -> None:
    with begun(path) as ledger:
        for sent in (WHOLE, SENT):
            record(ledger, enter(ledger, sent), judge_entry(read_submission(sent)))
        states = {kept.address: kept.state for kept in stored_in(ledger, most=2)}
        whole, torn = stored_in(ledger, most=2)
    assert states == {"box.yaml#2": "accepted", "box.yaml#3": "unreadable"}
    assert whole.sent == WHOLE
    assert whole.puzzle() == ONE
    assert (torn.sent, torn.puzzle(), torn.verdict()) == (None, None, None)


def test_it_is_written_so_that_a_power_cut_costs_little(path: Path) -> None:
    with begun(path) as ledger:
        assert next(ledger.rows("PRAGMA journal_mode")) == ("wal",)
        assert next(ledger.rows("PRAGMA synchronous")) == (2,)  # FULL, by the documentation of SQLite


def test_only_one_run_at_a_time_has_it_but_it_can_be_read(path: Path) -> None:
    with begun(path):
        assert code_of(new_or_existing_ledger, path) == "busy"
        with existing_ledger(path) as ledger:
            assert look(ledger, SENT) is None
    begun(path).close()


def test_a_file_of_somebody_else_is_left_as_it_is(path: Path) -> None:
    path.write_bytes(b"Dear diary, " * 500)
    before = path.read_bytes()
    assert code_of(new_or_existing_ledger, path) == "foreign"
    assert code_of(existing_ledger, path) == "foreign"
    assert path.read_bytes() == before


def test_a_database_of_somebody_else_is_left_as_it_is(path: Path) -> None:
    base = sqlite3.connect(path)
    base.execute("CREATE TABLE birds (name TEXT)")
    base.close()
    before = path.read_bytes()
    assert code_of(new_or_existing_ledger, path) == "foreign"
    assert path.read_bytes() == before


def test_a_ledger_of_another_version_is_not_written_to(path: Path) -> None:
    begun(path).close()
    base = sqlite3.connect(path)
    base.execute(f"PRAGMA user_version = {VERSION + 1}")
    base.close()
    assert code_of(new_or_existing_ledger, path) == "newer"
    assert code_of(existing_ledger, path) == "newer"


def test_a_ledger_that_is_not_there_cannot_be_read(path: Path) -> None:
    assert code_of(existing_ledger, path) == "missing"
    assert not path.exists()


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert code_of(new_or_existing_ledger, tmp_path / "no" / "ledger.db") == "closed"


def test_odd_names_are_only_names(tmp_path: Path) -> None:
    path = tmp_path / "led%20ger?mode=memory#1.db"
    begun(path).close()
    assert path.is_file()


def test_a_ledger_keeps_its_mark(path: Path) -> None:
    with begun(path) as ledger:
        mark = ledger.mark
    with begun(path) as ledger:
        assert ledger.mark == mark
