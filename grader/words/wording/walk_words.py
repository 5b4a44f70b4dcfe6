"""Walks: chapters, and runs of easy digits told in one breath.

Where there are several ways to say the same, they take turns.
"""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

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
