"""What is seen of marks, lines and clues at the edge."""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

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
