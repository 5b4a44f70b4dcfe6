"""What is said of workers that were lost, and of a cluster that cannot be had."""

from __future__ import annotations

from verifier.files.faults import Fault
from verifier.intake.limits import WorkerLimits

__all__ = ["NO_CLUSTER", "NO_CLUSTER_LIBRARY", "lost_reading", "lost_says"]

_LOST = {
    "died": "the process that judged this puzzle was ended from outside, or broke down, {tries} times",
    "time": "the process that judged this puzzle did not answer within {seconds:.0f} seconds, {tries} times",
    "memory": "judging this puzzle took more than {memory:,} MiB of memory, {tries} times",
}
_LOST_CURES = {
    "died": "Most likely the machine ran out of memory. Check the puzzle alone.",
    "time": "Check the puzzle alone, with more time (--seconds).",
    "memory": "Check the puzzle alone, on a machine with more memory, with a higher limit (--memory).",
}


def lost_says(cause: str, limits: WorkerLimits) -> str:
    """Say why a puzzle is undecided whose worker was lost.

    Examples
    --------
    >>> print(lost_says("time", WorkerLimits(seconds=60, tries=2)).partition(": ")[2].partition(".")[0])
    the process that judged this puzzle did not answer within 60 seconds, 2 times
    """
    told = _LOST[cause].format(seconds=limits.seconds, memory=limits.memory_bytes >> 20, tries=limits.tries)
    return f"Not proved either way: {told}. {_LOST_CURES[cause]}"


def lost_reading(address: str, cause: str) -> Fault:
    """Return the fault of a file over which the worker was lost before the puzzle was read."""
    found = {"time": "a text that takes too long to read", "memory": "a text that takes too much memory"}
    told = found.get(cause, "a text over which the reading broke off")
    return Fault(
        "reading-lost",
        address,
        None,
        "the text",
        told,
        "a puzzle as the README shows it",
        "It is tried again in the next run.",
    )


NO_CLUSTER = "no cluster at {address}: {says}"

NO_CLUSTER_LIBRARY = (
    "'--cluster' needs Dask, which is not installed. Install it with: pip install 'gridproof[cluster]'"
)
