"""Reading a house style from a YAML file, with every fault at once."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from verifier.puzzle.faults import Fault, FaultReport
from verifier.puzzle.fields import read_keys, shape_of
from verifier.puzzle.grid import USUAL_BOXES
from verifier.puzzle.limits import DEFAULT_LIMITS, Limits
from verifier.puzzle.nodes import KeysNode, Node, TextNode, compose_yaml, decode
from verifier.puzzle.puzzle import KINDS
from verifier.verdict import wording
from verifier.verdict.style import HouseStyle
from verifier.verdict.style_fields import Reader, StyleFaults, choice, number, several_of, yes_or_no
from verifier.verdict.symmetry import SYMMETRIES
from verifier.verdict.tier_reading import read_tier_names, read_tier_table

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
        reason = (error.strerror or str(error)).lower()
        return None, (Fault("style", str(path), None, "the file", *wording.style_not_open(reason)),)
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
        faults.add(None, "the file", *wording.style_too_big(limits.puzzle_bytes))
        return None, tuple(faults.kept)
    text = decode(data, 1, report)
    root = (
        None if text is None else compose_yaml(text, 1, limits, report) if text.strip() else TextNode("", 1)
    )
    values = None if root is None else _read_root(root, report, faults)
    found = sorted((*report.faults(), *faults.kept), key=lambda fault: fault.line or 0)
    return (HouseStyle(**values) if values is not None and not found else None), tuple(found)


def _read_root(root: Node, report: FaultReport, faults: StyleFaults) -> dict[str, Any] | None:
    if not isinstance(root, KeysNode):
        faults.add(root.line, "the text", shape_of(root), *wording.style_without_keys())
        return None
    fields = read_keys(root, tuple(_READERS), "the house style", report)
    if "name" not in fields:
        faults.add(root.line, "name", "nothing", *wording.style_without_name())
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
        faults.add(fields[keys[1]].line, keys[1], str(most), *wording.at_least_as_many(keys[0], least))


def _name(node: Node, field: str, faults: StyleFaults) -> str | None:
    if isinstance(node, TextNode) and node.text.isprintable() and 0 < len(node.text) <= _LONGEST_NAME:
        return node.text
    found = node.text if isinstance(node, TextNode) else shape_of(node)
    faults.add(node.line, field, found, *wording.style_name(_LONGEST_NAME))
    return None


def _technique(node: Node, field: str, faults: StyleFaults) -> str | None:
    from grader.ladder import LADDER

    return choice([technique.id for technique in LADDER])(node, field, faults)


_READERS: dict[str, Reader[Any]] = {
    "format": number(1, 1),
    "name": _name,
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
