"""All sentences that people read about steps, in one place.

Each technique has its evidence in words; what the step does is put behind it in the same words for all. A
sentence that ends with a full stop, or has ``{effect}`` in it, says so itself. Fields in braces are filled in
by `grader.words.fields`: ``{cells}`` the cells of the pattern, ``{cell}`` the first of them, ``{digits}``
its digits, ``{house}`` and ``{houses}`` the houses, ``{base}``, ``{cover}`` and ``{fins}`` the parts of a
fish, ``{cage}`` and ``{cages}`` the cages, ``{sum}`` the rule of 45 told in full, ``{start}`` a chain.
"""

from __future__ import annotations

from collections.abc import Mapping

__all__ = [
    "ADD_UP",
    "ALL",
    "ALL_NEED",
    "ALL_OTHERS_NEED",
    "ALL_PLACES_BY",
    "ALL_WAYS",
    "ALONE_LEFT",
    "ALSO_FALLS",
    "AREA",
    "AREA_RUNS",
    "AT_ONCE",
    "BOTH",
    "BOTH_IN",
    "BOTH_WAYS",
    "CAGE",
    "CAGE_SETTLES",
    "CAGE_SETTLES_AT_ONCE",
    "CAGE_SO_FAR",
    "CAGE_TO_GO",
    "CELL_IS",
    "CELL_TAKES",
    "CERTAIN_DIGIT",
    "CHAIN",
    "CHAIN_OF_GROUP",
    "CHAPTER_TITLES",
    "CLUES",
    "COUNTS",
    "CROSSING",
    "DEAD_ENDS",
    "EQUAL",
    "EQUAL_ON_LINE",
    "EVIDENCE",
    "EXAMPLE_FROM",
    "EXAMPLE_ON_PICTURE",
    "FAILS",
    "FAILS_AT_ONCE",
    "FALL",
    "FALLS",
    "FEW_WAYS",
    "FEW_WAYS_AT_ONCE",
    "FITS_ONLY",
    "FORK",
    "FORK_LEADS",
    "FORK_TOLD",
    "GO",
    "GONE_ALREADY",
    "GONE_FROM",
    "HARDEST_OF",
    "HIDDEN_LEAVES",
    "HOUSE_FALLS",
    "HOUSE_GOES_ON",
    "HOUSE_NEEDS",
    "IDEAS",
    "IN_CAGE",
    "IN_CELLS",
    "IN_HOUSE",
    "IN_ONE_OF",
    "IN_THE_CAGE",
    "IN_THE_ONE_COMBINATION",
    "IS",
    "IT_IS",
    "LEAST_WITHOUT",
    "LEFTOVERS",
    "LEFTOVER_CELLS",
    "LEFT_OVER",
    "LIFTS",
    "LINKED_SETS",
    "LONG_LINE",
    "LONG_LINE_WOULD",
    "LOOK_AT",
    "MOST_WITHOUT",
    "NAMED_CERTAIN_DIGIT",
    "NAMED_COMBINATIONS",
    "NEEDS",
    "NEVER",
    "NONE_WITH",
    "NOTHING",
    "NO_BREAK_IN",
    "NO_COMBINATION",
    "OCCURS",
    "OCCURS_NOWHERE",
    "ONE_CELL_CAGE",
    "ONE_CHAPTER",
    "ONE_COMBINATION",
    "ONE_COMBINATION_OR_ANOTHER",
    "ONE_IDEA",
    "ONE_START",
    "ONE_START_AT_ONCE",
    "ONE_START_TOLD",
    "ONLY_CELL",
    "ONLY_CELL_OF_SEVERAL",
    "OPTIONS",
    "OUT",
    "OUT_OF_BOUNDS",
    "PAIR_MARK",
    "PARTNERS",
    "PARTNERS_APART",
    "REST",
    "REST_OF",
    "REST_ONE_COMBINATION",
    "RUN_CLAUSES",
    "RUN_GOES",
    "RUN_GOES_ON",
    "RUN_SEES",
    "RUN_STARTS",
    "SEES_ALL_OTHERS",
    "SIDE_CLASH",
    "SIGN_ABOVE",
    "SIGN_BELOW",
    "SINGLE_CAGE",
    "SINGLE_CAGES",
    "SO",
    "SO_MANY_SETS",
    "STANDS",
    "STAY",
    "SUBSETS",
    "SUM_ARGUED",
    "SUM_BECAUSE",
    "SUM_BOTH",
    "SUM_BOTH_KNOWN",
    "SUM_CAGES",
    "SUM_CAN_ONLY_BE",
    "SUM_DIFFERS",
    "SUM_LEAVES",
    "SUM_LEAVES_ONE",
    "SUM_LEAVES_OUTSIDE",
    "SUM_OFF_INSIDE",
    "SUM_OFF_OUTSIDE",
    "SUM_OF_REPEATING_CAGE",
    "SUM_OUTIE",
    "SUM_OUTIES",
    "SUM_TOO_MUCH",
    "SUM_WHOLE",
    "THEN",
    "THESE",
    "THE_CAGES",
    "THE_ONE_COMBINATION",
    "THOSE_WITH_FALL",
    "TOO_FEW_DIGITS",
    "TOO_FEW_PLACES",
    "TOO_LITTLE",
    "TOO_MUCH",
    "TOTALS",
    "TOTAL_IS",
    "TRIAL_TOLD",
    "TWICE",
    "WAY",
    "WHY",
    "WITH_THAT",
    "WOULD_BE",
    "WOULD_NEED",
]

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

