"""Files that are no plain text in UTF-8, told by how they begin."""

from __future__ import annotations

import re
from pathlib import PurePath

__all__ = ["HEAD", "other_kind"]

HEAD = 100
"""Bytes that tell what a file is."""

_BEGINNINGS = (
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
    (b"%PDF-", "pdf"),
    (rb"{\rtf", "document"),
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "document"),  # what word processors wrote before 2007
    (b"\x89PNG\r\n", "picture"),
    (b"\xff\xd8\xff", "picture"),
    (b"GIF8", "picture"),
)

_ZIP = b"PK\x03\x04"
_ZIPPED_DOCUMENTS = re.compile(
    rb"\[Content_Types\]\.xml|_rels/|docProps/|word/|xl/|mimetypeapplication/vnd\.oasis\.opendocument"
)
"""How the names of the files begin that stand first in what word processors and spreadsheets pack."""

_NAME_IN_ZIP = 30
"""Bytes before the name of the first file in an archive."""

_SPREADSHEETS = (".xlsx", ".xls", ".ods", ".numbers")

_PLAIN_UTF_16 = re.compile(rb"(?:[\t\n\r -~]\0){4}|(?:\0[\t\n\r -~]){4}")


def other_kind(head: bytes, name: str) -> str | None:
    r"""Return what a file is that is no plain text in UTF-8; None for a file that may be.

    Parameters
    ----------
    head : bytes
        How it begins.
    name : str
        Its name; the ending tells a spreadsheet from a document.

    Returns
    -------
    str or None
        A key of `verifier.puzzle.wording.OTHER_FILES`.

    Examples
    --------
    >>> other_kind(b"%PDF-1.7\n", "box"), other_kind("puzzle".encode("utf-16"), "box.txt")
    ('pdf', 'utf-16')
    >>> other_kind(b"puzzle: killer\n", "box.pdf") is None
    True
    """
    kind = next((kind for begins, kind in _BEGINNINGS if head.startswith(begins)), None)
    if kind is None and head.startswith(_ZIP):
        kind = "document" if _ZIPPED_DOCUMENTS.match(head, _NAME_IN_ZIP) else "archive"
    if kind is None and _PLAIN_UTF_16.match(head):
        kind = "utf-16"
    if kind == "document" and PurePath(name).suffix.lower() in _SPREADSHEETS:
        kind = "spreadsheet"
    return kind
