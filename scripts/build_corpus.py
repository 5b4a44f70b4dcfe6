"""Build the corpus: every file of it, and what must come of each puzzle.

    python -m scripts.build_corpus              write everything anew
    python -m scripts.build_corpus --verify     write nothing; say which files differ from what would be built
    python -m scripts.build_corpus --recorded   draw nothing; record anew what the ladder says of what stands

The same seeds give the same bytes. What is *stated* of a puzzle is known from the way it was made, and
counted again by a plain search that shares nothing with the program. What is *recorded* of it, its tier and
its hardest technique, is what the ladder says today: it is kept so that a change of the ladder shows.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Mapping, Sequence
from itertools import chain
from pathlib import Path
from typing import Any

import yaml

from grader.grading.grade import grade
from grader.grading.replay import replay
from scripts.setting.plain import Exhausted, plain_count
from scripts.setting.shelf import UNREADABLE, Item, ShelfFile
from scripts.shelves.boxes import box_files
from scripts.shelves.broken import broken_files
from scripts.shelves.clued import clued_files
from scripts.shelves.kakuro import kakuro_files
from scripts.shelves.ladder import ladder_files
from scripts.shelves.rules import rule_files
from scripts.shelves.sound import sound_files
from scripts.shelves.style import FOLDER, style_files
from scripts.shelves.unreadable import unreadable_files
from verifier.files.reading import read_address
from verifier.puzzle.puzzle import Puzzle

__all__ = ["CORPUS", "EXPECTED", "built_files", "main"]

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
EXPECTED = CORPUS / "expected.yaml"

_LARGEST_COUNTED = 12
"""The plain search is not asked about larger grids: their one solution rests on the way they were made."""

_HEADER = """\
# What must come of each puzzle of the corpus. Written by scripts/build_corpus.py; read by scripts/check and
# the tests.
#
# verdict, reasons, faults, remarks, solutions: known from the way the puzzle was made ("made"), never from
#     what the program says. `solutions: 2` means at least two.
# recorded: what the ladder said when this file was written. A change of the ladder may change it; then look
#     at each puzzle that moved, build the file anew, and enter the change in grader/CHANGES.md.
"""


def built_files() -> Iterator[ShelfFile]:
    """Yield every file of the corpus that holds puzzles."""
    return chain(
        sound_files(),
        ladder_files(),
        rule_files(),
        kakuro_files(),
        clued_files(),
        broken_files(),
        style_files(),
        box_files(),
        unreadable_files(),
    )


def main(words: Sequence[str] | None = None) -> int:
    """Build or verify the corpus; return the exit code."""
    parser = argparse.ArgumentParser(description="Build the corpus.")
    parser.add_argument("--verify", action="store_true", help="compare, write nothing")
    parser.add_argument("--recorded", action="store_true", help="draw nothing, record tiers anew")
    asked = parser.parse_args(words)
    return _record_anew() if asked.recorded else _build(verify=asked.verify)


def _record_anew() -> int:
    """Write what the ladder says today of the puzzles that stand; tell which of them moved."""
    entries = {address: dict(entry) for address, entry in _known().items()}
    for address, entry in entries.items():
        if "recorded" in entry:
            (read,) = read_address(str(CORPUS / address))
            assert read.puzzle is not None, address
            found = _recorded(read.puzzle)
            if found != entry["recorded"]:
                print(f"{address}: {entry['recorded']} before, {found} now", flush=True)
            entry["recorded"] = found
    _write(entries)
    return 0


def _build(*, verify: bool) -> int:
    """Draw every file, and write it or compare it."""
    entries: dict[str, dict[str, Any]] = {}
    differing = []
    for file in built_files():
        path = CORPUS / file.name
        for address, item in zip(file.addresses, file.items, strict=True):
            entries[address] = _entry(address, item)
        print(f"{file.name}: {len(file.data)} bytes", flush=True)
        if not path.exists() or path.read_bytes() != file.data:
            differing.append(file.name)
            if not verify:
                path.parent.mkdir(exist_ok=True)
                path.write_bytes(file.data)
    if verify:
        differing += [a for a, entry in entries.items() if _stated(_known().get(a)) != _stated(entry)]
    else:
        _write(entries)
    print(f"{len(entries)} puzzles; {len(differing)} differ: {', '.join(differing) or 'none'}")
    return int(verify and bool(differing))


def _entry(address: str, item: Item) -> dict[str, Any]:
    """Return what must come of a puzzle, after counting its solutions in plain Python."""
    entry: dict[str, Any] = {"made": item.made, "verdict": item.verdict}
    if item.verdict == UNREADABLE:
        return entry | {"faults": sorted(item.codes)}
    if item.codes:
        entry["reasons"] = sorted(item.codes)
    if item.remarks and not address.startswith(f"{FOLDER}/"):
        entry["remarks"] = item.remarks
    entry["solutions"] = item.solutions
    assert item.puzzle is not None
    if item.puzzle.grid.digits <= _LARGEST_COUNTED:
        try:
            counted = plain_count(item.puzzle)
        except Exhausted:
            sys.exit(f"{address}: the plain search came to no end")
        if counted != item.solutions:
            sys.exit(f"{address}: the plain search finds {counted} solutions, not {item.solutions}")
    if item.solutions == 1:
        entry["recorded"] = _recorded(item.puzzle)
    return entry


def _recorded(puzzle: Puzzle) -> dict[str, Any]:
    found = grade(replay(puzzle))
    return {"tier": found.tier, "hardest": found.hardest}


def _known() -> Mapping[str, Mapping[str, Any]]:
    loaded: Mapping[str, Mapping[str, Any]] = yaml.safe_load(EXPECTED.read_text(encoding="utf-8"))
    return loaded


def _stated(entry: Mapping[str, Any] | None) -> dict[str, Any]:
    return {key: value for key, value in (entry or {}).items() if key != "recorded"}


def _write(entries: Mapping[str, Mapping[str, Any]]) -> None:
    EXPECTED.write_text(_HEADER + "".join(_written(*pair) for pair in entries.items()), encoding="utf-8")


def _written(address: str, entry: Mapping[str, Any]) -> str:
    """Return one entry of the file, short lists and maps on one line."""
    text = yaml.safe_dump({address: dict(entry)}, sort_keys=False, default_flow_style=None, width=1000)
    return str(text)


if __name__ == "__main__":
    sys.exit(main())
