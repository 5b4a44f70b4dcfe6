"""The ladder: every technique, in the order in which the replayer tries them.

The order is behaviour: moving a line changes grades. It goes from what is seen at a glance to what must
be written down, as setters and presenters speak of it (common practice, no source); ``tiers.yaml`` says
which of them belong to which tier.

The first three tiers are in the order of what one has to hold in mind: first the empty cells of which more
than one digit is weighed, then the cages that are counted, then the houses that are added up; and a digit
before what only removes. So a house with one cage comes before one with four, and two cells of a cage before
four houses.
"""

from __future__ import annotations

from collections.abc import Mapping

from grader.board.technique import Technique
from grader.techniques.all_places import ALL_PLACES
from grader.techniques.almost_locked import (
    ALMOST_LOCKED_CHAIN,
    ALMOST_LOCKED_PAIR,
    ALMOST_LOCKED_TRIPLE,
    TWO_SECTOR_SUBSETS,
)
from grader.techniques.cage_digits import (
    FEW_ARRANGEMENTS,
    LAST_CELLS_OF_CAGE,
    ONLY_CELL_BY_COMBINATIONS,
    ONLY_CELL_IN_CAGE,
)
from grader.techniques.cage_fish import CAGE_FISH
from grader.techniques.cage_subsets import CAGE_SUBSET
from grader.techniques.cages import (
    CAGE_ARRANGEMENTS,
    CAGE_COMBINATIONS,
    LAST_CELL_OF_CAGE,
    SINGLE_COMBINATION,
)
from grader.techniques.chains import ALTERNATING_INFERENCE_CHAIN, XY_CHAIN
from grader.techniques.clues.added_lines import ARROW_CIRCLE, ARROW_LINE, CIRCLE_DIGITS, DIAGONAL_BOUNDS
from grader.techniques.clues.alternating import LOW_AND_HIGH, LOW_AND_HIGH_IN_HOUSE
from grader.techniques.clues.blocks import BLOCK_CELLS, CERTAIN_IN_BLOCK
from grader.techniques.clues.clue_ways import CLUE_ARRANGEMENTS, FEW_CLUE_WAYS
from grader.techniques.clues.conflicts import CLUE_CONFLICTS
from grader.techniques.clues.enclosed import ENCLOSED_BOUNDS, ENCLOSING_ENDS
from grader.techniques.clues.equal_parts import EQUAL_PART_BOUNDS, EQUAL_PART_TOTALS
from grader.techniques.clues.even_and_odd import EVEN_AND_ODD
from grader.techniques.clues.last_cells import LAST_CELL_OF_CLUE
from grader.techniques.clues.mark_chains import MARK_CHAIN
from grader.techniques.clues.mirrors import MIRRORED_CANDIDATES, MIRRORED_DIGIT
from grader.techniques.clues.partners import NEVER_FITS, TOO_FEW_PARTNERS
from grader.techniques.clues.rising_lines import RISING_BOUNDS
from grader.techniques.clues.sandwiches import SANDWICH_ENDS, SANDWICH_FILLING
from grader.techniques.clues.skylines import HIGHEST_PLACES, SEEN_HEIGHTS
from grader.techniques.clues.windows import CERTAIN_IN_WINDOWS, WINDOWS
from grader.techniques.clusters import GROUPED_LINKS, ONE_CLUSTER, TWO_CLUSTERS
from grader.techniques.conflicts import CAGE_CONFLICTS, HIDDEN_CAGE_DIGITS
from grader.techniques.crossing_cages import AREA_OF_ONE, AREA_OF_TWO, CROSSING_CELL
from grader.techniques.cut_sums import CUT_SUMS
from grader.techniques.equal_cells import EQUAL_CELLS
from grader.techniques.finned import FINNED_JELLYFISH, FINNED_SWORDFISH, FINNED_X_WING
from grader.techniques.fish import JELLYFISH, MIXED_FISH, SWORDFISH, X_WING
from grader.techniques.forcing import (
    CONTRADICTION_CHAIN,
    FORCING_CHAIN,
    SHORT_CONTRADICTION_CHAIN,
    SHORT_FORCING_CHAIN,
)
from grader.techniques.houses import HOUSE_COMBINATIONS
from grader.techniques.intersections import LOCKED_CANDIDATES, TWO_BOX_LOCKED
from grader.techniques.leftovers_law import LAW_OF_LEFTOVERS, LEFTOVER_CELL
from grader.techniques.pairs import PAIR_VALUES
from grader.techniques.repeating_cages import REPEATING_CAGE
from grader.techniques.signs import SIGN_BOUNDS
from grader.techniques.singles import HIDDEN_SINGLE_BOX, HIDDEN_SINGLE_LINE, LAST_CELL_OF_HOUSE, NAKED_SINGLE
from grader.techniques.subsets import (
    HIDDEN_PAIR,
    HIDDEN_QUAD,
    HIDDEN_TRIPLE,
    NAKED_PAIR,
    NAKED_QUAD,
    NAKED_TRIPLE,
)
from grader.techniques.sum_bounds import SUM_BOUNDS
from grader.techniques.sums import (
    DERIVED_SUM_OF_TWO,
    DERIVED_SUM_OF_UP_TO_FOUR,
    INNIE_OUTIE_DIFFERENCE,
    REST_OF_HOUSE,
    RULE_OF_45,
    RULE_OF_45_MORE_HOUSES,
    RULE_OF_45_TWO_HOUSES,
)
from grader.techniques.trial import TRIAL
from grader.techniques.wide_forcing import WIDE_FORCING_CHAIN
from grader.techniques.wings import REMOTE_PAIRS, W_WING, XY_WING, XYZ_WING

