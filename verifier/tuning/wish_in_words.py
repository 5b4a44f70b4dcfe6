"""A wish, and what a puzzle misses of it, in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from verifier.puzzle.printable import filled
from verifier.tuning import wording
from verifier.tuning.portrait import technique_name
from verifier.tuning.wish import Gap, Wish, WishPart
from verifier.verdict.style.style import PLAIN

__all__ = ["missed_in_words", "wish_as_record", "wish_in_words"]


def _asked(wish: Wish) -> dict[WishPart, Mapping[str, Any]]:
    """Return what is asked for beside the house style, part by part, as the sentences need it."""
    low, high = wish.effort or (0, 0)
    without = tuple(name for name in wish.without if name not in wish.style.techniques_not_accepted)
    every: dict[WishPart, tuple[object, Mapping[str, Any]]] = {
        WishPart.TIERS: (wish.tiers != wish.style.tiers, {"tiers": wish.tiers}),
        WishPart.EFFORT: (wish.effort, {"low": low, "high": high}),
        WishPart.WITHOUT: (without, {"techniques": without}),
        WishPart.HAVING: (wish.having, {"techniques": wish.having}),
        WishPart.BREAK_IN: (wish.break_in, {"place": wish.break_in}),
        WishPart.GIVENS: (wish.most_givens is not None, {"most": wish.most_givens}),
        WishPart.CAGES: (wish.most_cages is not None, {"most": wish.most_cages}),
        WishPart.SYMMETRY: (wish.symmetry, {"symmetry": wish.symmetry}),
        WishPart.STYLE: (wish.style != PLAIN, {"name": wish.style.name}),
    }
    return {part: facts for part, (wanted, facts) in every.items() if wanted}


def wish_in_words(wish: Wish) -> str:
    """Return the sentence that says what is wished for.

    Examples
    --------
    >>> wish_in_words(Wish(tiers=(3,), without=("swordfish",), most_givens=24))
    'Wished for: tier 3, swordfish not needed and at most 24 givens.'
    """
    parts = [
        wording.NONE_OF_THEM[part] if facts.get("most") == 0 else _said(wording.WISHES[part], facts)
        for part, facts in _asked(wish).items()
    ]
    return filled(wording.WISHED_FOR, wish=parts)


def wish_as_record(wish: Wish) -> dict[str, Any]:
    """Return a wish as plain values, by the names of its options."""
    records: dict[str, Any] = {}
    for part, facts in _asked(wish).items():
        values = [list(value) if isinstance(value, tuple) else value for value in facts.values()]
        records[part.value] = values if len(values) > 1 else values[0]
    return records


def missed_in_words(gaps: Iterable[Gap]) -> list[str]:
    """Return what is missed, each as part of a sentence."""
    return [_said(wording.GAPS[gap.part], gap.facts) for gap in gaps]


def _said(template: str, facts: Mapping[str, Any]) -> str:
    named = {**facts}
    if "place" in named:
        named["third"] = wording.NAMED_THIRDS[named["place"]]
    if "techniques" in named:
        named["techniques"] = [technique_name(technique) for technique in named["techniques"]]
    return filled(template, **named)
