"""Everything that the command line itself says to people."""

from __future__ import annotations

import re
import shlex
from collections.abc import Mapping, Sequence

from verifier.puzzle.printable import counted, in_figures, listed, printable

__all__: list[str] = []

PROGRAM = (
    "Proves that a killer or classic sudoku has exactly one solution, works it through as a person does, and "
    "says how hard it is - or what is wrong with it."
)

CHECK = (
    "Give the verdict on each puzzle.\n\n"
    "PATH is a file, a folder (searched to the bottom), FILE#3 for the third puzzle of a file, or - for "
    "standard input. The verdicts go to standard output as YAML, or one file a puzzle with --out.\n\n"
    "Exit code: 0 all accepted, 1 something rejected, 3 something undecided, 2 something could not be read."
)
MEND = (
    "Say what is wrong with a broken puzzle, and what would put it right.\n\n"
    "Every repair is proved to leave exactly one solution, by two methods; the likeliest come first. FILE "
    "may hold several puzzles; FILE#3 names the third, - is standard input.\n\n"
    "Exit code: 0 nothing to mend, 1 something is broken, 3 something is undecided, 2 something could not be "
    "read."
)
TUNE = (
    "Look for changes that make a sound puzzle what you wish, and keep its solution.\n\n"
    "The wish is one or several of the options from --tier to --style. A given comes or goes, a cage is "
    "split, two are joined, a cell moves; marks, lines and clues likewise; totals follow. Every puzzle that "
    "is offered has its full verdict. FILE holds one puzzle; FILE#3 names the third of several, - is "
    "standard input.\n\n"
    "Exit code: 0 the wish is met, 1 it is not, or the puzzle is not sound, 3 the time was up before "
    "anything was found, 2 something could not be read."
)
COMPARE = (
    "Show two versions of a puzzle side by side: solution, tier, effort, walk, and what was changed.\n\n"
    "Each FILE holds one puzzle; FILE#3 names the third of several.\n\n"
    "Exit code: 0 both are accepted, 1 one is rejected, 3 one is undecided, 2 something could not be read."
)
WALK = (
    "Work a puzzle through, step by step, as one would explain it.\n\n"
    "A digit at hand comes first, the easiest and nearest; what only removes candidates is told where a "
    "digit needs it. FILE may hold several puzzles (with --so-far, one); FILE#3 names the third, - is "
    "standard input.\n\n"
    "Exit code: 0 walked to the one solution, 1 there is not exactly one, or the grid so far is wrong, 3 it "
    "could not be walked to the end, 2 something could not be read."
)
NEXT = (
    "Say how to get to the next digit from a part-filled grid, or what is wrong in it, and why.\n\n"
    "FILE is the puzzle; the grid so far is a file with the same 'givens', more digits filled in, and pencil "
    "marks, if there are any, in braces: {1,2}.\n\n"
    "Exit code: 0 there is a way on, or the grid is full and right; 1 something is wrong in the grid or the "
    "puzzle, 3 there is no telling, 2 something could not be read."
)
DESK = (
    "Open a live page on this machine, on which a puzzle is drawn, judged at every stroke and mended.\n\n"
    "FILE is the puzzle; it is written at every pause, and followed when something else changes it. Without "
    "FILE, a new one is begun. The first line that is printed is the address of the page, which no other "
    "machine can reach; end the desk with Ctrl-C."
)
INTAKE = (
    "Judge a whole box of submissions, and keep a ledger of what was decided.\n\n"
    "PATH is a file, a folder, an archive (.zip, .tar, .tar.gz, .tar.xz), a table (.csv with a column "
    "'puzzle'), or - for standard input. The verdicts go into the folder of --out, one file a puzzle, with "
    "letters to the setters of what is rejected, and a list of duplicates. The ledger (--ledger) holds it "
    "all: a run that is stopped, or breaks off, goes on where it was when the same command is given "
    "again.\n\n"
    "With --report, nothing is judged: it tells what the ledger holds.\n\n"
    "Exit code: 0 all accepted, 1 something rejected, 3 something undecided, 2 something could not be read."
)
PLAN = (
    "Choose what is printed next: a puzzle for each slot of a page, from what is accepted and neither "
    "scheduled nor printed.\n\n"
    "No puzzle repeats another, no two have the same solution, no setter has two; the slots may say more. It "
    "is told which slot stays empty and why, and what to ask setters for. --take schedules the choice, "
    "--release takes that back, --printed-on enters that it was printed. Ledger and slots can be named in "
    "intake.yaml.\n\n"
    "Exit code: 0 every slot is filled, 1 one stays empty, 2 something could not be read."
)
SUMS = (
    "List the combinations of a total: which different digits add up to TOTAL in SIZE cells.\n\n"
    "For example 'gridproof sums 28 4' prints 4 7 8 9 and 5 6 8 9, one combination a line.\n\n"
    "Exit code: 0, or 1 when no digits make the total."
)
TECHNIQUES = (
    "Show the ladder: every technique, easiest first, with its tier. With a NAME, such as 'naked pair', show "
    "that technique: its definition, a picture, why it holds, a worked example, and how often it occurs."
)

