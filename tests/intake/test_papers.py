"""What editors and setters read: letters, lists, the summary and the exports."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

import pytest

from scripts.build_corpus import CORPUS
from tests.evidence.stand_ins import ONE, TWO
from tests.intake.boxes import MIXED, SOUND, UNREADABLE, mixed_box
from tests.intake.test_run import Desk
from tests.snapshots import assert_snapshot
from tests.symmetries import Rearrangement
from verifier.files.writing import write_puzzle
from verifier.intake.ledger.ledger import existing_ledger, new_or_existing_ledger
from verifier.intake.papers.duplicates import Group, Repeats, duplicates, same_solutions
from verifier.intake.papers.export import csv_lines
from verifier.intake.papers.papers import write_papers
from verifier.intake.papers.report import counts_of
from verifier.intake.papers.wording import counts_told
from verifier.intake.sources.own import is_own_text
from verifier.intake.workers.task import Judged
from verifier.likeness.guises import Guise
from verifier.likeness.solution import only_solution
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

SNAPSHOTS = Path(__file__).parent / "snapshots"


def written(puzzle: Puzzle, name: str, setter: str | None = None) -> bytes:
    return write_puzzle(replace(puzzle, credits=Credits(name, None, setter))).encode()


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    """Return a desk whose addresses are short, so that they can stand in a snapshot."""
    monkeypatch.chdir(tmp_path)
    mixed_box(Path("box"), copies=1)
    return Desk(Path())


def papers(desk: Desk) -> Repeats:
    desk.run()
    with new_or_existing_ledger(desk.ledger) as ledger:
        return write_papers(ledger, desk.out)


def test_what_could_not_be_read_is_a_list(desk: Desk) -> None:
    papers(desk)
    assert_snapshot(SNAPSHOTS / "unreadable.txt", (desk.out / "unreadable.txt").read_text())


ALIKE = (
    SOUND.replace(b". c . .", b". i . .")
    .replace(b". c d d", b". i j j")
    .replace(b"c: 4, d: 3", b"i: 4, j: 3")
)
"""A sound puzzle with two marks that look alike, side by side."""


@pytest.fixture
def remarked(desk: Desk) -> Desk:
    """Return a desk with puzzles that earn remarks: accepted ones, and one that goes back."""
    for name in ("small/two-islands", "small/bare-bones", "sent-back/either-oar"):
        path = CORPUS / f"{name}.yaml"
        (desk.box / path.name).write_bytes(path.read_bytes())
    (desk.box / "alike.yaml").write_bytes(ALIKE)
    return desk


def test_accepted_puzzles_that_are_worth_a_look_are_a_list(remarked: Desk) -> None:
    """Marks that look alike want none once exactly one solution is proved; the verdict tells them."""
    papers(remarked)
    text = (remarked.out / "remarks.txt").read_text()
    assert_snapshot(SNAPSHOTS / "remarks.txt", text)
    assert is_own_text(text.encode())
    (verdict,) = (text for text in remarked.files().values() if b"marks-alike" in text)
    assert verdict.startswith(b"format: 2\nverdict: accepted\n")


def test_the_summary_counts_what_is_worth_a_look(remarked: Desk) -> None:
    repeats = papers(remarked)
    with existing_ledger(remarked.ledger) as ledger:
        summary = counts_told(counts_of(ledger), repeats)
    assert "two accepted puzzles with remarks: worth a look before printing" in summary.splitlines()


def test_a_list_of_remarks_that_has_become_empty_goes(remarked: Desk) -> None:
    papers(remarked)
    with new_or_existing_ledger(remarked.ledger) as ledger:
        ledger.change("DELETE FROM submissions WHERE address LIKE '%islands%' OR address LIKE '%bones%'")
        ledger.commit()
        write_papers(ledger, remarked.out)
    assert not (remarked.out / "remarks.txt").exists()


def test_the_summary_counts_verdicts_reasons_and_tiers(desk: Desk) -> None:
    repeats = papers(desk)
    with existing_ledger(desk.ledger) as ledger:
        assert_snapshot(SNAPSHOTS / "summary.txt", counts_told(counts_of(ledger), repeats) + "\n")


AS_THEY_ARE, COMPLEMENTED = (0, 1, 2, 3, 4), (0, 4, 3, 2, 1)
TRANSPOSED = tuple(cell % 4 * 4 + cell // 4 for cell in range(16))
ROWS_SWAPPED = (*range(4, 8), *range(4), *range(8, 16))  # the first two, which lie in one band


def test_duplicates_are_found_as_they_are_turned_and_in_disguise(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.box.mkdir()
    (tmp_path / "may").mkdir()
    (tmp_path / "may" / "p.yaml").write_bytes(written(ONE, "printed-long-ago"))
    (desk.box / "a.yaml").write_bytes(written(ONE, "same"))
    (desk.box / "b.yaml").write_bytes(
        written(Rearrangement(ONE.grid, TRANSPOSED, COMPLEMENTED).puzzle(ONE), "turned")
    )
    (desk.box / "c.yaml").write_bytes(
        written(Rearrangement(ONE.grid, ROWS_SWAPPED, AS_THEY_ARE).puzzle(ONE), "disguised")
    )
    (desk.box / "d.yaml").write_bytes(MIXED[1])
    assert desk.run(printed=tmp_path / "may").printed == 1
    with existing_ledger(desk.ledger) as ledger:
        (group,) = duplicates(ledger)
    assert [(like.id, like.printed, like.how) for like in group.members] == [
        ("printed-long-ago", True, Guise.SAME),
        ("same", False, Guise.SAME),
        ("turned", False, Guise.TURNED),
        ("disguised", False, Guise.DISGUISED),
    ]


def test_a_printed_puzzle_that_is_gone_is_no_longer_compared_with(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.box.mkdir()
    (desk.box / "a.yaml").write_bytes(SOUND)
    (tmp_path / "may").mkdir()
    (tmp_path / "may" / "p.yaml").write_bytes(SOUND)
    desk.run(printed=tmp_path / "may")
    assert desk.run(printed=tmp_path / "may").printed == 1
    assert desk.pool.done == []
    (tmp_path / "may" / "p.yaml").write_bytes(MIXED[1])
    desk.run(printed=tmp_path / "may")
    with existing_ledger(desk.ledger) as ledger:
        assert list(duplicates(ledger)) == []


def test_the_list_of_duplicates_is_in_words(desk: Desk) -> None:
    assert papers(desk).duplicates == 3
    assert_snapshot(SNAPSHOTS / "duplicates.txt", (desk.out / "duplicates.txt").read_text())


def test_duplicates_are_found_where_the_structure_took_too_long(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.box.mkdir()
    for name in ("a", "b"):
        (desk.box / f"{name}.yaml").write_bytes(SOUND)

    def without_structure(judged: Judged) -> Judged:
        assert judged.likeness is not None
        return replace(judged, likeness=replace(judged.likeness, structure=None))

    desk.run(change=without_structure)
    with existing_ledger(desk.ledger) as ledger:
        (group,) = duplicates(ledger)
    assert [like.how for like in group.members] == [Guise.SAME, Guise.SAME]


# One solution under several puzzles

GRID = ONE.grid
ONE_SOLUTION = only_solution(ONE)
assert ONE_SOLUTION is not None
RECUT = make_puzzle("killer", GRID, cages=[Cage((cell,), digit) for cell, digit in enumerate(ONE_SOLUTION)])
AS_GIVENS = make_puzzle("classic", GRID, givens=list(enumerate(ONE_SOLUTION)))
"""The solution of ONE under other cages, and under givens."""


def shared_in(desk: Desk, **more: Path) -> list[Group]:
    desk.run(**more)  # type: ignore[arg-type]
    with existing_ledger(desk.ledger) as ledger:
        return list(same_solutions(ledger))


def boxed(folder: Path, **puzzles: Puzzle) -> Desk:
    desk = Desk(folder)
    desk.box.mkdir()
    for name, puzzle in puzzles.items():
        (desk.box / f"{name}.yaml").write_bytes(written(puzzle, name))
    return desk


def test_one_solution_under_other_cages_is_found_in_disguise_too(tmp_path: Path) -> None:
    shuffled = Rearrangement(GRID, ROWS_SWAPPED, AS_THEY_ARE).puzzle(RECUT)
    (group,) = shared_in(boxed(tmp_path, a=ONE, b=shuffled, c=TWO))
    assert [(like.id, like.how) for like in group.members] == [("a", Guise.SAME), ("b", Guise.SOLUTION)]


def test_of_duplicates_that_share_a_solution_the_first_alone_is_named(tmp_path: Path) -> None:
    turned = Rearrangement(GRID, TRANSPOSED, COMPLEMENTED).puzzle(ONE)
    desk = boxed(tmp_path, a=ONE, b=turned, c=AS_GIVENS)
    (group,) = shared_in(desk)
    assert [like.id for like in group.members] == ["a", "c"]


def test_duplicates_alone_share_no_more_than_that(tmp_path: Path) -> None:
    assert shared_in(boxed(tmp_path, a=ONE, b=ONE)) == []


def test_the_solution_of_a_printed_puzzle_is_found_again(tmp_path: Path) -> None:
    desk = boxed(tmp_path, a=RECUT)
    (tmp_path / "may").mkdir()
    (tmp_path / "may" / "p.yaml").write_bytes(written(ONE, "printed-long-ago"))
    (group,) = shared_in(desk, printed=tmp_path / "may")
    assert [(like.id, like.printed) for like in group.members] == [("printed-long-ago", True), ("a", False)]


def test_printed_puzzles_that_share_a_solution_are_nothing_new(tmp_path: Path) -> None:
    desk = boxed(tmp_path, a=TWO)
    (tmp_path / "may").mkdir()
    for name, puzzle in (("p", ONE), ("q", RECUT)):
        (tmp_path / "may" / f"{name}.yaml").write_bytes(written(puzzle, name))
    assert shared_in(desk, printed=tmp_path / "may") == []


def test_a_shared_solution_is_told_in_a_list_of_its_own_and_to_no_setter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    desk = boxed(Path(), a=ONE, b=RECUT, c=AS_GIVENS)
    assert papers(desk) == Repeats(duplicates=0, same_solutions=1)
    assert_snapshot(SNAPSHOTS / "same-solution.txt", (desk.out / "same-solution.txt").read_text())
    letters = [path.read_text() for path in (desk.out / "for-setters").rglob("*.txt")]
    assert letters
    assert not [text for text in letters if "solution" in text or "somebody else" in text]
    assert set(desk.states().values()) == {"accepted"}


def test_of_thousands_with_one_solution_only_some_are_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("verifier.intake.papers.duplicates._MOST_NAMED", 2)
    (group,) = shared_in(boxed(tmp_path, a=ONE, b=RECUT, c=AS_GIVENS))
    assert ([like.id for like in group.members], group.more) == (["a", "b"], 1)


@pytest.mark.parametrize(
    ("title", "cell"),
    [
        ("=HYPERLINK(1)", "'=HYPERLINK(1)"),
        ("@SUM(1)", "'@SUM(1)"),
        ("-1+1", "'-1+1"),
        (" =1", "' =1"),
        ("\\n=1", "\n'=1"),
        ("tide\\n\\xa0+1", "tide\n' +1"),
        ("\\t=1", "' =1"),
        ("\uff1d1", "'\uff1d1"),
        ("low = tide", "low = tide"),
        ("\\e[31mred\\u202e", "\ufffd[31mred\ufffd"),
    ],
)
def test_a_title_cannot_become_a_formula_in_a_spreadsheet(tmp_path: Path, title: str, cell: str) -> None:
    desk = Desk(tmp_path)
    desk.box.mkdir()
    (desk.box / "a.yaml").write_bytes(SOUND + f'title: "{title}"\n'.encode())
    desk.run()
    with existing_ledger(desk.ledger) as ledger:
        (row,) = csv.DictReader(io.StringIO("".join(csv_lines(ledger))))
    assert row["title"] == cell


def test_the_lists_cannot_command_the_terminal(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.box.mkdir()
    evil = b'id: "\\e[31mred"\ntitle: "\\u202eturned"\nsetter: "\\a"\n'
    (desk.box / "a.yaml").write_bytes(MIXED[1].replace(b"id: ebb\nsetter: Wren Alder\n", evil))
    (desk.box / "b.yaml").write_bytes(UNREADABLE.replace(b"puzle", b'"\\e[31m"'))
    papers(desk)
    read = [path.read_text() for path in desk.out.rglob("*.txt")]
    assert read
    assert all(character.isprintable() or character == "\n" for text in read for character in text)
