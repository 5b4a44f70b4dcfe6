"""Whose a file is that cannot be read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from verifier.files.documents import Document, Form
from verifier.intake.setters import same_setter, setter_in


def name_in(data: bytes, form: Form = Form.YAML) -> str | None:
    return setter_in(Document(form, 1, data, len(data)))


@pytest.mark.parametrize(
    ("data", "name"),
    [
        (b"puzle: killer\nsetter: Wren Alder\n", "Wren Alder"),
        (b"setter:   Wren: the younger   # mine\r\nx", "Wren: the younger"),
        (b'  setter: "Wren"\n', "Wren"),
        ("setter: Åse\n".encode(), "Åse"),
        ("setter: Ren\xe9\n".encode("cp1252"), "René"),
        (b"setter:\n", None),
        (b"setter: ''\n", None),
        (b"setter: \x1b[31m\n", None),
        (b"setter: " + b"x" * 200 + b"\n", None),
        (b"# a setter: nobody\n", None),
        (b"upsetter: nobody\n", None),
        (b"", None),
    ],
)
def test_the_name_is_taken_from_the_line_that_tells_it(data: bytes, name: str | None) -> None:
    assert name_in(data) == name


@pytest.mark.parametrize(
    ("data", "name"),
    [
        (b'{"setter": "Wren \\"W\\" Alder", "puzle": 1}', 'Wren "W" Alder'),
        (b'{"setter": 7}', None),
        (b'{"setter": "\\u00"}', None),
    ],
)
def test_the_name_is_taken_from_a_line_of_json(data: bytes, name: str | None) -> None:
    assert name_in(data, Form.JSON) == name


@given(st.binary(max_size=60), st.sampled_from(Form))
def test_whatever_stands_there_is_a_name_or_none(data: bytes, form: Form) -> None:
    name = name_in(b"setter: " + data, form)
    assert name is None or (name.strip() and name.isprintable())


def test_a_name_is_the_same_however_it_is_written() -> None:
    assert same_setter("A\u030ase  LIND") == same_setter("\xc5se Lind")
    assert same_setter("Wren") != same_setter("Wrenn")
