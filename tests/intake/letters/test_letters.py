"""Letters of a run: who gets one, what is news, where it goes, and that none is written twice."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from scripts.build_corpus import CORPUS
from tests.evidence.stand_ins import NONE, ONE, TWO
from tests.intake.boxes import MIXED, UNREADABLE, mixed_box, zip_of
from tests.intake.test_run import Desk
from tests.snapshots import assert_snapshot
from tests.symmetries import Rearrangement
from verifier.files.writing import write_puzzle
from verifier.intake.ledger.ledger import existing_ledger
from verifier.intake.ledger.letters import letters
from verifier.intake.letters.template import read_template
from verifier.intake.letters.writing import LetterSettings
from verifier.intake.sources.own import is_own_text
from verifier.intake.workers.task import RunSettings
from verifier.puzzle.puzzle import Credits, Puzzle
from verifier.verdict.style.style import HouseStyle

SNAPSHOTS = Path(__file__).parent / "snapshots"
DAY = "1774828800"  # 2026-03-30
NEXT_DAY = "1774915200"
WITH_REPAIRS = LetterSettings()
TURNED = Rearrangement(ONE.grid, tuple(cell % 4 * 4 + cell // 4 for cell in range(16)), (0, 1, 2, 3, 4))


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    """A desk whose addresses are short, and whose day is known."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", DAY)
    Path("box").mkdir()
    return Desk(Path())


def put(desk: Desk, file: str, puzzle: Puzzle, setter: str | None, title: str = "", name: str = "") -> None:
    path = desk.box / file
    path.parent.mkdir(exist_ok=True)
    credits = Credits(name or Path(file).stem, title or None, setter)
    path.write_text(write_puzzle(replace(puzzle, credits=credits)))


def written(desk: Desk) -> dict[str, str]:
    """Every letter by its place."""
    folder = desk.out / "for-setters"
    return {str(path.relative_to(folder)): path.read_text() for path in sorted(folder.rglob("*.*"))}


def test_a_box_with_everything(desk: Desk) -> None:
    desk.box.rmdir()
    mixed_box(desk.box, copies=1)
    put(desk, "twin.yaml", TURNED.puzzle(ONE), "Tamsin", "A twin")
    for name in ("sent-back/last-weeks-key", "small/two-islands"):
        path = CORPUS / f"{name}.yaml"
        (desk.box / path.name).write_bytes(path.read_bytes())
    desk.run(letters=LetterSettings(house="By Lamplight"))
    told = written(desk)
    all_of_them = "\n".join(f"==== {name}\n{text}" for name, text in told.items())
    changes = r"effort \d+|(?<=tier )\d, \w+|(?<=Line )\d+, .*?(?=\n\n)"  # with ladder and reader
    told_alike = re.sub(changes, "...", all_of_them, flags=re.DOTALL)
    assert_snapshot(SNAPSHOTS / "letters.txt", told_alike)
    assert all(is_own_text(text.encode()) for text in told.values())


def test_a_second_run_without_news_writes_nothing(desk: Desk) -> None:
    put(desk, "ebb.yaml", TWO, "Wren")
    assert [str(path) for path in desk.run().letters] == ["out/for-setters/2026-03-30/Wren.txt"]
    before = written(desk)
    assert desk.run().letters == []
    assert written(desk) == before


def test_what_is_new_on_the_same_day_goes_into_a_folder_of_its_own(desk: Desk) -> None:
    put(desk, "ebb.yaml", TWO, "Wren")
    desk.run()
    before = written(desk)
    put(desk, "flood.yaml", NONE, "wren")
    desk.run()
    told = written(desk)
    assert sorted(told) == ["2026-03-30-2/wren.txt", "2026-03-30/Wren.txt"]
    assert told["2026-03-30/Wren.txt"] == before["2026-03-30/Wren.txt"]
    assert "flood" in told["2026-03-30-2/wren.txt"]
    assert "ebb" not in told["2026-03-30-2/wren.txt"]


