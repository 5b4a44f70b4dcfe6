"""Text from a file, made safe and short enough to be shown: on a terminal, on a page, in a cell, on paper.

Nothing reaches a reader but through `visible`: whatever shows text passes it there, at the last moment.
"""

from __future__ import annotations

import string
import unicodedata
from collections.abc import Iterable
from typing import Any

__all__ = ["counted", "filled", "in_figures", "listed", "plural", "printable", "visible"]

_WORDS = tuple("no one two three four five six seven eight nine ten eleven twelve".split(" "))  # noqa: SIM905


def visible(text: str) -> str:
    r"""Return `text` with everything in it to be seen; its lines stay lines.

    What a terminal would act on, or a reader could not see - control characters, signs that turn the order
    of letters about, characters of no width or of no meaning - becomes ``�``. Blanks of other kinds become
    plain ones.

    Examples
    --------
    >>> visible("red \x1b[31malert"), visible("two\nlines"), visible("tab\tand\xa0blank")
    ('red �[31malert', 'two\nlines', 'tab and blank')
    >>> visible("left \u202ethgir")
    'left �thgir'
    """
    if text.replace("\n", "").isprintable():
        return text
    return "".join(c if c.isprintable() or c == "\n" else _seen(c) for c in text)


def printable(text: str, most: int | None = 120) -> str:
    r"""Return `text` as `visible` does, on one line, and cut to `most` characters if that is a number.

    Examples
    --------
    >>> printable("red \x1b[31malert"), printable("two\nlines"), printable("far too long", 8)
    ('red �[31malert', 'two lines', 'far too…')
    """
    if most is not None and len(text) > most:
        text = text[: most - 1] + "…"
    return text if text.isprintable() else visible(text).replace("\n", " ")


def _seen(character: str) -> str:
    return " " if character == "\t" or unicodedata.category(character) == "Zs" else "�"


def counted(number: int, noun: str) -> str:
    """Return a number with its noun, in words up to twelve.

    Examples
    --------
    >>> counted(1, "cell"), counted(3, "cell"), counted(20, "box"), counted(0, "entry")
    ('one cell', 'three cells', '20 boxes', 'no entries')
    """
    return f"{in_figures(number)} {noun if number == 1 else plural(noun)}"


def in_figures(number: int) -> str:
    """Return a number in words up to twelve, in figures above.

    Examples
    --------
    >>> in_figures(3), in_figures(1234)
    ('three', '1,234')
    """
    return _WORDS[number] if 0 <= number < len(_WORDS) else f"{number:,}"


def listed(names: Iterable[str], last: str = "and", most: int = 12) -> str:
    """Return names as a sentence lists them; of many, only the first `most`.

    Examples
    --------
    >>> listed(["r1c1"]), listed(["r1c1", "r1c2", "r2c1"]), listed("abcd", most=2)
    ('r1c1', 'r1c1, r1c2 and r2c1', 'a, b and 2 more')
    """
    words = list(names)
    if len(words) > most:
        words = [*words[:most], f"{len(words) - most:,} more"]
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def plural(noun: str) -> str:
    """Return the plural of a noun of this program."""
    if noun.endswith(("x", "ss")):
        return f"{noun}es"
    return f"{noun[:-1]}ies" if noun.endswith("y") and noun[-2] not in "aeiou" else f"{noun}s"


def filled(template: str, **facts: Any) -> str:
    """Return a sentence: a template of a catalogue with its named fields filled in.

    After the name of a field stands how it is said: ``{cells:count cell}`` a number with its noun,
    ``{cells:Count cell}`` the same at the beginning of a sentence, ``{names:and}`` and ``{names:or}`` a list,
    ``{word:text 40}`` a text from a file, cut to so many characters, and whatever else Python knows.

    Examples
    --------
    >>> filled("{done:Count puzzle} in {at:text 8}: {ends:or}.", done=2, at="harbour-town", ends="ab")
    'Two puzzles in harbour…: a or b.'
    """
    return _SENTENCES.vformat(template, (), facts)


class _Sentences(string.Formatter):
    """Fills in the fields of a sentence."""

    def format_field(self, value: Any, format_spec: str) -> str:
        """Return a field as its template wants it said."""
        how, _, rest = format_spec.partition(" ")
        match how:
            case "and" | "or":
                return listed(map(str, value), how)
            case "count":
                return counted(value, rest)
            case "Count":
                return counted(value, rest).capitalize()
            case "text":
                return printable(value, int(rest)) if rest else printable(value)
        return str(super().format_field(value, format_spec))


_SENTENCES = _Sentences()
