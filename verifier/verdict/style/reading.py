"""Reading a house style from a YAML file, with every fault at once."""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO
from pathlib import Path
from typing import Any

from verifier.files.documents import Form, documents
from verifier.files.faults import Fault, FaultReport
from verifier.files.fields.fields import read_keys, shape_of
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.text.nodes import KeysNode, Node, TextNode, compose_json, compose_yaml, decode
from verifier.puzzle.grid import USUAL_BOXES
from verifier.puzzle.puzzle import KINDS
from verifier.verdict.style.fields import Reader, StyleFaults, choice, name_of, number, several_of, yes_or_no
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.style.symmetry import SYMMETRIES
from verifier.verdict.style.tier_reading import read_tier_names, read_tier_table

__all__ = ["read_style", "read_style_text"]

_LARGEST_SIZE = max(USUAL_BOXES)
_MOST_CELLS = _LARGEST_SIZE**2
_MOST_TIERS = 20
_LONGEST_NAME = 100


def read_style(path: Path, limits: Limits = DEFAULT_LIMITS) -> tuple[HouseStyle | None, tuple[Fault, ...]]:
    """Read the house style in a file.

    Parameters
    ----------
    path : Path
        A YAML file; see `read_style_text`.
    limits : Limits, optional
        How much of the file to take.

    Returns
    -------
    style : HouseStyle or None
        None when there is any fault.
    faults : tuple of Fault
        All of them, by line.
    """
    try:
        with path.open("rb") as file:
            data = file.read(limits.puzzle_bytes + 1)
    except OSError as error:
        faults = StyleFaults(str(path))
        faults.add("cannot-open", None, "the file", reason=(error.strerror or str(error)).lower())
        return None, tuple(faults.kept)
    return read_style_text(data, str(path), limits)


def read_style_text(
    data: bytes, name: str, limits: Limits = DEFAULT_LIMITS
) -> tuple[HouseStyle | None, tuple[Fault, ...]]:
    r"""Read the house style in the bytes of a file.

    Every key but ``name`` may be left out; a rule that is left out accepts everything.

    Examples
    --------
    >>> style, faults = read_style_text(b"name: Harbour Page\nlargest_cage: 5", "style.yaml")
    >>> style.largest_cage, style.tiers, faults
    (5, (), ())
    >>> style, (fault,) = read_style_text(b"name: Harbour Page\nkinds: [kiler]", "style.yaml")
    >>> print(fault)
    style.yaml:2: kinds: found 'kiler'; allowed: classic or killer. Did you mean 'killer'?
    """
    report = FaultReport(name, limits.faults)
    faults = StyleFaults(name)
    if len(data) > limits.puzzle_bytes:
        faults.add("too-big", None, "the file", most=limits.puzzle_bytes)
        return None, tuple(faults.kept)
    root = _root(data, name, limits, report)
    values = None if root is None else _read_root(root, report, faults)
    found = sorted((*report.faults(), *faults.kept), key=lambda fault: fault.line or 0)
    return (HouseStyle(**values) if values is not None and not found else None), tuple(found)


def _root(data: bytes, name: str, limits: Limits, report: FaultReport) -> Node | None:
    """Return the root of the first document; an empty text for a file without any."""
    first = next(documents(BytesIO(data), name, limits.puzzle_bytes), None)
    if first is None or first.form is Form.BARE:
        return TextNode("", 1)
    text = decode(first.data, first.line, report)
    compose = compose_json if first.form is Form.JSON else compose_yaml
    return None if text is None else compose(text, first.line, limits, report)


def _read_root(root: Node, report: FaultReport, faults: StyleFaults) -> dict[str, Any] | None:
    if not isinstance(root, KeysNode):
        faults.add("no-rules", root.line, "the text", word=shape_of(root))
        return None
    fields = read_keys(root, tuple(_READERS), "the house style", report)
    if "name" not in fields:
        faults.add("no-name", root.line, "name")
    read = {key: _READERS[key](node, key, faults) for key, node in fields.items()}
    read.pop("format", None)
    for least, most in (("smallest_cage", "largest_cage"), ("fewest_givens", "most_givens")):
        _check_order(fields, read, (least, most), faults)
    return {key: value for key, value in read.items() if value is not None}


def _check_order(
    fields: Mapping[str, Node], read: Mapping[str, Any], keys: tuple[str, str], faults: StyleFaults
) -> None:
    least, most = (read.get(key) for key in keys)
    if least is not None and most is not None and least > most:
        faults.add("order", fields[keys[1]].line, keys[1], most=most, least=least, key=keys[0])


def _technique(node: Node, field: str, faults: StyleFaults) -> str | None:
    from grader.ladder import LADDER

    return choice([technique.id for technique in LADDER])(node, field, faults)


_READERS: dict[str, Reader[Any]] = {
    "format": number(1, 1),
    "name": name_of(_LONGEST_NAME),
    "kinds": several_of(choice(KINDS)),
    "grids": several_of(choice([f"{size}x{size}" for size in USUAL_BOXES])),
    "tiers": several_of(number(1, _MOST_TIERS)),
    "techniques_not_accepted": several_of(_technique),
    "smallest_cage": number(1, _LARGEST_SIZE),
    "largest_cage": number(1, _LARGEST_SIZE),
    "cages_in_one_piece": yes_or_no,
    "cages_cover_the_grid": yes_or_no,
    "fewest_givens": number(0, _MOST_CELLS),
    "most_givens": number(0, _MOST_CELLS),
    "symmetry": several_of(choice(tuple(SYMMETRIES))),
    "credits": several_of(choice(("title", "setter"))),
    "tier_names": read_tier_names,
    "tier_table": read_tier_table,
}
"""The keys of a house style, and how each value is read."""
