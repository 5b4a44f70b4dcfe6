"""The command line. `main` is what the ``gridproof`` command runs; everything else is imported by it."""

from __future__ import annotations

import sys

__all__ = ["main"]


def main() -> None:
    """Run the command line and exit with its code, whatever keeps it from starting."""
    try:
        from verifier.cli.app import run
    except KeyboardInterrupt:
        raise SystemExit(130) from None
    except (ImportError, OSError, MemoryError) as error:
        says = str(error) or "there is no memory left"
        if sys.stderr is not None:
            sys.stderr.write(
                f"gridproof: it cannot start: {says}. If this machine allows more open files (ulimit -n) and "
                "has memory left, install gridproof anew.\n"
            )
        raise SystemExit(2) from None
    raise SystemExit(run())
