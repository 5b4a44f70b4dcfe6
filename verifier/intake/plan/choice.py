"""The choice of a page as an assignment: which puzzle stands in which slot.

The model, over the slots ``s`` and the puzzles ``p`` that fit them by themselves:

- ``x[s, p]``: the puzzle stands in the slot. A slot holds one puzzle at most, a puzzle stands in one slot at
  most; of puzzles that repeat one another, and of puzzles with one solution, one is taken at most; of one
  setter, so many.
- ``level[s]``: the effort in the slot; in an empty one, any. ``falls[s]``: the level falls to the next slot.
- ``again[t]``: how many puzzles beside the first give way by the technique ``t``.

What is best is settled in turn, each time without giving up what was reached before: as many slots filled as
can be; then as few falls as can be; then as few break-ins by one technique; then slot by slot, from the first
to the last, the puzzle that comes first in the stock. So the choice is one alone, whatever the solver does.

Of a large stock, the first puzzles that fit each slot are tried; all of it only where more could perhaps be
had (`verifier.intake.plan.bounds`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from ortools.sat.python import cp_model

from verifier.intake.plan.bounds import least_falls, least_repeated
from verifier.intake.plan.slots import Candidate, Degree, Page, Slot
from verifier.intake.setters import same_setter

__all__ = ["Choice", "choose", "falls", "repeated_break_ins"]

_TRIED = 20
"""Puzzles that are tried for a slot, beside two for each slot of the page."""

_WORK = 15.0
"""What all questions to the solver may take, in its deterministic units: roughly seconds."""

_LEAST_WORK = 0.1


@dataclass(frozen=True, slots=True)
class Choice:
    """What stands in each slot.

    Parameters
    ----------
    puzzles : tuple of Candidate or None
        By slot; None where it stays empty.
    best : bool
        Whether it is proved that no choice is better.
    """

    puzzles: tuple[Candidate | None, ...]
    best: bool = True


def choose(page: Page, stock: Sequence[Candidate], taken: Mapping[int, Candidate] | None = None) -> Choice:
    """Choose the puzzles of a page.

    Parameters
    ----------
    page : Page
        What is asked for.
    stock : sequence of Candidate
        What may be printed, what should be printed first coming first.
    taken : mapping of int to Candidate, optional
        What stands in some slots already, whatever they ask for.

    Examples
    --------
    >>> from verifier.intake.plan.slots import Slot
    >>> wren, tam = (
    ...     Candidate(n, n, n, n, "killer", "9x9", 3, effort, None, n, None)
    ...     for n, effort in (("wren", 180), ("tam", 120))
    ... )
    >>> chosen = choose(Page((Slot("Monday", tiers=(3,)), Slot("Tuesday"))), [wren, tam])
    >>> [puzzle.id for puzzle in chosen.puzzles]
    ['tam', 'wren']
    """
    taken = taken or {}
    options = [
        [taken[at]] if at in taken else [puzzle for puzzle in stock if _fits(page, slot, puzzle)]
        for at, slot in enumerate(page.slots)
    ]
    tried = _first_of(options, stock)
    choice = _Assignment(page, tried, taken).solved()
    if len(tried) < len(stock) and not _leaves_nothing(page, options, choice):
        among_all = _Assignment(page, stock, taken).solved(down_to_the_order=False)
        picked = [puzzle for puzzle in stock if puzzle in {*tried, *among_all.puzzles}]
        choice = _Assignment(page, picked, taken).solved()
        choice = replace(choice, best=choice.best and among_all.best)
    return choice


def _fits(page: Page, slot: Slot, puzzle: Candidate) -> bool:
    return slot.takes(puzzle) and not puzzle.lacking(page.credits)


def _first_of(options: Sequence[Sequence[Candidate]], stock: Sequence[Candidate]) -> list[Candidate]:
    """Return the first puzzles of the stock that fit each slot, and of each break-in the very first."""
    most, first = _TRIED + 2 * len(options), set[Candidate]()
    for fitting in options:
        first |= {*fitting[:most], *{puzzle.break_in: puzzle for puzzle in reversed(fitting)}.values()}
    return [puzzle for puzzle in stock if puzzle in first]


def _leaves_nothing(page: Page, options: Sequence[Sequence[Candidate]], choice: Choice) -> bool:
    """Whether it is plain that no choice at all could fill more slots, or fulfil more wishes."""
    puzzles = choice.puzzles
    again = sum(len(places) - 1 for places in repeated_break_ins(puzzles).values())
    return (
        all(puzzle is not None or not fitting for puzzle, fitting in zip(puzzles, options, strict=True))
        and (page.rising is not Degree.WISH or len(falls(puzzles)) == least_falls(options))
        and (page.varied is not Degree.WISH or again == least_repeated(options))
    )


def falls(puzzles: Sequence[Candidate | None]) -> list[tuple[int, int]]:
    """Return the slots next to one another, empty ones passed over, of which the later takes less effort."""
    filled = [(at, puzzle.effort) for at, puzzle in enumerate(puzzles) if puzzle is not None]
    return [(one, other) for (one, high), (other, low) in pairwise(filled) if low < high]


def repeated_break_ins(puzzles: Sequence[Candidate | None]) -> dict[str, list[int]]:
    """Return the techniques by which several puzzles give way, and their slots."""
    slots = defaultdict(list)
    for at, puzzle in enumerate(puzzles):
        if puzzle is not None and puzzle.break_in is not None:
            slots[puzzle.break_in].append(at)
    return {technique: places for technique, places in slots.items() if len(places) > 1}


class _Assignment:
    """The model, and the questions to the solver. Working memory."""

    def __init__(self, page: Page, stock: Sequence[Candidate], taken: Mapping[int, Candidate]) -> None:
        self._page = page
        self._puzzles = [*taken.values(), *stock]  # what is taken has the first numbers
        self._model = cp_model.CpModel()
        fixed = dict(zip(taken, range(len(taken)), strict=True))
        self._x: dict[tuple[int, int], cp_model.IntVar] = {}
        for at, slot in enumerate(page.slots):
            fitting = [fixed[at]] if at in fixed else self._fitting(slot, len(taken))
            for number in fitting:
                self._x[at, number] = self._model.new_bool_var(f"slot {at} takes {number}")
        for place in fixed.items():
            self._model.add(self._x[place] == 1)
        self._found = dict(fixed)  # the puzzle of each slot, as far as the solver has come
        self._best = True
        self._work = _WORK
        self._post(set(fixed.values()))

    def _fitting(self, slot: Slot, taken: int) -> Iterable[int]:
        for number, puzzle in enumerate(self._puzzles[taken:], start=taken):
            if _fits(self._page, slot, puzzle):
                yield number

    def _post(self, taken: set[int]) -> None:
        puzzles = self._puzzles
        for at in range(len(self._page.slots)):
            self._model.add_at_most_one(self._in_slot(at).values())
        self._at_most(1, str, taken)
        self._at_most(1, lambda number: puzzles[number].alike, taken)
        self._at_most(1, lambda number: puzzles[number].solution, taken)
        setters = [same_setter(puzzle.setter or "") or None for puzzle in puzzles]
        self._at_most(self._page.per_setter, setters.__getitem__, taken)
        if self._page.varied is Degree.MUST:
            self._at_most(1, lambda number: puzzles[number].break_in, taken)

    def _in_slot(self, at: int) -> dict[int, cp_model.IntVar]:
        """Return whether each puzzle that fits a slot stands there, by its number."""
        return {number: x for (slot, number), x in self._x.items() if slot == at}

    def _at_most(self, most: int, key_of: Callable[[int], str | None], taken: set[int]) -> None:
        """Take at most so many puzzles with one key; as many as are taken, where that is more."""
        for numbers, placed in self._by_key(key_of):
            self._model.add(sum(placed) <= max(most, len(numbers & taken)))

    def _by_key(self, key_of: Callable[[int], str | None]) -> list[tuple[set[int], list[cp_model.IntVar]]]:
        """Return the puzzles with one key, and whether each of them stands in each slot that it fits."""
        found: dict[str, tuple[set[int], list[cp_model.IntVar]]] = {}
        for (_, number), x in self._x.items():
            key = key_of(number)
            if key is not None:
                numbers, placed = found.setdefault(key, (set(), []))
                numbers.add(number)
                placed.append(x)
        return list(found.values())

    def _again(self) -> cp_model.LinearExprT:
        """Return how many puzzles give way by a technique by which another one does."""
        again = []
        for _, placed in self._by_key(lambda number: self._puzzles[number].break_in):
            more = self._model.new_int_var(0, len(self._page.slots), "again")
            self._model.add(more >= sum(placed) - 1)
            again.append(more)
        return sum(again)

    def _falls(self) -> cp_model.LinearExprT:
        """Return how often the effort falls from a slot to the next; in an empty slot it may be any."""
        highest = max((puzzle.effort for puzzle in self._puzzles), default=0)
        levels, fallen = [], []
        for at in range(len(self._page.slots)):
            placed = self._in_slot(at)
            free = self._model.new_int_var(0, highest, f"free {at}")
            self._model.add(free <= highest * (1 - sum(placed.values())))
            levels.append(free + sum(self._puzzles[number].effort * x for number, x in placed.items()))
        for level, after in pairwise(levels):
            falls_here = self._model.new_bool_var("falls")
            self._model.add(level - after <= highest * falls_here)
            fallen.append(falls_here)
        return sum(fallen)

    def solved(self, *, down_to_the_order: bool = True) -> Choice:
        """Settle one thing after the other; the order of the stock comes last."""
        page = self._page
        if page.rising is Degree.MUST:
            self._model.add(self._falls() == 0)
        self._settle(-sum(self._x.values()))
        if page.rising is Degree.WISH:
            self._settle(self._falls())
        if page.varied is Degree.WISH:
            self._settle(self._again())
        for at in range(len(page.slots) if down_to_the_order else 0):
            last = len(self._puzzles)  # an empty slot comes after all puzzles
            self._settle(sum((number - last) * x for number, x in self._in_slot(at).items()))
        chosen = (self._found.get(at) for at in range(len(page.slots)))
        return Choice(tuple(None if n is None else self._puzzles[n] for n in chosen), self._best)

    def _settle(self, cost: cp_model.LinearExprT) -> None:
        """Find the least cost, and let it rise no more."""
        if isinstance(cost, int):  # no puzzle fits: there is nothing to choose
            return
        self._model.minimize(cost)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        solver.parameters.max_deterministic_time = self._work
        status = solver.solve(self._model)
        self._work = max(self._work - solver.deterministic_time, _LEAST_WORK)
        self._best = self._best and status == cp_model.OPTIMAL
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return
        self._found = {at: number for (at, number), x in self._x.items() if solver.boolean_value(x)}
        self._model.add(cost <= round(solver.objective_value))
