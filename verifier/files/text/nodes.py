"""From the text of one puzzle to nodes: text, lists and keys, each with its line.

YAML and JSON give the same nodes, so the rest of the reader knows neither. Every value is text here:
``no``, ``1`` and ``2024-01-01`` mean only what their key makes of them. No object is ever built from
a file: the C parser's events are put together in one loop, without recursion.
"""

from __future__ import annotations

import json
import re
from typing import NamedTuple, TypeAlias

import yaml
from yaml._yaml import CParser

from verifier.files.faults import FaultReport
from verifier.files.limits import Limits
from verifier.files.text.colons import MOST_COLONS, with_credit_in_quotes
from verifier.files.text.foreign import other_kind
from verifier.files.text.parser_wording import YAML_PROBLEMS, YamlProblem
from verifier.puzzle.wording import OTHER_FILES

__all__ = ["KeysNode", "ListNode", "Node", "TextNode", "compose_json", "compose_yaml", "decode"]


class TextNode(NamedTuple):
    """A value; `style` is the sign it was written with: a quote, ``|``, ``>`` or nothing."""

    text: str
    line: int
    style: str = ""

    @property
    def absent(self) -> bool:
        """Whether nothing at all is written after the key."""
        return not self.text and not self.style


class ListNode(NamedTuple):
    """A list."""

    items: list[Node]
    line: int


class KeysNode(NamedTuple):
    """Keys with their values, in the order of the file, repeated ones included."""

    pairs: list[tuple[Node, Node]]
    line: int


Node: TypeAlias = TextNode | ListNode | KeysNode

_Mark: TypeAlias = yaml.Mark | yaml._yaml.Mark

