"""Sentences that fit better than the usual one where more is known, and why combinations fall."""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

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
