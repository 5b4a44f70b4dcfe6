"""Tell a step in one sentence, as one would say it aloud: the evidence, then what follows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from grader import wording
from grader.board import Layout, digits_of
from grader.steps import DerivedSum, Step

__all__ = ["cage_in_words", "digits_in_words", "list_in_words", "tell"]


def tell(step: Step, layout: Layout) -> str:
    """Return the step as one spoken sentence.

    Parameters
    ----------
    step : Step
        Any step of a replay of the puzzle.
    layout : Layout
        The puzzle's layout.

    Examples
    --------
    >>> from grader.board import board_from_text
    >>> from grader.techniques.subsets import find_naked_pairs
    >>> board = board_from_text("37 5 379 37 1 2 4 6 8")
    >>> print(tell(next(find_naked_pairs(board)), board.layout))
    r1c1 and r1c4 share 3 and 7 in row 1: 3 and 7 go from r1c3.
    """
    sentence = f"{_evidence(step, layout)}: {_effect(step, layout)}."
    # A cell keeps its small letter at the start of a sentence: r1c1 is a name.
    return sentence if sentence[0] == "r" and sentence[1].isdigit() else sentence[0].upper() + sentence[1:]


def _evidence(step: Step, layout: Layout) -> str:
    template = wording.EVIDENCE[step.technique]
    if step.technique == "cage-combinations" and step.houses:
        template = wording.CERTAIN_DIGIT
    if step.technique == "last-cell-of-cage" and not step.looks:
        template = wording.ONE_CELL_CAGE
    return template.format(
        cells=_cells(step.focus, layout),
        cell=_cells(step.focus[:1], layout),
        digits=digits_in_words(step.digits),
        house=_houses(step.houses[:1], layout),
        houses=_houses(step.houses, layout),
        cage=cage_in_words(step.cages[0], layout) if step.cages else "",
        other_cage=cage_in_words(step.cages[1], layout) if len(step.cages) > 1 else "",
        them="them" if step.digits & (step.digits - 1) else "it",
        cages=list_in_words([cage_in_words(cage, layout) for cage in step.cages]),
        sum=_sum(step.sums[0], layout) if step.sums else "",
        left=_left(step.sums[0], layout) if step.sums else "",
        start=_start(step, layout) if step.length else "",
    )


def _start(step: Step, layout: Layout) -> str:
    """Tell where a chain starts: from one candidate, from a cell with two, or a digit with two places."""
    if len(step.focus) == 1:
        template = wording.ONE_START
    elif step.focus[0] == step.focus[1]:
        template = wording.TWO_DIGITS
    else:
        template = wording.TWO_CELLS
    levels = "one step" if step.length == 1 else f"{step.length} steps"
    return template.format(
        cell=_cells(step.focus[:1], layout),
        cells=list_in_words([layout.grid.cell_name(cell) for cell in step.focus], "or"),
        digits=digits_in_words(step.digits),
        ways=list_in_words([str(digit) for digit in digits_of(step.digits)], "or"),
        length=levels,
    )


def _sum(derived: DerivedSum, layout: Layout) -> str:
    """Tell the rule of 45: the houses, the cages, and what the cells left over make."""
    inside = {cell for house in derived.houses for cell in layout.houses[house].cells}
    innies = [cell for cell in derived.linear.cells if cell in inside]
    outies = [cell for cell in derived.linear.cells if cell not in inside]
    template = wording.SUM_BOTH if innies and outies else wording.SUM_INNIES if innies else wording.SUM_OUTIES
    one = len(derived.houses) == 1
    left_over = innies or outies
    return template.format(
        houses=_houses(derived.houses, layout),
        add="adds" if one else "add",
        them="it" if one else "them",
        whole=len(derived.houses) * layout.grid.house_total,
        cages=sum(layout.cages[cage].total for cage in derived.cages),
        innies=_cells(innies, layout),
        outies=_cells(outies, layout),
        make="makes" if len(left_over) == 1 else "make",
        total=derived.linear.total,
    )


def _left(derived: DerivedSum, layout: Layout) -> str:
    """Tell a sum by itself: what is added, what is taken away, and what they make."""
    plus = [cell for cell, weight in derived.linear.weights if weight > 0]
    minus = [cell for cell, weight in derived.linear.weights if weight < 0]
    less = f" less {_cells(minus, layout)}" if minus else ""
    return f"{_cells(plus, layout)}{less}, which make {derived.linear.total}"


def _effect(step: Step, layout: Layout) -> str:
    if step.places:
        return list_in_words([f"{layout.grid.cell_name(cell)} is {digit}" for cell, digit in step.places])
    from_cells: dict[int, list[int]] = {}
    for cell, digits in step.removes:
        from_cells.setdefault(digits, []).append(cell)
    return list_in_words([_gone(digits, cells, layout) for digits, cells in from_cells.items()])


def _gone(digits: int, cells: list[int], layout: Layout) -> str:
    go = "go" if digits & (digits - 1) else "goes"
    return f"{digits_in_words(digits)} {go} from {_cells(cells, layout)}"


def cage_in_words(cage: int, layout: Layout) -> str:
    """Return what people call a cage: its total and its first cell."""
    written = layout.cages[cage]
    return f"the cage of {written.total} at {layout.grid.cell_name(written.cells[0])}"


def digits_in_words(digits: int) -> str:
    """Return a mask of digits in words.

    Examples
    --------
    >>> digits_in_words(0b10010100)
    '2, 4 and 7'
    """
    return list_in_words([str(digit) for digit in digits_of(digits)])


def list_in_words(words: Sequence[str], last: str = "and") -> str:
    """Return a list as one says it.

    Examples
    --------
    >>> list_in_words(["row 1"]), list_in_words(["3", "7"], "or")
    ('row 1', '3 or 7')
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def _cells(cells: Iterable[int], layout: Layout) -> str:
    return list_in_words([layout.grid.cell_name(cell) for cell in cells])


def _houses(houses: Iterable[int], layout: Layout) -> str:
    """Name houses as one says them: ``row 3``; ``rows 1 and 2``; ``row 1 and boxes 2 and 3``."""
    numbers: dict[str, list[str]] = {}
    for house in houses:
        numbers.setdefault(layout.houses[house].kind, []).append(str(layout.houses[house].number))
    plural = {"box": "boxes"}
    return list_in_words(
        [
            f"{kind if len(found) == 1 else plural.get(kind, kind + 's')} {list_in_words(found)}"
            for kind, found in numbers.items()
        ]
    )
