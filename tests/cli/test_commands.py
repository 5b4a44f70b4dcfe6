"""``sums``, ``rules``, ``techniques``, ``--help`` and ``--version``, and calls that go wrong."""

from __future__ import annotations

import json
import re
import subprocess
import sys

import pytest

from grader.board.technique import Technique
from grader.ladder import LADDER
from tests.cli.command import HERE, called, environment, gridproof
from tests.snapshots import assert_snapshot

SNAPSHOTS = HERE / "snapshots"


def test_sums_prints_one_combination_a_line() -> None:
    """28 in four cells is 4789 or 5689 only: common practice, no source."""
    assert called("sums", "28", "4").out == "4 7 8 9\n5 6 8 9\n"


@pytest.mark.parametrize(
    ("arguments", "combinations"),
    [
        ("10 4", "1234"),
        ("24 3", "789"),
        ("22 3", "589 679"),
        ("45 9", "123456789"),
        ("11 2 --without 789", "56"),
        ("9 2 --without 456", "18 27"),
        ("6 2 --without 1", "24"),
        ("22 3 --with 8", "589"),
        ("12 3 --with 1,2", "129"),
        ("7 2 --digits 4", "34"),
        ("21 6 --digits 6", "123456"),
    ],
)
def test_facts_of_the_trade(arguments: str, combinations: str) -> None:
    """Common practice, no source."""
    lines = called("sums", *arguments.split()).out.split("\n")[:-1]
    assert [line.replace(" ", "") for line in lines] == combinations.split()


def test_digits_above_nine_are_given_with_commas_or_alone() -> None:
    assert called("sums", "22", "2", "--digits", "16", "--with", "12").out == "10 12\n"
    assert called("sums", "22", "2", "--digits", "16", "--without", "9,10,7").out == "6 16\n8 14\n"


@pytest.mark.parametrize(
    ("arguments", "code", "message"),
    [
        ("3 4", 1, "No four cells make 3 with different digits from 1 to 9: four cells make 10 to 30."),
        ("31 4", 1, "No four cells make 31 with different digits from 1 to 9: four cells make 10 to 30."),
        ("28 4 --with 1", 1, "28 in four cells can be made, but not with 1."),
        ("3 2 --with 1 --without 2,9", 1, "3 in two cells can be made, but not with 1 and without 2 and 9."),
        ("45 10", 2, "ten cells cannot hold different digits from 1 to 9: give at most nine cells, or the "),
        ("10 4 --with 1 --without 12", 2, "1 cannot be both with and without."),
        ("10 4 --with x", 2, "found 'x'; allowed: digits from 1 to 9, such as 789."),
        ("10 4 --with 0", 2, "found '0'; allowed: digits from 1 to 9, such as 789."),
        ("ten 4", 2, "found 'ten'; allowed: a whole number from 1 to 325."),
        ("10 4 --digits 26", 2, "found '26'; allowed: a whole number from 1 to 25."),
        ("10", 2, "Missing argument 'SIZE'"),
        ("10 4 5", 2, "unexpected extra argument"),
    ],
)
def test_a_sum_that_cannot_be_answered_says_why(arguments: str, code: int, message: str) -> None:
    finished = called("sums", *arguments.split())
    assert (finished.code, finished.out) == (code, "")
    assert message in finished.err


def test_the_ladder_is_listed_in_its_order_one_technique_a_line() -> None:
    lines = called("techniques").out.splitlines()
    width = max(len(technique.id) for technique in LADDER)
    assert [line[17:].split()[0] for line in lines] == [technique.id for technique in LADDER]
    assert all(line[17 + width : 19 + width] == "  " for line in lines)


@pytest.mark.parametrize("name", ["naked-pair", "naked pair", "Naked Pair"])
def test_a_technique_is_shown_by_id_or_by_name(name: str) -> None:
    assert called("techniques", *name.split()).out.startswith("naked pair (naked-pair), tier ")


def test_a_technique_is_shown_as_in_the_snapshot() -> None:
    text, _, often = called("techniques", "hidden-single-box").out.partition("In the corpus: ")
    assert_snapshot(SNAPSHOTS / "technique.txt", text)
    assert re.match(r"[0-9,]+ steps in [0-9]+ of [0-9]+ puzzles", often)


