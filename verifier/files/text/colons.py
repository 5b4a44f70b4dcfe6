"""A colon in a title, a setter's name or an id, which YAML takes for the end of a second key.

``title: Tide: low`` can mean one thing only, so it is taken as it is written.
"""

from __future__ import annotations

import re

__all__ = ["MOST_COLONS", "with_credit_in_quotes"]

_CREDITS = ("id", "title", "setter")

MOST_COLONS = len(_CREDITS)
"""Lines of a puzzle that may need it; more of them are keys that stand twice."""

_PLAIN_CREDIT = re.compile(rf"(?:{'|'.join(_CREDITS)}):[ \t]+(?=[^\s'\"])")
_REMARK = re.compile(r"\s#")


def with_credit_in_quotes(text: str, place: int) -> str | None:
    r"""Return the text of a puzzle with the credit on one of its lines in quotes.

    Parameters
    ----------
    text : str
        The whole text.
    place : int
        The character at which the parser gave up.

    Returns
    -------
    str or None
        None where that line is no credit, or has quotes already.

    Examples
    --------
    >>> with_credit_in_quotes("puzzle: killer\ntitle: Tide: low  # or high?\n", 27)
    "puzzle: killer\ntitle: 'Tide: low'  # or high?\n"
    """
    start = text.rfind("\n", 0, place) + 1
    key = _PLAIN_CREDIT.match(text, start)
    if key is None:
        return None
    rest, end, below = text[key.end() :].partition("\n")
    remark = _REMARK.search(rest)
    credit = rest[: remark.start() if remark else len(rest)].rstrip()
    quoted = "'" + credit.replace("'", "''") + "'"
    return text[: key.end()] + quoted + rest[len(credit) :] + end + below
