"""From the root node of a document to the puzzle, with every fault on the way."""

from __future__ import annotations

from collections.abc import Mapping

from verifier.files.faults import FaultReport
from verifier.files.fields.cage_list import read_cage_list
from verifier.files.fields.cage_map import DrawnCages, read_cage_map
from verifier.files.fields.clues import read_clues
from verifier.files.fields.fields import looks_like, read_credit, read_keys, shape_of, text_of, whole_number
from verifier.files.fields.houses import read_houses
from verifier.files.fields.maps import read_digits, read_solution
from verifier.files.fields.sizes import read_grid
from verifier.files.fields.whole_grid import read_whole_grid
from verifier.files.kakuro import KAKURO_ALONE, read_kakuro
from verifier.files.limits import Limits
from verifier.files.text.nodes import KeysNode, ListNode, Node, TextNode
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import KAKURO, KINDS, Credits, Puzzle, make_puzzle

__all__ = ["FORMAT", "KEYS", "read_bare_line", "read_record"]

FORMAT = 1
"""The newest format of the puzzle file."""

KEYS = (
    "format",
    "puzzle",
    "id",
    "title",
    "setter",
    "grid",
    "boxes",
    "diagonals",
    "extra_houses",
    "no_repeats",
    "not_consecutive",
    "all_marked",
    "cages",
    "totals",
    "clues",
    *KAKURO_ALONE,
    "givens",
    "solution",
)
"""The keys of a puzzle file, in the order in which it is written."""

_SHOWN_BY = {**dict.fromkeys(KAKURO_ALONE, KAKURO), "cages": "killer"}
"""The kind that a key shows, where the file does not say it."""

_BARE_EMPTY = ".0"


def read_record(node: Node, default_id: str, limits: Limits, report: FaultReport) -> Puzzle | None:
    """Return the puzzle of a document.

    Parameters
    ----------
    node : Node
        The root of the document.
    default_id : str
        The id where the file gives none.
    limits : Limits
        How long the credits may be.
    report : FaultReport
        Takes the faults; with any fault there is no puzzle.
    """
    if not isinstance(node, KeysNode):
        report.add("not-a-puzzle", node.line, "the text", what=shape_of(node))
        return None
    if _is_foreign(node, report):
        return None
    fields = read_keys(node, KEYS, "the puzzle", report)
    _check_format(fields.get("format"), report)
    kind = _read_kind(fields, node.line, report)
    credits = _read_credits(fields, default_id, limits, report)
    if kind == KAKURO or (kind is None and any(key in fields for key in KAKURO_ALONE)):
        return read_kakuro(fields, node.line, credits, report)
    for key in KAKURO_ALONE:
        if key in fields:
            report.add("only-in-kakuro", fields[key].line, key, word=key)
    grid = read_grid(fields, node.line, report)
    if grid is None:
        return None
    grid, houses = read_houses(fields, grid, report)
    givens, solution = fields.get("givens"), fields.get("solution")
    digits = {} if givens is None else read_digits(givens, "givens", grid, report)
    filling = None if solution is None else read_solution(solution, "solution", grid, report)
    if solution is not None and filling is None:
        filling = (0,) * grid.cell_count  # its own faults are enough: no total is missed beside them
    drawn = _read_cages(fields, kind, node.line, grid, filling, report)
    clues = read_clues(fields["clues"], grid, houses, report) if "clues" in fields else []
    clues += read_whole_grid(fields, grid, clues, report)
    if kind is None or report.count:
        return None
    return make_puzzle(
        kind,
        grid,
        clues=[*drawn.cages, *clues],
        givens=digits,
        credits=credits,
        solution=filling,
        marks=drawn.marks,
        houses=houses,
    )


def read_bare_line(text: str, line: int, default_id: str, report: FaultReport) -> Puzzle | None:
    """Return the classic that a bare line holds, one character a cell, ``.`` or ``0`` for empty."""
    grid = Grid.square(9)
    wanted = grid.cell_count
    if len(text) != wanted:
        report.add("bare-length", line, "the line", length=len(text), wanted=wanted, grid=grid.name)
    if not wanted // 2 < len(text) < wanted * 2:  # something else, of which no character need be named
        return None
    givens = {}
    for place, character in enumerate(text):
        if character in _BARE_EMPTY:
            continue
        digit = whole_number(character)
        if digit is None:
            report.add(
                "bare-character",
                line,
                "the line",
                hint=looks_like(character),
                word=character,
                place=place + 1,
                digits=grid.digits,
            )
        else:
            givens[place] = digit
    return None if report.count else make_puzzle("classic", grid, givens=givens, credits=Credits(default_id))


def _is_foreign(node: KeysNode, report: FaultReport) -> bool:
    """Whether the file is of a format whose other keys nobody here can judge."""
    foreign = False
    for key, value in node.pairs:
        if not (isinstance(key, TextNode) and isinstance(value, TextNode)):
            continue
        if key.text == "format" and (whole_number(value.text) or FORMAT) > FORMAT:
            report.add("format-newer", value.line, "format", word=value.text)
            foreign = True
    return foreign


def _check_format(node: Node | None, report: FaultReport) -> None:
    text = None if node is None else text_of(node, "format", report)
    if node is not None and text is not None and whole_number(text) != FORMAT:
        report.add("format-unknown", node.line, "format", word=text)


def _read_kind(fields: Mapping[str, Node], line: int, report: FaultReport) -> str | None:
    allowed = ", ".join(KINDS)
    node = fields.get("puzzle")
    if node is None:
        kind = next((kind for key, kind in _SHOWN_BY.items() if key in fields), "classic")
        report.add("missing-key", line, "puzzle", allowed=allowed, example=f"puzzle: {kind}")
        return None
    text = text_of(node, "puzzle", report)
    if text is None or text in KINDS:
        return text
    report.add("kind", node.line, "puzzle", choices=KINDS, word=text)
    return None


def _read_credits(
    fields: Mapping[str, Node], default_id: str, limits: Limits, report: FaultReport
) -> Credits:
    id, title, setter = (read_credit(fields, key, limits.text, report) for key in ("id", "title", "setter"))
    return Credits(id or default_id, title, setter)


def _read_cages(
    fields: Mapping[str, Node],
    kind: str | None,
    line: int,
    grid: Grid,
    solution: Filling | None,
    report: FaultReport,
) -> DrawnCages:
    node, totals = fields.get("cages"), fields.get("totals")
    drawn = DrawnCages([], ())
    if kind == "classic":
        for key in ("cages", "totals"):
            if key in fields:
                report.add("classic-with-cages", fields[key].line, key, word=key)
        return drawn
    before = report.count
    if isinstance(node, ListNode):
        if totals is not None:
            report.add("totals-with-list", totals.line, "totals")
        drawn = DrawnCages(read_cage_list(node, grid, solution, report), ())
    elif isinstance(node, KeysNode):
        report.add("cages-shape", node.line, "cages", what=shape_of(node))
    elif node is not None:
        drawn = read_cage_map(node, totals, grid, solution, report)
    if kind == "killer" and not drawn.cages and report.count == before:
        report.add("killer-without-cages", node.line if node else line, "cages")
    return drawn
