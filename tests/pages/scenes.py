"""Puzzles and steps to draw: one step of each family of techniques, as walks of these puzzles had them."""

from __future__ import annotations

from pathlib import Path

from grader.board.steps import DerivedSum, Step
from tests.pages.clue_scenes import CLUE_STEPS
from verifier.files.reading import read_file
from verifier.files.rulebook import entries
from verifier.pages.drawing.highlight import highlight_of
from verifier.pages.drawing.svg import Picture
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.linear_sum import LinearSum

__all__ = ["PUZZLES", "STEPS", "picture_of", "puzzle_named"]

PUZZLES = Path(__file__).parent / "puzzles"
EXAMPLES = Path(entries.__file__).parent / "examples"


def puzzle_named(name: str) -> Puzzle:
    """Read one of the puzzles of this folder, or an example of the rulebook."""
    own = PUZZLES / f"{name}.yaml"
    (entry,) = read_file(own if own.exists() else EXAMPLES / own.name)
    assert entry.puzzle is not None
    return entry.puzzle


def picture_of(family: str) -> Picture:
    """The picture of a family's step, with the marks of the cells it speaks of."""
    name, marks, step = STEPS[family]
    puzzle = puzzle_named(name)
    return Picture(puzzle, marks=marks, highlight=highlight_of(step, puzzle))


