"""What a conclusion of a branch rests on: traced back to the assumption and to what was open before it.

A candidate that has gone in a branch was taken by a digit that was written in, by the open combinations of
its cage, by the ways to fill a clue, or by the assumption. Why that digit was written in, and why these
combinations or ways are open, is traced back in turn. What was closed before the assumption is looked
at, and needs no other reason.
"""

from __future__ import annotations

from collections.abc import Iterable

from grader.board.basis import Basis, sight
from grader.board.patterns import Fork
from grader.board.steps import Step
from grader.reasoning.assignments import differing
from grader.reasoning.lines_of_forcing.branch import BY_ASSUMPTION, BY_NAKED_SINGLE, Branch
from grader.reasoning.pairs import bar
from verifier.puzzle.masks import bits

__all__ = ["TracedPremises"]

_Fact = tuple[int, int]  # a cell and a digit that has gone from it


class TracedPremises:
    """Houses, cages and cells looked at, gathered from conclusions of one or more branches.

    Attributes
    ----------
    rules, looks : set of int
        As in a `Step`.
    line : dict of int to int
        The digits that were written in on the way, by cell.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.reasoning.lines_of_forcing.branch import Origin
    >>> board = board_from_text("12 12 123", size=4)
    >>> branch = Branch(Origin(board), 2, 1)
    >>> branch.run()
    >>> premises = TracedPremises()
    >>> premises.add_contradiction(branch)
    >>> sorted(premises.looks), [board.layout.houses[house].name for house in sorted(premises.rules)]
    ([0, 1], ['row 1'])
    """

    def __init__(self) -> None:
        self.line: dict[int, int] = {}
        self.rules: set[int] = set()
        self.looks: set[int] = set()

    def add(self, basis: Basis) -> None:
        """Add what is known to be needed."""
        self.rules.update(bits(basis.rules))
        self.looks.update(bits(basis.looks))

    def add_contradiction(self, branch: Branch) -> None:
        """Add all that it rests on that a branch fails."""
        trace, end = _Trace(branch, self), branch.failure
        assert end is not None, "only a contradicted branch has a contradiction to trace"
        if end.kind == "cell":
            self.looks.add(end.where)
            facts = trace.gone_from([end.where])
        elif end.kind == "house":
            self.rules.add(end.where)
            facts = [(cell, end.digit) for cell in branch.board.layout.houses[end.where].cells]
        elif end.kind == "cage":
            facts = trace.cage_facts(end.where)
        elif end.kind == "clue":
            facts = trace.clue_facts(end.where)
        else:
            facts = [(end.where, end.digit), *trace.reason_facts(end.where, end.digit, end.reason)]
        trace.back_from(facts)

    def add_removal(self, branch: Branch, cell: int, digit: int) -> int:
        """Add all that it rests on that a candidate goes; return the level at which it does."""
        trace = _Trace(branch, self)
        trace.back_from([(cell, digit)])
        return max(trace.when(cell, digit)[0], 1)

    def add_closed(self, branch: Branch, cells: Iterable[int]) -> None:
        """Add all that it rests on that some cells hold no more than they do by now."""
        digits, open_now = branch.board.layout.all_digits, branch.candidates
        facts = [(cell, digit) for cell in cells for digit in bits(digits & ~open_now[cell])]
        _Trace(branch, self).back_from(facts)
        self.looks.update(cells)

    def step(
        self,
        technique: str,
        cell: int,
        digit: int,
        *,
        focus: tuple[int, ...],
        digits: int,
        length: int,
        pattern: Fork | None = None,
    ) -> Step:
        """Return the step that removes a candidate on these premises; the other fields are as in `Step`."""
        return Step(
            technique,
            removes=((cell, 1 << digit),),
            rules=tuple(sorted(self.rules)),
            looks=tuple(sorted(self.looks)),
            focus=focus,
            digits=digits,
            length=length,
            pattern=pattern,
        )


