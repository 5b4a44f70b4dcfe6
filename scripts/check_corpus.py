"""Judge every puzzle of the corpus and hold each verdict against the one it must get.

    python -m scripts.check_corpus

Prints one line a puzzle and a closing sentence. Exit 0: every verdict is as expected; 1: some are not.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import yaml

from scripts.shelves.style import FOLDER
from verifier.files.reading import ReadEntry, read_file
from verifier.intake.workers.judging import Judged, cores, judge_entries
from verifier.puzzle.printable import counted
from verifier.verdict.style.reading import read_style
from verifier.verdict.style.style import PLAIN, HouseStyle

__all__ = ["CORPUS", "differences", "expected_entries", "found_in", "house_style", "main"]

CORPUS = Path(__file__).resolve().parents[1] / "corpus"

_MEANINGS = {
    "accepted": "proved to have exactly one solution, and in order",
    "rejected": "broken, or against the house style; the reasons say what",
    "undecided": "not proved either way",
    "unreadable": "the file itself must be put right first",
    "not judged": "a mistake of gridproof's own",
}


def main() -> int:
    """Print the table and the closing sentence; return the exit code."""
    expected = expected_entries()
    met: Counter[str] = Counter()
    wrong = 0
    width = max(map(len, expected), default=0)
    print(f"{'puzzle':{width}}  {'verdict':10}  solutions  tier  {'expected?':9}  why")
    for judged in judged_corpus():
        found = found_in(judged)
        met[found["verdict"]] += 1
        missed = differences(expected.pop(judged.address, {}), found)
        wrong += bool(missed)
        print(_line(judged.address, width, found, missed), flush=True)
    for address in expected:
        wrong += 1
        print(f"{address:{width}}  is missing: no such puzzle in the corpus")
    print(_closing(met, wrong))
    return int(wrong > 0 or not met)


def expected_entries() -> dict[str, dict[str, Any]]:
    """Return what must come of each puzzle, by address."""
    text = (CORPUS / "expected.yaml").read_text(encoding="utf-8")
    loaded: dict[str, dict[str, Any]] = yaml.load(text, yaml.CSafeLoader)
    return loaded


def house_style(address: str) -> HouseStyle:
    """Return the house style that the puzzle at an address is judged with."""
    if not address.startswith(f"{FOLDER}/"):
        return PLAIN
    style, faults = read_style(CORPUS / "house-style.yaml")
    if style is None:
        raise ValueError("\n".join(map(str, faults)))
    return style


def judged_corpus() -> Iterator[Judged]:
    """Judge every puzzle over all cores, those that have to fit the house style last."""
    files = sorted(path for path in CORPUS.glob("*/*") if path.is_file())
    for styled in (False, True):
        chosen = [path for path in files if (path.parent.name == FOLDER) is styled]
        style = house_style(f"{FOLDER}/") if styled else PLAIN
        yield from (judged for _, judged in judge_entries(_entries(chosen), style, jobs=cores()))


def found_in(judged: Judged) -> dict[str, Any]:
    """Return what came of a puzzle, in the words of ``expected.yaml``."""
    verdict = judged.verdict
    if verdict is None:
        faults = sorted({fault.code for fault in judged.faults})
        return {"verdict": "unreadable", "faults": faults} if faults else {"verdict": "not judged"}
    found: dict[str, Any] = {"verdict": verdict.state.value, "solutions": verdict.solutions.count}
    if verdict.reasons:
        found["reasons"] = sorted({reason.code for reason in verdict.reasons})
    if verdict.remarks:
        found["remarks"] = sorted({remark.code for remark in verdict.remarks})
    if verdict.difficulty is not None:
        found["recorded"] = {"tier": verdict.difficulty.tier, "hardest": verdict.difficulty.hardest}
    return found


def differences(expected: Mapping[str, Any], found: Mapping[str, Any]) -> list[str]:
    """Say in which points a verdict is not the expected one."""
    points = ("verdict", "reasons", "faults", "remarks", "solutions", "recorded")
    return [
        f"{point} {expected.get(point)} expected, {found.get(point)} found"
        for point in points
        if expected.get(point) != found.get(point)
    ]


def _entries(files: list[Path]) -> Iterator[ReadEntry]:
    for path in files:
        yield from read_file(path, path.relative_to(CORPUS).as_posix())


def _line(address: str, width: int, found: Mapping[str, Any], missed: list[str]) -> str:
    why = ", ".join(found.get("reasons") or found.get("faults") or [])
    tier = found.get("recorded", {}).get("tier", "")
    solutions = found.get("solutions", "")
    if missed:
        why = "; ".join(missed)
    held = "NO" if missed else "yes"
    return f"{address:{width}}  {found['verdict']:10}  {solutions:<9}  {tier:<4}  {held:9}  {why}".rstrip()


def _closing(met: Counter[str], wrong: int) -> str:
    outcome = f"{wrong} NOT as expected" if wrong else "as expected"
    lines = [f"{count:4} {name}: {_MEANINGS[name]}" for name, count in sorted(met.items())]
    return "\n".join(["", f"{counted(met.total(), 'puzzle')}, {outcome}. Of them", *lines])


if __name__ == "__main__":
    sys.exit(main())
