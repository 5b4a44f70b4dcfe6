"""Each puzzle of the corpus gets the verdict that it was made for."""

from __future__ import annotations

from typing import Any

import pytest

from scripts.check_corpus import CORPUS, expected_entries, found_in, house_style
from verifier.files.reading import read_address
from verifier.intake.workers.judging import judge_entry

EXPECTED = expected_entries()
SOUND = {address: entry for address, entry in EXPECTED.items() if "recorded" in entry}
UNREADABLE = {address: entry for address, entry in EXPECTED.items() if entry["verdict"] == "unreadable"}


def found(address: str) -> dict[str, Any]:
    (entry,) = read_address(str(CORPUS / address))
    return found_in(judge_entry(entry, house_style(address)))


@pytest.mark.parametrize("address", sorted(EXPECTED.keys() - SOUND.keys() - UNREADABLE.keys()))
def test_a_broken_puzzle_is_rejected_for_the_fault_that_was_put_in(address: str) -> None:
    expected = {key: value for key, value in EXPECTED[address].items() if key != "made"}
    assert found(address) == expected


@pytest.mark.parametrize("address", sorted(SOUND))
def test_a_sound_puzzle_has_one_solution_and_the_recorded_tier(address: str) -> None:
    expected = {key: value for key, value in SOUND[address].items() if key != "made"}
    assert found(address) == expected


@pytest.mark.parametrize("address", sorted(UNREADABLE))
def test_an_unreadable_file_has_the_fault_that_was_put_in(address: str) -> None:
    assert found(address) == {"verdict": "unreadable", "faults": UNREADABLE[address]["faults"]}
