"""Every sentence a verdict says to people. Each tells an editor what was found and what to do next.

Sentences about arithmetic and about single steps come from `verifier.puzzle` and `grader.words.narrate`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import filled, listed
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.wording import Wording

if TYPE_CHECKING:
    from verifier.verdict.verdict import Difficulty

__all__ = ["STYLE_FAULTS"]

_MOST_TOLD = 5
"""More cages or pairs than this are counted, not told one by one."""


NOT_GRADED = (
    "The puzzle has exactly one solution, but working it through took too long to say how hard it is. "
    "Check it again with more time (--seconds)."
)


def graded(tier: int, name: str, hardest: str | None, lift: str, *, by_logic: bool) -> str:
    """Say how hard the puzzle is; `lift` is why the tier is one above that of the hardest technique."""
    if not by_logic:
        return f"Logic alone does not work the puzzle through, trial is needed: tier {tier} ({name})."
    why = f", hardest technique {hardest}" if hardest else ""
    why += f"; {lift}" if lift else ""
    return f"Worked through by logic alone: tier {tier} ({name}){why}."


def stopped(tier: int) -> str:
    """Say how far the puzzle was worked through where the house style goes no further."""
    return (
        f"Worked through with the techniques up to tier {tier}, which do not reach the end; the house "
        "style asks for no more."
    )


def claimed_differs(grid: Grid, cells: Sequence[int]) -> str:
    """Say that the file's own solution is not the solution."""
    return (
        f"The solution in the file is not the puzzle's: it differs in {grid.cell_names(cells)}. The "
        "right grid stands below: correct the file, or the puzzle if the file's solution was meant."
    )


WORKER_LOST = (
    "Not proved either way: the process that judged this puzzle was ended from outside, twice; most "
    "likely the machine ran out of memory. Check the puzzle alone, on a machine with more memory."
)


def of_style(name: str, asked: str, wrong: str) -> str:
    """Say how a puzzle stands to one rule of a house style."""
    return (
        f"House style {name}: {asked}; {wrong}"
        if wrong
        else f"House style {name}: {asked}; this puzzle keeps to it."
    )


TAKES_KINDS = "takes only {kinds:and} puzzles"


TAKES_GRIDS = "takes only grids of {grids:and}"


def takes_rules(taken: Sequence[str], refused: Sequence[str]) -> str:
    """Say which rules are asked for beyond those of classics and killers.

    Examples
    --------
    >>> takes_rules(["extra_houses"], []), takes_rules([], ["even"])
    ('takes no further rules but extra houses', 'takes no puzzle with even')
    """
    if refused and not taken:
        return filled(TAKES_NO_RULE, rules=_spoken(refused))
    return filled(TAKES_RULES, rules=_spoken(taken)) if taken else TAKES_NO_RULES


def style_rules(wrong: Sequence[str]) -> str:
    """Say which of its rules a puzzle may not have."""
    return filled(STYLE_RULES, rules=_spoken(wrong))


def _spoken(rules: Sequence[str]) -> list[str]:
    return [rule.replace("_", " ") for rule in rules]


TAKES_NO_RULES = "takes no rules beyond those of classics and killers"
TAKES_NO_RULE = "takes no puzzle with {rules:or}"
TAKES_RULES = "takes no further rules but {rules:and}"
STYLE_RULES = "this one has {rules:and}. Take that out, or send the puzzle elsewhere."


def takes_tiers(tiers: Sequence[int]) -> str:
    """Say which tiers are accepted."""
    return f"takes only tier{'s' if len(tiers) > 1 else ''} {listed(map(str, tiers))}"


def asks_range(what: str, least: int | None, most: int | None) -> str:
    """Say how many of something are asked for."""
    if least == most:
        return f"asks for exactly {least} {what}"
    if least is None:
        return f"asks for at most {most} {what}"
    return f"asks for at least {least} {what}" if most is None else f"asks for {least} to {most} {what}"


ASKS_ONE_PIECE = "asks for cages in one piece, edge to edge"


ASKS_COVER = "asks for cages that cover the grid"


ASKS_SYMMETRY = "asks for givens in {names:or} symmetry"


