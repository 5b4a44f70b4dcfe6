"""What a setter wishes a sound puzzle to be, as the form of the page says it."""

from __future__ import annotations

from grader.ladder import LADDER, TECHNIQUES
from verifier.desk import wording
from verifier.desk.wishes import PageWish, RefusedError
from verifier.tuning.wish import Wish
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.style.symmetry import SYMMETRIES

__all__ = ["CHOICES", "wish_towards"]

_MOST_RULES = 625

CHOICES = {
    "techniques": [(technique.id, technique.name) for technique in LADDER],
    "symmetries": tuple(SYMMETRIES),
}
"""What the form offers, beside tiers and numbers."""


def wish_towards(asked: PageWish, style: HouseStyle) -> Wish:
    """Return what a puzzle should be; every part of it may be left out, but not all.

    Raises
    ------
    RefusedError
        If a part is none, or all are left out.

    Examples
    --------
    >>> asked = PageWish({"tier": "2", "without": "naked-pair", "most": 150})
    >>> wish = wish_towards(asked, HouseStyle("Harbour Page"))
    >>> wish.tiers, wish.effort, wish.without, wish.most_givens
    ((2,), (0, 150), ('naked-pair',), None)
    """
    last = style.tiers_to_grade_with().last
    wish = Wish(
        tiers=(asked.number("tier", 1, last),) if "tier" in asked else (),
        effort=_effort(asked),
        without=_techniques(asked, "without"),
        having=_techniques(asked, "having"),
        most_givens=asked.number("givens", 0, _MOST_RULES) if "givens" in asked else None,
        most_cages=asked.number("cages", 0, _MOST_RULES) if "cages" in asked else None,
        symmetry=asked.one_of("symmetry", SYMMETRIES) if "symmetry" in asked else None,
        style=style,
    )
    if wish == Wish(style=style):
        raise RefusedError(wording.NO_WISH_TOWARDS)
    if set(wish.without) & set(wish.having):
        raise RefusedError(wording.WITH_AND_WITHOUT)
    return wish


def _effort(asked: PageWish) -> tuple[int, int] | None:
    if "least" not in asked and "most" not in asked:
        return None
    least = asked.number("least") if "least" in asked else 0
    return least, asked.number("most", least) if "most" in asked else PageWish.MOST_NUMBER


def _techniques(asked: PageWish, key: str) -> tuple[str, ...]:
    return (asked.one_of(key, TECHNIQUES),) if key in asked else ()