RULES = (
    "Show the rules that a puzzle file can state. With a NAME, such as 'boxes', show one: what it says, "
    "how a file states it, what is allowed; --example prints a whole file with it, to start from."
)

SHEET = (
    "Print puzzles: pages to cut up or copy, with title, setter and tier, and the solutions at the end.\n\n"
    "Each FILE may hold several puzzles; FILE#3 names the third. Every puzzle is judged first, and only "
    "accepted ones are printed.\n\n"
    "Exit code: 0 all printed, 1 something was rejected, 3 something is undecided, 2 something could not be "
    "read."
)

OPTIONS = {
    "example": "Print a whole puzzle file with this rule, to start from.",
    "version": "Show the version and stop.",
    "out": "Write one verdict file a puzzle into this folder, named by the puzzle's id.",
    "html": "Write the verdict as a page to look at, in place of YAML; for several puzzles a list that leads "
    "to their pages.",
    "walk-html": "Write the walkthrough as a page to click through, read aloud or print.",
    "sheet-out": "The file: .pdf, or .svg with one file a page.",
    "per-page": "Puzzles on a page, 1 to 6.",
    "paper": "a4 or letter.",
    "solutions": "Whether pages with the solutions follow.",
    "cut-marks": "Print marks that show where to cut each puzzle out.",
    "broken": "Print puzzles that are not accepted, too; their solution only if there is just one.",
    "table": "Print one line a puzzle instead of the verdicts.",
    "count": "Count up to so many solutions (2 are enough to reject a puzzle).",
    "style": "Your house style, a YAML file: what you accept beyond one solution.",
    "jobs": "Puzzles judged at the same time; the cores of the machine when absent.",
    "seconds": "Longest time for one puzzle; one that needs more is undecided.",
    "check-printed": "A folder of puzzles that were printed: say which puzzles repeat one of them.",
    "desk-printed": "A folder of printed puzzles, or a ledger, in which the page can look for repeats.",
    "port": "The port on this machine; 0 for any that is free. Without it, a file keeps its port if it can.",
    "no-browser": "Print the address alone, and open no browser.",
    "mend-yaml": "Print findings and repairs as YAML.",
    "idle": "Of a sound puzzle, list the cages and givens that it can do without.",
    "budget": "Seconds to spend on one puzzle; what they do not suffice for is named.",
    "walk-yaml": "Print the steps as YAML, each with all that it rests on.",
    "markdown": "Print the walkthrough as Markdown.",
    "spoken": "Say cells in full (row 5, column 2), to read aloud to an audience that sees no names.",
    "short": "Tell only the steps on which the walk turns, about eight, each with its idea.",
    "full": "Tell every step, also those on which nothing rests.",
    "from": "Tell only what the digit of this cell rests on, such as r5c5.",
    "audit": "Have each step proved by a solver from what it cites, and from nothing else.",
    "walk-seconds": "Longest time for one puzzle; one that needs more is told as far as it goes.",
    "next-seconds": "Longest time; what is not found by then is told as not found.",
    "so-far": "The part-filled grid: a puzzle file, its rows alone, or all cells in a line; - to type it.",
    "drop-wrong": "Leave out what is wrong, and go on from there.",
    "next-html": "Write it as a page with pictures: what is wrong, and the way to the next digit.",
    "walk-so-far": "Walk on from this part-filled grid: a puzzle file, its rows alone, or all cells in a "
    "line; - to type it.",
    "next-yaml": "Print what is wrong, and the steps with all that they rest on, as YAML.",
    "show": "How much to give away: where to look, also what follows, also why (every step).",
    "with": "Digits that must be in the combination, such as 9, 79 or 10,12.",
    "without": "Digits that must not be in it, such as 789.",
    "digits": "The largest digit: the size of the grid.",
}