class _Trace:
    """The way back through one branch; what it meets goes to `premises`."""

    def __init__(self, branch: Branch, premises: TracedPremises) -> None:
        self._branch = branch
        self._layout = branch.board.layout
        self._premises = premises
        self._reasons = {cell: reason for past in branch.history for cell, _, reason in past.written}
        self._when: dict[_Fact, tuple[int, bool]] = {}
        self._facts: dict[int, list[_Fact]] = {}

    def back_from(self, facts: Iterable[_Fact]) -> None:
        """Trace facts back to the assumption and to what was closed before it."""
        todo = list(facts)
        seen_facts: set[_Fact] = set()
        seen_cells: set[int] = set()
        while todo:
            fact = todo.pop()
            if fact in seen_facts:
                continue
            seen_facts.add(fact)
            cell, digit = fact
            if not self._has_gone(cell, digit):
                self._premises.looks.add(cell)  # it was closed before the assumption
                continue
            level, by_cage = self.when(cell, digit)
            if fact in self._branch.by_clue:
                facts = self.clue_facts(self._branch.by_clue[fact])
                todo += [fact for fact in facts if self.when(*fact) < (level, True)]
            elif by_cage:
                facts = [fact for cage in self._layout.cages_of[cell] for fact in self.cage_facts(cage)]
                todo += [fact for fact in facts if self.when(*fact) < (level, True)]
            elif level == 0:
                self._cite_combination(cell, digit)
            else:
                source = self._source(cell, digit, level)
                self._cite_link(cell, digit, source)
                if source not in seen_cells:
                    seen_cells.add(source)
                    placed = self._branch.candidates[source].bit_length() - 1
                    self._premises.line[source] = placed
                    todo += self.reason_facts(source, placed, self._reasons[source])

    def when(self, cell: int, digit: int) -> tuple[int, bool]:
        """Return the level at which a candidate went, and whether the cages or the clues took it then."""
        if (cell, digit) not in self._when:
            self._when[cell, digit] = self._looked_up(cell, digit)
        return self._when[cell, digit]

    def _looked_up(self, cell: int, digit: int) -> tuple[int, bool]:
        for level, past in enumerate(self._branch.history):
            if not past.after_cages[digit] >> cell & 1:
                return level, bool(past.after_digits[digit] >> cell & 1)
        raise ValueError(f"digit {digit} has not gone from cell {cell} in this branch")

    def gone_from(self, cells: Iterable[int]) -> list[_Fact]:
        """Return all that has gone from some cells in the branch."""
        before, now = self._branch.board.candidates, self._branch.candidates
        return [(cell, digit) for cell in cells for digit in bits(before[cell] & ~now[cell])]

    def cage_facts(self, cage: int) -> list[_Fact]:
        """Return all that has gone from a cage; its cells are looked at."""
        return self._facts_of(cage, (cage,))

    def clue_facts(self, clue: int) -> list[_Fact]:
        """Return all that has gone from a clue; one looks at its cells, and at why some of them differ."""
        return self._facts_of(clue, (clue, *differing(self._layout, self._layout.rules[clue].cells)))

    def _facts_of(self, rule: int, cited: Iterable[int]) -> list[_Fact]:
        if rule not in self._facts:
            cells = self._layout.rules[rule].cells
            self._premises.rules.update(cited)
            self._premises.looks.update(cells)
            self._facts[rule] = self.gone_from(cells)
        return self._facts[rule]

    def reason_facts(self, cell: int, digit: int, reason: int) -> list[_Fact]:
        """Return what must have gone for a digit to be forced into a cell."""
        if reason == BY_ASSUMPTION:
            return []
        if reason == BY_NAKED_SINGLE:
            self._premises.looks.add(cell)
            return [(cell, other) for other in bits(self._branch.board.candidates[cell] & ~(1 << digit))]
        self._premises.rules.add(reason)
        return [(other, digit) for other in self._layout.houses[reason].cells if other != cell]

    def _has_gone(self, cell: int, digit: int) -> bool:
        was_open = self._branch.board.candidates[cell] >> digit & 1
        return bool(was_open and not self._branch.places[digit] >> cell & 1)

    def _source(self, cell: int, digit: int, level: int) -> int:
        """Return the cell whose digit took a candidate: the first of its level that did."""
        sees = self._layout.sees[cell]
        return next(
            other
            for other, its_digit, _ in self._branch.history[level].written
            if (other == cell and its_digit != digit)
            or (its_digit == digit and sees >> other & 1)
            or bar(self._layout, other, its_digit, cell, digit) is not None
        )

    def _cite_link(self, cell: int, digit: int, source: int) -> None:
        """Cite why a cell loses a digit to the one written in another cell."""
        held = self._branch.candidates[source].bit_length() - 1
        if source == cell:
            return
        if held == digit and self._layout.sees[cell] >> source & 1:
            self._premises.rules.update(self._layout.link(cell, source))
        elif (rule := bar(self._layout, source, held, cell, digit)) is not None:
            self._premises.rules.add(rule)

    def _cite_combination(self, cell: int, digit: int) -> None:
        """Cite why a cell outside the cage loses a digit of the combination that is assumed."""
        held = self._branch.held.get(digit, 0)
        if held:
            self._premises.add(sight(self._layout, 1 << cell, held))