# Sentences that fit better than the usual one where more is known.

PAIR_MARK = "{other_cell} {can_be}, so by {rule}, {effect}"
"""Of `pair-values`, where the rule is a mark or a line."""
ALL_PLACES_BY = "in {house}, {digits} has to be in {or_cells}; whichever it is, by {clues}, {effect}"
"""Of `all-places`, where marks, lines or clues at the edge take part."""
ONE_CELL_CAGE = "{cage} is a single cell"
"""Of `last-cell-of-cage`, where the cage never had another cell."""
CAGE_SO_FAR = "{cage} has {so_far} so far: {cell} is {digits}."
SEES_ALL_OTHERS = "{cell} sees every digit but {digits}, so it is {digits}."
ONE_COMBINATION = "{cage} must hold {combination}{why}."
REST_ONE_COMBINATION = "{cage} needs {rest} more in {rest_cells}, which can only be {combination}{why}."
NAMED_COMBINATIONS = "{rest_of_cage} can only be {combinations}{why}"
CERTAIN_DIGIT = "every open combination of {cage} has {digits}, in {or_cells}"
CAGE_SETTLES = "{rest_of_cage} can only be {combinations}{why}. {sorted_out}, so {effect}."
CAGE_SETTLES_AT_ONCE = "{rest_of_cage} must be {combinations}, and {sorted_out}, so {effect}."
"""Of `last-cells-of-cage`, with and without other combinations of the total."""
FEW_WAYS = (
    "{rest_of_cage} can only be {combinations}{why}. In {cells} that is {ways}, each time with {placed}."
)
FEW_WAYS_AT_ONCE = "{rest_of_cage} can only be filled with {ways} in {cells}, each time with {placed}."
ONLY_CELL = (
    "{rest_of_cage} needs {digits}{why}. Only {cell} can take it, so {effect}.",
    "{rest_of_cage} must be {combinations}{why}, and only {cell} can take {digits}.",
)
"""Of `only-cell-in-cage` and `only-cell-by-combinations`: of many combinations, and of one."""
ONLY_CELL_OF_SEVERAL = (
    "{rest_of_cage} can only be {combinations}{why}. Each has {digits}, and only {cell} can take it."
)
FITS_ONLY = "{digit} fits only in {cell}"
HOUSE_NEEDS = "{house} still needs {digits}, which make {total}; {rests}: {{effect}}"
CAGE_TO_GO = "{cage} has {rest} to go"
THE_ONE_COMBINATION = "{rest_of_cage} takes {combination}{why}"
IN_THE_ONE_COMBINATION = "{rest_of_cage} takes {one_combination}, with {digits} in {or_cells}{why}"
NAMED_CERTAIN_DIGIT = "{rest_of_cage} can only be {combinations}, each with {digits} in {or_cells}{why}"
NO_COMBINATION = "{cage} has no combination left"
BOTH_IN = "in {house}, {digits} {has} to be in {or_cells}, both in {other_house}"

# What excludes a combination: a digit of it that stands elsewhere, too few places, too few digits.

