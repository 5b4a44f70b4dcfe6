"""A submission is what was sent, not where it lay: moves, what is gone, corrections, the stock."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tests.evidence.stand_ins import NONE, ONE, TWO
from tests.intake.boxes import SOUND, UNREADABLE, zip_of
from tests.intake.test_run import Desk
from tests.symmetries import Rearrangement
from verifier.files.writing import write_puzzle
from verifier.intake.ledger.corrections import claimed_corrections
from verifier.intake.ledger.forgetting import let_go, named
from verifier.intake.ledger.judging_reason import JudgingReason
from verifier.intake.ledger.ledger import existing_ledger, new_or_existing_ledger
from verifier.intake.ledger.placements import mark_printed, placements, release, schedule
from verifier.intake.papers.duplicates import duplicates
from verifier.intake.papers.report import counts_of
from verifier.intake.workers.task import RunSettings
from verifier.puzzle.puzzle import Credits, Puzzle
from verifier.verdict.style.style import HouseStyle

TRANSPOSED = tuple(cell % 4 * 4 + cell // 4 for cell in range(16))
TURNED = Rearrangement(ONE.grid, TRANSPOSED, (0, 1, 2, 3, 4)).puzzle(ONE)
"""Another puzzle than `ONE` to whoever corrects it: its solution is not the same, cell by cell."""


def by(setter: str | None, name: str, puzzle: Puzzle) -> bytes:
    return write_puzzle(replace(puzzle, credits=Credits(name, None, setter))).encode()


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.chdir(tmp_path)
    desk = Desk(Path())
    desk.box.mkdir()
    return desk


def put(desk: Desk, **files: bytes) -> None:
    for name, data in files.items():
        (desk.box / f"{name}.yaml").write_bytes(data)


def counted(desk: Desk) -> Mapping[str, int]:
    with existing_ledger(desk.ledger) as ledger:
        return dict(counts_of(ledger).states)


def twice(desk: Desk) -> int:
    with existing_ledger(desk.ledger) as ledger:
        return sum(1 for _ in duplicates(ledger))


def numbers(desk: Desk) -> Mapping[str, int]:
    with existing_ledger(desk.ledger) as ledger:
        return dict(ledger.rows("SELECT address, submission FROM submissions WHERE standing < 4"))


# Moves


def test_a_file_that_is_renamed_or_moved_is_the_same_submission(desk: Desk) -> None:
    put(desk, a=by("Wren", "ebb", ONE), b=by("Wren", "flood", NONE))
    desk.run()
    before = numbers(desk)
    (desk.box / "may").mkdir()
    (desk.box / "a.yaml").rename(desk.box / "may" / "first.yaml")
    (desk.box / "b.yaml").rename(desk.box / "z.yaml")
    outcome = desk.run()
    assert (outcome.judged.total(), outcome.gone) == (0, 0)
    after = numbers(desk)
    assert after == {"box/may/first.yaml": before["box/a.yaml"], "box/z.yaml": before["box/b.yaml"]}
    assert twice(desk) == 0


def test_a_file_that_gains_a_puzzle_keeps_the_one_it_had(desk: Desk) -> None:
    put(desk, a=by("Wren", "ebb", ONE))
    desk.run()
    before = numbers(desk)["box/a.yaml"]
    put(desk, a=by("Tamsin", "late", TWO) + b"---\n" + by("Wren", "ebb", ONE))
    assert dict(desk.run().judged) == {JudgingReason.NEW: 1}
    assert numbers(desk)["box/a.yaml#2"] == before
    assert twice(desk) == 0


def test_files_that_change_places_are_no_copies_of_themselves(desk: Desk) -> None:
    put(desk, a=by("Wren", "ebb", ONE), b=by("Tamsin", "tide", TURNED))
    desk.run()
    with new_or_existing_ledger(desk.ledger) as ledger:
        schedule(ledger, date(2026, 3, 30), {numbers(desk)["box/a.yaml"]: "Monday"})
    put(desk, a=by("Tamsin", "tide", TURNED), b=by("Wren", "ebb", ONE))
    desk.run()
    assert counted(desk) == {"accepted": 2}
    with existing_ledger(desk.ledger) as ledger:
        assert [one.submission for one in placements(ledger)] == [numbers(desk)["box/b.yaml"]]
    assert sorted(desk.files()) == ["ebb.yaml", "tide.yaml"]


def test_files_that_change_places_while_the_style_changes_are_no_copies_either(desk: Desk) -> None:
    put(desk, a=by("Wren", "ebb", ONE), b=by("Tamsin", "tide", TURNED))
    desk.run()
    put(desk, a=by("Tamsin", "tide", TURNED), b=by("Wren", "ebb", ONE))
    desk.run(RunSettings(HouseStyle("By Lamplight", kinds=("killer",))))
    assert counted(desk) == {"accepted": 2}


def test_a_puzzle_packed_into_an_archive_is_the_same(desk: Desk) -> None:
    put(desk, a=by("Wren", "ebb", ONE))
    desk.run()
    before = numbers(desk)["box/a.yaml"]
    (desk.box / "a.yaml").unlink()
    (desk.box / "post.zip").write_bytes(zip_of({"old/a.yaml": by("Wren", "ebb", ONE)}))
    desk.run()
    assert numbers(desk) == {"box/post.zip!old/a.yaml": before}


def test_an_id_that_is_from_the_name_of_the_file_follows_it(desk: Desk) -> None:
    put(desk, a=SOUND)
    desk.run()
    (desk.box / "a.yaml").rename(desk.box / "b.yaml")
    assert dict(desk.run().judged) == {JudgingReason.MOVED: 1}
    assert list(desk.files()) == ["b.yaml.yaml"]


def test_what_came_twice_is_two_submissions_and_stays_two(desk: Desk) -> None:
    put(desk, b=by("Wren", "ebb", ONE), c=by("Wren", "ebb", ONE))
    desk.run()
    put(desk, a=by("Wren", "ebb", ONE))
    desk.run()
    desk.run()
    assert counted(desk) == {"accepted": 3}
    (desk.box / "b.yaml").unlink()
    (desk.box / "c.yaml").unlink()
    desk.run()
    assert counted(desk) == {"accepted": 3}  # what is accepted stays in stock


# What is gone


def test_what_is_missing_below_a_named_path_is_gone_unless_it_is_accepted(desk: Desk) -> None:
    put(desk, a=by("Wren", "ebb", ONE), b=by("Wren", "flood", NONE), c=UNREADABLE, d=by("Wren", "x", TWO))
    desk.run()
    for name in "abc":
        (desk.box / f"{name}.yaml").unlink()
    assert desk.run().gone == 2
    assert counted(desk) == {"accepted": 1, "rejected": 1}
    assert sorted(desk.files()) == ["ebb.yaml", "x.yaml"]
    assert desk.run().gone == 0


def test_what_was_gone_and_is_sent_again_is_not_judged_again(desk: Desk) -> None:
    put(desk, b=by("Wren", "flood", NONE))
    desk.run()
    put(desk, b=by("Wren", "other", TWO))
    desk.run()
    put(desk, b=by("Wren", "flood", NONE))
    assert desk.run().judged.total() == 0
    assert counted(desk) == {"rejected": 1}
    assert list(desk.files()) == ["flood.yaml"]


def test_a_run_that_names_another_path_forgets_nothing(desk: Desk) -> None:
    put(desk, b=by("Wren", "flood", NONE))
    desk.run()
    (desk.box / "b.yaml").unlink()
    desk.box = Path("late")
    desk.box.mkdir()
    put(desk, c=by("Wren", "ebb", ONE))
    assert desk.run().gone == 0
    assert counted(desk) == {"accepted": 1, "rejected": 1}


def test_what_lies_behind_a_fault_is_not_gone(desk: Desk) -> None:
    whole = zip_of({"a.yaml": by("Wren", "flood", NONE), "b.yaml": by("Wren", "x", TWO)})
    (desk.box / "post.zip").write_bytes(whole)
    desk.run()
    (desk.box / "post.zip").write_bytes(whole[: len(whole) // 2])
    assert desk.run().gone == 0
    (desk.box / "post.zip").write_bytes(zip_of({"a.yaml": by("Wren", "flood", NONE)}))
    assert desk.run().gone == 2  # the other one, and that the archive broke off
    assert counted(desk) == {"rejected": 1}


def test_a_run_that_is_stopped_takes_nothing_for_gone(desk: Desk) -> None:
    put(desk, a=by("Wren", "flood", NONE), b=by("Wren", "x", TWO))
    desk.run()
    assert desk.run(stop_after=0).gone == 0
    assert counted(desk) == {"rejected": 2}


# Corrections


def corrected(desk: Desk, old: bytes, new: bytes, *, keep: bool = False) -> list[tuple[str, str]]:
    """Send one puzzle, then another in its stead, and return what replaced what."""
    put(desk, old=old)
    desk.run()
    if not keep:
        (desk.box / "old.yaml").unlink()
    put(desk, new=new)
    return [(one.newer_address, one.older_address) for one in desk.run().corrections]


REPLACED = [("box/new.yaml", "box/old.yaml")]


@pytest.mark.parametrize("keep", [False, True])
def test_a_correction_replaces_its_forerunner_wherever_that_lies(desk: Desk, keep: bool) -> None:
    assert corrected(desk, by("Wren", "ebb", TWO), by("Wren", "ebb", ONE), keep=keep) == REPLACED
    assert counted(desk) == {"accepted": 1}
    assert list(desk.files()) == ["ebb.yaml"]
    assert desk.run().corrections == []
    assert counted(desk) == {"accepted": 1}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (by("Wren", "ebb", NONE), by("Tamsin", "ebb", ONE)),
        (by("Wren", "ebb", NONE), by("Wren", "flood", ONE)),
        (by(None, "ebb", NONE), by(None, "ebb", ONE)),
        (by("Wren", "", NONE), by("Wren", "", ONE)),
    ],
    ids=["another setter", "another id", "no setter", "an id from the name of the file"],
)
def test_without_the_same_setter_and_a_written_id_nothing_is_replaced(
    desk: Desk, old: bytes, new: bytes
) -> None:
    assert corrected(desk, old, new, keep=True) == []
    assert counted(desk) == {"accepted": 1, "rejected": 1}


def claims(desk: Desk) -> list[tuple[str, str]]:
    with existing_ledger(desk.ledger) as ledger:
        return [(one.newer_address, one.older_address) for one in claimed_corrections(ledger)]


def test_an_accepted_forerunner_with_another_solution_is_for_a_person_to_judge(desk: Desk) -> None:
    assert corrected(desk, by("Wren", "ebb", ONE), by("Wren", "ebb", TURNED)) == []
    assert counted(desk) == {"accepted": 2}
    assert claims(desk) == REPLACED


def test_an_accepted_forerunner_with_the_same_solution_is_replaced(desk: Desk) -> None:
    titled = write_puzzle(replace(ONE, credits=Credits("ebb", "Low water", "Wren"))).encode()
    assert corrected(desk, by("Wren", "ebb", ONE), titled) == REPLACED
    assert claims(desk) == []


def test_what_is_not_accepted_replaces_nothing_that_is(desk: Desk) -> None:
    assert corrected(desk, by("Wren", "ebb", ONE), by("Wren", "ebb", NONE)) == []
    assert claims(desk) == REPLACED


@pytest.mark.parametrize("printed", [False, True])
def test_what_is_on_a_page_is_never_replaced(desk: Desk, printed: bool) -> None:
    put(desk, old=by("Wren", "ebb", ONE))
    desk.run()
    with new_or_existing_ledger(desk.ledger) as ledger:
        schedule(ledger, date(2026, 3, 30), {numbers(desk)["box/old.yaml"]: "Monday"})
        assert mark_printed(ledger, date(2026, 3, 30)) == 1 if printed else True
    titled = write_puzzle(replace(ONE, credits=Credits("ebb", "Low water", "Wren"))).encode()
    assert corrected(desk, by("Wren", "ebb", ONE), titled) == []
    assert claims(desk) == REPLACED


def test_an_id_that_a_setter_gives_to_many_says_nothing(desk: Desk) -> None:
    put(desk, a=by("Wren", "untitled", TWO), b=by("Wren", "untitled", NONE))
    desk.run()
    put(desk, c=by("Wren", "untitled", ONE))
    assert desk.run().corrections == []
    assert counted(desk) == {"accepted": 1, "rejected": 2}


def test_new_credits_in_the_same_place_are_the_same_puzzle(desk: Desk) -> None:
    put(desk, a=SOUND)
    desk.run()
    put(desk, a=by("Wren", "ebb", ONE))
    assert [(one.newer_address, one.older_address) for one in desk.run().corrections] == [
        ("box/a.yaml", "box/a.yaml")
    ]
    assert counted(desk) == {"accepted": 1}
    assert twice(desk) == 0


def test_what_was_replaced_counts_again_when_its_correction_is_withdrawn(desk: Desk) -> None:
    assert corrected(desk, by("Wren", "ebb", TWO), by("Wren", "ebb", NONE), keep=True) == REPLACED
    (desk.box / "new.yaml").unlink()
    assert desk.run().gone == 1
    assert numbers(desk).keys() == {"box/old.yaml"}


# The stock


def test_the_stock_is_judged_anew_by_a_changed_style_though_nobody_sends_it(desk: Desk) -> None:
    put(desk, a=by("Wren", "ebb", ONE), b=by("Wren", "flood", NONE))
    desk.run()
    (desk.box / "a.yaml").unlink()
    strict = RunSettings(HouseStyle("By Lamplight", kinds=("classic",)))
    assert dict(desk.run(strict).judged) == {JudgingReason.MADE_ANEW: 2}
    assert counted(desk) == {"rejected": 2}


def test_what_is_forgotten_is_out_of_the_ledger(desk: Desk) -> None:
    (desk.box / "may").mkdir()
    put(desk, a=by("Wren", "ebb", ONE), b=by("Wren", "flood", NONE), **{"may/c": by("Wren", "x", TWO)})
    desk.run()
    with new_or_existing_ledger(desk.ledger) as ledger:
        for one in named(ledger, ["box/may", "box/a.yaml", "box/b"]):
            let_go(ledger, one.number)
        ledger.commit()
    assert numbers(desk).keys() == {"box/b.yaml"}


def test_what_is_scheduled_can_be_released_and_is_in_stock_again(desk: Desk) -> None:
    put(desk, a=by("Wren", "ebb", ONE))
    desk.run()
    day = date(2026, 3, 30)
    with new_or_existing_ledger(desk.ledger) as ledger:
        schedule(ledger, day, {numbers(desk)["box/a.yaml"]: "Monday"})
        assert [(one.page, one.day, one.slot) for one in placements(ledger)] == [("scheduled", day, "Monday")]
        assert release(ledger, date(2026, 4, 6)) == 0
        assert release(ledger, day) == 1
        assert list(placements(ledger)) == []
