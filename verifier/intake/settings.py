"""The settings of a box: one file, `intake.yaml`, that names all that `gridproof intake` needs."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from verifier.files.faults import Fault, FaultReport
from verifier.files.fields.fields import shape_of
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.settings import Reader, name_of, number, root_of, settings_in, several_of, values_of
from verifier.files.text.nodes import KeysNode, Node
from verifier.files.wording import SETTING_FAULTS
from verifier.intake.wording import BOX_SETTINGS, BOX_SETTINGS_FAULTS

__all__ = [
    "BOX_SETTINGS_KEYS",
    "NO_SETTINGS",
    "PAGE_NAME",
    "SETTINGS_NAME",
    "BoxSettings",
    "read_box_settings",
]

SETTINGS_NAME = "intake.yaml"
"""Of the file; it is looked for in the folder in which one is."""

PAGE_NAME = "box.html"
"""Of the list of the box as a page, in the folder for the verdicts."""

_LONGEST_PATH = 4096


@dataclass(frozen=True, slots=True)
class BoxSettings:
    """What the settings of a box name; what they leave out is None, or nothing.

    Parameters
    ----------
    post : tuple of str
        Files, folders and archives to judge.
    archive : tuple of str
        Folders of printed puzzles.
    style, slots, letter : Path or None
        Files: the house style, the slots of a page, the frame of letters.
    out : Path or None
        The folder for verdicts, letters, lists and the page.
    ledger : Path or None
        Its file.
    """

    post: tuple[str, ...] = ()
    archive: tuple[str, ...] = ()
    style: Path | None = None
    slots: Path | None = None
    letter: Path | None = None
    out: Path | None = None
    ledger: Path | None = None

    @property
    def files(self) -> tuple[Path, ...]:
        """The files that are no submissions, wherever they lie."""
        named = (Path(SETTINGS_NAME), self.style, self.slots, self.letter)
        return tuple(path for path in named if path is not None)


NO_SETTINGS = BoxSettings()


def read_box_settings(
    path: Path, limits: Limits = DEFAULT_LIMITS
) -> tuple[BoxSettings | None, tuple[Fault, ...]]:
    """Read the settings in a file; None where there is any fault, and all faults by line."""
    report = FaultReport(str(path), limits.faults, {**SETTING_FAULTS, **BOX_SETTINGS_FAULTS})
    data = settings_in(path, report, limits)
    root = None if data is None else root_of(data, report, limits)
    values = None if root is None else _values(root, report)
    return (None if values is None or report.count else BoxSettings(**values)), report.faults()


def _values(root: Node, report: FaultReport) -> dict[str, Any] | None:
    if not isinstance(root, KeysNode):
        report.add("no-settings", root.line, "the text", what=shape_of(root))
        return None
    values, _ = values_of(root, _READERS, BOX_SETTINGS, report)
    values.pop("format", None)
    return values


def _path(node: Node, field: str, report: FaultReport) -> Path | None:
    name = _word(node, field, report)
    return None if name is None else Path(name)


_word = name_of(_LONGEST_PATH)

_READERS: dict[str, Reader[Any]] = {
    "format": number(1, 1),
    "post": several_of(_word),
    "archive": several_of(_word),
    "style": _path,
    "slots": _path,
    "letter": _path,
    "out": _path,
    "ledger": _path,
}

BOX_SETTINGS_KEYS = tuple(_READERS)
"""The keys of the file."""