TUNE_OPTIONS = {
    "tier": "The tier that it should be of.",
    "effort": "Its effort from LOW to HIGH, such as 150-200.",
    "without": "A technique that it should not need; may be given several times.",
    "having": "A technique that it should need; may be given several times.",
    "break-in": "The third of the rounds in which its break-in, the first of the hardest steps, comes: "
    "early, middle or late.",
    "givens": "At most so many givens; without this, it never gets more than it has.",
    "cages": "At most so many cages.",
    "symmetry": "A symmetry of the givens, such as half-turn.",
    "style": "Your house style, a YAML file: whatever it takes.",
    "changes": "At most so many changes, 1 to 3.",
    "seconds": "Seconds to search; what was found by then is told.",
    "seed": "Settles the order of changes between which nothing else does.",
    "jobs": "Puzzles looked at at the same time; the cores of the machine when absent.",
    "yaml": "Print what was found as YAML.",
    "html": "Write what was found as a page with pictures before and after.",
    "out": "Write each puzzle that was found into this folder.",
}

COMPARE_OPTIONS = {
    "yaml": "Print the comparison as YAML.",
    "html": "Write the comparison as a page with pictures.",
}

INTAKE_OPTIONS = {
    "ledger": "The file of the ledger; made if it is not there.",
    "out": "Write the verdicts, letters and lists into this folder.",
    "printed": "A folder of puzzles that were printed: look for them among the submissions.",
    "cluster": "Judge on a Dask cluster: tcp://HOST:PORT, or local:N for one of N workers here.",
    "memory": "Most memory for one puzzle, in MiB; one that needs more is undecided.",
    "no-duplicates": "Do not look for duplicates.",
    "letters": "all: letters to setters tell all that they sent; new (usual): what is new since the last "
    "letters.",
    "letter": "Your own frame for letters, with {{ letter }} where the letter stands; .md for Markdown.",
    "repairs": "Most broken puzzles for which a letter offers a proved repair; 100 when absent.",
    "html": "Write what the ledger holds as a page to look at: a list that leads to every verdict.",
    "pages": "With --html: most puzzles on the list, each with a page of its own; 1000 when absent.",
    "forget": "Take what is at this address, or below it, out of the ledger; may be given several times.",
    "report": "Tell what the ledger holds, and judge nothing.",
    "list": "With --report: list what is accepted, rejected, undecided, unreadable or waiting; or by-hand, "
    "what to look at.",
    "csv": "With --report: write the ledger as a table for spreadsheets.",
    "jsonl": "With --report: write the ledger as JSON Lines.",
    "timings": "With --csv and --jsonl: add seconds, tries and dates.",
    "puzzle-bytes": "Most bytes of one puzzle.",
    "archive-files": "Most files in one archive.",
    "archive-ratio": "How many times its size an archive may unpack to (64 MiB are always free).",
}