_UNPRINTABLE = re.compile(r"[^\t\n\r -~\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
"""What YAML does not allow in a file: control characters and half characters."""

_SECOND_COLON = "mapping values are not allowed"
"""What the parser says of a colon where none can be."""

_JSON_BRACKET = re.compile(r'"(?:[^"\\]|\\.)*+"|[][{}]')


def decode(data: bytes, line: int, report: FaultReport) -> str | None:
    """Return the text of a document that starts on `line`; None, with a fault, if it is none."""
    kind = other_kind(data, report.file) if line == 1 else None
    if kind is not None:
        what, cure = OTHER_FILES[kind]
        report.add("other-file", None, "the file", what=what, cure=cure)
        return None
    try:
        text = data.decode()
    except UnicodeDecodeError as error:
        row, place = _place(data[: error.start].decode("latin-1"))
        report.add("not-utf8", line + row, "the text", byte=data[error.start], place=place)
        return None
    strange = _UNPRINTABLE.search(text)
    if strange is None:
        return text
    row, place = _place(text[: strange.start()])
    report.add("control-character", line + row, "the text", number=ord(strange[0]), place=place)
    return None


def compose_yaml(text: str, line: int, limits: Limits, report: FaultReport) -> Node | None:
    """Return the root of a YAML document that starts on `line` of its file.

    A colon in a title, an id or a setter's name is taken as it is written. Aliases, anchors and tags are
    faults. Returns None when there is any fault.
    """
    return _compose(text, line, limits, report, MOST_COLONS)


def compose_json(text: str, line: int, limits: Limits, report: FaultReport) -> Node | None:
    """Return the root of a document that is one line of JSON; None when there is a fault."""
    if _json_depth(text) > limits.depth:
        report.add("too-deep", line, "the text", most=limits.depth)
        return None

    def keys(pairs: list[tuple[str, object]]) -> KeysNode:
        return KeysNode([(TextNode(key, line, '"'), _from_json(value, line)) for key, value in pairs], line)

    try:
        # Figures and other bare words stay text; a number with a million figures costs nothing.
        root = json.loads(text, object_pairs_hook=keys, parse_int=str, parse_float=str, parse_constant=str)
    except json.JSONDecodeError as error:
        report.add("not-json", line, "the text", place=error.pos + 1)
        return None
    return _from_json(root, line)


def _compose(text: str, line: int, limits: Limits, report: FaultReport, colons: int) -> Node | None:
    try:
        root = _build(CParser(text), line, limits, report)
    except _UnusableError as error:
        _report_unusable(error, limits, report)
        return None
    except yaml.YAMLError as error:
        quoted = _with_colon(text, error) if colons and not report.count else None
        if quoted is not None:
            return _compose(quoted, line, limits, report, colons - 1)
        _report_parser(error, line, limits, report)
        return None
    return None if report.count else root


def _with_colon(text: str, error: yaml.YAMLError) -> str | None:
    """Return the text with a credit in quotes, where its colon is what the parser stumbled over."""
    mark = getattr(error, "problem_mark", None)
    if mark is None or _SECOND_COLON not in (getattr(error, "problem", None) or ""):
        return None
    return with_credit_in_quotes(text, mark.index)


def _build(parser: CParser, start: int, limits: Limits, report: FaultReport) -> Node:
    levels: list[tuple[list[Node], int]] = [([], start)]  # open lists; the outermost holds the root alone
    while not isinstance(event := parser.get_event(), yaml.StreamEndEvent):
        if isinstance(event, yaml.NodeEvent):
            line = start + _line(event.start_mark)
            _refuse_references(event, line, report)
            if isinstance(event, yaml.ScalarEvent):
                levels[-1][0].append(TextNode(event.value, line, event.style or ""))
            elif isinstance(event, yaml.CollectionStartEvent):
                levels.append(([], line))
                if len(levels) > limits.depth + 1:
                    raise _UnusableError("nesting depth", line)
        elif isinstance(event, yaml.CollectionEndEvent):
            children, line = levels.pop()
            levels[-1][0].append(_closed(event, children, line))
        elif isinstance(event, yaml.DocumentStartEvent) and levels[0][0]:
            raise _UnusableError("second document", start + _line(event.start_mark))
    root = levels[0][0]
    return root[0] if root else TextNode("", start)  # blanks that only YAML takes for such


def _closed(event: yaml.CollectionEndEvent, children: list[Node], line: int) -> Node:
    if isinstance(event, yaml.MappingEndEvent):
        return KeysNode(list(zip(children[::2], children[1::2], strict=False)), line)
    return ListNode(children, line)


def _refuse_references(event: yaml.NodeEvent, line: int, report: FaultReport) -> None:
    """Report an alias, an anchor or a tag."""
    if event.anchor is not None:
        sign = "*" if isinstance(event, yaml.AliasEvent) else "&"
        report.add("alias", line, "the text", sign=sign, word=event.anchor)
    tag = getattr(event, "tag", None)
    if tag is not None:
        report.add("tag", line, "the text", word=tag.replace("tag:yaml.org,2002:", "!!"))


class _UnusableError(Exception):
    """Something the parser takes and the reader does not."""

    def __init__(self, problem: str, line: int) -> None:
        super().__init__(problem)
        self.problem = problem
        self.line = line


def _report_parser(error: yaml.YAMLError, start: int, limits: Limits, report: FaultReport) -> None:
    said: str = getattr(error, "problem", None) or ""
    mark = getattr(error, "problem_mark", None)
    if _problem(said).at_start:
        mark = getattr(error, "context_mark", None) or mark
    _report_unusable(_UnusableError(said, start + _line(mark)), limits, report)


def _report_unusable(error: _UnusableError, limits: Limits, report: FaultReport) -> None:
    if "nesting depth" in error.problem:
        report.add("too-deep", error.line, "the text", most=limits.depth)
    else:
        problem = _problem(error.problem)
        report.add("not-yaml", error.line, "the text", problem=problem.found, cure=problem.cure)


def _problem(said: str) -> YamlProblem:
    return next(problem for problem in YAML_PROBLEMS if problem.parser_says in said)


def _line(mark: _Mark | None) -> int:
    return 0 if mark is None else mark.line


def _json_depth(text: str) -> int:
    depth = deepest = 0
    for bracket in _JSON_BRACKET.finditer(text):
        if bracket[0] in "[{":
            depth += 1
            deepest = max(depth, deepest)
        elif bracket[0] in "]}":
            depth -= 1
    return deepest


def _from_json(value: object, line: int) -> Node:
    """Make a node of what the JSON reader returns; never deeper than `_json_depth` allowed."""
    if isinstance(value, KeysNode):
        return value
    if isinstance(value, list):
        return ListNode([_from_json(item, line) for item in value], line)
    if value is None:
        return TextNode("", line)
    return TextNode(value if isinstance(value, str) else str(value).lower(), line, '"')


def _place(before: str) -> tuple[int, int]:
    """Return how many lines, and which character of its line, come after the text `before`."""
    return before.count("\n"), len(before) - before.rfind("\n")