__all__ = ["LADDER", "LADDER_VERSION", "RETIRED", "TECHNIQUES"]

LADDER_VERSION = "11"
"""Goes up whenever a technique, a limit or the order changes, since grades may change with it."""

LADDER: tuple[Technique, ...] = (
    # One cell, and nothing weighed but where a digit goes: one house or one cage, then a house and one or two
    # cages, then a house and all the cages that it takes.
    LAST_CELL_OF_HOUSE,
    LAST_CELL_OF_CAGE,
    MIRRORED_DIGIT,
    LAST_CELL_OF_CLUE,
    HIDDEN_SINGLE_BOX,  # a box is seen at a glance, a line is not
    HIDDEN_SINGLE_LINE,
    REST_OF_HOUSE,
    RULE_OF_45,
    CROSSING_CELL,  # in a kakuro the first thing that one looks for
    # All digits of one cell; then those of a cage of which one combination is left, two or three cells before
    # any number of them; then as many cages as two houses hold. A combination that places nothing comes last.
    NAKED_SINGLE,
    LAST_CELLS_OF_CAGE,
    ONLY_CELL_IN_CAGE,
    RULE_OF_45_TWO_HOUSES,
    SINGLE_COMBINATION,
    SIGN_BOUNDS,  # two cells to look at, and nothing to add up
    LOW_AND_HIGH,
    NEVER_FITS,  # what a mark says by itself, before what it says beside one digit
    PAIR_VALUES,
    EVEN_AND_ODD,  # what one clue says by itself, or by what one or two of its cells can be
    RISING_BOUNDS,
    ENCLOSED_BOUNDS,
    MIRRORED_CANDIDATES,
    SEEN_HEIGHTS,
    BLOCK_CELLS,
    # Several combinations of one cage, of three cells and then of more; ten cages and more. What only removes
    # comes after, and there one cage before the cells of a house.
    FEW_ARRANGEMENTS,
    ONLY_CELL_BY_COMBINATIONS,
    RULE_OF_45_MORE_HOUSES,
    AREA_OF_ONE,
    CAGE_COMBINATIONS,
    LOCKED_CANDIDATES,
    LOW_AND_HIGH_IN_HOUSE,  # low and high digits are counted, no single one is followed
    LEFTOVER_CELL,  # houses to be held against one another, but two cells that are the same
    ALL_PLACES,  # the same where no house holds the places and the cell
    CERTAIN_IN_BLOCK,
    WINDOWS,  # all cells of one clue, for what they can make or hold
    CERTAIN_IN_WINDOWS,
    ARROW_CIRCLE,
    ARROW_LINE,
    CIRCLE_DIGITS,  # one digit after the other, where the bounds above take all at once
    DIAGONAL_BOUNDS,
    EQUAL_PART_BOUNDS,
    SANDWICH_ENDS,
    TOO_FEW_PARTNERS,
    ENCLOSING_ENDS,
    HIDDEN_CAGE_DIGITS,
    NAKED_PAIR,
    HIDDEN_PAIR,
    DERIVED_SUM_OF_TWO,
    AREA_OF_TWO,
    NAKED_TRIPLE,
    HIDDEN_TRIPLE,
    CAGE_ARRANGEMENTS,  # every arrangement must be tried, 27 perhaps: a pair or a triple is seen before
    REPEATING_CAGE,  # the same with equal digits, which are harder to see
    MARK_CHAIN,
    FEW_CLUE_WAYS,
    HIGHEST_PLACES,
    SANDWICH_FILLING,
    EQUAL_PART_TOTALS,
    LAW_OF_LEFTOVERS,
    INNIE_OUTIE_DIFFERENCE,
    DERIVED_SUM_OF_UP_TO_FOUR,
    CAGE_SUBSET,  # behind derived sums, which take part in it
    SUM_BOUNDS,
    EQUAL_CELLS,
    CUT_SUMS,
    CAGE_CONFLICTS,
    HOUSE_COMBINATIONS,
    NAKED_QUAD,
    HIDDEN_QUAD,
    X_WING,
    SWORDFISH,
    JELLYFISH,
    MIXED_FISH,
    CAGE_FISH,
    FINNED_X_WING,
    FINNED_SWORDFISH,
    FINNED_JELLYFISH,
    TWO_BOX_LOCKED,
    XY_WING,  # few cells before long chains, one digit before several
    XYZ_WING,
    W_WING,
    ONE_CLUSTER,
    REMOTE_PAIRS,
    TWO_CLUSTERS,
    GROUPED_LINKS,
    XY_CHAIN,
    CLUE_CONFLICTS,  # few ways, each followed to where it fails
    CLUE_ARRANGEMENTS,  # all ways, however many, must be written down
    TWO_SECTOR_SUBSETS,
    ALMOST_LOCKED_PAIR,
    ALMOST_LOCKED_TRIPLE,
    ALTERNATING_INFERENCE_CHAIN,
    ALMOST_LOCKED_CHAIN,
    SHORT_FORCING_CHAIN,  # short lines are seen, longer ones must be written down
    SHORT_CONTRADICTION_CHAIN,
    FORCING_CHAIN,
    CONTRADICTION_CHAIN,
    WIDE_FORCING_CHAIN,
    TRIAL,  # whatever is longer or branches; always last
)

TECHNIQUES: Mapping[str, Technique] = {technique.id: technique for technique in LADDER}
"""The same by id."""

RETIRED: tuple[str, ...] = ("simple-colouring", "multi-colouring", "rule-of-45-houses")
"""Ids of techniques that are gone; never given to another one."""
