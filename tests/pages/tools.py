"""The programs that the tests of pages need: a browser, and the readers of PDF files.

Where one is missing, a test that needs it is skipped with a reason; with ``CI=true`` that is a failure.
"""

from __future__ import annotations

import os
import shutil
import subprocess

import pytest

__all__ = ["CHROMIUM_FLAGS", "chromium", "run_tool", "without"]

CHROMIUM_FLAGS = [
    "--headless",
    "--no-sandbox",  # CI runs as root, where the sandbox cannot
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def chromium() -> str:
    """Return the path of a Chromium: ``$GRIDPROOF_CHROMIUM``, or one that is installed."""
    named = os.environ.get("GRIDPROOF_CHROMIUM")
    found = named or shutil.which("chromium") or shutil.which("chromium-browser")
    return found or without("Chromium", "apt install chromium, or set GRIDPROOF_CHROMIUM")


def run_tool(name: str, *arguments: object) -> str:
    """Return what a program of poppler prints."""
    if shutil.which(name) is None:
        without(name, "apt install poppler-utils")
    done = subprocess.run([name, *map(str, arguments)], capture_output=True, check=True, timeout=60)
    return done.stdout.decode()


def without(what: str, cure: str) -> str:
    """Skip the test, or fail it in CI, since something is not installed."""
    reason = f"no {what} on this machine: {cure}"
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)
