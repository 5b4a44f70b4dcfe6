"""Puzzles with houses of other shapes and with rules of the whole grid."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from scripts.setting.clues.misdrawn import left_out, slipped
from scripts.setting.doubts import given_left_out, misprinted_given
from scripts.setting.empty_grids import (
    boxless,
    crooked,
    diagonals,
    no_repeats,
    not_consecutive,
    patched,
    windows,
)
from scripts.setting.shelf import ShelfFile
from scripts.shelves.drawn import NINE, SIX, Drawn, drawn_files

__all__ = ["rule_files"]

_knight = partial(no_repeats, "knight")
_king = partial(no_repeats, "king")

HOUSES = (
    Drawn("Crazy paving", "Odile", SIX, 12, empty=crooked, more=2),
    Drawn("Cobbled lane", "Tamsin", SIX, 29, empty=crooked, more=6),
    Drawn("Patchwork sail", "Wren", NINE, 1, empty=patched),
    Drawn("Loose slates", "Jory", SIX, 2, empty=crooked, fault=misprinted_given),
    Drawn("Missing flagstone", "Ivo", SIX, 4, empty=crooked, fault=given_left_out),
    Drawn("Open deck", "Marigold", SIX, 1, empty=boxless),
    Drawn("Bare planks", "Otis", SIX, 29, empty=boxless),
    Drawn("Rows of nets", "Juno", NINE, 3, empty=boxless),
    Drawn("Warped plank", "Odile", SIX, 4, empty=boxless, fault=misprinted_given),
    Drawn("Gap in the deck", "Jory", SIX, 5, empty=boxless, fault=given_left_out),
    Drawn("Crossed beams", "Tamsin", NINE, 2, empty=diagonals),
    Drawn("Saltire", "Wren", SIX, 31, empty=diagonals),
    Drawn("Rigging cross", "Otis", NINE, 4, empty=diagonals, more=6),
    Drawn("Snapped spar", "Ivo", SIX, 3, empty=diagonals, fault=misprinted_given),
    Drawn("Slack stays", "Marigold", SIX, 5, empty=diagonals, fault=given_left_out),
    Drawn("Four portholes", "Ivo", NINE, 3, empty=windows, more=6),
    Drawn("Lamplit panes", "Juno", NINE, 4, empty=windows),
    Drawn("Skylights", "Odile", SIX, 1, empty=windows),
    Drawn("Bolted shutter", "Otis", NINE, 2, empty=windows, fault=misprinted_given),
    Drawn("Painted window", "Jory", SIX, 5, empty=windows, fault=given_left_out),
    Drawn("Stable door", "Wren", SIX, 1, empty=_knight),
    Drawn("Hobby horse", "Tamsin", SIX, 2, empty=_knight, more=4),
    Drawn("Two up and one over", "Ivo", NINE, 6, empty=_knight),
    Drawn("Thrown shoe", "Marigold", SIX, 4, empty=_knight, fault=misprinted_given),
    Drawn("Open gate", "Otis", SIX, 5, empty=_knight, fault=given_left_out),
    Drawn("Harbour master", "Marigold", SIX, 1, empty=_king),
    Drawn("Harbour pilot", "Juno", SIX, 33, empty=_king),
    Drawn("Elbow room", "Odile", NINE, 5, empty=_king),
    Drawn("Paper crown", "Jory", SIX, 4, empty=_king, fault=misprinted_given),
    Drawn("Empty throne", "Tamsin", SIX, 5, empty=_king, fault=given_left_out),
    Drawn("Kept apart", "Juno", SIX, 2, empty=not_consecutive, more=5),
    Drawn("Odd company", "Wren", SIX, 13, empty=not_consecutive, more=1),
    Drawn("Every other step", "Ivo", NINE, 1, empty=not_consecutive, more=6),
    Drawn("Next of kin", "Marigold", SIX, 6, empty=not_consecutive, fault=misprinted_given),
    Drawn("Seat left free", "Otis", SIX, 5, empty=not_consecutive, fault=given_left_out),
    Drawn("Unpriced fish", "Juno", SIX, 1, {"cages without total": 8}),
    Drawn("Sealed crates", "Odile", SIX, 2, {"cages without total": 12}),
    Drawn("No label", "Jory", NINE, 3, {"cages without total": 24}),
    Drawn("One fish too many", "Tamsin", SIX, 4, {"cages without total": 10}, fault=slipped),
    Drawn("Crate adrift", "Wren", SIX, 7, {"cages without total": 10}, fault=left_out),
    Drawn("Twins allowed", "Ivo", SIX, 1, {"cages with repeats": 5}),
    Drawn("Second helping", "Marigold", SIX, 31, {"cages with repeats": 10}, more=1),
    Drawn("Pairs of oars", "Otis", NINE, 3, {"cages with repeats": 10}, more=3),
    Drawn("Wrong change", "Juno", SIX, 4, {"cages with repeats": 6}, fault=slipped),
    Drawn("Spilt basket", "Odile", SIX, 5, {"cages with repeats": 6}, fault=left_out),
)


def rule_files() -> Iterator[ShelfFile]:
    """Yield the folder ``rules``."""
    return drawn_files("rules", "rule-{:02}", HOUSES)
