"""What letters to setters say, and what is said of a template for them."""

from __future__ import annotations

from verifier.files.wording import SETTING_FAULTS
from verifier.puzzle.wording import Wording

__all__ = ["TEMPLATE", "TEMPLATE_FAULTS"]

TEMPLATE = """\
{{ date }}

Dear {{ setter }},

{{ letter }}

With kind regards{% if house %},
{{ house }}{% endif %}
"""
"""Stands around every letter where the house has no template of its own."""

FACTS = {
    "letter": "what became of the puzzles",
    "setter": "the setter's name, or 'setter' where nobody knows it",
    "date": "the day, such as 2026-03-30",
    "day": "the day of the month",
    "month": "the name of the month",
    "year": "the year",
    "house": "the name of the house style",
    "accepted": "how many puzzles are accepted",
    "sent_back": "how many are not",
    "repeats": "how many of those accepted repeat another",
    "unreadable": "how many could not be read",
}
"""The names that a template may use."""

NUMBERS = ("accepted", "sent_back", "repeats", "unreadable")
"""Those of them that are numbers; the others are texts."""

MONTHS = (
    "January February March April May June July August September October November December".split()  # noqa: SIM905
)

TEMPLATE_FAULTS = {
    "cannot-open": Wording("{reason}", "a file that can be read", "Correct the name of the template."),
    "too-big": SETTING_FAULTS["too-big"],
    "not-utf8": SETTING_FAULTS["not-utf8"],
    "control-character": SETTING_FAULTS["control-character"],
    "other-file": SETTING_FAULTS["other-file"],
    "more-faults": SETTING_FAULTS["more-faults"],
    "syntax": Wording(
        "what is no template ({problem})",
        "text with names such as {{{{ setter }}}}",
        "Close every brace, and every '{{% if %}}' with '{{% endif %}}'.",
    ),
    "not-allowed": Wording(
        "{what}",
        "names in double braces, 'if', 'else' and comparisons",
        "Take it out: a template stands around the letter, and does not calculate.",
    ),
    "not-numbers": Wording(
        "a comparison by size of what is no number",
        "whole numbers, {allowed}",
        "Compare texts with == or != alone.",
    ),
    "no-else": Wording(
        "'... if ...' without 'else'",
        "what stands there if not",
        "Add 'else' and a text; '' for none.",
    ),
    "unknown-name": Wording("'{word}'", "{allowed}", "Take the name out, or correct it."),
    "unknown-filter": Wording("the filter '{word}'", "{allowed}", "Take it out, or correct it."),
    "too-deep": Wording("more than {most} levels of braces", "at most {most}", "Write it more plainly."),
    "no-letter": Wording(
        "no {{{{ letter }}}}",
        "a place for the letter",
        "Write {{{{ letter }}}} where the letter is to stand.",
    ),
}
"""What to say about each fault of a template."""

NODES = {
    "For": "a loop",
    "Call": "a call",
    "Include": "another file",
    "Import": "another file",
    "FromImport": "another file",
    "Extends": "another file",
    "Macro": "a macro",
    "CallBlock": "a call",
    "Block": "a block",
    "Assign": "a 'set'",
    "AssignBlock": "a 'set'",
    "Getattr": "a name with a dot",
    "Getitem": "square brackets",
}
"""What a template may not hold, in words; whatever else there is counts as a calculation."""

LETTER_TOO_LONG = "the letter to {setter} would be longer than {most:,} characters. Shorten the template."

UNKNOWN_SETTER = "setter"
"""Stands in place of a name in the letter to somebody unknown."""

NO_SETTER = "setter unknown"
"""Heads the file names of letters with what nobody has put a name to."""

NEWS = (
    "This is what became of the puzzles that you sent us. What is named here is new since our last letter, "
    "or has changed."
)
ALL = "This is what became of all the puzzles that you have sent us so far."
OPENINGS = (
    NEWS,
    ALL,
    "These puzzles cannot be printed as they are. Below each is what was found, and what to do about it. "
    "Please send them again when they are put right.",
)
"""What opens a letter, of earlier versions too; by it, `verifier.intake.sources.own` knows one again."""

HEADINGS = {
    "accepted": "Accepted",
    "repeats": "Accepted, but we have them already",
    "rejected": "Not accepted",
    "unreadable": "Could not be read",
}
ENDINGS = {
    "repeats": "Of puzzles that are the same at bottom we print one.",
    "rejected": "Please send them again, under the same id, when they are put right.",
    "unreadable": "Please send the whole puzzle again when this is put right.",
}
"""What stands below each part of a letter."""

ON_LINE = "Line {line}, {says}"
NAMED = "{name} (in {file})"
GRADED = "Tier {tier}, {name}; effort {effort}."
ALSO = "Not a fault, but please look: {says}"
REPLACES = "It takes the place of what you sent before."
CHANGED = "This is otherwise than in our letter of {day}."
REPEATS = {
    "printed": "This puzzle was printed before, as it is or in another form: turned, with lines in another "
    "order, or with digits renamed.",
    "own": "This is the same puzzle as {name}, which you sent too, as it is or in another form.",
    "other": "The same puzzle came to us from somebody else, as it is or in another form.",
}
ONE_REPAIR = "What puts it right: {says}"
SEVERAL_REPAIRS = "Each of these puts it right:"
SOLUTION = "The only solution:"
TWO_SOLUTIONS = "Two of the solutions; where they differ, there is a star:"
PUZZLE_OF = "{file}, puzzle {number}"
