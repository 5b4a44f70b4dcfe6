"""Everything that the desk says to people, but for what verdict, repairs and steps say themselves."""

from __future__ import annotations

from collections.abc import Mapping

__all__: list[str] = []

NO_WAY_IN = (
    "This is no way in. A desk has a new address each time it is started: go to the page that it opened, or "
    "to the address that it printed. What was drawn on an older page is kept in the browser and offered "
    "there.\n"
)
NO_WISH = "The page asked for something that the desk does not know. Reload the page."
NO_CELLS = "Choose the cells first."
STRANGE_CELLS = "Some of these cells cannot be chosen: each must be a white cell of the grid, and come once."
NOT_SUCH_A_NUMBER = "The {what} is {said:text}; it must be a whole number from {least} to {most}."
NOT_SUCH_A_TEXT = "The {what} must be a text of at most {most} characters."
NOT_SUCH_A_WORD = "There is no such {what}: {said:text 40}."
NO_CAGE_THERE = "There is no cage in these cells."
WHICH_RUN = "Two runs cross there: choose two cells of the one that is meant."
TOTAL_FIRST = "Give the cage its total first; then its digits may repeat."
ONE_RUN_AT_LEAST = "A kakuro has at least one run: leave two open cells side by side."
NO_BLOCKED_CELLS_HERE = "Only a kakuro has blocked cells. Begin a new one under 'What is drawn'."
NO_BOXES_HERE = "A kakuro has no boxes."
NO_CAGES_HERE = "This kind of puzzle has no cages."
NO_SOLUTION_TO_ADD_UP = "No solution is known yet from which that could be read."
NO_SUCH_RULE = "There is no such rule to draw or to take out."
NO_SUCH_SIZE = "A new grid is 2 to 25 cells wide."
HOUSES_OVERLAP = "A file cannot say extra houses that share a cell."
ONE_PUZZLE_ALONE = "The text must be that of one puzzle."
TWO_BOXES = "Choose two cells of different boxes; they change places."
NOT_SO = "That cannot be drawn so: found {found:text 200}; allowed: {allowed:text 300}. {cure:text 300}"
NOTHING_TO_TUNE = "Finish the puzzle first: changes are looked for once it has exactly one solution."
NO_WISH_TOWARDS = "Say first what the puzzle should be like."
WITH_AND_WITHOUT = "A puzzle cannot need a technique and do without it."
OFFER_GONE = "The puzzle has changed since this was offered. Wait for the next offers."

WITHOUT_TOTALS = "Judged without the totals of {cages:count cage} still to come."
WITHOUT_RUN_TOTALS = "Judged without the totals of {cages:count run} still to come."
WITHOUT_LONG_RUNS = "Judged without {runs:count run} longer than {digits} cells: block a cell in each."
WITHOUT_BOXES = "Judged without boxes: {found}. Each box must have {wanted:count cell}."
BOX_HAS = "{name} has {cells:count cell}"
IN_NO_BOX = "in none: {cells}"
BOXES_IN_FILE = "Boxes that are not finished yet, for the desk:"
BY_TWO_GRIDS = "by two grids that obey every rule"
BY_ARITHMETIC = "by adding up"
NOTHING_IDLE = (
    "Every cage, clue and given does work: without any one of them there is more than one solution."
)
NO_ARCHIVE = (
    "There is nothing to compare with. Open the desk with --printed and a folder of printed puzzles, "
    "or with a ledger."
)
IT_REPEATS = "It repeats {name:text 200}: {guise}."
MORE_REPEATED = "It repeats {number:,} more."
REPEATS_NOTHING = "It repeats none of the {number:count puzzle} in {place:text 200}."
UNREAD = "Not compared with what could not be read: {addresses:and}."
NOT_COMPARED = "Not compared: {why:text 300}"
LOOKING: Mapping[str, str] = {
    "repairs": "Looking for repairs …",
    "tuned": "Looking for changes towards that …",
    "idle": "Looking for what does no work …",
    "repeats": "Looking for puzzles that it repeats …",
}
"""What is said while an answer is looked for."""
LOOKED_AT = "Looking for changes towards that: {tried:count puzzle} tried, {found} found …"
NO_ANSWER = "No answer: the puzzle takes more than the desk gives it. gridproof check gives it more time."

AT_THE_START = "{count:Count step} from here to the solution."
AT_THE_START_OF_PART = "{count:Count step} from here, as far as logic goes."
AT_THE_END = "That is the solution."
AT_A_CONTRADICTION = "Here nothing is left to write: the puzzle has no solution."
AT_A_STOP = (
    "Here logic goes no further: there is more than one solution, or the way on takes more than the "
    "techniques of the ladder."
)
GRID_OF_AUDIENCE = "Go to a cell with the arrows and type its digit; N tells what comes next."
NO_WALK_YET = "The walk is still being looked for."

NOT_SAVED_YET = "Not written yet"
CANNOT_SAVE = "Not written: {why:text 200}."
FILE_GONE = "The file is gone. The next change writes it again."
FOLLOWED = "The file was changed outside; this is how it stands there now."
UNREADABLE = "The file was changed outside and cannot be read: {why:text 400} The desk keeps what it has."
NOT_ONE = "it must hold one puzzle."
PUT_ASIDE = (
    "The file was changed here and outside at once. What is here stands in it; what came from outside is "
    "kept beside it as {name:text}."
)

NO_PAPER = "This could not be made: the puzzle takes more than the desk gives it, or was changed meanwhile."
TOO_MANY_PAGES = "Too many pages look at this desk."
