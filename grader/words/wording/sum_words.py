"""The rule of 45, areas of runs and leftovers; known digits are told where there are any."""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

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
