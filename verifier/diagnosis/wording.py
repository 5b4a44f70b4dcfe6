"""Every sentence a diagnosis says to people: to the setter who has to put the puzzle right."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from verifier.diagnosis.clues import cage_name, cages_named, cells_named, houses_named, rules_named
from verifier.diagnosis.repairs.changes import CellMove, Change
from verifier.diagnosis.repairs.mends import Kind, Mend
from verifier.diagnosis.repairs.proof import Proof
from verifier.diagnosis.several.differences import Figure, SwingGroup
from verifier.diagnosis.without.imbalances import Comparison, Imbalance
from verifier.diagnosis.without.refutations import Contradiction
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.printable import counted, filled, listed, printable
from verifier.puzzle.puzzle import rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__: list[str] = []

_MOST_CAGES = 9
"""More cages than this are counted, not named one by one."""
_MOST_NAMED = 24
"""Of more cells than this, the number is given."""
_MOST_WAYS = 4
"""More ways of filling a group than this are counted."""

NO_SOLUTION = "The puzzle has no solution."
NO_REPAIR = "No repair was found."
ACROSS_AND_DOWN = (
    "The totals across add up to {across} and the totals down to {down}, but both are sums of the same cells."
)
NOT_WHOLE = "The puzzle has exactly one solution, but it is not whole."
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


def _capital(sentence: str) -> str:
    """Begin a sentence; the name of a cell keeps its small letter."""
    return sentence if sentence[0] == "r" and sentence[1].isdigit() else sentence[0].upper() + sentence[1:]


# No solution


def imbalance(grid: Grid, found: Imbalance) -> str:
    """Say how houses and cages contradict each other by their totals."""
    if found.compared is Comparison.CAGE:
        return _impossible_cage(grid, found)
    if found.compared is Comparison.ACROSS:
        return filled(ACROSS_AND_DOWN, across=found.whole, down=found.made)
    houses = _group(grid, found)
    add = "adds" if len(found.houses) == 1 or houses == "the grid" else "add"
    them = "it" if add == "adds" else "them"
    noun = "cage" if len(found.cages) == 1 else "cages"
    where = {
        Comparison.EXACT: f"its {noun}" if add == "adds" else f"their {noun}",
        Comparison.INNIES: f"the {noun} inside {them}",
        Comparison.OUTIES: f"the {noun} that {'covers' if noun == 'cage' else 'cover'} {them}",
    }[found.compared]
    cages = _cages_in_brackets(grid, found.cages)
    opening = _capital(f"{houses} {add} up to {found.whole}, but {where} {cages}to {found.made}")
    if found.compared is Comparison.EXACT:
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
    if sum(len(house.cells) for house in found.houses) == len(grid.cells):
        return "the grid"
    return houses_named(found.houses)


def _cages_in_brackets(grid: Grid, cages: Sequence[Cage]) -> str:
    if len(cages) > _MOST_CAGES:
        return f"({len(cages)} of them) "
    return f"({listed(cage_name(grid, cage) for cage in cages)}) "


def _left_over(grid: Grid, found: Imbalance) -> str:
    """Say what would be left for the cells left over, and what they can make."""
    inside = found.compared is Comparison.INNIES
    which = f"{cells_named(grid, found.cells)}, {'left over' if inside else 'outside'}"
    if (found.made > found.whole) == inside:
        return f"That leaves nothing for {which}."
    can = f"at least {found.least}" if found.left < found.least else f"at most {found.most}"
    they = "it makes" if len(found.cells) == 1 else "they make"
    return f"So {which}, would make {found.left}, but {they} {can}."


def conflict(grid: Grid, rules: Sequence[Rule], *, minimal: bool) -> str:
    """Say which rules of a puzzle cannot hold together."""
    clash = _givens_in_house(grid, rules)
    if clash:
        return clash
    needed = (
        " Without any one of them the others can be met."
        if minimal
        else " There may be a smaller set of them."
    )
    return f"These cannot hold together: {rules_named(grid, rules)}.{needed}"


def _givens_in_house(grid: Grid, rules: Sequence[Rule]) -> str | None:
    """Say that a house or a cage has the same given twice, if that is what the conflict is."""
    givens = rules_of(rules, Given)
    rules = [rule for rule in rules if rule not in givens]
    if len(givens) != 2 or len(rules) != 1 or givens[0].digit != givens[1].digit:
        return None
    rule = rules[0]
    where = rules_named(grid, [rule])
    cells = cells_named(grid, (given.cell for given in givens))
    return f"The given {givens[0].digit} stands in {cells}, both in {where}."


def contradiction(grid: Grid, end: Contradiction) -> str:
    """Say how a refutation ends."""
    if end.house is not None:
        return f"Now {end.digit} has no place left in {end.house.name}."
    if end.cell is not None:
        return f"Now {grid.cell_name(end.cell)} has no candidate left."
    return f"Now {cells_named(grid, end.cells)} break a rule."


EARLIER_STEPS = "       ({number:count step} before these)"


def nothing_left(evidence: str, grid: Grid, cell: int) -> str:
    """Say how a refutation ends with a step that leaves a cell without a digit."""
    return f"{evidence}: no digit is left for {grid.cell_name(cell)}."


def no_combination(grid: Grid, cage: Cage | LinearSum) -> str:
    """Say how a refutation ends at a cage."""
    return f"No combination of {cages_named(grid, [cage])} is left."


def suspects(grid: Grid, rules: Sequence[Rule]) -> str:
    """Say which rules can be at fault alone."""
    return f"If only one thing is wrong, it is {listed((rules_named(grid, [rule]) for rule in rules), 'or')}."


def in_pieces(grid: Grid, cage: Rule, pieces: Sequence[Sequence[int]]) -> str:
    """Say that a cage lies in pieces, and what may have happened."""
    named = f"the cage of {cage_name(grid, cage)}" if isinstance(cage, Cage) else cage.called(grid)
    told = "; ".join(cells_named(grid, piece) for piece in pieces[:_MOST_CAGES])
    return (
        f"{_capital(named)} lies in {counted(len(pieces), 'piece')}: {told}. Were several "
        "cages meant, or does a cell bear the wrong mark?"
    )


ONE_BARE_CELL = "{cell} is in no cage, and every other cell is in one. Was its mark forgotten?"


# Several solutions


def several(grid: Grid, count: int, swing: Sequence[int], *, complete: bool) -> str:
    """Say how many solutions there are and where they differ."""
    number = f"exactly {count:,}" if complete else f"at least {count:,}"
    where = cells_named(grid, swing)
    found = "They" if complete else "Those found"
    return f"The puzzle has {number} solutions. {found} differ in {counted(len(swing), 'cell')}: {where}."


def examples(differing: int, *, complete: bool) -> str:
    """Introduce two solutions."""
    any_two = "any two" if complete else "any two found"
    return f"Two solutions that differ in {counted(differing, 'cell')}, the most that {any_two} do:"


def group(grid: Grid, one: SwingGroup) -> str:
    """Say how a group of swing cells can be filled."""
    cells = cells_named(grid, one.cells)
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


ENOUGH = "{number:Count extra given} are enough; another choice may need fewer."


def solution_differs(grid: Grid, claimed: Filling, proved: Filling) -> str:
    """Say that the file claims another solution than the puzzle has."""
    differing = [c for c, (one, other) in enumerate(zip(claimed, proved, strict=True)) if one != other]
    many = len(differing) > _MOST_NAMED
    where = f"{len(differing)} of {grid.cell_count} cells" if many else cells_named(grid, differing)
    return (
        f"The puzzle has exactly one solution, but not the one in the file: they differ in {where}. Either "
        "the solution in the file is wrong, or the puzzle is."
    )


# What a sound puzzle can do without

NO_GIVEN_IDLE = "A kakuro keeps all its totals, and no given of this one can go."
NONE_IDLE = "Every cage and every given does some work: without any one of them there are several solutions."


def idle(grid: Grid, rules: Sequence[Rule], after: Proof, before: Proof) -> str:
    """Say which cages and givens can go one at a time, and what each removal does to the tier."""
    named = _capital(rules_named(grid, rules))
    can = "can go" if len(rules) == 1 else "can each go, though not always together"
    stays = after.tier == before.tier
    tier = f"stays tier {after.tier}" if stays else f"goes from tier {before.tier} to tier {after.tier}"
    return f"{named} {can}: the puzzle still has exactly one solution and {tier}, {after.tier_name}."


def idle_together(grid: Grid, rules: Sequence[Rule], of: int, after: Proof) -> str:
    """Say which of the idle rules can go at once."""
    number = "All of these" if len(rules) == of else f"{len(rules)} of these {of}"
    return (
        f"{number} can go at the same time: {rules_named(grid, rules)}. "
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
    done = _DONE.get(repair.kind, _together)(grid, repair.changes)
    if repair.misread:
        done = _because_misread(done, *repair.misread)
    solution = ", the one in the file" if repair.keeps_claim else ""
    proof = repair.proof
    return f"{done} That leaves exactly one solution{solution}; tier {proof.tier}, {proof.tier_name}."


def _because_misread(done: str, mark: str, meant: str) -> str:
    return f"{done.removesuffix('.')}: its mark, '{printable(mark)}', looks like '{printable(meant)}'."


def _together(grid: Grid, changes: Sequence[Change]) -> str:
    """Return changes that belong together as one sentence."""
    first, *others = (change.says(grid).removesuffix(".") for change in changes)
    return f"{', and '.join([first, *(other[0].lower() + other[1:] for other in others)])}."


def _exchange(grid: Grid, changes: Sequence[Change]) -> str:
    pair = [cage for change in changes for cage in rules_of(change.gone, Cage)]
    told = (
        f"the cage {cells_named(grid, cage.cells)} gets {other.total} instead of {cage.total}"
        for cage, other in zip(pair, reversed(pair), strict=True)
    )
    return f"Exchange two totals: {', and '.join(told)}."


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
    given = [given for change in changes for given in rules_of(change.come, Given)]
    # Every one of them is named: without the last the puzzle still has several solutions.
    what = listed((f"{each.digit} in {grid.cell_name(each.cell)}" for each in given), most=len(given))
    return f"Add {'a given' if len(given) == 1 else 'givens'}: {what}."


_DONE: Mapping[Kind, Callable[[Grid, Sequence[Change]], str]] = {
    Kind.EXCHANGE: _exchange,
    Kind.CELLS: _exchanged_cells,
    Kind.EXTRA: _extra,
}
"""What is done where it is not told change by change."""
