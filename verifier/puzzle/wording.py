"""Everything this package says to people about a file or a puzzle.

For each fault of a file: what was found, what is allowed, what to do; for each check of a puzzle: what it
says. Whoever uses a sentence gives the facts in braces. All of them speak to an editor, who knows puzzles
and has never seen a parser.
"""

from __future__ import annotations

from typing import NamedTuple

from verifier.puzzle.clue_wording import CLUE_FAULTS

__all__ = ["BREACHES", "FAILED", "FAULTS", "HINTS", "OTHER_FILES", "PASSED", "Wording"]


class Wording(NamedTuple):
    """The three parts of a fault's message, with the facts in braces."""

    found: str
    allowed: str
    cure: str


FAULTS = {
    # The file as a whole
    "cannot-open": Wording("{reason}", "a file that can be read", "Correct the name of the file."),
    "no-such-number": Wording(
        "{puzzles} in the file",
        "{allowed}",
        "Ask for a number that the file has.",
    ),
    "empty": Wording("nothing", "at least one puzzle", "Write the puzzle into the file, or leave it out."),
    "other-file": Wording("{what}", "a text file in UTF-8", "{cure}"),
    "not-utf8": Wording(
        "the byte 0x{byte:02x} (byte {place:,} of the line)",
        "text in UTF-8",
        "Save the file again with the encoding UTF-8.",
    ),
    "control-character": Wording(
        "the control character U+{number:04X} (character {place:,} of the line)",
        "text that can be printed",
        "Delete the character; if you do not see it, type the line again.",
    ),
    "too-big": Wording(
        "{size:,} bytes",
        "at most {most:,} bytes a puzzle",
        "Send one puzzle a file, or put a line '---' between the puzzles.",
    ),
    "too-deep": Wording(
        "lists or keys more than {most} levels deep",
        "at most {most} levels",
        "Write the puzzle with the keys and lists of the README; four levels are enough.",
    ),
    "not-yaml": Wording("{problem}", "a file in YAML", "{cure}"),
    "not-json": Wording(
        "a line that breaks off or goes wrong at character {place:,}",
        "one puzzle in JSON on each line",
        "Write this puzzle again with the program that made the file.",
    ),
    "alias": Wording(
        "'{sign}{word}', which is an alias or an anchor in YAML",
        "plain text, lists and keys",
        "Put the text in quotes if it begins with '{sign}'; otherwise write it out in full.",
    ),
    "tag": Wording(
        "'{word}', which is a tag in YAML",
        "plain text, lists and keys",
        "Put the text in quotes if it begins with '!'; otherwise take the tag out.",
    ),
    "not-a-puzzle": Wording(
        "{what}",
        "keys with a colon, such as 'puzzle: killer'",
        "Begin with the lines 'puzzle:' and 'grid:', one puzzle a file or a line '---' between puzzles.",
    ),
    "more-faults": Wording(
        "{faults} more",
        "none",
        "Put the faults above right first, then check the file again.",
    ),
    # A bare line
    "bare-length": Wording(
        "{length:,} characters",
        "{wanted:,} characters, for a classic of {grid}",
        "Add or take out characters; write another size with 'puzzle:', 'grid:' and 'givens:'.",
    ),
    "bare-character": Wording(
        "'{word}' at character {place:,}",
        "the digits 1 to {digits}, and '.' or '0' for an empty cell",
        "Correct the character.",
    ),
    # Keys and values
    "unknown-key": Wording("'{word}'", "{allowed}", "Take the key out, or correct it."),
    "missing-key": Wording("nothing", "{allowed}", "Add it, for example '{example}'."),
    "key-shape": Wording("{what} before the colon", "text", "Write one word and a colon."),
    "repeated-key": Wording(
        "'{word}' twice, {lines}",
        "each key once",
        "Keep one of the two.",
    ),
    "not-text": Wording(
        "{what}",
        "text",
        "Write it on one line after the key; put text that begins with a bracket or a brace in quotes.",
    ),
    "not-a-map": Wording(
        "{what}",
        "{rows} of {wanted}",
        "Write '{key}: |' and below it each row on a line of its own, set in by two spaces.",
    ),
    "too-long": Wording("{length:,} characters", "at most {most:,} characters", "Shorten it."),
    "bad-character": Wording(
        "half a character, U+{number:04X}",
        "whole characters of Unicode",
        "Type the text again.",
    ),
    "format-unknown": Wording("'{word}'", "1", "Write 'format: 1', or leave the line out."),
    "format-newer": Wording(
        "{word}",
        "1",
        "The file was made for a newer gridproof: install that, or have the file written in format 1.",
    ),
    "kind": Wording(
        "'{word}'", "classic, killer, kakuro", "Write one of these words, such as 'puzzle: killer'."
    ),
    "grid": Wording("'{word}'", "{allowed}", "Write rows by columns, such as 'grid: 9x9'."),
    "boxes": Wording(
        "'{word}'",
        "{allowed}",
        "Write height by width of a box, such as 'boxes: {example}', or leave the line out.",
    ),
    "boxes-unmarked": Wording(
        "no mark in {cells}", "a mark in every cell", "Write the mark of its box into each cell."
    ),
    "house-size": Wording(
        "the mark '{word}' on {found}",
        "{wanted} for each mark, as many as there are digits",
        "Correct the marks.",
    ),
    "no-extra-house": Wording(
        "no mark", "a mark for each extra house", "Mark the cells of the house, or leave 'extra_houses' out."
    ),
    "diagonals": Wording(
        "'{word}'", "yes, falling, rising, no", "Write 'diagonals: yes' for both, or leave the line out."
    ),
    # Rows of marks
    "row-count": Wording(
        "{found}",
        "{rows} of {wanted}",
        "{difference}, or correct the grid's size.",
    ),
    "row-length": Wording(
        "{found}",
        "{wanted}, with a space between them",
        "{difference}{dot}.",
    ),
    "rows-run-together": Wording(
        "{marks} in one line",
        "{rows} of {wanted}",
        "Write '{key}: |' and below it each row on a line of its own, set in by two spaces.",
    ),
    "not-a-digit": Wording(
        "'{word}'",
        "the digits 1 to {digits}{dot}",
        "Correct the entry.",
    ),
    "digit-range": Wording(
        "{word}",
        "the digits 1 to {digits}",
        "Correct the digit, or the grid's size.",
    ),
    # A part-filled grid
    "marks": Wording(
        "'{word}'",
        "a digit, '.' for an empty cell, or pencil marks such as {{1,2}}; digits from 1 to {digits}",
        "Write the pencil marks in braces, with commas between them, or '.' where there are none.",
    ),
    "several-grids": Wording(
        "more than one",
        "one part-filled grid a file",
        "Put the grids into files of their own.",
    ),
    # Cages
    "cages-shape": Wording(
        "{what}",
        "a map or a list of cages",
        "Write 'cages: |' and the rows of the map below it, set in by two spaces.",
    ),
    "totals-shape": Wording(
        "{what}",
        "a total for each mark",
        "Write every mark with its total, such as 'totals: {{a: 15, b: 7}}', or the totals alone, in the "
        "order in which the cages begin, row by row, such as 'totals: [15, 7]'.",
    ),
    "totals-count": Wording(
        "{found}",
        "{wanted}, one for each mark of the map",
        "Put them in the order in which the cages begin, row by row: {marks}.",
    ),
    "cage-shape": Wording(
        "{what}",
        "cells, with or without a total",
        "Write each cage on a line of its own, such as '- {{total: 15, cells: [r1c1, r1c2]}}'.",
    ),
    "cells-shape": Wording(
        "{what}",
        "cells",
        "Write the cells in square brackets, such as '[r1c1, r1c2]'.",
    ),
    "classic-with-cages": Wording(
        "'{word}' in a classic",
        "cages and totals only in a killer",
        "Write 'puzzle: killer', or take '{word}' out.",
    ),
    "killer-without-cages": Wording(
        "no cage",
        "at least one cage in a killer",
        "Add the cages, or write 'puzzle: classic'.",
    ),
    "totals-with-list": Wording(
        "'totals' beside a list of cages",
        "'totals' only beside a map of cages",
        "Give each cage of the list its own 'total', and take 'totals' out.",
    ),
    "total": Wording(
        "'{word}'",
        "a whole number of at most {most} figures",
        "Write the total in figures, such as 15.",
    ),
    "total-missing": Wording(
        "nothing",
        "a whole number",
        "Write the mark, a colon, a space and the total, such as 'a: 15'.",
    ),
    "cage-total-missing": Wording(
        "'total' with nothing after it",
        "a whole number",
        "Write the total after 'total:', or take 'total' out: the cage then has none.",
    ),
    "repeats-without-total": Wording(
        "'repeats: yes' without a total",
        "'repeats: yes' beside a total",
        "Give the cage its total, or take 'repeats' out: where digits may repeat and need not add up to "
        "anything, the cage says nothing.",
    ),
    "mark-without-total": Wording(
        "the mark '{word}' ({places}) without a total",
        "one total for each mark",
        "Add '{word}: ' and the total to 'totals', or correct the mark in the map.",
    ),
    "total-without-cells": Wording(
        "a total for '{word}', a mark that no cell has",
        "one total for each mark in the map",
        "Take the total out, or correct the mark in 'totals' or in the map.",
    ),
    "empty-cage": Wording("no cells", "at least one cell", "Name the cells, or take the {holder} out."),
    "cell-name": Wording(
        "'{word}'",
        "a cell such as r1c2",
        "Write r, the number of the row, c, and the number of the column.",
    ),
    "cell-shape": Wording("{what}", "a cell such as r1c2", "Write the name of the cell alone."),
    "cell-outside": Wording(
        "{word}",
        "rows 1 to {rows} and columns 1 to {columns}",
        "Correct the cell, or the grid's size.",
    ),
    "cell-twice": Wording(
        "{cell} twice", "each cell once in a {holder}", "Take one of them out, or correct it."
    ),
    "cell-in-two-cages": Wording(
        "{cell}, which cage {other} holds as well",
        "each cell in one cage at most",
        "Take the cell out of one of the two cages.",
    ),
    # A kakuro
    "not-in-kakuro": Wording(
        "'{word}' in a kakuro",
        "{allowed}",
        "Take it out: a kakuro has runs alone, no houses, cages or clues.",
    ),
    "only-in-kakuro": Wording(
        "'{word}' in another puzzle than a kakuro",
        "cells and runs only in a kakuro",
        "Write 'puzzle: kakuro', or take '{word}' out.",
    ),
    "cells-and-runs": Wording(
        "a list of runs beside a map of the cells", "one of the two", "Take one of the two out."
    ),
    "givens-beside-cells": Wording(
        "'givens' beside a map of the cells",
        "'givens' only beside a list of runs",
        "Write each given into the map in place of the '.', and take 'givens' out.",
    ),
    "kakuro-mark": Wording(
        "'{word}'",
        "'#' for a blocked cell, '.' for a cell to be filled, a digit from 1 to {digits} that is given, and "
        "totals such as 16\\ (down), \\7 (across) or 16\\7 (both)",
        "Correct the mark; no total stands without its '\\'.",
    ),
    "total-without-run": Wording(
        "the total {total} {way}, with no cell to be filled {side}",
        "a total only where a run begins",
        "Take the total out, or correct the map.",
    ),
    "kakuro-without-runs": Wording(
        "no run", "at least one run in a kakuro", "Draw the cells that are to be filled, or list the runs."
    ),
    "runs-shape": Wording(
        "{what}",
        "a list of runs",
        "Write each run on a line of its own, such as '- {{total: 7, cells: r2c2 r2c3}}'.",
    ),
    "run-shape": Wording(
        "{what}",
        "a total and cells",
        "Write each run on a line of its own, such as '- {{total: 7, cells: r2c2 r2c3}}'.",
    ),
    "run-cells": Wording(
        "{cells}",
        "cells side by side in one row, or one below the other in one column",
        "Correct the cells, or divide the run.",
    ),
    "cell-in-two-runs": Wording(
        "{cell}, which run {other} holds as well",
        "each cell in one run {way} at most",
        "Take the cell out of one of the two runs.",
    ),
    "blocked-cell": Wording(
        "'{word}' in a blocked cell", "'#'", "Write '#' there, or correct the blocked cells of the puzzle."
    ),
    # Rules of the whole grid
    "pieces-shape": Wording(
        "{what}", "knight, king", "Write 'no_repeats: knight', or 'no_repeats: [knight, king]'."
    ),
    "piece": Wording("'{word}'", "knight, king", "Write the name of the piece."),
    "marks-shape": Wording(
        "{what}",
        "consecutive, ratio, pair_sum",
        "Write the marks that are all there, such as 'all_marked: [consecutive, ratio]'.",
    ),
    "marks-kind": Wording("'{word}'", "consecutive, ratio, pair_sum", "Write the name of the marks."),
    "yes-or-no": Wording("'{word}'", "yes, no", "Write 'yes', or leave the line out."),
    **{code: Wording(*parts) for code, parts in CLUE_FAULTS.items()},
}
"""What to say for each fault code."""

