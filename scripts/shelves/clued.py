"""Puzzles with marks, lines and clues at the edge: of each kind three sound and two broken; mixed ones."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from scripts.setting.clues.misdrawn import left_out, missed_mark, never_true, slipped
from scripts.setting.shelf import ShelfFile
from scripts.shelves.drawn import NINE, SIX, Drawn, drawn_files

__all__ = ["EDGED", "LINED", "MARKED", "MIXED_RULES", "clued_files"]

MARKED = (
    Drawn("Tide marks", "Ivo", NINE, 5, {"greater": 115}),
    Drawn("Gangplank", "Wren", NINE, 3, {"greater": 86}),
    Drawn("Rope ladder", "Juno", NINE, 1, {"greater": 86}),
    Drawn("Flag upside down", "Otis", NINE, 2, {"greater": 115}, fault=slipped),
    Drawn("Missing rung", "Marigold", SIX, 3, {"greater": 25}, fault=left_out),
    Drawn("Next berth", "Odile", SIX, 48, {"consecutive": 7}, more=2),
    Drawn("Stepping stones", "Jory", SIX, 11, {"consecutive": 13}, more=1),
    Drawn("Neighbour's wall", "Tamsin", NINE, 3, {"consecutive": 20}),
    Drawn("Wrong side of the wall", "Ivo", SIX, 4, {"consecutive": 10}, fault=slipped),
    Drawn("Stone washed away", "Wren", SIX, 5, {"consecutive": 10}, fault=left_out),
    Drawn("Half measures", "Marigold", SIX, 1, {"ratio": 8}),
    Drawn("Double ration", "Otis", SIX, 17, {"ratio": 12}),
    Drawn("Twice the catch", "Juno", NINE, 3, {"ratio": 18}),
    Drawn("Thrice salted", "Odile", SIX, 4, {"ratio": 10}, fault=slipped),
    Drawn("Lost measure", "Jory", SIX, 5, {"ratio": 10}, fault=left_out),
    Drawn("Ebb and flow", "Tamsin", SIX, 1, {"difference": 8}),
    Drawn("Odds and ends", "Ivo", SIX, 2, {"difference": 14}),
    Drawn("Depth soundings", "Wren", NINE, 3, {"difference": 24}),
    Drawn("Fathom out", "Marigold", SIX, 4, {"difference": 12}, fault=slipped),
    Drawn("Mark rubbed off", "Otis", SIX, 5, {"difference": 12}, fault=left_out),
    Drawn("Weighed together", "Juno", SIX, 16, {"pair_sum": 7}, more=3),
    Drawn("Two on the scale", "Odile", SIX, 2, {"pair_sum": 14}),
    Drawn("Ten to the pair", "Jory", NINE, 3, {"pair_sum": 24}),
    Drawn("Thumb on the scale", "Tamsin", SIX, 4, {"pair_sum": 12}, fault=slipped),
    Drawn("Both in one pan", "Ivo", SIX, 5, {"pair_sum": 12}, fault=never_true),
    Drawn("Even keel", "Wren", SIX, 1, {"even": 8}),
    Drawn("Two by two", "Marigold", SIX, 2, {"even": 12}),
    Drawn("Level decks", "Otis", NINE, 3, {"even": 24}),
    Drawn("List to port", "Juno", SIX, 4, {"even": 10}, fault=slipped),
    Drawn("Ballast overboard", "Odile", SIX, 5, {"even": 10}, fault=left_out),
    Drawn("Singles ashore", "Jory", SIX, 1, {"odd": 8}),
    Drawn("Thirteen steps", "Tamsin", SIX, 2, {"odd": 13}),
    Drawn("Seven bells", "Ivo", NINE, 3, {"odd": 27}),
    Drawn("Crossed ledger", "Wren", SIX, 4, {"odd": 10}, fault=slipped),
    Drawn("One hand short", "Marigold", SIX, 5, {"odd": 10}, fault=left_out),
    Drawn("Compass card", "Otis", SIX, 1, {"quadruple": 6}),
    Drawn("Crossroads", "Juno", SIX, 23, {"quadruple": 7}, more=5),
    Drawn("Knot of four", "Odile", NINE, 3, {"quadruple": 12}),
    Drawn("Needle astray", "Jory", SIX, 4, {"quadruple": 7}, fault=slipped),
    Drawn("Untied knot", "Tamsin", SIX, 5, {"quadruple": 7}, fault=left_out),
    Drawn("All hands listed", "Ivo", SIX, 1, {"all consecutive": 1}),
    Drawn("Every buoy charted", "Wren", SIX, 2, {"all ratios": 1}),
    Drawn("Full manifest", "Marigold", NINE, 3, {"all sums": 1}, more=4),
    Drawn("Hand unlisted", "Otis", SIX, 4, {"all consecutive": 1}, fault=missed_mark),
    Drawn("Buoy uncharted", "Juno", SIX, 5, {"all ratios": 1}, fault=missed_mark),
    Drawn("Four lanterns", "Odile", SIX, 10, {"quadruple": 6}, more=3),
)

LINED = (
    Drawn("Mercury rising", "Odile", SIX, 1, {"thermometer": 4}),
    Drawn("Barometer", "Jory", SIX, 11, {"thermometer": 5}, more=1),
    Drawn("Warm front", "Tamsin", NINE, 3, {"thermometer": 9}),
    Drawn("Glass upside down", "Ivo", SIX, 4, {"thermometer": 5}, fault=slipped),
    Drawn("Broken glass", "Wren", SIX, 5, {"thermometer": 5}, fault=left_out),
    Drawn("Straight flight", "Marigold", SIX, 14, {"arrow": 3}, more=1),
    Drawn("Fletcher's row", "Otis", SIX, 2, {"arrow": 5}),
    Drawn("Signal arrow", "Juno", NINE, 3, {"arrow": 7}, more=4),
    Drawn("Overshot", "Odile", SIX, 4, {"arrow": 5}, fault=slipped),
    Drawn("Arrow unstrung", "Jory", SIX, 5, {"arrow": 5}, fault=left_out),
    Drawn("There and back", "Tamsin", SIX, 1, {"palindrome": 3}),
    Drawn("Noon and noon", "Ivo", SIX, 29, {"palindrome": 3}),
    Drawn("Mirror lake", "Wren", NINE, 3, {"palindrome": 6}),
    Drawn("Cracked mirror", "Marigold", SIX, 6, {"palindrome": 4}, fault=slipped),
    Drawn("No way back", "Otis", SIX, 5, {"palindrome": 4}, fault=left_out),
    Drawn("Unbroken rope", "Juno", SIX, 28, {"renban": 4}),
    Drawn("Run of luck", "Odile", SIX, 35, {"renban": 9}, more=1),
    Drawn("String of lamps", "Jory", NINE, 3, {"renban": 8}, more=4),
    Drawn("Frayed rope", "Tamsin", SIX, 4, {"renban": 6}, fault=slipped),
    Drawn("Lamp out", "Ivo", SIX, 5, {"renban": 6}, fault=left_out),
    Drawn("Quiet word", "Wren", SIX, 42, {"whisper": 6}, more=3),
    Drawn("Speaking tube", "Marigold", SIX, 43, {"whisper": 5}),
    Drawn("Hushed harbour", "Otis", NINE, 3, {"whisper": 7}, more=2),
    Drawn("Shouted order", "Juno", SIX, 4, {"whisper": 5}, fault=slipped),
    Drawn("Word unsaid", "Odile", SIX, 5, {"whisper": 5}, fault=left_out),
    Drawn("Narrows", "Jory", SIX, 30, {"between": 7}, more=1),
    Drawn("Sheltered water", "Tamsin", SIX, 23, {"between": 8}, more=2),
    Drawn("Between two piers", "Ivo", NINE, 3, {"between": 9}),
    Drawn("Past the pier", "Wren", SIX, 4, {"between": 6}, fault=slipped),
    Drawn("Pier swept away", "Marigold", SIX, 5, {"between": 6}, fault=left_out),
    Drawn("Equal shares", "Otis", SIX, 46, {"region_sum": 4}),
    Drawn("Fair split", "Juno", SIX, 2, {"region_sum": 5}),
    Drawn("Level watches", "Odile", NINE, 3, {"region_sum": 6}, more=4),
    Drawn("Unequal shares", "Jory", SIX, 4, {"region_sum": 5}, fault=slipped),
    Drawn("Share unclaimed", "Tamsin", SIX, 5, {"region_sum": 5}, fault=left_out),
    Drawn("Wind rose", "Jory", SIX, 15, {"arrow": 4}, more=1),
    Drawn("Shared ledger", "Tamsin", SIX, 2, {"region_sum": 6}, more=4),
    Drawn(
        "Last flight",
        "Ivo",
        SIX,
        1,
        {"arrow": 3},
        more=4,
        besides="r3c4 r1c6 r3c6 r1c5 r4c1 r4c4 r5c4 r6c2 r5c2 r4c5 r5c6 r1c1 r6c3 r6c4",
    ),
    Drawn(
        "Still water",
        "Wren",
        SIX,
        1,
        {"palindrome": 3},
        more=4,
        besides="r2c6 r1c3 r2c5 r1c2 r3c1 r3c2 r4c1 r4c5 r6c1 r6c4 r2c2",
    ),
    Drawn("Whispering gallery", "Juno", SIX, 271, {"whisper": 4}),
    Drawn("Round the capstan", "Marigold", SIX, 1, {"arrow": 5}, besides="r4c5 r6c5"),
    Drawn("Split to the crumb", "Otis", SIX, 2, {"region_sum": 5}, besides="r3c3 r5c4 r6c6"),
)

EDGED = (
    Drawn("Packed lunch", "Ivo", SIX, 1, {"sandwich": 6}),
    Drawn("Bread and dripping", "Wren", SIX, 13, {"sandwich": 6}, more=6),
    Drawn("Picnic on the mole", "Marigold", NINE, 3, {"sandwich": 6}, more=6),
    Drawn("Crumbs", "Otis", SIX, 4, {"sandwich": 8}, fault=never_true),
    Drawn("Wrong filling", "Juno", SIX, 5, {"sandwich": 8}, fault=slipped),
    Drawn("Rooftops", "Odile", SIX, 32, {"skyscraper": 8}, more=3),
    Drawn("Chimney stacks", "Jory", SIX, 33, {"skyscraper": 9}),
    Drawn("View from the bridge", "Tamsin", NINE, 3, {"skyscraper": 16}, more=4),
    Drawn("Twelve storeys", "Ivo", NINE, 4, {"skyscraper": 10}, more=6, fault=never_true),
    Drawn("Fog over the roofs", "Wren", SIX, 5, {"skyscraper": 10}, fault=left_out),
    Drawn("Slanting rain", "Marigold", SIX, 1, {"little_killer": 5}),
    Drawn("Long shadow", "Otis", SIX, 2, {"little_killer": 8}),
    Drawn("Ladder on the slope", "Juno", NINE, 3, {"little_killer": 6}, more=6),
    Drawn("Wet slate", "Odile", SIX, 4, {"little_killer": 6}, fault=slipped),
    Drawn("Ladder taken away", "Jory", SIX, 5, {"little_killer": 6}, fault=left_out),
    Drawn("Low sun", "Marigold", SIX, 1, {"little_killer": 4}, more=4),
    Drawn("Long table", "Otis", SIX, 7, {"sandwich": 7}, besides="r6c2"),
    Drawn("Roof by roof", "Juno", SIX, 125, {"skyscraper": 14}, more=1),
)

MIXED_RULES = (
    Drawn("Ship's company", "Tamsin", SIX, 1, {"thermometer": 2, "even": 4, "consecutive": 4}),
    Drawn("Full rigging", "Ivo", SIX, 2, {"cages": 6, "renban": 2, "quadruple": 2}),
    Drawn("Harbour fair", "Wren", NINE, 3, {"arrow": 3, "palindrome": 2, "odd": 6, "pair_sum": 4}),
    Drawn("Mixed cargo", "Marigold", NINE, 4, {"cages": 12, "whisper": 3, "between": 2, "greater": 8}),
    Drawn("All the tackle", "Otis", SIX, 5, {"sandwich": 3, "skyscraper": 4, "little_killer": 2}),
    Drawn("Grand regatta", "Juno", SIX, 6, {"region_sum": 2, "ratio": 4, "difference": 4, "cages": 3}),
)


def clued_files() -> Iterator[ShelfFile]:
    """Yield the folders ``marks``, ``lines``, ``edge`` and ``mixed``."""
    return chain(
        drawn_files("marks", "mark-{:02}", MARKED),
        drawn_files("lines", "line-{:02}", LINED),
        drawn_files("edge", "edge-{:02}", EDGED),
        drawn_files("mixed", "mixed-{}", MIXED_RULES),
    )
