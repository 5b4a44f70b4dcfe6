"""Everything that tuning and comparing say to people."""

from __future__ import annotations

from collections.abc import Mapping

from verifier.tuning.answers import Ending
from verifier.tuning.wish import WishPart

__all__: list[str] = []

WISHES: Mapping[WishPart, str] = {
    WishPart.TIERS: "tier {tiers:or}",
    WishPart.EFFORT: "effort {low} to {high}",
    WishPart.WITHOUT: "{techniques:and} not needed",
    WishPart.HAVING: "{techniques:and} needed",
    WishPart.BREAK_IN: "a break-in in the {third} third of the rounds",
    WishPart.GIVENS: "at most {most:count given}",
    WishPart.CAGES: "at most {most:count cage}",
    WishPart.SYMMETRY: "givens in {symmetry} symmetry",
    WishPart.STYLE: "the house style {name:text 60}",
}
"""How each part of a wish is told."""
NONE_OF_THEM: Mapping[WishPart, str] = {WishPart.GIVENS: "no givens", WishPart.CAGES: "no cages"}
"""How it is told that there should be none."""

GAPS: Mapping[WishPart, str] = {
    WishPart.TIERS: "it is tier {found} instead of {tiers:or}",
    WishPart.EFFORT: "its effort is {found} instead of {low} to {high}",
    WishPart.WITHOUT: "it needs {techniques:and}",
    WishPart.HAVING: "it does not need {techniques:and}",
    WishPart.BREAK_IN: "its break-in comes in round {round} of {rounds}, not in the {third} third of them",
    WishPart.GIVENS: "it has {found:count given} instead of at most {most:count given}",
    WishPart.CAGES: "it has {found:count cage} instead of at most {most:count cage}",
    WishPart.SYMMETRY: "for {symmetry} symmetry, the givens in {cells:and} lack their partners",
    WishPart.STYLE: "it does not keep to the house style",
    WishPart.BEYOND: "it takes more than the wish allows",
}
"""How a puzzle is told to miss that part."""

NAMED_THIRDS: Mapping[str, str] = {"early": "first", "middle": "middle", "late": "last"}
"""What each third of the rounds is called."""

NOT_ONE_SOLUTION = (
    "The puzzle is not proved to have exactly one solution, so there is none to keep. 'gridproof check' says "
    "why, 'gridproof mend' what would put it right."
)
WISHED_FOR = "Wished for: {wish:and}."
AS_IT_STANDS = "As it stands: {portrait}."
ALREADY = "The puzzle is all that as it stands."
FOUND = "{found:Count way} found. The solution stays, and is proved to be the only one:"
NOTHING_FOUND: Mapping[Ending, str] = {
    Ending.ALL_TRIED: "Nothing that was tried meets the wish.",
    Ending.ENOUGH: "Nothing that was tried meets the wish.",
    Ending.TIME: "Nothing was found before the time was up. More time (--seconds) may find more.",
    Ending.STOPPED: "Nothing had been found when the search was stopped.",
}
CUT_SHORT: Mapping[Ending, str] = {
    Ending.TIME: "The time was up before all was tried: more time (--seconds) may find more.",
    Ending.STOPPED: "The search was stopped before all was tried.",
}
TRIED = "{tried:Count puzzle} looked at, {kept} of them with one solution."
TRIED_ALL_KEPT = "{tried:Count puzzle} looked at, all with one solution."
NEAREST = "This comes nearest"
BUT = "But {missed:and}."
HARD_STEP = "What stands in the way is this step, for which no easier one was found: {says}"
HARDEST_STEP = "Its hardest step is this one: {says}"
TOO_EASY = "It needs nothing harder than this technique: {technique}."
MORE_CHANGES = "More changes at once (--changes {more}) may come nearer."
GO_ON = (
    "Each change takes away one {noun} at most. Wish for a part of that first, and go on from what is found "
    "(--out writes it)."
)

PORTRAIT = "tier {tier}, {name:text 40}; effort {effort}; hardest technique {hardest}"
NOT_WORKED_THROUGH = "not worked through to the end"
EFFORT_MOVED = "effort {effort} ({by} {less})"

VERDICT, SOLUTIONS, TIER, EFFORT, MINUTES, HARDEST, BREAK_IN = (
    "Verdict",
    "Solutions",
    "Tier",
    "Effort",
    "Minutes",
    "Hardest technique",
    "Break-in",
)
ROUNDS, STEPS, NARROW, GIVENS, CAGES, SYMMETRY, REMARKS = (
    "Rounds",
    "Steps",
    "Where people get stuck",
    "Givens",
    "Cages",
    "Symmetry of the givens",
    "Remarks",
)
"""What a puzzle is like, line by line."""

NARROW_AT, NARROW_AT_ONE = "at steps {steps:and} of its walk", "at step {steps:and} of its walk"
NO_ANSWER, NONE, NOWHERE = "not known", "none", "nowhere"
SEVERAL = "at least {count}"
MINUTES_BETWEEN = "{middle} (most such puzzles take {least} to {most})"
IN_ROUND = "round {round} of {rounds}: {says}"

TITLE = "{name:text 60}: towards a wish"
BEFORE, AFTER = "Before", "After"
A_WAY = "Way {rank}"
COMPARISON = "{first:text 60} and {second:text 60}, side by side"
SAME_SOLUTION = "Both have the same solution."
OTHER_SOLUTION = "Their solutions differ in {cells}."
NO_COMMON_SOLUTION = "One of them has not exactly one solution, so their solutions are not compared."
SAME_RULES = "Nothing is changed between them."
OTHER_GRID = "Their grids differ ({first} and {second}), so it is not told what was changed."
NO_BOXES, BOXES = "{size} without boxes", "{size} with boxes of {boxes}"
WHAT_CHANGED = "From the first to the second:"
BY_TECHNIQUE = "Steps by technique"
