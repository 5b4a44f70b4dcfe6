"""A house's template for letters: what it may hold, and that nothing hostile gets through."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from verifier.intake.letters.template import (
    MOST_LETTERS,
    LetterTemplate,
    LetterTooLongError,
    plain_template,
    read_template,
)
from verifier.intake.letters.wording import FACTS

FILLED = {
    **dict.fromkeys(FACTS, 0),
    "letter": "All is well.",
    "setter": "Wren",
    "date": "2026-03-30",
    "house": "L",
}


def read(
    folder: Path, text: str | bytes, name: str = "letter.txt"
) -> tuple[LetterTemplate | None, list[str]]:
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    template, faults = read_template(path)
    return template, [str(fault).removeprefix(f"{folder}/") for fault in faults]


def test_the_plain_template_greets_dates_and_signs() -> None:
    text = plain_template().filled(FILLED)
    assert text == "2026-03-30\n\nDear Wren,\n\nAll is well.\n\nWith kind regards,\nL\n"
    assert plain_template().filled({**FILLED, "house": ""}).endswith("\nWith kind regards\n")


def test_a_house_writes_its_own(tmp_path: Path) -> None:
    greeting = "{% if accepted > 1 and not sent_back %}Bravo, {% endif %}{{ setter }}!\n"
    own = "{{ house | upper }}, {{ date }}\n" + greeting + "{{ letter }}"
    template, faults = read(tmp_path, own, "letter.md")
    assert template is not None
    assert (template.markdown, faults) == (True, [])
    assert template.filled({**FILLED, "accepted": 2}) == "L, 2026-03-30\nBravo, Wren!\nAll is well."
    assert template.filled(FILLED) == "L, 2026-03-30\nWren!\nAll is well."


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "Dear {{ setter }}",
            "letter.txt: the text: found no {{ letter }}; allowed: a place for the letter.",
        ),
        (
            "{{ letter }}\n{{ seter }}",
            "letter.txt:2: the text: found 'seter'; allowed: letter, setter, date, day, month, year, house, "
            "accepted, sent_back, repeats or unreadable. Did you mean 'setter'?",
        ),
        (
            "{{ letter | uper }}",
            "letter.txt:1: the text: found the filter 'uper'; allowed: upper, lower, title,",
        ),
        ("{{ letter", "letter.txt:1: the text: found what is no template ("),
        ("{% if setter %}{{ letter }}", "letter.txt:1: the text: found what is no template ("),
        (b"{{ letter }}\n\xff", "letter.txt:2: the text: found the byte 0xff"),
        ("{{ letter }}\x1b[31m", "letter.txt:1: the text: found the control character U+001B"),
        ("x" * 70_000, "letter.txt: the file: found more than 65,536 bytes;"),
    ],
)
def test_a_fault_names_file_and_line(tmp_path: Path, text: str | bytes, told: str) -> None:
    template, faults = read(tmp_path, text)
    assert template is None
    assert faults[0].startswith(told)


@pytest.mark.parametrize(
    "hostile",
    [
        "{% for i in range(1000000000) %}{{ i }}{% endfor %}",
        "{% for a in letter %}{% for b in letter %}x{% endfor %}{% endfor %}",
        "{{ setter.__class__.__mro__[1].__subclasses__() }}",
        "{{ letter.format(setter) }}",
        "{{ ''['__class__'] }}",
        "{{ 9 ** 9 ** 9 }}",
        "{{ 'x' * 10000000000 }}",
        "{{ letter ~ letter }}",
        "{{ -accepted }}",
        "{{ [letter, letter] }}",
        "{{ {'a': letter} }}",
        "{% set letter = 'x' %}",
        "{% include 'other.txt' %}",
        "{% import 'other.txt' as other %}",
        "{% extends 'other.txt' %}",
        "{% macro m() %}{{ m() }}{% endmacro %}",
        "{% block b %}{% endblock %}",
        "{% filter upper %}x{% endfilter %}",
        "{% with %}{% endwith %}",
        "{{ letter is divisibleby 0 }}",
        "{{ self }}",
        "{{ cycler }}",
        "{{ letter | title('x') }}",
        "{% if letter > accepted %}x{% endif %}",
        "{% if 'x' in letter %}x{% endif %}",
        "{{ 'x' if accepted }}",
        "{{ " + "not " * 30 + "letter }}",
        "{% if letter %}" * 15 + "{% endif %}" * 15,
        "{{ " + "(" * 5000 + "letter" + ")" * 5000 + " }}",
    ],
)
def test_nothing_but_a_frame_is_taken(tmp_path: Path, hostile: str) -> None:
    template, faults = read(tmp_path, hostile + "{{ letter }}")
    assert template is None
    assert all(": found " in fault for fault in faults)


def test_a_letter_that_would_grow_without_measure_ends_the_run_with_a_sentence(tmp_path: Path) -> None:
    template, _ = read(tmp_path, "{{ letter }}" * 1000)
    assert template is not None
    with pytest.raises(
        LetterTooLongError, match="the letter to Wren would be longer than 4,194,304 characters"
    ):
        template.filled({**FILLED, "letter": "x" * (MOST_LETTERS // 100)})


def test_a_template_that_is_not_there_is_told(tmp_path: Path) -> None:
    template, (fault,) = read_template(tmp_path / "none.txt")
    assert template is None
    assert "no such file" in str(fault)


def test_a_name_in_braces_is_not_filled_in_twice() -> None:
    assert "{{ date }}" in plain_template().filled({**FILLED, "setter": "{{ date }}"})


@given(st.text(alphabet="{}% letrsifndo|'()[].#-<>=\n", max_size=60))
def test_whatever_is_sent_there_is_a_template_or_a_fault(
    tmp_path_factory: pytest.TempPathFactory, text: str
) -> None:
    template, faults = read(tmp_path_factory.getbasetemp(), text)
    assert (template is None) == bool(faults)
    if template is not None:
        template.filled(FILLED)
