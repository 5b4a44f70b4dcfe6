"""Forcing, told: each line from its assumption to where it ends, digit by digit."""

from __future__ import annotations

from grader import wording
from grader.board import Board, bits
from grader.branch import Branch, Outset, Premises
from grader.phrases import cage_in_words, digits_in_words, list_in_words
from grader.steps import Step

__all__ = ["TOLD_AT_MOST", "forcing_in_words"]

TOLD_AT_MOST = 12
"""A line that writes in more digits than this is not told digit by digit: nobody listens that long."""


def forcing_in_words(step: Step, board: Board) -> str:
    """Return the evidence of a forcing or contradiction chain, with what each line writes in.

    Parameters
    ----------
    step : Step
        A step that starts from the cells of its focus with its digits.
    board : Board
        The board on which it was found.

    Examples
    --------
    >>> from grader.board import board_from_text
    >>> from grader.techniques.forcing import find_forcing_chains
    >>> board = board_from_text("12 . . . 13" + chr(10) + ". 23")
    >>> step = next(step for step in find_forcing_chains(board) if step.length == 2)
    >>> print(forcing_in_words(step, board))
    r1c1 is 1 or 2. With 1, r1c5 is 3; with 2, r2c2 is 3. Either way,
    """
    outset = Outset(board)
    starts = _starts(step)
    if len(starts) == 1:
        return _contradiction(Branch(outset, *starts[0]), step, board)
    (gone,) = step.removes
    target = gone[0], gone[1].bit_length() - 1
    lines = [_line(Branch(outset, *start), step, target, board) for start in starts]
    one_cell = starts[0][0] == starts[1][0]
    template = wording.TWO_DIGITS_TOLD if one_cell else wording.TWO_CELLS_TOLD
    names = [str(digit) if one_cell else board.layout.grid.cell_name(cell) for cell, digit in starts]
    return template.format(
        cell=board.layout.grid.cell_name(starts[0][0]),
        digits=digits_in_words(step.digits),
        ways=list_in_words(names, "or"),
        first=names[0],
        second=names[1],
        first_line=lines[0],
        second_line=lines[1],
    )


def _starts(step: Step) -> list[tuple[int, int]]:
    """Return the candidates from which the lines start."""
    digits = list(bits(step.digits))
    if len(step.focus) == 1:
        return [(step.focus[0], digits[0])]
    if step.focus[0] == step.focus[1]:
        return [(step.focus[0], digit) for digit in digits]
    return [(cell, digits[0]) for cell in step.focus]


def _line(branch: Branch, step: Step, target: tuple[int, int], board: Board) -> str:
    """Tell what a line writes in until a candidate goes."""
    branch.run(step.length)
    premises = Premises()
    branch.trace_removal(*target, premises)
    written = _written(branch, premises, board, supposed=False)
    return written or wording.AT_ONCE.format(digit=target[1], cell=board.layout.grid.cell_name(target[0]))


def _contradiction(branch: Branch, step: Step, board: Board) -> str:
    """Tell what a line writes in until it fails, and how."""
    branch.run(None if step.technique == "trial" else step.length)
    premises = Premises()
    branch.trace_contradiction(premises)
    end = branch.dead_end
    assert end is not None, "a branch that could be traced has failed"
    layout = board.layout
    written = _written(branch, premises, board, supposed=True)
    template = wording.ONE_START_TOLD if written else wording.ONE_START_AT_ONCE
    return template.format(
        cell=layout.grid.cell_name(branch.start[0]),
        digit=branch.start[1],
        line=written,
        end=wording.DEAD_ENDS[end.kind].format(
            cell=layout.grid.cell_name(end.where) if end.kind in ("cell", "clash") else "",
            house=layout.houses[end.where].name if end.kind == "house" else "",
            cage=cage_in_words(end.where, layout) if end.kind == "cage" else "",
            digit=end.digit,
        ),
    )


def _written(branch: Branch, premises: Premises, board: Board, *, supposed: bool) -> str:
    """Tell the digits that a line writes in, in order, without the one it starts from.

    A line that is only supposed, since it ends in a contradiction, is told in the conditional.
    """
    cells = [cell for cell in branch.order if cell in premises.line and cell != branch.start[0]]
    if not cells:
        return ""
    names = [board.layout.grid.cell_name(cell) for cell in cells]
    if len(cells) > TOLD_AT_MOST:
        template = wording.LONG_LINE_WOULD if supposed else wording.LONG_LINE
        return template.format(count=len(cells), cell=names[-1], digit=premises.line[cells[-1]])
    told = [f"{name} {premises.line[cell]}" for name, cell in zip(names, cells, strict=True)]
    told[0] = f"{names[0]} {wording.WOULD_BE if supposed else wording.IS} {premises.line[cells[0]]}"
    return list_in_words(told)
