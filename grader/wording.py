"""All sentences that people read about steps, in one place.

Each technique has its evidence in words; what the step does is put behind it in the same words for all.
Fields in braces are filled in by `grader.narrate`: ``{cells}`` the cells of the pattern, ``{cell}`` the
first of them, ``{digits}`` its digits, ``{house}`` and ``{houses}`` the houses, ``{cage}`` and ``{cages}``
the cages, ``{sum}`` the rule of 45 told in full, ``{length}`` the levels of a chain.
"""

from __future__ import annotations

from collections.abc import Mapping

__all__ = [
    "CERTAIN_DIGIT",
    "EVIDENCE",
    "ONE_CELL_CAGE",
    "ONE_START",
    "SUM_BOTH",
    "SUM_INNIES",
    "SUM_OUTIES",
    "TWO_CELLS",
    "TWO_DIGITS",
]

EVIDENCE: Mapping[str, str] = {
    "last-cell-of-house": "{cell} is the last empty cell of {house}",
    "last-cell-of-cage": "{cell} is the last empty cell of {cage}",
    "rule-of-45": "{sum}",
    "hidden-single-box": "{digits} has one place left in {house}",
    "hidden-single-line": "{digits} has one place left in {house}",
    "naked-single": "{cell} has one candidate left",
    "single-combination": "what is left of {cage} has one combination, {digits}",
    "rule-of-45-houses": "{sum}",
    "cage-combinations": "the open combinations of {cage} use only {digits}",
    "locked-candidates": "in {house}, {digits} stands in {cells}",
    "hidden-cage-digits": "{digits} must stand in {cage}, for {houses} can take {them} nowhere else",
    "naked-pair": "{cells} share {digits} in {house}",
    "hidden-pair": "{digits} fit only {cells} in {house}",
    "derived-sum-2": "{sum}",
    "naked-triple": "{cells} share {digits} in {house}",
    "hidden-triple": "{digits} fit only {cells} in {house}",
    "cage-arrangements": "in {cage}, no arrangement of an open combination puts them there",
    "innie-outie-difference": "{sum}",
    "derived-sum-3-4": "{sum}",
    "cut-sums": "two known sums that share cells leave {left}",
    "cage-conflicts": "with {digits} in {cage}, {other_cage} has no combination left",
    "house-combinations": "{cages} must share out the digits of {house}",
    "naked-quad": "{cells} share {digits} in {house}",
    "hidden-quad": "{digits} fit only {cells} in {house}",
    "x-wing": "in {houses}, {digits} stands in two lines across, in {cells}",
    "swordfish": "in {houses}, {digits} stands in three lines across, in {cells}",
    "jellyfish": "in {houses}, {digits} stands in four lines across, in {cells}",
    "two-box-locked": "in {houses}, {digits} stands in the same two lines, in {cells}",
    "short-forcing-chain": "{start}",
    "short-contradiction-chain": "{start}",
    "forcing-chain": "{start}",
    "contradiction-chain": "{start}",
    "trial": "{digits} in {cell} ends in a contradiction, whichever way one goes on",
}
"""What a person sees, by technique id."""

CERTAIN_DIGIT = "every open combination of {cage} has {digits}, and it must stand in {cells}"
"""Evidence of `cage-combinations` where a digit goes from a house around the cage."""

ONE_CELL_CAGE = "{cage} is a single cell"
"""Evidence of `last-cell-of-cage` where the cage never had another cell."""

ONE_START = "{digits} in {cell} leads to a contradiction in {length}"
TWO_DIGITS = "{cell} is {ways}, and both lead to the same in {length}"
TWO_CELLS = "{digits} is in {cells}, and both lead to the same in {length}"

SUM_INNIES = "{houses} {add} up to {whole} and the cages inside to {cages}, so {innies} {make} {total}"
SUM_OUTIES = (
    "{houses} {add} up to {whole} and the cages that cover {them} to {cages}, so {outies} {make} {total}"
)
SUM_BOTH = (
    "{houses} {add} up to {whole} and the cages counted in to {cages},"
    " so {innies} less {outies} {make} {total}"
)