_SAVE_AS_TEXT = (
    "Open it, copy the puzzle into a new file of a plain text editor, and save that with the encoding UTF-8 "
    "and a name that ends in .yaml."
)
OTHER_FILES = {
    "utf-16": (
        "a text in UTF-16, which some programs call Unicode",
        "Open it in the program that made it, and save it again with the encoding UTF-8.",
    ),
    "document": ("a document of a word processor", _SAVE_AS_TEXT),
    "spreadsheet": (
        "a spreadsheet",
        "Open it, and save it as CSV in UTF-8, with a column 'puzzle' for 'gridproof intake'; or copy the "
        "puzzle into a plain text file.",
    ),
    "pdf": ("a PDF", _SAVE_AS_TEXT),
    "picture": ("a picture", "Type the puzzle into a text file; nothing is read from pictures."),
    "archive": ("an archive", "Unpack it, or give it to 'gridproof intake' with a name that ends in .zip."),
}
"""What a file is that is no plain text, and what to do with it."""

HINTS = {
    "letter": "the letter {letter} for the digit {figure}",
    "looks-like": "It looks like {meant}: {letters}.",
    "rest": "The cages cover the grid, so this total is {whole} less the rest: {left}.",
    "rest-of-list": "The cages cover the grid, so the one that is missing is {whole} less the rest: {left}.",
}
"""What a message adds where it can be known what was meant."""


