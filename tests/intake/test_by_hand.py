"""What is to be looked at by hand, the figures over time and by setter, and the report on one page."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from scripts.build_corpus import CORPUS
from scripts.setting.classics import draw_classic
from tests.cli.command import called
from tests.evidence.stand_ins import NONE, ONE, TWO
from tests.intake.inline import lost_once
from tests.intake.letters.test_letters import TURNED, put
from tests.intake.test_run import Desk
from verifier.intake.ledger.ledger import existing_ledger
from verifier.intake.letters.writing import LetterSettings
from verifier.intake.papers.by_hand import Why, by_hand
from verifier.intake.papers.figures import by_setter, over_time
from verifier.intake.papers.one_page import one_page
from verifier.intake.workers.task import Judged, RunSettings
from verifier.puzzle.grid import Grid
from verifier.verdict.style.style import HouseStyle

OTHER = draw_classic(Grid.square(6), 1, 14)[0]


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.chdir(tmp_path)
    Path("box").mkdir()
    return Desk(Path())


def queue(desk: Desk) -> list[tuple[str, Why]]:
    with existing_ledger(desk.ledger) as ledger:
        return [(one.address.removeprefix("box/"), one.why) for one in by_hand(ledger)]


def test_what_is_plainly_accepted_or_rejected_is_not_to_be_looked_at(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren")
    put(desk, "b.yaml", TWO, "Wren")
    desk.run()
    assert queue(desk) == []


def test_several_setters_with_one_puzzle_are_named(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren")
    put(desk, "b.yaml", TURNED.puzzle(ONE), "Tamsin")
    put(desk, "c.yaml", OTHER, "Ivo")
    put(desk, "d.yaml", OTHER, " IVO")
    desk.run()
    with existing_ledger(desk.ledger) as ledger:
        (one,) = by_hand(ledger)
    assert (one.address, one.why) == ("box/a.yaml", Why.SETTERS)
    assert one.says == "It came from Wren (box/a.yaml) and Tamsin (box/b.yaml)."


def test_each_kind_is_found_the_most_pressing_first(desk: Desk) -> None:
    put(desk, "a.yaml", NONE, "Wren")
    put(desk, "b.yaml", replace(ONE, solution=(1, 2, 3, 4) * 4), "Wren")
    (desk.box / "c.yaml").write_bytes((CORPUS / "small" / "two-islands.yaml").read_bytes())
    put(desk, "d.yaml", OTHER, "Ivo")

    def change(judged: Judged) -> Judged:
        return lost_once(judged) if "d.yaml" in judged.address and judged.verdict else judged

    desk.run(change=change, letters=LetterSettings())
    assert queue(desk) == [
        ("d.yaml", Why.UNDECIDED),
        ("b.yaml", Why.SOLUTION),
        ("a.yaml", Why.MEND),
        ("c.yaml", Why.REMARK),
    ]


def test_one_limit_of_the_house_alone_is_worth_a_look(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren")
    desk.run(RunSettings(HouseStyle("By Lamplight", smallest_cage=4)))
    assert queue(desk) == [("a.yaml", Why.LIMIT)]
    desk.run(RunSettings(HouseStyle("By Lamplight", smallest_cage=4, grids=("9x9",))))
    assert queue(desk) == []


def test_a_correction_with_another_solution_is_to_be_looked_at(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren", name="tide-7")
    desk.run()
    put(desk, "b.yaml", OTHER, "Wren", name="tide-7")
    desk.run()
    assert queue(desk) == [("b.yaml", Why.CORRECTION)]


def test_figures_by_setter_and_over_time(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "Wren")
    put(desk, "b.yaml", TWO, "wren")
    desk.run()
    put(desk, "c.yaml", NONE, "Tamsin")
    desk.run()
    with existing_ledger(desk.ledger) as ledger:
        setters, times = by_setter(ledger), over_time(ledger)
    assert [(one.name, one.sent, one.share, one.commonest_fault) for one in setters] == [
        ("Wren", 2, 0.5, "several-solutions"),
        ("Tamsin", 1, 0.0, "no-solution"),
    ]
    assert sum(setters[0].tiers.values()) == 1
    assert [(one.sent, one.accepted) for one in times] == [(2, 1), (1, 0)]


def test_the_report_stands_with_the_verdicts_and_says_the_same_when_made_again(desk: Desk) -> None:
    put(desk, "a.yaml", ONE, "<b>Wren</b>", "<i>Ebb</i>")
    put(desk, "b.yaml", TURNED.puzzle(ONE), "Tamsin")
    done = called("intake", "box", "--out", "out", "--ledger", "l.db", "--jobs", 1, folder=Path.cwd())
    assert done.code == 0
    text = Path("out/report.html").read_text()
    with existing_ledger(Path("l.db")) as ledger:
        assert one_page(ledger, "out") == text
    assert "several setters with one puzzle" in text
    assert "&lt;i&gt;Ebb&lt;/i&gt; (box/a.yaml)" in text
    assert "<b>Wren" not in text
    listed = called("intake", "--report", "--ledger", "l.db", "--list", "by-hand", folder=Path.cwd())
    assert listed.out.startswith("several setters with one puzzle:  box/a.yaml  <i>Ebb</i>  It came from")
