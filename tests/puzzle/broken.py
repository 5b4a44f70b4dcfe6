"""A file for every fault: the code, then everything an editor could do to earn it.

The messages stand in `snapshots/faults.txt`.
"""

from __future__ import annotations

from codecs import BOM_UTF16_BE, BOM_UTF16_LE

__all__ = ["BROKEN", "CAGES", "CREDITS", "HEAD", "TOTALS"]

HEAD = "puzzle: killer\ngrid: 4x4\n"
CREDITS = "id: harbour-1\ntitle: Low tide\nsetter: A. Setter\n"
CAGES = "cages: |\n  a a b b\n  c c d d\n  e e f f\n  g g h h\n"
TOTALS = "totals: {a: 3, b: 7, c: 7, d: 3, e: 3, f: 7, g: 7, h: 3}\n"

_WHOLE = HEAD + CAGES + TOTALS
_LIST = HEAD + "cages:\n  - {total: 3, cells: [r1c1, r1c2]}\n"
_AS_LIST = (
    HEAD
    + "cages:\n"
    + "".join(
        f"  - {{total: {total}, cells: [r{row}c{column}, r{row}c{column + 1}]}}\n"
        for row, totals in enumerate(((3, 7), (7, 3), (3, 7), (7, 3)), start=1)
        for column, total in zip((1, 3), totals, strict=True)
    )
)
_CLASSIC = "puzzle: classic\ngrid: 4x4\n"
_GIVENS = "givens: |\n  1 . . .\n  . . . .\n  . . . .\n  . . . .\n"
_CELLS = "cells: |\n  #    8\\   4\\  6\\\n  \\8   .    .    .\n  #    .    .    .\n"
_KAKURO = "puzzle: kakuro\ngrid: 3x4\n" + _CELLS
_RUNS = "runs:\n  - {total: 3, cells: r1c1 r1c2}\n"
_LISTED = "puzzle: kakuro\ngrid: 3x3\n" + _RUNS
_BARE = ".6.4.5..9..1....6.7.2.3.....9....6.883..6..946.5....7.....5.9.2.2....1..1..2.4.5."

_ZIP = b"PK\x03\x04" + b"\0" * 26