FALLS = ("{combinations} falls, for {reason}", "{combinations} fall, for {reason}")
ALSO_FALLS = "{combinations}, for {reason}"
ALL_OTHERS_NEED = "all others need {digits}, and {reason}"
ALL_NEED = "that takes {digits}, and {reason}"
THOSE_WITH_FALL = "those with {digits} fall, for {reason}"
IN_HOUSE = "{digits} {are} in {where}"
IN_CELLS = ("{where} is {digits}", "{where} are {digits}")
IN_THE_CAGE = "{digits} {are} in the cage already"
GONE_ALREADY = "{digits} {have} gone already"
GONE_FROM: Mapping[bool, str] = {
    False: "{digits} have gone from {cell}",
    True: "{digits} has gone from {cell}",
}
"""Why of the digits of a combination a cell takes one alone: of several others, and of one."""
CELL_IS = "{cell} is {digits}"
CELL_TAKES = ("{cell} takes none of it", "{cell} takes neither")
"""Of a combination, where it has more digits than two, and otherwise."""
TOO_FEW_PLACES = ("{digits} have only {cells}", "{digits} both need {cells}")
"""Of a combination, where several digits share one place, and otherwise."""
TOO_FEW_DIGITS = ("{cells} have only {digits} of it", "{cells} would both be {digits}")
"""Of a combination, where several cells share one digit, and otherwise."""
TOO_MUCH = "{supposed} would make at least {made} in all"
TOO_LITTLE = "{supposed} would make at most {made} in all"
IN_ONE_OF = "{digits} in {cells}"
WOULD_NEED = (
    "{digit} in {cell} would leave {combinations} for {cells}: {exclusions}",
    "{digit} in {cell} would need {combinations} in {cells}, but {reason}",
)
"""Of a digit that no arrangement has: with several cases, and with one."""
TWICE = "that is the same digit twice"
PARTNERS_APART = "every digit needs its partner in the other cell"
OUT_OF_BOUNDS = "anything else is too much or too little"
WITH_THAT = "with {digit} in {cell}, {relation}"
SUM_BECAUSE = "{sum}; {because}"
HIDDEN_LEAVES = (
    "{digits} must stand in {cage}, for {houses} can take {them} nowhere else, so it is {combinations}",
    "{digits} must stand in {cage}, for {houses} can take {them} nowhere else, so it is {combinations}.",
)
"""Of `hidden-cage-digits`, where few combinations have them, and where one has."""
PARTNERS = "every digit needs its partner to {total} in the other cell"
NONE_WITH = "no combination of {rest_of_cage} with {gone} is left{why}"
NEEDS = "{rest_of_cage} needs {digits}, in {or_cells}{why}"
LEAST_WITHOUT = ": without that it would make at least {made}"
MOST_WITHOUT = ": without that it would make at most {made}"
IN_CAGE = "in {rest_of_cage}, {argument}"
SUM_CAN_ONLY_BE = "{sum}. That can only be {combinations}{why}"
SUM_ARGUED = "{sum}. {argument_said}"
OUT = (", so that is out.", ", so those are out.")
"""What follows where every digit that goes has been named with its cell: for one, and for several."""
WHY = ": {exclusions}"
SO = ". So {effect}"

# Chains. A line tells what is written in, one after the other; it ends with what follows.

ONE_START = "{digits} in {cell} leads to a contradiction in {length}:"
FORK_LEADS = "{fork}, and {all_of_them} lead to the same in {length}:"
BOTH, ALL = "both", "all"

ONE_START_TOLD = "if {cell} were {digit}, {line}, and that would leave {end}:"
ONE_START_AT_ONCE = "if {cell} were {digit}, that would leave {end}:"
TRIAL_TOLD = "by trial, on a line too long for a chain: {start} {effect}"
FORK: Mapping[str, str] = {
    "cell": "{cell} is {ways}",
    "digit": "{digits} is in {ways}",
    "cage": "{cage} takes {ways}",
}
"""Of what one is right: the candidates of a cell, the places of a digit, the combinations of a cage."""
ONE_COMBINATION_OR_ANOTHER = "one combination or another"
WAY: Mapping[str, str] = {
    "cell": "with {way}, {line}",
    "digit": "if it is {way}, {line}",
    "cage": "with {way}, {line}",
}
FORK_TOLD = "{fork}. {lines} {all_ways}"
BOTH_WAYS, ALL_WAYS = "Either way,", "Every way,"
FAILS = "{line}, and that would leave {end}"
FAILS_AT_ONCE = "that would leave {end}"
AT_ONCE = "that rules {digit} out of {cell} at once"
IS, WOULD_BE = "is", "would be"
LONG_LINE = "{count} digits follow, down to {digit} in {cell}"
LONG_LINE_WOULD = "{count} digits would follow, down to {digit} in {cell}"