PLAN_OPTIONS = {
    "ledger": "The file of the ledger.",
    "slots": "What the page asks for, a YAML file with its slots.",
    "out": "Write the plan as a page, and a sheet to print, into this folder.",
    "first": "The day of the first slot, such as 2026-03-30; else the one in the file of slots.",
    "take": "Schedule what is chosen for its days.",
    "release": "Take back what is scheduled for the days of the page.",
    "printed-on": "Enter that what is scheduled for this day, or earlier, was printed.",
}

READING = "reading"

TRY_HELP = "See '{command} --help'."


NOT_A_NUMBER = "found '{word:text 40}'; allowed: a whole number from {least} to {most}."


_NO_MORE = "this machine does not let it go on: "

SHORTAGES = {
    "output": "standard output takes nothing: the disk behind it is full, or it is closed. Free some space, "
    "or send the result to a file: > FILE.",
    "handles": f"{_NO_MORE}too many files are open at the same time. Allow more (ulimit -n 1024), or give "
    "fewer --jobs.",
    "processes": f"{_NO_MORE}no more processes may be started. Allow more (ulimit -u), or give fewer --jobs.",
    "memory": f"{_NO_MORE}its memory is used up. End other programs, or give fewer --jobs.",
    "disk": f"{_NO_MORE}its disk is full, fails, or takes no temporary files. Free some space, or name a "
    "folder that can be written to in TMPDIR.",
}
"""What the machine lacks, and what to do."""


def worker_will_not_start(says: str) -> str:
    """Say that no worker can be started."""
    last = says.rpartition("\n")[2]
    return f"no process can be started that judges puzzles ({printable(last, 300)}). Install gridproof anew."


def bug(trace: str | None) -> str:
    """Say that the program itself is at fault; None is a trace that could not be kept."""
    return f"gridproof made a mistake of its own. {_trace_is_in(trace)}"


def bug_in_judging(puzzles: Sequence[str], trace: str | None) -> str:
    """Say which puzzles have no verdict since the program itself is at fault."""
    them = "It has" if len(puzzles) == 1 else "They have"
    return (
        f"gridproof made a mistake of its own while judging {listed(puzzles, most=5)}. {them} no verdict; "
        f"other puzzles are not affected. {_trace_is_in(trace)}"
    )


def _trace_is_in(path: str | None) -> str:
    if path is None:
        return "The details could not be kept, since no file can be written: free some space, and try again."
    return (
        f"The details are in {path}: please send that file to the people who look after gridproof, with what "
        "you were checking."
    )


UNREADABLE = "{count:Count entry} could not be read:"


STYLE_UNREADABLE = "The house style could not be read, so nothing was judged:"


BOX_SETTINGS_UNREADABLE = "The settings of the box could not be read, so nothing was done:"


def summary(counts: Mapping[str, int]) -> str:
    """Say how many puzzles came to which end.

    Examples
    --------
    >>> summary({"unreadable": 1, "accepted": 2})
    '3 puzzles: 2 accepted, 1 unreadable'
    """
    total = sum(counts.values())
    words = (*_ENDS, *(word for word in counts if word not in _ENDS))
    told = [f"{counts[word]} {word}" for word in words if counts.get(word)]
    return f"{total:,} puzzle{'' if total == 1 else 's'}: {', '.join(told) or 'none yet'}"


def mend_next(addresses: Sequence[str], broken: int) -> str:
    """Say which commands tell what is wrong with broken puzzles, and what puts them right.

    Parameters
    ----------
    addresses : sequence of str
        Of those that are named.
    broken : int
        How many there are.

    Examples
    --------
    >>> print(mend_next(["box.yaml#2"], 1))
    One puzzle is broken. To see what is wrong with it, and how to put it right:
      gridproof mend box.yaml#2
    >>> print(mend_next(["late post.yaml"], 3))
    Three puzzles are broken. To see what is wrong with them, and how to put them right:
      gridproof mend 'late post.yaml'
      and so for the other two
    """
    one = broken == 1
    it, are = ("it", "is") if one else ("them", "are")
    opening = f"{counted(broken, 'puzzle').capitalize()} {are} broken. "
    lines = [f"  gridproof mend {_as_word(address)}" for address in addresses or ["FILE"]]
    if addresses and broken > len(addresses):
        lines.append(f"  and so for the other {in_figures(broken - len(addresses))}")
    return "\n".join([f"{opening}To see what is wrong with {it}, and how to put {it} right:", *lines])


