"""The boxes of the season are what the study takes them for."""

from __future__ import annotations

from pathlib import Path

from scripts.season.post import Post
from scripts.setting.plain import plain_count
from tests.intake.boxes import found_in
from verifier.likeness.repeats import in_disguise, likeness_of


def test_each_box_has_its_number_of_submissions(tmp_path: Path) -> None:
    post = Post(tmp_path, seed=1, per_week=20)
    numbers = [post.come_in(week) for week in (1, 2, 3, 4)]
    assert numbers == [20] * 4
    assert [len(found_in(tmp_path / f"week-{week:02}")) for week in (1, 2, 3, 4)] == numbers


def test_sound_and_broken_puzzles_are_what_they_are_said_to_be(tmp_path: Path) -> None:
    post = Post(tmp_path, seed=2, per_week=20)
    post.come_in(1)
    small = [sent for sent in post.sent.values() if sent.puzzle.grid.digits == 6]
    assert {sent.sound for sent in small} == {True, False}
    assert all((plain_count(sent.puzzle) == 1) is sent.sound for sent in small)


def test_a_repeat_is_alike_to_its_family_and_to_no_other(tmp_path: Path) -> None:
    post = Post(tmp_path, seed=3, per_week=20)
    for week in (1, 2):
        post.come_in(week)
    families: dict[str | None, set[int]] = {}
    for sent in post.sent.values():
        key = in_disguise(likeness_of(sent.puzzle), sent.puzzle, None).structure
        families.setdefault(key, set()).add(sent.family)
    assert all(len(family) == 1 for family in families.values())
    assert len({sent.family for sent in post.sent.values()}) == len(families) < len(post.sent)