CHAIN = "if {cells} is not {digit}, then {right}. Either way,"
CHAIN_OF_GROUP = "if {digit} is not in {cells}, then {right}. Either way,"
STANDS = "{cells} is {digit}"
IT_IS = "it is {digit}"
SIDE_CLASH = "along {cells}, every second one is {digits}, but the two ends see each other"
"""Of `one-cluster`, where two cells of one side see each other."""
LINKED_SETS = "in the almost locked sets {cells}, {chain} {effect}"
"""Of `almost-locked-pair`, where one digit links the sets."""

# Patterns with parts of several kinds.

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

# Marks, lines and clues at the edge.

CLUES: Mapping[str, str] = {
    "last-cell": "{cell} is the last empty cell of {clue}",
    "even": "{cells} {be} marked as even",
    "odd": "{cells} {be} marked as odd",
    "never-fits": "no digit fits beside {gone} by {clue}",
    "rise-to": "{number} cells rise to {cell}, so it is at least {bound}",
    "rise-from": "{number} cells rise from {cell}, so it is at most {bound}",
    "above": (
        "{cell} is {count:count cell} further up than {named}, which is at least {total}, so {cell} "
        "is at least {bound}"
    ),
    "below": (
        "{cell} is {count:count cell} further down than {named}, which is at most {total}, so {cell} "
        "is at most {bound}"
    ),
    "never-least": "{cell} lies between {named}, and one of them is smaller",
    "never-most": "{cell} lies between {named}, and one of them is greater",
    "above-an-end": "{cell} lies between {named}, which are both at least {total}",
    "below-an-end": "{cell} lies between {named}, which are both at most {total}",
    "amid": "{gone} in {cell} would be neither smaller nor greater than all of {named}",
    "lower-end": "{named} cannot be the smaller end of {clue}, so {cell} is",
    "higher-end": "{named} cannot be the greater end of {clue}, so {cell} is",
    "too-near": "{number} different digits lie between {cell} and {named}, so they are {bound} or more apart",
    "without-room": "{gone} in {cell} would leave {named} too few digits between the ends",
    "take-turns-low": "{named} is low, and low and high take turns on {clue}",
    "take-turns-high": "{named} is high, and low and high take turns on {clue}",
    "too-many-low": "with {named} low, {house} would have {number} low digits, and there are {few}",
    "too-many-high": "with {named} high, {house} would have {number} high digits, and there are {few}",
    "mirrored": "{cell} mirrors {named} on {clue}",
    "mirror-closed": "{cell} mirrors {named} on {clue}, where there is no {gone}",
    "sees-one": "{clue} sees only one, so the first is {bound}",
    "sees-all": "{clue} sees them all, so they rise from there, and {cell} is at most {bound}",
    "too-high-first": "{clue} sees {fewer} more behind {cell}, all of them higher",
    "too-high": "with {count:count cell} before {cell}, {clue} sees enough only if it is at most {bound}",
    "highest-in": "for {clue} to see {total}, {bound} has to be in {or_named}",
    "block-full": "{clue} still needs {digits} in its {count:count empty cell}",
    "block-place": "{clue} has {digits} only in {named}",
    "certain-in-block": "{clue} has its {digits} in {or_named}",
    "window-with": "a renban of {number} with {total} in it can only be {sets}",
    "windows-left": "{clue} can only be {sets}",
    "only-on-line": "{clue} has {digits} in any case, and only {named} can take it",
    "certain-on-line": "{clue} has {digits} in any case, in {or_named}",
    "circle-least": "{named} {make} at least {bound}, so the circle is no less",
    "circle-most": "{named} {make} at most {total}, so the circle is no more",
    "circle-both": "{named} {make} at least {bound} and at most {total}, and so much is the circle",
    "with-digit-least": (
        "with {digits} in {cell}, {named} would make at least {bound}, and the circle at most {count}"
    ),
    "with-digit-most": (
        "with {digits} in {cell}, {named} would make at most {total}, and the circle at least {count}"
    ),
    "with-digit-both": (
        "with {digits} in {cell}, {named} would make at least {bound} and at most {total}, and the circle "
        "{sets}"
    ),
    "line-most": "the circle in {named} is at most {total}, and the rest of its line makes at least {count}",
    "line-least": "the circle in {named} is at least {total}, and the rest of its line makes at most {count}",
    "line-alone-most": "{cell} is all of its line, and the circle in {named} is at most {total}",
    "line-alone-least": "{cell} is all of its line, and the circle in {named} is at least {total}",
    "diagonal-most": "the other cells of {clue} make at least {count}, so {cell} is at most {bound}",
    "diagonal-least": "the other cells of {clue} make at most {count}, so {cell} is at least {bound}",
    "diagonal-alone-most": "{cell} is all of {clue}",
    "diagonal-alone-least": "{cell} is all of {clue}",
    "part-most": (
        "the part of {clue} with {cell} makes as much as {named}, at most {bound}, and at least {count} "
        "without {cell}"
    ),
    "part-least": (
        "the part of {clue} with {cell} makes as much as {named}, at least {bound}, and at most {count} "
        "without {cell}"
    ),
    "part-alone-most": "{named} {make} at most {bound}, and {cell} is as much",
    "part-alone-least": "{named} {make} at least {bound}, and {cell} is as much",
    "totals-in-common": "the parts of {clue} can only make {or_digits} in common",
    "ends-apart": "{clue} needs {room} between 1 and {bound}",
    "ends-together": "1 and {bound} of {clue} stand side by side",
    "one-filling": "1 and {bound} of {clue} can only be {named}, with {sets} between them",
    "fillings": "1 and {bound} of {clue} have {number} places, with {sets} between them",
    "too-few-partners": "{gone} in {cell} would leave only {digits} for {named}, and they see each other",
    "along-marks": "going along the marks from {first_named} to {last_named}, {never}",
    "few-ways": "by {clue}, {named} can only be {ways}",
    "few-ways-around": "by {clue}, {named} can only be {ways}, each time with {digits} in {or_cells}",
    "ways-fail": (
        "with {digits} in {cell}, {named} could only be {ways} by {clue}, and that would leave {ends}"
    ),
    "all-ways": "going through all ways to fill {clue}, {never}",
}
"""What is seen of a clue, by how it is told."""
NOTHING = "nothing"
"""Of a sandwich whose ends stand side by side: what is between them."""
SO_MANY_SETS = "one of {count:count set}"

