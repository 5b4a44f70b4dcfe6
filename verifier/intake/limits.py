"""What the intake takes from a box, and how much one puzzle may cost: no box is trusted. All can be set."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["DEFAULT_BOUNDS", "WORKER_LIMITS", "Bounds", "WorkerLimits"]

_MIB = 1 << 20


@dataclass(frozen=True, slots=True)
class Bounds:
    """The largest archives that are taken, and the time for finding what is in a file.

    Parameters
    ----------
    members : int
        Files in one archive.
    unpacked_bytes : int
        Bytes that one archive may unpack to.
    ratio : int
        How many times its own size an archive may unpack to, once that is more than `free_bytes`. Puzzles
        pack to between a fifth and a fiftieth.
    free_bytes : int
        Bytes that any archive may unpack to.
    header_bytes : int
        Bytes of what an archive says about one of its files.
    unpacker_bytes : int
        Memory for unpacking ``.xz``.
    seconds : float
        Time in which the next puzzle of a file or an archive must be found. A clock only guards: what it cuts
        short is tried again.

    Examples
    --------
    >>> Bounds().most_unpacked(1000), Bounds(ratio=2, free_bytes=10).most_unpacked(1000)
    (67108864, 2000)
    """

    members: int = 500_000
    unpacked_bytes: int = 64 << 30
    ratio: int = 200
    free_bytes: int = 64 * _MIB
    header_bytes: int = _MIB
    unpacker_bytes: int = 256 * _MIB
    seconds: float = 30.0

    def most_unpacked(self, size: int) -> int:
        """Return the number of bytes that an archive of this size may unpack to."""
        return min(max(self.free_bytes, self.ratio * size), self.unpacked_bytes)


@dataclass(frozen=True, slots=True)
class WorkerLimits:
    """What one puzzle may cost before the process that judges it is ended.

    Parameters
    ----------
    seconds : float
        Time on the clock. The witnesses stop by themselves well before.
    memory_bytes : int
        Resident memory of the process.
    tries : int
        How often a puzzle is tried whose process was ended, or died.
    """

    seconds: float = 330.0
    memory_bytes: int = 2048 * _MIB
    tries: int = 2


DEFAULT_BOUNDS, WORKER_LIMITS = Bounds(), WorkerLimits()
