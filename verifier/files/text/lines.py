"""YAML as gridproof writes it: blocks, with short lists and keys on one line."""

from __future__ import annotations

from typing import Any

import yaml

from verifier.puzzle.printable import visible

__all__ = ["LineDumper", "OneLine", "Pairs", "yaml_of"]

_WIDTH = 110
"""Characters of a line; longer sentences are folded."""


class OneLine(list[Any]):
    """A list that is written on one line."""


class Pairs(dict[str, Any]):
    """Keys that are written on one line."""


class LineDumper(yaml.CSafeDumper):
    """The C emitter (a fraction of a millisecond a verdict), which knows `OneLine` and `Pairs`.

    Examples
    --------
    >>> record = {"grid": [OneLine([1, 2]), OneLine([2, 1])], "cage": Pairs({"total": 3})}
    >>> print(yaml.dump(record, Dumper=LineDumper, sort_keys=False), end="")
    grid:
    - [1, 2]
    - [2, 1]
    cage: {total: 3}
    """

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002 - the signature is the library's
        """Write everything out, also what occurs twice: readers refuse aliases."""
        return True


def _line(dumper: LineDumper, line: OneLine) -> yaml.Node:
    if all(type(value) is int for value in line):  # the digits of a grid, for which nobody need be asked
        digits = [yaml.ScalarNode("tag:yaml.org,2002:int", str(value)) for value in line]
        return yaml.SequenceNode("tag:yaml.org,2002:seq", digits, flow_style=True)
    return dumper.represent_sequence("tag:yaml.org,2002:seq", line, flow_style=True)


def _pairs(dumper: LineDumper, pairs: Pairs) -> yaml.Node:
    return dumper.represent_mapping("tag:yaml.org,2002:map", pairs, flow_style=True)


LineDumper.add_representer(OneLine, _line)
LineDumper.add_representer(Pairs, _pairs)


def yaml_of(record: dict[str, Any], dumper: type[LineDumper] = LineDumper) -> str:
    r"""Return a record as one YAML document, without a document mark, in the order of its keys.

    Where it has a character that would hide, or turn round, the text about it, every letter beyond ASCII is
    written as its number.

    Examples
    --------
    >>> print(yaml_of({"title": "Zo\xeb"}), yaml_of({"title": "\u202eZo\xeb"}), sep="", end="")
    title: Zoë
    title: "\u202EZo\xEB"
    """
    for unicode in (True, False):
        text: str = yaml.dump(record, Dumper=dumper, sort_keys=False, allow_unicode=unicode, width=_WIDTH)
        if visible(text) == text:
            break
    return text