DEAD_ENDS: Mapping[str, str] = {
    "cell": "nothing for {cell}",
    "house": "no place for {digit} in {house}",
    "cage": "{cage} without a combination",
    "clue": "no way to fill {clue}",
    "clash": "no place for {digit} but {cell}, which could not take it",
}
"""Where a line fails, by the kind of dead end; goes on from "that would leave"."""

# The rule of 45. Known digits are told where there are any.

LEFTOVER_CELLS = (
    "{boxes} {fill} {lines} but for {within}, and {stick} out at {beyond}, so these two are the same"
)
LEFTOVERS = (
    "{boxes} {fill} {lines} but for {within}, and {stick} out at {beyond}, so both hold the same digits. "
)
LEFT_OVER = {
    "closed": "{digits} {has} no place in {there}",
    "placed": "{digits} stands in {known}, and on the other side only {found} can take it",
    "seen": "{digits} stands in {known}, so it stands in {found} too",
}
"""Of the law of leftovers: one cell each, several, and what follows there."""
SUM_OF_REPEATING_CAGE = "digits may repeat in {cage}; {left}"
CAGE = "the cage of {cage}"

OPTIONS: Mapping[bool, str] = {
    True: "{rest}{cage} can only be {options}",
    False: "{rest}{cage} takes only {options}",
}
"""What a cage can be, where few combinations are left and where only the digits are told."""

REST = "the rest of "

CROSSING = "{crossing}. Only {digits} is in both, so {effect}"
"""Of `crossing-cell`, on a board."""

AREA = "across, {across} to go; down, {down}. All their cells but {unknown} lie in two of them"
AREA_RUNS: Mapping[bool, str] = {
    False: "the cages of {totals} have {rest}",
    True: "{cage} has {rest}",
}
"""What the runs of one way still need, of several and of one."""

SUM_WHOLE = "{houses} {add} up to {whole}"
SUM_CAGES: Mapping[str, tuple[str, str]] = {
    "inside": ("; the cages inside make {cages}", "; the cage inside makes {cages}"),
    "cover": ("; the cages that cover {them} make {cages}", "; the cage that covers {them} makes {cages}"),
    "both": ("; the cages counted in make {cages}", "; the cage counted in makes {cages}"),
}
"""By how the cages lie to the houses; of several cages, and of one."""
SUM_OFF_OUTSIDE = ", of which {outside} {stand} outside, in {places}"
SUM_OFF_INSIDE = ", and {known_inside}"
SUM_LEAVES = ", which leaves {rest} for {unknown}"
SUM_OUTIE = ", with {outies} the one cell outside"
SUM_TOO_MUCH: Mapping[tuple[bool, bool], str] = {
    (False, False): "",
    (True, False): ", and {known_inside}",
    (False, True): "; outside, {known_outside}",
    (True, True): ", and {known_inside}; outside, {known_outside}",
}
"""What is known on the side of the innies, on that of the outies, where all unknown cells are outside."""
SUM_OUTIES = ", which leaves {rest} for {unknown} outside"
SUM_LEAVES_ONE = ", which leaves {rest}"
SUM_LEAVES_OUTSIDE = ", which leaves {rest} outside"
SUM_BOTH = "; {they_take} in {outies} and {leave} out {innies}"
SUM_BOTH_KNOWN = "; {known}"
SUM_DIFFERS = ", so {difference}"