PASSED = {
    "cage-size": "No cage has more cells than there are digits.",
    "cage-total": "Every cage has a total that its cells can make.",
    "full-sum": "The cages cover the whole grid and add up to {wanted}, as they must.",
    "house-sum": "Cages cover {houses} exactly and add up to {wanted} {there}, as they must.",
    "givens-in-houses": "No two givens clash in {houses}.",
    "givens-in-cages": "The givens fit the cages in which they stand.",
    "clue": "Each clue by itself can hold.",
    "run-sum": "Wherever totals across and totals down are sums of the same cells, they add up to the same.",
    "run-total": "Every run has a total.",
    "solution": "The solution in the file keeps every rule.",
}
"""What each check of the arithmetic says when the puzzle passes it."""

FAILED = {
    "cage-size": "The cage {cells} has {size} cells, but there are only {digits} digits, and none stands "
    "twice in a cage. Divide the cage, or take cells out of it.",
    "cage-total": "The cage {cells} has the total {total}, but {size} can make only {possible}. "
    "Correct the total, or the cells of the cage.",
    "full-sum": "The cages cover the whole grid, so their totals must add up to {wanted}; they add up to "
    "{made}, which is {difference}. Correct the total that is wrong.",
    "house-sum": "The cages {cages} cover {house} exactly, so their totals must add up to {wanted}; they add "
    "up to {made}, which is {difference}. Correct the total that is wrong, or the cells.",
    "givens-in-houses": "The digit {digit} is given in {cells}, but no digit stands twice in {houses}. "
    "Correct the givens.",
    "givens-in-cages:twice": "The digit {digit} is given in {cells}, which are in one cage, and no digit "
    "stands twice in a cage. Correct the givens, or the cells of the cage.",
    "givens-in-cages:full": "The cage {cells} has the total {total}, but what is given in it ({givens}) "
    "makes {added}. Correct the givens, or the total.",
    "givens-in-cages:over": "The cage {cells} has the total {total}, but what is given in it ({givens}) "
    "makes {added}, with {free} still empty. Correct the givens, or the total.",
    "givens-in-cages:rest": "The cage {cells} has the total {total}, and what is given in it ({givens}) "
    "leaves {left} for {free}; with the other digits {free} can make only {possible}. "
    "Correct the givens, or the total.",
    "run-sum": "The totals across add up to {across} and the totals down to {down}, but both are sums of the "
    "same cells. Correct the total that is wrong.",
    "run-sum:part": "In the part of the grid with {cells}, the totals across add up to {across} and the "
    "totals down to {down}, but both are sums of the same cells. Correct the total that is wrong.",
    "run-total": "The run {cells} has no total. Add it; or divide the run by blocked cells, if none was "
    "meant.",
    "givens-in-cages:rest-with-repeats": "The cage {cells} has the total {total}, and what is given in it "
    "({givens}) leaves {left} for {free}, where digits may repeat; {free} can make only {possible}. "
    "Correct the givens, or the total.",
    "solution": "The solution in the file breaks the rules: {broken}. Correct it, or leave it out.",
}
"""What each check says when the puzzle fails it; one check may have several ways to fail."""

BREACHES = {
    "length": "it has {length} digits, not {wanted}",
    "stranger": "{digits} in {cells} is no digit of the grid",
    "house": "{house} has {digits} more than once ({cells})",
    "cage-repeats": "the cage {cage} has {digits} more than once ({cells})",
    "cage-total": "the cage {cage} adds up to {made}, not {total}",
    "rule": "{rule} is broken ({digits} in {cells})",
    "given": "{cells} has {digits}, but the given there is {given}",
}
"""How the check of a solution names a rule that is broken."""
