"""Holding a puzzle against a house style, rule by rule.

Each rule is a function that returns one `Check`, or None where the house style does not ask for anything.
A failed check is a reason to send the puzzle back, whatever its solutions: it is counted and graded all the
same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from verifier.puzzle.cage_layout import bare_cells, cages_in_pieces
from verifier.puzzle.checking.arithmetic import Check
from verifier.puzzle.further_rules import further_rules
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.verdict import wording
from verifier.verdict.style.style import NO_RULES, HouseStyle
from verifier.verdict.style.symmetry import unmatched

if TYPE_CHECKING:
    from verifier.verdict.verdict import Difficulty

__all__ = ["STYLE_CODES", "style_checks"]

_Rule = Callable[[HouseStyle, Puzzle], Check | None]
_GradeRule = Callable[[HouseStyle, "Difficulty"], Check | None]


def style_checks(style: HouseStyle, puzzle: Puzzle, grade: Difficulty | None) -> Iterator[Check]:
    """Yield one check for each rule of a house style.

    Parameters
    ----------
    style : HouseStyle
        The rules.
    puzzle : Puzzle
        The puzzle.
    grade : Difficulty or None
        None for a puzzle that is not sound: its tier and techniques are then no question.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> classic = make_puzzle("classic", Grid.square(4), givens={0: 1})
    >>> check, = style_checks(HouseStyle("Harbour Page", kinds=("killer",)), classic, None)
    >>> print(check.says)
    House style Harbour Page: takes only killer puzzles; this one is a classic.
    """
    found = [rule(style, puzzle) for rule in _RULES]
    if grade is not None:
        found += [rule(style, grade) for rule in _GRADE_RULES]
    yield from (check for check in found if check is not None)


def _check(code: str, style: HouseStyle, asked: str, wrong: str) -> Check:
    """Return the check of a rule: `asked` says what is asked for, `wrong` what is against it, if anything."""
    return Check(code, not wrong, wording.of_style(style.name, asked, wrong))


def _kind(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    if not style.kinds:
        return None
    wrong = "" if puzzle.kind in style.kinds else filled(wording.STYLE_KIND, kind=puzzle.kind)
    return _check("style-kind", style, filled(wording.TAKES_KINDS, kinds=style.kinds), wrong)


def _grid(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    if not style.grids:
        return None
    wrong = "" if puzzle.grid.name in style.grids else wording.style_grid(puzzle.grid)
    return _check("style-grid", style, filled(wording.TAKES_GRIDS, grids=style.grids), wrong)


def _rules(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    if not style.rules and not style.rules_not_accepted:
        return None
    wrong = [
        rule
        for rule in further_rules(puzzle)
        if rule in style.rules_not_accepted or (style.rules and rule not in style.rules)
    ]
    asked = wording.takes_rules([rule for rule in style.rules if rule != NO_RULES], style.rules_not_accepted)
    return _check("style-rule", style, asked, wording.style_rules(wrong) if wrong else "")


def _cage_sizes(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    least, most = style.smallest_cage, style.largest_cage
    if (least is None and most is None) or not puzzle.all_cages:
        return None
    wrong = [c for c in puzzle.all_cages if not (least or 1) <= len(c.cells) <= (most or len(c.cells))]
    says = wording.style_cage_sizes(puzzle.grid, wrong) if wrong else ""
    return _check("style-cage-size", style, wording.asks_range("cells in each cage", least, most), says)


def _pieces(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    if not style.cages_in_one_piece or not puzzle.all_cages:
        return None
    wrong = list(cages_in_pieces(puzzle))
    says = wording.style_pieces(puzzle.grid, wrong) if wrong else ""
    return _check("style-cage-in-pieces", style, wording.ASKS_ONE_PIECE, says)


def _cover(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    if not style.cages_cover_the_grid or puzzle.kind != "killer":
        return None
    bare = bare_cells(puzzle)
    says = wording.style_bare(puzzle.grid, bare) if bare else ""
    return _check("style-uncovered", style, wording.ASKS_COVER, says)


def _givens(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    least, most = style.fewest_givens, style.most_givens
    if least is None and most is None:
        return None
    count = len(puzzle.givens)
    fits = (least or 0) <= count <= (count if most is None else most)
    wrong = "" if fits else filled(wording.STYLE_GIVENS, count=count)
    return _check("style-givens", style, wording.asks_range("givens", least, most), wrong)


def _symmetry(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    if not style.symmetry or puzzle.kind == KAKURO:  # its few givens help, and make no pattern
        return None
    cells = [cell for cell, _ in puzzle.givens]
    broken = {name: unmatched(name, puzzle.grid, cells) for name in style.symmetry}
    nearest = min(broken, key=lambda name: len(broken[name]))  # the one that takes the fewest changes
    pairs = broken[nearest]
    wrong = wording.style_symmetry(puzzle.grid, nearest, pairs) if pairs else ""
    return _check("style-symmetry", style, filled(wording.ASKS_SYMMETRY, names=style.symmetry), wrong)


def _credits(style: HouseStyle, puzzle: Puzzle) -> Check | None:
    if not style.credits:
        return None
    missing = [name for name in style.credits if not getattr(puzzle.credits, name)]
    wrong = wording.style_credits(missing) if missing else ""
    return _check("style-credits", style, wording.asks_credits(style.credits), wrong)


def _tier(style: HouseStyle, grade: Difficulty) -> Check | None:
    if not style.tiers:
        return None
    wrong = ""
    if grade.beyond is not None:
        wrong = wording.style_beyond(grade.beyond)
    elif grade.tier not in style.tiers:
        wrong = wording.style_tier(grade)
    return _check("style-tier", style, wording.takes_tiers(style.tiers), wrong)


def _techniques(style: HouseStyle, grade: Difficulty) -> Check | None:
    if not style.techniques_not_accepted:
        return None
    used = {
        name: grade.by_technique[name] for name in style.techniques_not_accepted if name in grade.by_technique
    }
    wrong = wording.style_techniques(used) if used else ""
    return _check(
        "style-technique",
        style,
        filled(wording.ASKS_WITHOUT, techniques=style.techniques_not_accepted),
        wrong,
    )


_RULES: tuple[_Rule, ...] = (_kind, _grid, _rules, _cage_sizes, _pieces, _cover, _givens, _symmetry, _credits)
_GRADE_RULES: tuple[_GradeRule, ...] = (_tier, _techniques)

STYLE_CODES = (
    "style-kind",
    "style-grid",
    "style-rule",
    "style-cage-size",
    "style-cage-in-pieces",
    "style-uncovered",
    "style-givens",
    "style-symmetry",
    "style-credits",
    "style-tier",
    "style-technique",
)
"""The codes of the rules, in the order in which they are checked."""
