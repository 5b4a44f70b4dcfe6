"""What a puzzle repeats: in exports, lists and counts, on a page, and under a style that takes no repeats."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tests.evidence.stand_ins import ONE, TWO
from tests.intake.boxes import SOUND
from tests.intake.test_papers import COMPLEMENTED, GRID, TRANSPOSED, boxed, written
from tests.intake.test_run import Desk
from tests.symmetries import Rearrangement
from verifier.files.writing import write_puzzle
from verifier.intake.ledger.ledger import existing_ledger, new_or_existing_ledger
from verifier.intake.ledger.letters import record_letter
from verifier.intake.ledger.placements import mark_printed, schedule
from verifier.intake.papers.duplicates import Repeats
from verifier.intake.papers.export import csv_lines, json_lines
from verifier.intake.papers.report import compared_with, counts_of, listed_in
from verifier.intake.papers.wording import counts_told, listed_told
from verifier.intake.workers.task import RunSettings
from verifier.puzzle.puzzle import Credits
from verifier.verdict.style.style import HouseStyle


def repeats_in(desk: Desk) -> dict[str, list[str]]:
    with existing_ledger(desk.ledger) as ledger:
        exported = [json.loads(line) for line in json_lines(ledger)]
        records = [one for one in exported if one["state"] != "printed"]
        rows = csv.DictReader(io.StringIO("".join(csv_lines(ledger))))
        assert [row["repeats"] for row in rows] == ["\n".join(one["repeats"]) for one in records]
    names = {one["address"]: one["repeats"] for one in records}
    return {Path(address).stem: [Path(other).stem for other in others] for address, others in names.items()}


def test_the_exports_name_what_a_puzzle_repeats_also_in_later_runs(tmp_path: Path) -> None:
    turned = Rearrangement(GRID, TRANSPOSED, COMPLEMENTED).puzzle(ONE)
    desk = boxed(tmp_path, a=TWO, b=ONE, c=turned, d=TWO)
    (tmp_path / "may").mkdir()
    (tmp_path / "may" / "p.yaml").write_bytes(written(ONE, "printed-long-ago"))
    told = {"a": [], "b": ["p"], "c": ["p", "b"], "d": ["a"]}
    desk.run(printed=tmp_path / "may")
    assert repeats_in(desk) == told
    desk.run()
    assert repeats_in(desk) == told


def test_of_thousands_that_are_alike_only_some_are_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("verifier.intake.papers.duplicates._MOST_NAMED", 2)
    desk = boxed(tmp_path, a=ONE, b=ONE, c=ONE, d=ONE)
    desk.run()
    assert repeats_in(desk)["d"] == ["a", "b"]


@pytest.mark.parametrize(("given", "states"), [("accept", "aarr"), ("refuse", "arrr")])
def test_a_house_style_can_refuse_repeats_and_the_verdict_stays(
    tmp_path: Path, given: str, states: str
) -> None:
    desk = boxed(tmp_path, a=ONE, b=ONE, c=TWO, d=TWO)
    desk.run(RunSettings(HouseStyle("By Lamplight", repeats=given)))
    assert "".join(state[0] for _, state in sorted(desk.states().items())) == states
    assert [text.split("\n")[1] for _, text in sorted(verdicts(desk).items())] == [
        "verdict: accepted",
        "verdict: accepted",
        "verdict: rejected",
        "verdict: rejected",
    ]


def verdicts(desk: Desk) -> dict[str, str]:
    return {name: data.decode() for name, data in desk.files().items()}


def test_a_refused_repeat_is_told_as_such_and_taken_back_without_judging(tmp_path: Path) -> None:
    desk = boxed(tmp_path, a=ONE, b=ONE)
    desk.run(RunSettings(HouseStyle("By Lamplight", repeats="refuse")))
    with existing_ledger(desk.ledger) as ledger:
        (listed,) = listed_in(ledger, "rejected")
        assert counts_of(ledger).reasons == (("style-repeats", 1),)
    assert listed.says == (
        "House style By Lamplight: takes no repeats; this puzzle is the same as another that was sent in, as "
        "it is or in disguise.",
    )
    assert desk.run(RunSettings(HouseStyle("By Lamplight"))).judged.total() == 0
    assert set(desk.states().values()) == {"accepted"}


def test_repeats_are_counted_apart_and_marked_in_the_list(tmp_path: Path) -> None:
    turned = Rearrangement(GRID, TRANSPOSED, COMPLEMENTED).puzzle(ONE)
    (tmp_path / "may").mkdir()
    (tmp_path / "may" / "p.yaml").write_bytes(written(TWO, "printed-long-ago"))
    desk = boxed(tmp_path, a=ONE, b=turned, c=TWO)
    (desk.box / "b2.yaml").write_bytes(SOUND)
    desk.run(printed=tmp_path / "may")
    with existing_ledger(desk.ledger) as ledger:
        counts = counts_of(ledger)
        lines = [listed_told(one) for one in listed_in(ledger, "accepted")]
    assert "3 accepted, of them 2 repeats: 2 copies" in counts_told(counts, Repeats()).splitlines()
    assert [line.partition("  repeats ")[2].count(".yaml") for line in lines] == [0, 1, 2]


def test_what_came_first_is_no_repeat_of_what_came_later_whatever_its_name(tmp_path: Path) -> None:
    desk = boxed(tmp_path, z=ONE)
    desk.run()
    (desk.box / "a.yaml").write_bytes(written(ONE, "late"))
    desk.run()
    assert repeats_in(desk) == {"a": ["z"], "z": []}


def test_an_accepted_puzzle_repeats_none_that_was_rejected(tmp_path: Path) -> None:
    """What is left when all repeats are struck out can be printed."""
    titled = replace(ONE, credits=Credits("b", "Low water", None))
    desk = boxed(tmp_path, a=ONE)
    (desk.box / "b.yaml").write_bytes(write_puzzle(titled).encode())
    desk.run(RunSettings(HouseStyle("By Lamplight", credits=("title",))))
    assert repeats_in(desk) == {"a": ["b"], "b": []}


@pytest.mark.parametrize("printed", [False, True])
def test_a_puzzle_on_a_page_is_what_others_repeat(tmp_path: Path, printed: bool) -> None:
    desk = boxed(tmp_path, a=ONE, b=ONE)
    desk.run()
    with new_or_existing_ledger(desk.ledger) as ledger:
        ((number,),) = ledger.rows("SELECT submission FROM submissions WHERE address LIKE '%b.yaml'")
        schedule(ledger, date(2026, 3, 30), {number: "Monday"})
        if printed:
            mark_printed(ledger, date(2026, 3, 30))
        counts = counts_of(ledger)
    assert repeats_in(desk) == {"a": ["b"], "b": []}
    assert (counts.printed_before, counts.copies) == ((1, 0) if printed else (0, 1))


def test_what_was_compared_with_stays_with_its_folder_and_day(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = boxed(tmp_path, a=ONE)
    for name, epoch in (("may", 1780000000), ("june", 1782000000)):
        (tmp_path / name).mkdir()
        (tmp_path / name / "p.yaml").write_bytes(written(ONE, name))
        monkeypatch.setenv("SOURCE_DATE_EPOCH", str(epoch))
        desk.run(printed=tmp_path / name)
    with existing_ledger(desk.ledger) as ledger:
        compared = compared_with(ledger)
    assert compared == [(f"{tmp_path}/june", "2026-06-21", 1), (f"{tmp_path}/may", "2026-05-28", 1)]


def test_the_export_for_programs_holds_all_and_that_for_people_what_counts(tmp_path: Path) -> None:
    desk = boxed(tmp_path, a=ONE, b=TWO)
    desk.run()
    (desk.box / "b.yaml").unlink()
    desk.run()
    with new_or_existing_ledger(desk.ledger) as ledger:
        ((number,),) = ledger.rows("SELECT submission FROM submissions WHERE address LIKE '%a.yaml'")
        schedule(ledger, date(2026, 3, 30), {number: "Monday"})
        record_letter(ledger, "Wren", date(2026, 3, 29), "for-setters/2026-03-29/Wren.txt", {number: "-"})
        ledger.commit()
    with existing_ledger(desk.ledger) as ledger:
        a, b = map(json.loads, json_lines(ledger))
        rows = list(csv.DictReader(io.StringIO("".join(csv_lines(ledger)).removeprefix("\ufeff"))))
    assert (a["page"], a["page_date"], a["slot"], a["counts"]) == ("scheduled", "2026-03-30", "Monday", True)
    letter = {"day": "2026-03-29", "setter": "Wren", "file": "for-setters/2026-03-29/Wren.txt"}
    assert a["letters"][-1] == letter  # after that of the run
    assert b["counts"] is False
    assert [row["slot"] for row in rows] == ["Monday"]


def test_the_table_begins_with_what_is_for_reading(tmp_path: Path) -> None:
    desk = boxed(tmp_path, a=ONE)
    desk.run()
    with existing_ledger(desk.ledger) as ledger:
        headings = next(csv_lines(ledger)).rstrip("\n").split(",")
    assert headings[0] == "\ufeffaddress"
    first = ["id", "title", "setter", "kind", "state", "tier", "effort", "minutes", "repeats", "reasons"]
    assert headings[1:11] == first
