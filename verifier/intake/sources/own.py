"""What gridproof itself has written, by what stands in it: it is no submission, wherever it lies.

Folders of verdicts, lists and letters come to stand beside submissions, or are packed with them.
"""

from __future__ import annotations

import re
from functools import lru_cache
from textwrap import fill

from verifier.files.documents import Document, Form
from verifier.intake.letters import wording as letters
from verifier.intake.papers import wording

__all__ = ["is_own_document", "is_own_text", "is_settings"]

_VERDICT = re.compile(rb"format: [0-9]+\r?\nverdict: (?:accepted|rejected|undecided)\r?\n")
_COLUMNS = {b"address", b"state", b"reasons", b"digest"}
_FIELDS = tuple(b'"%s":' % name for name in sorted(_COLUMNS))
_KEY = re.compile(rb"^([A-Za-z_]+)[ \t]*:", re.MULTILINE)
_UTF8_MARK = b"\xef\xbb\xbf"
_PAGE = re.compile(rb'<!doctype html>.*<meta name="generator" content="gridproof">', re.DOTALL)
_OPENINGS = tuple(
    fill(text, wording.WIDTH).partition("\n")[0].encode()
    for text in (
        *letters.OPENINGS,
        wording.DUPLICATES,
        wording.SAME_SOLUTION,
        wording.UNREADABLE,
        wording.REMARKS,
    )
)
_MOST_ABOVE = 40
"""Lines of a letter within which its opening stands: date and greeting come first, as the house has them."""


def is_own_document(document: Document) -> bool:
    r"""Whether one puzzle of a file is none, but a verdict, or a line of an export.

    Examples
    --------
    >>> is_own_document(Document(Form.YAML, 1, b"format: 2\nverdict: accepted\nreasons: []\n", 42))
    True
    >>> is_own_document(Document(Form.YAML, 1, b"format: 1\npuzzle: killer\n", 24))
    False
    """
    if document.form is Form.JSON:  # no text can hold such a field: a quotation mark in it is escaped
        return all(field in document.data for field in _FIELDS)
    return document.form is Form.YAML and bool(_VERDICT.match(document.data))


def is_settings(document: Document) -> bool:
    r"""Whether one puzzle of a file is none, but a house style, slots of a page, or the settings of a box.

    Examples
    --------
    >>> is_settings(Document(Form.YAML, 1, b"name: Harbour Page\ntiers: [1, 2]\n", 35))
    True
    >>> is_settings(Document(Form.YAML, 1, b"format: 1\npuzzle: killer\n", 24))
    False
    """
    if document.form is not Form.YAML:
        return False
    keys = {name.decode() for name in _KEY.findall(document.data)}
    return bool(keys - {"format"}) and keys <= _settings_keys()


@lru_cache(maxsize=1)
def _settings_keys() -> frozenset[str]:
    # A puzzle is found sooner where nothing is imported that reads settings.
    from verifier.intake.plan.slots_reading import PAGE_KEYS
    from verifier.intake.settings import BOX_SETTINGS_KEYS
    from verifier.verdict.style.reading import STYLE_KEYS

    return frozenset((*PAGE_KEYS, *BOX_SETTINGS_KEYS, *STYLE_KEYS))


def is_own_text(head: bytes) -> bool:
    r"""Whether a file that begins like this is a letter, a list, a table or a page of ours.

    Examples
    --------
    >>> is_own_text(b"address,id,state,reasons,digest\n"), is_own_text(b"id,puzzle\nebb,1...\n")
    (True, False)
    """
    lines = [line.rstrip() for line in head.removeprefix(_UTF8_MARK).split(b"\n", _MOST_ABOVE)]
    columns = {name.strip() for name in lines[0].split(b",")}
    opens = any(line in _OPENINGS for line in lines[:_MOST_ABOVE])
    return opens or (columns >= _COLUMNS and b"puzzle" not in columns) or bool(_PAGE.match(head))
