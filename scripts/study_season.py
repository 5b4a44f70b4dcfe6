"""A season at an editor's desk: a box every week, a page every week, and what must hold of all of it.

    python -m scripts.study_season                    26 weeks of 40 submissions
    python -m scripts.study_season --weeks 4 --per-week 20 --jobs 1

In each box there are new puzzles, disguised repeats, slips, corrections of earlier slips, late files in an
archive and files that cannot be read; in week 9 the house style changes. After each box a page of seven
slots is planned and taken, and the one before it printed. Whatever is checked is known from how the box was
made, or is worked out here, by another method. Exit 1: a verdict was wrong, a repeat printed, a setter twice
on a page, or a slot left empty although something fits.
"""

from __future__ import annotations

import json
import os
import subprocess
import tempfile
import time
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path
from typing import Annotated, Any

import networkx as nx
import typer

from scripts.season.post import Post, Sent
from scripts.timing.runs import GRIDPROOF
from verifier.intake.ledger.ledger import existing_ledger
from verifier.intake.ledger.placements import placements
from verifier.intake.plan.slots import Candidate, Page
from verifier.intake.plan.slots_reading import read_slots_text
from verifier.puzzle.puzzle import Puzzle

__all__ = ["main"]

_FIRST = date(2026, 3, 30)
_NEW_STYLE_IN = 9
_LARGEST_CAGE = 4
_OLD_STYLE = "name: By Lamplight\ncredits: [title, setter]\n"
_NEW_STYLE = f"{_OLD_STYLE}largest_cage: {_LARGEST_CAGE}\nsmallest_cage: 2\n"
_SLOTS = """\
name: By Lamplight
slots:
  - {name: Monday, kind: classic, grid: 6x6}
  - {name: Tuesday, kind: killer, grid: 6x6}
  - {name: Wednesday, kind: classic, grid: 9x9, tiers: [1, 2]}
  - {name: Thursday, kind: killer, grid: 6x6, tiers: [2, 3]}
  - {name: Friday, kind: classic, grid: 9x9}
  - {name: Saturday, kind: killer, grid: 9x9, tiers: [2, 3]}
  - {name: Sunday, kind: killer, grid: 9x9, least_effort: 280}
"""
_INTAKE = ("intake", "post", "--out", "out", "--style", "style.yaml")
_PLAN = ("plan", "--slots", "week.yaml", "--take", "--out", "week")


@dataclass
class _Season:
    """What was found wrong, week by week."""

    wrong: list[str] = field(default_factory=list)
    printed: set[int] = field(default_factory=set)
    filled: int = 0
    empty: int = 0

    def expect(self, holds: object, says: str) -> None:
        if not holds:
            self.wrong.append(says)
            print(f"  WRONG: {says}")


def main(
    weeks: Annotated[int, typer.Option(help="How many weeks.")] = 26,
    per_week: Annotated[int, typer.Option(help="Submissions a week, at least 20.")] = 40,
    jobs: Annotated[int, typer.Option(help="Processes.")] = 2,
    repairs: Annotated[int, typer.Option(help="Most broken puzzles of a run to look for repairs of.")] = 5,
    seed: Annotated[int, typer.Option(help="Of the season.")] = 1,
) -> None:
    """Play a season, and check it."""
    season = _Season()
    (page, _) = read_slots_text(_SLOTS.encode(), "week.yaml")
    assert page is not None
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "week.yaml").write_text(_SLOTS)
        post = Post(folder / "post", seed, per_week)
        for week in range(1, weeks + 1):
            (folder / "style.yaml").write_text(_NEW_STYLE if week >= _NEW_STYLE_IN else _OLD_STYLE)
            number = post.come_in(week)
            first = _FIRST + timedelta(weeks=week - 1)
            words = (
                "intake",
                "post",
                "--out",
                "out",
                "--style",
                "style.yaml",
                "--jobs",
                jobs,
                "--repairs",
                repairs,
            )
            judging = _called(folder, first, *words)
            if week > 1:
                _called(folder, first, "plan", "--printed-on", first - timedelta(days=1))
            before = _stock(folder, post)
            planning = _called(folder, first, *_PLAN, "--first", first)
            _check_verdicts(season, folder, post, week)
            _check_page(season, folder, post, page, first, before)
            size = (folder / "season.db").stat().st_size / 2**20
            took = f"{judging:5.1f} s for the box, {planning:4.1f} s for the page"
            print(f"week {week:>2}: {number} in, {took}, ledger {size:5.1f} MiB", flush=True)
    print(
        f"{weeks} weeks, {len(post.sent)} puzzles and {post.unreadable} unreadable files; "
        f"{season.filled} slots filled, {season.empty} empty; {len(season.printed)} puzzles on pages; "
        f"{len(season.wrong)} things wrong"
    )
    raise typer.Exit(int(bool(season.wrong)))


