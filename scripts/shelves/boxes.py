"""Whole boxes of submissions: many puzzles in one file, good, bad and torn ones side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from scripts.setting.broken import Broken
from scripts.setting.classics import draw_classic
from scripts.setting.doubts import misprinted_given, thinned, two_ways
from scripts.setting.files import as_json, as_line, as_list, as_map
from scripts.setting.killers import Draft, draw_killer
from scripts.setting.shelf import REJECTED, Item, ShelfFile, stream
from scripts.setting.slips import impossible_total, missed_full_sum
from scripts.shelves.sound import EASY, MIXED, NINE, PAIRS, titled
from scripts.shelves.unreadable import unreadable
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle

__all__ = ["box_files"]

SIX = Grid.square(6)


def box_files() -> Iterator[ShelfFile]:
    """Yield the folder ``boxes``."""
    yield stream("boxes/spring-post.yaml", "---\n", *_spring())
    yield stream("boxes/summer-post.jsonl", "", *_summer())
    yield stream("boxes/bare-lines.txt", "", *_lines())


def _spring() -> Iterator[Item]:
    """Yield the puzzles of a stream of YAML."""
    yield _sound(as_map, _named(_killer(301), 1, "Almanac", "Odile"))
    yield _broken(as_map, two_ways(_killer(331), 331), 2, "Weathercock", "Jory")
    yield _sound(as_list, _named(_killer(303, EASY), 3, "Cork float", "Wren"))
    torn = as_map(_named(_killer(304), 4, "Torn sail", "Otis")).replace("totals:", "totls:")
    yield unreadable(torn, "'totls' for 'totals'", "missing-key", "unknown-key")
    yield _broken(as_map, missed_full_sum(_killer(305, EASY), 1), 5, "Tally stick", "Ivo")
    yield _sound(as_map, _named(draw_classic(NINE, 306, 24)[0], 6, "Ferry queue", "Juno"))


def _summer() -> Iterator[Item]:
    """Yield the lines of JSON Lines."""
    yield _sound(as_json, _named(_killer(311), 11, "Sun dial", "Tamsin"))
    yield _sound(as_json, _named(_killer(312, MIXED, SIX), 12, "Sand bucket", "Marigold"))
    yield _broken(as_json, impossible_total(_killer(313, bare=0.2), 2, 19), 13, "Melted ice", "Otis")
    yield unreadable('{"puzzle": "killer", "grid": "9x9", "cages": [\n', "a line that breaks off", "not-json")
    yield _sound(as_json, _named(draw_classic(SIX, 314, 10)[0], 14, "Paper boat", "Juno"))


def _lines() -> Iterator[Item]:
    """Yield bare lines of 81 characters, which have no room for credits."""
    for seed in (321, 322):
        yield _sound(as_line, draw_classic(NINE, seed, 24)[0])
    yield _item(as_line, thinned(draw_classic(NINE, 323, 24)[0], 0.5, 323))
    yield _item(as_line, misprinted_given(draw_classic(NINE, 324, 24)[0], 324))
    yield unreadable("8" * 9 + "." * 70 + "\n", "a line of 79 characters", "bare-length")


_Form = Callable[[Puzzle], str]


def _killer(seed: int, sizes: dict[int, float] = PAIRS, grid: Grid = NINE, bare: float = 0.0) -> Puzzle:
    return draw_killer(grid, Draft(seed, sizes, bare))[0]


def _named(puzzle: Puzzle, number: int, title: str, setter: str) -> Puzzle:
    return titled(puzzle, f"post-{number:02}", title, setter)


def _sound(form: _Form, puzzle: Puzzle) -> Item:
    return Item(form(puzzle), "drawn with one solution", puzzle=puzzle)


def _broken(form: _Form, broken: Broken, number: int, title: str, setter: str) -> Item:
    return _item(form, broken._replace(puzzle=_named(broken.puzzle, number, title, setter)))


def _item(form: _Form, broken: Broken) -> Item:
    return Item(form(broken.puzzle), broken.made, REJECTED, broken.codes, broken.solutions, broken.puzzle)
