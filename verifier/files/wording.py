"""What is said about a settings file: a house style, the slots of a week, the settings of a box."""

from __future__ import annotations

from verifier.puzzle.wording import FAULTS, Wording

__all__ = ["SETTING_FAULTS"]

SETTING_FAULTS = {
    **FAULTS,
    "too-big": Wording("more than {most:,} bytes", "at most {most:,} bytes", "Give the right file."),
    "no-keys": Wording("{what}", "the keys {allowed}", "Write them below, set in by two spaces."),
    "name": Wording("{what}", "a name of at most {most} characters", "Write a name on the same line."),
    "word": Wording("{what}", "{allowed}", "Write one of these."),
    "number": Wording("{what}", "a whole number from {least} to {most}", "Write the number in figures."),
    "decimal": Wording("{what}", "a number such as 2.5", "Write the number in figures."),
    "size": Wording("{what}", "rows by columns, such as 9x9", "Write both numbers, with an x between them."),
    "day": Wording("{what}", "a day such as 2026-03-30", "Write year, month and day in figures."),
    "order": Wording(
        "{most}", "at least {least}, the '{key}'", "Exchange the two numbers, or correct one of them."
    ),
    "repeated-value": Wording("'{what}' again", "each key once", "Keep one of the two."),
}
"""What every settings file may have wrong, beside what any file may."""
