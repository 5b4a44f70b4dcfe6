"""What remarks say to people: a part of the catalogue in `verifier.verdict.wording`."""

from __future__ import annotations

__all__ = ["REMARKS"]

REMARKS = {
    "cage-in-pieces:mark": "The mark '{mark}' stands in cells that do not touch: {pieces}. They count as one "
    "cage of {total}, in pieces. Were {cages} meant? Then give each a mark and a total of its own.",
    "cage-in-pieces:list": "The cage of {total} lies in pieces that do not touch: {pieces}. Were {cages} "
    "meant? Then list each with a total of its own.",
    "one-bare-cell": "Every cell but {cell} is in a cage. Was {cell} forgotten? Then put it into its cage.",
    "cage-in-pieces:other": "{cage} lies in pieces that do not touch: {pieces}. Were {cages} meant? "
    "Then list each by itself.",
    "one-cage-without-total:open": "Every cage but the one in {cells} has a total. Was its total forgotten? "
    "As it stands, the digits in this cage need only differ.",
    "one-cage-without-total:rest": "Every cage but the one in {cells} has a total. Was its total forgotten? "
    "The cages cover the grid, so it would be {left}. As it stands, the digits in it need only differ.",
    "house-in-pieces": "{house} lies in pieces that do not touch: {pieces:and}. Does a cell bear the mark of "
    "another house?",
    "one-cell-cage:one": "The cage of {cages} has one cell, which gives its digit away. Were other cells of "
    "it forgotten?",
    "one-cell-cage:several": "The cages of {cages} have one cell each, which gives the digit away. Were "
    "other cells of them forgotten?",
    "parts-apart": "The grid falls into {parts:count part} that no run joins; they begin at {first:and}. "
    "Each is a puzzle by itself. Was a cell blocked that was to be filled?",
    "marks-alike": "The marks '{one}' and '{other}' look alike, and their cages touch at {cells}. Compare "
    "these cells with the draft; marks that nobody takes for one another are safer.",
}
"""What each remark says; one remark may have several ways to say it."""
