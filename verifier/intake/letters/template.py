"""A house's own template for letters: checked before it is used, and never more than a frame.

A template says where the letter stands, who greets whom, and when. It is written in the language of Jinja2,
of which names, ``if`` and comparisons are taken and nothing else: no loop, no call, no sum can come to an
end late, grow without bound, or reach into the program. The sandbox of the library stands behind that.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path

from jinja2 import StrictUndefined, Template, TemplateSyntaxError, nodes
from jinja2.sandbox import ImmutableSandboxedEnvironment

from verifier.files.faults import Fault, FaultReport
from verifier.files.limits import DEFAULT_LIMITS
from verifier.files.settings import settings_in
from verifier.files.text.nodes import decode
from verifier.intake.errors import IntakeError
from verifier.intake.letters import wording
from verifier.puzzle.printable import listed, printable

__all__ = ["MOST_LETTERS", "LetterTemplate", "LetterTooLongError", "plain_template", "read_template"]

MOST_LETTERS = 4 << 20
"""Characters of a letter with its frame."""

_MOST_BYTES = 64 << 10
_DEEPEST = 12  # levels of braces; Python takes no more than twenty blocks in one another
_FILTERS = ("upper", "lower", "title", "capitalize", "trim")
_ALLOWED = (
    *(nodes.Template, nodes.Output, nodes.TemplateData, nodes.Const, nodes.If, nodes.CondExpr),
    *(nodes.Compare, nodes.Operand, nodes.And, nodes.Or, nodes.Not, nodes.Name, nodes.Filter),
)


class LetterTooLongError(IntakeError):
    """A letter that its template would make far longer than any letter is."""


class LetterTemplate:
    """A template that was checked.

    Parameters
    ----------
    template : Template
        What it was made to by the library.
    markdown : bool
        Whether letters in it are Markdown; else they are plain text.
    """

    def __init__(self, template: Template, *, markdown: bool) -> None:
        self._template, self.markdown = template, markdown

    def filled(self, facts: Mapping[str, object]) -> str:
        """Return a letter in its frame.

        Parameters
        ----------
        facts : mapping of str to object
            A value for each name of `wording.FACTS`.

        Raises
        ------
        LetterTooLongError
            If it would be longer than `MOST_LETTERS` characters.
        """
        parts, length = [], 0
        for part in self._template.generate(**facts):
            length += len(part)
            if length > MOST_LETTERS:
                setter = printable(str(facts["setter"]))
                raise LetterTooLongError(wording.LETTER_TOO_LONG.format(setter=setter, most=MOST_LETTERS))
            parts.append(part)
        return "".join(parts)


@cache
def plain_template(*, markdown: bool = False) -> LetterTemplate:
    """Return the template of a house that has none of its own."""
    return LetterTemplate(_environment().from_string(wording.TEMPLATE), markdown=markdown)


def read_template(path: Path) -> tuple[LetterTemplate | None, tuple[Fault, ...]]:
    """Read a template; one whose name ends in ``.md`` is for letters in Markdown.

    Returns
    -------
    template : LetterTemplate or None
        None when there is any fault.
    faults : tuple of Fault
        All of them, by line.
    """
    report = FaultReport(str(path), DEFAULT_LIMITS.faults, wording.TEMPLATE_FAULTS)
    data = settings_in(path, report)
    text = None if data is None else _text(data, report)
    made = None if text is None else _checked(text, report)
    if made is None or report.count:
        return None, report.faults()
    return LetterTemplate(made, markdown=path.suffix.lower() == ".md"), ()


@cache
def _environment() -> ImmutableSandboxedEnvironment:
    environment = ImmutableSandboxedEnvironment(undefined=StrictUndefined, keep_trailing_newline=True)
    environment.filters = {name: environment.filters[name] for name in _FILTERS}
    environment.globals.clear()
    return environment


def _text(data: bytes, report: FaultReport) -> str | None:
    if len(data) > _MOST_BYTES:
        report.add("too-big", None, "the file", most=_MOST_BYTES)
        return None
    return decode(data, 1, report)


def _checked(text: str, report: FaultReport) -> Template | None:
    try:
        tree = _environment().parse(text)
        _check(tree, report, 0)
        if not any(name.name == "letter" for name in tree.find_all(nodes.Name)):
            report.add("no-letter", None, "the text")
        return None if report.count else _environment().from_string(text)
    except TemplateSyntaxError as error:
        report.add("syntax", error.lineno, "the text", problem=error.message or "")
    except RecursionError:  # of the parser, over a thousand brackets in one another
        report.add("too-deep", None, "the text", most=_DEEPEST)
    return None


def _check(node: nodes.Node, report: FaultReport, depth: int) -> None:
    if not isinstance(node, _ALLOWED):
        what = wording.NODES.get(node.__class__.__name__, "a calculation")
        report.add("not-allowed", node.lineno, "the text", what=what)
        return
    if depth > _DEEPEST:
        report.add("too-deep", node.lineno, "the text", most=_DEEPEST)
        return
    if isinstance(node, nodes.Name):
        _check_word("unknown-name", node.name, tuple(wording.FACTS), node.lineno, report)
    elif isinstance(node, nodes.Filter):
        _check_word("unknown-filter", node.name, _FILTERS, node.lineno, report)
        if node.args or node.kwargs:
            report.add("not-allowed", node.lineno, "the text", what=wording.NODES["Call"])
    elif isinstance(node, nodes.Compare):
        _check_comparison(node, report)
    elif isinstance(node, nodes.CondExpr) and node.expr2 is None:
        report.add("no-else", node.lineno, "the text")
    for child in node.iter_child_nodes():
        _check(child, report, depth + 1)


def _check_word(code: str, word: str, known: Sequence[str], line: int, report: FaultReport) -> None:
    if word not in known:
        report.add(code, line, "the text", choices=known, word=word, allowed=listed(known, "or"))


def _check_comparison(node: nodes.Compare, report: FaultReport) -> None:
    """Report a comparison that means nothing: of text with a number by size, or of what is in what."""
    sides = [node.expr, *(operand.expr for operand in node.ops)]
    by_size = [operand.op for operand in node.ops if operand.op not in ("eq", "ne")]
    if by_size and not (all(map(_is_number, sides)) and set(by_size) <= {"gt", "gteq", "lt", "lteq"}):
        report.add("not-numbers", node.lineno, "the text", allowed=listed(wording.NUMBERS))


def _is_number(node: nodes.Node) -> bool:
    if isinstance(node, nodes.Name):
        return node.name in wording.NUMBERS
    return isinstance(node, nodes.Const) and isinstance(node.value, int)