@pytest.mark.parametrize("technique", LADDER, ids=lambda technique: technique.id)
def test_every_technique_has_a_definition_a_picture_and_a_reason(technique: Technique) -> None:
    shown = called("techniques", technique.id).out
    assert "Why it holds in every solution: " in shown
    assert "\n    " in shown  # the picture is set in
    assert "``" not in shown


def test_a_misspelt_technique_gets_the_nearest_name() -> None:
    finished = called("techniques", "nakd", "pair")
    assert finished.code == 2
    assert "Did you mean 'naked-pair'?" in finished.err


def test_the_rules_are_listed_as_in_the_snapshot() -> None:
    assert_snapshot(SNAPSHOTS / "rules.txt", called("rules").out)


@pytest.mark.parametrize("name", ["no_repeats", "No repeats", "no-repeats", "knight", "king's move"])
def test_a_rule_is_shown_by_its_key_or_by_what_people_call_it(name: str) -> None:
    assert_snapshot(SNAPSHOTS / "rule.txt", called("rules", *name.split()).out)


def test_an_example_of_a_rule_goes_straight_into_a_check() -> None:
    example = called("rules", "diagonals", "--example").out
    assert called("check", "--table", "-", typed=example.encode()).code == 0


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ("rules greator", "Did you mean 'greater'?"),
        ("rules --example", "--example needs the name of a rule."),
    ],
)
def test_a_rule_that_is_not_there_is_refused(arguments: str, message: str) -> None:
    finished = called(*arguments.split())
    assert (finished.code, finished.out) == (2, "")
    assert message in finished.err


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ("chek box.yaml", "No such command 'chek'"),
        ("check box.yaml --jbos 2", "--jobs"),
        ("check box.yaml --count 1", "found '1'; allowed: a whole number from 2 to 100000."),
        ("check box.yaml --jobs many", "found 'many'; allowed: a whole number from 1 to 1024."),
        ("check box.yaml --jobs", "--jobs"),
        ("check", "Missing argument 'PATH'"),
    ],
)
def test_a_wrong_call_says_what_is_wrong_and_where_help_is(arguments: str, message: str) -> None:
    finished = called(*arguments.split())
    assert (finished.code, finished.out) == (2, "")
    assert finished.err.startswith("gridproof: ")
    assert message in finished.err
    assert finished.err.endswith("--help'.\n")


COMMANDS = [
    "check",
    "walk",
    "next",
    "mend",
    "desk",
    "tune",
    "compare",
    "intake",
    "sheet",
    "rules",
    "sums",
    "techniques",
]


@pytest.mark.parametrize("command", COMMANDS)
def test_help_names_each_command(command: str) -> None:
    assert f"  {command} " in called("--help").out
    asked = called(command, "--help")
    assert asked.code == 0
    assert called(command, "-h") == asked


def test_the_command_alone_prints_its_help() -> None:
    finished = called()
    assert (finished.code, finished.err) == (0, "")
    assert finished == called("--help") == called("-h")


def test_the_version_is_shown() -> None:
    assert called("--version").out.startswith("gridproof ")


HEAVY = (
    "ortools",
    "clingo",
    "networkx",
    "verifier.counting.count",
    "verifier.counting.model",
    "verifier.recount",
    "rich.console",
)


@pytest.mark.parametrize(
    "arguments", ["--help", "sums 28 4", "rules", "rules cages", "techniques naked-pair"]
)
def test_what_needs_no_solver_imports_none(arguments: str) -> None:
    program = (
        "import json, sys\nfrom verifier.cli.app import run\n"
        f"run({arguments.split()!r})\nprint(json.dumps(sorted(sys.modules)), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, env=environment(), check=True)
    loaded = json.loads(done.stderr)
    assert [name for name in loaded if name.startswith(HEAVY)] == []


@pytest.mark.parametrize("package", ["verifier", "grader"])
def test_the_packages_themselves_import_nothing(package: str) -> None:
    program = f"import sys\nbefore = set(sys.modules)\nimport {package}\nprint(*set(sys.modules) - before)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, env=environment(), check=True)
    assert done.stdout.decode().split() == [package]


def test_the_command_works_in_a_process_of_its_own() -> None:
    assert gridproof("sums", "10", "4").out == "1 2 3 4\n"
