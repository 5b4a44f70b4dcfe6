"""Every sentence a diagnosis says to people: to the setter who has to put the puzzle right."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from verifier.diagnosis.parts import Given, Part
from verifier.diagnosis.repairs.changes import CageChange, CellMove, Change, GivenChange, TotalChange
from verifier.diagnosis.repairs.mends import Kind, Mend
from verifier.diagnosis.repairs.proof import Proof
from verifier.diagnosis.several.swings import Figure, SwingGroup
from verifier.diagnosis.without.balances import Imbalance, Shape
from verifier.diagnosis.without.chains import DeadEnd
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.printable import counted, listed, printable
from verifier.puzzle.puzzle import rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

__all__: list[str] = []

_MOST_CAGES = 9
"""More cages than this are counted, not named one by one."""
_MOST_NAMED = 24
"""Of more cells or cages than this in a list, the number is given."""
_MOST_WAYS = 4
"""More ways of filling a group than this are counted."""

NO_SOLUTION = "The puzzle has no solution."
NO_REPAIR = "No repair was found."
SOUND = "The puzzle has exactly one solution. There is nothing to mend."
UNKNOWN = (
    "How many solutions the puzzle has could not be found out within the budget. Give it more with --seconds."
)


def cut_short(looks: Sequence[str]) -> str:
    """Say what a search had no budget left for."""
    return (
        "The budget was spent before everything was looked at. Not looked at, or not to the end: "
        f"{'; '.join(looks)}. Give it more with --seconds."
    )


# Names of things


def cage_name(grid: Grid, cage: Cage) -> str:
    """Return what people call a cage: its total and its first cell."""
    return f"{cage.total} at {grid.cell_name(cage.cells[0])}"


def cages_named(grid: Grid, cages: Sequence[Cage], article: str = "the ") -> str:
    """Return several cages as one says them.

    Examples
    --------
    >>> cages_named(Grid.square(4), [Cage((0, 1), 3), Cage((2, 6), 7)])
    'the cages of 3 at r1c1 and 7 at r1c3'
    """
    noun = "cage" if len(cages) == 1 else "cages"
    return f"{article}{noun} of {listed((cage_name(grid, cage) for cage in cages), most=_MOST_NAMED)}"


def houses_named(houses: Iterable[House], last: str = "and") -> str:
    """Return houses as one says them: neighbours of one kind together.

    Examples
    --------
    >>> houses_named([House("row", 1, ()), House("row", 2, ()), House("box", 4, ())])
    'rows 1 and 2 and box 4'
    """
    numbers: dict[str, list[str]] = {}
    for house in houses:
        numbers.setdefault(house.kind, []).append(str(house.number))
    plural = {"row": "rows", "column": "columns", "box": "boxes"}
    return listed(
        [
            f"{kind if len(found) == 1 else plural[kind]} {listed(found, last)}"
            for kind, found in numbers.items()
        ],
        last,
    )


def parts_named(grid: Grid, parts: Sequence[Part]) -> str:
    """Return the parts of a conflict as a sentence lists them."""
    houses, cages, givens = (rules_of(parts, House), rules_of(parts, Cage), rules_of(parts, Given))
    named = [houses_named(houses)] if houses else []
    named += [cages_named(grid, cages)] if cages else []
    if givens:
        noun = "given" if len(givens) == 1 else "givens"
        named.append(f"the {noun} {listed(given_name(grid, given) for given in givens)}")
    return "; ".join(named)


def given_name(grid: Grid, given: Given) -> str:
    """Return what people call a given."""
    return f"{given.digit} in {grid.cell_name(given.cell)}"


def _capital(sentence: str) -> str:
    """Begin a sentence; the name of a cell keeps its small letter."""
    return sentence if sentence[0] == "r" and sentence[1].isdigit() else sentence[0].upper() + sentence[1:]


def _cells(grid: Grid, cells: Iterable[int]) -> str:
    return listed((grid.cell_name(cell) for cell in cells), most=_MOST_NAMED)


# No solution


def imbalance(grid: Grid, found: Imbalance) -> str:
    """Say how houses and cages contradict each other by their totals."""
    if found.shape is Shape.CAGE:
        return _impossible_cage(grid, found)
    houses = _group(grid, found)
    add = "adds" if len(found.houses) == 1 or houses == "the grid" else "add"
    them = "it" if add == "adds" else "them"
    noun = "cage" if len(found.cages) == 1 else "cages"
    where = {
        Shape.EXACT: f"its {noun}" if add == "adds" else f"their {noun}",
        Shape.INNIES: f"the {noun} inside {them}",
        Shape.OUTIES: f"the {noun} that {'covers' if noun == 'cage' else 'cover'} {them}",
    }[found.shape]
    cages = _cages_in_brackets(grid, found.cages)
    opening = _capital(f"{houses} {add} up to {found.whole}, but {where} {cages}to {found.made}")
    if found.shape is Shape.EXACT:
        return f"{opening}: {found.left} too {'many' if found.made > found.whole else 'few'}."
    return f"{opening}. {_left_over(grid, found)}"


def _impossible_cage(grid: Grid, found: Imbalance) -> str:
    cage = found.cages[0]
    size = len(cage.cells)
    opening = _capital(f"{cages_named(grid, [cage])} cannot be filled")
    if size > grid.digits:
        return f"{opening}: it has {size} cells, and there are only {grid.digits} different digits."
    make = "one cell makes" if size == 1 else f"{counted(size, 'cell')} with different digits make"
    can = f"{found.least} to {found.most}" if found.least < found.most else f"{found.most}"
    return f"{opening}: {make} {can}."


def _group(grid: Grid, found: Imbalance) -> str:
    if sum(len(house.cells) for house in found.houses) == grid.cell_count:
        return "the grid"
    return houses_named(found.houses)


def _cages_in_brackets(grid: Grid, cages: Sequence[Cage]) -> str:
    if len(cages) > _MOST_CAGES:
        return f"({len(cages)} of them) "
    return f"({listed(cage_name(grid, cage) for cage in cages)}) "


def _left_over(grid: Grid, found: Imbalance) -> str:
    """Say what would be left for the cells left over, and what they can make."""
    inside = found.shape is Shape.INNIES
    which = f"{_cells(grid, found.cells)}, {'left over' if inside else 'outside'}"
    if (found.made > found.whole) == inside:
        return f"That leaves nothing for {which}."
    can = f"at least {found.least}" if found.left < found.least else f"at most {found.most}"
    they = "it makes" if len(found.cells) == 1 else "they make"
    return f"So {which}, would make {found.left}, but {they} {can}."


def conflict(grid: Grid, parts: Sequence[Part], *, minimal: bool) -> str:
    """Say which parts of a puzzle cannot hold together."""
    clash = _givens_in_house(grid, parts)
    if clash:
        return clash
    needed = (
        " Without any one of them the others can be met."
        if minimal
        else " There may be a smaller set of them."
    )
    return f"These cannot hold together: {parts_named(grid, parts)}.{needed}"


def _givens_in_house(grid: Grid, parts: Sequence[Part]) -> str | None:
    """Say that a house or a cage has the same given twice, if that is what the conflict is."""
    givens = rules_of(parts, Given)
    rules = [part for part in parts if part not in givens]
    if len(givens) != 2 or len(rules) != 1 or givens[0].digit != givens[1].digit:
        return None
    rule = rules[0]
    where = parts_named(grid, [rule])
    cells = _cells(grid, (given.cell for given in givens))
    return f"The given {givens[0].digit} stands in {cells}, both in {where}."


def dead_end(grid: Grid, end: DeadEnd) -> str:
    """Say how a chain of steps ends."""
    if end.house is not None:
        return f"Now {end.digit} has no place left in {end.house.name}."
    if end.cell is not None:
        return f"Now {grid.cell_name(end.cell)} has no candidate left."
    return f"Now {_cells(grid, end.cells)} break a rule."


def earlier_steps(number: int) -> str:
    """Say that a long chain is told from its middle."""
    return f"       ({counted(number, 'step')} before these)"


def nothing_left(evidence: str, grid: Grid, cell: int) -> str:
    """Say how a chain ends with a step that leaves a cell without a digit."""
    return f"{evidence}: no digit is left for {grid.cell_name(cell)}."


def no_combination(grid: Grid, cage: Cage) -> str:
    """Say how a chain ends at a cage."""
    return f"No combination of {cages_named(grid, [cage])} is left."


def suspects(grid: Grid, parts: Sequence[Part]) -> str:
    """Say which parts can be at fault alone."""
    cages, givens = rules_of(parts, Cage), rules_of(parts, Given)
    named = [f"the cage of {cage_name(grid, cage)}" for cage in cages]
    named += [f"the given {given_name(grid, given)}" for given in givens]
    return f"If only one thing is wrong, it is {listed(named, 'or')}."


def in_pieces(grid: Grid, cage: Cage, pieces: Sequence[Sequence[int]]) -> str:
    """Say that a cage lies in pieces, and what may have happened."""
    told = "; ".join(_cells(grid, piece) for piece in pieces[:_MOST_CAGES])
    return (
        f"The cage of {cage_name(grid, cage)} lies in {counted(len(pieces), 'piece')}: {told}. Were several "
        "cages meant, or does a cell bear the wrong mark?"
    )


def one_bare_cell(cell: str) -> str:
    """Say that one cell is in no cage."""
    return f"{cell} is in no cage, and every other cell is in one. Was its mark forgotten?"


# Several solutions


def several(grid: Grid, count: int, swing: Sequence[int], *, complete: bool) -> str:
    """Say how many solutions there are and where they differ."""
    number = f"exactly {count:,}" if complete else f"at least {count:,}"
    where = _cells(grid, swing)
    found = "They" if complete else "Those found"
    return f"The puzzle has {number} solutions. {found} differ in {counted(len(swing), 'cell')}: {where}."


def examples(differing: int, *, complete: bool) -> str:
    """Introduce two solutions."""
    any_two = "any two" if complete else "any two found"
    return f"Two solutions that differ in {counted(differing, 'cell')}, the most that {any_two} do:"


def group(grid: Grid, one: SwingGroup) -> str:
    """Say how a group of swing cells can be filled."""
    cells = _cells(grid, one.cells)
    if one.figure is not Figure.OTHER:
        digits = listed(str(digit) for digit in sorted(set(one.fillings[0])))
        figure = "" if one.figure is Figure.PAIR else f"are a {one.figure.value}: "
        inside = f"{cells} {figure}" if figure else f"In {cells}, "
        return f"{inside}{digits} can change places."
    if len(one.fillings) > _MOST_WAYS:
        return f"{cells} can be filled in {len(one.fillings):,} ways."
    ways = listed((" ".join(map(str, filling)) for filling in one.fillings), "or")
    return f"{cells} can be filled in {counted(len(one.fillings), 'way')}: {ways}."


def independent(groups: Sequence[SwingGroup], count: int) -> str:
    """Say that groups do not depend on each other."""
    factors = " x ".join(str(len(one.fillings)) for one in groups)
    number = counted(len(groups), "group").capitalize()
    return f"{number} of cells do not depend on each other: {factors} = {count:,} solutions."


def fewest(number: int) -> str:
    """Say how many givens are needed."""
    if number == 1:
        return "One extra given is enough."
    return f"No fewer than {counted(number, 'extra given')} leave one solution."


def enough(number: int) -> str:
    """Say how many givens are enough, where nobody knows whether fewer are."""
    return f"{counted(number, 'extra given').capitalize()} are enough; another choice may need fewer."


def solution_differs(grid: Grid, claimed: Filling, proved: Filling) -> str:
    """Say that the file claims another solution than the puzzle has."""
    differing = [c for c, (one, other) in enumerate(zip(claimed, proved, strict=True)) if one != other]
    many = len(differing) > _MOST_NAMED
    where = f"{len(differing)} of {grid.cell_count} cells" if many else _cells(grid, differing)
    return (
        f"The puzzle has exactly one solution, but not the one in the file: they differ in {where}. Either "
        "the solution in the file is wrong, or the puzzle is."
    )


# What a sound puzzle can do without

NONE_IDLE = "Every cage and every given does some work: without any one of them there are several solutions."


def idle(grid: Grid, parts: Sequence[Part], after: Proof, before: Proof) -> str:
    """Say which cages and givens can go one at a time, and what each removal does to the tier."""
    named = _capital(parts_named(grid, parts))
    can = "can go" if len(parts) == 1 else "can each go, though not always together"
    stays = after.tier == before.tier
    tier = f"stays tier {after.tier}" if stays else f"goes from tier {before.tier} to tier {after.tier}"
    return f"{named} {can}: the puzzle still has exactly one solution and {tier}, {after.tier_name}."


def idle_together(grid: Grid, parts: Sequence[Part], of: int, after: Proof) -> str:
    """Say which of the idle parts can go at once."""
    number = "All of these" if len(parts) == of else f"{len(parts)} of these {of}"
    return (
        f"{number} can go at the same time: {parts_named(grid, parts)}. "
        f"The puzzle is then tier {after.tier}, {after.tier_name}."
    )


# Repairs


def repairs(number: int, *, sound: bool) -> str:
    """Introduce the repairs."""
    if sound:
        return "If something else was meant, this too leaves one solution:"
    return "This puts it right:" if number == 1 else "Each of these puts it right:"


def mend(grid: Grid, repair: Mend) -> str:
    """Say what to change, and what the puzzle is then."""
    if repair.kind is Kind.CELLS:
        done = _exchanged_cells(grid, repair.changes)
    elif repair.kind is Kind.EXCHANGE:
        done = _exchange(grid, repair.changes)
    elif repair.kind is Kind.EXTRA:
        done = _extra(grid, repair.changes)
    else:
        done = _together([_change(grid, change) for change in repair.changes])
    if repair.misread:
        done = _because_misread(done, *repair.misread)
    solution = ", the one in the file" if repair.keeps_claim else ""
    proof = repair.proof
    return f"{done} That leaves exactly one solution{solution}; tier {proof.tier}, {proof.tier_name}."


def _because_misread(done: str, mark: str, meant: str) -> str:
    return f"{done.removesuffix('.')}: its mark, '{printable(mark)}', looks like '{printable(meant)}'."


def _together(changes: Sequence[str]) -> str:
    """Return changes that belong together as one sentence."""
    first, *others = (change.removesuffix(".") for change in changes)
    return f"{', and '.join([first, *(other[0].lower() + other[1:] for other in others)])}."


def _change(grid: Grid, change: Change) -> str:
    if isinstance(change, TotalChange):
        cage = change.cage
        return f"Change the total of the cage {_cells(grid, cage.cells)} from {cage.total} to {change.to}."
    if isinstance(change, GivenChange):
        return _given(grid, change)
    if isinstance(change, CellMove):
        return _move(grid, change)
    return _recut(grid, change)


def _exchange(grid: Grid, changes: Sequence[Change]) -> str:
    one, other = (change.cage for change in changes if isinstance(change, TotalChange))
    return (
        f"Exchange two totals: the cage {_cells(grid, one.cells)} gets {other.total} instead of "
        f"{one.total}, and the cage {_cells(grid, other.cells)} gets {one.total} instead of {other.total}."
    )


def _exchanged_cells(grid: Grid, changes: Sequence[Change]) -> str:
    one, other = (change for change in changes if isinstance(change, CellMove))
    cell, twin = grid.cell_name(one.cell), grid.cell_name(other.cell)
    return (
        f"Exchange two cells: {cell} belongs to {_with_own(grid, one.new, twin)}, "
        f"and {twin} to {_with_own(grid, one.old, cell)}."
    )


def _with_own(grid: Grid, cage: Cage | None, but: str) -> str:
    """Return a cage by its total and the cells that stay in it."""
    assert cage is not None, "both cells of an exchange are in cages"
    stays = [name for name in map(grid.cell_name, cage.cells) if name != but]
    return f"the cage of {cage.total} with {listed(stays)}"


def _extra(grid: Grid, changes: Sequence[Change]) -> str:
    given = [c for c in changes if isinstance(c, GivenChange)]
    # Every one of them is named: without the last the puzzle still has several solutions.
    what = listed((f"{change.new} in {grid.cell_name(change.cell)}" for change in given), most=len(given))
    return f"Add {'a given' if len(given) == 1 else 'givens'}: {what}."


def _given(grid: Grid, change: GivenChange) -> str:
    cell = grid.cell_name(change.cell)
    if change.old is None:
        return f"Add a given: {change.new} in {cell}."
    if change.new is None:
        return f"Take out the given {change.old} in {cell}."
    return f"Change the given in {cell} from {change.old} to {change.new}."


def _move(grid: Grid, change: CellMove) -> str:
    cell = grid.cell_name(change.cell)
    old, new = (cage and cage_name(grid, cage) for cage in (change.old, change.new))
    if old is None:
        return f"Put {cell}, which is in no cage, into the cage of {new}."
    if new is None:
        return f"Take {cell} out of the cage of {old}; it is then in no cage."
    return f"Move {cell} from the cage of {old} to the cage of {new}."


def _recut(grid: Grid, change: CageChange) -> str:
    if not change.old:
        return f"Add a cage: {_drawn(grid, change.new[0])}."
    if len(change.old) == 1:
        pieces = listed(_drawn(grid, cage) for cage in change.new)
        number = counted(len(change.new), "cage").removesuffix(" cages")
        return f"Split the cage of {cage_name(grid, change.old[0])} in {number}: {pieces}."
    return f"Join {cages_named(grid, change.old)} into one cage of {change.new[0].total}."


def _drawn(grid: Grid, cage: Cage) -> str:
    return f"{' '.join(grid.cell_name(cell) for cell in cage.cells)} = {cage.total}"