STEPS: dict[str, tuple[str, dict[int, int], Step]] = {
    **CLUE_STEPS,
    "almost_locked": (
        "classic",
        {8: 180, 26: 52, 35: 34, 44: 418, 61: 672, 62: 690, 71: 162, 79: 672},
        Step(
            technique="almost-locked-pair",
            removes=((44, 2),),
            rules=(17, 26),
            looks=(8, 26, 35, 61, 62, 71, 79),
            focus=(8, 26, 35, 61, 62, 71, 79),
            digits=2,
            length=3,
            chain=(((35, 71), 1), ((8, 26), 4), ((62,), 4), ((62, 71), 1)),
        ),
    ),
    "cage_digits": (
        "nest",
        {51: 568, 52: 560},
        Step(
            technique="last-cells-of-cage",
            places=((51, 3), (52, 9)),
            rules=(46,),
            looks=(51, 52),
            focus=(51, 52),
            digits=520,
        ),
    ),
    "cage_fish": (
        "nest",
        {8: 282, 17: 282, 26: 2, 35: 20, 56: 204, 57: 204, 58: 460, 62: 388, 65: 236, 67: 494, 71: 388},
        Step(
            technique="cage-fish",
            removes=((58, 128), (67, 128)),
            rules=(17, 6, 7, 48),
            looks=(8, 17, 26, 35, 44, 53, 56, 57, 65, 80),
            focus=(56, 57, 62, 65, 71),
            digits=128,
        ),
    ),
    "cage_subsets": (
        "killer",
        {56: 704, 57: 576, 58: 6, 61: 910, 62: 910},
        Step(
            technique="cage-subset",
            removes=((61, 512), (62, 512)),
            rules=(6,),
            sums=(
                DerivedSum(
                    linear=LinearSum(weights=((56, 1), (57, 1), (58, 1)), total=17),
                    rules=(6, 43, 44, 45),
                ),
            ),
            looks=(56, 57, 58),
            focus=(56, 57, 58),
            digits=512,
        ),
    ),
    "cages": (
        "killer",
        {4: 1022, 13: 1022},
        Step(
            technique="single-combination",
            removes=((4, 382), (13, 382)),
            rules=(29,),
            focus=(4, 13),
            digits=640,
        ),
    ),
    "chains": (
        "classic",
        {13: 24, 15: 144, 19: 272, 22: 24, 23: 384, 26: 180},
        Step(
            technique="xy-chain",
            removes=((26, 128),),
            rules=(1, 2, 13, 20),
            looks=(13, 15, 19, 22, 23),
            focus=(15, 23),
            digits=128,
            length=9,
            chain=(
                ((15,), 7),
                ((15,), 4),
                ((13,), 4),
                ((13,), 3),
                ((22,), 3),
                ((22,), 4),
                ((19,), 4),
                ((19,), 8),
                ((23,), 8),
                ((23,), 7),
            ),
        ),
    ),
    "clusters": (
        "classic",
        {18: 168, 19: 272, 21: 132, 22: 24, 23: 384, 26: 180, 54: 178, 63: 162, 65: 160, 71: 162},
        Step(
            technique="grouped-links",
            removes=((54, 32),),
            rules=(2, 7, 9, 17, 24),
            looks=(19, 20, 21, 22, 23, 24, 25, 66, 67, 68, 69, 70),
            focus=(18, 63, 65),
            digits=32,
            length=3,
            chain=(((18,), 5), ((26,), 5), ((71,), 5), ((63, 65), 5)),
        ),
    ),
    "conflicts": (
        "killer",
        {20: 944, 29: 440, 38: 1016, 47: 1016, 56: 1008},
        Step(
            technique="cage-conflicts",
            removes=((38, 16), (47, 16), (56, 16)),
            rules=(11, 39, 34),
            looks=(20, 29, 38, 47, 56),
            focus=(38, 47, 56),
            digits=16,
        ),
    ),
    "cut_sums": (
        "killer",
        {33: 190, 57: 576, 66: 44, 75: 120},
        Step(
            technique="cut-sums",
            removes=((33, 2),),
            rules=(12,),
            sums=(
                DerivedSum(
                    linear=LinearSum(weights=((33, 1), (57, 1), (66, 1), (75, 1)), total=20),
                    rules=(12, 19, 22, 28, 29, 30, 35, 36, 37, 40, 42),
                ),
            ),
            looks=(57, 66, 75),
            focus=(33, 57, 66, 75),
            digits=764,
        ),
    ),
    "equal_cells": (
        "killer",
        {48: 960, 57: 576, 58: 6, 61: 910, 62: 910},
        Step(
            technique="equal-cells",
            removes=((61, 512), (62, 512)),
            rules=(6, 42),
            sums=(
                DerivedSum(
                    linear=LinearSum(weights=((48, -1), (56, 1)), total=0),
                    rules=(6, 42, 43, 44, 45),
                ),
            ),
            looks=(48, 57, 58),
            focus=(48, 57),
            digits=512,
        ),
    ),
    "finned": (
        "classic",
        {3: 134, 5: 386, 41: 34, 42: 162, 75: 130, 77: 674, 78: 178},
        Step(
            technique="finned-x-wing",
            removes=((77, 2),),
            rules=(0, 4, 12, 14, 25),
            looks=(3, 5, 41, 42),
            focus=(3, 5, 41, 42),
            digits=2,
        ),
    ),
    "fish": (
        "classic",
        {
            0: 224,
            1: 272,
            2: 224,
            3: 134,
            5: 386,
            8: 180,
            41: 34,
            42: 162,
            43: 416,
            44: 416,
            59: 674,
            74: 176,
            75: 130,
            77: 674,
            78: 178,
            79: 672,
        },
        Step(
            technique="swordfish",
            removes=((59, 2),),
            rules=(0, 4, 8, 12, 14, 15),
            looks=(0, 1, 2, 4, 7, 8, 36, 37, 38, 40, 43, 44, 72, 73, 74, 76, 79, 80),
            focus=(3, 5, 41, 42, 75, 77, 78),
            digits=2,
        ),
    ),
    "forcing": (
        "killer",
        {23: 382, 32: 1022, 33: 254, 41: 1022, 59: 510, 60: 510, 76: 320, 77: 640},
        Step(
            technique="short-contradiction-chain",
            removes=((59, 256),),
            rules=(6, 14, 15, 25, 37, 44, 48),
            looks=(23, 32, 33, 41, 59, 60, 76, 77),
            focus=(59,),
            digits=256,
            length=2,
        ),
    ),
    "houses": (
        "killer",
        {54: 378, 55: 378, 56: 992, 57: 1020, 58: 382, 59: 58, 60: 368, 61: 910, 62: 910},
        Step(
            technique="house-combinations",
            removes=((56, 32), (57, 56), (58, 56)),
            rules=(6, 43, 44, 45),
            looks=(54, 55, 56, 57, 58, 59, 60, 61, 62),
            focus=(54, 55, 59, 60, 61, 62),
            digits=56,
        ),
    ),
    "intersections": (
        "classic",
        {0: 242, 1: 274, 2: 240, 9: 154, 10: 274, 18: 184, 19: 272, 37: 516, 64: 518},
        Step(
            technique="locked-candidates",
            removes=((0, 16), (2, 16), (9, 16), (18, 16)),
            rules=(10, 18),
            looks=(28, 37, 46, 55, 64, 73),
            focus=(1, 10, 19),
            digits=16,
        ),
    ),
    "singles": (
        "classic",
        {57: 194, 58: 162, 59: 674, 67: 166, 75: 134, 77: 674},
        Step(
            technique="hidden-single-box",
            places=((57, 6),),
            rules=(25,),
            looks=(58, 59, 66, 67, 68, 75, 76, 77),
            focus=(57,),
            digits=64,
        ),
    ),
    "subsets": (
        "classic",
        {27: 80, 29: 80, 31: 50, 35: 98},
        Step(
            technique="naked-pair",
            removes=((31, 16), (35, 64)),
            rules=(3,),
            looks=(27, 29),
            focus=(27, 29),
            digits=80,
        ),
    ),
    "sum_bounds": (
        "killer",
        {63: 1018, 64: 506, 65: 218, 66: 510, 67: 382},
        Step(
            technique="sum-bounds",
            removes=((63, 2),),
            rules=(7,),
            sums=(
                DerivedSum(
                    linear=LinearSum(weights=((63, 1), (64, 1), (65, 1), (66, 1), (67, 1)), total=29),
                    rules=(7, 46, 47),
                ),
            ),
            looks=(64, 65, 66, 67),
            focus=(63, 64, 65, 66, 67),
            digits=2,
        ),
    ),
    "sums": (
        "killer",
        {48: 1020, 56: 1016},
        Step(
            technique="innie-outie-difference",
            removes=((48, 4),),
            sums=(
                DerivedSum(
                    linear=LinearSum(weights=((48, -1), (56, 1)), total=0),
                    rules=(6, 42, 43, 44, 45),
                ),
            ),
            looks=(56,),
            focus=(48, 56),
            digits=1016,
        ),
    ),
    "trial": (
        "killer",
        {59: 62, 60: 496, 61: 910, 62: 910},
        Step(
            technique="trial",
            removes=((60, 128),),
            rules=(6, 44),
            looks=(59, 60, 61, 62),
            focus=(60,),
            digits=128,
        ),
    ),
    "wide_forcing": (
        "ridge",
        {0: 958, 9: 958, 10: 958, 19: 958, 20: 958},
        Step(
            technique="wide-forcing-chain",
            removes=((19, 16),),
            rules=(18, 27, 34),
            looks=(0, 9, 10, 18, 19, 20),
            focus=(0, 9, 10),
            digits=446,
            length=1,
        ),
    ),
    "wings": (
        "classic",
        {63: 162, 65: 160, 71: 130, 74: 144, 78: 18},
        Step(
            technique="xy-wing",
            removes=((63, 128), (65, 128)),
            rules=(7, 8, 24, 26),
            looks=(71, 74, 78),
            focus=(78, 71, 74),
            digits=128,
        ),
    ),
    "pairs": (
        "not_consecutive",
        {24: 40, 25: 94},
        Step(
            technique="pair-values", removes=((25, 16),), rules=(18,), looks=(24,), focus=(25, 24), digits=16
        ),
    ),
    "all_places": (
        "crossed",
        {10: 30, 11: 30, 15: 30},
        Step(
            technique="all-places",
            removes=((11, 2),),
            rules=(8, 2, 7),
            looks=(0, 5),
            focus=(10, 15),
            digits=2,
        ),
    ),
    "repeating_cages": (
        "helpings",
        {0: 30, 1: 30, 8: 30},
        Step(
            technique="repeating-cage",
            removes=((0, 26), (1, 28), (8, 28)),
            rules=(0, 4, 12),
            looks=(0, 1, 8),
            focus=(0, 1, 8),
            digits=6,
        ),
    ),
    "leftovers_law": (
        "paving",
        {3: 2, 4: 30},
        Step(
            technique="leftover-cell",
            places=((4, 1),),
            rules=(0, 8),
            looks=(3,),
            focus=(3, 4),
            digits=2,
        ),
    ),
    "signs": (
        "signs",
        {4: 30, 8: 30},
        Step(
            technique="sign-bounds",
            removes=((8, 2),),
            rules=(12,),
            looks=(4,),
            focus=(8, 4),
        ),
    ),
}
"""For each family: a puzzle of the folder ``puzzles``, open digits as masks by cell, and a step."""
