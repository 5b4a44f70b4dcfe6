"""Build the catalogue of techniques: ``grader/techniques/CATALOGUE.md`` and ``examples.yaml`` beside it.

    python -m scripts.build_catalogue              write both anew
    python -m scripts.build_catalogue --verify     write nothing; say whether they are up to date

The puzzles of the corpus that have one solution and are not larger than 12x12 are replayed in rounds. The
example of a technique is the step with the fewest premises among them, on a 9x9 grid if there is one there;
for a technique that none of them needs, the board of its picture is used.
"""

from __future__ import annotations

import argparse
import doctest
import sys
import textwrap
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any
from unittest.mock import patch

import yaml

from grader.board import board as boards
from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.grading.replay import Replay, replay
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from grader.words.narrate import tell
from scripts.check_corpus import CORPUS, expected_entries
from verifier.files.reading import read_address
from verifier.puzzle.masks import digits_of

__all__ = ["EXAMPLES", "PAGE", "built_examples", "built_page", "main"]

FOLDER = Path(__file__).resolve().parents[1] / "grader" / "techniques"
PAGE = FOLDER / "CATALOGUE.md"
EXAMPLES = FOLDER / "examples.yaml"

_LARGEST = 12
_USUAL = 9
_COMMENT = (
    "# Worked examples and counts of the catalogue. Written by scripts/build_catalogue.py; do not edit.\n"
)


def main(words: Sequence[str] | None = None) -> int:
    """Build or verify the catalogue; return the exit code."""
    parser = argparse.ArgumentParser(description="Build the catalogue of techniques.")
    parser.add_argument("--verify", action="store_true", help="compare, write nothing")
    verify = parser.parse_args(words).verify
    stale = _renewed(EXAMPLES, built_examples(), verify=verify)
    if not (stale and verify):  # the page is made from the examples as they stand
        stale = _renewed(PAGE, built_page(), verify=verify) or stale
    if verify and stale:
        print("The catalogue is out of date: run 'python -m scripts.build_catalogue'.")
    return int(verify and stale)


def _renewed(path: Path, text: str, *, verify: bool) -> bool:
    """Write a file if it differs; say whether it did."""
    differs = not path.exists() or path.read_text(encoding="utf-8") != text
    if differs and not verify:
        path.write_text(text, encoding="utf-8")
        print(f"written: {path.name}")
    return differs


def built_examples() -> str:
    """Return the text of ``examples.yaml``."""
    played = dict(_replays())
    found = {technique.id: _record(technique, played) for technique in LADDER}
    record = {"puzzles": len(played), "techniques": found}
    return _COMMENT + yaml.dump(
        record, sort_keys=False, allow_unicode=True, width=110, Dumper=yaml.SafeDumper
    )


def _replays() -> Iterator[tuple[str, Replay]]:
    """Yield the replay of each puzzle of the corpus that has one solution, by its address."""
    for address, expected in expected_entries().items():
        if expected.get("solutions") == 1:
            (entry,) = read_address(str(CORPUS / address))
            if entry.puzzle is not None and entry.puzzle.grid.digits <= _LARGEST:
                yield address, replay(entry.puzzle)


def _record(technique: Technique, played: Mapping[str, Replay]) -> dict[str, Any]:
    """Return what the catalogue keeps of one technique."""
    ranks = {known.id: rank for rank, known in enumerate(LADDER)}
    steps: defaultdict[str, list[tuple[Step, Board]]] = defaultdict(list)
    hardest = []
    for address, one in played.items():
        used = {each.technique for each in one.rounds}
        if used and max(used, key=ranks.__getitem__) == technique.id:
            hardest.append(address)
        for each in one.rounds:
            if each.technique == technique.id:
                steps[address] += [(step, each.board) for step in each.steps]
    return {
        "puzzles": len(steps),
        "steps": sum(map(len, steps.values())),
        "hardest": hardest,
        "example": _chosen(steps) if steps else _from_picture(technique),
    }


def _chosen(steps: Mapping[str, list[tuple[Step, Board]]]) -> dict[str, Any]:
    """Return an example that narrows something, of the usual size, with the fewest premises."""
    every = [(address, step, board) for address, found in steps.items() for step, board in found]
    address, step, board = min(
        every,
        key=lambda one: (
            all(one[2].candidates[cell] == 1 << digit for cell, digit in one[1].places)
            and not one[1].removes,
            one[2].layout.grid.digits != _USUAL,
            one[1].premise_count,
            len(one[1].removes),
        ),
    )
    return _example(address, step, board)


