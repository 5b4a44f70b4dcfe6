"""The study that audits steps, on few puzzles."""

from __future__ import annotations

from collections import defaultdict

from scripts.study_audit import Line, Task, audited, top_up
from tests.corpus.puzzles import puzzle_at

KILLER = puzzle_at("killers/storm-cone.yaml")


def test_the_steps_of_a_replay_pass() -> None:
    lines = audited(Task(KILLER, each=1, rare=1))
    assert sum(line.audited for line in lines.values()) >= len(lines) > 5
    assert not any(line.failed for line in lines.values())


def test_a_technique_that_no_replay_needs_is_audited_on_boards_along_the_way() -> None:
    lines: defaultdict[str, Line] = defaultdict(Line)
    top_up(lines, [Task(KILLER, each=1, rare=1)], at_least=1)
    quads = lines["naked-quad"]
    assert (quads.found, quads.failed) == (0, [])
    assert quads.audited >= 1
