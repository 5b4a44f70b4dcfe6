"""The command line. `main` is what the ``gridproof`` command runs; everything else is imported by it."""

from __future__ import annotations

__all__ = ["main"]


def main() -> None:
    """Run the command line and exit with its code."""
    from verifier.cli.app import run

    raise SystemExit(run())
