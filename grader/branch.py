"""What follows from one assumption by singles and cage arithmetic alone: the line of a forcing chain.

A branch starts with one candidate taken to be right and goes forward level by level. At each level all
digits found on the level before are written in, they go from the cells that see them, the cages touched
keep only the digits of their open combinations, and cells with one digit left and digits with one place
left are noted for the next level. Nothing is assumed on the way, so a branch is one line, however many
cells it touches.

A branch remembers where each removal came from, so that the premises of a conclusion can be traced back.
Cells with a candidate ``d`` are kept as a mask for each digit as well: whether a house has one place left
for a digit is then a single operation.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_

from grader.basis import seen_by_all, sight
from grader.board import Board, bits, digits_of, mask_of
from grader.combinations import open_digits, rest_of_cage

__all__ = ["Branch", "DeadEnd", "Outset", "Premises"]

_Fact = tuple[int, int]  # a cell and a digit that has gone from it

_BY_NAKED_SINGLE = -1
_BY_ASSUMPTION = -2
# Any other reason for a placed digit is the house in which it has one place left.

_ASSUMED = 1 << 30
"""Where a removal comes from that is itself what is assumed; no cell has this number."""


@dataclass(frozen=True, slots=True)
class DeadEnd:
    """Where a branch fails.

    Parameters
    ----------
    kind : str
        A ``cell`` or a ``cage`` has nothing left, a digit has no place in a ``house``, or there is a
        ``clash``: a digit forced into a cell that cannot take it.
    where : int
        The cell, cage or house; of a clash, the cell.
    digit : int
        The digit of a house or a clash.
    reason : int
        What forced the digit of a clash.
    """

    kind: str
    where: int
    digit: int = 0
    reason: int = 0


class Outset:
    """A board made ready for branches: worked out once, read by all of them.

    Parameters
    ----------
    board : Board
        Where the assumptions are made; nothing in it contradicts the rules yet.
    places : sequence of int, optional
        What `Board.places` returns, where it is known.
    """

    def __init__(self, board: Board, places: Sequence[int] | None = None) -> None:
        self.board = board
        self.places = board.places() if places is None else places
        layout = board.layout
        self.open_cages = []
        for cage, mask in enumerate(layout.cage_masks):
            if mask & ~board.placed:
                cells, rest, _ = rest_of_cage(board, cage)
                self.open_cages.append((cage, mask_of(cells), cells, rest))


class Premises:
    """Houses, cages and cells looked at, gathered while tracing conclusions back.

    `line` has the digits that were written in on the way, by cell.
    """

    def __init__(self) -> None:
        self.line: dict[int, int] = {}
        self.houses: set[int] = set()
        self.cages: set[int] = set()
        self.looks: set[int] = set()


class Branch:
    """One assumption and what has followed from it so far. Working memory: it changes as it goes.

    Parameters
    ----------
    outset : Outset
        Where the assumption is made; read, never changed.
    cell, digit : int
        The assumption; 0 for the digit where none is written in (see `of_combination`).

    Examples
    --------
    >>> from grader.board import board_from_text
    >>> board = board_from_text("12 12 123", size=4)
    >>> branch = Branch(Outset(board), 2, 1)
    >>> branch.run()
    >>> branch.contradicted, branch.level  # 1 in r1c3 leaves 2 for both of the others
    (True, 2)
    """

    def __init__(self, outset: Outset, cell: int, digit: int) -> None:
        board = outset.board
        self.board = board
        self._outset = outset
        self.start = (cell, digit)
        self.candidates = list(board.candidates)
        self.places = list(outset.places)
        self.placed = board.placed
        self.level = 0
        self._queue: list[tuple[int, int, int]] = [(cell, digit, _BY_ASSUMPTION)] if digit else []
        # Where each removal came from, in order: a placed cell, (as ~cage) a cage, or the assumption.
        self._removed: dict[_Fact, int] = {}
        self._level_ends: list[int] = []  # how many removals there were after each level
        self._placed_by: dict[int, int] = {}
        self._held: dict[int, int] = {}  # where the combination that is assumed can have each digit
        self._dead_end: DeadEnd | None = None

    @classmethod
    def of_combination(cls, outset: Outset, cage: int, combination: int) -> Branch:
        """Return the branch that takes one combination of a cage to be right.

        Parameters
        ----------
        outset : Outset
            Where the assumption is made; read, never changed.
        cage : int
            The cage, by its place in the layout.
        combination : int
            Mask of the digits of its empty cells.

        Examples
        --------
        With 1 and 4 in the cage, nothing is left for the cell beside it:

        >>> from grader.board import board_from_text
        >>> from verifier.puzzle.parts import Cage
        >>> board = board_from_text("1234 1234 14", [Cage((0, 1), 5)])
        >>> Branch.of_combination(Outset(board), 0, 1 << 1 | 1 << 4).contradicted
        True
        """
        cells = outset.board.unsolved(outset.board.layout.cages[cage].cells)
        branch = cls(outset, cells[0], 0)
        branch._assume(combination, mask_of(cells))
        return branch

    def _assume(self, combination: int, cells: int) -> None:
        """Leave only the digits of a combination in some cells; these go from all that see their places."""
        gone: list[_Fact] = []
        for digit, places in enumerate(self.places):
            held = places & cells
            if not combination >> digit & 1:
                gone += [(cell, digit) for cell in bits(held)]
            elif held:
                self._held[digit] = held
                gone += [(cell, digit) for cell in bits(places & seen_by_all(self.board.layout, held))]
        lost = [0] * len(self.places)
        for cell, digit in gone:
            self._removed[cell, digit] = _ASSUMED
            self.candidates[cell] ^= 1 << digit
            self.places[digit] ^= 1 << cell
            lost[digit] |= 1 << cell
        self._keep_open_combinations(reduce(or_, lost), lost)
        if self._dead_end is None:
            self._note_singles(lost)

    @property
    def contradicted(self) -> bool:
        """Whether the assumption has led to a cell, a house or a cage with nothing left."""
        return self._dead_end is not None

    @property
    def dead_end(self) -> DeadEnd | None:
        """Where the branch failed; None as long as it has not."""
        return self._dead_end

    @property
    def order(self) -> tuple[int, ...]:
        """The cells in the order in which they were written in, the assumption first."""
        return tuple(self._placed_by)

    @property
    def alive(self) -> bool:
        """Whether there is more to follow."""
        return self._dead_end is None and bool(self._queue)

    def advance(self) -> None:
        """Go forward by one level; does nothing once the branch has ended."""
        if not self.alive:
            return
        self.level += 1
        queue, self._queue = self._queue, []
        touched = 0
        lost = [0] * len(self.places)
        for cell, digit, reason in queue:
            touched |= self._place(cell, digit, reason, lost)
        if self._dead_end is None:
            touched |= self._keep_open_combinations(touched, lost)
        self._level_ends.append(len(self._removed))
        if self._dead_end is None:
            self._note_singles(lost)

    def run(self, levels: int | None = None) -> None:
        """Go forward until nothing follows, a contradiction appears, or `levels` are done."""
        while self.alive and (levels is None or self.level < levels):
            self.advance()

    def reached(self) -> Outset:
        """Return what the branch has come to, made ready for assumptions on top of its own."""
        layout = self.board.layout
        return Outset(Board(layout, self.candidates, self.placed, layout.all_cells), self.places)

    def _place(self, cell: int, digit: int, reason: int, lost: list[int]) -> int:
        """Write a digit in; return the mask of the cells that lost something."""
        bit = 1 << digit
        if self.placed >> cell & 1 and self.candidates[cell] == bit:
            return 0
        if not self.candidates[cell] & bit:
            self._dead_end = self._dead_end or DeadEnd("clash", cell, digit, reason)
            return 0
        self._placed_by[cell] = reason
        removed = self._removed
        own = 1 << cell
        for other in digits_of(self.candidates[cell] ^ bit):
            removed[cell, other] = cell
            self.places[other] ^= own
            lost[other] |= own
        self.candidates[cell] = bit
        self.placed |= own
        seen = self.places[digit] & self.board.layout.sees[cell]
        self.places[digit] ^= seen
        lost[digit] |= seen
        for peer in bits(seen):
            self.candidates[peer] ^= bit
            removed[peer, digit] = cell
        return own | seen

    def _keep_open_combinations(self, touched: int, lost: list[int]) -> int:
        """Remove from each touched cage what is in none of its open combinations."""
        layout, candidates, placed, removed = self.board.layout, self.candidates, self.placed, self._removed
        more = 0
        for cage, mask, cells, total in self._outset.open_cages:
            if not mask & touched:
                continue
            if mask & placed:
                total -= sum([candidates[cell].bit_length() - 1 for cell in cells if placed >> cell & 1])
                cells = [cell for cell in cells if not placed >> cell & 1]
                if not cells:
                    if total:
                        self._dead_end = self._dead_end or DeadEnd("cage", cage)
                    continue
            possible = open_digits(tuple([candidates[c] for c in cells]), total, layout.grid.digits)
            if not possible:
                self._dead_end = self._dead_end or DeadEnd("cage", cage)
                return more
            for cell in cells:
                if not candidates[cell] & ~possible:
                    continue
                for digit in digits_of(candidates[cell] & ~possible):
                    candidates[cell] ^= 1 << digit
                    self.places[digit] ^= 1 << cell
                    lost[digit] |= 1 << cell
                    more |= 1 << cell
                    removed[cell, digit] = ~cage
        return more

    def _note_singles(self, lost: list[int]) -> None:
        """Note what is to be written in next, or where nothing is left."""
        self._note_naked_singles()
        if self._dead_end is None:
            self._note_hidden_singles(lost)

    def _note_naked_singles(self) -> None:
        once = twice = 0
        for cells in self.places:
            twice |= once & cells
            once |= cells
        nothing = self.board.layout.all_cells & ~once
        if nothing:
            self._dead_end = DeadEnd("cell", nothing.bit_length() - 1)
            return
        for cell in bits(once & ~twice & ~self.placed):
            self._queue.append((cell, self.candidates[cell].bit_length() - 1, _BY_NAKED_SINGLE))

    def _note_hidden_singles(self, lost: list[int]) -> None:
        placed, layout = self.placed, self.board.layout
        masks = layout.house_masks
        every_house = range(len(masks))
        for digit, cells in enumerate(lost):
            if not cells:
                continue
            places = self.places[digit]
            one_cell = not cells & (cells - 1)
            for house in layout.houses_of[cells.bit_length() - 1] if one_cell else every_house:
                if masks[house] & cells:
                    left = masks[house] & places
                    if not left:
                        self._dead_end = DeadEnd("house", house, digit)
                        return
                    if not left & (left - 1) and not left & placed:
                        self._queue.append((left.bit_length() - 1, digit, house))

    def trace_contradiction(self, premises: Premises) -> None:
        """Add to `premises` all that the contradiction rests on."""
        end = self._dead_end
        assert end is not None, "only a contradicted branch has a contradiction to trace"
        if end.kind == "cell":
            premises.looks.add(end.where)
            facts = self._gone_from(end.where)
        elif end.kind == "house":
            premises.houses.add(end.where)
            facts = [(cell, end.digit) for cell in self.board.layout.houses[end.where].cells]
        elif end.kind == "cage":
            facts = self._cage_facts(end.where, premises)
        else:
            forced_by = self._reason_facts(end.where, end.digit, end.reason, premises)
            facts = [(end.where, end.digit), *forced_by]
        self._trace(facts, premises)

    def trace_removal(self, cell: int, digit: int, premises: Premises) -> int:
        """Add to `premises` all that a removal rests on; return the level at which it happened."""
        self._trace([(cell, digit)], premises)
        moment = list(self._removed).index((cell, digit))
        return bisect_right(self._level_ends, moment) + 1

    def trace_closed(self, cells: Iterable[int], premises: Premises) -> None:
        """Add to `premises` all that it rests on that some cells hold no more than they do by now."""
        digits = self.board.layout.all_digits
        self._trace([(c, digit) for c in cells for digit in bits(digits & ~self.candidates[c])], premises)
        premises.looks.update(cells)

    def _gone_from(self, cell: int) -> list[_Fact]:
        return [
            (cell, digit) for digit in bits(self.board.candidates[cell]) if (cell, digit) in self._removed
        ]

    def _cage_facts(self, cage: int, premises: Premises) -> list[_Fact]:
        """Return all removals from a cage so far; its open combinations rested on those before a moment."""
        premises.cages.add(cage)
        cells = self.board.layout.cages[cage].cells
        premises.looks.update(cells)
        return [fact for cell in cells for fact in self._gone_from(cell)]

    def _reason_facts(self, cell: int, digit: int, reason: int, premises: Premises) -> Iterable[_Fact]:
        """Return the removals that forced `digit` into `cell`."""
        if reason == _BY_ASSUMPTION:
            return ()
        if reason == _BY_NAKED_SINGLE:
            premises.looks.add(cell)
            return [(cell, other) for other in bits(self.board.candidates[cell] & ~(1 << digit))]
        premises.houses.add(reason)
        return [(other, digit) for other in self.board.layout.houses[reason].cells if other != cell]

    def _trace(self, facts: Iterable[_Fact], premises: Premises) -> None:
        """Follow removals back to the assumption and to what was open before it."""
        todo = list(facts)
        moment = {fact: number for number, fact in enumerate(self._removed)}
        seen_facts: set[_Fact] = set()
        seen_cells: set[int] = set()
        while todo:
            fact = todo.pop()
            if fact in seen_facts:
                continue
            seen_facts.add(fact)
            cell = fact[0]
            if fact not in self._removed:
                premises.looks.add(cell)  # it was closed before the assumption
                continue
            source = self._removed[fact]
            if source == _ASSUMED:
                held = self._held.get(fact[1], 0)
                if held:  # a cell that sees all places where the combination has the digit
                    link = sight(self.board.layout, 1 << cell, held)
                    premises.houses.update(bits(link.houses))
                    premises.cages.update(bits(link.cages))
                continue
            if source < 0:
                todo += [f for f in self._cage_facts(~source, premises) if moment[f] < moment[fact]]
                continue
            if source != cell:
                houses, cages = self.board.layout.link(cell, source)
                premises.houses.update(houses)
                premises.cages.update(cages)
            if source not in seen_cells:
                seen_cells.add(source)
                placed = self.candidates[source].bit_length() - 1
                premises.line[source] = placed
                todo += self._reason_facts(source, placed, self._placed_by[source], premises)