def _as_word(address: str) -> str:
    """Return an address as a shell takes it, in quotes only where it must be."""
    return address if _PLAIN_WORD.match(address) else shlex.quote(address)


_PLAIN_WORD = re.compile(r"[\w./][\w./#@%+=:,-]*\Z")


_ENDS = ("accepted", "rejected", "undecided", "unreadable")


def interrupted(done: int, where: str | None) -> str:
    """Say what is finished when Ctrl-C ended the run."""
    kept = f" Their verdicts are in {where}." if where and done else ""
    return (
        f"Stopped. {counted(done, 'puzzle').capitalize()} had been judged.{kept} Run it again for the others."
    )


PAGE_WRITTEN = "The page is in {path}."


SHEET_WRITTEN = "{path}: {pages:count page}."


def not_accepted(address: str, state: str, *, printed: bool) -> str:
    """Say that a puzzle is not fit to print."""
    then = "It is printed all the same, as asked" if printed else "It is not printed"
    return f"{address} is {state}. {then}; 'gridproof check' says why."


WRONG_ENDING = "{option}: found '{path:text 200}'; allowed: a file that ends in {endings:or}."


NO_SUCH_PAPER = "--paper: found '{paper:text 40}'; allowed: {papers:or}."


LETTERS_LACKING = "{puzzle:text}: the font has no {letters:or}: boxes stand in their place."


CANNOT_WRITE = "cannot write to {where}: {why}. Free the place, or give another one with {option}."


CLASH_OF_TABLE_AND_OUT = "'--table' prints to standard output and '--out' writes files: give one of them."


NO_PUZZLES = "There was no puzzle to judge."


TOO_MANY_CELLS = (
    "{size:count cell} cannot hold different digits from 1 to {digits}: give at most {digits:count cell}, "
    "or the largest digit with --digits."
)


def no_combination(total: int, size: int, digits: int, least: int, most: int) -> str:
    """Say which totals can be made."""
    cells = counted(size, "cell")
    return (
        f"No {cells} make {total} with different digits from 1 to {digits}: {cells} make {least} to {most}."
    )


def none_left(total: int, size: int, held: Sequence[int], barred: Sequence[int]) -> str:
    """Say that a total can be made, but not with and without the digits asked for."""
    asked = [f"with {listed(map(str, held))}"] if held else []
    asked += [f"without {listed(map(str, barred), 'and')}"] if barred else []
    return f"{total} in {counted(size, 'cell')} can be made, but not {' and '.join(asked)}."


BOTH_WITH_AND_WITHOUT = "{digits:and} cannot be both with and without."


def not_digits(word: str, digits: int) -> str:
    """Say that a list of digits cannot be read."""
    example = "789" if digits < 10 else "7,8,12"
    return f"found '{printable(word, 40)}'; allowed: digits from 1 to {digits}, such as {example}."


def unknown_technique(word: str, nearest: str | None) -> str:
    """Say that there is no such technique."""
    meant = f" Did you mean '{nearest}'?" if nearest else ""
    return f"No technique is called '{printable(word, 40)}'.{meant} 'gridproof techniques' lists them all."


BOTH_FROM_STANDARD_INPUT = "Standard input, '-', can be one of the two puzzles, not both."
NO_WISH = (
    "Say what you wish for: --tier, --effort, --without, --with, --givens, --cages, --symmetry or --style."
)
NOT_AN_EFFORT = "found '{word:text 40}'; allowed: two whole numbers, the smaller first, such as 150-200."
NO_SUCH_SYMMETRY = "--symmetry: found '{word:text 40}'; allowed: {names:or}.{meant}"
NO_SUCH_THIRD = "--break-in: found '{word:text 40}'; allowed: {names:or}.{meant}"
NO_SUCH_TIER = "--tier: found {tier}; this house has tiers 1 to {last}."
TIER_NOT_TAKEN = "--tier: found {tier}; house style {name:text 60} takes only tiers {tiers:and}."
WITH_AND_WITHOUT = "'{technique}' is asked for both with and without: give one of them."
MEANT = " Did you mean '{word}'?"
TUNING = "{changes:count change}: {tried} looked at, {found} found"
WRITTEN = "{count:Count puzzle} written to {out}."


