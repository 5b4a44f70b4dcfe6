"""What made a verdict: the versions and hashes that a later run must compare."""

from __future__ import annotations

from functools import cache
from importlib.metadata import PackageNotFoundError, version

from verifier.verdict.style.style import HouseStyle
from verifier.verdict.verdict import MadeBy

__all__ = ["gridproof_version", "made_by"]

_NOT_INSTALLED = "not installed"


@cache
def version_of(distribution: str) -> str:
    """Return the version of an installed distribution, or say that it is not installed.

    Examples
    --------
    >>> version_of("no-such-thing")
    'not installed'
    """
    try:
        return version(distribution)
    except PackageNotFoundError:  # run from a checkout
        return _NOT_INSTALLED


def gridproof_version() -> str:
    """Return the version of this program."""
    return version_of("gridproof")


def made_by(style: HouseStyle) -> MadeBy:
    """Return what a verdict under a house style is made by."""
    from grader.ladder import LADDER_VERSION

    return MadeBy(
        gridproof=gridproof_version(),
        ladder=LADDER_VERSION,
        style_name=style.name,
        style_content=style.content,
        ortools=version_of("ortools"),
        clingo=version_of("clingo"),
    )
