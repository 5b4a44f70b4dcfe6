"""The study that changes one thing at a time: its mutants, and that it can tell which are noticed."""

from __future__ import annotations

import ast

import pytest

from scripts.mutants.making import mutants_of
from scripts.mutants.packages import PACKAGES, ROOT, Package
from scripts.mutants.trying import copy_of_the_project, noticed
from scripts.study_mutants import all_mutants, equivalent

RULES = next(package for package in PACKAGES if package.name == "rules")


@pytest.mark.parametrize(
    ("source", "changes"),
    [
        ("a < b", ["a < b -> a <= b"]),
        ("a is None", ["a is None -> a is not None"]),
        ("x & y", ["x & y -> x | y"]),
        ("a and b", ["a and b -> a or b"]),
        ("not a", ["not a -> a"]),
        ("f(3)", ["3 -> 4"]),
        ("f(True)", ["True -> False"]),
        ("[a for a in b if a]", ["for a in b if a -> for a in b"]),
        ("while a:\n    b", ["while a: -> while not a:"]),
        ("n += m", ["n += m -> n -= m"]),
    ],
)
def test_one_thing_is_changed_at_a_time(source: str, changes: list[str]) -> None:
    assert [one.key.removeprefix("m.py module: ") for one in mutants_of("m.py", source)] == changes


@pytest.mark.parametrize(
    "source",
    [
        "'text'",
        "__all__ = ['a']",
        "if TYPE_CHECKING:\n    import b",
        "raise E(f'{1 + 1}')",
        "@f(1)\ndef g(a: 1): ...",
    ],
)
def test_what_no_test_can_see_is_left_alone(source: str) -> None:
    assert mutants_of("m.py", source) == []


@pytest.mark.parametrize("package", PACKAGES, ids=lambda package: package.name)
def test_every_mutant_is_python_and_has_a_key_of_its_own(package: Package) -> None:
    mutants = all_mutants(package)
    assert len({mutant.key for mutant in mutants}) == len(mutants) > 10
    for mutant in mutants[::50]:
        ast.parse(mutant.text)


@pytest.mark.parametrize("package", PACKAGES, ids=lambda package: package.name)
def test_a_package_names_modules_and_tests_that_exist(package: Package) -> None:
    assert all(list(ROOT.glob(pattern)) for pattern in package.modules)
    assert all((ROOT / test).exists() for test in package.tests)


def test_every_mutant_said_to_be_equivalent_still_exists() -> None:
    there = {mutant.key for package in PACKAGES for mutant in all_mutants(package)}
    assert set(equivalent()) <= there
    assert all(reason.strip() for reason in equivalent().values())


def test_a_mutant_is_noticed_by_a_test_that_looks_and_not_by_one_that_does_not() -> None:
    mutant = next(one for one in all_mutants(RULES) if "== self.total -> " in one.key)
    with copy_of_the_project() as copy:
        before = (copy / mutant.module).read_bytes()
        assert noticed(copy, mutant, ["tests/puzzle/test_rules.py"], 300)
        assert not noticed(copy, mutant, ["tests/puzzle/test_lookalikes.py"], 300)
        assert (copy / mutant.module).read_bytes() == before