RULES_HINT = (
    "'gridproof rules {name}' explains one of them; with --example, it prints a whole file to start from."
)
RULE_HEAD = "{name} ({group})"
RULE_IN_A_FILE = "In a file:"
RULE_ALLOWED = "Allowed: {allowed}"
RULE_TO_START = "'gridproof rules {name} --example' prints a whole file to start from."
EXAMPLE_OF_WHAT = "--example needs the name of a rule. 'gridproof rules' lists them all."


def unknown_rule(word: str, nearest: str | None) -> str:
    """Say that there is no such rule."""
    meant = f" Did you mean '{nearest}'?" if nearest else ""
    return f"No rule is called '{printable(word, 40)}'.{meant} 'gridproof rules' lists them all."


def heading(address: str, title: str | None) -> str:
    """Return the line above what is said of one puzzle.

    Examples
    --------
    >>> heading("box.yaml#3", "Low tide"), heading("box.yaml#4", None)
    ('box.yaml#3: Low tide', 'box.yaml#4')
    """
    return f"{address}: {printable(title)}" if title else address


def clash(one: str, other: str) -> str:
    """Say that two options exclude each other."""
    return f"'{one}' and '{other}' ask for different things: give one of them."


BLOCKED_CELL = "--from: found '{name:text 40}', which is blocked; allowed: a cell that is to be filled."
NO_SUCH_CELL = (
    "--from: found '{name:text 40}'; allowed: a cell such as r1c2, rows 1 to {rows} and columns 1 to "
    "{columns}."
)


STANDARD_INPUT_TWICE = (
    "Standard input, '-', can be the puzzle or the part-filled grid, not both. Name a file for one of them."
)


ONE_PUZZLE = "{file:text} holds {count:count puzzle}: name one of them, such as {file:text}#2."


NEEDS = "'{option}' goes with '{other}': give that as well, or leave it out."


NEEDS_LEDGER = "name the file of the ledger with --ledger; it is made if it is not there."


NEEDS_PATHS = "name files, folders or archives to judge, or give --report."


JUDGED_BY_ANOTHER_STYLE = (
    "This ledger has {number:count verdict} made under another house style than the one that is named. To "
    "have them made anew, judge the box with that style."
)


def forgotten(submissions: int, printed: int) -> str:
    """Say what was taken out of the ledger.

    Examples
    --------
    >>> forgotten(2, 0), forgotten(0, 12)
    ('Forgotten: two submissions.', 'Forgotten: twelve printed puzzles.')
    """
    told = [(submissions, "submission"), (printed, "printed puzzle")]
    return f"Forgotten: {listed(counted(number, noun) for number, noun in told if number)}."


KEPT_ON_A_PAGE = {
    "scheduled": "{address} is scheduled for {day} and stays in the ledger. Take it off that page first: "
    "gridproof plan --release.",
    "printed": "{address} was printed on {day} and stays in the ledger: what is sent later is compared with "
    "it.",
}
"""Why something is not forgotten."""


def nothing_to_forget(addresses: Sequence[str]) -> str:
    """Say that the ledger has nothing at some addresses."""
    return (
        f"--forget: the ledger has nothing at {listed(printable(address, 200) for address in addresses)}. "
        "'gridproof intake --report --list accepted' names the addresses of what is accepted."
    )


def needs_report(options: Sequence[str]) -> str:
    """Say that options belong to the report."""
    return f"{listed(options)} only with --report."


