"""Text from a file, made safe and short enough to be printed in a message."""

from __future__ import annotations

from collections.abc import Iterable

__all__ = ["counted", "listed", "printable"]

_WORDS = tuple("no one two three four five six seven eight nine ten eleven twelve".split(" "))  # noqa: SIM905


def printable(text: str, most: int = 120) -> str:
    r"""Return `text` on one line, without control characters, and cut to `most` characters.

    What a terminal would act on, or a reader could not see, becomes ``�``; it must never reach
    a terminal from a file that a stranger sent.

    Examples
    --------
    >>> printable("red \x1b[31malert"), printable("two\nlines"), printable("far too long", 8)
    ('red �[31malert', 'two lines', 'far too…')
    """
    if len(text) > most:
        text = text[: most - 1] + "…"
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else " " if c in "\n\t" else "�" for c in text)


def counted(number: int, noun: str) -> str:
    """Return a number with its noun, in words up to twelve.

    Examples
    --------
    >>> counted(1, "cell"), counted(3, "cell"), counted(20, "box"), counted(0, "entry")
    ('one cell', 'three cells', '20 boxes', 'no entries')
    """
    figure = _WORDS[number] if 0 <= number < len(_WORDS) else f"{number:,}"
    return f"{figure} {noun if number == 1 else _plural(noun)}"


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


def _plural(noun: str) -> str:
    if noun.endswith(("x", "ss")):
        return f"{noun}es"
    return f"{noun[:-1]}ies" if noun.endswith("y") and noun[-2] not in "aeiou" else f"{noun}s"
