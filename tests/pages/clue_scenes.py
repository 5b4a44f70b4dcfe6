"""Steps to draw of the techniques for clues and kakuros, on the examples of the rulebook."""

from __future__ import annotations

from grader.board.patterns import ClueSaid, DeadEnd
from grader.board.steps import Step

__all__ = ["CLUE_STEPS"]

CLUE_STEPS: dict[str, tuple[str, dict[int, int], Step]] = {
    "clues.added_lines": (
        "little_killer",
        {1: 110, 8: 110, 15: 110, 29: 126},
        Step(
            technique="diagonal-bounds",
            removes=((1, 6),),
            rules=(18,),
            looks=(8, 15, 22, 29),
            focus=(1,),
            digits=6,
        ),
    ),
    "clues.alternating": (
        "whisper",
        {25: 84, 26: 68, 33: 84},
        Step(
            technique="low-and-high",
            removes=((25, 4), (26, 64), (33, 4)),
            rules=(20,),
            looks=(30,),
            focus=(25, 26, 33),
            digits=68,
        ),
    ),
    "clues.blocks": (
        "quadruple",
        {0: 84, 1: 68, 6: 116, 7: 100, 31: 100},
        Step(
            technique="certain-in-block",
            removes=((0, 4), (6, 4), (31, 4)),
            rules=(7, 12, 18),
            looks=(1, 2, 7, 8),
            focus=(1, 7),
            digits=4,
        ),
    ),
    "clues.clue_ways": (
        "quadruple",
        {0: 84, 1: 68, 6: 116, 7: 100, 31: 100},
        Step(
            technique="few-clue-ways",
            removes=((0, 4), (6, 4), (31, 4)),
            rules=(7, 12, 18),
            looks=(1, 2, 7, 8),
            focus=(1, 7),
            digits=4,
        ),
    ),
    "clues.conflicts": (
        "little_killer",
        {3: 4, 4: 44, 11: 28},
        Step(
            technique="clue-conflicts",
            removes=((4, 32),),
            rules=(13, 20),
            looks=(3, 4, 11),
            focus=(4,),
            digits=32,
            pattern=ClueSaid(20, "ways-fail", cells=(11,), ways=((2,),), ends=(DeadEnd("cell", 3),)),
        ),
    ),
    "clues.enclosed": (
        "between",
        {1: 48, 8: 56, 14: 60},
        Step(
            technique="enclosing-ends",
            removes=((14, 32),),
            rules=(18,),
            looks=(0, 1, 8),
            focus=(14,),
            digits=32,
        ),
    ),
    "clues.equal_parts": (
        "region_sum",
        {1: 76, 7: 78, 14: 14},
        Step(
            technique="equal-part-bounds",
            removes=((7, 64),),
            rules=(18,),
            looks=(1, 13, 14),
            focus=(7,),
            digits=64,
        ),
    ),
    "clues.even_and_odd": (
        "odd",
        {2: 98},
        Step(technique="even-and-odd", removes=((2, 64),), rules=(18,), focus=(2,), digits=64),
    ),
    "clues.last_cells": (
        "renban",
        {1: 24},
        Step(
            technique="last-cell-of-clue",
            places=((1, 3),),
            rules=(18,),
            looks=(0, 1, 8, 14),
            focus=(1,),
            digits=8,
        ),
    ),
    "clues.mark_chains": (
        "thermometer",
        {0: 124, 6: 124, 13: 126},
        Step(
            technique="mark-chain",
            removes=((0, 96), (6, 68), (13, 14)),
            rules=(6, 18),
            looks=(0, 6, 13),
            focus=(0, 6, 13),
            digits=110,
        ),
    ),
    "clues.mirrors": (
        "palindrome",
        {4: 60},
        Step(technique="mirrored-digit", places=((4, 3),), rules=(19,), looks=(23,), focus=(4, 23), digits=8),
    ),
    "clues.partners": (
        "not_consecutive",
        {24: 6, 25: 94, 26: 78, 31: 94},
        Step(
            technique="too-few-partners",
            removes=((25, 8),),
            rules=(4, 7, 16, 18),
            looks=(24, 26, 31),
            focus=(25, 24, 26, 31),
            digits=8,
        ),
    ),
    "clues.rising_lines": (
        "thermometer",
        {13: 32, 14: 96},
        Step(
            technique="rising-bounds", removes=((14, 32),), rules=(18,), looks=(13,), focus=(14,), digits=32
        ),
    ),
    "clues.sandwiches": (
        "sandwich",
        {0: 22, 6: 52, 12: 46, 18: 46, 24: 62},
        Step(
            technique="sandwich-filling",
            removes=((0, 2), (12, 10), (18, 44), (24, 54)),
            rules=(6, 19),
            looks=(0, 6, 12, 18, 24, 30),
            focus=(0, 6, 12, 18, 24, 30),
            digits=62,
        ),
    ),
    "clues.skylines": (
        "skyscraper",
        {0: 94},
        Step(technique="seen-heights", removes=((0, 64),), rules=(0, 18), focus=(0,), digits=64),
    ),
    "clues.windows": (
        "renban",
        {0: 60, 1: 28, 3: 62, 5: 30, 6: 124, 7: 92, 14: 88},
        Step(
            technique="certain-in-windows",
            removes=((3, 4), (5, 4), (6, 4), (7, 4)),
            rules=(0, 12, 18),
            looks=(0, 1, 8, 14),
            focus=(0, 1),
            digits=4,
        ),
    ),
    "crossing_cages": (
        "cells",
        {14: 62},
        Step(technique="crossing-cell", places=((14, 1),), rules=(2, 4), looks=(8,), focus=(14,), digits=2),
    ),
}
"""For each family: a rule of the rulebook, open digits as masks by cell, and a step."""
