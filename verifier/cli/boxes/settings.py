"""The settings of a box, where there are some in the folder in which one is."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from verifier.cli import wording
from verifier.cli.telling.console import refuse

if TYPE_CHECKING:
    from verifier.intake.settings import BoxSettings

__all__ = ["box_settings_or_refuse"]


def box_settings_or_refuse() -> BoxSettings:
    """Return what `intake.yaml` names, nothing without that file; one with faults ends the call."""
    from verifier.intake.settings import NO_SETTINGS, SETTINGS_NAME, read_box_settings

    path = Path(SETTINGS_NAME)
    if not path.is_file():
        return NO_SETTINGS
    settings, faults = read_box_settings(path)
    if settings is None:
        refuse("\n".join([wording.BOX_SETTINGS_UNREADABLE, *map(str, faults)]))
    return settings
