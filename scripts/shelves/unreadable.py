"""The files that cannot be read: one for each fault that an editor may meet."""

from __future__ import annotations

from codecs import BOM_UTF16_LE
from collections.abc import Iterator

from scripts.setting.classics import draw_classic
from scripts.setting.files import as_line
from scripts.setting.shelf import UNREADABLE, Item, ShelfFile
from verifier.puzzle.grid import Grid

__all__ = ["unreadable", "unreadable_files"]

_HEAD = "puzzle: killer\nid: torn-{number:02}\ntitle: {title}\nsetter: {setter}\ngrid: 4x4\n"
_MAP = "cages: |\n  a a b b\n  c d d b\n  c e e f\n  g g f f\n"
_TOTALS = "totals: {a: 3, b: 9, c: 5, d: 5, e: 5, f: 6, g: 7}\n"
_LIST = "cages:\n  - {total: 3, cells: [r1c1, r1c2]}\n  - {total: 9, cells: [r1c3, r1c4, r2c4]}\n"
_GIVENS = "givens: |\n  1 . . .\n  . . . .\n  . . . 3\n  . . 2 .\n"
_CLASSIC = _HEAD.replace("killer", "classic")
_SIGNS = f"{_CLASSIC}clues:"
_BARE = as_line(draw_classic(Grid.square(9), 71, 24)[0]).strip()
_WHOLE = _HEAD + _MAP + _TOTALS

_KAKURO_HEAD = _HEAD.replace("killer", "kakuro")
_KAKURO = (
    _KAKURO_HEAD + "cells: |\n  #   4\\  6\\  3\\\n  \\7  .   .   .\n  \\6  .   .   .\n  #   #   #   #\n"
)
_RUNS = "runs:\n  - {total: 4, cells: r2c2 r2c3}\n"

_SETTERS = ("Juno", "Otis", "Marigold", "Wren", "Ivo", "Tamsin", "Jory", "Odile")