def _called(folder: Path, day: date, *words: object) -> float:
    """Run a command on a day, and return its seconds; what must not happen ends the study."""
    at = int(time.mktime(day.timetuple()))
    started = time.monotonic()
    done = subprocess.run(
        [*GRIDPROOF, *map(str, words), "--ledger", "season.db"],
        cwd=folder,
        env={**os.environ, "SOURCE_DATE_EPOCH": str(at + 43_200)},
        capture_output=True,
        text=True,
    )
    if done.returncode not in (0, 1, 2) or "Traceback" in done.stderr:
        raise SystemExit(f"{words}: exit {done.returncode}\n{done.stdout}\n{done.stderr}")
    return time.monotonic() - started


def _exported(folder: Path) -> list[Mapping[str, Any]]:
    words = [*GRIDPROOF, "intake", "--report", "--ledger", "season.db", "--jsonl", "-"]
    text = subprocess.run(words, cwd=folder, capture_output=True, text=True, check=True).stdout
    return [json.loads(line) for line in text.splitlines()]


def _accepted(sent: Sent, week: int) -> bool:
    """Whether a puzzle must be accepted, by how it was made."""
    return sent.sound and (week < _NEW_STYLE_IN or _fits_new_style(sent.puzzle))


def _fits_new_style(puzzle: Puzzle) -> bool:
    return all(2 <= len(cage.cells) <= _LARGEST_CAGE for cage in puzzle.cages)


def _check_verdicts(season: _Season, folder: Path, post: Post, week: int) -> None:
    """Hold every verdict against what is known, and every repeat against the family."""
    counted = [record for record in _exported(folder) if record["id"] and record["counts"]]
    known = {record["id"] for record in counted} == post.sent.keys()
    season.expect(known, f"week {week}: other puzzles than were sent")
    firsts: Counter[int] = Counter()
    for record in counted:
        sent = post.sent[record["id"]]
        expected = "accepted" if _accepted(sent, week) else "rejected"
        state = record["state"]
        season.expect(state == expected, f"week {week}: {sent.id} is {state}, not {expected}")
        firsts[sent.family] += not record["repeats"]
    odd = [family for family in {sent.family for sent in post.sent.values()} if firsts[family] != 1]
    season.expect(not odd, f"week {week}: of families {odd[:5]} not one puzzle repeats nothing")


def _stock(folder: Path, post: Post) -> list[Candidate]:
    """Return what can be printed, one of each family, as far as this script can tell."""
    with existing_ledger(folder / "season.db") as ledger:
        gone = {one.submission for one in placements(ledger)}
        rows = ledger.rows(
            "SELECT submission, id, title, setter, kind, grid, tier, effort FROM submissions"
            " WHERE state = 'accepted' AND replaced_by IS NULL ORDER BY arrived, place, address"
        )
        found = [
            Candidate(str(number), name, title, setter, kind, grid, tier, effort, None, "", None)
            for number, name, title, setter, kind, grid, tier, effort in rows
        ]
    taken = {post.sent[one.id or ""].family for one in found if int(one.key) in gone}
    return [one for one in found if post.sent[one.id or ""].family not in taken]


def _check_page(
    season: _Season, folder: Path, post: Post, page: Page, first: date, before: Iterable[Candidate]
) -> None:
    """Hold the page against its rules, and its empty slots against what could have been had."""
    with existing_ledger(folder / "season.db") as ledger:
        days = {first + timedelta(days=at) for at in range(len(page.slots))}
        chosen = [one for one in placements(ledger) if one.day in days]
        wanted = "SELECT id FROM submissions WHERE submission = ?"
        names = [name for one in chosen for (name,) in ledger.rows(wanted, (one.submission,))]
    puzzles = [post.sent[name] for name in names]
    setters = [sent.puzzle.credits.setter for sent in puzzles]
    families = {sent.family for sent in puzzles}
    season.expect(len(set(setters)) == len(setters), f"{first}: a setter is on the page twice")
    season.expect(len(families) == len(puzzles), f"{first}: the page repeats itself")
    season.expect(not families & season.printed, f"{first}: a puzzle is printed again")
    season.printed |= families
    possible = _most_slots(page, before, post)
    season.expect(len(chosen) == possible, f"{first}: {len(chosen)} slots are filled, and {possible} can be")
    season.filled += len(chosen)
    season.empty += len(page.slots) - len(chosen)


def _most_slots(page: Page, stock: Iterable[Candidate], post: Post) -> int:
    """Return how many slots can be filled with setters of their own, by a matching.

    A family belongs to who sent it first. No two families have one solution, so nothing else is in the way.
    """
    firsts: dict[int, Candidate] = {}
    for puzzle in stock:
        firsts.setdefault(post.sent[puzzle.id or ""].family, puzzle)
    graph: nx.Graph[Any] = nx.Graph()
    slots = [f"slot {at}" for at in range(len(page.slots))]
    graph.add_nodes_from(slots)
    for at, slot in enumerate(page.slots):
        graph.add_edges_from((slots[at], one.setter) for one in firsts.values() if slot.takes(one))
    return len(nx.bipartite.maximum_matching(graph, top_nodes=slots)) // 2


if __name__ == "__main__":
    typer.run(main)
