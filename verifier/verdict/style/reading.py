"""Reading a house style from a YAML file, with every fault at once."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from verifier.files.faults import Fault, FaultReport
from verifier.files.fields.clues import CLUES
from verifier.files.fields.fields import shape_of
from verifier.files.fields.whole_grid import WHOLE_GRID
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.settings import (
    Reader,
    check_order,
    choice,
    grid_size,
    name_of,
    number,
    root_of,
    settings_in,
    several_of,
    values_of,
    yes_or_no,
)
from verifier.files.text.nodes import KeysNode, Node
from verifier.files.wording import SETTING_FAULTS
from verifier.puzzle.further_rules import BOXES, FURTHER_HOUSES, SORTS_OF_CAGES
from verifier.puzzle.grid import USUAL_BOXES
from verifier.puzzle.puzzle import KINDS
from verifier.verdict.style.style import NO_RULES, HouseStyle
from verifier.verdict.style.symmetry import SYMMETRIES
from verifier.verdict.style.tier_reading import read_tier_names, read_tier_table
from verifier.verdict.wording import STYLE_FAULTS

__all__ = ["STYLE_KEYS", "read_style", "read_style_text"]

_LARGEST_SIZE = max(USUAL_BOXES)
_MOST_CELLS = _LARGEST_SIZE**2
_MOST_TIERS = 20
_LONGEST_NAME = 100


def read_style(path: Path, limits: Limits = DEFAULT_LIMITS) -> tuple[HouseStyle | None, tuple[Fault, ...]]:
    """Read the house style in a file.

    Parameters
    ----------
    path : Path
        A YAML file; see `read_style_text`.
    limits : Limits, optional
        How much of the file to take.

    Returns
    -------
    style : HouseStyle or None
        None when there is any fault.
    faults : tuple of Fault
        All of them, by line.
    """
    report = _report(str(path), limits)
    data = settings_in(path, report, limits)
    return (None, report.faults()) if data is None else read_style_text(data, str(path), limits)


def read_style_text(
    data: bytes, name: str, limits: Limits = DEFAULT_LIMITS
) -> tuple[HouseStyle | None, tuple[Fault, ...]]:
    r"""Read the house style in the bytes of a file.

    Every key but ``name`` may be left out; a rule that is left out accepts everything.

    Examples
    --------
    >>> style, faults = read_style_text(b"name: Harbour Page\nlargest_cage: 5", "style.yaml")
    >>> style.largest_cage, style.tiers, faults
    (5, (), ())
    >>> style, (fault,) = read_style_text(b"name: Harbour Page\nkinds: [kiler]", "style.yaml")
    >>> print(fault)
    style.yaml:2: kinds: found 'kiler'; allowed: classic, killer or kakuro. Did you mean 'killer'?
    """
    report = _report(name, limits)
    root = root_of(data, report, limits)
    values = None if root is None else _read_root(root, report)
    return (None if values is None or report.count else HouseStyle(**values)), report.faults()


def _report(name: str, limits: Limits) -> FaultReport:
    return FaultReport(name, limits.faults, {**SETTING_FAULTS, **STYLE_FAULTS})


def _read_root(root: Node, report: FaultReport) -> dict[str, Any] | None:
    if not isinstance(root, KeysNode):
        report.add("no-rules", root.line, "the text", what=shape_of(root))
        return None
    values, nodes = values_of(root, _READERS, "the house style", report)
    if "name" not in nodes:
        report.add("no-name", root.line, "name")
    values.pop("format", None)
    if values.get("stop_beyond_tiers") and not values.get("tiers"):
        report.add("no-tiers", nodes["stop_beyond_tiers"].line, "stop_beyond_tiers")
    for least, most in (("smallest_cage", "largest_cage"), ("fewest_givens", "most_givens")):
        check_order(values, nodes, least, most, report)
    return values


def _technique(node: Node, field: str, report: FaultReport) -> str | None:
    from grader.ladder import LADDER

    return choice([technique.id for technique in LADDER])(node, field, report)


RULES = (BOXES, *dict.fromkeys(FURTHER_HOUSES.values()), *WHOLE_GRID, *SORTS_OF_CAGES, *CLUES)
"""What a house style may say of rules: the words of the puzzle file."""

_READERS: dict[str, Reader[Any]] = {
    "format": number(1, 1),
    "name": name_of(_LONGEST_NAME),
    "kinds": several_of(choice(KINDS)),
    "grids": several_of(grid_size),
    "rules": several_of(choice((NO_RULES, *RULES))),
    "rules_not_accepted": several_of(choice(RULES)),
    "tiers": several_of(number(1, _MOST_TIERS)),
    "stop_beyond_tiers": yes_or_no,
    "techniques_not_accepted": several_of(_technique),
    "smallest_cage": number(1, _LARGEST_SIZE),
    "largest_cage": number(1, _LARGEST_SIZE),
    "cages_in_one_piece": yes_or_no,
    "cages_cover_the_grid": yes_or_no,
    "fewest_givens": number(0, _MOST_CELLS),
    "most_givens": number(0, _MOST_CELLS),
    "symmetry": several_of(choice(tuple(SYMMETRIES))),
    "credits": several_of(choice(("title", "setter"))),
    "repeats": choice(("accept", "refuse")),
    "tier_names": read_tier_names,
    "tier_table": read_tier_table,
}
"""The keys of a house style, and how each value is read."""

STYLE_KEYS = tuple(_READERS)
