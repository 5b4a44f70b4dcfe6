"""What is said of a ledger that cannot be used."""

from __future__ import annotations

__all__ = ["LEDGER", "LEDGER_TROUBLES"]

LEDGER = "the ledger {where}: {trouble}"

LEDGER_TROUBLES = {
    "busy": "another run is using it. Wait for its end, or give another ledger.",
    "full": "the disk is full or fails. Nothing in it is damaged: free some space, and give the same command "
    "again to go on.",
    "foreign": "it is not a ledger of gridproof. Give another file with --ledger.",
    "newer": "it was made by a newer version of gridproof ({says}). Nothing in it was touched. Use that "
    "version: this one does not know all that it holds.",
    "too-old": "it was made by a version of gridproof that is too old to be taken over ({says}). Begin a "
    "new ledger.",
    "closed": "it cannot be opened or written to ({says}). Let it be written to, or give another file with "
    "--ledger.",
    "missing": "there is no such file. Give the ledger of a run with --ledger.",
    "damaged": "it cannot be read ({says}). Keep the file, and begin a new ledger: give another file with "
    "--ledger.",
}
"""What is wrong with a ledger, and what to do."""