BROKEN: dict[str, list[str | bytes]] = {
    "empty": ["", "\n\n", "# still to come\n---\n---\n"],
    "not-utf8": [
        (CREDITS + "setter: Ren").encode() + b"\xe9\n",
        b"puzzle: killer\ntitle: \xc3(\n",
    ],
    "other-file": [
        BOM_UTF16_LE + _WHOLE.encode("utf-16-le"),
        BOM_UTF16_BE + _WHOLE.encode("utf-16-be"),
        _WHOLE.encode("utf-16-le"),
        rb"{\rtf1\ansi puzzle: killer}",
        b"%PDF-1.7\n%\xe2\xe3\n---\n---\n",
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 500,
        _ZIP + b"[Content_Types].xml\n---\n",
        _ZIP + b"mimetypeapplication/vnd.oasis.opendocument.text",
        _ZIP + b"harbour/low-tide.yaml",
        b"\x89PNG\r\n\x1a\n",
    ],
    "control-character": [
        "puzzle: killer\ntitle: café \x1b[2J\n",
        "puzzle: kil\x00ler\n",
        "title: a\x9b31mb\n",
    ],
    "too-big": [_WHOLE + "# " + "x" * (1 << 20)],
    "too-deep": [
        "[" * 30,
        "a:\n" + "".join(" " * n + "- \n" for n in range(1, 30)),
        '{"a": ' * 30 + "}" * 30,
    ],
    "not-yaml": [
        HEAD.replace("killer", "killer: or not"),
        HEAD + "title: 'Low': tide\n",
        HEAD + "title 'Low tide'\n" + CAGES,
        "puzzle: killer\ngrid 4x4\n" + CAGES,
        HEAD + CAGES.replace("  c c", "c c"),
        HEAD + CAGES.replace("  d", " d").replace("  c c", " c c"),
        HEAD + "title: 'Low tide\n" + CAGES,
        HEAD + 'title: "Low tide\n---\n' + _WHOLE,
        HEAD + 'title: "Low" tide\n',
        HEAD + CAGES + "totals: {a: 3, b: 7\nid: x\n",
        HEAD + CAGES + "totals: {a: 3 b: 7}\n",
        HEAD + "cages:\n  - {total: 3, cells: [r1c1, r1c2}\n",
        HEAD + "cages:\n  - {total: 3, cells: [r1c1]}\n  total: 3\n",
        HEAD + "cages: - {total: 3, cells: [r1c1]}\n",
        HEAD + "cages: | # the map\n" + CAGES[9:] + "\ttotals: {a: 3}\n",
        HEAD + "cages: | a a b b\n  c c d d\n",
        HEAD + "cages:\n\t- {total: 3, cells: [r1c1]}\n",
        HEAD + "title: @home\n",
        HEAD + "title: * * *\n",
        HEAD + "title: ? or !\n",
        HEAD + "title: !! help\n",
        HEAD + CAGES + TOTALS.replace("h: 3", "h:"),
        HEAD + 'title: "\\low"\n',
        HEAD + 'title: "\\xlow"\n',
        HEAD + "title: ]\n",
        HEAD + CAGES + "totals: {#: 3}\n",
        _WHOLE + "\u2028---\n" + _WHOLE,
    ],
    "not-json": [
        '{"puzzle": "classic", "grid": "4x4"}\n{"puzzle": "classic", "grid": }\n',
        '{"puzzle": "classic", "grid": "4x4"}\nputting to sea\n',
    ],
    "alias": ["a: &a [r1c1]\nb: *a\n", HEAD + "title: *starlight\n", HEAD + "setter: &co\n"],
    "tag": ["!!python/object/apply:os.system ['true']\n", HEAD + "title: !important\n"],
    "not-a-puzzle": ["killer\n", "- puzzle: killer\n", "[]\n", "[killer]\n"],
    "bare-length": [_BARE[:-1], _BARE + ".", _BARE + "\nputting to sea\n"],
    "bare-character": [_BARE[:-1] + "x", _BARE[:-1] + "O", "-" + _BARE[1:], _BARE[:40] + "_" + _BARE[41:]],
    "unknown-key": [_WHOLE + "titel: Low tide\n", _WHOLE + "price: 3\n", _LIST.replace("total:", "sum:")],
    "key-shape": [_WHOLE + "? [a]\n: b\n", HEAD + CAGES + TOTALS.replace("h: 3", "h: 3, [i]: 3")],
    "missing-key": [
        "puzzle: kakuro\n" + _CELLS,
        "puzzle: kakuro\ngrid: 4x4\n",
        "grid: 3x4\n" + _CELLS,
        _LISTED + "  - {total: 3}\n",
        "grid: 4x4\n" + CAGES + TOTALS,
        "puzzle: killer\n" + CAGES + TOTALS,
        "puzzle: classic\ngrid:\n",
        HEAD + CAGES,
        _LIST.replace(", cells: [r1c1, r1c2]", ""),
    ],
    "repeated-key": [
        _WHOLE + "grid: 4x4\n",
        HEAD + CAGES + TOTALS.replace("h: 3", "h: 3, a: 4"),
        HEAD + CAGES + TOTALS.replace("h: 3", "h: 3,\n  a: 4"),
        '{"puzzle": "classic", "grid": "4x4", "grid": "4x4"}',
    ],
    "not-text": [_WHOLE + "title: [Low tide]\n", "puzzle: [killer]\ngrid: {a: b}\nformat: [1]\n"],
    "too-long": [_WHOLE + f"title: {'la ' * 400}\n"],
    "bad-character": ['{"puzzle": "classic", "grid": "4x4", "title": "\\ud83d"}'],
    "format-unknown": ["format: one\n" + _WHOLE, "format: 0\n" + _WHOLE, "format: 1.0\n" + _WHOLE],
    "format-newer": ["format: 2\nhouse: {}\n"],
    "kind": [
        "puzzle: kiler\n" + _WHOLE[15:],
        "puzzle: sudoku\n" + _WHOLE[15:],
        "puzzle: Killer\n" + _WHOLE[15:],
    ],
    "grid": [
        "puzzle: kakuro\ngrid: 12\n" + _CELLS,
        "puzzle: kakuro\ngrid: 41x41\n" + _RUNS,
        "puzzle: classic\ngrid: 9\n",
        "puzzle: classic\ngrid: 8x8\n",
        "puzzle: classic\ngrid: 6 x 6\n",
    ],
    "boxes": ["puzzle: classic\ngrid: 12x12\nboxes: 2x6\n", "puzzle: classic\ngrid: 9x9\nboxes: usual\n"],
    "not-a-map": [_CLASSIC + "givens: [1, 2]\n", _CLASSIC + "solution: {r1c1: 1}\n"],
    "row-count": [
        HEAD + CAGES.replace("  g g h h\n", "") + TOTALS,
        _CLASSIC + _GIVENS + "  . . . .\n",
        HEAD.replace("4x4", "6x6") + CAGES + TOTALS,
    ],
    "row-length": [
        HEAD + CAGES.replace("c c d d", "c c d") + TOTALS,
        HEAD + CAGES.replace("c c d d", "c c d d d") + TOTALS,
        _CLASSIC + _GIVENS.replace("1 . . .", "1..."[:3]),
        _CLASSIC + _GIVENS + "solution: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  4 3 2\n",
        HEAD + CAGES.replace("c c d d", "c c d d  # the pier") + TOTALS,
    ],
    "rows-run-together": [
        HEAD + CAGES.replace("|", "").replace("g g h h", "g g h") + TOTALS,
        HEAD + CAGES.replace("|", ">").replace("g g h h", "g g h") + TOTALS,
        '{"puzzle": "classic", "grid": "4x4", "givens": "1234"}',
    ],
    "not-a-digit": [
        _CLASSIC + _GIVENS.replace("1", "x"),
        _CLASSIC + _GIVENS.replace("1", "-"),
        _CLASSIC + _GIVENS.replace("1 .", "l O"),
        _CLASSIC + "solution: |\n  1 2 3 4\n  3 4 l 2\n  2 1 4 3\n  4 3 2 O\n",
        _CLASSIC + _GIVENS.replace("1", "{1,2}"),
        _CLASSIC + _GIVENS.replace("1", "٣"),
        _CLASSIC + "solution: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  4 3 2 .\n",
    ],
    "digit-range": [
        _CLASSIC + _GIVENS.replace("1", "5"),
        _CLASSIC + "solution: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  4 3 2 0\n",
    ],
    "classic-with-cages": [_WHOLE.replace("killer", "classic")],
    "killer-without-cages": [
        HEAD,
        HEAD + "cages:\n",
        HEAD + "cages: []\n",
        HEAD + "cages: |\n" + 4 * "  ....\n",
    ],
    "cages-shape": [HEAD + "cages: {total: 3, cells: [r1c1, r1c2]}\n"],
    "totals-shape": [HEAD + CAGES + "totals: 3, 7\n"],
    "totals-count": [
        HEAD + CAGES + "totals: [3, 7]\n",
        HEAD + CAGES + "totals: [3, 7, 7, 3, 3, 7, 7]\n",
        HEAD + CAGES + "totals: [3, 7, 7, 3, 3, 7, 27]\n",
        HEAD + CAGES.replace("h h", ". .") + "totals: [3, 7, 7, 3, 3, 7]\n",
        HEAD + CAGES + "totals: [3, 7, 7, 3, 3, 7, 7, 3, 5]\n",
    ],
    "totals-with-list": [_LIST + "totals: {a: 3}\n"],
    "total": [
        _WHOLE.replace("h: 3", "h: three"),
        _WHOLE.replace("h: 3", "h: -3"),
        _WHOLE.replace("h: 3", "h: 3.0"),
        _WHOLE.replace("h: 3", "h: " + "9" * 5000),
        _LIST.replace("total: 3", "total: 0x3"),
        _WHOLE.replace("h: 3", "h: l3").replace("a: 3", "a: 2O").replace("b: 7", "b: IOS"),
        HEAD + CAGES + "totals: [3, 7, 7, 3, 3, 7, 7, three]\n",
    ],
    "total-missing": [_WHOLE.replace("h: 3", "h: "), _WHOLE.replace("g: 7, h: 3", "g: , h: ")],
    "mark-without-total": [
        _WHOLE.replace(", h: 3", ""),
        _WHOLE.replace(", h: 3", "").replace("a: 3", "a: 13"),
        _WHOLE.replace(", h: 3", "").replace("a a", "a ."),
        _WHOLE.replace("c c d d", "c c D D"),
        _WHOLE.replace("h h", "l l").replace("h: 3", "I: 3"),
    ],
    "total-without-cells": [_WHOLE.replace("h: 3", "h: 3, i: 5")],
    "cage-shape": [_LIST + "  - [r2c1, r2c2]\n", _LIST + "  - 15\n"],
    "cage-total-missing": [
        _LIST.replace("total: 3, ", "total: , "),
        _AS_LIST.replace("total: 3, cells: [r4c3", "total: , cells: [r4c3"),
    ],
    "repeats-without-total": [_LIST.replace("total: 3, ", "repeats: yes, ")],
    "cells-shape": [_LIST + "  - {total: 3, cells: {r2c1: r2c2}}\n"],
    "empty-cage": [_LISTED + "  - {total: 3, cells: []}\n", _LIST + "  - {total: 3, cells: []}\n"],
    "cell-shape": [_LIST + "  - {total: 3, cells: [[2, 1], [2, 2]]}\n"],
    "cell-name": [
        _LIST + "  - {total: 3, cells: [R2C1, r2 c2]}\n",
        _LIST + "  - {total: 3, cells: [2-1, c1r2]}\n",
        _LIST + "  - {total: 3, cells: [r2cl, rIc3, rlcl0, rSc1]}\n",
    ],
    "cell-outside": [
        _CLASSIC + "clues: [{palindrome: r1c3 r1c4 r1c5}]\n",
        _LIST + "  - {total: 3, cells: [r2c4, r2c5, r0c1]}\n",
        _LIST + f"  - {{total: 3, cells: [r2c4, r{'9' * 1000}c1]}}\n",
    ],
    "cell-twice": [
        _LISTED + "  - {total: 3, cells: r2c1 r2c1}\n",
        _LIST + "  - {total: 3, cells: [r2c1, r2c1]}\n",
        _CLASSIC + "clues: [{greater: r1c1 r1c1}]\n",
        _CLASSIC + "clues: [{whisper: 2, cells: r1c1 r1c2 r2c2 r1c1}]\n",
    ],
    "cell-in-two-cages": [_LIST + "  - {total: 3, cells: [r1c2, r1c3]}\n"],
    "boxes-unmarked": [_CLASSIC + "boxes: |\n  a a b b\n  a a b b\n  c c d d\n  c c d .\n"],
    "house-size": [
        _CLASSIC + "boxes: |\n  a a b b\n  a a b b\n  c c c d\n  c c d d\n",
        _CLASSIC + "extra_houses: |\n  . . . .\n  . x x .\n  . x . .\n  . . . .\n",
    ],
    "no-extra-house": [_CLASSIC + "extra_houses: |\n" + "  . . . .\n" * 4],
    "diagonals": [_CLASSIC + "diagonals: both\n", _CLASSIC + "diagonals: risng\n"],
    "pieces-shape": [_CLASSIC + "no_repeats: {knight: yes}\n"],
    "piece": [_CLASSIC + "no_repeats: [knight, kings]\n", _CLASSIC + "no_repeats: yes\n"],
    "yes-or-no": [_CLASSIC + "not_consecutive: true\n", _LIST.replace("total: 3,", "total: 3, repeats: 2,")],
    "clues-shape": [_CLASSIC + "clues: r1c1 > r1c2\n", _CLASSIC + "clues: {greater: r1c1 r1c2}\n"],
    "clue-shape": [_CLASSIC + "clues: [r1c1 r1c2]\n", _CLASSIC + "clues:\n  - [r1c1, r1c2]\n  - {}\n"],
    "clue-name": [
        _CLASSIC + "clues:\n  - {grater: r1c1 r1c2}\n",
        _CLASSIC + "clues: [{r1c1: r1c2}]\n",
        _CLASSIC + "clues: [{cells: r1c1 r1c2, thermometre: 2}]\n",
    ],
    "clues-many": [_CLASSIC + "clues:\n" + "  - {even: r1c1}\n" * 65],
    "clue-part": [
        _CLASSIC + "clues: [{greater: }]\n",
        _CLASSIC + "clues: [{skyscraper: 2, line: row 1}]\n",
    ],
    "clue-twice": [_CLASSIC + "clues:\n  - {greater: r1c1 r1c2}\n  - {greater: [r1c1, r1c2]}\n"],
    "clue-cells-shape": [_CLASSIC + "clues: [{greater: {r1c1: r1c2}}]\n"],
    "clue-cells": [
        _CLASSIC + "clues:\n  - {greater: r1c1}\n  - {greater: []}\n  - {greater: r1c1 r1c2 r1c3}\n",
        _CLASSIC + "clues:\n  - {between: r1c1 r1c2}\n  - {odd: []}\n  - {quadruple: 1 2, cells: r1c1}\n",
    ],
    "not-neighbours": [
        _CLASSIC + "clues: [{greater: r1c1 r2c2}]\n",
        _CLASSIC + "clues: [{greater: r1c4 r2c1}]\n",
    ],
    "clue-number": [
        _CLASSIC + "clues: [{ratio: two, cells: r1c1 r1c2}]\n",
        _CLASSIC + "clues: [{little_killer: l0, cells: r1c1 r2c2 r3c3 r4c4}]\n",
    ],
    "not-a-square": [
        _CLASSIC + "clues: [{quadruple: 1 4, cells: r1c1 r1c2 r1c3 r1c4}]\n",
        _CLASSIC + "clues: [{quadruple: 1 4, cells: r1c4 r2c1 r2c4 r3c1}]\n",
    ],
    "quadruple-digits": [
        _CLASSIC + "clues: [{quadruple: 1, cells: r1c1 r1c2 r2c1 r2c2}]\n",
        _CLASSIC + "clues: [{quadruple: [1, 2, 3, 4, 4], cells: r1c1 r1c2 r2c1 r2c2}]\n",
    ],
    "line-jumps": [
        _CLASSIC + "clues: [{thermometer: r1c1 r1c3}]\n",
        _CLASSIC + "clues: [{renban: r1c3 r1c4 r2c1}]\n",
    ],
    "arrow-circle": [
        _CLASSIC + "clues: [{arrow: r1c1 r2c2, cells: r3c3}]\n",
        _CLASSIC + "clues: [{arrow: r1c1 r1c2 r1c3, cells: r1c4}]\n",
    ],
    "circle-in-line": [_CLASSIC + "clues: [{arrow: r1c1, cells: r1c1 r1c2}]\n"],
    "arrow-apart": [_CLASSIC + "clues: [{arrow: r1c1 r1c2, cells: r3c1 r3c2}]\n"],
    "one-part": [
        _CLASSIC + "clues: [{region_sum: r1c1 r1c2 r2c1}]\n",
        _CLASSIC + "boxes: none\nclues: [{region_sum: r1c1 r1c2 r1c3}]\n",
    ],
    "line": [
        _CLASSIC + "clues: [{sandwich: 5, line: row 5}]\n",
        _CLASSIC + "clues: [{sandwich: 5, line: box 1}]\n",
        _CLASSIC + "clues: [{skyscraper: 2, line: colum 3, from: top}]\n",
    ],
    "side": [
        _CLASSIC + "clues: [{skyscraper: 2, line: row 1, from: top}]\n",
        _CLASSIC + "clues: [{skyscraper: 2, line: column 1, from: botom}]\n",
    ],
    "not-a-diagonal": [
        _CLASSIC + "clues: [{little_killer: 5, cells: r1c2 r2c3}]\n",
        _CLASSIC + "clues: [{little_killer: 5, cells: r2c3 r1c2 r3c4}]\n",
        _CLASSIC + "clues: [{little_killer: 5, cells: r1c1 r1c2 r1c3 r1c4}]\n",
    ],
    "marks-shape": [_CLASSIC + "all_marked: {ratio: yes}\n"],
    "marks-kind": [_CLASSIC + "all_marked: [ratios, difference]\n", _CLASSIC + "all_marked: yes\n"],
    "not-in-kakuro": [_KAKURO + "boxes: 2x2\n", _KAKURO + "cages: []\nclues: []\n"],
    "only-in-kakuro": [_CLASSIC + "runs: []\n", _WHOLE + _CELLS],
    "cells-and-runs": [_KAKURO + _RUNS],
    "givens-beside-cells": [_KAKURO + "givens: |\n  ####\n  #...\n  #...\n"],
    "kakuro-mark": [
        _KAKURO.replace("\\8", "/8"),
        _KAKURO.replace("\\8", "16"),
        _KAKURO.replace("\\8", "\\"),
        _KAKURO.replace(".    .", "l    0"),
    ],
    "total-without-run": [_KAKURO.replace("#    8", "\\9   8"), _KAKURO.replace("  #    .", "  9\\   .")],
    "kakuro-without-runs": [
        "puzzle: kakuro\ngrid: 2x2\ncells: |\n  # #\n  # .\n",
        "puzzle: kakuro\ngrid: 2x2\nruns: []\n",
    ],
    "runs-shape": ["puzzle: kakuro\ngrid: 2x2\nruns: r1c1 r1c2\n"],
    "run-shape": ["puzzle: kakuro\ngrid: 2x2\nruns: [r1c1, r1c2]\n"],
    "run-cells": [
        _LISTED + "  - {total: 9, cells: r1c1 r2c2}\n",
        _LISTED + "  - {total: 9, cells: r3c1 r3c3}\n",
    ],
    "cell-in-two-runs": [_LISTED + "  - {total: 9, cells: [r1c2, r1c3]}\n"],
    "blocked-cell": [
        _LISTED + "givens: |\n  1 . #\n  # 5 #\n  # # #\n",
        _LISTED + "solution: |\n  1 2 .\n  # # #\n  # # #\n",
    ],
    "more-faults": [_CLASSIC + "givens: |\n" + 4 * "  7 7 7 7 7 7 7\n"],
}
