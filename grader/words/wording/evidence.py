"""What a person sees, by technique, and what follows: the sentences of steps.

Each technique has its evidence in words; what the step does is put behind it in the same words for all. A
sentence that ends with a full stop, or has ``{effect}`` in it, says so itself. Fields in braces are filled in
by `grader.words.fields`: ``{cells}`` the cells of the pattern, ``{cell}`` the first of them, ``{digits}``
its digits, ``{house}`` and ``{houses}`` the houses, ``{base}``, ``{cover}`` and ``{fins}`` the parts of a
fish, ``{cage}`` and ``{cages}`` the cages, ``{sum}`` the rule of 45 told in full, ``{start}`` a chain.
"""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

SIGN_ABOVE = "{cell} is greater than {smaller_cell}, which is at least {bound}"
SIGN_BELOW = "{cell} is less than {greater_cell}, which is at most {bound}"

EVIDENCE: Mapping[str, str] = {
    "last-cell-of-house": "only {cell} is left in {house}: it is {digits}.",
    "last-cell-of-cage": "{cell} is the last empty cell of {cage}",
    "mirrored-digit": "{clue_said}",
    "last-cell-of-clue": "{clue_said}",
    "hidden-single-box": "the only place for {digits} in {house} is {cell}.",
    "hidden-single-line": "the only place for {digits} in {house} is {cell}.",
    "rest-of-house": "{sum}",
    "rule-of-45": "{sum}",
    "crossing-cell": "{cages} have only {digits} in common",
    "naked-single": "only {digits} is left in {cell}.",
    "last-cells-of-cage": "{rest_of_cage} can only be {combination}, so {effect}",
    "only-cell-in-cage": "{rest_of_cage} must hold {digits}, and only {cell} can take it",
    "rule-of-45-2-houses": "{sum}",
    "single-combination": "the rest of {cage} can only be {digits}",
    "sign-bounds": "the sign makes {greater_cell} greater than {smaller_cell}",
    "low-and-high": "{clue_said}",
    "never-fits": "{clue_said}",
    "pair-values": "{other_cell} {can_be}, and {rule}",
    "even-and-odd": "{clue_said}",
    "rising-bounds": "{clue_said}",
    "enclosed-bounds": "{clue_said}",
    "mirrored-candidates": "{clue_said}",
    "seen-heights": "{clue_said}",
    "block-cells": "{clue_said}",
    "few-arrangements": "{rest_of_cage} can be filled in only a few ways, and in all of them {effect}",
    "only-cell-by-combinations": "every open combination of {cage} has {digits}, and only {cell} can take it",
    "rule-of-45-3-4-houses": "{sum}",
    "area-of-one": "{area}",
    "cage-combinations": "the open combinations of {cage} use only {digits}",
    "locked-candidates": "in {house}, {digits} {has} to be in {or_cells}, all in {other_house}",
    "low-and-high-in-house": "{clue_said}",
    "leftover-cell": "{leftovers}",
    "all-places": "in {house}, {digits} has to be in {or_cells}; whichever it is, {effect}",
    "certain-in-block": "{clue_said}",
    "windows": "{clue_said}",
    "certain-in-windows": "{clue_said}",
    "arrow-circle": "{clue_said}",
    "arrow-line": "{clue_said}",
    "circle-digits": "{clue_said}",
    "diagonal-bounds": "{clue_said}",
    "equal-part-bounds": "{clue_said}",
    "sandwich-ends": "{clue_said}",
    "too-few-partners": "{clue_said}",
    "enclosing-ends": "{clue_said}",
    "hidden-cage-digits": "{digits} must stand in {cage}, for {houses} can take {them} nowhere else",
    "naked-pair": "{cells} take {digits} of {house} between them",
    "hidden-pair": "in {house}, {digits} fit only in {cells}",
    "derived-sum-2": "{sum}",
    "area-of-two": "{area}, so {left}",
    "naked-triple": "{cells} take {digits} of {house} between them",
    "hidden-triple": "in {house}, {digits} fit only in {cells}",
    "cage-arrangements": "going through all that {rest_of_cage} can be, {never}.",
    "repeating-cage": "going through all that {rest_of_cage} can be, the same digit twice or not, {never}.",
    "mark-chain": "{clue_said}.",
    "few-clue-ways": "{clue_said}",
    "highest-places": "{clue_said}",
    "sandwich-filling": "{clue_said}",
    "equal-part-totals": "{clue_said}",
    "law-of-leftovers": "{leftovers}",
    "innie-outie-difference": "{sum}",
    "derived-sum-3-4": "{sum}",
    "cage-subset": "{subset}",
    "sum-bounds": "{sum}. By what the others make at the least or at the most, {effect}",
    "equal-cells": "{equal}",
    "cut-sums": "two known sums that share cells leave a third: {left}",
    "cage-conflicts": "with {digits} in {cage}, {other_cage} has no combination left",
    "house-combinations": "{cages} must share out the digits of {house}",
    "naked-quad": "{cells} take {digits} of {house} between them",
    "hidden-quad": "in {house}, {digits} fit only in {cells}",
    "x-wing": "in {base}, {digits} has places only in {cover}",
    "swordfish": "in {base}, {digits} has places only in {cover}",
    "jellyfish": "in {base}, {digits} has places only in {cover}",
    "mixed-fish": "in {base}, {digits} has places only in {cover}",
    "cage-fish": "{bases} each have a {digits}, all in {cover}",
    "finned-x-wing": "in {base}, {digits} is in {cover} or else in {fins}. Either way, {effect}",
    "finned-swordfish": "in {base}, {digits} is in {cover} or else in {fins}. Either way, {effect}",
    "finned-jellyfish": "in {base}, {digits} is in {cover} or else in {fins}. Either way, {effect}",
    "two-box-locked": "in {base}, {digits} has places only in {cover}",
    "xy-wing": "whichever digit {cell} takes, {or_others} is {digits}",
    "xyz-wing": "whichever digit {cell} takes, that cell or {or_others} is {digits}",
    "w-wing": "{chain} {effect}",
    "one-cluster": "along {cells}, every second one is {digits}",
    "remote-pairs": "{cells} hold {digits} in turn, so the two ends differ",
    "two-clusters": "along {cells}, one end or the other is {digits}",
    "grouped-links": "{chain} {effect}",
    "xy-chain": "{chain} {effect}",
    "clue-conflicts": "{clue_said}",
    "clue-arrangements": "{clue_said}.",
    "two-sector-subsets": "{cells} hold {digits} between them, each once",
    "almost-locked-pair": "{cells} are two almost locked sets, which share {digits} out",
    "almost-locked-triple": "in the almost locked sets {cells}, {chain} {effect}",
    "alternating-inference-chain": "{chain} {effect}",
    "almost-locked-chain": "{chain} {effect}",
    "short-forcing-chain": "{start} {effect}",
    "short-contradiction-chain": "{start} {effect}",
    "forcing-chain": "{start} {effect}",
    "contradiction-chain": "{start} {effect}",
    "wide-forcing-chain": "{start} {effect}",
    "trial": "by trial, {digits} in {cell} ends in a contradiction, whichever way one goes on",
}
"""What a person sees, by technique id."""

THEN = ": {effect}"
"""How the effect follows the evidence."""

GO = ("{digits} goes from {cells}", "{digits} go from {cells}")
"""What a step removes: one digit, or several."""
NEVER = ("{digits} never stands in {cells}", "{digits} never stand in {cells}")
"""The same, where every way has been gone through."""
STAY = ("only {digits} stays in {cells}", "only {digits} stay in {cells}")
"""The same, told by what is left."""
REST_OF = "the rest of {houses}"

# Where the next step is to be found, and no more.

ADD_UP = "Add up {houses}."
THE_CAGES = "the cages"
LOOK_AT = "Look at {what}."