def report_judges_nothing(options: Sequence[str]) -> str:
    """Say that options do not go with the report."""
    return f"--report judges nothing: leave out {listed(options)}."


NO_SUCH_STATE = "found '{word:text 40}'; allowed: {states:or}."


OUT_HOLDS_SUBMISSIONS = (
    "--out {out:text 300} is a folder of submissions, which verdict files could overwrite. Give another "
    "folder."
)


ONE_THING_WITH_A_PLAN = "'--take', '--release' and '--printed-on' do different things: give one of them."
NEEDS_SLOTS = "name the slots of the page with --slots, or in intake.yaml."
NEEDS_A_DAY = "say for which day: 'first: 2026-03-30' in the file of slots, or --first 2026-03-30."
SLOTS_UNREADABLE = "The slots could not be read, so nothing was planned:"


NO_SUCH_DAY = "found '{word:text 40}'; allowed: a day such as 2026-03-30."


TAKEN = "{number:count puzzle} scheduled; --release takes that back"


RELEASED = "{number:count puzzle} back in stock"


MARKED_PRINTED = "{number:count puzzle} scheduled until {day} now printed"


TEMPLATE_UNREADABLE = "The template for letters could not be read, so nothing was judged:"


NO_SUCH_LETTERS = "--letters: found '{word:text 40}'; allowed: {words:or}."


def letters_written(number: int, folder: str) -> str:
    """Say how many letters there are, and where.

    Examples
    --------
    >>> letters_written(2, "verdicts/for-setters/2026-03-30")
    'two letters to setters, to be sent, are in verdicts/for-setters/2026-03-30'
    """
    be = "is" if number == 1 else "are"
    return f"{counted(number, 'letter')} to setters, to be sent, {be} in {printable(folder, 300)}"


VERDICTS_ARE_IN = "verdicts and lists are in {folder:text 300}"


def at_work(counts: Mapping[str, int], rate: float, seconds_left: float | None) -> str:
    """Say how far a run is.

    Examples
    --------
    >>> at_work({"accepted": 900, "rejected": 100}, 61.4, 754.0)
    '1,000 puzzles: 900 accepted, 100 rejected; 61.4 a second; about 13 min left'
    """
    left = "" if seconds_left is None else f"; about {_duration(seconds_left)} left"
    return f"{summary(counts)}; {rate:.1f} a second{left}"


def _duration(seconds: float) -> str:
    if seconds < 90:
        return f"{seconds:.0f} s"
    minutes = seconds / 60
    return f"{minutes:.0f} min" if minutes < 90 else f"{minutes / 60:.1f} h"


REPEATS = "{address} repeats {printed}: {guise}."


def not_there(paths: Sequence[str]) -> str:
    """Say that what was named is not there.

    Examples
    --------
    >>> not_there(["pots/"])
    "there is no file or folder 'pots/'. Correct the name."
    """
    named = listed([f"'{printable(path, 300)}'" for path in paths], "or")
    return f"there is no file or folder {named}. Correct the name."


NO_FOLDER_OF_PRINTED = "'--printed' needs a folder of printed puzzles; found none at '{folder:text}'."


NOTHING_PRINTED_THERE = (
    "'--printed' needs a folder of printed puzzles, or a ledger; there is none at '{path:text}'."
)
PRINTED_UNREAD = "Not compared with printed puzzles that could not be read: {addresses:and}."

NO_DESK = (
    "the desk needs more packages than the rest of gridproof. Install them: pip install 'gridproof[desk]'"
)
DESK_WANTS_A_FILE = "{path:text} is a folder. Name the file of the puzzle; it need not be there yet."
NO_FOLDER_FOR_DESK = "no folder {folder:text} for {path:text}. Make the folder first, or name another."
DESK_CANNOT_READ = "{path:text} was not opened. Put right what is named above, then start again."
DESK_WANTS_ONE = (
    "{path:text} holds several puzzles, or none. The desk opens one: copy that into a file of its own."
)
PORT_TAKEN = "cannot listen on port {port} of this machine: {why:text}. Choose another with --port, or none."
