"""What the YAML parser says, in the words of the trade: a part of the catalogue in `wording`."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["YAML_PROBLEMS", "YamlProblem"]


class YamlProblem(NamedTuple):
    """What the YAML parser says, and how an editor is told.

    ``at_start`` is true where the line to look at is not the one on which the parser gave up, but the
    one where the thing began that it could not finish.
    """

    parser_says: str
    at_start: bool
    found: str
    cure: str


YAML_PROBLEMS = (
    YamlProblem(
        "mapping values are not allowed",
        False,
        "a colon where none can be",
        "Put text that holds a colon in quotes, start every key at the left edge, and give the line "
        "before its own colon.",
    ),
    YamlProblem(
        "could not find expected ':'",
        True,
        "a line that has no colon and belongs to no map",
        "Write a key, a colon, a space and the value; set the rows of a map in by two spaces.",
    ),
    YamlProblem(
        "expected ',' or ']'",
        True,
        "a list that is not closed, or in which a comma is missing",
        "Put a comma between the items and ']' at the end.",
    ),
    YamlProblem(
        "expected ',' or '}'",
        True,
        "a brace that is not closed, or after which a comma is missing",
        "Put a comma between the entries and '}' at the end.",
    ),
    YamlProblem(
        "found unexpected end of stream",
        True,
        "a quote that is not closed",
        "Close it, or put the whole text in double quotes.",
    ),
    YamlProblem(
        "found unexpected document indicator",
        True,
        "a quote that is not closed",
        "Close it, or put the whole text in double quotes.",
    ),
    YamlProblem("tab character", False, "a tab", "Set lines in with spaces, never with tabs."),
    YamlProblem(
        "cannot start any token",
        False,
        "text that begins with a tab or with a sign such as '@', '%' or '`'",
        "Set lines in with spaces, and put text that begins with such a sign in quotes.",
    ),
    YamlProblem(
        "did not find expected key",
        False,
        "a line set in by the wrong number of spaces, or text after a closing quote",
        "Start every key at the left edge, set all rows of a map in alike, and put the whole text in quotes.",
    ),
    YamlProblem(
        "did not find expected '-' indicator",
        False,
        "a line that does not go on with the list above it",
        "Begin every item of the list with '- ', and all items at the same place.",
    ),
    YamlProblem(
        "block sequence entries are not allowed",
        False,
        "a '-' where no list can begin",
        "Begin the list on the line below its key; put text that begins with '- ' in quotes.",
    ),
    YamlProblem(
        "escape c",
        False,
        "a backslash in double quotes that begins no known sign",
        "Write two backslashes, or put the text in single quotes.",
    ),
    YamlProblem(
        "hexdecimal",
        False,
        "a backslash in double quotes that begins no known sign",
        "Write two backslashes, or put the text in single quotes.",
    ),
    YamlProblem(
        "did not find expected alphabetic or numeric",
        False,
        "text that begins with '*' or '&'",
        "Put it in quotes.",
    ),
    YamlProblem(
        "did not find expected comment or line break",
        False,
        "text after the '|'",
        "Begin the rows on the next line.",
    ),
    YamlProblem(
        "did not find expected node content",
        False,
        "a bracket, comma or '#' where a value should stand",
        "Take it out, or put the text in quotes if it begins with it.",
    ),
    YamlProblem(
        "unexpected ':'",
        False,
        "a colon without a space or a value after it",
        "Write a space and the value after the colon.",
    ),
    YamlProblem(
        "mapping keys are not allowed",
        False,
        "text that begins with '?'",
        "Put it in quotes.",
    ),
    YamlProblem("tag", False, "text that begins with '!'", "Put it in quotes."),
    YamlProblem(
        "second document",
        False,
        "more text after the end of the puzzle",
        "Put a line '---' between two puzzles.",
    ),
    YamlProblem(
        "",
        False,
        "a line that cannot be understood",
        "Compare it with the example in the README; put text with signs in it in quotes.",
    ),
)
"""The first entry whose words the parser's message contains; the last fits all."""