# Name of the file, codes of its faults, what was done, and the text.
FAULTS: tuple[tuple[str, str, str, str | bytes], ...] = (
    # The file as a whole
    ("empty-page.yaml", "empty", "nothing but a remark", "# to follow by the evening post\n"),
    (
        "old-typewriter.yaml",
        "not-utf8",
        "a letter of another encoding in the title",
        _WHOLE.encode().replace(b"{title}", b"Caf\xe9 noir"),
    ),
    (
        "ink-drop.yaml",
        "control-character",
        "a bell between the letters of the title",
        _WHOLE.replace("{title}", "Bell\a buoy"),
    ),
    ("nested-crates.yaml", "too-deep", "lists inside lists", _HEAD + "cages: " + "[" * 25 + "]" * 25 + "\n"),
    ("open-quote.yaml", "not-yaml", "a quote that is not closed", _WHOLE.replace("{title}", "'{title}")),
    ("see-above.yaml", "alias", "an alias in place of the totals", _HEAD + _MAP + "totals: *above\n"),
    ("luggage-label.yaml", "tag", "a tag before the title", _WHOLE.replace("{title}", "!urgent {title}")),
    (
        "covering-letter.yaml",
        "not-a-puzzle",
        "a letter instead of a puzzle",
        "Dear editor, here are my puzzles for the spring.\n",
    ),
    (
        "all-wrong.yaml",
        "digit-range more-faults",
        "a wrong digit in every cell, more than are told one by one",
        "puzzle: classic\ngrid: 6x6\ngivens: |\n" + "  7 8 7 8 7 8\n" * 6,
    ),
    (
        "bad-day.yaml",
        "mark-without-total row-length unknown-key",
        "a misspelt key, a short row and a missing total",
        _WHOLE.replace("title:", "titel:").replace("c d d b", "c d b").replace(", g: 7", ""),
    ),
    # A bare line
    ("short-line.txt", "bare-length", "a line of 80 characters", _BARE[:-1] + "\n"),
    (
        "letter-o.txt",
        "bare-character",
        "a letter for a nought",
        _BARE.replace(".", "0").replace("0", "o", 1) + "\n",
    ),
    # Keys and values
    ("misspelt-key.yaml", "unknown-key", "'titel' for 'title'", _WHOLE.replace("title:", "titel:")),
    ("no-grid.yaml", "missing-key", "the line 'grid:' left out", _WHOLE.replace("grid: 4x4\n", "")),
    ("two-setters.yaml", "repeated-key", "the line 'setter:' twice", _WHOLE + "setter: Jory\n"),
    ("list-for-a-key.yaml", "key-shape", "a list before a colon", _WHOLE + "? [remark]\n: none\n"),
    ("titles-in-a-list.yaml", "not-text", "a list for a title", _WHOLE.replace("{title}", "[{title}]")),
    ("long-story.yaml", "too-long", "a title without end", _WHOLE.replace("{title}", "Tra la la " * 120)),
    (
        "half-a-letter.jsonl",
        "bad-character",
        "half of a character in the title",
        '{"puzzle": "classic", "grid": "4x4", "title": "\\ud83d"}\n',
    ),
    ("format-one.yaml", "format-unknown", "'format: one'", "format: one\n" + _WHOLE),
    ("next-year.yaml", "format-newer", "a format of the future", "format: 9\npuzzle: killer\nsails: 2\n"),
    ("misspelt-kind.yaml", "kind", "'kiler' for 'killer'", _WHOLE.replace("killer", "kiler")),
    ("lost-barrier.yaml", "not-in-kakuro", "boxes in a kakuro", _KAKURO + "boxes: 2x2\n"),
    ("eight-by-eight.yaml", "grid", "a size that is not made", "puzzle: classic\ngrid: 8x8\n"),
    ("odd-boxes.yaml", "boxes", "boxes of two by six", "puzzle: classic\ngrid: 12x12\nboxes: 2x6\n"),
    # Rows of marks
    ("givens-in-a-list.yaml", "not-a-map", "a list of givens", _WHOLE + "givens: [1, 2, 3, 4]\n"),
    ("row-missing.yaml", "row-count", "three rows of givens", _WHOLE + _GIVENS.replace("  . . . .\n", "")),
    ("row-too-short.yaml", "row-length", "three marks in the second row", _WHOLE.replace("c d d b", "c d d")),
    (
        "row-too-long.yaml",
        "row-length",
        "five marks in the second row",
        _WHOLE.replace("c d d b", "c d d d b"),
    ),
    (
        "all-in-one-line.yaml",
        "rows-run-together",
        "a map without its '|'",
        _WHOLE.replace("|", "").replace("f f", "f"),
    ),
    ("question-mark.yaml", "not-a-digit", "a '?' among the givens", _WHOLE + _GIVENS.replace("1", "?")),
    ("five-in-a-four.yaml", "digit-range", "a given 5 in a 4x4", _WHOLE + _GIVENS.replace("1", "5")),
    # Cages
    ("caged-classic.yaml", "classic-with-cages", "cages in a classic", _WHOLE.replace("killer", "classic")),
    ("no-cages.yaml", "killer-without-cages", "a killer without cages", _HEAD),
    (
        "cages-by-name.yaml",
        "cages-shape",
        "one cage that is no list",
        _HEAD + "cages: {total: 3, cells: [r1c1, r1c2]}\n",
    ),
    ("totals-in-a-row.yaml", "totals-count", "too few totals", _HEAD + _MAP + "totals: [3, 9, 5, 5]\n"),
    ("totals-apart.yaml", "totals-with-list", "'totals' beside a list", _HEAD + _LIST + "totals: {a: 3}\n"),
    ("total-in-words.yaml", "total", "'nine' for a total", _WHOLE.replace("b: 9", "b: nine")),
    ("total-left-out.yaml", "total-missing", "a mark with nothing after it", _WHOLE.replace("b: 9", "b: ")),
    ("mark-without-total.yaml", "mark-without-total", "no total for 'g'", _WHOLE.replace(", g: 7", "")),
    (
        "total-without-cells.yaml",
        "total-without-cells",
        "a total for 'h', which is nowhere in the map",
        _WHOLE.replace("g: 7", "g: 7, h: 4"),
    ),
    ("bare-total.yaml", "cage-shape", "a number for a cage", _HEAD + _LIST + "  - 15\n"),
    (
        "cells-unlisted.yaml",
        "cells-shape",
        "keys for a list",
        _HEAD + _LIST + "  - {total: 4, cells: {r2c1: r2c2}}\n",
    ),
    (
        "blank-label.yaml",
        "cage-total-missing",
        "'total' with nothing after it",
        _HEAD + _LIST + "  - {total: , cells: [r2c1, r3c1]}\n",
    ),
    (
        "anything-goes.yaml",
        "repeats-without-total",
        "'repeats: yes' without a total",
        _HEAD + _LIST + "  - {repeats: yes, cells: [r2c1, r3c1]}\n",
    ),
    ("empty-cage.yaml", "empty-cage", "a cage without cells", _HEAD + _LIST + "  - {total: 5, cells: []}\n"),
    (
        "cells-in-numbers.yaml",
        "cell-shape",
        "cells as pairs of numbers",
        _HEAD + _LIST + "  - {total: 5, cells: [[2, 1], [3, 1]]}\n",
    ),
    (
        "chessboard-cells.yaml",
        "cell-name",
        "cells named in another way",
        _HEAD + _LIST + "  - {total: 5, cells: [b1, c1]}\n",
    ),
    (
        "over-the-edge.yaml",
        "cell-outside",
        "a cell in column 5 of a 4x4",
        _HEAD + _LIST + "  - {total: 5, cells: [r3c4, r3c5]}\n",
    ),
    (
        "counted-twice.yaml",
        "cell-twice",
        "a cell twice in its cage",
        _HEAD + _LIST + "  - {total: 5, cells: [r2c1, r3c1, r2c1]}\n",
    ),
    (
        "shared-cell.yaml",
        "cell-in-two-cages",
        "a cell in two cages",
        _HEAD + _LIST + "  - {total: 5, cells: [r1c2, r2c2]}\n",
    ),
    # What came to the readers later
    (
        "totals-in-words.yaml",
        "totals-shape",
        "totals without brackets",
        _HEAD + _MAP + "totals: 3, 9, 5, 5, 5, 6, 7\n",
    ),
    (
        "wide-letters.txt",
        "other-file",
        "a text saved in UTF-16",
        BOM_UTF16_LE + f"title: Wide letters\n{_MAP}{_TOTALS}".encode("utf-16-le"),
    ),
    # Houses
    (
        "hole-in-the-map.yaml",
        "boxes-unmarked house-size",
        "a cell without a box",
        _CLASSIC + "boxes: |\n  a a b b\n  a c b b\n  a c d d\n  c c d .\n",
    ),
    (
        "lopsided-rooms.yaml",
        "house-size",
        "a box of five cells and one of three",
        _CLASSIC + "boxes: |\n  a a b b\n  a a b b\n  c c c d\n  c c d d\n",
    ),
    ("empty-annexe.yaml", "no-extra-house", "no mark", _CLASSIC + "extra_houses: |\n" + "  . . . .\n" * 4),
    ("crossed-planks.yaml", "diagonals", "'both' for 'yes'", _CLASSIC + "diagonals: both\n"),
    # Rules of the whole grid
    ("stable-of-keys.yaml", "pieces-shape", "keys for pieces", _CLASSIC + "no_repeats: {knight: yes}\n"),
    ("unknown-piece.yaml", "piece", "a piece of no such kind", _CLASSIC + "no_repeats: bishop\n"),
    ("nodded.yaml", "yes-or-no", "'true' for 'yes'", _CLASSIC + "not_consecutive: true\n"),
    # Clues
    ("clues-in-a-line.yaml", "clues-shape", "signs as one draws them", _SIGNS + " r1c1 > r1c2\n"),
    ("nameless-clue.yaml", "clue-shape", "two cells and no word", _SIGNS + "\n  - r1c1 r1c2\n"),
    ("misspelt-clue.yaml", "clue-name", "'grater' for 'greater'", _SIGNS + "\n  - {grater: r1c1 r1c2}\n"),
    ("clue-left-out.yaml", "clue-part", "a clue without cells", _SIGNS + "\n  - {greater: }\n"),
    ("said-before.yaml", "clue-twice", "a clue twice", _SIGNS + "\n  - {greater: r1c1 r1c2}" * 2 + "\n"),
    (
        "cells-with-keys.yaml",
        "clue-cells-shape",
        "keys for cells",
        _SIGNS + "\n  - {greater: {more: r1c1, less: r1c2}}\n",
    ),
    ("lonely-sign.yaml", "clue-cells", "a sign with one cell", _SIGNS + "\n  - {greater: r1c1}\n"),
    (
        "over-the-fence.yaml",
        "not-neighbours",
        "a sign between cells that do not touch",
        _SIGNS + "\n  - {greater: r1c1 r2c2}\n",
    ),
    (
        "missed-step.yaml",
        "line-jumps",
        "a thermometer that leaps over a cell",
        _SIGNS + "\n  - {thermometer: r1c1 r1c3}\n",
    ),
    (
        "two-hands.yaml",
        "quadruple-digits",
        "a quadruple of one digit",
        _SIGNS + "\n  - {quadruple: 3, cells: r1c1 r1c2 r2c1 r2c2}\n",
    ),
    (
        "crooked-frame.yaml",
        "not-a-square",
        "four cells in a row",
        _SIGNS + "\n  - {quadruple: 1 2, cells: r1c1 r1c2 r1c3 r1c4}\n",
    ),
    (
        "sum-in-words.yaml",
        "clue-number",
        "a sum in words",
        _SIGNS + "\n  - {pair_sum: five, cells: r1c1 r1c2}\n",
    ),
    (
        "loose-arrow.yaml",
        "arrow-apart",
        "a line that begins away from its circle",
        _SIGNS + "\n  - {arrow: r1c1, cells: r1c3 r1c4}\n",
    ),
    (
        "bent-circle.yaml",
        "arrow-circle",
        "a circle of two cells that touch at a corner",
        _SIGNS + "\n  - {arrow: r1c1 r2c2, cells: r2c3 r2c4}\n",
    ),
    (
        "biting-its-tail.yaml",
        "circle-in-line",
        "an arrow that comes back to its circle",
        _SIGNS + "\n  - {arrow: r1c1, cells: r1c2 r1c1}\n",
    ),
    (
        "all-at-home.yaml",
        "one-part",
        "a region sum line inside one box",
        _SIGNS + "\n  - {region_sum: r1c1 r1c2 r2c2}\n",
    ),
    (
        "fifth-row.yaml",
        "line",
        "a sandwich on a row that is not there",
        _SIGNS + "\n  - {sandwich: 4, line: row 5}\n",
    ),
    (
        "view-from-below.yaml",
        "side",
        "a row seen from the top",
        _SIGNS + "\n  - {skyscraper: 2, line: row 1, from: top}\n",
    ),
    (
        "cut-short.yaml",
        "not-a-diagonal",
        "a diagonal that ends inside the grid",
        _SIGNS + "\n  - {little_killer: 5, cells: r1c1 r2c2 r3c3}\n",
    ),
    (
        "clue-after-clue.yaml",
        "clues-many",
        "more clues than there is room for",
        _SIGNS + "\n  - {odd: r1c1}" * 65,
    ),
    (
        "all-of-them.yaml",
        "marks-shape",
        "keys for the kinds of marks",
        _CLASSIC + "all_marked: {ratio: yes}\n",
    ),
    (
        "mark-of-no-kind.yaml",
        "marks-kind",
        "marks of a kind that is never all there",
        _CLASSIC + "all_marked: even\n",
    ),
    # Kakuros
    ("stray-window.yaml", "only-in-kakuro", "runs in a classic", _CLASSIC + "runs: []\n"),
    ("drawn-and-told.yaml", "cells-and-runs", "runs beside a map", _KAKURO + _RUNS),
    (
        "twice-lit.yaml",
        "givens-beside-cells",
        "givens beside a map",
        _KAKURO + "givens: |\n  # # # #\n  # 1 . .\n  # . . .\n  # # # #\n",
    ),
    ("leaning-ladder.yaml", "kakuro-mark", "a stroke that leans the other way", _KAKURO.replace("\\7", "/7")),
    (
        "lamp-without-wick.yaml",
        "total-without-run",
        "a total before a blocked cell",
        _KAKURO.replace("#   #   #", "#   \\9  #"),
    ),
    (
        "shuttered.yaml",
        "kakuro-without-runs",
        "every cell blocked",
        _KAKURO_HEAD + "cells: |\n" + "  # # # #\n" * 4,
    ),
    ("runs-in-a-line.yaml", "runs-shape", "runs that are no list", _KAKURO_HEAD + "runs: r2c2 r2c3\n"),
    ("bare-run.yaml", "run-shape", "a run without its keys", _KAKURO_HEAD + "runs:\n  - r2c2 r2c3\n"),
    (
        "round-the-corner.yaml",
        "run-cells",
        "a run that turns",
        _KAKURO_HEAD + _RUNS + "  - {total: 9, cells: r3c3 r3c2 r4c2}\n",
    ),
    (
        "crossed-wires.yaml",
        "cell-in-two-runs",
        "two runs across that share a cell",
        _KAKURO_HEAD + _RUNS + "  - {total: 9, cells: r2c3 r2c4}\n",
    ),
    (
        "lamp-in-the-wall.yaml",
        "blocked-cell",
        "a given in a blocked cell",
        _KAKURO_HEAD + _RUNS + "givens: |\n  1 # # #\n  # . . #\n  # # # #\n  # # # #\n",
    ),
)


def unreadable(text: str | bytes, made: str, *codes: str) -> Item:
    """Return a puzzle that cannot be read, for these reasons."""
    return Item(text, made, UNREADABLE, codes, None)


def unreadable_files() -> Iterator[ShelfFile]:
    """Yield the folder ``unreadable``."""
    for number, (name, codes, made, text) in enumerate(FAULTS, start=1):
        credits = {
            "{title}": name.partition(".")[0].replace("-", " ").capitalize(),
            "{setter}": _SETTERS[number % len(_SETTERS)],
            "{number:02}": f"{number:02}",
        }
        data = text.encode() if isinstance(text, str) else text
        for blank, word in credits.items():
            data = data.replace(blank.encode(), word.encode())
        yield ShelfFile(f"unreadable/{name}", (unreadable(data, made, *codes.split()),))