def test_on_another_day_it_bears_that_day(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    put(desk, "ebb.yaml", TWO, "Wren")
    desk.run()
    put(desk, "flood.yaml", NONE, "Wren")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", NEXT_DAY)
    desk.run()
    assert sorted(written(desk)) == ["2026-03-30/Wren.txt", "2026-03-31/Wren.txt"]
    with existing_ledger(desk.ledger) as ledger:
        assert [(one.setter, str(one.day), one.file) for one in letters(ledger)] == [
            ("Wren", "2026-03-30", "for-setters/2026-03-30/Wren.txt"),
            ("Wren", "2026-03-31", "for-setters/2026-03-31/Wren.txt"),
        ]


def test_all_can_be_told_again(desk: Desk) -> None:
    put(desk, "ebb.yaml", TWO, "Wren")
    desk.run()
    desk.run(letters=LetterSettings(everything=True, repairs=0))
    text = written(desk)["2026-03-30-2/Wren.txt"]
    assert "This is what became of all the puzzles that you have sent us so far." in text
    assert "otherwise" not in text


def test_a_change_of_mind_is_news(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    put(desk, "ebb.yaml", ONE, "Wren")
    desk.run()
    monkeypatch.setenv("SOURCE_DATE_EPOCH", NEXT_DAY)
    desk.run(RunSettings(HouseStyle("By Lamplight", grids=("9x9",))))
    text = written(desk)["2026-03-31/Wren.txt"]
    assert "This is otherwise than in our letter of 2026-03-30." in text
    assert "Not accepted" in text


def test_a_repair_names_cage_and_total(desk: Desk) -> None:
    put(desk, "flood.yaml", NONE, "Wren")
    desk.run(letters=WITH_REPAIRS)
    text = " ".join(written(desk)["2026-03-30/Wren.txt"].split())
    assert "Each of these puts it right: - Change the total of the cage r3c2 and r4c2 from 7 to 6." in text
    assert text.count("That leaves exactly one solution") == 2


def test_a_repair_says_the_tier_as_the_house_calls_it(desk: Desk) -> None:
    put(desk, "flood.yaml", NONE, "Wren")
    names = tuple((tier, f"shelf {tier}") for tier in range(1, 8))
    desk.run(RunSettings(HouseStyle("By Lamplight", tier_names=names)), letters=WITH_REPAIRS)
    text = " ".join(written(desk)["2026-03-30/Wren.txt"].split())
    assert re.findall(r"exactly one solution; tier (\d), (.+?)\.", text) == [
        ("2", "shelf 2"),
        ("2", "shelf 2"),
    ]


def test_repairs_are_looked_for_once_and_for_so_many_puzzles_alone(desk: Desk) -> None:
    put(desk, "flood.yaml", NONE, "Wren")
    put(desk, "neap.yaml", TWO, "Wren")
    desk.run(letters=LetterSettings(repairs=1))
    assert desk.pool.done.count("box/flood.yaml") == 2
    assert desk.pool.done.count("box/neap.yaml") == 1
    desk.run(letters=LetterSettings(everything=True))
    assert desk.pool.done == ["box/neap.yaml"]


def test_a_run_that_is_stopped_over_repairs_writes_its_letters_later(desk: Desk) -> None:
    put(desk, "flood.yaml", NONE, "Wren")
    put(desk, "neap.yaml", TWO, "Wren")
    Path("whole").mkdir()
    whole = Desk(Path("whole"))
    whole.box = desk.box
    whole.run(letters=WITH_REPAIRS)
    for after in range(20):
        outcome = desk.run(letters=WITH_REPAIRS, stop_after=after)
        assert bool(outcome.letters) is not outcome.stopped
        if not outcome.stopped:
            break
    assert after > 3
    assert written(desk) == written(whole)


def test_the_grid_of_which_a_reason_speaks_stands_below_it(desk: Desk) -> None:
    put(desk, "ebb.yaml", TWO, "Wren")
    put(desk, "flood.yaml", replace(ONE, solution=(*range(1, 5),) * 4), "Tamsin")
    desk.run()
    told = written(desk)
    assert (
        "Two of the solutions; where they differ, there is a star:\n\n      " in told["2026-03-30/Wren.txt"]
    )
    assert "The only solution:\n\n      " in told["2026-03-30/Tamsin.txt"]


def test_repeats_are_told_without_naming_another_setter(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", "Ebb")
    put(desk, "b.yaml", TURNED.puzzle(ONE), "Tamsin", "Flood")
    put(desk, "c.yaml", ONE, "Wren", "Neap")
    desk.run()
    told = {name: " ".join(text.split()) for name, text in written(desk).items()}
    assert "The same puzzle came to us from somebody else" in told["2026-03-30/Tamsin.txt"]
    assert "Wren" not in told["2026-03-30/Tamsin.txt"]
    assert "the same puzzle as Ebb, which you sent too" in told["2026-03-30/Wren.txt"]
    assert "Tamsin" not in told["2026-03-30/Wren.txt"]


def test_what_was_printed_is_told(desk: Desk, tmp_path: Path) -> None:
    put(desk, "a.yaml", ONE, "Wren")
    (tmp_path / "printed").mkdir()
    (tmp_path / "printed" / "old.yaml").write_bytes(MIXED[0])
    desk.run(printed=Path("printed"))
    assert "This puzzle was printed before" in written(desk)["2026-03-30/Wren.txt"]


def test_a_correction_says_what_it_takes_the_place_of(desk: Desk) -> None:
    put(desk, "a.yaml", TWO, "Wren", name="tide-7")
    desk.run()
    put(desk, "a.yaml", ONE, "Wren", name="tide-7")
    desk.run()
    assert "takes the place of what you sent before" in written(desk)["2026-03-30-2/Wren.txt"]


def test_no_letter_shows_where_a_file_lay_with_the_editor(desk: Desk) -> None:
    files = {"week-2/17.yaml": MIXED[1], "week-2/broken.yaml": UNREADABLE}
    (desk.box / "late.zip").write_bytes(zip_of(files))
    desk.run()
    told = written(desk)
    assert sorted(told) == ["2026-03-30/Wren-Alder.txt", "2026-03-30/setter-unknown-late.zip.txt"]
    assert not [text for text in told.values() if "zip!" in text or "box/" in text or "week-2/" in text]
    assert "- broken.yaml\n\n  Line 1, the puzzle: found" in told["2026-03-30/setter-unknown-late.zip.txt"]


def test_what_cannot_be_read_is_told_to_the_setter_whose_name_stands_in_it(desk: Desk) -> None:
    (desk.box / "a.yaml").write_bytes(b"puzle: killer\nsetter: Wren Alder\n")
    put(desk, "b.yaml", ONE, "Wren Alder")
    desk.run()
    (text,) = written(desk).values()
    assert "Dear Wren Alder" in text
    assert "- a.yaml\n\n  Line 1, the puzzle: found 'puzle'" in text


def test_files_of_unknown_senders_are_told_apart_by_where_they_lay(desk: Desk) -> None:
    put(desk, "north/17.yaml", TWO, None)
    put(desk, "south/17.yaml", NONE, None)
    desk.run()
    assert sorted(written(desk)) == [
        "2026-03-30/setter-unknown-north.txt",
        "2026-03-30/setter-unknown-south.txt",
    ]


def test_names_that_no_file_can_tell_apart_get_letters_of_their_own(desk: Desk) -> None:
    for number, setter in enumerate(("A/B", "A:B", "../../etc", "CON")):
        put(desk, f"{number}.yaml", TWO, setter)
    desk.run()
    places = sorted(written(desk))
    assert len(places) == 4
    assert all(place.count("/") == 1 and place.startswith("2026-03-30/") for place in places)


def test_a_house_has_letters_in_its_own_frame_and_in_markdown(desk: Desk) -> None:
    Path("letter.md").write_text("*{{ month }} {{ day }}*\n\nAhoy {{ setter }}!\n\n{{ letter }}\n")
    template, faults = read_template(Path("letter.md"))
    assert template is not None, faults
    put(desk, "a.yaml", ONE, "Wren *the* first", "[Ebb]")
    desk.run(letters=LetterSettings(template, repairs=0))
    text = written(desk)["2026-03-30/Wren-the-first.md"]
    assert text.startswith("*March 30*\n\nAhoy Wren \\*the\\* first!\n\nThis is what became of")
    assert "- \\[Ebb\\], a (in a.yaml)" in text


def test_letters_of_an_earlier_version_go(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren")
    desk.run()
    folder = desk.out / "for-setters"
    (folder / "Old.txt").write_text("told once")
    (folder / "notes.txt").write_text("kept")
    _enter_undated(desk, ["Old.txt"])
    put(desk, "b.yaml", TWO, "Wren")
    desk.run()
    assert sorted(written(desk)) == ["2026-03-30-2/Wren.txt", "2026-03-30/Wren.txt", "notes.txt"]


def _enter_undated(desk: Desk, names: Sequence[str]) -> None:
    from verifier.intake.ledger.ledger import new_or_existing_ledger

    with new_or_existing_ledger(desk.ledger) as ledger:
        for name in names:
            ledger.change("INSERT INTO letter_files VALUES (?)", (name,))
        ledger.commit()
