"""Setters by their names: when two names are one, and the name in a file that cannot be read."""

from __future__ import annotations

import json
import re
import unicodedata

from verifier.files.documents import Document, Form
from verifier.puzzle.printable import visible

__all__ = ["same_setter", "setter_in"]

_LONGEST = 100  # characters; what is longer was never meant for a name
_IN_YAML = re.compile(rb"^[ \t]*setter[ \t]*:[ \t]*([^\r\n]{1,400}?)[ \t]*\r?$", re.MULTILINE)
_IN_JSON = re.compile(rb'"setter"\s*:\s*("(?:[^"\\]|\\.){1,400}")')


def same_setter(name: str) -> str:
    """Return what is equal for one setter, however the name is written.

    Examples
    --------
    >>> same_setter("Wren  Alder") == same_setter(" WREN ALDER")
    True
    """
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def setter_in(document: Document) -> str | None:
    r"""Return the setter's name that stands in a puzzle, whether it can be read or not.

    Examples
    --------
    >>> setter_in(Document(Form.YAML, 1, b"puzle: killer\nsetter: 'Wren Alder'\n", 40))
    'Wren Alder'
    >>> setter_in(Document(Form.JSON, 1, b'{"puzle": "killer", "setter": "Wren"', 36))
    'Wren'
    """
    is_json = document.form is Form.JSON
    found = (_IN_JSON if is_json else _IN_YAML).search(document.data)
    if found is None:
        return None
    try:
        text = found[1].decode()
    except UnicodeDecodeError:  # as most files that are not in UTF-8 are written
        text = found[1].decode("cp1252", "replace")
    name = _unquoted(text, is_json=is_json)
    return name if 0 < len(name) <= _LONGEST and visible(name) == name else None


def _unquoted(text: str, *, is_json: bool) -> str:
    if is_json:
        try:
            return str(json.loads(text)).strip()
        except json.JSONDecodeError:
            return ""
    if text[0] in "'\"" and text[-1] == text[0] and len(text) > 1:
        return text[1:-1].strip()
    return text.partition(" #")[0].strip()
