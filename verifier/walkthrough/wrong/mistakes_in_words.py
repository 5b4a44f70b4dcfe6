"""What is wrong in a part-filled grid, in words: where it is, what it is, and why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from grader.board.steps import WalkStep
from grader.words.narrate import tell
from verifier.puzzle.printable import counted, listed
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import cage_at
from verifier.walkthrough import wording
from verifier.walkthrough.wrong.mistakes import MOST_REFUTED, Mistake
from verifier.walkthrough.wrong.refuting import MOST_RULES, Disproof
from verifier.walkthrough.wrong.shifting import Slip

__all__ = ["mistake_in_words", "mistakes_told", "slip_in_words", "where_mistaken"]


def where_mistaken(puzzle: Puzzle, mistakes: Sequence[Mistake]) -> str:
    """Say in which houses or cages something is wrong, and no more."""
    places = dict.fromkeys(_called(_place_of(puzzle, each), puzzle) for each in mistakes)
    return wording.WRONG_IN.format(places=listed(places))


def mistakes_told(puzzle: Puzzle, mistakes: Sequence[Mistake], *, reasons: bool) -> Iterator[str]:
    """Yield what is said of each mistake, of two digits that clash once; of very many, the rest together."""
    digits = [each for each in mistakes if each.digit is not None]
    told = [mistake_in_words(puzzle, each, mistakes, reasons=reasons) for each in digits[:MOST_REFUTED]]
    yield from dict.fromkeys(told)
    name = puzzle.grid.cell_name
    if rest := digits[MOST_REFUTED:]:
        entries = [f"{name(each.cell)} ({each.digit})" for each in rest]
        yield wording.ALSO_WRONG.format(entries=listed(entries, most=len(entries)))
    if marked := [name(each.cell) for each in mistakes if each.digit is None]:
        yield wording.LOST_MARKS.format(cells=listed(marked))


def mistake_in_words(
    puzzle: Puzzle, mistake: Mistake, mistakes: Sequence[Mistake], *, reasons: bool = True
) -> str:
    """Say what is wrong in a cell, and why; the right digit is not given away.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    mistake : Mistake
        What is spoken of.
    mistakes : sequence of Mistake
        All that is wrong: of two digits that clash, both can be.
    reasons : bool, optional
        Whether to give the reason.

    Examples
    --------
    >>> from verifier.files.so_far import SoFar
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.walkthrough.wrong.mistakes import mistakes_in
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 4), 3), Cage((1, 2, 5), 9)])
    >>> for each in mistakes_in(puzzle, SoFar(((0, 4), (1, 3))), (1, 3, 4, 2, 2) + (0,) * 11):
    ...     print(mistake_in_words(puzzle, each, ()))
    r1c1 cannot be 4: the cage of 3 at r1c1 would make 4 already, with r2c1 still empty.
    """
    cell = puzzle.grid.cell_name(mistake.cell)
    if mistake.digit is None:
        return wording.LOST_MARKS.format(cells=cell)
    if mistake.given is not None:
        return wording.GIVEN_AS.format(cell=cell, given=mistake.given, digit=mistake.digit)
    cannot, why = wording.CANNOT_BE.format(cell=cell, digit=mistake.digit), mistake.why
    if why is None or not reasons:
        return f"{cannot}."
    if why.twice is not None:
        return _twice(puzzle, why, {each.cell: each.sure for each in mistakes})
    if len(why.rules) == 1 and isinstance(why.rules[0], Cage):
        return f"{cannot}: {_cage_alone(why.rules[0], why, puzzle)}."
    return " ".join([f"{cannot}.", *_shown(why, puzzle)])


def slip_in_words(slip: Slip) -> str:
    """Ask whether one slip is behind many wrong digits."""
    asked, how = wording.SLIPS[slip.way.value]
    return wording.SLIP.format(asked=asked, wrong=slip.wrong, right=slip.right, how=how)


def _place_of(puzzle: Puzzle, mistake: Mistake) -> Rule:
    cited = mistake.why.rules if mistake.why else ()
    near = [rule for rule in (*cited, *puzzle.houses) if mistake.cell in rule.cells]
    return next(rule for rule in (*near, *puzzle.cages) if isinstance(rule, (House, Cage)))


def _called(rule: Rule, puzzle: Puzzle) -> str:
    """Return what steps call a rule: a cage by its total and its first cell."""
    if isinstance(rule, Cage):
        return wording.CAGE_AT.format(cage=cage_at(puzzle.grid, rule))
    return rule.called(puzzle.grid)


def _twice(puzzle: Puzzle, why: Disproof, wrong: Mapping[int, bool]) -> str:
    assert why.twice is not None
    name = puzzle.grid.cell_name
    which = wording.WRONG_ONE.format(cell=name(why.cell))
    if why.twice in wrong:
        which = wording.BOTH_WRONG if wrong[why.twice] else wording.ONE_OF_THEM
    cells = listed(name(cell) for cell in sorted((why.cell, why.twice)))
    return wording.TWICE.format(digit=why.digit, rule=_called(why.rules[0], puzzle), cells=cells, wrong=which)


def _cage_alone(cage: Cage, why: Disproof, puzzle: Puzzle) -> str:
    """Say why a cage cannot be filled with a digit and those that stand in it."""
    name = puzzle.grid.cell_name
    stands = [digit for _, digit in why.beside] + [why.digit]
    filled = {cell for cell, _ in why.beside} | {why.cell}
    empty = [cell for cell in cage.cells if cell not in filled]
    called, made, cells = _called(cage, puzzle), sum(stands), listed(map(name, empty))
    if not empty:
        full = wording.SINGLE_CAGE if len(cage.cells) == 1 else wording.FULL_CAGE
        return full.format(total=cage.total, cage=cage_at(puzzle.grid, cage), made=made)
    rest = cage.total - made
    if rest <= 0:
        return wording.CAGE_OVER.format(cage=called, made=made, cells=cells)
    left = [digit for digit in puzzle.grid.all_digits if digit not in stands]
    least, most = sum(left[: len(empty)]), sum(left[-len(empty) :])
    if len(empty) == 1:
        short = wording.NEEDS_USED if rest in stands else wording.NEEDS_LARGER
    else:
        short = (
            wording.NEEDS_MORE
            if rest < least
            else wording.NEEDS_LESS
            if rest > most
            else wording.NEEDS_OTHERS
        )
    reason = short.format(cells=counted(len(empty), "cell"), least=least, most=most, rest=rest)
    return wording.CAGE_NEEDS.format(cage=called, rest=rest, cells=cells, why=reason)


def _shown(why: Disproof, puzzle: Puzzle) -> Iterator[str]:
    """Yield the sentences that show it: steps, or else the rules alone."""
    if not (why.steps or why.contradiction):
        if len(why.rules) > MOST_RULES:
            yield wording.BY_MANY
            return
        rules = [_called(rule, puzzle) for rule in why.rules]
        template = wording.BY_THIS if len(rules) == 1 else wording.BY_THESE
        yield template.format(rules=listed(rules))
        return
    steps, end = why.steps, why.contradiction
    if end:
        yield wording.SUPPOSED.format(digit=why.digit)
        if not steps[-1].step.digits and steps[-1].board.layout.cages_among(steps[-1].step.rules):
            steps, end = steps[:-1], _no_combination(steps[-1], puzzle)
    yield from (tell(taken.step, taken.board.layout, taken.board) for taken in steps)
    if end:
        yield wording.THEN.format(contradiction=end)
        return
    placed = {cell for cell, _ in steps[-1].step.places}
    shared = [rule for rule in why.rules if why.cell in rule.cells and not placed.isdisjoint(rule.cells)]
    yield from (wording.TAKEN.format(digit=why.digit, rule=_called(rule, puzzle)) for rule in shared[:1])


def _no_combination(taken: WalkStep, puzzle: Puzzle) -> str:
    cage = taken.board.layout.cage(taken.board.layout.cages_among(taken.step.rules)[0])
    return wording.THEN_NO_COMBINATION.format(cage=_called(cage, puzzle))