# Walks: chapters, and runs of easy digits told in one breath. Where there are several ways to say the same,
# they take turns.

CHAPTER_TITLES: Mapping[str, str] = {
    "opening": "Opening arithmetic",
    "approach": "On the way to the break-in",
    "break-in": "The break-in",
    "aftermath": "After the break-in",
    "run-in": "The run-in",
}
NO_BREAK_IN: Mapping[str, str] = {"approach": "The middle", "aftermath": "The middle"}
"""Titles where the hardest technique is an easy one, and nothing breaks."""
ONE_CHAPTER = "From beginning to end"
IDEAS: Mapping[str, tuple[str, str]] = {
    "opening": (
        "the totals come first: they give {digits}",
        "the totals come first: they leave little open, but no digit yet",
    ),
    "approach": (
        "{digits} can be had without a hard step",
        "no digit can be had here: candidates have to go first",
    ),
    "break-in": (
        "now comes the hardest step: {technique}; it leads to {first}",
        "now comes the hardest step: {technique}",
    ),
    "aftermath": (
        "with that, {digits} can be had, though candidates still have to go",
        "candidates still have to go",
    ),
    "run-in": ("nothing more has to be removed: {digits}, one after the other", ""),
}
"""What a chapter is about, by its name: where it writes in digits, and where it does not."""
ONE_IDEA = "it gives way everywhere: {digits}, one after the other"
"""Of a walk in one chapter that only writes in digits."""

RUN_GOES = "{digit} goes in {cell}"
RUN_GOES_ON = "{digit} in {cell}"
RUN_CLAUSES: Mapping[str, tuple[str, str]] = {
    "hidden-single-box": (RUN_GOES, "{digit} goes in {cell}, its only place in {house}"),
    "hidden-single-line": (RUN_GOES, "{digit} goes in {cell}, its only place in {house}"),
    "last-cell-of-house": ("{digit} is left for {cell}", "{cell} is {digit}, the last digit of {house}"),
    "naked-single": ("only {digit} is left in {cell}", "only {digit} is left in {cell}"),
    "last-cell-of-cage": ("{cage} needs {digit} in {cell}", "{cage} needs {digit} in {cell}"),
}
"""One digit of a run: in the house that is spoken of, and elsewhere."""
RUN_SEES = "{cell} sees every digit but {digit}"
"""Of `naked-single`, where all others stand in sight."""

HOUSE_FALLS = (
    "now the rest of {house} falls: {clauses}",
    "that is enough for {house}: {clauses}",
    "{house} can be filled up: {clauses}",
)
HOUSE_GOES_ON = (
    "in {house}, {clauses}",
    "next comes {house}: {clauses}",
    "on to {house}: {clauses}",
)
RUN_STARTS = ("{clauses}", "then {clauses}", "from there, {clauses}")

SINGLE_CAGE = "one cage is a single cell: {cells}"
SINGLE_CAGES = "some cages are single cells: {cells}"
TOTALS = "some totals can be made in one way only: {totals}"
TOTAL_IS = "{cage} is {combination}"

# The catalogue.

EXAMPLE_FROM = "Worked example, from {puzzle} of the corpus:"
EXAMPLE_ON_PICTURE = "Worked example, on the board of the picture:"
OCCURS = "In the corpus: {steps} in {puzzles} of {corpus} puzzles."
OCCURS_NOWHERE = "In the corpus: none of {corpus} puzzles needs it."
HARDEST_OF = "It is the hardest technique of {puzzles}."

LIFTS: Mapping[str, str] = {
    "steps": "one tier up, because it takes {steps} steps",
    "bottlenecks": "one tier up, because in {rounds} rounds only one or two steps are open",
}
"""Why a puzzle is in the tier above that of its hardest technique."""
