"""Forcing, told: each line from its assumption to where it ends, digit by digit."""

from __future__ import annotations

from collections.abc import Sequence

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import DeadEnd, Fork
from grader.board.steps import Step
from grader.board.technique import Trait
from grader.ladder import TECHNIQUES
from grader.reasoning.chains.links import open_cages
from grader.reasoning.lines_of_forcing.branch import Branch, Origin
from grader.reasoning.lines_of_forcing.tracing import TracedPremises
from grader.words.phrases import (
    cage_in_words,
    combination_in_words,
    dead_end_in_words,
    digits_in_words,
    list_in_words,
    sentence,
)
from grader.words.wording import line_words
from verifier.puzzle.masks import bits

__all__ = ["TOLD_AT_MOST", "forcing_in_words", "fork_in_words"]

TOLD_AT_MOST = 12
"""A line that writes in more digits than this is not told digit by digit: nobody listens that long."""


def forcing_in_words(step: Step, board: Board) -> str | None:
    """Return the evidence of a forcing or contradiction chain, with what each line writes in.

    None where a line does not come to its end on this board: what it wrote in may stand there by now.

    Parameters
    ----------
    step : Step
        A step that starts from the cells of its focus with its digits.
    board : Board
        The board on which it was found.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.forcing import find_forcing_chains
    >>> board = board_from_text("12 . . . 13" + chr(10) + ". 23")
    >>> step = next(step for step in find_forcing_chains(board) if step.length == 2)
    >>> print(forcing_in_words(step, board))
    r1c1 is 1 or 2. With 1, r1c5 is 3; with 2, r2c2 is 3. Either way,
    """
    fork = step.pattern
    if not isinstance(fork, Fork):
        return _contradiction(Branch(Origin(board), step.focus[0], next(bits(step.digits))), step, board)
    branches, ways = _branches(step, fork, board)
    (gone,) = step.removes
    target = gone[0], gone[1].bit_length() - 1
    told = [_line(branch, step, target, board) for branch in branches]
    if None in told:
        return None
    says = line_words.WAY[fork.kind]
    lines = [says.format(way=way, line=line) for way, line in zip(ways, told, strict=True)]
    return line_words.FORK_TOLD.format(
        fork=_fork(step, fork, board.layout, ways),
        lines=sentence("; ".join(lines)),
        all_ways=line_words.BOTH_WAYS if len(lines) == 2 else line_words.ALL_WAYS,
    )


def fork_in_words(step: Step, fork: Fork, layout: Layout, length: str) -> str:
    """Return the evidence of a forcing chain where the board is not known: the fork, and how far it leads."""
    ways = [line_words.ONE_COMBINATION_OR_ANOTHER] if fork.kind == "cage" else _ways(step, fork, layout)
    return line_words.FORK_LEADS.format(
        fork=_fork(step, fork, layout, ways),
        all_of_them=line_words.BOTH if len(ways) == 2 else line_words.ALL,
        length=length,
    )


def _fork(step: Step, fork: Fork, layout: Layout, ways: Sequence[str]) -> str:
    return line_words.FORK[fork.kind].format(
        cell=layout.grid.cell_name(step.focus[0]),
        cage="" if fork.cage is None else cage_in_words(fork.cage, layout),
        digits=digits_in_words(step.digits),
        ways=list_in_words(ways, "or"),
    )


def _ways(step: Step, fork: Fork, layout: Layout) -> list[str]:
    """Return the candidates of a cell, or the places of a digit, in words."""
    if fork.kind == "cell":
        return [str(digit) for digit in bits(step.digits)]
    return [layout.grid.cell_name(cell) for cell in step.focus]


def _branches(step: Step, fork: Fork, board: Board) -> tuple[list[Branch], list[str]]:
    """Return the branches from which the lines start, and what each supposes, in words.

    A walk that is shortened tells a step on another board than the one on which it was found, where other
    digits may follow: so the lines are followed when they are told.
    """
    origin, layout = Origin(board), board.layout
    if fork.cage is not None:
        (cage,) = [cage for cage in open_cages(board) if cage.cage == fork.cage]
        branches = [
            Branch.of_combination(origin, cage.cage, combination) for combination in cage.combinations
        ]
        return branches, [combination_in_words(held, layout) for held in cage.combinations]
    starts = [(cell, digit) for cell in dict.fromkeys(step.focus) for digit in bits(step.digits)]
    return [Branch(origin, *start) for start in starts], _ways(step, fork, layout)


def _line(branch: Branch, step: Step, target: tuple[int, int], board: Board) -> str | None:
    """Tell what a line writes in until a candidate goes, or until the line fails."""
    branch.run(step.length)
    premises = TracedPremises()
    if branch.contradicted:
        premises.add_contradiction(branch)
        written = _written(branch, premises, board, supposed=True)
        template = line_words.FAILS if written else line_words.FAILS_AT_ONCE
        return template.format(line=written, end=_failure(branch, board))
    cell, digit = target
    if branch.candidates[cell] >> digit & 1:
        return None
    premises.add_removal(branch, cell, digit)
    written = _written(branch, premises, board, supposed=False)
    return written or line_words.AT_ONCE.format(digit=digit, cell=board.layout.grid.cell_name(cell))


def _contradiction(branch: Branch, step: Step, board: Board) -> str | None:
    """Tell what a line writes in until it fails, and how."""
    branch.run(None if Trait.TRIAL in TECHNIQUES[step.technique].traits else step.length)
    if not branch.contradicted:
        return None
    premises = TracedPremises()
    premises.add_contradiction(branch)
    written = _written(branch, premises, board, supposed=True)
    template = line_words.ONE_START_TOLD if written else line_words.ONE_START_AT_ONCE
    return template.format(
        cell=board.layout.grid.cell_name(branch.start[0]),
        digit=branch.start[1],
        line=written,
        end=_failure(branch, board),
    )


def _failure(branch: Branch, board: Board) -> str:
    """Tell where a branch fails."""
    end = branch.failure
    assert end is not None, "a branch that could be traced has failed"
    return dead_end_in_words(DeadEnd(end.kind, end.where, end.digit), board.layout)


def _written(branch: Branch, premises: TracedPremises, board: Board, *, supposed: bool) -> str:
    """Tell the digits that a line writes in, in order, without the one it starts from.

    A line that is only supposed, since it ends in a contradiction, is told in the conditional.
    """
    assumed = branch.start[0] if branch.start[1] else None
    cells = [cell for cell in branch.order if cell in premises.line and cell != assumed]
    if not cells:
        return ""
    names = [board.layout.grid.cell_name(cell) for cell in cells]
    if len(cells) > TOLD_AT_MOST:
        template = line_words.LONG_LINE_WOULD if supposed else line_words.LONG_LINE
        return template.format(count=len(cells), cell=names[-1], digit=premises.line[cells[-1]])
    told = [f"{name} {premises.line[cell]}" for name, cell in zip(names, cells, strict=True)]
    told[0] = f"{names[0]} {line_words.WOULD_BE if supposed else line_words.IS} {premises.line[cells[0]]}"
    return list_in_words(told)
