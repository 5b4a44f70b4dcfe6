"""Everything that tuning and comparing say to people."""

from __future__ import annotations

from collections.abc import Mapping

from verifier.tuning.answers import Ending
from verifier.tuning.wish import WishPart

__all__: list[str] = []

WISHES: Mapping[WishPart, str] = {
    WishPart.TIERS: "tier {tiers:or}",
    WishPart.EFFORT: "effort {low} to {high}",
    WishPart.WITHOUT: "without {techniques:and}",
    WishPart.HAVING: "with {techniques:and}",
    WishPart.GIVENS: "at most {most:count given}",
    WishPart.CAGES: "at most {most:count cage}",
    WishPart.SYMMETRY: "givens in {symmetry} symmetry",
    WishPart.STYLE: "house style {name:text 60}",
}
"""How each part of a wish is told."""

GAPS: Mapping[WishPart, str] = {
    WishPart.TIERS: "it is tier {found} instead of {tiers:or}",
    WishPart.EFFORT: "its effort is {found} instead of {low} to {high}",
    WishPart.WITHOUT: "it needs {techniques:and}",
    WishPart.HAVING: "it does not need {techniques:and}",
    WishPart.GIVENS: "it has {found:count given} instead of at most {most}",
    WishPart.CAGES: "it has {found:count cage} instead of at most {most}",
    WishPart.SYMMETRY: "for {symmetry} symmetry, the givens in {cells:and} lack their partners",
    WishPart.STYLE: "it is against the house style",
    WishPart.BEYOND: "it takes more than the wish allows",
}
"""How a puzzle is told to miss that part."""

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
NEAREST = "This comes nearest:"
BUT = "But {missed:and}."
HARD_STEP = "What stands in the way is this step, for which no easier one was found: {says}"
TOO_EASY = "Nothing harder is needed in it than {technique}."
MORE_CHANGES = "More changes at once (--changes {more}) may come nearer."

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
    "Steps in them",
    "Narrow places",
    "Givens",
    "Cages",
    "Symmetry of the givens",
    "Remarks",
)
"""What a puzzle is like, line by line."""

NARROW_AT = "steps {steps:and} of its walk"
NO_ANSWER, NONE = "not known", "none"
SEVERAL = "at least {count}"
MINUTES_BETWEEN = "{middle}, most {least} to {most}"
IN_ROUND = "round {round}: {says}"

TITLE = "{name:text 60}: towards a wish"
BEFORE, AFTER = "Before", "After"
A_WAY = "Way {rank}"
COMPARISON = "{first:text 60} and {second:text 60}, side by side"
SAME_SOLUTION = "Both have the same solution."
OTHER_SOLUTION = "Their solutions differ in {cells}."
NO_COMMON_SOLUTION = "One of them has not exactly one solution, so their solutions are not compared."
SAME_RULES = "Nothing is changed between them."
OTHER_GRID = "Their grids differ: {first} and {second}. So it is not told what was changed."
WHAT_CHANGED = "From the first to the second:"
BY_TECHNIQUE = "Steps by technique"
