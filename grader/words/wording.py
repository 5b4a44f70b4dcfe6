"""All sentences that people read about steps, in one place.

Each technique has its evidence in words; what the step does is put behind it in the same words for all. A
sentence that ends with a full stop, or has ``{effect}`` in it, says so itself. Fields in braces are filled in
by `grader.words.narrate`: ``{cells}`` the cells of the pattern, ``{cell}`` the first of them, ``{digits}``
its digits, ``{house}`` and ``{houses}`` the houses, ``{base}``, ``{cover}`` and ``{fins}`` the parts of a
fish, ``{cage}`` and ``{cages}`` the cages, ``{sum}`` the rule of 45 told in full, ``{start}`` a chain.
"""

from __future__ import annotations

from collections.abc import Mapping

__all__ = [
    "ADD_UP",
    "ALL",
    "ALL_ELSE",
    "ALL_WAYS",
    "ALONE_LEFT",
    "AT_ONCE",
    "BOTH",
    "BOTH_IN",
    "BOTH_WAYS",
    "BY_THE_RULE_OF_45",
    "CAGE_SO_FAR",
    "CERTAIN_DIGIT",
    "CHAIN",
    "CHAIN_OF_GROUP",
    "CHAPTER_TITLES",
    "COUNTS",
    "DEAD_ENDS",
    "EQUAL",
    "EVIDENCE",
    "EXAMPLE_FROM",
    "EXAMPLE_ON_PICTURE",
    "FAILS",
    "FAILS_AT_ONCE",
    "FALL",
    "FORK",
    "FORK_LEADS",
    "FORK_TOLD",
    "GO",
    "HARDEST_OF",
    "HOUSE_FALLS",
    "HOUSE_GOES_ON",
    "IN_THE_ONE_COMBINATION",
    "IS",
    "IT_IS",
    "LEADS",
    "LIFTS",
    "LINKED_SETS",
    "LONG_LINE",
    "LONG_LINE_WOULD",
    "LOOK_AT",
    "NAMED_CERTAIN_DIGIT",
    "NAMED_COMBINATIONS",
    "NEVER",
    "NO_BREAK_IN",
    "NO_COMBINATION",
    "OCCURS",
    "OCCURS_NOWHERE",
    "ONE_CELL_CAGE",
    "ONE_CHAPTER",
    "ONE_COMBINATION",
    "ONE_COMBINATION_OR_ANOTHER",
    "ONE_START",
    "ONE_START_AT_ONCE",
    "ONE_START_TOLD",
    "REST_OF",
    "REST_ONE_COMBINATION",
    "RUN_CLAUSES",
    "RUN_GOES",
    "RUN_GOES_ON",
    "RUN_STARTS",
    "SEES_ALL_OTHERS",
    "SIDE_CLASH",
    "SINGLE_CAGE",
    "SINGLE_CAGES",
    "STANDS",
    "START_FROM",
    "STAY",
    "SUBSETS",
    "SUM_AND_KNOWN",
    "SUM_BOTH",
    "SUM_BOTH_KNOWN",
    "SUM_INNIES",
    "SUM_LEAVES",
    "SUM_LESS_KNOWN",
    "SUM_NO_CAGES",
    "SUM_OUTIE",
    "SUM_OUTIES",
    "SUM_OUTIES_KNOWN",
    "THEN",
    "THESE",
    "THE_CAGES",
    "THE_ONE_COMBINATION",
    "TOTALS",
    "TOTAL_IS",
    "TRIAL_TOLD",
    "WAY",
    "WOULD_BE",
]

