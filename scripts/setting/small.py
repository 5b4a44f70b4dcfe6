"""Small random puzzles with a rule of one kind, sound or not: some have a wrong clue, some too few."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from random import Random

from scripts.setting.chance import shuffled
from scripts.setting.clues.drawing import CLUES, drawn_clues
from scripts.setting.clues.misdrawn import SLIPS
from scripts.setting.empty_grids import boxless, crooked, diagonals, no_repeats, not_consecutive, windows
from scripts.setting.kakuro import draw_kakuro
from scripts.setting.ruled import random_filling
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.rule import Rule

__all__ = ["KINDS", "small_puzzle"]

_FOUR, _SIX = Grid.square(4), Grid.square(6)
_WRONG = 0.3
"""How often a clue or a given is another than the filling has it."""


def small_puzzle(kind: str, seed: int) -> Puzzle:
    """Return a small puzzle; it may have any number of solutions.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    seed : int
        The same seed gives the same puzzle.

    Examples
    --------
    >>> puzzle = small_puzzle("renban", 3)
    >>> puzzle.grid.name, "renban" in puzzle.kinds_of_rules
    ('4x4', True)
    """
    rng = Random(seed)
    return _wrong_now_and_then(KINDS[kind](seed, rng), rng)


def _with_clues(kind: str, _: int, rng: Random) -> Puzzle:
    grid = _FOUR if rng.random() < 0.5 else _SIX
    empty = make_puzzle("classic", grid)
    filling = random_filling(empty, rng)
    wanted = {kind: 1 + int(rng.random() * grid.digits)}
    return _with_givens(empty.changed([], drawn_clues(wanted, empty, filling, rng)), filling, rng)


def _of_houses(empty: Callable[[Grid], Puzzle], grids: tuple[Grid, ...], _: int, rng: Random) -> Puzzle:
    puzzle = empty(grids[int(rng.random() * len(grids))])
    return _with_givens(puzzle, random_filling(puzzle, rng), rng)


def _kakuro(seed: int, rng: Random) -> Puzzle:
    """Return a kakuro, now and then without one of its totals."""
    puzzle, _ = draw_kakuro(5, 5, seed, 0.6, 4)
    cage = shuffled(puzzle.cages, rng)[0]
    return puzzle.changed([cage], [Different(cage.cells)]) if rng.random() < 0.5 else puzzle


def _with_givens(puzzle: Puzzle, filling: tuple[int, ...], rng: Random) -> Puzzle:
    share = rng.random() * 0.4 if puzzle.grid.digits > 4 else rng.random() * 0.25
    cells = [cell for cell in puzzle.grid.cells if rng.random() < share]
    return puzzle.changed([], [Given(cell, filling[cell]) for cell in cells])


def _wrong_now_and_then(puzzle: Puzzle, rng: Random) -> Puzzle:
    if rng.random() >= _WRONG:
        return puzzle
    slips: list[tuple[Rule, Rule]] = [
        (rule, other)
        for rule in puzzle.rules
        if type(rule) in SLIPS
        for other, _ in SLIPS[type(rule)](rule, puzzle)
    ]
    slips += [
        (rule, Given(rule.cell, rule.digit % puzzle.grid.digits + 1))
        for rule in puzzle.rules
        if type(rule) is Given
    ]
    for rule, other in shuffled(slips, rng)[:1]:
        return puzzle.changed([rule], [other])
    return puzzle


KINDS: Mapping[str, Callable[[int, Random], Puzzle]] = {
    "irregular": partial(_of_houses, crooked, (_SIX,)),
    "no boxes": partial(_of_houses, boxless, (_FOUR, _SIX)),
    "diagonals": partial(_of_houses, diagonals, (_FOUR, _SIX)),
    "extra houses": partial(_of_houses, windows, (_SIX,)),
    "knight": partial(_of_houses, partial(no_repeats, "knight"), (_SIX,)),
    "king": partial(_of_houses, partial(no_repeats, "king"), (_SIX,)),
    "not consecutive": partial(_of_houses, not_consecutive, (_SIX,)),
    "kakuro": _kakuro,
    **{kind: partial(_with_clues, kind) for kind in CLUES},
}
"""How a puzzle of each kind is drawn."""
