"""What the program says of marks, lines and clues: a part of the catalogue in `verifier.puzzle.wording`."""

from __future__ import annotations

__all__ = ["CANNOT_HOLD", "CLUE_BREACHES", "CLUE_FAULTS", "NEVER_BOTH", "NEVER_HOLDS"]

CLUE_FAULTS = {
    "clues-shape": (
        "{what}",
        "a list of clues",
        "Write each clue on a line of its own, such as '- {{greater: r1c1 r1c2}}'.",
    ),
    "clues-many": ("{found:,}", "at most {most:,} in such a grid", "Take out those that are not needed."),
    "clue-shape": (
        "{what}",
        "the name of the clue with its cells",
        "Write each clue on a line of its own, such as '- {{greater: r1c1 r1c2}}'.",
    ),
    "clue-name": ("'{word}'", "{allowed}", "Correct the name of the clue, or take the clue out."),
    "clue-part": ("nothing for '{key}'", "a value for '{key}'", "Write it after '{key}:'."),
    "clue-twice": ("the same as clue {first}", "each clue once", "Take one of the two out."),
    "clue-cells-shape": (
        "{what}",
        "cells",
        "Write the cells with spaces between them, such as 'r1c1 r1c2'.",
    ),
    "clue-cells": ("{found}", "{wanted}", "Name as many cells as such a clue has."),
    "clue-number": (
        "'{word}'",
        "a whole number of at most {most} figures",
        "Write the number in figures, such as 5.",
    ),
    "not-neighbours": (
        "{one} and {other}",
        "two neighbours in a row or column",
        "Correct one of the two cells.",
    ),
    "not-a-square": (
        "{cells}",
        "four cells of two rows and two columns that meet in a point",
        "Name the four cells around the digits.",
    ),
    "quadruple-digits": ("{found}", "two to four digits", "Write the digits with spaces between them."),
    "line-jumps": (
        "{one} and {other}, which do not touch",
        "a line on which each cell touches the next, if only at a corner",
        "Name every cell of the line, in order.",
    ),
    "arrow-circle": (
        "{found}",
        "a circle of one cell, or of two neighbours in a row or column",
        "Name the cells of the circle alone; those of the line stand in 'cells'.",
    ),
    "circle-in-line": (
        "{cell}, which is in the circle",
        "a line without its circle",
        "Take it out of 'cells'.",
    ),
    "arrow-apart": (
        "{first}, which does not touch {circle}",
        "a line that begins beside its circle",
        "Name every cell of the line, from the circle on.",
    ),
    "one-part": (
        "a line {where}",
        "a line that runs through two boxes or more",
        "Correct the cells, or take the clue out.",
    ),
    "line": (
        "'{word}'",
        "row 1 to row {rows}, column 1 to column {columns}",
        "Write the row or column at whose end the clue stands, such as 'row 3'.",
    ),
    "side": ("'{word}'", "{sides} for {line_name}", "Write the side from which the digits are seen."),
    "not-a-diagonal": (
        "{cells}",
        "all cells of a diagonal, in order from edge to edge",
        "Name every cell of the diagonal, from that at which the clue stands.",
    ),
}
"""For each fault of a clue: what was found, what is allowed, what to do."""

NEVER_HOLDS = "{clue} can never hold: {why}. Correct it, or take it out."
"""What the check of clues says of one that no filling can obey."""

NEVER_BOTH = "{one} and {other} can never hold both. Take one of the two out, or correct it."
"""The same, of two that contradict each other."""

CANNOT_HOLD = {
    "ratio": "no digit up to {digits} is {ratio} times another",
    "difference": "two neighbours differ by 1 at least and {most} at most",
    "neighbours": "two neighbours can add up only to {possible:or}",
    "parity": "{cells:count cell} of it are in {house}, where only {own:count digit} can be {word}",
    "quadruple": "the digit {digit} can stand there only {times:count time}",
    "length": "it has {cells:count cell}, but there are only {digits:count digit}",
    "whisper": "no two digits differ by more than {most}",
    "palindrome": "{cells:and} must be equal, but both are in {house}",
    "between": "{cells:count cell} between its ends are in {house}, but only {inner:count digit} can lie "
    "between 1 and {digits}",
    "arrow-long": "its line adds up to {least} at least, and its circle holds {high} at most",
    "arrow-short": "its line adds up to {most} at most, and its circle holds {low} at least",
    "region-sum": "{long:and} add up to {least} at least, {short:and} to {most} at most",
    "sandwich": "what lies between the 1 and the largest digit can add up only to {possible:or}",
    "skyscraper": "only {possible:or} digits can be seen in a line",
    "diagonal": "its cells can add up only to {possible:or}",
}
"""Why a clue can never hold."""

CLUE_BREACHES = {
    "greater": "{more} has {held} and {less} has {other}, but the sign between them says that {more} is "
    "greater",
    "pair": "{one} has {digits[0]} and {other} has {digits[1]}, against {rule}",
    "between": "{cell} has {digit}, which does not lie between {ends:and}",
    "arrow": "{rule} adds up to {made}, but its circle holds {held}",
    "region_sum": "the parts of {rule} add up to {sums:and}",
    "sandwich-open": "{rule} is not between a 1 and a {largest}",
    "sandwich": "{rule} has {made} between the 1 and the {largest}",
    "skyscraper": "{rule} sees {seen:count digit}",
    "little_killer": "{rule} adds up to {made}",
}
"""How the check of a solution names a clue that is broken."""
