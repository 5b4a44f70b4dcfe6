"""How patterns with parts of several kinds are told."""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

BY_THE_RULE_OF_45 = "by the rule of 45 on {houses}, {left}; {evidence}"
EQUAL: Mapping[str, str] = {
    "seen": "each place for {digits} in {home} sees one of them",
    "place": "{digits} of {home} is in {or_cells}",
    "pair": "so {cells} take {digits} between them",
}
"""Of `equal-cells`, by how it is used that two cells are equal."""
EQUAL_ON_LINE = "{one} mirrors {other} on {clue}; {evidence}"
"""Of cells that are equal because of a line."""
THESE = "these"
"""Cells whose sum has just been told."""
SUBSETS: Mapping[tuple[str, str, bool], str] = {
    ("naked", "full", False): "{cells} and {part} take {digits} of {house} between them",
    ("naked", "out", False): (
        "{cells} {take} {count} of {digits} in {house}, which leaves no more than {share} for {part}{so}"
    ),
    ("naked", "full", True): "every combination of {part} has {digits} of {house}",
    ("hidden", "full", False): (
        "in {house}, {digits} fit only in {cells} and {part}, with no more than {share} in {part}"
    ),
    ("hidden", "out", False): (
        "in {house}, {digits} fit only in {cells} and {part}, with at least {share} in {part}{so}"
    ),
    ("hidden", "out", True): "in {house}, {digits} {fit} nowhere but in {part}{so}",
}
"""Of `cage-subset`: by what is shared, by what follows, and whether there are no cells beside the cage."""
FALL = (", so {combinations} falls", ", so {combinations} fall")
"""Which combinations of the cage or sum are out: one, or several."""
ALONE_LEFT = ", so only {combinations} is left"
"""Which are left, where more are out than a person wants to hear of."""
COUNTS = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