EVIDENCE: Mapping[str, str] = {
    "last-cell-of-house": "only {cell} is left in {house}: it is {digits}.",
    "last-cell-of-cage": "{cell} is the last empty cell of {cage}",
    "rule-of-45": "{sum}",
    "hidden-single-box": "the only place for {digits} in {house} is {cell}.",
    "hidden-single-line": "the only place for {digits} in {house} is {cell}.",
    "naked-single": "{cell} can only be {digits}.",
    "single-combination": "the rest of {cage} can only be {digits}",
    "rule-of-45-houses": "{sum}",
    "cage-combinations": "the open combinations of {cage} use only {digits}",
    "locked-candidates": "in {house}, {digits} {has} to be in {or_cells}, all in {other_house}",
    "hidden-cage-digits": "{digits} must stand in {cage}, for {houses} can take {them} nowhere else",
    "naked-pair": "{cells} take {digits} of {house} between them",
    "hidden-pair": "in {house}, {digits} fit only in {cells}",
    "derived-sum-2": "{sum}",
    "naked-triple": "{cells} take {digits} of {house} between them",
    "hidden-triple": "in {house}, {digits} fit only in {cells}",
    "cage-arrangements": "however {cage} is filled, {never}.",
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

START_FROM = "Start from {cell}."
ADD_UP = "Add up {houses}."
THE_CAGES = "the cages"
LOOK_AT = "Look at {what}."

# Sentences that fit better than the usual one where more is known.

ONE_CELL_CAGE = "{cage} is a single cell"
"""Of `last-cell-of-cage`, where the cage never had another cell."""
CAGE_SO_FAR = "{cage} has {so_far} so far, so its last cell, {cell}, is {digits}."
SEES_ALL_OTHERS = "{cell} sees every digit but {digits}, so that is what it is."
ONE_COMBINATION = "{cage} must hold {combination}: all else goes."
REST_ONE_COMBINATION = (
    "{cage} needs {rest} more in {rest_cells}, which can only be {combination}: all else goes."
)
NAMED_COMBINATIONS = "{rest_of_cage} can only be {combinations}"
CERTAIN_DIGIT = "every open combination of {cage} has {digits}, in {or_cells}"
THE_ONE_COMBINATION = "{rest_of_cage} takes {combination}"
IN_THE_ONE_COMBINATION = "{rest_of_cage} takes {one_combination}, and {digits} {is} in {or_cells}"
NAMED_CERTAIN_DIGIT = "{rest_of_cage} can only be {combinations}, so {digits} {is} in {or_cells}"
ALL_ELSE = ": all else goes."
NO_COMBINATION = "{cage} has no combination left"
BOTH_IN = "in {house}, {digits} {has} to be in {or_cells}, both in {other_house}"

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

DEAD_ENDS: Mapping[str, str] = {
    "cell": "nothing for {cell}",
    "house": "no place for {digit} in {house}",
    "cage": "{cage} without a combination",
    "clash": "no place for {digit} but {cell}, which could not take it",
}
"""Where a line fails, by the kind of dead end; goes on from "that would leave"."""

# The rule of 45. Known digits are told where there are any.

SUM_INNIES = "{houses} {add} up to {whole}; the cages inside make {cages}"
SUM_NO_CAGES = "{houses} {add} up to {whole}"
SUM_LESS_KNOWN = ", and {known}"
SUM_LEAVES = ", which leaves {rest} for {unknown}"
SUM_OUTIE = (
    "{houses} {add} up to {whole}; the cages that cover {them} make {cages},"
    " with {outies} the one cell outside"
)
SUM_OUTIES = (
    "{houses} {add} up to {whole}; the cages that cover {them} make {cages}, so {unknown} outside make {rest}"
)
SUM_OUTIES_KNOWN = (
    "{houses} {add} up to {whole}; the cages that cover {them} make {cages},"
    " with {outies} outside, and {known}"
)
SUM_BOTH = (
    "{houses} {add} up to {whole}; the cages counted in make {cages}, with {outies} outside but without"
    " {innies}, so {difference}"
)
SUM_AND_KNOWN = "; {known}"
SUM_BOTH_KNOWN = (
    "{houses} {add} up to {whole}; the cages counted in make {cages}, with {outies} outside but without"
    " {innies}; {known}"
)

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
LEADS: Mapping[str, str] = {"break-in": "now comes the hardest step: {technique}"}
"""A sentence at the head of a chapter."""

RUN_GOES = "{digit} goes in {cell}"
RUN_GOES_ON = "{digit} in {cell}"
RUN_CLAUSES: Mapping[str, tuple[str, str]] = {
    "hidden-single-box": (RUN_GOES, "{digit} goes in {cell}, its only place in {house}"),
    "hidden-single-line": (RUN_GOES, "{digit} goes in {cell}, its only place in {house}"),
    "last-cell-of-house": ("{digit} is left for {cell}", "{cell} is {digit}, the last digit of {house}"),
    "naked-single": ("{cell} can only be {digit}", "{cell} can only be {digit}"),
    "last-cell-of-cage": ("{cage} needs {digit} in {cell}", "{cage} needs {digit} in {cell}"),
}
"""One digit of a run: in the house that is spoken of, and elsewhere."""

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
TOTALS = "some totals have one combination, and all else goes from these cages: {totals}"
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