def asks_credits(names: Sequence[str]) -> str:
    """Say which credits are asked for."""
    return f"asks for {listed(f'a {name}' for name in names)}"


ASKS_WITHOUT = "takes no puzzle that needs {techniques:or}"


STYLE_KIND = "this one is a {kind}."


def style_grid(grid: Grid) -> str:
    """Say that the size is not accepted."""
    return f"this grid is {grid.name}."


def style_cage_sizes(grid: Grid, cages: Sequence[Rule]) -> str:
    """Say which cages have too few or too many cells."""
    told = [f"{cage.called(grid)} has {len(cage.cells)}" for cage in cages]
    return f"{listed(told, most=_MOST_TOLD)}. Join or divide the cages."


def style_pieces(grid: Grid, cages: Sequence[Rule]) -> str:
    """Say which cages lie in pieces."""
    told = [cage.called(grid) for cage in cages]
    return (
        f"{listed(told, most=_MOST_TOLD)} {'lies' if len(cages) == 1 else 'lie'} in pieces. Redraw the cages."
    )


def style_bare(grid: Grid, cells: Sequence[int]) -> str:
    """Say which cells are in no cage."""
    return f"no cage holds {grid.cell_names(cells)}. Draw cages there."


STYLE_GIVENS = "this puzzle has {count}."


def style_symmetry(grid: Grid, name: str, pairs: Sequence[tuple[int, int]]) -> str:
    """Say which givens lack their partners."""
    told = [
        f"{grid.cell_name(cell)} holds a given and {grid.cell_name(other)} does not" for cell, other in pairs
    ]
    return f"for {name} symmetry {listed(told, most=_MOST_TOLD)}. Add or take away givens in pairs."


def style_credits(missing: Sequence[str]) -> str:
    """Say which credits are missing."""
    lines = listed([f"'{name}:'" for name in missing])
    return (
        f"the file has no {listed(missing, 'and no')}. Add the line{'s' if len(missing) > 1 else ''} {lines}."
    )


def style_tier(grade: Difficulty) -> str:
    """Say that the tier is not accepted."""
    why = f"; the hardest technique it needs is {grade.hardest}" if grade.hardest else ""
    return f"this puzzle is tier {grade.tier} ({grade.name}){why}."


def style_beyond(tier: int) -> str:
    """Say that a puzzle is beyond the tiers that are accepted, and was worked through no further."""
    return f"this puzzle needs more than tier {tier}; it was worked through no further."


def style_techniques(used: Mapping[str, int]) -> str:
    """Say which techniques that are not accepted the puzzle needs."""
    told = [f"{name} ({count} step{'s' if count > 1 else ''})" for name, count in used.items()]
    return f"this puzzle needs {listed(told)}."


STYLE_FAULTS = {
    "cannot-open": Wording("{reason}", "a file that can be read", "Correct the name after --style."),
    "no-rules": Wording(
        "{what}",
        "keys with a colon, such as 'name: Harbour Page'",
        "Write one rule a line; the README lists them.",
    ),
    "no-name": Wording("nothing", "the name of the house style", "Add a line such as 'name: Harbour Page'."),
    "no-tiers": Wording(
        "yes, but no tiers",
        "yes beside tiers",
        "Add the tiers that you accept, such as 'tiers: [1, 2, 3]'.",
    ),
    "tier-number": Wording(
        "{what}", "numbers of tiers, each once", "Write a line for each tier, such as '1: gentle'."
    ),
    "tier-gap": Wording(
        "tiers {tiers}", "tiers numbered 1, 2, 3 and so on", "Correct the numbers of the tiers."
    ),
    "techniques-missing": Wording(
        "no tier for {techniques}",
        "each technique of the ladder in one tier",
        "Add them; 'gridproof techniques' shows the ladder.",
    ),
    "tiers-go-down": Wording(
        "{higher} below {lower}",
        "tiers that never go down along the ladder",
        "Raise {higher}, or lower {lower}.",
    ),
    "last-tier": Wording(
        "other techniques beside {trial}", "{trial} alone in the last tier", "Move the others down."
    ),
}
"""What to say about each fault of a house style."""
