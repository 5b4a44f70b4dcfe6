"""What is said of techniques and tiers outside a walk."""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

EXAMPLE_FROM = "Worked example, from {puzzle} of the corpus:"
EXAMPLE_ON_PICTURE = "Worked example, on the board of the picture:"
OCCURS = "In the corpus: {steps} in {puzzles} of {corpus} puzzles."
OCCURS_NOWHERE = "In the corpus: none of {corpus} puzzles needs it."
HARDEST_OF = "It is the hardest technique of {puzzles}."

LIFTS: Mapping[str, str] = {
    "steps": "one tier up, because it takes {steps} steps",
    "bottlenecks": "one tier up, because in {rounds} rounds only one or two steps are open",
}
"""Why a puzzle is in the tier above that of its hardest technique."""
