"""A run: what it judges, what it leaves alone, what it writes; and the ledger it keeps."""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from tests.intake.boxes import MIXED, SOUND, UNREADABLE, mixed_box, tar_of
from tests.intake.inline import InlinePool, lost_once
from verifier.files.limits import Limits
from verifier.files.reading import READER_VERSION
from verifier.intake.ledger.judging_reason import JudgingReason
from verifier.intake.ledger.ledger import existing_ledger, new_or_existing_ledger
from verifier.intake.ledger.makers import makers_of
from verifier.intake.letters.writing import LetterSettings
from verifier.intake.limits import DEFAULT_BOUNDS, WORKER_LIMITS, Bounds
from verifier.intake.outcome import RunOutcome, RunPlan
from verifier.intake.papers.export import json_lines
from verifier.intake.papers.verdict_files import VerdictFiles
from verifier.intake.run import Intake
from verifier.intake.sources.sources import Box, find_sources
from verifier.intake.workers.task import Judged, RunSettings
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.versions import made_by


class Desk:
    """A folder with a box, a ledger and verdicts, and runs over it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.box, self.out, self.ledger = folder / "box", folder / "out", folder / "ledger.db"
        self.pool = InlinePool(RunSettings())

    def run(
        self,
        settings: RunSettings = RunSettings(),  # noqa: B008 - frozen
        *,
        change: Callable[[Judged], Judged] = lambda judged: judged,
        stop_after: int | None = None,
        duplicates: bool = True,
        printed: Path | None = None,
        bounds: Bounds = DEFAULT_BOUNDS,
        letters: LetterSettings = LetterSettings(repairs=0),  # noqa: B008 - frozen
    ) -> RunOutcome:
        self.pool = InlinePool(settings, change)
        looks = iter(range(10_000_000))
        with new_or_existing_ledger(self.ledger) as ledger:
            makers = makers_of(settings)
            ledger.begin_run(["box"], makers)
            files = VerdictFiles(self.out, ledger)
            plan = RunPlan(
                (str(self.box),),
                self.out,
                self.ledger,
                settings,
                WORKER_LIMITS,
                jobs=1,
                duplicates=duplicates,
                printed=() if printed is None else (str(printed),),
                letters=letters,
            )
            run = Intake(ledger, makers, self.pool, files, plan)
            found = Box(find_sources([str(self.box)]), io.BytesIO(), settings.limits, bounds)
            shelf = None if printed is None else Box(find_sources([str(printed)]), io.BytesIO())
            return run.go(found, shelf, stop=lambda: stop_after is not None and next(looks) >= stop_after)

    def files(self) -> dict[str, bytes]:
        return {path.name: path.read_bytes() for path in self.out.glob("*.yaml")}

    def export(self) -> str:
        with existing_ledger(self.ledger) as ledger:
            return "".join(json_lines(ledger))

    def states(self) -> dict[str, str]:
        records = map(json.loads, self.export().splitlines())
        return {record["address"].removeprefix(f"{self.box}/"): record["state"] for record in records}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    mixed_box(tmp_path / "box")
    return Desk(tmp_path)


def test_each_submission_is_in_the_ledger_with_its_verdict(desk: Desk) -> None:
    outcome = desk.run()
    assert dict(outcome.states) == {"accepted": 8, "rejected": 9, "unreadable": 2}
    states = desk.states()
    assert states["k2-1.yaml"] == "rejected"
    assert states["stream.yaml#1"] == "accepted"
    assert states["late.zip!broken.yaml"] == "unreadable"
    assert len(states) == 19


def test_each_verdict_is_a_file_and_nothing_else_is(desk: Desk) -> None:
    desk.run()
    files = desk.files()
    assert len(files) == 17
    assert {"low-tide.yaml", "ebb.yaml", "flood.yaml"} <= set(files)
    assert not list(desk.out.glob(".gridproof-*"))


def test_a_second_run_judges_nothing_and_changes_nothing(desk: Desk) -> None:
    desk.run()
    files, export = desk.files(), desk.export()
    assert desk.run().judged.total() == 0
    assert desk.pool.done == []
    assert (desk.files(), desk.export()) == (files, export)


@pytest.mark.parametrize("looks", [0, 1, 7, 13, 18])
def test_a_run_that_was_stopped_goes_on_to_the_same_end(desk: Desk, looks: int) -> None:
    other = Desk(desk.folder)
    other.out, other.ledger = desk.folder / "other", desk.folder / "other.db"
    other.run()
    assert desk.run(stop_after=looks).stopped
    desk.run()
    assert desk.export() == other.export()
    assert desk.files() == other.files()


def test_a_file_that_is_gone_or_damaged_is_written_again(desk: Desk) -> None:
    desk.run()
    files = desk.files()
    (desk.out / "ebb.yaml").unlink()
    (desk.out / "flood.yaml").write_bytes(b"")  # as after a power cut
    desk.run()
    assert desk.files() == files


def test_the_style_is_all_that_a_changed_style_touches_and_it_is_told(desk: Desk) -> None:
    desk.run()
    outcome = desk.run(RunSettings(HouseStyle("By Lamplight", tiers=(5,))))
    assert dict(outcome.judged) == {JudgingReason.MADE_ANEW: 17}  # reading has nothing to do with style
    assert [name for name, _, _ in outcome.changes] == ["style_name", "style_content"]
    assert set(desk.states().values()) == {"rejected", "unreadable"}


def test_a_changed_program_judges_all_again(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.run()

    newer = lambda style: replace(made_by(style), gridproof="99")  # noqa: E731
    monkeypatch.setattr("verifier.intake.ledger.makers.made_by", newer)
    outcome = desk.run()
    assert dict(outcome.judged) == {JudgingReason.MADE_ANEW: 19}
    assert outcome.changes[0][0] == "gridproof"


def test_a_newer_reader_judges_the_unreadable_again(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.run()
    monkeypatch.setattr("verifier.intake.ledger.makers.READER_VERSION", 99)
    outcome = desk.run()
    assert dict(outcome.judged) == {JudgingReason.MADE_ANEW: 19}
    assert outcome.changes == [("reader", str(READER_VERSION), "99")]


def test_changed_limits_of_reading_judge_the_unreadable_again(desk: Desk) -> None:
    desk.run(RunSettings(limits=Limits(puzzle_bytes=100)))
    assert set(desk.states().values()) == {"unreadable"}
    desk.run()
    assert "accepted" in desk.states().values()


def test_a_submission_sent_anew_is_judged_again(desk: Desk) -> None:
    desk.run()
    (desk.box / "k1-1.yaml").write_bytes(MIXED[0])
    assert dict(desk.run().judged) == {JudgingReason.CHANGED: 1}
    assert desk.states()["k1-1.yaml"] == "accepted"


def test_changed_credits_alone_are_a_change(desk: Desk) -> None:
    """The content of a puzzle leaves credits and claimed solution out; a verdict does not."""
    desk.run()
    text = (desk.box / "k1-0.yaml").read_bytes()
    (desk.box / "k1-0.yaml").write_bytes(text.replace(b"Wren", b"Robin"))
    assert dict(desk.run().judged) == {JudgingReason.CHANGED: 1}


def test_the_file_of_a_verdict_that_no_longer_counts_goes_at_once(desk: Desk) -> None:
    desk.run()
    (name,) = [name for name, text in desk.files().items() if b"flood" in text and "~" not in name]
    (desk.box / "k1-2.yaml").write_bytes(UNREADABLE)
    desk.run(stop_after=10_000)
    assert name not in desk.files()
    assert desk.states()["k1-2.yaml"] == "unreadable"


def test_a_line_more_in_a_stream_moves_only_what_could_not_be_read(desk: Desk) -> None:
    desk.run()
    stream = desk.box / "stream.yaml"
    stream.write_bytes(b"# from Wren\n" + stream.read_bytes())
    outcome = desk.run()
    assert desk.pool.done == [f"{stream}#5"]
    assert dict(outcome.judged) == {JudgingReason.MOVED: 1}


def test_what_was_cut_short_is_tried_again(desk: Desk) -> None:
    outcome = desk.run(change=lambda judged: lost_once(judged) if "k2-0" in judged.address else judged)
    assert outcome.states["undecided"] == 1
    assert dict(desk.run().judged) == {JudgingReason.PROVISIONAL: 1}
    assert desk.states()["k2-0.yaml"] == "accepted"


def test_a_mistake_of_ours_is_told_and_tried_again(desk: Desk) -> None:
    def slip(judged: Judged) -> Judged:
        return Judged(judged.address, trace="ZeroDivisionError", puzzle=judged.puzzle)

    outcome = desk.run(change=lambda judged: slip(judged) if "k3-0" in judged.address else judged)
    assert [address for address, _ in outcome.traces] == [f"{desk.box}/k3-0.yaml"]
    assert desk.states()["k3-0.yaml"] == "not judged"
    desk.run()
    assert desk.states()["k3-0.yaml"] == "accepted"


def test_a_name_that_an_archive_holds_twice_gives_two_submissions(desk: Desk) -> None:
    twice = tar_of({"a.yaml": SOUND, "b.yaml": SOUND})
    (desk.box / "twice.tar").write_bytes(_renamed(twice))
    desk.run()
    assert {"twice.tar!a.yaml", "twice.tar!a.yaml~2"} <= set(desk.states())
    assert desk.run().judged.total() == 0


def _renamed(archive: bytes) -> bytes:
    """Call the second file of a tar like the first: its name, and its checksum which is one less then."""
    place = archive.index(b"b.yaml")
    header = bytearray(archive[place : place + 512])
    header[0] = ord("a")
    header[148:156] = b"%06o\0 " % (sum(header[:148]) + sum(header[156:]) + 8 * ord(" "))
    return archive[:place] + bytes(header) + archive[place + 512 :]


def test_what_is_no_longer_in_the_box_stays_in_the_ledger(desk: Desk) -> None:
    desk.run()
    (desk.box / "k1-0.yaml").unlink()
    assert desk.run().total == 18
    assert desk.states()["k1-0.yaml"] == "accepted"


def test_names_do_not_depend_on_how_often_a_run_was_cut_short(desk: Desk) -> None:
    for looks in range(0, 20, 3):
        desk.run(stop_after=looks)
    desk.run()
    with existing_ledger(desk.ledger) as ledger:
        rows = ledger.rows("SELECT address FROM submissions WHERE file = 'low-tide.yaml'")
        assert list(rows) == [(f"{desk.box}/k1-0.yaml",)]


def test_the_likeness_is_found_later_where_it_was_left_out(desk: Desk) -> None:
    desk.run(duplicates=False)
    assert '"structure":null' in desk.export()
    assert desk.run().judged.total() == 0
    assert len(desk.pool.done) == 17
    desk.run()
    assert desk.pool.done == []
