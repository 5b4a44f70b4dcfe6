"""How chains and lines of forcing are told: what is written in, one after the other, and what follows."""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

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

DEAD_ENDS: Mapping[str, str] = {
    "cell": "nothing for {cell}",
    "house": "no place for {digit} in {house}",
    "cage": "{cage} without a combination",
    "clue": "no way to fill {clue}",
    "clash": "no place for {digit} but {cell}, which could not take it",
}
"""Where a line fails, by the kind of dead end; goes on from "that would leave"."""
