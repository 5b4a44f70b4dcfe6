"""What a witness may take before it must stop: work, time, and the word of whoever asked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["USUAL_ALLOWANCE", "WorkAllowance"]


@dataclass(frozen=True, slots=True)
class WorkAllowance:
    """What a witness may take.

    Limits of work are the same on every machine, however busy it is; the clock guards behind them, wide
    enough not to end a search before its work does.

    Parameters
    ----------
    work : float
        For the count, in the deterministic units of CP-SAT, roughly a third of a second each.
    conflicts : int
        For the recount: dead ends of its search, at least 1; roughly 50,000 a second.
    seconds : float
        Guard on the wall clock.
    trial : bool
        Whether the replay may use trial once a solution is found, which grades but proves nothing.
    techniques : frozenset of str, optional
        The ids of the only techniques that the replay may use.
    ended : callable, optional
        Says whether whoever asked wants no answer any more, such as the ``is_set`` of an event. Every
        witness looks at it several times a second, from whatever thread it works in.

    Examples
    --------
    >>> WorkAllowance().is_ended, WorkAllowance(ended=lambda: True).is_ended
    (False, True)
    """

    work: float = 60.0
    conflicts: int = 1_000_000
    seconds: float = 120.0
    trial: bool = True
    techniques: frozenset[str] | None = None
    ended: Callable[[], bool] | None = None

    @property
    def is_ended(self) -> bool:
        """Whether whoever asked has ended it."""
        return self.ended is not None and self.ended()


USUAL_ALLOWANCE = WorkAllowance()
"""What a witness may take where nobody says otherwise."""