def _from_picture(technique: Technique) -> dict[str, Any]:
    """Return the example on the board that the docstring builds."""
    seen: list[Board] = []
    plain = boards.board_from_text

    def noted(*arguments: Any, **options: Any) -> Board:
        seen.append(plain(*arguments, **options))
        return seen[-1]

    examples = doctest.DocTestParser().get_examples(technique.find.__doc__ or "")
    names: dict[str, Any] = dict(sys.modules[technique.find.__module__].__dict__)
    with patch.object(boards, "board_from_text", noted):
        for example in examples:
            exec(compile(example.source, technique.id, "exec"), names)
    steps = [(step, board) for board in seen for step in technique.find(board)]
    return _chosen({"": steps}) | {"before": {}, "after": {}}  # the picture has it


def _example(address: str, step: Step, board: Board) -> dict[str, Any]:
    layout = board.layout
    name = layout.grid.cell_name
    rests_on = [layout.houses[house].name for house in layout.houses_among(step.rules)]
    rests_on += [_cage(cage, board) for cage in layout.cages_among(step.rules)]
    others = [rule for rule in step.rules if rule >= layout.cage_numbers.stop]
    rests_on += [layout.rules[rule].called(layout.grid) for rule in others]
    for derived in step.sums:
        rests_on += [layout.houses[house].name for house in layout.houses_among(derived.rules)]
        rests_on += [_cage(cage, board) for cage in layout.cages_among(derived.rules)]
    changed = [cell for cell, _ in (*step.places, *step.removes)]
    cells = sorted({*step.looks, *step.focus, *changed})
    after = board.after([step])
    return {
        "puzzle": address,
        "rests_on": list(dict.fromkeys(rests_on)),
        "before": {name(cell): _digits(board, cell) for cell in cells},
        "after": {name(cell): _digits(after, cell) for cell in sorted(changed)},
        "says": tell(step, layout, board),
    }


def _cage(cage: int, board: Board) -> str:
    written = board.layout.cage(cage)
    cells = " ".join(board.layout.grid.cell_name(cell) for cell in written.cells)
    return f"the cage of {written.total} in {cells}"


def _digits(board: Board, cell: int) -> str:
    digits = digits_of(board.candidates[cell])
    return (" " if board.layout.grid.digits > _USUAL else "").join(map(str, digits))


def built_page() -> str:
    """Return the text of the catalogue page."""
    lines = [
        "# The techniques",
        "",
        "Every technique of the ladder, easiest first. `scripts/build_catalogue.py` writes this page from",
        "the code: do not edit it. `gridproof techniques NAME` shows the same on a terminal.",
        "",
    ]
    tiers = default_tiers()
    lines += [
        "| tier | technique | puzzles of the corpus | steps |",
        "| --- | --- | ---: | ---: |",
        *(
            f"| {tier} {tiers.names[tier]} | [{technique.name}](#{_anchor(technique)})"
            f" | {technique.occurrence.puzzles} | {technique.occurrence.steps} |"
            for technique in LADDER
            for tier in [tiers.tier_of[technique.id]]
        ),
    ]
    for technique in LADDER:
        lines += ["", *_described(technique)]
    return "\n".join(lines) + "\n"


def _anchor(technique: Technique) -> str:
    return "".join(c for c in technique.name.lower().replace(" ", "-") if c.isalnum() or c == "-")


def _described(technique: Technique) -> Iterator[str]:
    tier = default_tiers().tier_of[technique.id]
    yield f"## {technique.name}"
    yield ""
    yield f"`{technique.id}`, tier {tier}: {default_tiers().names[tier]}"
    yield ""
    yield _fenced(technique.definition)
    yield ""
    yield f"**Why it holds in every solution.** {_folded(technique.reason)}"
    if technique.source:
        yield ""
        yield f"**Where it comes from.** {_folded(technique.source)}"
    if technique.example:
        yield from ("", f"**{technique.example.head}**", "", f"> {technique.example.says}")
        if technique.example.rests_on:
            yield from ("", f"It rests on {', '.join(technique.example.rests_on)}.")
        if technique.example.before:
            before, after = _cells(technique.example.before), _cells(technique.example.after)
            yield from ("", f"Before: {before}. After: {after}.")
    yield from ("", technique.occurrence.says)


def _cells(cells: Mapping[str, str]) -> str:
    return ", ".join(f"{cell} {digits}" for cell, digits in cells.items())


def _folded(text: str) -> str:
    return " ".join(text.split())


def _fenced(text: str) -> str:
    """Return a text in which each paragraph that is set in, a picture, stands between fences."""
    paragraphs = text.split("\n\n")
    return "\n\n".join(
        f"```text\n{textwrap.dedent(one)}\n```" if one.startswith("    ") else one for one in paragraphs
    )


if __name__ == "__main__":
    raise SystemExit(main())
