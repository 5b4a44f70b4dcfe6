"""Which modules are mutated, and which tests must notice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

__all__ = ["PACKAGES", "ROOT", "Package"]

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Package:
    """Modules that are mutated together.

    Parameters
    ----------
    name : str
        What the table calls it.
    modules : tuple of str
        Patterns of files, from the top of the project.
    tests : tuple of str
        What pytest is asked to run, the quickest first: the first failure ends it. Their docstrings' examples
        are run before them all.
    goal : float
        The share of mutants that must be killed or known to be equivalent.
    """

    name: str
    modules: tuple[str, ...]
    tests: tuple[str, ...]
    goal: float = 1.0

    def files(self) -> Iterator[Path]:
        """Yield the modules in order."""
        for pattern in self.modules:
            yield from sorted(ROOT.glob(pattern))

    def tests_for(self, module: str) -> tuple[str, ...]:
        """Return the module itself, its own tests where there are some, then the tests of the package."""
        own = f"tests/{Path(module).parent}/test_{Path(module).stem}.py"
        return tuple(dict.fromkeys((module, *((own,) if (ROOT / own).is_file() else ()), *self.tests)))


_LIES = "tests/evidence/test_fault_injection.py"
_PROTOCOL = (
    "tests/evidence/test_establish.py",
    "tests/verdict/test_verdict.py",
    "tests/verdict/test_judge.py",
    _LIES,
)

PACKAGES = (
    Package(
        "protocol",
        ("verifier/evidence/establish.py", "verifier/evidence/statements.py", "verifier/verdict/judge.py"),
        (*_PROTOCOL, "tests/verdict/test_report.py"),
    ),
    Package(
        "rules",
        ("verifier/puzzle/breaches.py", "verifier/puzzle/rules/*.py"),
        ("tests/puzzle/test_rules.py", "tests/rules", "tests/counting/test_agreement.py", *_PROTOCOL),
    ),
    Package("count", ("verifier/counting/*.py",), ("tests/counting", _LIES)),
    Package("recount", ("verifier/recount/*.py",), ("tests/recount", "tests/counting/test_agreement.py")),
    Package(
        "grader",
        ("grader/**/*.py",),
        ("tests/grader", "tests/audit", "tests/corpus/test_verdicts.py"),
        goal=0.95,
    ),
)
